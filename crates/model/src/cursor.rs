//! Walks the items of one line for a value's reader, and says where reading failed.

use crate::declare::Key;
use crate::notices;
use crate::reading::Reading;
use plumbhook_sheet::{EntryRef, Lack, Notice, Origin, Part, Related};
use plumbhook_syntax::{Item, Node, Place, Row, Statement};

/// Why a value could not be had.
#[derive(Debug)]
pub enum Fail {
    /// The line says `unknown`.
    Unknown,
    /// A name in it has no value: why, and where the name is given.
    Lacks(Box<(Lack, Origin)>),
    /// The line could not be read.
    Broken(Box<Broken>),
}

impl Fail {
    /// What could not be read, at some bytes of a line of the entry.
    pub fn broken(line: u32, place: Place, say: impl Into<String>, mend: &str) -> Self {
        Self::Broken(Box::new(Broken {
            say: say.into(),
            line,
            place,
            mend: mend.to_owned(),
            related: vec![],
        }))
    }
}

/// What could not be read, where, and what would mend it.
#[derive(Debug)]
pub struct Broken {
    /// What is wrong.
    pub say: String,
    /// Line inside the entry.
    pub line: u32,
    /// Where in the line.
    pub place: Place,
    /// What would mend it.
    pub mend: String,
    /// Other places of it, as a line of a `.csv`.
    pub related: Vec<Related>,
}

impl Broken {
    /// As a notice of the key it belongs to.
    pub fn notice(&self, key: &Key, entry: &EntryRef) -> Notice {
        let mend = match (&*self.mend, key.word) {
            ("", "") => format!("write {}", key.shape.say),
            ("", word) => format!("`{word}` takes {}", key.shape.say),
            (mend, _) => mend.to_owned(),
        };
        Notice {
            code: &notices::NOT_READ,
            say: self.say.clone(),
            origin: Origin::at(
                entry,
                self.line,
                self.place.start,
                self.place.end,
                Part::Value,
            ),
            related: self.related.clone(),
            mend,
        }
    }
}

/// The items of one line and how far they have been read.
pub struct Cursor<'c, 'a> {
    items: &'c [Item<'a>],
    at: usize,
    /// The text of the line.
    pub text: &'a str,
    /// Line inside the entry.
    pub line: u32,
    /// Rows that follow the line.
    pub rows: &'c [Row<'a>],
    /// The entry, and what its lines may look up.
    pub entry: &'c Reading<'c>,
    key: Place,
}

impl<'c, 'a> Cursor<'c, 'a> {
    /// At the items of `line`, after the first `skip`.
    pub fn new(line: &'c Statement<'a>, skip: usize, entry: &'c Reading<'c>) -> Self {
        Self {
            items: &line.items,
            at: skip.min(line.items.len()),
            text: line.text,
            line: line.line,
            rows: &line.rows,
            entry,
            key: line.key.place,
        }
    }

    /// At the items of one cell of a row.
    pub fn cell(
        row: &'c Row<'a>,
        cell: &'c plumbhook_syntax::Cell<'a>,
        entry: &'c Reading<'c>,
    ) -> Self {
        Self {
            items: &cell.items,
            at: 0,
            text: row.text,
            line: row.line,
            rows: &[],
            entry,
            key: cell.place,
        }
    }

    /// The next item, not taken.
    pub fn peek(&self) -> Option<&'c Item<'a>> {
        self.items.get(self.at)
    }

    /// Takes the next item.
    pub fn take(&mut self) -> Option<&'c Item<'a>> {
        let item = self.items.get(self.at)?;
        self.at += 1;
        Some(item)
    }

    /// Takes the next item if it is this word.
    pub fn word(&mut self, word: &str) -> bool {
        let found = self
            .peek()
            .is_some_and(|item| matches!(item.node, Node::Word(w) if w == word));
        self.at += usize::from(found);
        found
    }

    /// Takes the next item if it is a comma.
    pub fn comma(&mut self) -> bool {
        let found = self
            .peek()
            .is_some_and(|item| matches!(item.node, Node::Comma));
        self.at += usize::from(found);
        found
    }

    /// The word that follows a comma at the cursor, without taking either.
    pub fn next_after_comma(&self) -> Option<&'a str> {
        self.peek()
            .filter(|item| matches!(item.node, Node::Comma))?;
        match self.items.get(self.at + 1)?.node {
            Node::Word(word) => Some(word),
            _ => None,
        }
    }

    /// Whether a word glues the parts of a line together, and so is no name.
    pub fn is_glue(word: &str) -> bool {
        const GLUE: &[&str] = &[
            "from", "at", "to", "on", "by", "of", "under", "over", "with", "within", "through",
            "unknown", "expected",
        ];
        GLUE.contains(&word)
    }

    /// Takes a name: a word that is no glue word, or a bare number such as a tag.
    pub fn name(&mut self, what: &str) -> Result<(&'a str, Place), Fail> {
        match self.peek() {
            Some(item) if matches!(item.node, Node::Word("unknown")) => Err(Fail::Unknown),
            Some(item)
                if matches!(item.node, Node::Word(w) if !Self::is_glue(w))
                    || matches!(item.node, Node::Number { .. }) =>
            {
                self.at += 1;
                Ok((item.raw(self.text), item.place))
            }
            _ => Err(self.broken(format!("{what} is missing here"), "")),
        }
    }

    /// Whether everything has been read.
    pub fn done(&self) -> bool {
        self.at >= self.items.len()
    }

    /// An error if anything is left over.
    pub fn finish(&self) -> Result<(), Fail> {
        match (self.peek(), self.items.last()) {
            (Some(first), Some(last)) => {
                if let Node::Bad(fault) = &first.node {
                    return Err(self.broken_at(first.place, fault.say().into_owned(), ""));
                }
                let place = Place {
                    start: first.place.start,
                    end: last.place.end,
                };
                let left = self
                    .text
                    .get(place.start as usize..place.end as usize)
                    .unwrap_or_default();
                Err(self.broken_at(
                    place,
                    format!("`{left}` is left over; the line does not count"),
                    "",
                ))
            }
            _ => Ok(()),
        }
    }

    /// A failure at the next item, or at the end of the line.
    pub fn broken(&self, say: impl Into<String>, mend: &str) -> Fail {
        self.broken_at(self.here(), say, mend)
    }

    /// The next item, or the end of the line.
    pub fn here(&self) -> Place {
        let last = || self.items.last().map_or(self.key, |last| last.place);
        self.peek().map_or_else(last, |item| item.place)
    }

    /// Takes a day, ISO. Where another form stands, the days that it may mean are told.
    pub fn day(&mut self, mend: &str) -> Result<String, Fail> {
        let place = self.here();
        match self.peek().map(|item| &item.node) {
            Some(Node::Date(day)) => {
                let day = (*day).to_owned();
                self.take();
                Ok(day)
            }
            Some(Node::Bad(fault)) => Err(self.broken_at(place, fault.say().into_owned(), mend)),
            _ => Err(self.broken("the day is missing here", mend)),
        }
    }

    /// A failure at `place`.
    pub fn broken_at(&self, place: Place, say: impl Into<String>, mend: &str) -> Fail {
        Fail::broken(self.line, place, say, mend)
    }

    /// The origin of some bytes of this line.
    pub fn origin(&self, place: Place, part: Part) -> Origin {
        Origin::at(self.entry, self.line, place.start, place.end, part)
    }
}
