//! Moves that follow one another, options, questions, revisions, and what the root file settles with a reason.

mod common;

use common::*;
use plumbhook_sheet::{Severity, Verdict};
use plumbhook_workspace::{Checked, Snapshot};

const LAST_ROW: &str = "    | (18.0 m, 5.0 m) | on stool          |\n";

/// The clean lift with more entries behind it.
fn with(more: &str, change: &[(&str, &str)]) -> (Snapshot, Checked) {
    let more = format!("{LAST_ROW}\n{more}");
    let mut all = vec![(LAST_ROW, &*more)];
    all.extend(change);
    let snapshot = workspace(&changed(&all)).snapshot();
    let checked = check(&snapshot);
    (snapshot, checked)
}

fn told(more: &str, change: &[(&str, &str)]) -> Vec<String> {
    let (_, checked) = with(more, change);
    let said = |notice: &plumbhook_sheet::Notice| format!("{}: {}", notice.code.code, notice.say);
    checked.notices.iter().map(said).collect()
}

fn says(told: &[String], code: &str, words: &str) {
    assert!(
        told.iter()
            .any(|told| told.starts_with(&format!("{code}:")) && told.contains(words)),
        "{told:?}"
    );
}

/// Rule, outcome and headline of every finding of a case.
fn of_case(checked: &Checked, case: &str) -> Vec<(&'static str, &'static str, String)> {
    let cases = checked.cases.iter().filter(|found| found.case == case);
    cases
        .flat_map(|case| &case.findings)
        .map(|finding| {
            let verdict = finding.aspect.verdict.word();
            (
                finding.identity.rule,
                verdict,
                finding.aspect.headline.clone(),
            )
        })
        .collect()
}

const BACK: &str = "\
move M2 \"Back to the pump\"
  follows    M1
  by         bridge with chains-of-three
  dynamic    1.10                     from practice-note
  tilt       at most 3 deg
  stations
    | at              | underside         |
    | (18.0 m, 5.0 m) | above slab 1.80 m |
    | (8.0 m, 5.0 m)  | above slab 1.80 m |
";

#[test]
fn a_move_takes_load_heading_and_start_from_the_end_of_the_one_it_follows() {
    let (_, checked) = with(BACK, &[]);
    assert!(checked.notices.is_empty(), "{:?}", checked.notices);
    let found = of_case(&checked, "cover/M2");
    let open: Vec<_> = found
        .iter()
        .filter(|(_, verdict, _)| *verdict == "cannot tell")
        .collect();
    assert!(open.is_empty(), "{open:?}");
    // It starts on the stool, so what is under the stool counts for it too.
    assert!(
        found
            .iter()
            .any(|(rule, verdict, _)| *rule == "floor-bearing" && *verdict == "within")
    );
}

#[test]
fn the_case_of_a_move_waits_for_the_move_that_it_follows() {
    let (_, checked) = with(
        BACK,
        &[
            ("heading    0 deg", "heading    unknown"),
            ("y 1.5 m .. 8.5 m", "y 4.99 m .. 5.01 m"),
        ],
    );
    let found = of_case(&checked, "cover/M2");
    let reach = found
        .iter()
        .find(|(rule, ..)| *rule == "hook-reach")
        .unwrap();
    assert_eq!(reach.1, "cannot tell", "{reach:?}");
    assert!(reach.2.contains("heading"), "{reach:?}");
}

#[test]
fn a_start_that_nobody_knows_leaves_no_station_known() {
    for follows in ["follows    unknown", "follows    M7", "follows    M1 ?"] {
        let more = BACK
            .replace("follows    M1", follows)
            .replace("  by ", "  carries    cover\n  by ");
        let (_, checked) = with(&more, &[]);
        let found = of_case(&checked, "cover/M2");
        let height = found.iter().find(|(rule, ..)| *rule == "hook-height");
        assert!(
            height.is_none_or(|height| height.1 == "cannot tell"),
            "{follows}: {found:?}"
        );
        let within = |rule: &str| {
            found
                .iter()
                .any(|found| found.0 == rule && found.1 == "within")
        };
        assert!(!within("hook-height") && !within("hook-reach") && !within("floor-bearing"));
    }
}

