//! What the checks found, at the ends of the lines that it is about. Read from sheets; nothing is computed.

use crate::results::{Result, badness, say};
use plumbhook_model::{Declared, Role};
use plumbhook_sheet::{Finding, InputValue, Origin, Severity, Verdict};
use plumbhook_units::{Kind, Printer, Round};
use plumbhook_workspace::{CaseOutcome, Checked, Snapshot, SourceFile, Tally};
use std::collections::BTreeMap;
use std::ops::RangeInclusive;
use std::path::Path;
use std::sync::Arc;

/// Results beyond these are counted, not shown. They are in order, so what is hidden is never worse.
const MOST: usize = 4;

/// A result at the end of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Inlay {
    /// The line, from 0.
    pub line: u32,
    /// What is shown behind it.
    pub text: String,
    /// All of it, in Markdown.
    pub markdown: String,
}

/// The results at the lines asked for, in order, one a line.
///
/// A line shows the worst of each rule that speaks of it: in a job at the line of the finding alone; in a yard or a
/// plant also at the lines that made it so, since nobody sees the job there. What is over or cannot be told stands
/// before what is within. A mass shows the band that was used, a move how its checks ended.
pub fn inlays(
    snapshot: &Snapshot,
    checked: &Checked,
    path: &Path,
    lines: &RangeInclusive<u32>,
) -> Vec<Inlay> {
    let Some(file) = snapshot.file(path) else {
        return vec![];
    };
    let mut found: BTreeMap<u32, OfLine<'_>> = BTreeMap::new();
    let near = entries_in(file, lines);
    // Asked of every place of every sheet: few entries are in a window, so most are turned away here.
    let line_of = |origin: &Origin| {
        if !near.iter().any(|entry| entry.key == origin.entry) {
            return None;
        }
        let line = snapshot.locate(origin)?.line;
        lines.contains(&line).then_some(line)
    };
    for case in &checked.cases {
        for finding in &case.findings {
            for line in places(file, case, finding).filter_map(line_of) {
                found.entry(line).or_default().take((case, finding));
            }
            for input in &finding.aspect.sheet.inputs {
                if !is_mass_band(&input.value) {
                    continue;
                }
                for line in input.origins.iter().filter_map(line_of) {
                    found.entry(line).or_default().band(case, &input.value);
                }
            }
        }
    }
    for (entry, tally) in moves(file, &near, checked) {
        if let Some(line) = line_of(&Origin::header(&entry.key)) {
            found.entry(line).or_default().tally = Some(say_tally(tally));
        }
    }
    let several = checked.cases.len() > 1;
    found
        .into_iter()
        .filter_map(|(line, of_line)| of_line.inlay(line, several))
        .collect()
}

/// Where a finding is shown in this file.
fn places<'f>(
    file: &SourceFile,
    case: &CaseOutcome,
    finding: &'f Finding,
) -> impl Iterator<Item = &'f Origin> {
    let aspect = &finding.aspect;
    let elsewhere = case.file != file.shown;
    let related = aspect.related.iter().filter(move |_| elsewhere);
    std::iter::once(&aspect.primary).chain(related.map(|it| &it.origin))
}

fn is_mass_band(value: &InputValue) -> bool {
    match value {
        InputValue::Band { lo, hi } => lo.or(*hi).is_some_and(|side| side.kind == Kind::Mass),
        _ => false,
    }
}

/// The entries that some of these lines belong to.
fn entries_in<'f>(file: &'f SourceFile, lines: &RangeInclusive<u32>) -> Vec<&'f Arc<Declared>> {
    let blocks = file.document().blocks().iter().zip(file.entries());
    blocks
        .filter(|(block, _)| {
            let behind = block.first_line.saturating_add(block.lines);
            block.first_line <= *lines.end() && *lines.start() < behind
        })
        .map(|(_, entry)| entry)
        .collect()
}

/// The moves among these entries of a job's file, each with how its checks ended in all options that it belongs to.
fn moves<'c>(
    file: &'c SourceFile,
    entries: &'c [&'c Arc<Declared>],
    checked: &'c Checked,
) -> impl Iterator<Item = (&'c Declared, Tally)> {
    let job = file.opener.as_ref().map_or("", |job| job.name());
    let moves = entries.iter().filter(|entry| entry.is(Role::Move));
    moves.filter_map(move |entry| {
        let name = format!("{job}/{}", entry.name());
        let cases = checked.cases.iter();
        let tally = cases
            .filter(|case| case.file == file.shown && case.case == name)
            .map(|case| Tally::of(&case.findings))
            .reduce(Tally::plus)?;
        Some((&***entry, tally))
    })
}

