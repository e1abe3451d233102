//! What was checked and how it ended, in one line for each case that needs one.

use super::message::{case_name, place, say_blocks};
use super::page::{Ink, Page};
use crate::DECISION_SUPPORT;
use plumbhook_sheet::{Finding, Severity, Verdict};
use plumbhook_units::Printer;
use plumbhook_workspace::{CaseOutcome, Checked, Snapshot, Tally};
use std::sync::Arc;

/// The lines under the findings.
pub(super) fn summary(checked: &Checked, page: &mut Page) {
    let (open, clean): (Vec<_>, Vec<_>) = checked
        .cases
        .iter()
        .partition(|case| !is_clean(Tally::of(&case.findings)));
    for case in &open {
        let mut line = format!("{}: {}.", name(case), counts(&case.findings));
        line.push_str(&nearest(&case.findings, "worst within", |_| String::new()));
        page.plain(&line);
    }
    match (open.len(), clean.as_slice()) {
        (_, []) => {}
        (0, [one]) => {
            let mut line = format!("{}: {}.", name(one), clean_counts(Tally::of(&one.findings)));
            line.push_str(&nearest(&one.findings, "worst", |_| String::new()));
            page.plain(&line);
        }
        (others, clean) => all_clean(checked.jobs, others, clean, page),
    }
    for line in louds(checked) {
        page.plain(&line);
    }
    for line in [
        stage(checked),
        only(checked),
        notices(checked),
        not_checked(checked),
    ] {
        if !line.is_empty() {
            page.plain(&line);
        }
    }
    page.plain(DECISION_SUPPORT);
}

/// Many clean cases are one line.
fn all_clean(jobs: usize, others: usize, clean: &[&Arc<CaseOutcome>], page: &mut Page) {
    let tally = clean
        .iter()
        .map(|case| Tally::of(&case.findings))
        .fold(Tally::default(), Tally::plus);
    let moves = plural(clean.len(), "move", "moves");
    let head = if others > 0 {
        format!("{moves} more")
    } else {
        format!("{} with {moves}", plural(jobs, "job", "jobs"))
    };
    let mut line = format!("{head}: {}.", clean_counts(tally));
    let findings = clean.iter().flat_map(|case| &case.findings);
    line.push_str(&nearest(findings, "worst", |finding| {
        format!(" ({})", case_name(&finding.identity))
    }));
    page.plain(&line);
}

/// Checks that the stage does not ask for yet are listed, each in a line or two.
pub(super) fn not_yet_due(checked: &Checked, snapshot: &Snapshot, page: &mut Page) {
    let findings = checked.cases.iter().flat_map(|case| &case.findings);
    for finding in findings.filter(|finding| finding.severity == Severity::NotYetDue) {
        let aspect = &*finding.aspect;
        let due = match &aspect.verdict {
            Verdict::CannotTell(missing) => missing.iter().map(|missing| missing.due).min(),
            _ => None,
        };
        let place = place(&aspect.primary, snapshot);
        page.headline(Ink::Later, "not yet due", &[finding.identity.rule], &place);
        let fact = due.map_or_else(
            || aspect.headline.clone(),
            |due| format!("{} (due at {})", aspect.headline, due.word()),
        );
        page.paragraph(&fact);
        if !finding.blocks.is_empty() {
            page.paragraph(&say_blocks(&finding.identity, &finding.blocks));
        }
        page.blank();
    }
}

fn is_clean(tally: Tally) -> bool {
    tally.over == 0 && tally.cannot_tell == 0
}

fn name(case: &CaseOutcome) -> String {
    let name = case.case.replace('/', " ");
    match &case.option {
        Some(option) => format!("{name} option {option}"),
        None => name,
    }
}

/// "2 over, 1 cannot tell (blocks 3), 9 within, 4 do not apply".
fn counts(findings: &[Finding]) -> String {
    let tally = Tally::of(findings);
    let mut parts = Vec::new();
    if tally.over > 0 {
        parts.push(format!("{} over", tally.over));
    }
    if tally.cannot_tell > 0 {
        let own = findings.iter().filter(|finding| {
            matches!(finding.aspect.verdict, Verdict::CannotTell(_))
                && finding.severity != Severity::NotYetDue
        });
        let own = own.count();
        let blocked = tally.cannot_tell.saturating_sub(own);
        let asked = findings
            .iter()
            .filter(|finding| finding.asked.is_some() && finding.severity != Severity::NotYetDue);
        let of_these = [("blocks", blocked), ("asked", asked.count())];
        let of_these = of_these.iter().filter(|(_, count)| *count > 0);
        let of_these: Vec<_> = of_these
            .map(|(word, count)| format!("{word} {count}"))
            .collect();
        let of_these = if of_these.is_empty() {
            String::new()
        } else {
            format!(" ({})", of_these.join(", "))
        };
        parts.push(format!("{own} cannot tell{of_these}"));
    }
    parts.push(format!("{} within", tally.within));
    rest(tally, &mut parts);
    parts.join(", ")
}

