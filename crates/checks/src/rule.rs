//! What a rule is.

use crate::example::Lift;
use plumbhook_model::Case;
use plumbhook_model::ask::Hurts;
use plumbhook_sheet::{Aspect, Basis};

/// One rule.
#[derive(Debug)]
pub struct Rule {
    /// Its code.
    pub code: &'static str,
    /// One line of help.
    pub summary: &'static str,
    /// What it checks, how, and what mends it, in Markdown.
    pub explanation: &'static str,
    /// The publications it follows.
    pub basis: &'static [Basis],
    /// Every input that it asks for and on which side that hurts.
    pub inputs: &'static [(&'static str, Hurts)],
    /// Keys whose absence has a meaning of its own, so that a check may pass without them, each with that meaning.
    pub may_lack: &'static [(&'static str, &'static str)],
    /// The clean lift that its examples change.
    pub lift: &'static Lift,
    /// *Over*, *within*, *cannot tell*, *does not apply*, in this order.
    pub examples: [Outcome; 4],
    /// The check: one aspect for each subject; none where the case has no such subject at all and that is
    /// said by an aspect of its own.
    pub check: fn(&Case) -> Vec<Aspect>,
}

/// What a rule shows of one of its four outcomes.
#[derive(Debug)]
pub enum Outcome {
    /// An example that ends so.
    Shown(Example),
    /// Why it can never end so.
    Never(&'static str),
}

/// An example: the clean lift of its rule with some of its text replaced.
#[derive(Debug)]
pub struct Example {
    /// What it shows, in words.
    pub say: &'static str,
    /// The subject it shows it of; empty where any will do.
    pub subject: &'static str,
    /// What is replaced by what, each exactly once.
    pub change: &'static [(&'static str, &'static str)],
}
