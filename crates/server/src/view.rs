//! A snapshot with what the protocol needs beside it: how to count, who is open, how files are spelled.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock};
use tower_lsp::ls_types::{self as lsp, Diagnostic, TextDocumentPositionParams};

use plumbhook_ide::Stretch;
use plumbhook_workspace::Located;

use crate::diagnostics;
use crate::encoding::{Encoding, Lines};
use crate::engine::{Cancel, Cancelled, Location, Place, Snapshot, Span};
use crate::log::fenced;
use crate::session::Abilities;
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
    pub(crate) abilities: Abilities,
    /// The folders that the client has open.
    pub(crate) roots: Vec<PathBuf>,
    pub(crate) open: Arc<BTreeMap<PathBuf, OpenText>>,
    pub(crate) spelling: Arc<Spelling>,
    /// The findings, once they are known: pushed and pulled they are the same.
    pub(crate) lists: OnceLock<Lists>,
    /// Closed files whose findings came with those of another: they are told again until the session ends, so that
    /// none of their findings stays behind in the client.
    pub(crate) told_with_others: Arc<Mutex<BTreeSet<PathBuf>>>,
}

/// The complete list of findings of every file that has one.
pub(crate) struct Lists {
    pub(crate) files: BTreeMap<PathBuf, Arc<Vec<Diagnostic>>>,
    /// The check failed inside the tool: a file that is not listed was not checked.
    pub(crate) failed: bool,
}

impl View {
    /// The list of every file that has one. A panic below, and a text that is not the editor's, are told on the
    /// open texts.
    pub(crate) fn lists(&self, cancel: &Cancel) -> Result<&Lists, Cancelled> {
        if let Some(lists) = self.lists.get() {
            return Ok(lists);
        }
        let snapshot = self.snapshot.as_ref();
        let found = snapshot
            .and_then(|snapshot| fenced(|| snapshot.findings(cancel)))
            .transpose()?;
        let failed = found.is_none();
        let mut files = BTreeMap::<PathBuf, Vec<Diagnostic>>::new();
        let mut converter = self.converter();
        for file in found.into_iter().flatten() {
            let path = file.path.clone();
            let list = diagnostics::list(&mut converter, file);
            files.entry(path).or_default().extend(list);
        }
        for (path, open) in self.open.iter() {
            if let Some(why) = &open.lost {
                files.insert(path.clone(), vec![diagnostics::not_followed(why)]);
            } else if failed {
                files.insert(path.clone(), vec![diagnostics::not_checked()]);
            }
        }
        let files = files
            .into_iter()
            .map(|(path, list)| (path, Arc::new(list)))
            .collect();
        Ok(self.lists.get_or_init(|| Lists { files, failed }))
    }

    /// The file that a question names, with the state that it is asked of; `None` when the file is none of ours,
    /// our copy of it is not the editor's, or there is only a double.
    pub(crate) fn file(&self, uri: &lsp::Uri) -> Option<File<'_>> {
        let path = path_of(uri.as_str())?;
        if self.open.get(&path).is_some_and(|open| open.lost.is_some()) {
            return None;
        }
        let state = self.snapshot.as_deref()?;
        let snapshot = state.workspace()?;
        let lines = Lines::new(state.text(&path)?, self.encoding);
        Some(File {
            state,
            snapshot,
            lines,
            path,
        })
    }

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

/// A file of ours that a question is about.
pub(crate) struct File<'v> {
    /// The state, for what its check says.
    pub(crate) state: &'v dyn Snapshot,
    /// The same, for what stands in it.
    pub(crate) snapshot: &'v plumbhook_workspace::Snapshot,
    /// How the client counts in it.
    pub(crate) lines: Lines<'v>,
    pub(crate) path: PathBuf,
}

impl File<'_> {
    /// A stretch of one line as the client counts.
    pub(crate) fn range(&self, line: u32, start: u32, end: u32) -> lsp::Range {
        let place = |column| Place { line, column };
        self.lines.range(Span {
            start: place(start),
            end: place(end),
        })
    }

    /// A stretch over lines.
    pub(crate) fn stretch(&self, at: Stretch) -> lsp::Range {
        let place = |(line, column)| Place { line, column };
        self.lines.range(Span {
            start: place(at.start),
            end: place(at.end),
        })
    }

    /// Whole lines, from the start of the first to the end of the last.
    pub(crate) fn whole(&self, first: u32, last: u32) -> lsp::Range {
        self.stretch(Stretch {
            start: (first, 0),
            end: (last, u32::MAX),
        })
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

    /// The client's place of a place below.
    pub(crate) fn located(&mut self, at: &Located) -> Option<lsp::Location> {
        let place = |column| Place {
            line: at.line,
            column,
        };
        self.location(&Location {
            path: at.path.clone(),
            span: Span {
                start: place(at.start),
                end: place(at.end),
            },
        })
    }

    pub(crate) fn location(&mut self, location: &Location) -> Option<lsp::Location> {
        let uri = self.view.spelling.uri(&location.path)?;
        Some(lsp::Location {
            uri,
            range: self.range(&location.path, location.span),
        })
    }
}
