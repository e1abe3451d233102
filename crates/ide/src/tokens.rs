//! What each word of a text is, for colouring.

use crate::place::links_of;
use plumbhook_model::{Declared, Link};
use plumbhook_syntax::{Class, Entry, Place, Statement, Token, read_entry, tokens};
use plumbhook_units::{Lookup, unit};
use plumbhook_workspace::{Cancel, Cancelled, Snapshot};
use std::ops::RangeInclusive;
use std::path::Path;

/// What a word is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TokenClass {
    /// The word of an entry.
    EntryWord,
    /// A key of an entry.
    Key,
    /// The name that an entry is declared by.
    Declaration,
    /// A name that leads to another entry.
    Name,
    /// A word that the declaration of the key knows, `from`, and `unknown`.
    Word,
    /// A number, with its unit if that is glued to it.
    Number,
    /// A unit.
    Unit,
    /// What is quoted.
    Text,
    /// A comment.
    Comment,
    /// `+/-`, `..`, and the signs of calculation.
    Operator,
}

/// A word with what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SemanticToken {
    /// The line, from 0.
    pub line: u32,
    /// Its bytes in the line.
    pub place: Place,
    /// What it is.
    pub class: TokenClass,
}

/// The words of the lines asked for, in order; words of people are left out.
///
/// # Errors
/// [`Cancelled`] between two entries.
pub fn semantic_tokens(
    snapshot: &Snapshot,
    path: &Path,
    lines: &RangeInclusive<u32>,
    cancel: &Cancel,
) -> Result<Vec<SemanticToken>, Cancelled> {
    let Some(file) = snapshot.file(path) else {
        return Ok(vec![]);
    };
    let document = file.document();
    let mut out = Vec::new();
    let mut buffer = Vec::new();
    let first_entry = document.blocks().first().map(|block| block.first_line);
    for line in 0..first_entry.unwrap_or_else(|| document.line_count()) {
        if lines.contains(&line) {
            let text = document.line_text(line).unwrap_or("");
            tokens(text, &mut buffer);
            out.extend(
                buffer
                    .iter()
                    .filter_map(|token| Some(at(line, token, plain(token)?))),
            );
        }
    }
    for (index, (block, declared)) in document.blocks().iter().zip(file.entries()).enumerate() {
        let last = block.first_line.saturating_add(block.lines);
        if last < *lines.start() || block.first_line > *lines.end() {
            continue;
        }
        cancel.check()?;
        let entry = read_entry(document.block_text(index));
        let of_entry = OfEntry {
            declared,
            entry: &entry,
            links: links_of(declared).collect(),
        };
        for line in 0..block.lines {
            let in_file = block.first_line.saturating_add(line);
            if lines.contains(&in_file) {
                let text = document.line_text(in_file).unwrap_or("");
                tokens(text, &mut buffer);
                of_entry.line(text, line, in_file, &buffer, &mut out);
            }
        }
    }
    Ok(out)
}

fn at(line: u32, token: &Token, class: TokenClass) -> SemanticToken {
    SemanticToken {
        line,
        place: place(token),
        class,
    }
}

fn place(token: &Token) -> Place {
    Place {
        start: token.start,
        end: token.end,
    }
}

/// What a token is whatever stands around it.
fn plain(token: &Token) -> Option<TokenClass> {
    match token.class {
        Class::Comment => Some(TokenClass::Comment),
        Class::Text => Some(TokenClass::Text),
        Class::Number => Some(TokenClass::Number),
        Class::Tolerance
        | Class::Range
        | Class::Plus
        | Class::Minus
        | Class::Times
        | Class::Over
        | Class::Cross => Some(TokenClass::Operator),
        _ => None,
    }
}

struct OfEntry<'a, 'b> {
    declared: &'b Declared,
    entry: &'b Entry<'a>,
    links: Vec<Link<'b>>,
}

impl OfEntry<'_, '_> {
    fn line(
        &self,
        text: &str,
        line: u32,
        in_file: u32,
        found: &[Token],
        out: &mut Vec<SemanticToken>,
    ) {
        let mut all = std::iter::once(&self.entry.header).chain(&self.entry.statements);
        let statement = all.find(|it| it.line == line || it.rows.iter().any(|r| r.line == line));
        let words = statement.map_or(&[][..], |statement| self.words(statement));
        let mut before: Option<&Token> = None;
        for token in found {
            let word = place(token).of(text);
            let behind_number = before.is_some_and(|it| it.class == Class::Number);
            let class = match token.class {
                Class::Word | Class::Number => self
                    .of_word(line, statement, token)
                    .or_else(|| plain(token))
                    .or_else(|| {
                        let is_unit = behind_number && !matches!(unit(word), Lookup::None);
                        is_unit.then_some(TokenClass::Unit)
                    })
                    .or_else(|| is_said(words, word).then_some(TokenClass::Word)),
                Class::Percent if behind_number => Some(TokenClass::Unit),
                _ => plain(token),
            };
            out.extend(class.map(|class| at(in_file, token, class)));
            before = Some(token);
        }
    }

    /// What a word is by its place: key, entry's word, a name.
    fn of_word(
        &self,
        line: u32,
        statement: Option<&Statement<'_>>,
        token: &Token,
    ) -> Option<TokenClass> {
        let key = statement
            .filter(|it| it.line == line)
            .map(|it| it.key.place);
        if key == Some(place(token)) {
            let class = if line == 0 {
                TokenClass::EntryWord
            } else {
                TokenClass::Key
            };
            return Some(class);
        }
        let own = crate::place::name_item(self.entry).map(|item| item.place);
        if line == 0 && own == Some(place(token)) {
            return Some(TokenClass::Declaration);
        }
        let named = |link: &Link<'_>| {
            let origin = link.origin;
            origin.line == line && origin.start <= token.start && token.end <= origin.end
        };
        self.links.iter().any(named).then_some(TokenClass::Name)
    }

    fn words(&self, statement: &Statement<'_>) -> &'static [&'static str] {
        let key = match statement.line {
            0 => "",
            _ => statement.key.raw(statement.text),
        };
        let known = self.declared.block.map_or(&[][..], |block| block.keys);
        let known = known.iter().find(|it| it.word == key);
        known.map_or(&[], |key| key.shape.words)
    }
}

/// Some words of a declaration are several (`by role`).
fn is_said(words: &[&str], word: &str) -> bool {
    word == "from"
        || word == "unknown"
        || words
            .iter()
            .any(|said| said.split(' ').any(|it| it == word))
}
