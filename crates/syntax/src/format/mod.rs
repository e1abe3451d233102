//! The formatter: keys in one column, sources in another, tables with straight bars.
//!
//! It sees tokens and never keys, and it only ever changes how many blanks stand where some stood before, so no token
//! can come or go and no result can change. What it cannot read it leaves as it is.

mod block;
mod columns;
mod line;

use crate::Document;
use std::ops::Range;

/// A replacement of whole lines of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// First line, counted from 0, and one past the last.
    pub lines: Range<u32>,
    /// What stands there instead, without line endings.
    pub new: Vec<String>,
}

/// The whole text, formatted: with its byte order mark, its own kind of line ending (that of its first line), and an
/// ending behind the last line. An empty text stays empty.
pub fn format(document: &Document) -> String {
    let ending = line_ending(document.text());
    let mut lines: Vec<String> = Vec::new();
    for edit in pieces(document) {
        lines.extend(edit.new);
    }
    let blank_first = lines.iter().take_while(|line| line.is_empty()).count();
    // At the start of a text a byte order mark would be read as such: a blank line keeps it from there.
    let mark_next = lines
        .get(blank_first)
        .is_some_and(|line| line.starts_with('\u{FEFF}'));
    lines.drain(..blank_first.saturating_sub(usize::from(mark_next)));
    while lines.last().is_some_and(String::is_empty) {
        lines.pop();
    }
    let mut out = String::with_capacity(document.text().len() + 64);
    if document.has_bom() {
        out.push('\u{FEFF}');
    }
    for line in lines {
        out.push_str(&line);
        out.push_str(ending);
    }
    out
}

/// What changes in the entries that these lines touch, entry by entry; nothing where all is formatted already. Lines
/// at the end of a file are not taken away, so that a cursor there stays.
pub fn format_lines(document: &Document, lines: &Range<u32>) -> Vec<Edit> {
    let touched = |edit: &Edit| edit.lines.start < lines.end && lines.start < edit.lines.end;
    let changes = |edit: &Edit| {
        let old = edit.lines.clone().map(|line| document.line_text(line));
        !old.eq(edit.new.iter().map(|line| Some(line.as_str())))
    };
    pieces(document)
        .into_iter()
        .filter(|edit| touched(edit) && changes(edit))
        .collect()
}

/// The line ending of a text: that of its first line.
pub fn line_ending(text: &str) -> &'static str {
    match text.find(['\n', '\r']) {
        Some(at) if text.get(at..).is_some_and(|rest| rest.starts_with("\r\n")) => "\r\n",
        Some(at) if text.as_bytes().get(at) == Some(&b'\r') => "\r",
        _ => "\n",
    }
}

/// The lines before the first entry, then each entry, formatted.
fn pieces(document: &Document) -> Vec<Edit> {
    let mut bounds: Vec<u32> = document
        .blocks()
        .iter()
        .map(|block| block.first_line)
        .collect();
    if bounds.first() != Some(&0) {
        bounds.insert(0, 0);
    }
    let ends = bounds.iter().skip(1).copied().chain([last_line(document)]);
    let texts_of = |lines: Range<u32>| -> Vec<&str> {
        lines
            .map(|line| document.line_text(line).unwrap_or(""))
            .collect()
    };
    let mut pieces: Vec<Edit> = bounds
        .iter()
        .zip(ends)
        .map(|(first, end)| Edit {
            lines: *first..end,
            new: block::format(&texts_of(*first..end)),
        })
        .collect();
    let headers: Vec<_> = pieces
        .iter()
        .map(|piece| block::lone_header(&texts_of(piece.lines.clone())))
        .collect();
    for (piece, header) in pieces.iter_mut().zip(block::listed(&headers)) {
        if let Some(line) = header {
            piece.new = vec![line];
        }
    }
    pieces
}

/// One past the last line that holds anything or has an ending.
fn last_line(document: &Document) -> u32 {
    let count = document.line_count();
    let open = document.line_text(count.saturating_sub(1)) == Some("");
    count - u32::from(open && count > 0)
}
