//! What reading has to endure: any bytes at all. Each function takes bytes and panics where something is broken.
//!
//! The fuzz targets (`tests/fuzz`) and the ordinary tests (`tests/tests/endure.rs`) call the same functions.

mod checked;

pub use checked::checked;

use plumbhook_model::Declared;
use plumbhook_sheet::{Notice, Origin};
use plumbhook_syntax::{Document, Item, Node, Place, Token, items, read_entry, tokens};
use std::collections::HashMap;
use std::sync::Arc;

/// Bytes as the text that a file of them would be read as.
fn text_of(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// Every line becomes tokens and items that lie inside it, in order, on whole characters.
pub fn lines(bytes: &[u8]) {
    let text = text_of(bytes);
    let mut found = Vec::new();
    for line in text.split(['\n', '\r']) {
        found.clear();
        tokens(line, &mut found);
        tokens_lie_in(line, &found);
        let whole = Place {
            start: 0,
            end: length(line),
        };
        let found = items(line);
        items_lie_in(line, whole, found.iter());
    }
    // The same through the reader of entries: keys, sources, rows and cells.
    let document = Document::new(&text);
    for index in 0..document.blocks().len() {
        entry_lies_in(document.block_text(index));
    }
}

fn length(text: &str) -> u32 {
    u32::try_from(text.len()).unwrap_or(u32::MAX)
}

fn tokens_lie_in(line: &str, tokens: &[Token]) {
    let mut end = 0;
    for token in tokens {
        assert!(
            token.start >= end && token.end > token.start,
            "tokens overlap or are empty: {token:?} in {line:?}"
        );
        on_characters(line, token.start, token.end);
        end = token.end;
    }
}

fn on_characters(line: &str, start: u32, end: u32) {
    assert!(
        line.get(start as usize..end as usize).is_some(),
        "{start}..{end} is no place of {line:?}"
    );
}

fn items_lie_in<'i, 'a: 'i>(line: &str, within: Place, items: impl Iterator<Item = &'i Item<'a>>) {
    let mut end = within.start;
    for item in items {
        let place = item.place;
        assert!(
            place.start >= end && place.start < place.end && place.end <= within.end,
            "items overlap or leave what holds them: {item:?} in {line:?}"
        );
        on_characters(line, place.start, place.end);
        end = place.end;
        items_lie_in(line, place, parts(item).into_iter());
    }
}

fn parts<'i, 'a>(item: &'i Item<'a>) -> Vec<&'i Item<'a>> {
    match &item.node {
        Node::Point(items) | Node::Sizes(items) => items.iter().collect(),
        Node::Tolerance { of: a, by: b }
        | Node::Range { lo: a, hi: b }
        | Node::Operation {
            left: a, right: b, ..
        } => vec![a, b],
        Node::Count { of, .. } => vec![of],
        _ => Vec::new(),
    }
}

fn entry_lies_in(block: &str) {
    let entry = read_entry(block);
    for statement in std::iter::once(&entry.header).chain(&entry.statements) {
        let whole = Place {
            start: 0,
            end: length(statement.text),
        };
        on_characters(
            statement.text,
            statement.key.place.start,
            statement.key.place.end,
        );
        items_lie_in(statement.text, whole, statement.items.iter());
        if let Some(source) = &statement.provenance {
            items_lie_in(statement.text, whole, source.items.iter());
        }
        for row in &statement.rows {
            let whole = Place {
                start: 0,
                end: length(row.text),
            };
            for cell in &row.cells {
                on_characters(row.text, cell.place.start, cell.place.end);
                items_lie_in(row.text, whole, cell.items.iter());
            }
        }
    }
}

/// A text and a chain of edits: after each the document is what a fresh reading of its text is, and a block that
/// keeps its name keeps its text.
///
/// The bytes are cut at each 0xFF: the first piece is the text, each other one an edit: two bytes say where in the
/// text it starts, one how much it takes out, the rest is put in.
pub fn document(bytes: &[u8]) {
    let mut pieces = bytes.split(|byte| *byte == 0xFF);
    let mut document = Document::new(&text_of(pieces.next().unwrap_or_default()));
    let mut names = HashMap::new();
    for edit in pieces.take(32) {
        let (start, length, new) = edit_of(edit, document.text());
        document = document.edit(start..start + length, &new);
        is_as_fresh(&document, &mut names);
    }
    is_as_fresh(&document, &mut names);
}

/// Where an edit starts, how much it takes out, what it puts in.
fn edit_of(edit: &[u8], text: &str) -> (usize, usize, String) {
    let (at, new) = edit.split_at(edit.len().min(3));
    let byte = |index: usize| at.get(index).copied().map_or(0, usize::from);
    let start = (byte(0) * 256 + byte(1)) % (text.len() + 2);
    (start, byte(2), text_of(new))
}

fn is_as_fresh(document: &Document, names: &mut HashMap<plumbhook_syntax::BlockId, String>) {
    // A mark before it, so that one which the text itself begins with stays its own.
    let fresh = Document::new(&format!("\u{FEFF}{}", document.text()));
    assert_eq!(document.text(), fresh.text());
    assert_eq!(document.line_count(), fresh.line_count());
    let ends = |document: &Document| -> Vec<_> {
        let blocks = document.blocks().iter();
        blocks
            .map(|block| (block.start, block.end, block.first_line, block.lines))
            .collect()
    };
    assert_eq!(ends(document), ends(&fresh), "{:?}", document.text());
    for line in 0..document.line_count() {
        assert_eq!(document.line_start(line), fresh.line_start(line));
        assert_eq!(document.line_text(line), fresh.line_text(line));
        assert_eq!(document.block_of(line), fresh.block_of(line));
    }
    let stray: Vec<u32> = document.stray().collect();
    assert_eq!(stray, fresh.stray().collect::<Vec<_>>());
    for (index, block) in document.blocks().iter().enumerate() {
        let text = document.block_text(index);
        let named = names.entry(block.id).or_insert_with(|| text.to_owned());
        assert_eq!(named, text, "a block kept its name and changed its text");
    }
}

/// Every entry of a text is read, and what is said of it stands inside its text.
pub fn declared(bytes: &[u8]) {
    let document = Document::new(&text_of(bytes));
    let file: Arc<str> = "any.pick".into();
    for index in 0..document.blocks().len() {
        let text = document.block_text(index);
        let read = Declared::read(&file, 0, text);
        for notice in &read.notices {
            notice_lies_in(text, notice);
        }
        if let Some(body) = &read.body {
            for link in body.links() {
                origin_lies_in(text, link.origin);
            }
        }
    }
}

fn notice_lies_in(text: &str, notice: &Notice) {
    assert!(!notice.say.is_empty(), "{} says nothing", notice.code.code);
    origin_lies_in(text, &notice.origin);
    for related in &notice.related {
        origin_lies_in(text, &related.origin);
    }
}

fn origin_lies_in(text: &str, origin: &Origin) {
    // A whole header is named by its words, whatever blanks stand between them.
    if origin.line == 0 && origin.start == 0 {
        return;
    }
    let document = Document::new(text);
    let line = document.line_text(origin.line);
    assert!(line.is_some(), "{origin:?} lies below {text:?}");
    on_characters(line.unwrap_or_default(), origin.start, origin.end);
}
