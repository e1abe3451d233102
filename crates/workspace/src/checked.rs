//! What a check of a snapshot gives: every check made, findings folded under their cause.

use crate::{Located, Loud, Unreadable};
use plumbhook_sheet::{Finding, Notice, Severity, Stage, Verdict};
use plumbhook_units::Printer;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Everything said of one case, worst first.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseOutcome {
    /// `job/move`.
    pub case: String,
    /// The option, where the job has several.
    pub option: Option<String>,
    /// The job's file, as the workspace spells it.
    pub file: Arc<str>,
    /// How far the job has come.
    pub stage: Stage,
    /// How its numbers are printed.
    pub printer: Printer,
    /// Every check made: errors first, then what is not yet due, then what is quiet (within, does not apply).
    pub findings: Vec<Finding>,
    /// Where the move contradicts the one that it follows; [`Checked::notices`] holds them too.
    pub notices: Vec<Notice>,
}

/// Something that kept files from being checked, or from being seen. Never silence: a face that shows the rest
/// shows these too, and the exit code is that of "could not check".
#[derive(Clone, Debug, PartialEq)]
pub struct NotChecked {
    /// The file or folder with the reason in it: the root file where that is wrong.
    pub path: PathBuf,
    /// The same as the user would write it.
    pub shown: Arc<str>,
    /// The place of the reason, where it has one.
    pub at: Option<Located>,
    /// The reason.
    pub why: String,
    /// What would mend it; may have several lines; empty where nothing is known.
    pub mend: String,
    /// The wanted files that were not checked because of it, as shown.
    pub files: Vec<Arc<str>>,
}

impl NotChecked {
    pub(crate) fn unreadable(path: &Path, shown: &Arc<str>, why: &Unreadable) -> Self {
        Self {
            path: path.to_owned(),
            shown: Arc::clone(shown),
            at: None,
            why: why.why.clone(),
            mend: why.mend.clone(),
            files: vec![Arc::clone(shown)],
        }
    }
}

/// Everything said of a snapshot.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Checked {
    /// Each case, in the order of files and of moves in them.
    pub cases: Vec<Arc<CaseOutcome>>,
    /// Notices of every file that was checked, in order.
    pub notices: Vec<Notice>,
    /// Job files in which something was checked.
    pub jobs: usize,
    /// The rules that alone were run; empty where all were.
    pub only: Arc<[&'static str]>,
    /// The stage that every job was taken to have come to at least, beside what it and its root file say.
    pub stage: Option<Stage>,
    /// What kept files from being checked.
    pub not_checked: Vec<NotChecked>,
    /// Rules that the root files of what was checked made loud or low, each with its reason.
    pub louds: Vec<Loud>,
}

/// How many checks ended how.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Over.
    pub over: usize,
    /// Cannot tell, and due.
    pub cannot_tell: usize,
    /// Of those and of what is not yet due, folded under another finding that lacks the same datum.
    pub blocked: usize,
    /// Of those that cannot tell, waiting for the answer of an open question.
    pub asked: usize,
    /// Within.
    pub within: usize,
    /// Does not apply.
    pub does_not_apply: usize,
    /// Cannot tell, and not yet due at the job's stage.
    pub not_yet_due: usize,
}

impl Tally {
    /// Counts findings; what a finding blocks is counted as the check that it is.
    pub fn of<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> Self {
        let mut tally = Self::default();
        for finding in findings {
            match (&finding.aspect.verdict, finding.severity) {
                (Verdict::Over, _) => tally.over += 1,
                (Verdict::CannotTell(_), Severity::NotYetDue) => tally.not_yet_due += 1,
                (Verdict::CannotTell(_), _) => tally.cannot_tell += 1,
                (Verdict::Within, _) => tally.within += 1,
                (Verdict::DoesNotApply(_), _) => tally.does_not_apply += 1,
            }
            if finding.asked.is_some() && finding.severity != Severity::NotYetDue {
                tally.asked += 1 + finding.blocks.len();
            }
            // What is folded is as due as what it is folded under.
            tally.blocked += finding.blocks.len();
            match finding.severity {
                Severity::NotYetDue => tally.not_yet_due += finding.blocks.len(),
                _ => tally.cannot_tell += finding.blocks.len(),
            }
        }
        tally
    }

    /// Both counts together.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            over: self.over + other.over,
            cannot_tell: self.cannot_tell + other.cannot_tell,
            blocked: self.blocked + other.blocked,
            asked: self.asked + other.asked,
            within: self.within + other.within,
            does_not_apply: self.does_not_apply + other.does_not_apply,
            not_yet_due: self.not_yet_due + other.not_yet_due,
        }
    }
}

impl Checked {
    /// Whether anything stands at error level.
    pub fn has_errors(&self) -> bool {
        self.worst() == Severity::Error
    }

    /// The loudest of all findings and notices.
    pub fn worst(&self) -> Severity {
        let findings = self
            .cases
            .iter()
            .flat_map(|case| &case.findings)
            .map(|finding| finding.severity);
        let notices = self.notices.iter().map(|notice| notice.code.severity);
        findings.chain(notices).max().unwrap_or(Severity::Quiet)
    }

    /// How many checks of all cases ended how.
    pub fn tally(&self) -> Tally {
        self.cases
            .iter()
            .map(|case| Tally::of(&case.findings))
            .fold(Tally::default(), Tally::plus)
    }

    /// The passing check that comes nearest to its limit, with the case it belongs to.
    pub fn nearest_limit(&self) -> Option<(&CaseOutcome, &Finding)> {
        let all = self
            .cases
            .iter()
            .flat_map(|case| case.findings.iter().map(move |finding| (&**case, finding)));
        all.filter(|(_, finding)| finding.aspect.verdict == Verdict::Within)
            .filter_map(|pair| Some((pair.1.aspect.sheet.utilisation?, pair)))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, pair)| pair)
    }

    /// Whether anything was checked and nothing kept a file from it: else "nothing over" says nothing.
    pub fn is_complete(&self) -> bool {
        self.jobs > 0 && self.not_checked.is_empty()
    }
}
