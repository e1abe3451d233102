//! What a check of a snapshot gives: every check made, findings folded under their cause.

use plumbhook_sheet::{Finding, Notice, Severity, Verdict};
use std::sync::Arc;

/// Everything said of one case, worst first.
#[derive(Clone, Debug)]
pub struct CaseOutcome {
    /// `job/move`.
    pub case: String,
    /// The job's file, as the workspace spells it.
    pub file: Arc<str>,
    /// Every check made: errors first, then what is not yet due, then what is quiet (within, does not apply).
    pub findings: Vec<Finding>,
}

/// Everything said of a snapshot.
#[derive(Clone, Debug, Default)]
pub struct Checked {
    /// Each case, in the order of files and of moves in them.
    pub cases: Vec<CaseOutcome>,
    /// Notices of every file that was checked, in order.
    pub notices: Vec<Notice>,
    /// Job files that were checked.
    pub jobs: usize,
}

/// How many checks ended how.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Over.
    pub over: usize,
    /// Cannot tell, and due.
    pub cannot_tell: usize,
    /// Of those, folded under another finding that lacks the same datum.
    pub blocked: usize,
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
            tally.blocked += finding.blocks.len();
            tally.cannot_tell += finding.blocks.len();
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
            .flat_map(|case| case.findings.iter().map(move |finding| (case, finding)));
        all.filter(|(_, finding)| finding.aspect.verdict == Verdict::Within)
            .filter_map(|pair| Some((pair.1.aspect.sheet.utilisation?, pair)))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, pair)| pair)
    }
}
