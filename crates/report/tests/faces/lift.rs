//! The clean lift of the rules' examples, changed and checked by the engine, for the faces to show.

use plumbhook_checks::example;
use plumbhook_workspace::{Cancel, Checked, InMemory, Snapshot, Targets, Workspace};
use std::path::{Path, PathBuf};
use std::sync::Arc;

pub(crate) struct Lift {
    pub(crate) checked: Checked,
    pub(crate) snapshot: Snapshot,
}

impl Lift {
    /// The clean lift with some of its text replaced.
    pub(crate) fn changed(change: &[(&str, &str)]) -> Self {
        Self::of(&Self::files(change))
    }

    /// Its files, with the root file.
    pub(crate) fn files(change: &[(&str, &str)]) -> Vec<(&'static str, String)> {
        let root = ("plumbhook.toml", example::ROOT.to_owned());
        let files = example::files(change).unwrap().into_iter();
        files.chain([root]).collect()
    }

    /// Files by name.
    pub(crate) fn of(files: &[(&str, String)]) -> Self {
        let folder = Path::new("/lifts");
        let memory = InMemory::default();
        for (name, text) in files {
            memory.put(folder.join(name), text.as_bytes());
        }
        let mut workspace = Workspace::new(Arc::new(memory)).seen_from(folder);
        workspace.folders(vec![PathBuf::from(folder)]);
        let snapshot = workspace.snapshot();
        let checked = snapshot.check(&Targets::All, &Cancel::default()).unwrap();
        Self { checked, snapshot }
    }
}
