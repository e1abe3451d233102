//! What a file declares, as a tree; and what all files declare, by name.

use crate::place::{name_item, name_of};
use plumbhook_model::{Declared, Repeat, Role};
use plumbhook_sheet::{Origin, Part};
use plumbhook_syntax::{Entry, read_entry};
use plumbhook_workspace::{Cancel, Cancelled, Located, Snapshot};
use std::ops::RangeInclusive;
use std::path::Path;

/// The most symbols that a search gives.
const MOST: usize = 512;

/// Something that is declared: an entry or a named member of one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Symbol {
    /// Its name; the entry's word where it has none.
    pub name: String,
    /// The entry's word and title, or what stands behind a member's name.
    pub detail: String,
    /// What it can be for others; `None` for a member and for what nothing can name.
    pub role: Option<Role>,
    /// Its lines in the file, from 0, without the blank lines and comments behind it.
    pub lines: RangeInclusive<u32>,
    /// Where it says its name.
    pub at: Located,
    /// Its named members.
    pub members: Vec<Symbol>,
}

/// What a file declares, in order.
pub fn document_symbols(snapshot: &Snapshot, path: &Path) -> Vec<Symbol> {
    let Some(file) = snapshot.file(path) else {
        return vec![];
    };
    let document = file.document();
    let entries = file.entries().iter().enumerate();
    entries
        .filter_map(|(index, entry)| {
            let first = document.blocks().get(index)?.first_line;
            let text = read_entry(document.block_text(index));
            let mut symbol = symbol(snapshot, entry, first, &text)?;
            symbol.members = members(snapshot, entry, first, &text);
            Some(symbol)
        })
        .collect()
}

/// Entries of all files whose name, title or word holds the letters of `query` in their order, whatever their case.
///
/// # Errors
/// [`Cancelled`] between two files.
pub fn workspace_symbols(
    snapshot: &Snapshot,
    query: &str,
    cancel: &Cancel,
) -> Result<Vec<Symbol>, Cancelled> {
    let mut found = Vec::new();
    for file in snapshot.files() {
        cancel.check()?;
        let document = file.document();
        for (index, entry) in file.entries().iter().enumerate() {
            let words = format!("{} {} {}", entry.name(), entry.key.word, entry.title);
            if !holds(&words, query) {
                continue;
            }
            let first = document.blocks().get(index).map(|block| block.first_line);
            let text = read_entry(document.block_text(index));
            found.extend(first.and_then(|first| symbol(snapshot, entry, first, &text)));
            if found.len() >= MOST {
                return Ok(found);
            }
        }
    }
    Ok(found)
}

/// The letters of `query` in their order, blanks apart.
fn holds(words: &str, query: &str) -> bool {
    let mut letters = words.chars().flat_map(char::to_lowercase);
    let mut wanted = query
        .chars()
        .filter(|c| !c.is_whitespace())
        .flat_map(char::to_lowercase);
    wanted.all(|c| letters.any(|letter| letter == c))
}

fn symbol(snapshot: &Snapshot, entry: &Declared, first: u32, text: &Entry<'_>) -> Option<Symbol> {
    let name = name_item(text).map_or(&*entry.key.word, |_| entry.name());
    let detail = match &*entry.title {
        "" => entry.key.word.to_string(),
        title => format!("{}, {title}", entry.key.word),
    };
    Some(Symbol {
        name: name.to_owned(),
        detail,
        role: entry.block.and_then(|block| block.roles.first()).copied(),
        lines: first..=first.saturating_add(last_line(text)),
        at: name_of(snapshot, entry)?,
        members: vec![],
    })
}

/// The last line of an entry that says something, counted from its header.
pub(crate) fn last_line(text: &Entry<'_>) -> u32 {
    let last = text.statements.last().unwrap_or(&text.header);
    last.rows.last().map_or(last.line, |row| row.line)
}

fn members(snapshot: &Snapshot, entry: &Declared, first: u32, text: &Entry<'_>) -> Vec<Symbol> {
    let Some(block) = entry.block else {
        return vec![];
    };
    let named = text.statements.iter().filter_map(|statement| {
        let key = statement.key.raw(statement.text);
        let known = block.keys.iter().find(|known| known.word == key)?;
        if known.repeat != Repeat::Members {
            return None;
        }
        let item = statement.items.first()?;
        let place = item.place;
        let origin = Origin::at(
            &entry.key,
            statement.line,
            place.start,
            place.end,
            Part::Value,
        );
        let last = statement.rows.last().map_or(statement.line, |row| row.line);
        let behind = statement.items.get(1).zip(statement.items.last());
        let detail = behind.and_then(|(next, last)| {
            let range = next.place.start as usize..last.place.end as usize;
            statement.text.get(range)
        });
        Some(Symbol {
            name: format!("{key} {}", item.raw(statement.text)),
            detail: detail.unwrap_or_default().to_owned(),
            role: None,
            lines: first.saturating_add(statement.line)..=first.saturating_add(last),
            at: snapshot.locate(&origin)?,
            members: vec![],
        })
    });
    named.collect()
}
