//! The clean lift in memory, with what a test changes of it.
#![allow(dead_code, reason = "each test file uses some of these")]
#![allow(clippy::unwrap_used, reason = "helpers of tests")]

use plumbhook_checks::example::{FILES, ROOT};
use plumbhook_sheet::{Finding, Notice, Severity};
use plumbhook_workspace::{Cancel, Checked, InMemory, Snapshot, Targets, Workspace};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The clean lift under `/w`, with a root file.
pub(crate) fn clean() -> Arc<InMemory> {
    let files = InMemory::default();
    for (name, text) in FILES {
        files.put(at(name), text.as_bytes());
    }
    files.put(at("plumbhook.toml"), ROOT.as_bytes());
    Arc::new(files)
}

/// The clean lift with some of its text replaced, each exactly once.
pub(crate) fn changed(change: &[(&str, &str)]) -> Arc<InMemory> {
    let files = clean();
    for (name, text) in plumbhook_checks::example::files(change).unwrap() {
        files.put(at(name), text.as_bytes());
    }
    files
}

pub(crate) fn at(name: &str) -> PathBuf {
    Path::new("/w").join(name)
}

/// A workspace over files, opened at `/w`, that computes every kept result again.
pub(crate) fn workspace(files: &Arc<InMemory>) -> Workspace {
    let mut workspace = Workspace::new(Arc::clone(files) as _).rechecking();
    workspace.folders(&[PathBuf::from("/w")]);
    workspace
}

pub(crate) fn check(snapshot: &Snapshot) -> Checked {
    snapshot.check(&Targets::All, &Cancel::default()).unwrap()
}

/// What a fresh workspace says of files.
pub(crate) fn fresh(files: &Arc<InMemory>) -> Checked {
    check(&workspace(files).snapshot())
}

pub(crate) fn findings(checked: &Checked) -> impl Iterator<Item = &Finding> {
    checked.cases.iter().flat_map(|case| &case.findings)
}

pub(crate) fn errors(checked: &Checked) -> Vec<String> {
    findings(checked)
        .filter(|finding| finding.severity == Severity::Error)
        .map(|finding| finding.aspect.headline.clone())
        .collect()
}

/// `code at file:line:text` of each notice; lines from 1 as a person counts.
pub(crate) fn told(snapshot: &Snapshot, notices: &[Notice]) -> Vec<String> {
    notices
        .iter()
        .map(|notice| {
            let place = snapshot.locate(&notice.origin).unwrap();
            let line = snapshot
                .document(&place.shown)
                .unwrap()
                .line_text(place.line)
                .unwrap();
            let words = &line[place.start as usize..place.end as usize];
            format!(
                "{} at {}:{}:{words}",
                notice.code.code,
                place.shown,
                place.line + 1
            )
        })
        .collect()
}

/// What is told of the clean lift with some of its text replaced.
pub(crate) fn told_of(change: &[(&str, &str)]) -> Vec<String> {
    let files = changed(change);
    let snapshot = workspace(&files).snapshot();
    let checked = check(&snapshot);
    told(&snapshot, &checked.notices)
}

/// The last row of the stations, behind which more entries fit.
const LAST_ROW: &str = "    | (18.0 m, 5.0 m) | on stool          |\n";

/// The clean lift with more entries behind it.
pub(crate) fn with(more: &str, change: &[(&str, &str)]) -> (Snapshot, Checked) {
    let more = format!("{LAST_ROW}\n{more}");
    let mut all = vec![(LAST_ROW, &*more)];
    all.extend(change);
    let snapshot = workspace(&changed(&all)).snapshot();
    let checked = check(&snapshot);
    (snapshot, checked)
}

/// Code and words of each notice of the clean lift with more entries behind it.
pub(crate) fn told_with(more: &str, change: &[(&str, &str)]) -> Vec<String> {
    let (_, checked) = with(more, change);
    let said = |notice: &Notice| format!("{}: {}", notice.code.code, notice.say);
    checked.notices.iter().map(said).collect()
}

/// One of what is told has this code and these words.
pub(crate) fn says(told: &[String], code: &str, words: &str) {
    assert!(
        told.iter()
            .any(|told| told.starts_with(&format!("{code}:")) && told.contains(words)),
        "{told:?}"
    );
}

/// Rule, outcome and headline of every finding of a case.
pub(crate) fn of_case(checked: &Checked, case: &str) -> Vec<(&'static str, &'static str, String)> {
    let cases = checked.cases.iter().filter(|found| found.case == case);
    cases
        .flat_map(|case| &case.findings)
        .map(|finding| {
            let verdict = finding.aspect.verdict.word();
            (
                finding.identity.rule,
                verdict,
                finding.aspect.headline.clone(),
            )
        })
        .collect()
}

/// The change that takes the mass away.
pub(crate) const NO_MASS: (&str, &str) = (
    "mass       14.0 t +/- 5 %           from drawing",
    "mass       unknown",
);
