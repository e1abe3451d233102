//! The formatter's changes as edits of whole lines.

use crate::outline::Stretch;
use plumbhook_syntax::Document;
use plumbhook_syntax::format::{Edit, format, format_lines, line_ending};
use plumbhook_workspace::Snapshot;
use std::ops::Range;
use std::path::Path;

/// A stretch of a text and what stands there instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextEdit {
    /// From and to starts or ends of lines.
    pub at: Stretch,
    /// What stands there instead.
    pub new: String,
}

/// What the formatter changes in a whole file: nothing, or one stretch from the first line that changes to the last.
pub fn formatting(snapshot: &Snapshot, path: &Path) -> Option<TextEdit> {
    let document = snapshot.file(path)?.document();
    let old = document.text();
    let formatted = format(document);
    // An editor keeps a byte order mark to itself.
    let new = formatted.strip_prefix('\u{FEFF}').unwrap_or(&formatted);
    if new == old {
        return None;
    }
    let lines = |text: &str| -> Vec<usize> {
        let ends = text.split_inclusive('\n').map(str::len);
        ends.collect()
    };
    let (old_lines, new_lines) = (lines(old), lines(new));
    let mut start = 0;
    let mut skipped = 0;
    for (a, b) in old_lines.iter().zip(&new_lines) {
        if a != b || old.get(start..start + a) != new.get(start..start + b) {
            break;
        }
        start += a;
        skipped += 1;
    }
    let (mut old_end, mut new_end) = (old.len(), new.len());
    let most = old_lines.len().min(new_lines.len()) - skipped;
    for (a, b) in old_lines
        .iter()
        .rev()
        .zip(new_lines.iter().rev())
        .take(most)
    {
        let same = a == b && old.get(old_end - a..old_end) == new.get(new_end - b..new_end);
        if !same {
            break;
        }
        old_end -= a;
        new_end -= b;
    }
    Some(TextEdit {
        at: stretch(document, start..old_end)?,
        new: new.get(start..new_end)?.to_owned(),
    })
}

/// What the formatter changes in the entries that these lines touch, entry by entry.
pub fn range_formatting(snapshot: &Snapshot, path: &Path, lines: &Range<u32>) -> Vec<TextEdit> {
    let Some(file) = snapshot.file(path) else {
        return vec![];
    };
    let document = file.document();
    let edits = format_lines(document, lines);
    edits
        .iter()
        .filter_map(|edit| of_lines(document, edit))
        .collect()
}

/// Whole lines as bytes; the ending of the last one stays unless all of them go.
fn of_lines(document: &Document, edit: &Edit) -> Option<TextEdit> {
    let ending = line_ending(document.text());
    let start = document.line_start(edit.lines.start)? as usize;
    let end = if edit.new.is_empty() {
        let next = document.line_start(edit.lines.end);
        next.map_or(document.text().len(), |next| next as usize)
    } else {
        let last = edit.lines.end.checked_sub(1)?;
        document.line_start(last)? as usize + document.line_text(last)?.len()
    };
    Some(TextEdit {
        at: stretch(document, start..end)?,
        new: edit.new.join(ending),
    })
}

fn stretch(document: &Document, bytes: Range<usize>) -> Option<Stretch> {
    let place = |byte: usize| {
        let byte = u32::try_from(byte).ok()?;
        let line = document.line_of(byte);
        Some((line, byte.checked_sub(document.line_start(line)?)?))
    };
    Some(Stretch {
        start: place(bytes.start)?,
        end: place(bytes.end)?,
    })
}