/// "58 within, 6 do not apply, nothing over, nothing unknown".
fn clean_counts(tally: Tally) -> String {
    if tally == Tally::default() {
        return "nothing was checked".to_owned();
    }
    let mut parts = vec![format!("{} within", tally.within)];
    rest(tally, &mut parts);
    parts.push("nothing over".to_owned());
    parts.push(if tally.not_yet_due > 0 {
        "nothing unknown that is due".to_owned()
    } else {
        "nothing unknown".to_owned()
    });
    parts.join(", ")
}

fn rest(tally: Tally, parts: &mut Vec<String>) {
    match tally.does_not_apply {
        0 => {}
        1 => parts.push("1 does not apply".to_owned()),
        many => parts.push(format!("{many} do not apply")),
    }
    if tally.not_yet_due > 0 {
        parts.push(format!("{} not yet due", tally.not_yet_due));
    }
}

/// "   worst within: 85 %, bow-17 in leg C".
fn nearest<'a>(
    findings: impl IntoIterator<Item = &'a Finding>,
    label: &str,
    of: impl Fn(&Finding) -> String,
) -> String {
    findings
        .into_iter()
        .filter(|finding| finding.aspect.verdict == Verdict::Within)
        .filter_map(|finding| Some((finding.aspect.sheet.utilisation?, finding)))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map_or_else(String::new, |(share, finding)| {
            format!(
                "   {label}: {}, {}{}",
                Printer::utilisation(share),
                finding.aspect.subject,
                of(finding)
            )
        })
}

/// "The root file makes tilt a warning: hung by hand."; one line for each rule, none without any.
fn louds(checked: &Checked) -> impl Iterator<Item = String> {
    checked.louds.iter().map(|loud| {
        let to = match loud.to {
            Severity::Warning => "only a warning where it cannot tell",
            _ => "an error where it cannot tell, due or not",
        };
        let because = if loud.because.is_empty() {
            String::new()
        } else {
            format!(": {}", loud.because)
        };
        format!("The root file makes {} {to}{because}.", loud.rule)
    })
}

/// "Every job is taken to have come to issue at least."; empty where each stands where it says.
fn stage(checked: &Checked) -> String {
    checked.stage.map_or_else(String::new, |stage| {
        format!(
            "Every job is taken to have come to {} at least.",
            stage.word()
        )
    })
}

/// "Only hook-height was checked, no other rule."; empty where all were.
fn only(checked: &Checked) -> String {
    match &*checked.only {
        [] => String::new(),
        [one] => format!("Only {one} was checked, no other rule."),
        several => format!("Only {} were checked, no other rule.", several.join(", ")),
    }
}

/// "2 errors and 1 warning in the text."; empty without any.
fn notices(checked: &Checked) -> String {
    let count = |severity| {
        let notices = checked.notices.iter();
        notices
            .filter(|notice| notice.code.severity == severity)
            .count()
    };
    let said: Vec<String> = [
        (count(Severity::Error), "error", "errors"),
        (count(Severity::Warning), "warning", "warnings"),
    ]
    .into_iter()
    .filter(|(count, ..)| *count > 0)
    .map(|(count, one, many)| plural(count, one, many))
    .collect();
    if said.is_empty() {
        String::new()
    } else {
        format!("{} in the text.", said.join(" and "))
    }
}

/// What was not checked; empty where all was.
fn not_checked(checked: &Checked) -> String {
    let mut said = Vec::new();
    let reasons = checked.not_checked.len();
    if reasons > 0 {
        let reasons = plural(reasons, "reason", "reasons");
        said.push(format!("Not everything was checked ({reasons})."));
    }
    if checked.cases.is_empty() {
        said.push("Nothing was checked.".to_owned());
    }
    said.join(" ")
}

fn plural(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}
