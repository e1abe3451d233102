//! Everything that a check says, for programs. The form is stable: within one `version`, fields are added but
//! neither renamed, removed nor given another meaning.
//!
//! - **Numbers** stand as `si` (value in the SI unit named in `unit`), `kind` (what they mean) and `printed` (as
//!   people read it: demand rounded up, capacity rounded down, all else to the nearest). A number that is not
//!   finite is `null` in `si` and said in words in `printed`. A rated capacity is a force in newtons, also where
//!   it was written as a mass.
//! - **Places**: `line`, `column` and `end_column` count from 1; columns count bytes of the UTF-8 text, and
//!   `end_column` is that of the first byte behind. `file` is the path as the user would write it. A place that
//!   is not in the checked text any more has the file alone.
//! - **Outcomes** are `over`, `cannot-tell`, `within`, `does-not-apply`. `severity` is `error`, `warning`,
//!   `not-yet-due` (not demanded at the job's stage, and never called within) or `quiet`.
//! - **`blocks`** lists the checks that wait for the same datum and are folded under this one; they stand nowhere
//!   else, and `tally` counts them as cannot tell (or not yet due).
//! - **`asked`** names the open question that asks for what a check lacks; `tally` counts such checks, with what they
//!   block. `root_file` lists each rule that the root file makes louder or lower, with its reason; an *over* it never
//!   touches. `option` stands in a case where the job has options.
//! - **`calculated`** stands in an input of a sheet whose value the text calculates: the calculation as typed, what it
//!   comes to, and where each name in it is given. `stage` is the one that the command line took every job to.
//! - **`not_checked`** lists what kept files from being checked. Where it is not empty, the rest says nothing
//!   about those files.
//! - **Identity** of a check is `rule`, `subject`, `case`, `option` together; no line number is in it.
//!
//! An example, as the tests produce it:
//!
//! ```json
#![doc = include_str!("example.json")]
//! ```

mod sheet;
mod value;

use crate::DECISION_SUPPORT;
use plumbhook_sheet::{
    Finding, Identity, Lack, Missing, Notice, Origin, Related, Severity, Stage, Verdict,
};
use plumbhook_workspace::{CaseOutcome, Checked, Loud, NotChecked, Snapshot, Tally};
use serde::{Serialize, Serializer};
use std::io;
use value::Place;

/// The version of the form.
pub const VERSION: u32 = 1;

/// Writes one JSON document and a line ending.
///
/// # Errors
/// If `out` cannot be written to.
pub fn write(checked: &Checked, snapshot: &Snapshot, out: &mut dyn io::Write) -> io::Result<()> {
    serde_json::to_writer(&mut *out, &result(checked, snapshot))?;
    out.write_all(b"\n")
}

/// The document, for a serializer of the caller.
pub fn result<'a>(checked: &'a Checked, snapshot: &'a Snapshot) -> impl Serialize + 'a {
    Document {
        version: VERSION,
        tool: concat!("plumbhook ", env!("CARGO_PKG_VERSION")),
        note: DECISION_SUPPORT,
        severity: checked.worst(),
        only: &checked.only,
        stage: checked.stage,
        jobs: checked.jobs,
        tally: Counts::of(checked.tally()),
        root_file: checked
            .louds
            .iter()
            .map(|loud| Louder::of(loud, snapshot))
            .collect(),
        cases: Cases(checked, snapshot),
        notices: checked
            .notices
            .iter()
            .map(|notice| Said::of(notice, snapshot))
            .collect(),
        not_checked: checked.not_checked.iter().map(Unchecked::of).collect(),
    }
}

#[derive(Serialize)]
struct Document<'a> {
    version: u32,
    tool: &'static str,
    note: &'static str,
    severity: Severity,
    /// The rules that alone were run; left out where all were.
    #[serde(skip_serializing_if = "<[_]>::is_empty")]
    only: &'a [&'static str],
    /// The stage that every job was taken to have come to at least; left out where each stands where it says.
    #[serde(skip_serializing_if = "Option::is_none")]
    stage: Option<Stage>,
    jobs: usize,
    tally: Counts,
    /// What the root files make of rules, each with its reason; left out where they make nothing.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    root_file: Vec<Louder<'a>>,
    cases: Cases<'a>,
    notices: Vec<Said<'a>>,
    not_checked: Vec<Unchecked<'a>>,
}

#[derive(Serialize)]
struct Louder<'a> {
    rule: &'static str,
    to: Severity,
    because: &'a str,
    place: Place,
}

impl<'a> Louder<'a> {
    fn of(loud: &'a Loud, snapshot: &Snapshot) -> Self {
        Self {
            rule: loud.rule,
            to: loud.to,
            because: &loud.because,
            place: Place::of(&loud.origin, snapshot),
        }
    }
}

/// Cases are made one at a time: all sheets of a thousand jobs at once would fill the memory.
struct Cases<'a>(&'a Checked, &'a Snapshot);

impl Serialize for Cases<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let cases = self.0.cases.iter();
        serializer.collect_seq(cases.map(|case| OneCase::of(case, self.1)))
    }
}

