//! Faces of what a check left behind: terminal, JSON, drawing, and the words of a rule.
//!
//! A face reads sheets and computes nothing. None of them says that a lift is safe: it says what was
//! checked, against what, and what was not.

pub mod explain;
pub mod first;
pub mod human;
pub mod json;
pub mod reference;
pub mod settings;
pub mod svg;

mod wrap;

pub use plumbhook_checks::Rule;

/// Stands under every summary and in every machine-readable result.
pub const DECISION_SUPPORT: &str =
    "Decision support only: a qualified person and the local rules decide.";
