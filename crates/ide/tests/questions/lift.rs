//! The clean lift in memory, changed, checked.

use plumbhook_checks::example::{ROOT, files};
use plumbhook_ide::{Diagnostic, diagnostics};
use plumbhook_workspace::{Cancel, Checked, InMemory, Located, Snapshot, Targets, Workspace};
use std::path::{Path, PathBuf};
use std::sync::Arc;

pub(crate) struct Lift {
    pub(crate) snapshot: Snapshot,
    pub(crate) checked: Checked,
}

impl Lift {
    /// With some of its text replaced, each exactly once.
    pub(crate) fn new(change: &[(&str, &str)]) -> Self {
        Self::with(change, &[("plumbhook.toml", ROOT)])
    }

    /// And with more files.
    pub(crate) fn with(change: &[(&str, &str)], more: &[(&str, &str)]) -> Self {
        let disk = InMemory::default();
        for (name, text) in files(change).unwrap() {
            disk.put(Path::new("/w").join(name), text.as_bytes());
        }
        for (name, text) in more {
            disk.put(Path::new("/w").join(name), text.as_bytes());
        }
        let mut workspace = Workspace::new(Arc::new(disk));
        workspace.folders(&[PathBuf::from("/w")]);
        let snapshot = workspace.snapshot();
        let checked = snapshot.check(&Targets::All, &Cancel::default()).unwrap();
        Self { snapshot, checked }
    }

    /// Path, line and byte of the first `|` in a stretch of text that stands once in the three files.
    pub(crate) fn at(&self, marked: &str) -> (PathBuf, u32, u32) {
        let behind = marked.find('^').unwrap();
        let stretch = marked.replace('^', "");
        for file in self.snapshot.files() {
            let text = file.document().text();
            if let Some(at) = text.find(&stretch) {
                let byte = u32::try_from(at + behind).unwrap();
                let line = file.document().line_of(byte);
                let column = byte - file.document().line_start(line).unwrap();
                return (file.path.to_path_buf(), line, column);
            }
        }
        panic!("`{stretch}` stands nowhere");
    }

    /// `file:line:words` of a place; lines from 1.
    pub(crate) fn words(&self, at: &Located) -> String {
        let document = self.snapshot.document(&at.shown).unwrap();
        let line = document.line_text(at.line).unwrap();
        let words = &line[at.start as usize..at.end as usize];
        format!("{}:{}:{words}", at.shown, at.line + 1)
    }

    pub(crate) fn marks(&self) -> Vec<Diagnostic> {
        let files = diagnostics(&self.snapshot, &self.checked);
        files.into_iter().flat_map(|file| file.list).collect()
    }
}
