//! The terminal: the fact first with number and limit, then the places that made it so, then the sum in
//! one line, then what would mend it.
//!
//! Findings come worst first: what is over, what could not be read, what cannot be told, warnings, what is
//! not yet due; then one line for each case, and the sentence that nobody may leave out.

mod message;
mod page;
mod source;
mod summary;

use message::Message;
use page::Page;
use plumbhook_model::notices::OUR_BUG;
use plumbhook_sheet::{EntryRef, Finding, Notice, Severity, Verdict};
use plumbhook_workspace::{Checked, Snapshot};
use std::collections::BTreeSet;

pub(crate) use source::clean;

/// The screen that is written to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Screen {
    /// Columns; text is set in 40 to 100 of them.
    pub width: usize,
    /// Whether it shows colour.
    pub colour: bool,
}

/// Everything that a check says, for a person at a terminal.
pub fn render(checked: &Checked, snapshot: &Snapshot, screen: Screen) -> String {
    render_from(Severity::NotYetDue, checked, snapshot, screen)
}

/// What a check says, from the severity `least` on, for a person at a terminal. The summary counts everything.
pub fn render_from(
    least: Severity,
    checked: &Checked,
    snapshot: &Snapshot,
    screen: Screen,
) -> String {
    let mut page = Page::new(screen);
    for message in messages(checked, least.max(Severity::Warning)) {
        message.set(&mut page, snapshot);
        page.blank();
    }
    if least <= Severity::NotYetDue {
        summary::not_yet_due(checked, snapshot, &mut page);
    }
    summary::summary(checked, &mut page);
    page.finish()
}

/// Why something was not checked, for a person at a terminal; empty where all was.
pub fn not_checked(checked: &Checked, snapshot: &Snapshot, screen: Screen) -> String {
    let mut page = Page::new(screen);
    for reason in &checked.not_checked {
        Message::of_not_checked(reason).set(&mut page, snapshot);
        page.blank();
    }
    page.finish()
}

/// Whether everything that was asked for was checked, and something was. If not, a clean result says nothing.
pub fn is_whole(checked: &Checked) -> bool {
    let failed = |notice: &Notice| notice.code == &OUR_BUG;
    checked.not_checked.is_empty()
        && !checked.cases.is_empty()
        && !checked.notices.iter().any(failed)
}

/// Every finding and notice that is said aloud, worst first.
fn messages(checked: &Checked, least: Severity) -> Vec<Message<'_>> {
    let mut findings: Vec<&Finding> = checked
        .cases
        .iter()
        .flat_map(|case| &case.findings)
        .filter(|finding| finding.severity >= least)
        .collect();
    // Stable: what is equally bad stays in the order of the workspace.
    findings.sort_by(|a, b| badness(b).total_cmp(&badness(a)));
    let several = checked.cases.len() > 1;
    let (over, others): (Vec<_>, Vec<_>) = findings
        .into_iter()
        .partition(|finding| finding.aspect.verdict == Verdict::Over);
    let notices = |loud: bool| {
        checked
            .notices
            .iter()
            .filter(move |notice| (notice.code.severity == Severity::Error) == loud)
            .map(Message::of_notice)
    };
    let told = checked
        .notices
        .iter()
        .map(|notice| (&notice.origin.entry, notice.origin.line))
        .collect();
    let said = |finding| said(finding, several, &told);
    over.into_iter()
        .map(said)
        .chain(notices(true))
        .chain(others.into_iter().map(said))
        .chain(notices(false).filter(|_| least <= Severity::Warning))
        .collect()
}

fn said<'a>(
    finding: &'a Finding,
    several: bool,
    told: &BTreeSet<(&'a EntryRef, u32)>,
) -> Message<'a> {
    let about = if several {
        message::case_name(&finding.identity)
    } else {
        String::new()
    };
    Message::of_finding(finding, about, told)
}

/// Over by utilisation, cannot tell by how much waits for it.
fn badness(finding: &Finding) -> f64 {
    match finding.aspect.verdict {
        Verdict::Over => finding.aspect.sheet.utilisation.unwrap_or(1.0),
        _ => finding.blocks.len() as f64,
    }
}
