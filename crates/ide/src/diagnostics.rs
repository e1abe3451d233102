//! What an editor marks in each file: notices, findings, and what kept a file from being checked.

use plumbhook_sheet::{Finding, Notice, Origin, Related, Severity, Verdict, say_blocks};
use plumbhook_workspace::{CaseOutcome, Checked, Located, NotChecked, Snapshot};
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;

/// Code of a diagnostic that says that a file was not checked.
const NOT_CHECKED: &str = "not-checked";

/// How loud a diagnostic is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Over, cannot tell, what could not be read, what was not checked.
    Error,
    /// Worth a look.
    Warning,
    /// Not yet due at the job's stage.
    Information,
}

/// One mark in a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// Where.
    pub at: Located,
    /// How loud.
    pub level: Level,
    /// Code of the rule or the notice.
    pub code: &'static str,
    /// The fact, the sums, what it blocks, what would mend it: a line each.
    pub message: String,
    /// Other places, each with what it contributes.
    pub related: Vec<(Located, String)>,
}

/// All marks of one file, from its first line to its last.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileDiagnostics {
    /// The file.
    pub path: PathBuf,
    /// Its marks.
    pub list: Vec<Diagnostic>,
}

/// The marks of every file that has some, in the order of paths.
///
/// What passes and what does not apply is not marked. What several moves lack alike is one mark that names them.
pub fn diagnostics(snapshot: &Snapshot, checked: &Checked) -> Vec<FileDiagnostics> {
    let mut all = Vec::new();
    for reason in &checked.not_checked {
        all.extend(not_checked(snapshot, reason));
    }
    all.extend(checked.notices.iter().filter_map(|n| notice(snapshot, n)));
    all.extend(findings(snapshot, &checked.cases));
    let mut files: BTreeMap<PathBuf, Vec<Diagnostic>> = BTreeMap::new();
    for diagnostic in all {
        files
            .entry(diagnostic.at.path.clone())
            .or_default()
            .push(diagnostic);
    }
    files
        .into_iter()
        .map(|(path, mut list)| {
            list.sort_by_key(|one| (one.at.line, one.level, one.at.start));
            FileDiagnostics { path, list }
        })
        .collect()
}

fn level(severity: Severity) -> Option<Level> {
    match severity {
        Severity::Error => Some(Level::Error),
        Severity::Warning => Some(Level::Warning),
        Severity::NotYetDue => Some(Level::Information),
        Severity::Quiet => None,
    }
}

/// The reason at its place, and a word on it in every other file that was not checked because of it.
fn not_checked(snapshot: &Snapshot, reason: &NotChecked) -> Vec<Diagnostic> {
    let cause = reason.at.clone().unwrap_or_else(|| Located {
        path: reason.path.clone(),
        shown: Arc::clone(&reason.shown),
        line: 0,
        start: 0,
        end: 0,
    });
    let own = reason.files.contains(&reason.shown);
    let first = if own { "not checked: " } else { "" };
    let one = |at, message, related| Diagnostic {
        at,
        level: Level::Error,
        code: NOT_CHECKED,
        message,
        related,
    };
    let mut lines = vec![format!("{first}{}", reason.why)];
    if !own && !reason.files.is_empty() {
        let count = reason.files.len();
        let files = if count == 1 { "file" } else { "files" };
        lines.push(format!("{count} {files} under it not checked"));
    }
    lines.extend(Some(reason.mend.clone()).filter(|mend| !mend.is_empty()));
    let others = reason.files.iter().filter(|file| **file != reason.shown);
    let others = others.filter_map(|shown| {
        let at = Located {
            path: snapshot.path_of(shown)?.to_path_buf(),
            shown: Arc::clone(shown),
            line: 0,
            start: 0,
            end: 0,
        };
        let message = format!(
            "not checked: {}, line {}: {}",
            cause.shown,
            cause.line + 1,
            reason.why
        );
        Some(one(at, message, vec![(cause.clone(), reason.why.clone())]))
    });
    let others: Vec<_> = others.collect();
    let mut all = vec![one(cause, lines.join("\n"), vec![])];
    all.extend(others);
    all
}

fn notice(snapshot: &Snapshot, notice: &Notice) -> Option<Diagnostic> {
    let mut lines = vec![notice.say.clone()];
    lines.extend(Some(notice.mend.clone()).filter(|mend| !mend.is_empty()));
    Some(Diagnostic {
        level: level(notice.code.severity)?,
        at: place(snapshot, &notice.origin)?,
        code: notice.code.code,
        message: lines.join("\n"),
        related: related(snapshot, &notice.related),
    })
}

/// The place of an origin; the start of its file where its entry is gone, so that nothing is said nowhere.
fn place(snapshot: &Snapshot, origin: &Origin) -> Option<Located> {
    snapshot.locate(origin).or_else(|| {
        let shown = &origin.entry.file;
        Some(Located {
            path: snapshot.path_of(shown)?.to_path_buf(),
            shown: Arc::clone(shown),
            line: 0,
            start: 0,
            end: 0,
        })
    })
}

fn related(snapshot: &Snapshot, related: &[Related]) -> Vec<(Located, String)> {
    let places = related.iter();
    places
        .filter_map(|related| Some((snapshot.locate(&related.origin)?, related.say.clone())))
        .collect()
}

/// The findings of all cases that are marked; the same said of several cases at one place is one.
fn findings(snapshot: &Snapshot, cases: &[Arc<CaseOutcome>]) -> Vec<Diagnostic> {
    let mut same: BTreeMap<(Located, &str, &str), Vec<&Finding>> = BTreeMap::new();
    let loud = cases.iter().flat_map(|case| &case.findings);
    for finding in loud.filter(|finding| finding.severity > Severity::Quiet) {
        if let Some(at) = place(snapshot, &finding.aspect.primary) {
            let key = (at, finding.identity.rule, &*finding.aspect.headline);
            same.entry(key).or_default().push(finding);
        }
    }
    let several = cases.len() > 1;
    same.into_iter()
        .filter_map(|((at, _, _), findings)| finding(snapshot, at, &findings, several))
        .collect()
}

fn finding(
    snapshot: &Snapshot,
    at: Located,
    same: &[&Finding],
    several: bool,
) -> Option<Diagnostic> {
    let first = same.first()?;
    let aspect = &first.aspect;
    let loudest = same.iter().map(|finding| finding.severity).max()?;
    let mut lines = vec![match &aspect.verdict {
        Verdict::CannotTell(_) if loudest == Severity::NotYetDue => {
            format!("not yet due: {}", aspect.headline)
        }
        _ => aspect.headline.clone(),
    }];
    lines.extend(aspect.sums.iter().cloned());
    if several {
        let cases: Vec<_> = same.iter().map(|finding| &*finding.identity.case).collect();
        lines.push(format!("in {}", cases.join(", ")));
    }
    let blocked: Vec<_> = same.iter().flat_map(|finding| &finding.blocks).collect();
    if !blocked.is_empty() {
        lines.push(say_blocks(blocked, ""));
    }
    lines.extend(aspect.mends.iter().cloned());
    Some(Diagnostic {
        at,
        level: level(loudest)?,
        code: first.identity.rule,
        message: lines.join("\n"),
        related: related(snapshot, &aspect.related),
    })
}
