//! What the fence holds: a rule that panics loses nothing else.

use crate::{Cancel, Checked, InMemory, Targets, Workspace};
use plumbhook_checks::example::{FILES, ROOT};
use plumbhook_checks::{Example, RULES, Rule};
use std::path::{Path, PathBuf};
use std::sync::Arc;

const NONE: Example = Example {
    say: "",
    subject: "",
    change: &[],
};

static PANICS: Rule = Rule {
    code: "panics",
    summary: "",
    explanation: "",
    basis: &[],
    inputs: &[],
    examples: [NONE, NONE, NONE, NONE],
    check: |case| panic!("no way through {}", case.name),
};

static WITH_ONE_THAT_PANICS: &[&Rule] = &[&PANICS, RULES[0], RULES[1], RULES[2], RULES[3]];

fn check(rules: &'static [&'static Rule]) -> Checked {
    let files = InMemory::default();
    for (name, text) in FILES.iter().chain(&[("plumbhook.toml", ROOT)]) {
        files.put(Path::new("/w").join(name), text.as_bytes());
    }
    let mut workspace = Workspace::with_rules(Arc::new(files), rules);
    workspace.folders(&[PathBuf::from("/w")]);
    let snapshot = workspace.snapshot();
    let first = snapshot.check(&Targets::All, &Cancel::default()).unwrap();
    let second = snapshot.check(&Targets::All, &Cancel::default()).unwrap();
    assert_eq!(first, second, "a failure is told each time");
    first
}

#[test]
fn a_rule_that_panics_is_told_as_our_bug_and_everything_else_stands() {
    let checked = check(WITH_ONE_THAT_PANICS);
    let [bug] = checked.notices.as_slice() else {
        panic!("{:?}", checked.notices)
    };
    assert_eq!(bug.code.code, "our-bug");
    assert!(
        bug.say
            .contains("panics failed on cover/M1: no way through cover/M1"),
        "{}",
        bug.say
    );
    assert!(
        checked.has_errors(),
        "what the rule would have said is unknown"
    );
    let without: Vec<_> = check(&WITH_ONE_THAT_PANICS[1..]).cases;
    assert_eq!(checked.cases, without);
}
