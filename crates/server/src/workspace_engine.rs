//! The engine of the real server: the one workspace over the disk, and what an editor asks of it.

use plumbhook_ide::{Diagnostic, Level};
use plumbhook_workspace::{Checked, Disk, EXTENSION, Located, ROOT_FILE, Targets, Workspace};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::{Arc, Condvar, Mutex, OnceLock, PoisonError};
use std::time::Duration;

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
            busy: Mutex::new(false),
            over: Condvar::new(),
        })
    }
}

/// How often one who waits for another's check looks whether anybody waits for itself.
const LOOK: Duration = Duration::from_millis(5);

/// One state with what its check said, once that is known.
struct State {
    snapshot: plumbhook_workspace::Snapshot,
    checked: OnceLock<Checked>,
    /// Whether somebody is checking now.
    busy: Mutex<bool>,
    over: Condvar,
}

impl State {
    /// The check of everything: the same that the command line makes. It is made once for all who ask; if who makes
    /// it is cancelled, the next one makes it.
    fn kept(&self, cancel: &Cancel) -> Result<&Checked, Cancelled> {
        let mut busy = self.busy.lock().unwrap_or_else(PoisonError::into_inner);
        loop {
            if let Some(checked) = self.checked.get() {
                return Ok(checked);
            }
            cancel.check()?;
            if !*busy {
                break;
            }
            let waited = self.over.wait_timeout(busy, LOOK);
            busy = waited.unwrap_or_else(PoisonError::into_inner).0;
        }
        *busy = true;
        drop(busy);
        let turn = Turn(self);
        let checked = apart(|| self.snapshot.check(&Targets::All, cancel))?;
        let checked = self.checked.get_or_init(|| checked);
        drop(turn);
        Ok(checked)
    }
}

/// Ends a turn, also where the check panics.
struct Turn<'s>(&'s State);

impl Drop for Turn<'_> {
    fn drop(&mut self) {
        let mut busy = self.0.busy.lock().unwrap_or_else(PoisonError::into_inner);
        *busy = false;
        drop(busy);
        self.0.over.notify_all();
    }
}

/// Runs a check on no thread of a pool of questions. There, while it waits for its pieces, it could begin another
/// question, which would wait for this very check.
fn apart<T: Send>(check: impl FnOnce() -> T + Send) -> T {
    if rayon::current_thread_index().is_none() {
        return check();
    }
    let ran = std::thread::scope(|scope| scope.spawn(check).join());
    ran.unwrap_or_else(|panic| std::panic::resume_unwind(panic))
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
