//! What a rule says of the clean lift with some of its text replaced.

use plumbhook_checks::{example, rule};
use plumbhook_sheet::{Aspect, Lack, Stage, Verdict};

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

/// What the rule says where texts are put together.
#[allow(dead_code, reason = "each test file takes what it needs of these")]
pub(crate) fn of(code: &str, subject: &str, change: &[(&str, String)]) -> Aspect {
    let change: Vec<(&str, &str)> = change.iter().map(|(a, b)| (*a, b.as_str())).collect();
    said(code, subject, &change)
}

/// What keeps it from telling.
#[allow(dead_code, reason = "each test file takes what it needs of these")]
pub(crate) fn lacks(aspect: &Aspect) -> Vec<(String, Lack, Stage)> {
    match &aspect.verdict {
        Verdict::CannotTell(missing) => missing
            .iter()
            .map(|missing| (missing.what.clone(), missing.lack, missing.due))
            .collect(),
        other => panic!("{}: {}", other.word(), aspect.headline),
    }
}

#[allow(dead_code, reason = "each test file takes what it needs of these")]
pub(crate) fn near(value: Option<f64>, wanted: f64, within: f64) {
    let value = value.unwrap_or_else(|| panic!("no value, wanted {wanted}"));
    assert!((value - wanted).abs() <= within, "{value}, wanted {wanted}");
}
