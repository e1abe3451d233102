//! What the fence holds: a rule that panics loses nothing else.

use crate::case::Check;
use crate::{Cancel, Checked, InMemory, Targets, Workspace};
use plumbhook_checks::RULES;
use plumbhook_checks::example::{FILES, ROOT};
use std::path::{Path, PathBuf};
use std::sync::Arc;

const PANICS: Check = ("panics", |case| panic!("no way through {}", case.name));

fn rules() -> Vec<Check> {
    RULES.iter().map(|rule| (rule.code, rule.check)).collect()
}

fn check(rules: Vec<Check>) -> Checked {
    let files = InMemory::default();
    for (name, text) in FILES.iter().chain(&[("plumbhook.toml", ROOT)]) {
        files.put(Path::new("/w").join(name), text.as_bytes());
    }
    let mut workspace = Workspace::with_rules(Arc::new(files), rules.into());
    workspace.folders(&[PathBuf::from("/w")]);
    let snapshot = workspace.snapshot();
    let first = snapshot.check(&Targets::All, &Cancel::default()).unwrap();
    let second = snapshot.check(&Targets::All, &Cancel::default()).unwrap();
    assert_eq!(first, second, "a failure is told each time");
    first
}

#[test]
fn a_rule_that_panics_is_told_as_our_bug_and_everything_else_stands() {
    let checked = check([vec![PANICS], rules()].concat());
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
    assert_eq!(checked.cases, check(rules()).cases);
}
