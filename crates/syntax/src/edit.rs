//! Edits: only the touched lines are gone through again, and untouched blocks keep their ids.

use std::ops::Range;

use crate::document::{Block, BlockId, Document, Found};
use crate::place::narrow;

impl Document {
    /// The document with the bytes `range` of its text replaced by `new`.
    ///
    /// A range beyond the text is cut to it; an end before its start counts as the start; a position inside a
    /// character moves outwards (for an empty range, before the character). Blocks whose text the edit does not touch
    /// keep their [`BlockId`].
    #[must_use]
    pub fn edit(&self, range: Range<usize>, new: &str) -> Self {
        let range = self.clamp(range);
        let old = Touched::by(self, &range);
        let mut text = String::with_capacity(self.text.len() - range.len() + new.len());
        text.push_str(self.text.get(..range.start).unwrap_or(""));
        text.push_str(new);
        text.push_str(self.text.get(range.end..).unwrap_or(""));

        let grown = new.len().wrapping_sub(range.len());
        let shift = |byte: u32| narrow((byte as usize).wrapping_add(grown));
        let from = self.starts.get(old.first).copied().unwrap_or(0);
        let behind = self.starts.get(old.behind..).unwrap_or_default();
        let to = behind.first().map(|start| shift(*start));

        let mut found = Found::default();
        found.scan(&text, from as usize, to.map(|to| to as usize));

        let lines_in = found.starts.len() + 1;
        let mut starts = Vec::with_capacity(old.first + lines_in + behind.len());
        starts.extend_from_slice(self.starts.get(..=old.first).unwrap_or(&[0]));
        starts.append(&mut found.starts);
        starts.extend(behind.iter().map(|start| shift(*start)));

        let heads = self.heads_after(&old, lines_in, &found.heads);
        let mut edited = Self {
            text,
            has_bom: self.has_bom,
            starts,
            blocks: Vec::new(),
        };
        let mut kept = self.blocks.iter().peekable();
        edited.blocks = edited.blocks_at(&heads, |bytes| {
            let before = if bytes.end <= from {
                Some(bytes)
            } else if to.is_some_and(|to| bytes.start >= to) {
                let back = |byte: u32| narrow((byte as usize).wrapping_sub(grown));
                Some(back(bytes.start)..back(bytes.end))
            } else {
                None
            };
            before
                .and_then(|bytes| same_block(&mut kept, &bytes))
                .unwrap_or_else(BlockId::fresh)
        });
        edited
    }

    /// A range inside the text and between characters.
    fn clamp(&self, range: Range<usize>) -> Range<usize> {
        let start = self.text.floor_char_boundary(range.start);
        if range.end <= range.start {
            start..start
        } else {
            start..self.text.ceil_char_boundary(range.end)
        }
    }

    /// The lines that start entries after an edit: those before it, those found in it, those behind it.
    fn heads_after(&self, old: &Touched, lines_in: usize, found: &[u32]) -> Vec<u32> {
        let (first, behind) = (narrow(old.first), narrow(old.behind));
        let moved = first + narrow(lines_in);
        let head = |block: &Block| block.first_line;
        let before = self
            .blocks
            .iter()
            .map(head)
            .take_while(|head| *head < first);
        let inside = found.iter().map(|line| first + line);
        let after = self
            .blocks
            .iter()
            .map(head)
            .skip_while(|head| *head < behind)
            .map(|head| head - behind + moved);
        before.chain(inside).chain(after).collect()
    }
}

/// Which lines of the old text an edit touches.
struct Touched {
    /// The first of them.
    first: usize,
    /// The first line behind them; the number of lines if there is none.
    behind: usize,
}

impl Touched {
    fn by(document: &Document, range: &Range<usize>) -> Self {
        let starts = &document.starts;
        // A `\n` put behind a `\r` makes one line ending of two.
        let before = range.start.saturating_sub(1);
        let left = match document.text.as_bytes().get(before) {
            Some(b'\r') => narrow(before),
            _ => narrow(range.start),
        };
        let right = narrow(range.end);
        Self {
            first: starts
                .partition_point(|start| *start <= left)
                .saturating_sub(1),
            behind: starts.partition_point(|start| *start <= right),
        }
    }
}

/// The id of the old block with exactly these bytes, if there is one. Asked in rising order.
fn same_block<'b>(
    old: &mut std::iter::Peekable<impl Iterator<Item = &'b Block>>,
    bytes: &Range<u32>,
) -> Option<BlockId> {
    while old.next_if(|block| block.start < bytes.start).is_some() {}
    let block = old.peek()?;
    (block.start == bytes.start && block.end == bytes.end).then_some(block.id)
}
