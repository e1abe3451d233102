//! Where something stands in its line, and what counts as blank.

/// A stretch of one line, in bytes from the start of the line; `start <= end`.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub struct Place {
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Place {
    /// The text at this place of `line`; empty where the place is not one of this line.
    pub fn of(self, line: &str) -> &str {
        line.get(self.start as usize..self.end as usize)
            .unwrap_or("")
    }

    /// From the start of `self` to the end of `last`.
    #[must_use]
    pub fn to(self, last: Self) -> Self {
        Self {
            start: self.start,
            end: last.end.max(self.start),
        }
    }
}

/// Byte positions are 32 bits wide; a text beyond 4 GiB is cut short, never wrapped round.
pub(crate) fn narrow(position: usize) -> u32 {
    u32::try_from(position).unwrap_or(u32::MAX)
}

/// Whether a character only parts words: blank, tab, and the blanks that other programs paste in.
pub(crate) fn is_blank(c: char) -> bool {
    matches!(
        c,
        ' ' | '\t' | '\u{A0}' | '\u{1680}' | '\u{2000}'
            ..='\u{200A}' | '\u{202F}' | '\u{205F}' | '\u{3000}'
    )
}
