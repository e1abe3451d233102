//! What can stand at a place, from the declarations alone.
//!
//! A line is looked at up to the place, token by token, so that a half-typed or broken one is as good as a whole one.
//! Nothing that is offered holds a number: a number that nobody read off anything must not get into a text.

mod offers;
mod probe;

use crate::place::Spot;
use plumbhook_model::entries::OPENERS;
use plumbhook_model::{Block, Key, Repeat};
use plumbhook_syntax::{Class, Entry, Place, Token, read_entry, tokens};
use plumbhook_workspace::{Snapshot, SourceFile};
use probe::Probe;
use std::path::Path;
use std::sync::Arc;

/// What kind of thing is offered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OfferKind {
    /// A word that starts an entry.
    EntryWord,
    /// A key of an entry.
    Key,
    /// A word of a value.
    Word,
    /// The name of an entry or of a member.
    Name,
    /// A unit.
    Unit,
    /// A column of a table.
    Column,
}

/// One thing that can stand at a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// What is shown.
    pub label: String,
    /// What it is.
    pub kind: OfferKind,
    /// A few words beside it.
    pub detail: String,
    /// Its help, in Markdown; may be empty.
    pub help: String,
    /// What is put in.
    pub insert: String,
    /// The same with places to fill in, in the snippet syntax of editors, where there are such places.
    pub snippet: Option<String>,
}

/// What can stand at a place, best first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Completion {
    /// The bytes of the line that each of them replaces: the word at the place.
    pub replaces: Place,
    /// The offers.
    pub offers: Vec<Offer>,
}

/// What can stand at a place of a file; no offers in comments, quotations, numbers, and where only the engineer
/// knows.
///
/// `line` counts from 0, `byte` from the start of the line; a place outside the text is moved into it.
pub fn completion(snapshot: &Snapshot, path: &Path, line: u32, byte: u32) -> Option<Completion> {
    let file = snapshot.file(path)?;
    let document = file.document();
    let text = document.line_text(line)?;
    let byte = narrow(text.floor_char_boundary(byte as usize));
    let mut found = Vec::new();
    tokens(text, &mut found);
    let replaces = typed(text, &found, byte)?;
    let before = found.partition_point(|token| token.end <= replaces.start);
    let line = Line {
        snapshot,
        file,
        number: line,
        text,
        replaces,
        before: found.get(..before)?,
    };
    let offers = line.offers();
    Some(Completion { replaces, offers })
}

fn narrow(byte: usize) -> u32 {
    u32::try_from(byte).unwrap_or(u32::MAX)
}

/// The word that is being typed at a byte, maybe empty; `None` inside what nobody can complete.
fn typed(text: &str, found: &[Token], byte: u32) -> Option<Place> {
    let nothing = Place {
        start: byte,
        end: byte,
    };
    let under = found
        .iter()
        .rfind(|token| token.start < byte && byte <= token.end);
    let Some(token) = under else {
        return Some(nothing);
    };
    let word = Place {
        start: token.start,
        end: token.end,
    };
    match token.class {
        Class::Word => Some(word),
        Class::Number => glued_unit(text, word).filter(|unit| unit.start <= byte),
        Class::Comment | Class::Junk => None,
        // Behind its closing mark a quotation is over.
        Class::Text => (byte == token.end && closed(word.of(text))).then_some(nothing),
        _ if byte == token.end => Some(nothing),
        _ => None,
    }
}

fn closed(quoted: &str) -> bool {
    quoted.len() > 1 && quoted.ends_with('"')
}

/// The letters at the end of a number, as in `12t`; empty behind its last digit.
fn glued_unit(text: &str, number: Place) -> Option<Place> {
    let typed = number.of(text);
    let digits = typed.trim_end_matches(|c: char| c.is_alphabetic() || "/%_".contains(c));
    let all_digits = !digits.contains(char::is_alphabetic);
    let start = number.start + narrow(digits.len());
    all_digits.then_some(Place {
        start,
        end: number.end,
    })
}

/// A line up to the place.
struct Line<'s> {
    snapshot: &'s Snapshot,
    file: &'s Arc<SourceFile>,
    /// In the file, from 0.
    number: u32,
    text: &'s str,
    replaces: Place,
    /// What stands before the word that is being typed.
    before: &'s [Token],
}

impl<'s> Line<'s> {
    fn offers(&self) -> Vec<Offer> {
        if self.replaces.start == 0 {
            return self.entry_words();
        }
        let Some(spot) = Spot::at(self.snapshot, &self.file.path, self.number, 0) else {
            return vec![];
        };
        let Some(block) = spot.entry.block else {
            return vec![];
        };
        let entry = read_entry(spot.text);
        let header = self.before.first().is_some_and(|first| first.start == 0);
        match self.before.split_first() {
            None => self.keys(block, &entry, spot.line),
            Some((first, before)) if first.class == Class::Bar => {
                self.row(block, &entry, spot.line, before)
            }
            Some((first, before)) => {
                // The name of an entry is the engineer's to give.
                let (word, value) = match before.split_first() {
                    Some((_, behind_name)) if header => ("", behind_name),
                    _ if header => return vec![],
                    _ => (self.word(first), before),
                };
                match block.keys.iter().find(|key| key.word == word) {
                    Some(key) => self.value(block, key, value),
                    None => vec![],
                }
            }
        }
    }

