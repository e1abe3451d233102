//! The engine of the real server: the one workspace over the disk, and what an editor asks of it.

use plumbhook_ide::{Diagnostic, Level};
use plumbhook_workspace::{Checked, Disk, EXTENSION, Located, ROOT_FILE, Targets, Workspace};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::{Arc, OnceLock};

use crate::engine::{
    Cancel, Cancelled, Engine, FileFindings, Finding, HoverText, Location, Place, Severity,
    Snapshot, Span,
};

/// Serves jobs, plants and yards to one client on standard input and output until it leaves.
///
/// The exit code is 0 after `shutdown`, and 1 without it, also when the input just ends.
pub fn run() -> ExitCode {
    crate::serve(Box::new(WorkspaceEngine(Workspace::new(Arc::new(Disk)))))
}

struct WorkspaceEngine(Workspace);

impl Engine for WorkspaceEngine {
    fn open(&mut self, path: &Path, text: String) {
        self.0.open(path, &text);
    }

    fn text(&self, path: &Path) -> Option<&str> {
        self.0.text(path)
    }

    fn edit(&mut self, path: &Path, bytes: Range<usize>, text: &str) {
        self.0.edit(path, bytes, text);
    }

    fn close(&mut self, path: &Path) {
        self.0.close(path);
    }

    fn disk_changed(&mut self, path: &Path) {
        self.0.disk_changed(path);
    }

    fn folders(&mut self, roots: Vec<PathBuf>) {
        self.0.folders(&roots);
    }

    fn watched(&self) -> Vec<String> {
        let texts = "**/*.csv".to_owned();
        vec![
            format!("**/*.{EXTENSION}"),
            format!("**/{ROOT_FILE}"),
            texts,
        ]
    }

    fn snapshot(&mut self) -> Arc<dyn Snapshot> {
        Arc::new(State {
            snapshot: self.0.snapshot(),
            checked: OnceLock::new(),
        })
    }
}

/// One state with what its check said, once that is known.
struct State {
    snapshot: plumbhook_workspace::Snapshot,
    checked: OnceLock<Checked>,
}

impl State {
    /// The check of everything: the same that the command line makes. Two who ask at once may both compute it; what
    /// is kept below makes the second cheap.
    fn kept(&self, cancel: &Cancel) -> Result<&Checked, Cancelled> {
        if let Some(checked) = self.checked.get() {
            return Ok(checked);
        }
        let checked = self.snapshot.check(&Targets::All, cancel)?;
        Ok(self.checked.get_or_init(|| checked))
    }
}

impl Snapshot for State {
    fn text(&self, path: &Path) -> Option<&str> {
        self.snapshot.text(path)
    }

    fn findings(&self, cancel: &Cancel) -> Result<Vec<FileFindings>, Cancelled> {
        let checked = self.kept(cancel)?;
        let files = plumbhook_ide::diagnostics(&self.snapshot, checked);
        cancel.check()?;
        Ok(files
            .into_iter()
            .map(|file| FileFindings {
                path: file.path,
                findings: file.list.into_iter().map(finding).collect(),
            })
            .collect())
    }

    fn hover(
        &self,
        path: &Path,
        at: Place,
        cancel: &Cancel,
    ) -> Result<Option<HoverText>, Cancelled> {
        let checked = self.kept(cancel)?;
        let hover = plumbhook_ide::hover(&self.snapshot, checked, path, at.line, at.column);
        Ok(hover.map(|hover| HoverText {
            markdown: hover.markdown,
            span: span(&hover.at),
        }))
    }

    fn definition(
        &self,
        path: &Path,
        at: Place,
        cancel: &Cancel,
    ) -> Result<Vec<Location>, Cancelled> {
        cancel.check()?;
        let found = plumbhook_ide::definition(&self.snapshot, path, at.line, at.column);
        Ok(found.into_iter().map(location).collect())
    }

    fn workspace(&self) -> Option<&plumbhook_workspace::Snapshot> {
        Some(&self.snapshot)
    }

    fn checked(&self, cancel: &Cancel) -> Result<Option<&Checked>, Cancelled> {
        self.kept(cancel).map(Some)
    }
}

fn finding(mark: Diagnostic) -> Finding {
    let related = mark.related.into_iter();
    Finding {
        span: span(&mark.at),
        severity: match mark.level {
            Level::Error => Severity::Error,
            Level::Warning => Severity::Warning,
            Level::Information => Severity::Information,
        },
        code: mark.code.to_owned(),
        // No page of the web describes the rules; `explain` does.
        documentation: None,
        message: mark.message,
        related: related.map(|(at, say)| (location(at), say)).collect(),
    }
}

fn location(at: Located) -> Location {
    Location {
        span: span(&at),
        path: at.path,
    }
}

fn span(at: &Located) -> Span {
    let place = |column| Place {
        line: at.line,
        column,
    };
    Span {
        start: place(at.start),
        end: place(at.end),
    }
}
