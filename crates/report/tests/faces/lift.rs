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

    /// The same as if these were all the rules, so that a screen stays what it is when rules are added.
    pub(crate) fn only(mut self, rules: &[&str]) -> Self {
        for case in &mut self.checked.cases {
            let case = Arc::make_mut(case);
            case.findings
                .retain(|finding| rules.contains(&finding.identity.rule));
            for finding in &mut case.findings {
                finding
                    .blocks
                    .retain(|blocked| rules.contains(&blocked.rule));
            }
        }
        self
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
        workspace.folders(&[PathBuf::from(folder)]);
        let snapshot = workspace.snapshot();
        let checked = snapshot.check(&Targets::All, &Cancel::default()).unwrap();
        Self { checked, snapshot }
    }
}
