//! Which lines belong together: for folding, and for growing a selection.

use crate::place::Spot;
use crate::symbols::last_line;
use plumbhook_syntax::{Document, Place, Statement, read_entry, tokens};
use plumbhook_workspace::Snapshot;
use std::path::Path;

/// Lines that can be folded into the first of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fold {
    /// The line that stays, from 0.
    pub first: u32,
    /// The last line that goes; after `first`.
    pub last: u32,
    /// Whether it is a run of comments.
    pub comment: bool,
}

/// A stretch of a text over one or more lines; lines from 0, bytes from the start of their line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// First line and byte.
    pub start: (u32, u32),
    /// Last line and the byte behind the stretch.
    pub end: (u32, u32),
}

/// Every entry, every table and every run of two or more comment lines, in order.
pub fn folds(snapshot: &Snapshot, path: &Path) -> Vec<Fold> {
    let Some(file) = snapshot.file(path) else {
        return vec![];
    };
    let document = file.document();
    let mut found = comments(document);
    for (index, block) in document.blocks().iter().enumerate() {
        let text = read_entry(document.block_text(index));
        let mut fold = |first: u32, last: u32| {
            found.extend((last > first).then_some(Fold {
                first: block.first_line.saturating_add(first),
                last: block.first_line.saturating_add(last),
                comment: false,
            }));
        };
        fold(0, last_line(&text));
        for statement in std::iter::once(&text.header).chain(&text.statements) {
            // The header's rows are folded with its entry.
            if let Some(row) = statement.rows.last().filter(|_| statement.line > 0) {
                fold(statement.line, row.line);
            }
        }
    }
    found.sort();
    found
}

fn comments(document: &Document) -> Vec<Fold> {
    let mut found = Vec::new();
    let mut run: Option<u32> = None;
    for line in 0..=document.line_count() {
        let text = document.line_text(line).unwrap_or("");
        if text.trim_start().starts_with('#') {
            run.get_or_insert(line);
        } else if let Some(first) = run.take() {
            let last = line.saturating_sub(1);
            found.extend((last > first).then_some(Fold {
                first,
                last,
                comment: true,
            }));
        }
    }
    found
}

/// What a selection at a place grows through, innermost first: the word, the value or the cell, the line, the
/// statement with its rows, the entry, the file. Each holds the one before it.
pub fn selections(snapshot: &Snapshot, path: &Path, line: u32, byte: u32) -> Vec<Stretch> {
    let Some(file) = snapshot.file(path) else {
        return vec![];
    };
    let document = file.document();
    let text = document.line_text(line).unwrap_or("");
    let here = |place: Place| Stretch {
        start: (line, place.start),
        end: (line, place.end),
    };
    let mut found = Vec::new();
    let mut buffer = Vec::new();
    tokens(text, &mut buffer);
    let on = |place: &Place| (place.start..=place.end).contains(&byte);
    let mut words = buffer.iter().map(|token| Place {
        start: token.start,
        end: token.end,
    });
    found.extend(words.find(on).map(here));
    let spot = Spot::at(snapshot, path, line, byte);
    let entry = spot.as_ref().map(|spot| read_entry(spot.text));
    if let (Some(spot), Some(entry)) = (&spot, &entry) {
        let first = line.saturating_sub(spot.line);
        let mut all = std::iter::once(&entry.header).chain(&entry.statements);
        let held = all.rfind(|it| it.line <= spot.line);
        if let Some(statement) = held {
            found.extend(value(statement, spot.line).filter(on).map(here));
            found.extend(whole_line(text, line));
            let last = statement.rows.last().map_or(statement.line, |row| row.line);
            if last >= spot.line {
                found.extend(lines(document, first + statement.line, first + last));
            }
        }
        found.extend(lines(
            document,
            first,
            first + last_line(entry).max(spot.line),
        ));
    }
    let last = document.line_count().saturating_sub(1);
    let end = document.line_text(last).unwrap_or("").len();
    found.push(Stretch {
        start: (0, 0),
        end: (last, u32::try_from(end).unwrap_or(u32::MAX)),
    });
    growing(found, (line, byte))
}

/// Keeps what holds the place and is larger than what was kept before it.
fn growing(found: Vec<Stretch>, at: (u32, u32)) -> Vec<Stretch> {
    let mut kept: Vec<Stretch> = Vec::new();
    for one in found {
        let holds = |start, end| one.start <= start && end <= one.end;
        let grows = kept
            .last()
            .is_none_or(|last| *last != one && holds(last.start, last.end));
        if grows && holds(at, at) {
            kept.push(one);
        }
    }
    kept
}

fn value(statement: &Statement<'_>, line: u32) -> Option<Place> {
    if statement.line != line {
        return None;
    }
    let (first, last) = (statement.items.first()?, statement.items.last()?);
    Some(Place {
        start: first.place.start,
        end: last.place.end,
    })
}

fn whole_line(text: &str, line: u32) -> Option<Stretch> {
    let start = text.len() - text.trim_start().len();
    let end = text.trim_end().len();
    let place = |byte| Some((line, u32::try_from(byte).ok()?));
    Some(Stretch {
        start: place(start)?,
        end: place(end)?,
    })
}

fn lines(document: &Document, first: u32, last: u32) -> Option<Stretch> {
    let text = document.line_text(last)?;
    Some(Stretch {
        start: (first, 0),
        end: (last, u32::try_from(text.len()).ok()?),
    })
}
