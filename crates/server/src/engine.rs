//! What the server needs from below: one owner of texts, and questions on a snapshot of it.
//!
//! Places are a zero-based line and a column in bytes. A line ends with `\n`, `\r\n` or a lone
//! `\r`, as in the protocol. No type of the protocol appears here.

use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use plumbhook_workspace::Checked;
pub use plumbhook_workspace::{Cancel, Cancelled};

/// A place in a text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Line, from zero.
    pub line: u32,
    /// Bytes from the start of the line.
    pub column: u32,
}

/// A stretch of a text, end not included.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Span {
    /// First place in it.
    pub start: Place,
    /// First place after it.
    pub end: Place,
}

/// A stretch of a named file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Location {
    /// The file.
    pub path: PathBuf,
    /// Where in it.
    pub span: Span,
}

/// How loud a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Severity {
    /// Over, cannot tell, or a text that cannot be read.
    Error,
    /// Worth a look before the lift is issued.
    Warning,
    /// Not yet due, or a remark.
    Information,
}

/// One finding, with its words made below.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// Where in its file.
    pub span: Span,
    /// How loud.
    pub severity: Severity,
    /// The rule's code.
    pub code: String,
    /// Address of the rule's documentation, if there is one.
    pub documentation: Option<String>,
    /// What is wrong, by how much, and what would mend it.
    pub message: String,
    /// Other places that the finding rests on, each with a line of words.
    pub related: Vec<(Location, String)>,
}

/// All findings of one file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileFindings {
    /// The file.
    pub path: PathBuf,
    /// Its findings, in the order in which they are shown.
    pub findings: Vec<Finding>,
}

/// What stands at a place, in Markdown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HoverText {
    /// The words.
    pub markdown: String,
    /// The stretch they speak of.
    pub span: Span,
}

/// The one owner of texts. It lives on the server's owner thread and nowhere else.
pub trait Engine: Send + 'static {
    /// An editor holds this file now: its text counts, not the disk's.
    fn open(&mut self, path: &Path, text: String);

    /// The current text of a file that is open.
    fn text(&self, path: &Path) -> Option<&str>;

    /// Replaces `bytes` of the text given by [`Engine::text`]; both ends lie inside it and between
    /// characters. Many may follow each other: nothing dearer than the text itself is due here.
    fn edit(&mut self, path: &Path, bytes: Range<usize>, text: &str);

    /// The editor let go of the file: the disk counts again.
    fn close(&mut self, path: &Path);

    /// The file was made, changed or deleted outside the editor.
    fn disk_changed(&mut self, path: &Path);

    /// These are the folders that the editor has open now.
    fn folders(&mut self, roots: Vec<PathBuf>);

    /// Patterns of the files whose change on disk matters, such as `**/*.pick`.
    fn watched(&self) -> Vec<String>;

    /// The present state, unchanged for ever. Calculation waits until a question is asked of it.
    fn snapshot(&mut self) -> Arc<dyn Snapshot>;
}

/// Questions on one state. They run on worker threads and look at `cancel` between steps.
pub trait Snapshot: Send + Sync {
    /// Text of a file as this state has it, whether open or read from disk.
    fn text(&self, path: &Path) -> Option<&str>;

    /// Every finding of every file that the state knows; a file without findings may be left out.
    fn findings(&self, cancel: &Cancel) -> Result<Vec<FileFindings>, Cancelled>;

    /// What stands at a place.
    fn hover(
        &self,
        path: &Path,
        at: Place,
        cancel: &Cancel,
    ) -> Result<Option<HoverText>, Cancelled>;

    /// Where the name at a place is declared.
    fn definition(
        &self,
        path: &Path,
        at: Place,
        cancel: &Cancel,
    ) -> Result<Vec<Location>, Cancelled>;

    /// The state below, for questions that are asked of it directly; a double has none.
    fn workspace(&self) -> Option<&plumbhook_workspace::Snapshot> {
        None
    }

    /// What the check of that state says; a double has none.
    fn checked(&self, _: &Cancel) -> Result<Option<&Checked>, Cancelled> {
        Ok(None)
    }
}