#[test]
fn moves_that_follow_each_other_in_a_circle_are_told() {
    let told = told(
        BACK,
        &[(
            "  carries    cover\n",
            "  carries    cover\n  follows    M2\n",
        )],
    );
    says(
        &told,
        "follows-in-a-circle",
        "M2, M1 follow each other in a circle",
    );
}

#[test]
fn a_move_that_contradicts_the_end_before_is_told_at_both_places() {
    let start = |line: &str| {
        let more = BACK.replace("  by ", &format!("  {line}\n  by "));
        let (snapshot, checked) = with(&more, &[]);
        let notice = checked
            .notices
            .iter()
            .find(|notice| notice.code.code == "moves-contradict");
        let notice = notice.unwrap_or_else(|| panic!("{line}: {:?}", checked.notices));
        assert!(
            notice
                .related
                .iter()
                .all(|related| snapshot.locate(&related.origin).is_some())
        );
        notice.say.clone()
    };
    let place = start("start at (17.0 m, 5.0 m), on stool");
    assert!(
        place.contains("(17 m, 5 m)") || place.contains("(17.00 m, 5.00 m)"),
        "{place}"
    );
    let height = start("start at (18.0 m, 5.0 m), underside above slab 300 mm");
    assert!(
        height.contains("300 mm above slab") && height.contains("on stool"),
        "{height}"
    );
    let heading = start("heading 90 deg");
    assert!(heading.contains("heading 90.0 deg"), "{heading}");
    let other = "load lid\n  mass 2 t +/- 5 % from drawing\n\n";
    let load = told(
        &(other.to_owned() + &BACK.replace("  by ", "  carries    lid\n  by ")),
        &[],
    );
    says(
        &load,
        "moves-contradict",
        "M2 begins with lid, but M1, which it follows, ends with cover",
    );
}

#[test]
fn a_load_on_a_stand_goes_nowhere_before_it_is_lifted() {
    let aside = BACK.replace("    | (18.0 m, 5.0 m) | above slab 1.80 m |\n", "");
    says(
        &told(&aside, &[]),
        "moves-contradict",
        "M2 begins with the load at",
    );
    assert!(told(BACK, &[]).is_empty());
}

#[test]
fn a_start_of_its_own_that_is_the_same_is_no_contradiction() {
    let same = BACK.replace(
        "  by ",
        "  start      at (18.0 m, 5.0 m), underside above slab 400 mm\n  by ",
    );
    assert_eq!(told(&same, &[]), Vec::<String>::new());
}

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
    let told = told(
        &more,
        &[
            IN_A,
            ("bridge with chains-of-three", "bridge with long-ones"),
        ],
    );
    says(&told, "name-not-found", "`long-ones` names no");
}

const QUESTION: &str = "\
question Q1 \"What does the cover weigh?\"
  to         owner
  needed-by  2026-11-02
  closes     cover.mass
  blocks     M1
";

const NO_MASS: (&str, &str) = (
    "mass       14.0 t +/- 5 %           from drawing",
    "mass       unknown",
);

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
fn a_question_closes_a_datum_and_blocks_a_move_or_says_that_it_does_not() {
    let near = QUESTION
        .replace("cover.mass", "cover.mas")
        .replace("blocks     M1", "blocks     M9");
    let found = told(&near, &[]);
    says(&found, "closes-nothing", "`load` has no key `mas`");
    says(&found, "name-not-found", "`M9` names no move");
    says(
        &told(&QUESTION.replace("cover.mass", "lid.mass"), &[]),
        "closes-nothing",
        "`lid` names nothing",
    );
}

#[test]
fn an_answer_that_is_not_written_where_it_belongs_is_told() {
    let answered = format!("{QUESTION}  answer     \"14.2 t, weighed in 1998\"\n");
    says(
        &told(&answered, &[NO_MASS]),
        "answer-not-written",
        "Q1 is answered, but cover.mass is still not given",
    );
    assert_eq!(told(&answered, &[]), Vec::<String>::new());
}

