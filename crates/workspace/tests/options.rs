//! Options: each is checked by itself and sees its own entries.

mod common;

use common::*;
use plumbhook_sheet::Verdict;

const OPTIONS: &str = "\
option A \"Short legs\"

option B \"Long legs\"

rigging chains-of-three
  in         option B
  legs       A B C to ring-2, through bow-12, rope-32-long-9, bow-12
  hung       ring-2 by bridge.main

sling rope-32-long-9
  long       9.00 m +/- 15 mm
  rated      vertical 10.0 t          from tag quote \"V 10.0 t\"
  mass       40 kg +/- 5 %
  stiffness  5 kN/mm +/- 20 %
";

const IN_A: (&str, &str) = (
    "rope-32-long-5, bow-12\n",
    "rope-32-long-5, bow-12\n  in         option A\n",
);

#[test]
fn each_option_has_its_own_case_and_sees_its_own_entries() {
    let (_, checked) = with(OPTIONS, &[IN_A]);
    assert!(checked.notices.is_empty(), "{:?}", checked.notices);
    let options: Vec<_> = checked
        .cases
        .iter()
        .map(|case| case.option.as_deref())
        .collect();
    assert_eq!(options, [Some("A"), Some("B")]);
    let height = |option: &str| {
        let mut all = findings(&checked);
        let found = all.find(|found| {
            found.identity.rule == "hook-height" && found.identity.option.as_deref() == Some(option)
        });
        found.unwrap().aspect.verdict.clone()
    };
    assert_eq!(height("A"), Verdict::Within);
    assert_eq!(height("B"), Verdict::Over);
}

#[test]
fn an_option_that_nobody_declares_is_told_and_its_move_is_checked_still() {
    let (_, checked) = with(
        "option A\n",
        &[(
            "  carries    cover\n",
            "  carries    cover\n  in         option C\n",
        )],
    );
    assert_eq!(checked.notices.len(), 1, "{:?}", checked.notices);
    assert!(checked.notices[0].say.contains("`C` names no option"));
    assert_eq!(checked.cases.len(), 1);
    assert_eq!(checked.cases[0].option.as_deref(), Some("C"));
}

#[test]
fn an_entry_whose_option_cannot_be_read_is_seen_by_no_move() {
    let broken = (
        "rigging chains-of-three\n",
        "rigging chains-of-three\n  in         optoin A\n",
    );
    let (_, checked) = with("option A\n", &[broken]);
    assert!(
        checked
            .notices
            .iter()
            .any(|notice| notice.code.code == "option-not-known")
    );
    let rating = of_case(&checked, "cover/M1");
    assert!(
        !rating
            .iter()
            .any(|(rule, verdict, _)| *rule == "sling-rating" && *verdict == "within")
    );
}

#[test]
fn a_name_that_only_another_option_has_leads_nowhere() {
    let more = OPTIONS.replace("rigging chains-of-three", "rigging long-ones");
    let told = told_with(
        &more,
        &[
            IN_A,
            ("bridge with chains-of-three", "bridge with long-ones"),
        ],
    );
    says(&told, "name-not-found", "`long-ones` names no");
}
