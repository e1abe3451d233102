//! What a job sees: the entries of its own file, of its plant and of the yard, by name.

use crate::declare::{Block, Body, EntryKind, Link, Role, header_name, nearest};
use crate::entries::KINDS;
use crate::mentions::{Mentions, head_of};
use crate::option_of::{OptionOf, declared_options};
use crate::reading::{Around, LookedUp, Reading};
use crate::{Like, follows, in_plant, like, notices};
use plumbhook_sheet::{EntryKey, EntryRef, Notice, Origin, Part};
use plumbhook_syntax::Node;
use rustc_hash::FxHashMap;
use std::sync::Arc;

/// An entry as read, with what was wrong in it. It holds no place in the file.
pub struct Declared {
    /// Its identity.
    pub key: EntryRef,
    /// Its declaration; `None` where its word starts no entry.
    pub block: Option<&'static Block>,
    /// Its quoted title.
    pub title: Box<str>,
    /// What was read.
    pub body: Option<Arc<dyn Body>>,
    /// What was wrong in it.
    pub notices: Vec<Notice>,
    /// The text behind it that starts no entry and may hold lines of it.
    pub behind: Box<str>,
    /// What it looked up beside itself in its file.
    pub looked_up: LookedUp,
    /// Which names lead from it elsewhere.
    pub mentions: Mentions,
}

impl std::fmt::Debug for Declared {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Declared")
            .field("key", &self.key)
            .finish_non_exhaustive()
    }
}

impl Declared {
    /// Reads the text of one entry that sees nothing beside itself. Never fails: what could not be read is in
    /// `notices`.
    pub fn read(file: &Arc<str>, nth: u32, text: &str) -> Self {
        Self::read_in(file, nth, text, &Around::default())
    }

    /// Reads the text of one entry of a file that names values.
    pub fn read_in(file: &Arc<str>, nth: u32, text: &str, around: &Around) -> Self {
        Self::read_before(file, nth, text, "", around)
    }

    /// Reads the text of one entry, with the text behind it that starts no entry.
    pub fn read_before(
        file: &Arc<str>,
        nth: u32,
        text: &str,
        behind: &str,
        around: &Around,
    ) -> Self {
        let entry = plumbhook_syntax::read_entry(text);
        let word = entry.header.key.raw(entry.header.text);
        let key: EntryRef = Arc::new(EntryKey {
            file: Arc::clone(file),
            word: word.into(),
            name: header_name(&entry.header).into(),
            nth,
        });
        let mut notices = Vec::new();
        let kind = KINDS.iter().find(|kind| kind.block.word == word);
        let reading = Reading::new(&key, around).with_behind(behind);
        let body = kind.map(|kind: &EntryKind| (kind.read)(&reading, &entry, &mut notices));
        if kind.is_none() {
            notices.push(unknown_entry(&key, word, entry.header.key.place));
        }
        let title = entry.header.items.iter().find_map(|item| match item.node {
            Node::Text(title) => Some(title),
            _ => None,
        });
        Self {
            key,
            block: kind.map(|kind| kind.block),
            title: title.unwrap_or_default().into(),
            mentions: body.as_deref().map(Mentions::of).unwrap_or_default(),
            body,
            notices,
            behind: behind.into(),
            looked_up: reading.looked_up(),
        }
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.key.name
    }

    /// As what it was declared to be.
    pub fn of<T: 'static>(&self) -> Option<&T> {
        self.body.as_ref()?.as_any().downcast_ref()
    }

    /// Of which option it is a part.
    pub fn option(&self) -> OptionOf<'_> {
        let line = self.body.as_ref().and_then(|body| body.option());
        match line.filter(|line| !line.is_absent()) {
            None => OptionOf::Each,
            Some(line) => match line.known() {
                Some(given) => OptionOf::One(given.value.0.head()),
                None => OptionOf::NotKnown,
            },
        }
    }

    /// Whether it can be that for others.
    pub fn is(&self, role: Role) -> bool {
        self.block.is_some_and(|block| block.roles.contains(&role))
    }
}

