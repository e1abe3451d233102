//! What a rule says of the clean lift with some of its text replaced.

use plumbhook_checks::{example, rule};
use plumbhook_sheet::Aspect;

/// What the rule of that code says of a subject.
pub(crate) fn said(code: &str, subject: &str, change: &[(&str, &str)]) -> Aspect {
    let rule = rule(code).unwrap_or_else(|| panic!("no rule {code}"));
    let files = example::files(change).unwrap_or_else(|why| panic!("{why}"));
    let case = example::case_of(&files).unwrap_or_else(|why| panic!("{why}"));
    let aspects = (rule.check)(&case);
    let subjects: Vec<_> = aspects
        .iter()
        .map(|aspect| aspect.subject.clone())
        .collect();
    aspects
        .into_iter()
        .find(|aspect| aspect.subject == subject)
        .unwrap_or_else(|| panic!("{code} speaks of {subjects:?}"))
}
