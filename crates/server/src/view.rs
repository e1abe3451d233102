//! A snapshot with what the protocol needs beside it: how to count, who is open, how files are spelled.

use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tower_lsp::ls_types::{self as lsp, TextDocumentPositionParams};

use crate::encoding::{Encoding, Lines};
use crate::engine::{Location, Place, Snapshot, Span};
use crate::uri::{Spelling, path_of};

/// A text that the client holds.
#[derive(Clone, Debug)]
pub(crate) struct OpenText {
    pub(crate) version: Option<i32>,
    /// Why our text is no longer the editor's, if so.
    pub(crate) lost: Option<String>,
}

/// The state at one place in the order of messages.
pub(crate) struct View {
    /// `None` when even taking the snapshot failed: then nothing is known of any text.
    pub(crate) snapshot: Option<Arc<dyn Snapshot>>,
    pub(crate) encoding: Encoding,
    pub(crate) open: Arc<BTreeMap<PathBuf, OpenText>>,
    pub(crate) spelling: Arc<Spelling>,
}

impl View {
    /// The snapshot, file and place that a question names; `None` when the file is none of ours or
    /// our copy of it is not the editor's.
    pub(crate) fn asked(
        &self,
        at: &TextDocumentPositionParams,
    ) -> Option<(&dyn Snapshot, PathBuf, Place)> {
        let path = path_of(at.text_document.uri.as_str())?;
        if self.open.get(&path).is_some_and(|open| open.lost.is_some()) {
            return None;
        }
        let snapshot = self.snapshot.as_deref()?;
        let place = Lines::new(snapshot.text(&path)?, self.encoding).place(at.position);
        Some((snapshot, path, place))
    }

    fn text(&self, path: &Path) -> Option<&str> {
        self.snapshot.as_ref()?.text(path)
    }

    /// Converts many spans; the lines of each file are counted once.
    pub(crate) fn converter(&self) -> Converter<'_> {
        Converter {
            view: self,
            lines: HashMap::new(),
        }
    }
}

/// Turns spans from below into the client's ranges.
pub(crate) struct Converter<'v> {
    view: &'v View,
    lines: HashMap<PathBuf, Lines<'v>>,
}

impl Converter<'_> {
    /// The client's range; of a file that is not there, its start.
    pub(crate) fn range(&mut self, path: &Path, span: Span) -> lsp::Range {
        if let Some(lines) = self.lines.get(path) {
            return lines.range(span);
        }
        let lines = Lines::new(self.view.text(path).unwrap_or(""), self.view.encoding);
        let range = lines.range(span);
        self.lines.insert(path.to_owned(), lines);
        range
    }

    pub(crate) fn location(&mut self, location: &Location) -> Option<lsp::Location> {
        let uri = self.view.spelling.uri(&location.path)?;
        Some(lsp::Location {
            uri,
            range: self.range(&location.path, location.span),
        })
    }
}
