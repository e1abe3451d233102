//! The words of a rule or a notice: what it checks, from which publications, on which inputs, with examples.

use crate::wrap::wrapped;
use plumbhook_checks::{Outcome, RULES, Rule};
use plumbhook_model::ask::Hurts;
use plumbhook_model::notices;
use plumbhook_sheet::{Basis, NoticeCode, Severity, Trust};
use std::fmt::Write;

/// Columns beyond which text reads badly.
const WIDEST: usize = 100;

/// What a code stands for.
#[derive(Clone, Copy, Debug)]
pub enum Code {
    /// A rule.
    Rule(&'static Rule),
    /// A notice about the text or a declaration.
    Notice(&'static NoticeCode),
}

impl Code {
    /// Every rule, then every notice.
    pub fn all() -> impl Iterator<Item = Self> {
        let rules = RULES.iter().map(|rule| Self::Rule(rule));
        rules.chain(notices::ALL.iter().map(|notice| Self::Notice(notice)))
    }

    /// The code itself.
    pub fn code(self) -> &'static str {
        match self {
            Self::Rule(rule) => rule.code,
            Self::Notice(notice) => notice.code,
        }
    }

    /// One line of help.
    pub fn summary(self) -> &'static str {
        match self {
            Self::Rule(rule) => rule.summary,
            Self::Notice(notice) => notice.summary.trim(),
        }
    }

    /// The rule or notice of that code.
    ///
    /// # Errors
    /// Says that there is none, and which codes are near.
    pub fn find(code: &str) -> Result<Self, String> {
        if let Some(found) = Self::all().find(|known| known.code() == code) {
            return Ok(found);
        }
        let near = near(code);
        let mut say = format!("no rule and no notice is called `{code}`");
        match near.as_slice() {
            [] => say.push_str("; `plumbhook explain` lists them all"),
            near => {
                let near: Vec<String> = near.iter().map(|code| format!("`{code}`")).collect();
                let _ = write!(say, "; did you mean {}?", near.join(" or "));
            }
        }
        Err(say)
    }

    /// All that is to be said of it, in `width` columns.
    pub fn explain(self, width: usize) -> String {
        let mut text = Text::new(width);
        match self {
            Self::Rule(rule) => explain_rule(rule, &mut text),
            Self::Notice(notice) => explain_notice(notice, &mut text),
        }
        text.out
    }
}

/// Every code with its line of help, in `width` columns.
pub fn list(width: usize) -> String {
    let mut text = Text::new(width);
    let widest = Code::all().map(|code| code.code().len()).max().unwrap_or(0);
    let mut part = |head: &str, wanted: fn(&Code) -> bool| {
        text.line(head);
        for code in Code::all().filter(wanted) {
            let name = format!("  {:widest$}  ", code.code());
            text.paragraph(code.summary(), &name, &" ".repeat(name.len()));
        }
    };
    part("Rules", |code| matches!(code, Code::Rule(_)));
    part("Notices about the text", |code| {
        matches!(code, Code::Notice(_))
    });
    text.line("");
    text.paragraph("`plumbhook explain CODE` says more of one.", "", "");
    text.out
}

/// Codes that may have been meant, likeliest first.
fn near(code: &str) -> Vec<&'static str> {
    let wanted = code.to_lowercase();
    let allowed = 1 + wanted.chars().count() / 4;
    let mut near: Vec<(usize, &'static str)> = Code::all()
        .map(|known| (strsim::osa_distance(&wanted, known.code()), known.code()))
        .filter(|(distance, known)| {
            *distance <= allowed || (wanted.len() > 2 && known.contains(&wanted))
        })
        .collect();
    near.sort_unstable();
    near.into_iter().take(3).map(|(_, known)| known).collect()
}

