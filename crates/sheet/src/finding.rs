//! What is said of a check: identity, words, places.

use crate::{Origin, Sheet, Verdict};
use serde::Serialize;
use std::sync::Arc;

/// What a check is, for counting, keeping, suppressing and comparing. No line number is in it.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct Identity {
    /// Code of the rule.
    pub rule: &'static str,
    /// What is checked ("leg B", "hall at stool-3").
    pub subject: String,
    /// `job/move`; the job alone where a finding belongs to no move.
    pub case: String,
    /// The option, where the move has several.
    pub option: Option<String>,
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
    pub asked: Option<String>,
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
