//! Where an origin stands in the text of the state that was checked.

use plumbhook_sheet::Origin;
use plumbhook_syntax::Document;
use std::sync::Arc;

/// Some bytes of one line of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spot {
    /// The file, as it is shown to people.
    pub shown: Arc<str>,
    /// The line, counted from 0.
    pub line: u32,
    /// First byte in the line, counted from 0.
    pub start: u32,
    /// One past the last byte in the line.
    pub end: u32,
}

/// The texts that were checked. A face asks them for places and lines, never the disk, which may have
/// changed since.
pub trait Places {
    /// Where an origin stands; `None` where its file or its entry is not in this state.
    fn locate(&self, origin: &Origin) -> Option<Spot>;

    /// The text of a file by the name that [`Spot::shown`] has.
    fn document(&self, shown: &str) -> Option<&Document>;
}