fn unknown_entry(key: &EntryRef, word: &str, place: plumbhook_syntax::Place) -> Notice {
    let of_entry = KINDS.iter().find(|kind| {
        kind.block
            .keys
            .iter()
            .any(|key| key.word == word && !word.is_empty())
    });
    let near = nearest(word, KINDS.iter().map(|kind| kind.block.word));
    let mend = match (of_entry, near) {
        (Some(kind), _) => format!(
            "`{word}` is a key of `{}`: indent the line",
            kind.block.word
        ),
        (None, Some(near)) => format!("did you mean `{near}`?"),
        (None, None) => {
            let words: Vec<_> = KINDS.iter().map(|kind| kind.block.word).collect();
            format!("an entry starts with one of {}", words.join(", "))
        }
    };
    Notice {
        code: &notices::UNKNOWN_ENTRY,
        say: format!("`{word}` starts no entry; its lines are not read"),
        origin: Origin::at(key, 0, place.start, place.end, Part::Header),
        related: vec![],
        mend,
    }
}

/// The entries of one or more files, by name and by role. Made once, shared by every job that sees them.
#[derive(Debug, Default)]
pub struct Layer {
    entries: Vec<Arc<Declared>>,
    names: FxHashMap<Box<str>, Vec<Arc<Declared>>>,
    plants: Vec<Arc<Declared>>,
    options: Vec<Box<str>>,
}

impl Layer {
    /// From entries in order.
    pub fn new(entries: Vec<Arc<Declared>>) -> Self {
        let mut names: FxHashMap<Box<str>, Vec<Arc<Declared>>> = FxHashMap::default();
        for entry in &entries {
            // What nothing can name (a job, a yard) takes no name away from what can be.
            let nameable = entry.block.is_some_and(|block| !block.roles.is_empty());
            if nameable && !entry.name().is_empty() {
                names
                    .entry(entry.name().into())
                    .or_default()
                    .push(Arc::clone(entry));
            }
        }
        let plants = entries.iter().filter(|entry| entry.is(Role::Plant));
        Self {
            plants: plants.map(Arc::clone).collect(),
            options: declared_options(&entries),
            entries,
            names,
        }
    }

    /// Every entry in order.
    pub fn entries(&self) -> &[Arc<Declared>] {
        &self.entries
    }
}

/// What a name leads to.
#[derive(Clone, Debug)]
pub enum Found {
    /// Nothing.
    Nowhere,
    /// One entry.
    One(Arc<Declared>),
    /// Several: it leads to none of them.
    Several(Vec<Arc<Declared>>),
}

/// Whether two lists hold the very same entries.
pub fn same_entries(a: &[Arc<Declared>], b: &[Arc<Declared>]) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| Arc::ptr_eq(a, b))
}

/// Of which options entries are seen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Through {
    /// Of all of them: for questions about the text.
    #[default]
    All,
    /// Of one beside those that belong to each, or of these alone: for a case.
    One(Option<Box<str>>),
}

/// What one job sees.
#[derive(Clone, Debug)]
pub struct Scope {
    /// The job's own entries first, then plant and yard.
    pub layers: Vec<Arc<Layer>>,
    /// Of which options.
    pub through: Through,
}

impl Scope {
    /// Of these layers, the job's own entries first; entries of every option are seen.
    pub fn new(layers: Vec<Arc<Layer>>) -> Self {
        Self {
            layers,
            through: Through::All,
        }
    }

    /// The same, seen by the cases of one option; of none, entries that belong to each alone.
    #[must_use]
    pub fn of_option(&self, option: Option<&str>) -> Self {
        Self {
            layers: self.layers.clone(),
            through: Through::One(option.map(Into::into)),
        }
    }

    /// The options that the job declares, in order, then those that entries name and nobody declares.
    pub fn options(&self) -> &[Box<str>] {
        self.layers.first().map_or(&[], |own| &own.options)
    }

    /// Whether its cases see an entry.
    pub(crate) fn sees(&self, entry: &Declared) -> bool {
        match (&self.through, entry.option()) {
            (Through::All, _) | (_, OptionOf::Each) => true,
            (Through::One(_), OptionOf::NotKnown) => false,
            (Through::One(own), OptionOf::One(its)) => own.as_deref() == Some(its),
        }
    }

    fn all(&self, name: &str) -> impl Iterator<Item = &Arc<Declared>> {
        let head = head_of(name);
        let found = self
            .layers
            .iter()
            .filter_map(move |layer| layer.names.get(head));
        found.flatten().filter(|entry| self.sees(entry))
    }

