//! The rules, one file each.
//!
//! A rule is a static: code, help, basis, which inputs hurt on which side, four examples, and one
//! function from a closed [`plumbhook_model::Case`] to aspects. It returns verdicts, never
//! severities, and reads no other rule's verdict.

mod draft;
pub mod example;
mod rule;
pub mod rules;

pub use draft::Draft;
pub use rule::{Example, Outcome, Rule};
pub use rules::{RULES, rule};

/// The version of the rules: kept results of another version never count.
pub const RULES_VERSION: u32 = 1;