#[derive(Serialize)]
struct OneCase<'a> {
    case: &'a str,
    /// Left out where the job has no options.
    #[serde(skip_serializing_if = "Option::is_none")]
    option: Option<&'a str>,
    file: &'a str,
    tally: Counts,
    checks: Vec<Check<'a>>,
}

impl<'a> OneCase<'a> {
    fn of(case: &'a CaseOutcome, snapshot: &'a Snapshot) -> Self {
        Self {
            case: &case.case,
            option: case.option.as_deref(),
            file: &case.file,
            tally: Counts::of(Tally::of(&case.findings)),
            checks: case
                .findings
                .iter()
                .map(|finding| Check::of(finding, snapshot))
                .collect(),
        }
    }
}

#[derive(Serialize)]
struct Counts {
    over: usize,
    cannot_tell: usize,
    within: usize,
    does_not_apply: usize,
    not_yet_due: usize,
    blocked: usize,
    asked: usize,
}

impl Counts {
    fn of(tally: Tally) -> Self {
        Self {
            over: tally.over,
            cannot_tell: tally.cannot_tell,
            within: tally.within,
            does_not_apply: tally.does_not_apply,
            not_yet_due: tally.not_yet_due,
            blocked: tally.blocked,
            asked: tally.asked,
        }
    }
}

#[derive(Serialize)]
struct Check<'a> {
    #[serde(flatten)]
    identity: &'a Identity,
    outcome: &'static str,
    severity: Severity,
    headline: &'a str,
    place: Place,
    related: Vec<Beside<'a>>,
    sums: &'a [String],
    mends: &'a [String],
    missing: Vec<Lacks<'a>>,
    because: Option<&'a str>,
    blocks: &'a [Identity],
    #[serde(skip_serializing_if = "Option::is_none")]
    asked: Option<&'a str>,
    sheet: sheet::View<'a>,
}

impl<'a> Check<'a> {
    fn of(finding: &'a Finding, snapshot: &Snapshot) -> Self {
        let aspect = &*finding.aspect;
        let (outcome, missing, because) = match &aspect.verdict {
            Verdict::Over => ("over", &[][..], None),
            Verdict::Within => ("within", &[][..], None),
            Verdict::CannotTell(missing) => ("cannot-tell", &missing[..], None),
            Verdict::DoesNotApply(because) => ("does-not-apply", &[][..], Some(&**because)),
        };
        Self {
            identity: &finding.identity,
            outcome,
            severity: finding.severity,
            headline: &aspect.headline,
            place: Place::of(&aspect.primary, snapshot),
            related: beside(&aspect.related, snapshot),
            sums: &aspect.sums,
            mends: &aspect.mends,
            missing: missing
                .iter()
                .map(|missing| Lacks::of(missing, snapshot))
                .collect(),
            because,
            blocks: &finding.blocks,
            asked: finding.asked.as_deref(),
            sheet: sheet::View::of(&aspect.sheet, snapshot),
        }
    }
}

#[derive(Serialize)]
struct Beside<'a> {
    place: Place,
    say: &'a str,
}

fn beside<'a>(related: &'a [Related], snapshot: &Snapshot) -> Vec<Beside<'a>> {
    related
        .iter()
        .map(|related| Beside {
            place: Place::of(&related.origin, snapshot),
            say: &related.say,
        })
        .collect()
}

#[derive(Serialize)]
struct Lacks<'a> {
    what: &'a str,
    why: Lack,
    place: Place,
    mend: &'a str,
    due: Stage,
}

impl<'a> Lacks<'a> {
    fn of(missing: &'a Missing, snapshot: &Snapshot) -> Self {
        Self {
            what: &missing.what,
            why: missing.lack,
            place: Place::of(&missing.origin, snapshot),
            mend: &missing.mend,
            due: missing.due,
        }
    }
}

#[derive(Serialize)]
struct Said<'a> {
    code: &'static str,
    severity: Severity,
    say: &'a str,
    place: Place,
    related: Vec<Beside<'a>>,
    mend: &'a str,
}

impl<'a> Said<'a> {
    fn of(notice: &'a Notice, snapshot: &Snapshot) -> Self {
        let origin: &Origin = &notice.origin;
        Self {
            code: notice.code.code,
            severity: notice.code.severity,
            say: &notice.say,
            place: Place::of(origin, snapshot),
            related: beside(&notice.related, snapshot),
            mend: &notice.mend,
        }
    }
}

#[derive(Serialize)]
struct Unchecked<'a> {
    place: Place,
    why: &'a str,
    mend: &'a str,
    files: Vec<&'a str>,
}

impl<'a> Unchecked<'a> {
    fn of(reason: &'a NotChecked) -> Self {
        Self {
            place: reason
                .at
                .as_ref()
                .map_or_else(|| Place::file(&reason.shown), Place::at),
            why: &reason.why,
            mend: &reason.mend,
            files: reason.files.iter().map(|file| &**file).collect(),
        }
    }
}