    /// What a name leads to; what stands before the dot decides.
    pub fn find(&self, name: &str) -> Found {
        let mut all = self.all(name);
        match (all.next(), all.next()) {
            (None, _) => Found::Nowhere,
            (Some(one), None) => Found::One(Arc::clone(one)),
            (Some(_), Some(_)) => Found::Several(self.all(name).map(Arc::clone).collect()),
        }
    }

    /// Whether a name leads to the very same entries as before, unchanged. Asked of every name of every kept case at
    /// every keystroke, so it clones nothing.
    pub fn still_finds(&self, name: &str, before: &Found) -> bool {
        let before = match before {
            Found::Nowhere => &[],
            Found::One(one) => std::slice::from_ref(one),
            Found::Several(several) => several,
        };
        let mut now = self.all(name);
        before
            .iter()
            .all(|entry| now.next().is_some_and(|now| Arc::ptr_eq(now, entry)))
            && now.next().is_none()
    }

    /// The plants that the job sees: one, if all is well.
    pub fn plants(&self) -> impl Iterator<Item = &Arc<Declared>> {
        self.layers.iter().flat_map(|layer| &layer.plants)
    }

    /// What a link leads to: where a line of the plant is meant, the plant.
    pub fn lead(&self, link: &Link<'_>) -> Found {
        if !link.role.is_in_plant() {
            return self.find(link.name);
        }
        let plants: Vec<_> = self.plants().map(Arc::clone).collect();
        match <[_; 1]>::try_from(plants) {
            Ok([plant]) => Found::One(plant),
            Err(plants) if plants.is_empty() => Found::Nowhere,
            Err(plants) => Found::Several(plants),
        }
    }

    /// Whether a name leads to one entry, of that role.
    fn leads_to(&self, name: &str, role: Role) -> bool {
        let mut all = self.all(name);
        all.next().is_some_and(|one| one.is(role)) && all.next().is_none()
    }

    /// Every entry of that role, in order.
    pub fn of_role(&self, role: Role) -> Vec<Arc<Declared>> {
        self.layers
            .iter()
            .flat_map(|layer| layer.entries())
            .filter(|entry| entry.is(role) && self.sees(entry))
            .map(Arc::clone)
            .collect()
    }

    /// Names that something of that role has, for did-you-mean and completion.
    pub fn names_of(&self, role: Role) -> Vec<Box<str>> {
        self.of_role(role)
            .iter()
            .map(|entry| entry.key.name.clone())
            .collect()
    }
}

pub(crate) fn names_in(scope: &Scope, entry: &Declared) -> Vec<Notice> {
    let Some(body) = &entry.body else {
        return vec![];
    };
    let like = body.like().map(Like::link);
    let links = body.links().into_iter().chain(like);
    links
        .filter(|link| link.role.is_in_plant() || !scope.leads_to(link.name, link.role))
        .filter_map(|link| {
            if link.role.is_in_plant() {
                let (say, mend) = in_plant::fault(scope, &link)?;
                return Some(Notice {
                    code: &notices::NAME_NOT_FOUND,
                    say,
                    origin: link.origin.clone(),
                    related: vec![],
                    mend,
                });
            }
            let (code, say, mend) = match scope.find(link.name) {
                Found::Nowhere => {
                    let names = scope.names_of(link.role);
                    let near = nearest(link.head(), names.iter().map(|name| &**name));
                    let mend =
                        near.map_or_else(String::new, |near| format!("did you mean `{near}`?"));
                    (
                        &notices::NAME_NOT_FOUND,
                        format!(
                            "`{}` names no {} that this job sees",
                            link.head(),
                            link.role.say()
                        ),
                        mend,
                    )
                }
                Found::One(found) if found.is(link.role) => return None,
                Found::One(found) => (
                    &notices::NAME_OF_ANOTHER_KIND,
                    format!(
                        "`{}` is a {}; a {} is wanted here",
                        link.head(),
                        found.key.word,
                        link.role.say()
                    ),
                    String::new(),
                ),
                Found::Several(found) => (
                    &notices::NAME_TWICE,
                    format!(
                        "`{}` is declared {} times, so it leads nowhere",
                        link.head(),
                        found.len()
                    ),
                    "give one of them another name".to_owned(),
                ),
            };
            Some(Notice {
                code,
                say,
                origin: link.origin.clone(),
                related: vec![],
                mend,
            })
        })
        .chain(like::notice(scope, entry))
        .chain(follows::notice(scope, entry))
        .collect()
}