fn say_tally(tally: Tally) -> String {
    let counts = [
        (tally.over, "over"),
        (tally.cannot_tell, "cannot tell"),
        (tally.not_yet_due, "not yet due"),
        (tally.within, "within"),
        (tally.does_not_apply, "does not apply"),
    ];
    let said = counts.iter().filter(|(count, _)| *count > 0);
    let said: Vec<_> = said
        .map(|(count, word)| format!("{count} {word}"))
        .collect();
    said.join(", ")
}

/// What is shown of one line.
#[derive(Default)]
struct OfLine<'c> {
    tally: Option<String>,
    bands: Vec<String>,
    results: Vec<Result<'c>>,
}

impl<'c> OfLine<'c> {
    fn band(&mut self, case: &CaseOutcome, value: &InputValue) {
        let InputValue::Band { lo, hi } = value else {
            return;
        };
        let band = case.printer.band(*lo, *hi);
        if !self.bands.contains(&band) {
            self.bands.push(band);
        }
    }

    fn take(&mut self, result: Result<'c>) {
        let same = |(_, other): &Result<'_>| std::ptr::eq(*other, result.1);
        if !self.results.iter().any(same) {
            self.results.push(result);
        }
    }

    fn inlay(mut self, line: u32, several: bool) -> Option<Inlay> {
        self.results
            .sort_by(|(_, a), (_, b)| badness(b).total_cmp(&badness(a)));
        let mut rules: Vec<&str> = Vec::new();
        let mut worst = Vec::new();
        for (_, finding) in &self.results {
            let rule = finding.identity.rule;
            if !rules.contains(&rule) {
                rules.push(rule);
                worst.extend(words(finding));
            }
        }
        let hidden = worst.len().saturating_sub(MOST);
        worst.truncate(MOST);
        if hidden > 0 {
            worst.push(format!("and {hidden} more"));
        }
        let parts: Vec<_> = self
            .tally
            .into_iter()
            .chain(self.bands)
            .chain(worst)
            .collect();
        (!parts.is_empty()).then(|| Inlay {
            line,
            text: parts.join(", "),
            markdown: say(&self.results, several),
        })
    }
}

/// `sling-rating 12.7 t of 14.1 t (90 %)`, with what it is unless it is within; `None` where there is nothing to say.
fn words(finding: &Finding) -> Option<String> {
    let rule = finding.identity.rule;
    match (&finding.aspect.verdict, finding.severity) {
        (Verdict::Over, _) => Some(match numbers(finding) {
            Some(numbers) => format!("over: {rule} {numbers}"),
            None => format!("over: {rule}"),
        }),
        // Numbers that nobody can vouch for would read as an answer.
        (Verdict::CannotTell(_), Severity::NotYetDue) => Some(format!("not yet due: {rule}")),
        (Verdict::CannotTell(_), _) => Some(format!("cannot tell: {rule}")),
        (Verdict::Within, _) => numbers(finding).map(|numbers| format!("{rule} {numbers}")),
        (Verdict::DoesNotApply(_), _) => None,
    }
}

fn numbers(finding: &Finding) -> Option<String> {
    let sheet = &finding.aspect.sheet;
    let (demand, capacity) = sheet.demand.zip(sheet.capacity)?;
    let metric = Printer { us_beside: false };
    // Some limits are the least that is needed: there more is within.
    let least = (finding.aspect.verdict == Verdict::Within) == (demand.si > capacity.si);
    if least {
        let demand = metric.metric(demand, Round::Down);
        let capacity = metric.metric(capacity, Round::Up);
        return Some(format!("{demand}, at least {capacity}"));
    }
    let share = sheet.utilisation.map(Printer::utilisation);
    let share = share.map_or_else(String::new, |share| format!(" ({share})"));
    let demand = metric.metric(demand, Round::Up);
    Some(format!(
        "{demand} of {}{share}",
        metric.metric(capacity, Round::Down)
    ))
}
