//! An entry that is being read: its identity, and what its lines may look up beside themselves.

use crate::declare::nearest;
use crate::named::Named;
use plumbhook_sheet::{Calculation, EntryRef, Origin};
use plumbhook_syntax::{Document, Item, Node, read_entry};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::ops::Deref;
use std::sync::Arc;

/// What the entries of one file may look up beside their own lines: the named values of that file and no other, and
/// the texts that it names.
#[derive(Clone, Debug, Default)]
pub struct Around {
    pub(crate) named: Arc<BTreeMap<Box<str>, Arc<Named>>>,
    beside: Texts,
}

/// Texts beside a file, by the name that its lines give them.
pub type Texts = Arc<BTreeMap<Box<str>, Beside>>;

/// A text beside a file: a `.csv` that one of its lines names.
#[derive(Clone, Debug)]
pub struct Beside {
    /// The path as the user would write it.
    pub shown: Arc<str>,
    /// The text, or why there is none and what would mend it.
    pub text: Result<Arc<Document>, (String, String)>,
}

/// The same text by the same name, whether read once or twice.
impl PartialEq for Beside {
    fn eq(&self, other: &Self) -> bool {
        let same = match (&self.text, &other.text) {
            (Ok(a), Ok(b)) => Arc::ptr_eq(a, b) || a.text() == b.text(),
            (Err(a), Err(b)) => a == b,
            _ => false,
        };
        same && self.shown == other.shown
    }
}

/// The names of all texts that a block may look up, in order. More than it does look up is no harm.
pub fn wanted_texts(block: &str) -> Vec<Box<str>> {
    let entry = read_entry(block);
    let mut wanted = Vec::new();
    for line in entry.statements {
        for pair in line.items.windows(2) {
            if let [into, name] = pair
                && into.word() == Some("in")
                && let Some(name) = text_name(name)
            {
                wanted.push(name.into());
            }
        }
    }
    wanted
}

/// The name of a `.csv`: a bare word, or quoted where it has blanks.
pub(crate) fn text_name<'a>(item: &Item<'a>) -> Option<&'a str> {
    match item.node {
        Node::Word(name) | Node::Text(name) => name.strip_suffix(".csv").map(|_| name),
        _ => None,
    }
}

/// What a word stands for in the place of a value.
#[derive(Clone, Debug, PartialEq)]
pub enum WordFound {
    /// A value that a `let` of the file names.
    Named(Arc<Named>),
    /// Nothing; with the nearest name that the file has.
    Nothing(Option<Box<str>>),
}

impl Around {
    /// What a word stands for.
    pub fn look_up(&self, word: &str) -> WordFound {
        if let Some(named) = self.named.get(word) {
            return WordFound::Named(Arc::clone(named));
        }
        let names = self.named.keys().map(|name| &**name);
        WordFound::Nothing(nearest(word, names).map(Into::into))
    }

    /// The same named values beside other texts.
    #[must_use]
    pub fn beside(&self, beside: Texts) -> Self {
        Self {
            named: Arc::clone(&self.named),
            beside,
        }
    }

    /// Every named value, by name.
    pub fn named(&self) -> impl Iterator<Item = (&str, &Named)> {
        self.named.iter().map(|(name, named)| (&**name, &**named))
    }
}

/// What an entry looked up while it was read; while all of it is the same, so is the entry.
#[derive(Clone, Debug, Default)]
pub struct LookedUp {
    words: Vec<(Box<str>, WordFound)>,
    texts: Vec<(Box<str>, Option<Beside>)>,
}

impl LookedUp {
    /// Whether the entry would find the same again.
    pub fn holds(&self, around: &Around) -> bool {
        self.words
            .iter()
            .all(|(word, found)| around.look_up(word) == *found)
            && self
                .texts
                .iter()
                .all(|(name, text)| around.beside.get(name) == text.as_ref())
    }
}

/// What the values of one line were made of.
#[derive(Debug, Default)]
pub(crate) struct Made {
    /// Each calculation, and each value that has a name.
    pub(crate) calculations: Vec<Calculation>,
    /// The named values.
    pub(crate) named: Vec<Arc<Named>>,
    /// Whether a quantity stands in the line itself.
    pub(crate) typed: bool,
}

/// An entry that is being read. It stands for the entry wherever only that is asked for.
#[derive(Debug)]
pub struct Reading<'r> {
    key: EntryRef,
    behind: Option<&'r str>,
    around: Option<&'r Around>,
    looked_up: RefCell<LookedUp>,
    made: RefCell<Made>,
}

impl<'r> Reading<'r> {
    /// An entry of a file that names values.
    pub fn new(key: &EntryRef, around: &'r Around) -> Self {
        Self {
            around: Some(around),
            ..Self::alone(key)
        }
    }

    /// An entry that sees nothing beside itself.
    pub fn alone(key: &EntryRef) -> Self {
        Self {
            key: Arc::clone(key),
            behind: None,
            around: None,
            looked_up: RefCell::default(),
            made: RefCell::default(),
        }
    }

    /// With the text behind it that starts no entry.
    #[must_use]
    pub fn with_behind(mut self, behind: &'r str) -> Self {
        self.behind = (!behind.is_empty()).then_some(behind);
        self
    }

    /// The text behind it that starts no entry, so that its lines may be lines of this one.
    pub(crate) fn behind(&self) -> Option<&'r str> {
        self.behind
    }

    /// Everything that was looked up.
    pub fn looked_up(self) -> LookedUp {
        self.looked_up.into_inner()
    }

    /// What a word stands for; it is noted that the entry depends on it.
    pub(crate) fn word(&self, word: &str) -> WordFound {
        let found = self
            .around
            .map_or(WordFound::Nothing(None), |around| around.look_up(word));
        if let Ok(mut looked_up) = self.looked_up.try_borrow_mut()
            && !looked_up.words.iter().any(|(before, _)| **before == *word)
        {
            looked_up.words.push((word.into(), found.clone()));
        }
        found
    }

    /// The text of that name beside the file; it is noted that the entry depends on it.
    pub(crate) fn text(&self, name: &str) -> Option<Beside> {
        let found = self
            .around
            .and_then(|around| around.beside.get(name))
            .cloned();
        if let Ok(mut looked_up) = self.looked_up.try_borrow_mut() {
            looked_up.texts.push((name.into(), found.clone()));
        }
        found
    }

    /// Notes something of which the value of the present line is made.
    pub(crate) fn note(&self, note: impl FnOnce(&mut Made)) {
        if let Ok(mut made) = self.made.try_borrow_mut() {
            note(&mut made);
        }
    }

    /// What the values were made of since this was asked last.
    pub(crate) fn made(&self) -> Made {
        self.made.take()
    }
}

impl Deref for Reading<'_> {
    type Target = EntryRef;

    fn deref(&self) -> &EntryRef {
        &self.key
    }
}

impl Made {
    /// The names in it, with where each is given.
    pub(crate) fn names(&self) -> Vec<(Box<str>, Origin)> {
        let named = self.named.iter();
        named
            .map(|named| (named.name.clone(), named.origin.clone()))
            .collect()
    }
}
