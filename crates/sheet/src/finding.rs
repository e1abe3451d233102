//! What is said of a check: identity, words, places.

use crate::{Origin, Sheet, Verdict};
use serde::{Serialize, Serializer};
use std::sync::Arc;

/// What a check is, for counting, keeping, suppressing and comparing. No line number is in it.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct Identity {
    /// Code of the rule.
    pub rule: &'static str,
    /// What is checked ("leg B", "hall at stool-3").
    pub subject: Box<str>,
    /// `job/move`; the job alone where a finding belongs to no move.
    #[serde(serialize_with = "text")]
    pub case: Arc<str>,
    /// The option, where the move has several.
    #[serde(serialize_with = "optional_text")]
    pub option: Option<Arc<str>>,
}

fn text<S: Serializer>(text: &Arc<str>, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(text)
}

#[allow(clippy::ref_option, reason = "so serde hands it over")]
fn optional_text<S: Serializer>(text: &Option<Arc<str>>, to: S) -> Result<S::Ok, S::Error> {
    text.as_deref().serialize(to)
}

/// "blocks 5 checks of cover M1: sling-rating (3), hook-capacity, ring-rating"; `of` says whose, as " of cover M1",
/// and is empty where that is said already.
pub fn say_blocks<'a>(blocks: impl IntoIterator<Item = &'a Identity>, of: &str) -> String {
    let mut rules: Vec<(&str, usize)> = Vec::new();
    for blocked in blocks {
        match rules.iter_mut().find(|(rule, _)| *rule == blocked.rule) {
            Some((_, count)) => *count += 1,
            None => rules.push((blocked.rule, 1)),
        }
    }
    let all: usize = rules.iter().map(|(_, count)| count).sum();
    let noun = if all == 1 { "check" } else { "checks" };
    let rules: Vec<String> = rules
        .into_iter()
        .map(|(rule, count)| match count {
            1 => rule.to_owned(),
            _ => format!("{rule} ({count})"),
        })
        .collect();
    format!("blocks {all} {noun}{of}: {}", rules.join(", "))
}

/// How loud a finding is. Made from the verdict by one function of the workspace.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Nothing to say.
    Quiet,
    /// Not demanded at this stage: counted and listed, never called within.
    NotYetDue,
    /// A warning.
    Warning,
    /// An error: exit code 1.
    Error,
}

/// Another place that made a finding so, with what to write beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Related {
    /// The place.
    pub origin: Origin,
    /// What it contributes ("34.02 t at its heavy end").
    pub say: String,
}

/// What a rule says of one subject: the words are made once, here.
#[derive(Clone, Debug, PartialEq)]
pub struct Aspect {
    /// What is checked.
    pub subject: String,
    /// The outcome.
    pub verdict: Verdict,
    /// The fact first, with number and limit.
    pub headline: String,
    /// The datum to change.
    pub primary: Origin,
    /// The places that made it so.
    pub related: Vec<Related>,
    /// The sum in one line, and more where it helps.
    pub sums: Vec<String>,
    /// What would mend it, in numbers where they are known.
    pub mends: Vec<String>,
    /// The calculation.
    pub sheet: Arc<Sheet>,
}

impl Aspect {
    /// Gives back what its lists and texts hold in reserve: a server keeps thousands of them.
    #[must_use]
    pub fn compact(mut self) -> Self {
        self.headline.shrink_to_fit();
        self.subject.shrink_to_fit();
        for related in &mut self.related {
            related.say.shrink_to_fit();
        }
        self.related.shrink_to_fit();
        for text in self.sums.iter_mut().chain(&mut self.mends) {
            text.shrink_to_fit();
        }
        self.sums.shrink_to_fit();
        self.mends.shrink_to_fit();
        // A sheet that somebody else holds already stays as it is.
        if let Some(sheet) = Arc::get_mut(&mut self.sheet) {
            sheet.shrink_to_fit();
        }
        self
    }
}

/// An aspect with its identity and loudness, as every face gets it.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// What it is.
    pub identity: Identity,
    /// How loud.
    pub severity: Severity,
    /// What is said.
    pub aspect: Arc<Aspect>,
    /// The checks that wait for the same missing datum and are folded under this one.
    pub blocks: Vec<Identity>,
    /// The open question that asks for what is missing.
    pub asked: Option<Box<str>>,
}

/// A code of a notice, with its help: declared once.
#[derive(Debug, PartialEq, Eq)]
pub struct NoticeCode {
    /// The code ("unread-line").
    pub code: &'static str,
    /// One line of help.
    pub summary: &'static str,
    /// What it means and what mends it, in Markdown.
    pub explanation: &'static str,
    /// How loud.
    pub severity: Severity,
}

/// A finding about the text or a declaration, not about a calculation.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// Its code.
    pub code: &'static NoticeCode,
    /// What is wrong, with what was read.
    pub say: String,
    /// Where.
    pub origin: Origin,
    /// Other places.
    pub related: Vec<Related>,
    /// What would mend it; empty where nothing is known.
    pub mend: String,
}
