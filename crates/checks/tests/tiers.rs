//! Lifts in tiers and by two machines, as small texts.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may fail")]

use plumbhook_checks::{RULES, example};

#[test]
#[ignore]
fn show() {
    let files = example::SPREADER.files(&[]).unwrap();
    let case = example::case_of(&files).unwrap();
    for rule in RULES {
        for aspect in (rule.check)(&case) {
            eprintln!(
                "{} | {} | {} | {}",
                rule.code,
                aspect.subject,
                aspect.verdict.word(),
                aspect.headline
            );
            if let plumbhook_sheet::Verdict::CannotTell(m) = &aspect.verdict {
                for m in m {
                    eprintln!("     - {} {:?} {}", m.what, m.lack, m.mend);
                }
            }
        }
    }
    panic!();
}
