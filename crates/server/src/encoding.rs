//! The only file that knows how clients count characters.

use memchr::memchr2;
use std::ops::Range;
use tower_lsp::ls_types::{ClientCapabilities, Position, PositionEncodingKind};

use crate::engine::{Place, Span};

/// The unit in which a client counts inside a line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Encoding {
    Utf8,
    /// What a client means that says nothing.
    #[default]
    Utf16,
    Utf32,
}

impl Encoding {
    /// The first of the client's encodings that we speak: its list is in order of preference.
    pub(crate) fn negotiate(client: &ClientCapabilities) -> Self {
        let offered = client
            .general
            .as_ref()
            .and_then(|g| g.position_encodings.as_ref());
        offered
            .into_iter()
            .flatten()
            .find_map(Self::from_kind)
            .unwrap_or_default()
    }

    fn from_kind(kind: &PositionEncodingKind) -> Option<Self> {
        [Self::Utf8, Self::Utf16, Self::Utf32]
            .into_iter()
            .find(|e| e.kind() == *kind)
    }

    /// The protocol's name.
    pub(crate) fn kind(self) -> PositionEncodingKind {
        match self {
            Self::Utf8 => PositionEncodingKind::UTF8,
            Self::Utf16 => PositionEncodingKind::UTF16,
            Self::Utf32 => PositionEncodingKind::UTF32,
        }
    }

    fn width(self, c: char) -> usize {
        match self {
            Self::Utf8 => c.len_utf8(),
            Self::Utf16 => c.len_utf16(),
            Self::Utf32 => 1,
        }
    }

    /// Byte column of the client's column; past the end is the end, inside a character its start.
    fn bytes(self, line: &str, character: u32) -> usize {
        let wanted = character as usize;
        let mut counted = 0;
        for (at, c) in line.char_indices() {
            counted += self.width(c);
            if counted > wanted {
                return at;
            }
        }
        line.len()
    }

    /// The client's column of a byte column, clamped in the same way.
    fn units(self, line: &str, column: u32) -> usize {
        let wanted = column as usize;
        line.char_indices()
            .take_while(|(at, c)| at + c.len_utf8() <= wanted)
            .map(|(_, c)| self.width(c))
            .sum()
    }
}

/// A text with the start of each of its lines; an empty text has one empty line.
pub(crate) struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
    encoding: Encoding,
}

impl<'t> Lines<'t> {
    pub(crate) fn new(text: &'t str, encoding: Encoding) -> Self {
        let bytes = text.as_bytes();
        let mut starts = vec![0];
        let mut from = 0;
        while let Some(found) = bytes
            .get(from..)
            .and_then(|rest| memchr2(b'\n', b'\r', rest))
        {
            let at = from + found;
            let crlf = bytes.get(at..at + 2) == Some(b"\r\n".as_slice());
            from = at + 1 + usize::from(crlf);
            starts.push(from);
        }
        Self {
            text,
            starts,
            encoding,
        }
    }

    /// Start of a line and its text without the line end; past the last line is the end of the text.
    fn line(&self, number: u32) -> (usize, &'t str) {
        let number = number as usize;
        let Some(&start) = self.starts.get(number) else {
            return (self.text.len(), "");
        };
        let end = self
            .starts
            .get(number + 1)
            .copied()
            .unwrap_or(self.text.len());
        let line = self.text.get(start..end).unwrap_or("");
        (
            start,
            line.strip_suffix('\n')
                .unwrap_or(line)
                .trim_end_matches('\r'),
        )
    }

    /// Byte in the text at which a client's position stands.
    fn offset(&self, at: Position) -> usize {
        let (start, line) = self.line(at.line);
        start + self.encoding.bytes(line, at.character)
    }

    /// The bytes of a client's range. Ends that stand the wrong way round are turned.
    pub(crate) fn bytes(&self, range: tower_lsp::ls_types::Range) -> Range<usize> {
        let (a, b) = (self.offset(range.start), self.offset(range.end));
        a.min(b)..a.max(b)
    }

    /// Our place of a client's position, inside the text.
    pub(crate) fn place(&self, at: Position) -> Place {
        let last = self.starts.len() - 1;
        if at.line as usize > last {
            let (start, _) = self.line(as_u32(last));
            return Place {
                line: as_u32(last),
                column: as_u32(self.text.len() - start),
            };
        }
        let (_, line) = self.line(at.line);
        Place {
            line: at.line,
            column: as_u32(self.encoding.bytes(line, at.character)),
        }
    }

    fn position(&self, at: Place) -> Position {
        let last = as_u32(self.starts.len() - 1);
        let number = at.line.min(last);
        let (_, line) = self.line(number);
        let column = if at.line > last { u32::MAX } else { at.column };
        Position {
            line: number,
            character: as_u32(self.encoding.units(line, column)),
        }
    }

    /// The client's range of our span, inside the text.
    pub(crate) fn range(&self, span: Span) -> tower_lsp::ls_types::Range {
        tower_lsp::ls_types::Range {
            start: self.position(span.start),
            end: self.position(span.end),
        }
    }
}

/// The protocol has no wider numbers; a text of four gigabytes is not read.
fn as_u32(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests;