fn explain_rule(rule: &Rule, text: &mut Text) {
    text.line(&format!("rule {}", rule.code));
    text.paragraph(rule.summary, "", "");
    text.markdown(rule.explanation);
    text.section("Follows");
    for basis in rule.basis {
        let say = format!("{}{}", basis.say(), trust(basis));
        text.paragraph(&say, "  ", "    ");
    }
    text.section("Asks for");
    let widest = rule.inputs.iter().map(|(what, _)| what.len()).max();
    let widest = widest.unwrap_or(0);
    for (what, hurts) in rule.inputs {
        let side = match hurts {
            Hurts::High => "more is worse",
            Hurts::Low => "less is worse",
            Hurts::Both => "either side may be worse",
        };
        text.line(&format!("  {what:widest$}   {side}"));
    }
    if !rule.may_lack.is_empty() {
        text.section("Keys it can do without");
        for (key, meaning) in rule.may_lack {
            text.paragraph(&format!("{key}: {meaning}"), "  ", "    ");
        }
    }
    text.section(&format!(
        "Examples, each a change of one lift in which everything is within: {}",
        rule.lift.say
    ));
    let outcomes = ["over", "within", "cannot tell", "does not apply"];
    for (shown, outcome) in rule.examples.iter().zip(outcomes) {
        match shown {
            Outcome::Shown(example) => {
                text.paragraph(&format!("{outcome}: {}", example.say), "  ", "    ");
                if example.change.is_empty() {
                    text.line("      as it stands");
                }
                for (old, new) in example.change {
                    change(old, new, text);
                }
            }
            Outcome::Never(why) => {
                text.paragraph(&format!("{outcome}: never. {why}"), "  ", "    ");
            }
        }
    }
}

/// Blanks inside a line only align it; several lines stand as they are.
fn change(old: &str, new: &str, text: &mut Text) {
    let one_line = |part: &str| !part.contains('\n');
    if one_line(old) && one_line(new) {
        let squeezed = |part: &str| part.split_whitespace().collect::<Vec<_>>().join(" ");
        let (old, new) = (squeezed(old), squeezed(new));
        let say = if new.is_empty() {
            format!("without `{old}`")
        } else {
            format!("`{old}` becomes `{new}`")
        };
        text.paragraph(&say, "      ", "        ");
        return;
    }
    let mut block = |lines: &str, mark: &str| {
        for line in lines.lines().filter(|line| !line.trim().is_empty()) {
            text.line(&format!("      {mark} {line}"));
        }
    };
    block(old, "-");
    block(new, "+");
}

fn trust(basis: &Basis) -> &'static str {
    match basis.trust {
        Trust::Published => " (published)",
        Trust::Mechanics => " (equilibrium or geometry alone)",
        // `Basis::say` has the caution.
        Trust::CommonPractice | Trust::FromMemory => "",
    }
}

fn explain_notice(notice: &NoticeCode, text: &mut Text) {
    let severity = match notice.severity {
        Severity::Error => "an error: exit code 1",
        Severity::Warning => "a warning: exit code 0, with `--deny warnings` 1",
        Severity::NotYetDue | Severity::Quiet => "a note",
    };
    text.line(&format!("notice {}", notice.code));
    text.paragraph(notice.summary.trim(), "", "");
    text.markdown(notice.explanation);
    text.line("");
    text.paragraph(&format!("It is {severity}."), "", "");
}

/// Text in so many columns.
struct Text {
    out: String,
    width: usize,
}

impl Text {
    fn new(width: usize) -> Self {
        Self {
            out: String::new(),
            width: width.clamp(40, WIDEST),
        }
    }

    fn line(&mut self, line: &str) {
        self.out.push_str(line.trim_end());
        self.out.push('\n');
    }

    fn section(&mut self, head: &str) {
        self.line("");
        self.line(head);
    }

    fn paragraph(&mut self, text: &str, first: &str, further: &str) {
        for line in wrapped(text, self.width, first, further) {
            self.line(&line);
        }
    }

    /// Paragraphs; indented lines and list items stand as they are.
    fn markdown(&mut self, text: &str) {
        for paragraph in text.trim().split("\n\n") {
            self.line("");
            let as_is = |line: &str| line.starts_with([' ', '-', '*', '|']);
            if paragraph.lines().any(as_is) {
                paragraph.lines().for_each(|line| self.line(line));
            } else {
                let joined: Vec<&str> = paragraph.lines().map(str::trim).collect();
                self.paragraph(&joined.join(" "), "", "");
            }
        }
    }
}