#[test]
fn revisions_that_run_backwards_and_ones_without_a_reason_are_told() {
    let revisions = |lines: &str| {
        let first = "  revision   A 2026-10-01 stage bid \"first issue\"\n";
        told("", &[(first, &format!("{first}{lines}"))])
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
        &told("", &[held]),
        "hold-not-found",
        "no move has a hold `H2`",
    );
    let hold = (
        "  tilt       at most",
        "  limit      20 t from cell\n  hold       H2 at 2 in\n  tilt       at most",
    );
    assert_eq!(told("", &[held, hold]), Vec::<String>::new());
}

/// The clean lift under a root file with more lines.
fn under(root: &str, change: &[(&str, &str)]) -> (Snapshot, Checked) {
    let files = changed(change);
    let text = format!("{}{root}", plumbhook_checks::example::ROOT);
    files.put(at("plumbhook.toml"), text.as_bytes());
    let snapshot = workspace(&files).snapshot();
    let checked = check(&snapshot);
    (snapshot, checked)
}

#[test]
fn what_the_root_file_settles_counts_where_the_job_says_nothing_and_stands_on_the_sheet() {
    let none = (
        "  dynamic    1.10                     from practice-note\n",
        "",
    );
    let root = "[factor]\ndynamic = { is = \"1.25\", because = \"practice note 4\" }\n";
    let (snapshot, checked) = under(root, &[none]);
    let sling = findings(&checked)
        .find(|found| found.identity.rule == "sling-rating")
        .unwrap();
    let input = sling
        .aspect
        .sheet
        .inputs
        .iter()
        .find(|input| input.what == "dynamic factor");
    let input = input.unwrap();
    assert_eq!(input.pedigree, "the root file: practice note 4");
    let place = snapshot.locate(&input.origins[0]).unwrap();
    assert_eq!((&*place.shown, place.line), ("plumbhook.toml", 4));
    assert_eq!(sling.aspect.verdict, Verdict::Within);
    let (_, said) = under(root, &[]);
    let sling = findings(&said)
        .find(|found| found.identity.rule == "sling-rating")
        .unwrap();
    let own = sling
        .aspect
        .sheet
        .inputs
        .iter()
        .find(|input| input.what == "dynamic factor");
    assert_eq!(own.unwrap().pedigree, "practice-note");
}

#[test]
fn a_root_file_lowers_a_rule_with_a_reason_and_an_over_stays_an_error() {
    let root = "[severity]\nmass-known = { to = \"warning\", because = \"weighed next week\" }\n\
                sling-rating = { to = \"warning\", because = \"x\" }\n";
    let over = ("vertical 10.0 t", "vertical 3.0 t");
    let (_, checked) = under(root, &[over]);
    let sling = findings(&checked)
        .find(|found| found.identity.rule == "sling-rating")
        .unwrap();
    assert_eq!(
        (&sling.aspect.verdict, sling.severity),
        (&Verdict::Over, Severity::Error)
    );
    let (_, checked) = under(root, &[NO_MASS]);
    let mass = findings(&checked)
        .find(|found| found.identity.rule == "mass-known")
        .unwrap();
    assert_eq!(mass.severity, Severity::Warning);
    assert_eq!(checked.louds.len(), 2);
    assert!(
        checked.has_errors(),
        "the checks that need the mass are errors still"
    );
}

#[test]
fn a_workspace_at_a_stage_demands_what_that_stage_needs() {
    let files = changed(&[("  tilt       at most 3 deg\n", "")]);
    let said = |stage| {
        let workspace = workspace(&files);
        let mut workspace = match stage {
            Some(stage) => workspace.at_stage(stage),
            None => workspace,
        };
        let checked = check(&workspace.snapshot());
        let tilt = findings(&checked)
            .find(|found| found.identity.rule == "tilt")
            .unwrap();
        tilt.severity
    };
    assert_eq!(said(None), Severity::NotYetDue);
    assert_eq!(said(Some(plumbhook_sheet::Stage::Issue)), Severity::Error);
}
