//! One finding or notice: the fact, the places that made it so, the sum, what would mend it.

use super::page::{Ink, Page};
use super::source::marked;
use plumbhook_sheet::{
    Aspect, EntryRef, Finding, Identity, Lack, Missing, Notice, Origin, Related, Severity, Verdict,
};
use plumbhook_workspace::{Located, NotChecked, Snapshot};
use std::collections::BTreeSet;
use std::sync::Arc;

/// A finding or a notice, as it is printed.
#[derive(Debug)]
pub(super) struct Message<'a> {
    pub(super) word: &'static str,
    pub(super) ink: Ink,
    pub(super) code: &'a str,
    /// The case, where it is not clear.
    pub(super) about: String,
    pub(super) fact: String,
    primary: Primary<'a>,
    marks: Vec<(&'a Origin, String)>,
    /// Paragraphs behind the lines of text, in order; the last may have a remark at its right.
    sums: &'a [String],
    remark: String,
    foot: Vec<String>,
}

/// The place of a message.
#[derive(Debug)]
enum Primary<'a> {
    /// Of an entry.
    Origin(&'a Origin),
    /// Found already.
    Located(&'a Located),
    /// A file or folder as a whole.
    File(&'a str),
}

/// Marks beyond these are counted, not shown.
const MOST_MARKS: usize = 8;

impl<'a> Message<'a> {
    /// Of a check; `about` says which case, where there are several. `told` are the lines that a notice speaks of.
    pub(super) fn of_finding(
        finding: &'a Finding,
        about: String,
        told: &BTreeSet<(&'a EntryRef, u32)>,
    ) -> Self {
        let aspect = &*finding.aspect;
        let mut message = Self {
            word: aspect.verdict.word(),
            ink: match aspect.verdict {
                Verdict::CannotTell(_) => Ink::Unknown,
                _ => Ink::Over,
            },
            code: finding.identity.rule,
            about,
            fact: aspect.headline.clone(),
            primary: Primary::Origin(&aspect.primary),
            marks: Vec::new(),
            sums: &[],
            remark: String::new(),
            foot: Vec::new(),
        };
        if let Verdict::CannotTell(missing) = &aspect.verdict {
            message.lacks(aspect, missing);
        } else {
            message.worked(aspect);
        }
        message.relate(&aspect.related);
        if !finding.blocks.is_empty() {
            let blocks = say_blocks(&finding.identity, &finding.blocks);
            message.foot.push(blocks);
        }
        // How to mend a line that cannot be read is said once, by its notice.
        let told = told.contains(&(&aspect.primary.entry, aspect.primary.line));
        if !(told && lacks_a_broken_line(&aspect.verdict)) {
            message.foot.extend(aspect.mends.iter().cloned());
        }
        message
    }

    /// Of a notice about the text.
    pub(super) fn of_notice(notice: &'a Notice) -> Self {
        let (word, ink) = match notice.code.severity {
            Severity::Error => ("error", Ink::Over),
            Severity::Warning => ("warning", Ink::Warning),
            Severity::NotYetDue | Severity::Quiet => ("note", Ink::Later),
        };
        let mut message = Self {
            word,
            ink,
            code: notice.code.code,
            about: String::new(),
            fact: notice.say.clone(),
            primary: Primary::Origin(&notice.origin),
            marks: vec![(&notice.origin, String::new())],
            sums: &[],
            remark: String::new(),
            foot: Vec::new(),
        };
        message.relate(&notice.related);
        if !notice.mend.is_empty() {
            message.foot.push(notice.mend.clone());
        }
        message
    }

    /// Of something that kept files from being checked.
    pub(super) fn of_not_checked(reason: &'a NotChecked) -> Self {
        let mut foot: Vec<String> = reason.mend.lines().map(str::to_owned).collect();
        let others: Vec<&str> = reason
            .files
            .iter()
            .map(|file| &**file)
            .filter(|file| *file != &*reason.shown)
            .collect();
        if let [first, rest @ ..] = others.as_slice() {
            foot.push(match rest.len() {
                0 => format!("so {first} was not checked"),
                1 => format!("so {first} and one more file were not checked"),
                more => format!("so {first} and {more} more files were not checked"),
            });
        }
        Self {
            word: "could not check",
            ink: Ink::Over,
            code: "",
            about: String::new(),
            fact: reason.why.clone(),
            primary: reason
                .at
                .as_ref()
                .map_or(Primary::File(&reason.shown), Primary::Located),
            marks: Vec::new(),
            sums: &[],
            remark: String::new(),
            foot,
        }
    }

    /// A sum is shown only of what is proved: with something missing, its number stands for nothing.
    fn worked(&mut self, aspect: &'a Aspect) {
        self.marks.push((&aspect.primary, String::new()));
        self.sums = &aspect.sums;
        let mut bases: Vec<String> = Vec::new();
        for basis in aspect.sheet.basis.iter().map(plumbhook_sheet::Basis::say) {
            if !bases.contains(&basis) {
                bases.push(basis);
            }
        }
        self.remark = bases.join("; ");
        self.foot.extend(governs(aspect));
    }

    fn lacks(&mut self, aspect: &'a Aspect, missing: &'a [Missing]) {
        self.marks.push((&aspect.primary, String::new()));
        let others = missing.iter().skip(1);
        self.marks.extend(
            others.map(|missing| (&missing.origin, format!("also needed: {}", missing.what))),
        );
    }

    fn relate(&mut self, related: &'a [Related]) {
        let marks = related
            .iter()
            .map(|related| (&related.origin, related.say.clone()));
        self.marks.extend(marks);
    }

    /// Sets the whole message.
    pub(super) fn set(&self, page: &mut Page, snapshot: &Snapshot) {
        let place = match self.primary {
            Primary::Origin(origin) => place(origin, snapshot),
            Primary::Located(located) => place_of(located),
            Primary::File(shown) => shown.to_owned(),
        };
        page.headline(self.ink, self.word, &[self.code, &self.about], &place);
        page.paragraph(&self.fact);
        self.lines(page, snapshot);
        if let Some((last, before)) = self.sums.split_last() {
            for sum in before {
                page.paragraph(sum);
            }
            page.remarked(last, &self.remark);
        }
        for text in &self.foot {
            page.paragraph(text);
        }
    }

    fn lines(&self, page: &mut Page, snapshot: &Snapshot) {
        let mut found = Found::default();
        // An empty place, as that of a file without root file, has nothing to show.
        if let Primary::Located(located) = self.primary
            && located.end > located.start
        {
            found.add(located.clone(), "");
        }
        for (origin, say) in &self.marks {
            if let Some(spot) = snapshot.locate(origin) {
                found.add(spot, say);
            }
        }
        if found.lines.is_empty() {
            return;
        }
        page.blank();
        let (gutter, hidden) = (found.gutter(), found.lines.len().saturating_sub(MOST_MARKS));
        found.lines.truncate(MOST_MARKS);
        let mut file = found.lines.first().map(|line| line.shown.clone());
        found.sort();
        for line in &found.lines {
            if file.as_deref() != Some(&*line.shown) {
                page.other_file(gutter, &line.shown);
                file = Some(line.shown.clone());
            }
            if let Some(document) = snapshot.document(&line.shown) {
                let drawn = marked(document, line.number, &line.spans);
                page.snippet(&drawn, gutter, self.ink, &line.says.join("; "));
            }
        }
        if hidden > 0 {
            let lines = if hidden == 1 { "line" } else { "lines" };
            page.paragraph(&format!("and {hidden} more {lines}"));
        }
        if !self.sums.is_empty() || !self.foot.is_empty() {
            page.blank();
        }
    }
}

fn lacks_a_broken_line(verdict: &Verdict) -> bool {
    match verdict {
        Verdict::CannotTell(missing) => missing
            .first()
            .is_some_and(|missing| missing.lack == Lack::Broken),
        _ => false,
    }
}

/// Corners beyond these are counted, not shown; the first ones matter most, and the JSON has all.
const MOST_CORNERS: usize = 4;

/// "governs: by stiffness, at cg y -40 mm, mass +14.7 t and 5 more".
fn governs(aspect: &Aspect) -> Option<String> {
    let sheet = &aspect.sheet;
    let mut said: Vec<String> = Vec::new();
    if !sheet.state.is_empty() {
        said.push(sheet.state.clone());
    }
    if !sheet.corner.is_empty() {
        let shown = sheet.corner.iter().take(MOST_CORNERS);
        let shown: Vec<String> = shown.map(plumbhook_sheet::Corner::text).collect();
        let more = match sheet.corner.len().saturating_sub(MOST_CORNERS) {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        said.push(format!("at {}{more}", shown.join(", ")));
    }
    (!said.is_empty()).then(|| format!("governs: {}", said.join(", ")))
}

/// `file:line` of an origin; the file alone where the entry is gone.
pub(super) fn place(origin: &Origin, snapshot: &Snapshot) -> String {
    snapshot
        .locate(origin)
        .map_or_else(|| origin.entry.file.to_string(), |spot| place_of(&spot))
}

fn place_of(spot: &Located) -> String {
    format!("{}:{}", spot.shown, spot.line + 1)
}

/// Marked lines, each once.
#[derive(Debug, Default)]
struct Found {
    lines: Vec<MarkedLine>,
}

#[derive(Debug)]
struct MarkedLine {
    shown: Arc<str>,
    number: u32,
    spans: Vec<(u32, u32)>,
    says: Vec<String>,
}

impl Found {
    fn add(&mut self, spot: Located, say: &str) {
        let known = self
            .lines
            .iter_mut()
            .find(|line| line.shown == spot.shown && line.number == spot.line);
        let span = (spot.start, spot.end);
        let says = (!say.is_empty()).then(|| say.to_owned());
        if let Some(line) = known {
            if !line.spans.contains(&span) {
                line.spans.push(span);
                line.spans.sort_unstable();
            }
            line.says
                .extend(says.filter(|say| !line.says.contains(say)));
        } else {
            self.lines.push(MarkedLine {
                shown: spot.shown,
                number: spot.line,
                spans: vec![span],
                says: says.into_iter().collect(),
            });
        }
    }

    /// Columns of the largest line number, three at least.
    fn gutter(&self) -> usize {
        let largest = self.lines.iter().map(|line| line.number + 1).max();
        largest.map_or(0, |number| number.to_string().len()).max(3)
    }

    /// By line within a file; files as they were first named, so that the primary's comes first.
    fn sort(&mut self) {
        let mut files: Vec<Arc<str>> = Vec::new();
        for line in &self.lines {
            if !files.contains(&line.shown) {
                files.push(line.shown.clone());
            }
        }
        self.lines.sort_by_key(|line| {
            let file = files.iter().position(|file| *file == line.shown);
            (file, line.number)
        });
    }
}

/// What a finding blocks, with the move where it is another one.
pub(super) fn say_blocks(cause: &Identity, blocks: &[Identity]) -> String {
    let mut cases: Vec<String> = Vec::new();
    for case in blocks.iter().map(case_name) {
        if !cases.contains(&case) {
            cases.push(case);
        }
    }
    let of = match cases.as_slice() {
        [one] if *one == case_name(cause) => String::new(),
        [one] => format!(" of {one}"),
        many => format!(" of {} moves", many.len()),
    };
    plumbhook_sheet::say_blocks(blocks, &of)
}

/// `unit-3-runner M1`, and the option where the move has several.
pub(super) fn case_name(identity: &Identity) -> String {
    let case = identity.case.replace('/', " ");
    match &identity.option {
        Some(option) => format!("{case} option {option}"),
        None => case,
    }
}
