//! Questions, revisions and holds: what is asked, answered and freed, and where that leads nowhere.

mod common;

use common::*;
use plumbhook_sheet::Severity;

const QUESTION: &str = "\
question Q1 \"What does the cover weigh?\"
  to         owner
  needed-by  2026-11-02
  closes     cover.mass
  blocks     M1
";

#[test]
fn what_waits_for_an_open_question_says_so() {
    let (_, checked) = with(QUESTION, &[NO_MASS]);
    let mass = findings(&checked)
        .find(|finding| finding.identity.rule == "mass-known")
        .unwrap();
    assert_eq!(mass.asked.as_deref(), Some("Q1"));
    let beside: Vec<_> = mass
        .aspect
        .related
        .iter()
        .map(|related| &*related.say)
        .collect();
    assert!(
        beside.contains(&"asked as Q1 of owner, needed by 2026-11-02"),
        "{beside:?}"
    );
    assert!(checked.tally().asked > 3, "{:?}", checked.tally());
    assert_eq!(mass.severity, Severity::Error, "asked is not answered");
}

#[test]
fn an_unknown_that_nobody_asks_for_gets_its_question_drafted() {
    let (_, checked) = with("", &[NO_MASS]);
    let mass = findings(&checked)
        .find(|finding| finding.identity.rule == "mass-known")
        .unwrap();
    let draft = "question drafted: `question Q1 \"mass of cover?\"` with `closes cover.mass` and `blocks M1`";
    assert!(
        mass.aspect.mends.iter().any(|mend| mend == draft),
        "{:?}",
        mass.aspect.mends
    );
}

#[test]
fn each_datum_gets_a_drafted_question_of_its_own_name() {
    let no_cg = (
        "cg         x 0 +/- 40 mm, y 0 +/- 40 mm, z 0.50 m +/- 40 mm ",
        "cg         unknown ",
    );
    let other = "question Q2 \"How thick is the slab?\"\n  closes slab.top\n";
    let (_, checked) = with(other, &[NO_MASS, no_cg]);
    let drafts: std::collections::BTreeSet<String> = findings(&checked)
        .flat_map(|finding| &finding.aspect.mends)
        .filter_map(|mend| mend.strip_prefix("question drafted: `question "))
        .map(|draft| {
            let closes = draft.split("`closes ").nth(1).unwrap();
            let closes = closes.split('`').next().unwrap();
            format!("{} {closes}", draft.split(' ').next().unwrap())
        })
        .collect();
    assert_eq!(
        drafts.into_iter().collect::<Vec<_>>(),
        ["Q1 cover.mass", "Q3 cover.cg"]
    );
}

#[test]
fn a_question_closes_a_datum_and_blocks_a_move_or_says_that_it_does_not() {
    let near = QUESTION
        .replace("cover.mass", "cover.mas")
        .replace("blocks     M1", "blocks     M9");
    let found = told_with(&near, &[]);
    says(&found, "closes-nothing", "`load` has no key `mas`");
    says(&found, "name-not-found", "`M9` names no move");
    says(
        &told_with(&QUESTION.replace("cover.mass", "lid.mass"), &[]),
        "closes-nothing",
        "`lid` names nothing",
    );
}

#[test]
fn an_answer_that_is_not_written_where_it_belongs_is_told() {
    let answered = format!("{QUESTION}  answer     \"14.2 t, weighed in 1998\"\n");
    says(
        &told_with(&answered, &[NO_MASS]),
        "answer-not-written",
        "Q1 is answered, but cover.mass is still not given",
    );
    assert_eq!(told_with(&answered, &[]), Vec::<String>::new());
}

#[test]
fn revisions_that_run_backwards_and_ones_without_a_reason_are_told() {
    let revisions = |lines: &str| {
        let first = "  revision   A 2026-10-01 stage bid \"first issue\"\n";
        told_with("", &[(first, &format!("{first}{lines}"))])
    };
    says(
        &revisions("  revision   B 2026-09-30 stage issue \"x\"\n"),
        "revisions-backwards",
        "revision B of 2026-09-30 is older",
    );
    says(
        &revisions("  revision   B 2026-10-02 stage bid\n"),
        "revision-incomplete",
        "revision B says no reason",
    );
    says(
        &revisions("  revision   A 2026-10-02 stage bid \"x\"\n"),
        "said-twice",
        "revision A",
    );
    assert_eq!(
        revisions("  revision   B 2026-10-02 stage bid \"x\"\n"),
        Vec::<String>::new()
    );
}

#[test]
fn a_hold_at_which_a_load_is_freed_has_to_be_one_of_a_move() {
    let held = ("held-by    nothing ", "held-by    bolts 24, free-at H2 ");
    says(
        &told_with("", &[held]),
        "hold-not-found",
        "no move has a hold `H2`",
    );
    let hold = (
        "  tilt       at most",
        "  limit      20 t from cell\n  hold       H2 at 2 in\n  tilt       at most",
    );
    assert_eq!(told_with("", &[held, hold]), Vec::<String>::new());
}
