//! A text and where its entries stand.

use std::ops::Range;
use std::sync::atomic::{AtomicU64, Ordering};

use crate::lines::line_end;
use crate::place::{is_blank, narrow};

/// Names the text of one block. Two blocks with one id have the same text, whatever document they stand in and
/// whatever line; a block keeps its id when only other blocks are edited.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct BlockId(u64);

impl BlockId {
    /// Ids are never used twice in one process, so that results kept under one can never belong to another text.
    pub(crate) fn fresh() -> Self {
        static NEXT: AtomicU64 = AtomicU64::new(0);
        Self(NEXT.fetch_add(1, Ordering::Relaxed))
    }
}

/// One entry's block: from its first character to the first of the next entry, comments and blank lines included.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Block {
    /// Names its text.
    pub id: BlockId,
    /// First byte in the document's text.
    pub start: u32,
    /// One past its last byte.
    pub end: u32,
    /// Its first line, counted from 0 in the document.
    pub first_line: u32,
    /// How many lines it has, the last one with or without an ending.
    pub lines: u32,
}

/// A text, its lines and its blocks. Never changes: [`Document::edit`] gives a new one.
///
/// An entry starts at a character in column 1 that is neither blank nor `#`. Holds the whole of any text, whatever is
/// in it; positions are 32 bits wide, so a text has to be smaller than 4 GiB.
#[derive(Clone, Debug)]
pub struct Document {
    pub(crate) text: String,
    pub(crate) has_bom: bool,
    /// Byte where each line starts; the first is 0. A line ending at the end of the text opens an empty last line.
    pub(crate) starts: Vec<u32>,
    pub(crate) blocks: Vec<Block>,
}

impl Document {
    /// Takes a text; a byte order mark at its start is remembered and is no part of [`Document::text`].
    pub fn new(text: &str) -> Self {
        let without = text.strip_prefix('\u{FEFF}');
        Self::of(without.unwrap_or(text).to_owned(), without.is_some())
    }

    pub(crate) fn of(text: String, has_bom: bool) -> Self {
        let mut found = Found::default();
        found.scan(&text, 0, None);
        let mut starts = vec![0];
        starts.append(&mut found.starts);
        let mut document = Self {
            text,
            has_bom,
            starts,
            blocks: Vec::new(),
        };
        document.blocks = document.blocks_at(&found.heads, |_| BlockId::fresh());
        document
    }

    /// The text, without byte order mark.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Whether the text that was given began with a byte order mark, so that a file written back keeps it.
    pub fn has_bom(&self) -> bool {
        self.has_bom
    }

    /// The blocks in order. They do not overlap; only lines before the first entry lie in none.
    pub fn blocks(&self) -> &[Block] {
        &self.blocks
    }

    /// The text of a block, for [`crate::read_entry`]; empty beyond the last.
    pub fn block_text(&self, index: usize) -> &str {
        self.blocks
            .get(index)
            .and_then(|block| self.text.get(block.start as usize..block.end as usize))
            .unwrap_or("")
    }

    /// Index of the block that this line lies in.
    pub fn block_of(&self, line: u32) -> Option<usize> {
        let behind = self
            .blocks
            .partition_point(|block| block.first_line <= line);
        behind.checked_sub(1)
    }

    /// Byte where a line starts; lines count from 0.
    pub fn line_start(&self, line: u32) -> Option<u32> {
        self.starts.get(line as usize).copied()
    }

    /// A line without its ending.
    pub fn line_text(&self, line: u32) -> Option<&str> {
        let start = self.line_start(line)? as usize;
        let end = line_end(&self.text, start).map_or(self.text.len(), |(end, _)| end);
        self.text.get(start..end)
    }

    /// How many lines the text has; an empty text has one, and so has the empty line behind a last line ending.
    pub fn line_count(&self) -> u32 {
        narrow(self.starts.len())
    }

    /// The line of a byte; bytes beyond the end are in the last line.
    pub fn line_of(&self, byte: u32) -> u32 {
        narrow(
            self.starts
                .partition_point(|start| *start <= byte)
                .saturating_sub(1),
        )
    }

    /// Lines before the first entry that are neither blank nor comment: they belong to no entry, and whoever checks
    /// the document has to say so.
    pub fn stray(&self) -> impl Iterator<Item = u32> {
        let end = self
            .blocks
            .first()
            .map_or(self.line_count(), |block| block.first_line);
        (0..end).filter(|line| {
            let text = self
                .line_text(*line)
                .unwrap_or("")
                .trim_start_matches(is_blank);
            !text.is_empty() && !text.starts_with('#')
        })
    }

    /// The blocks that start at the lines `heads`, each with its id from `id`, which gets its bytes.
    pub(crate) fn blocks_at(
        &self,
        heads: &[u32],
        mut id: impl FnMut(Range<u32>) -> BlockId,
    ) -> Vec<Block> {
        let length = narrow(self.text.len());
        // The empty line behind a last line ending is no line of the block.
        let last_line = match self.starts.last() {
            Some(start) if *start == length => self.line_count().saturating_sub(1),
            _ => self.line_count(),
        };
        let start_of = |line: u32| self.line_start(line).unwrap_or(length);
        let behind = heads.iter().skip(1).copied().map(Some).chain([None]);
        heads
            .iter()
            .zip(behind)
            .map(|(head, next)| {
                let bytes = start_of(*head)..next.map_or(length, start_of);
                Block {
                    id: id(bytes.clone()),
                    start: bytes.start,
                    end: bytes.end,
                    first_line: *head,
                    lines: next.unwrap_or(last_line).saturating_sub(*head),
                }
            })
            .collect()
    }
}

/// Lines found by going through a part of a text that begins at the start of a line.
#[derive(Default)]
pub(crate) struct Found {
    /// Where lines start, without the first.
    pub(crate) starts: Vec<u32>,
    /// Which of them start an entry, counted from the first line, which is 0.
    pub(crate) heads: Vec<u32>,
}

impl Found {
    /// Goes through `text` from the line that starts at `from` until the line that starts at `to`, which is left out,
    /// or to the end.
    pub(crate) fn scan(&mut self, text: &str, from: usize, to: Option<usize>) {
        let mut start = from;
        loop {
            if starts_entry(text, start) {
                self.heads.push(narrow(self.starts.len()));
            }
            match line_end(text, start) {
                Some((_, next)) if to.is_none_or(|to| next < to) => {
                    self.starts.push(narrow(next));
                    start = next;
                }
                _ => return,
            }
        }
    }
}

/// Whether the line that starts at this byte begins an entry.
fn starts_entry(text: &str, start: usize) -> bool {
    match text.as_bytes().get(start) {
        None | Some(b' ' | b'\t' | b'#' | b'\n' | b'\r') => false,
        Some(byte) if byte.is_ascii() => true,
        Some(_) => text
            .get(start..)
            .and_then(|rest| rest.chars().next())
            .is_some_and(|c| !is_blank(c)),
    }
}
