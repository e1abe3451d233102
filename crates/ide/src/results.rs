//! Results of checks in a few lines, for what an engineer points at.

use plumbhook_sheet::{Finding, InputValue, Origin, Severity, Verdict};
use plumbhook_units::{Printer, Round};
use plumbhook_workspace::{CaseOutcome, Checked};

/// Results beyond these are counted, not shown.
const MOST: usize = 6;
/// Corners beyond these are counted, not shown.
const MOST_CORNERS: usize = 4;

/// A finding with its case.
pub(crate) type Result<'c> = (&'c CaseOutcome, &'c Finding);

/// The findings of all cases that `wanted` wants, worst first.
pub(crate) fn results(checked: &Checked, wanted: impl Fn(&Finding) -> bool) -> Vec<Result<'_>> {
    let mut found: Vec<Result<'_>> = checked
        .cases
        .iter()
        .flat_map(|case| case.findings.iter().map(|finding| (&**case, finding)))
        .filter(|(_, finding)| wanted(finding))
        .collect();
    found.sort_by(|(_, a), (_, b)| badness(b).total_cmp(&badness(a)));
    found
}

pub(crate) fn badness(finding: &Finding) -> f64 {
    let share = finding.aspect.sheet.utilisation;
    match finding.aspect.verdict {
        Verdict::Over => 1e6 + share.unwrap_or(f64::MAX / 2.0),
        Verdict::CannotTell(_) if finding.severity == Severity::Error => 1e5,
        Verdict::CannotTell(_) => 1e4,
        Verdict::Within => share.unwrap_or(0.0),
        Verdict::DoesNotApply(_) => -1.0,
    }
}

/// A list of results, each with demand of capacity, corner and formula.
pub(crate) fn say(results: &[Result<'_>], several_cases: bool) -> String {
    let mut lines = Vec::new();
    for (case, finding) in results.iter().take(MOST) {
        lines.extend(one(case, finding, several_cases));
    }
    if results.len() > MOST {
        lines.push(format!("- and {} more", results.len() - MOST));
    }
    lines.join("\n")
}

fn one(case: &CaseOutcome, finding: &Finding, several_cases: bool) -> Vec<String> {
    let aspect = &finding.aspect;
    let sheet = &aspect.sheet;
    let place = if several_cases {
        format!(" ({})", finding.identity.case)
    } else {
        String::new()
    };
    let numbers = match (
        &aspect.verdict,
        sheet.demand,
        sheet.capacity,
        sheet.utilisation,
    ) {
        (Verdict::Over | Verdict::Within, Some(demand), Some(capacity), Some(share)) => format!(
            ": {} of {} ({})",
            case.printer.amount(demand, Round::Up),
            case.printer.amount(capacity, Round::Down),
            Printer::utilisation(share)
        ),
        _ => String::new(),
    };
    let word = match (&aspect.verdict, finding.severity) {
        (Verdict::CannotTell(_), Severity::NotYetDue) => "not yet due",
        (verdict, _) => verdict.word(),
    };
    let head = if numbers.is_empty() {
        format!(
            "- **{word}** `{}`{place}: {}",
            finding.identity.rule, aspect.headline
        )
    } else {
        format!(
            "- **{word}** `{}` {}{place}{numbers}",
            finding.identity.rule, aspect.subject
        )
    };
    let mut lines = vec![head];
    if let Some(corner) = corner(finding) {
        lines.push(format!("  at {corner}"));
    }
    lines.extend(aspect.sums.iter().map(|sum| format!("  `{sum}`")));
    lines
}

fn corner(finding: &Finding) -> Option<String> {
    let sheet = &finding.aspect.sheet;
    let decided = matches!(finding.aspect.verdict, Verdict::Over | Verdict::Within);
    if !decided || sheet.corner.is_empty() {
        return None;
    }
    let shown = sheet.corner.iter().take(MOST_CORNERS);
    let shown: Vec<_> = shown.map(plumbhook_sheet::Corner::text).collect();
    Some(match sheet.corner.len().saturating_sub(MOST_CORNERS) {
        0 => shown.join(", "),
        more => format!("{} and {more} more", shown.join(", ")),
    })
}

/// The inputs of these results that stand at places that `here` knows: "mass of cover 13.3 .. 14.7 t, from drawing".
pub(crate) fn inputs(results: &[Result<'_>], here: impl Fn(&Origin) -> bool) -> Vec<String> {
    let mut said: Vec<String> = Vec::new();
    for (case, finding) in results {
        for input in &finding.aspect.sheet.inputs {
            if !input.origins.iter().any(&here) {
                continue;
            }
            let value = match &input.value {
                InputValue::Exact(amount) => case.printer.amount(*amount, Round::Nearest),
                InputValue::Band { lo, hi } => case.printer.band(*lo, *hi),
                InputValue::Words(words) => words.clone(),
            };
            let pedigree = if input.pedigree.is_empty() {
                String::new()
            } else {
                format!(", {}", input.pedigree)
            };
            let line = format!("- {}: {value}{pedigree}", input.what);
            if !said.contains(&line) {
                said.push(line);
            }
        }
    }
    said.truncate(MOST);
    said
}
