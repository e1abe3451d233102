//! One line as the formatter sees it: what kind it is, and its parts with single blanks.

use crate::entry::provenance_at;
use crate::token::{Class, LONGEST_LINE, Token, tokens};

/// What kind of line it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Line {
    /// Nothing stands on it.
    Blank,
    /// Only a comment; whether it stood in column 1.
    Comment { text: String, at_margin: bool },
    /// The first line of an entry, or another one, read in parts.
    Statement(Parts),
    /// A row of a table: its cells and the comment behind it.
    Row { cells: Vec<String>, comment: String },
    /// What the formatter does not touch beyond the blanks before and behind it.
    AsIs(String),
}

/// A statement in parts; each may be empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Parts {
    pub(super) key: String,
    pub(super) value: String,
    /// From the bare word `from` on.
    pub(super) source: String,
    pub(super) comment: String,
}

/// Reads a line into its parts.
pub(super) fn read(text: &str) -> Line {
    let mut found = Vec::new();
    tokens(text, &mut found);
    let Some((first, last)) = found.first().copied().zip(found.last().copied()) else {
        return Line::Blank;
    };
    let whole = slice(text, first, last);
    if first.class == Class::Comment {
        return Line::Comment {
            text: whole.trim_end().to_owned(),
            at_margin: first.start == 0,
        };
    }
    if text.len() > LONGEST_LINE {
        // Shorter by a blank, it might be read after all.
        return Line::AsIs(text.to_owned());
    }
    // A bar in column 1 starts an entry; moved, it would be a row of the entry before.
    let bar_at_margin = first.class == Class::Bar && first.start == 0;
    if bar_at_margin || found.iter().any(|token| unreadable(text, *token)) {
        return Line::AsIs(whole.to_owned());
    }
    let comment = match last.class {
        Class::Comment => {
            found.pop();
            whole_of(text, last).trim_end().to_owned()
        }
        _ => String::new(),
    };
    if first.class == Class::Bar {
        let cells = cells(text, &found);
        return Line::Row { cells, comment };
    }
    let (key, rest) = found.split_at(key_length(&found));
    let source = provenance_at(text, rest).unwrap_or(rest.len());
    let (value, source) = rest.split_at(source);
    Line::Statement(Parts {
        key: spaced(text, key),
        value: spaced(text, value),
        source: spaced(text, source),
        comment,
    })
}

/// What is glued to the first token belongs to the key.
fn key_length(found: &[Token]) -> usize {
    let glued = found
        .windows(2)
        .take_while(|pair| matches!(pair, [a, b] if a.end == b.start))
        .count();
    (1 + glued).min(found.len())
}

/// Nobody can tell what blanks mean inside these.
fn unreadable(text: &str, token: Token) -> bool {
    match token.class {
        Class::Junk => true,
        Class::Text => {
            let quoted = whole_of(text, token);
            quoted.len() < 2 || !quoted.ends_with('"')
        }
        _ => false,
    }
}

/// The cells between the bars; a bar that only closes the row opens none.
fn cells(text: &str, found: &[Token]) -> Vec<String> {
    let mut cells = Vec::new();
    let mut rest = found;
    while let Some((_, behind)) = rest.split_first() {
        let length = behind
            .iter()
            .position(|token| token.class == Class::Bar)
            .unwrap_or(behind.len());
        let (inside, next) = behind.split_at(length);
        if !(inside.is_empty() && next.is_empty()) {
            cells.push(spaced(text, inside));
        }
        rest = next;
    }
    cells
}

/// The tokens with one blank wherever there was any. Blanks that are neither space nor tab stay: between digits they
/// say that a number was meant in groups.
fn spaced(text: &str, found: &[Token]) -> String {
    let mut out = String::new();
    let mut end = None;
    for token in found {
        let gap = end.and_then(|end: u32| text.get(end as usize..token.start as usize));
        match gap {
            None | Some("") => {}
            Some(gap) if gap.chars().all(|blank| matches!(blank, ' ' | '\t')) => out.push(' '),
            Some(gap) => out.push_str(gap),
        }
        out.push_str(whole_of(text, *token));
        end = Some(token.end);
    }
    out
}

fn whole_of(text: &str, token: Token) -> &str {
    slice(text, token, token)
}

fn slice(text: &str, first: Token, last: Token) -> &str {
    text.get(first.start as usize..last.end as usize)
        .unwrap_or("")
}