    fn word(&self, token: &Token) -> &'s str {
        let range = token.start as usize..token.end as usize;
        self.text.get(range).unwrap_or("")
    }

    /// Whether only a comment, or nothing, follows.
    fn is_last(&self) -> bool {
        let behind = self.text.get(self.replaces.end as usize..).unwrap_or("");
        let behind = behind.trim_start();
        behind.is_empty() || behind.starts_with('#')
    }

    /// Words that start an entry; those that open a file where nothing opens it yet.
    fn entry_words(&self) -> Vec<Offer> {
        let opened = self.file.opener.is_some();
        let blocks = plumbhook_model::entries::KINDS
            .iter()
            .map(|kind| kind.block);
        let fits = |block: &&Block| OPENERS.contains(&block.word) != opened;
        // A word that is there already may be the opener itself.
        let on_opener = self.replaces.end > 0;
        blocks
            .filter(|block| on_opener || fits(block))
            .map(|block| offers::entry_word(block, self.is_last()))
            .collect()
    }

    /// Keys that may still be given.
    fn keys(&self, block: &'static Block, entry: &Entry<'_>, line: u32) -> Vec<Offer> {
        let others = || entry.statements.iter().filter(|it| it.line != line);
        let given = |key: &Key| {
            let mut lines = others().map(|it| it.key.raw(it.text));
            key.repeat == Repeat::Once && lines.any(|word| word == key.word)
        };
        // Under the values of the line above, or of the first line.
        let above = others().rfind(|it| it.line < line);
        let column = above.or_else(|| others().next());
        let column = column.and_then(|it| Some(it.items.first()?.place.start));
        let keys = block.keys.iter().filter(|key| !key.word.is_empty());
        keys.filter(|key| !given(key))
            .map(|key| {
                let end = self.replaces.start + narrow(key.word.len());
                let blanks = match (column, self.is_last()) {
                    (_, false) => 0,
                    (Some(column), true) if column > end => column - end,
                    _ => 1,
                };
                offers::key(key, blanks as usize)
            })
            .collect()
    }

    fn row(
        &self,
        block: &'static Block,
        entry: &Entry<'_>,
        line: u32,
        before: &[Token],
    ) -> Vec<Offer> {
        let held = entry.statements.iter().rfind(|it| it.line < line);
        let Some(statement) = held else {
            return vec![];
        };
        let word = statement.key.raw(statement.text);
        let Some(key) = block.keys.iter().find(|key| key.word == word) else {
            return vec![];
        };
        let in_cell = before
            .iter()
            .rposition(|token| token.class == Class::Bar)
            .map_or(before, |bar| before.get(bar + 1..).unwrap_or(&[]));
        let first = statement.rows.iter().all(|row| row.line >= line);
        if first {
            return match in_cell {
                [] => offers::columns(key, self.text),
                _ => vec![],
            };
        }
        let Some(probe) = Probe::row(block, key, statement, self.text, line, self.replaces) else {
            return vec![];
        };
        let mut found = self.names(&probe);
        if found.is_empty() && in_cell.is_empty() {
            found = offers::first_words(key);
        }
        found
    }

    fn value(&self, block: &'static Block, key: &'static Key, before: &[Token]) -> Vec<Offer> {
        if let Some(from) = plumbhook_syntax::provenance_at(self.text, before) {
            return match before.get(from + 1..) {
                Some([]) => offers::origins(self.snapshot, self.file),
                _ => vec![],
            };
        }
        let probe = Probe::line(block, key, self.text, self.replaces);
        let last = before.last();
        let before_word = self.text.get(..self.replaces.start as usize).unwrap_or("");
        let behind_number = last.is_none_or(|it| it.class == Class::Number)
            && before_word
                .trim_end()
                .ends_with(|c: char| c.is_ascii_digit());
        if behind_number {
            return behind_number_offers(key, &probe, before);
        }
        if last.is_some_and(|it| matches!(it.class, Class::Tolerance | Class::Range)) {
            return vec![];
        }
        let mut found = self.names(&probe);
        if self.replaces.of(self.text).contains('.') {
            return found;
        }
        found.extend(word_offers(block, key, before));
        found.extend(offers::named_values(self.file, key));
        found
    }

    /// Names that can stand here; members of the entry named where a dot has been typed.
    fn names(&self, probe: &Probe) -> Vec<Offer> {
        let Some(role) = probe.role() else {
            return vec![];
        };
        match self.replaces.of(self.text).split_once('.') {
            Some((head, _)) => offers::members(self.snapshot, self.file, head),
            None => offers::names(self.snapshot, self.file, role),
        }
    }
}

fn behind_number_offers(key: &Key, probe: &Probe, before: &[Token]) -> Vec<Offer> {
    let mut found = offers::units(&probe.units(key.shape.kind));
    // Behind a plain number the value may be whole.
    if found.is_empty() && ends_value(before) {
        found.push(offers::from());
    }
    found
}

/// The words that the declaration of a key knows, and `from` where a value may be whole.
fn word_offers(block: &Block, key: &'static Key, before: &[Token]) -> Vec<Offer> {
    let mut found = offers::words(key);
    found.extend(offers::of_closed_list(block, key));
    if ends_value(before) {
        found.push(offers::from());
    }
    found
}

/// Whether a value may end behind these tokens: they are some, and all brackets are closed.
fn ends_value(before: &[Token]) -> bool {
    let count = |class| before.iter().filter(|it| it.class == class).count();
    let open = count(Class::Open) > count(Class::Close);
    let last = before.last().map(|token| token.class);
    let ends = matches!(
        last,
        Some(Class::Word | Class::Number | Class::Text | Class::Close | Class::Percent)
    );
    ends && !open
}
