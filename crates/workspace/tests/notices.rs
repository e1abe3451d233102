//! What is said of texts and names, and where.

mod common;

use common::*;

#[test]
fn a_file_opens_with_exactly_one_of_job_plant_yard() {
    let second = told_of(&[(
        "rigging chains-of-three",
        "plant other\n\nrigging chains-of-three",
    )]);
    assert_eq!(second, ["file-opens at cover.pick:17:plant other"]);
    let files = clean();
    files.put(at("loose.pick"), b"ring r\n  rated 1 t from tag\n");
    files.put(at("empty.pick"), b"# nothing yet\n");
    let snapshot = workspace(&files).snapshot();
    assert_eq!(
        told(&snapshot, &check(&snapshot).notices),
        [
            "file-opens at empty.pick:1:# nothing yet",
            "file-opens at loose.pick:1:ring r"
        ]
    );
}

#[test]
fn what_opens_the_file_stands_first() {
    let files = clean();
    files.put(
        at("late.pick"),
        b"load a\n\njob late\n  revision A stage bid\n",
    );
    let snapshot = workspace(&files).snapshot();
    let told = told(&snapshot, &check(&snapshot).notices);
    assert_eq!(told, ["file-opens at late.pick:1:load a"]);
}

#[test]
fn a_header_is_marked_to_the_end_of_its_name_whatever_the_blanks() {
    let second = told_of(&[(
        "rigging chains-of-three",
        "plant \u{a0}  \t other \"Other\"\n\nrigging chains-of-three",
    )]);
    assert_eq!(
        second,
        ["file-opens at cover.pick:17:plant \u{a0}  \t other"]
    );
}

#[test]
fn lines_before_the_first_entry_are_told_once() {
    let stray = told_of(&[("# Invented.\njob cover", "  mass 3 t\n  cg 0\njob cover")]);
    assert_eq!(stray, ["stray-lines at cover.pick:1:mass 3 t"]);
}

#[test]
fn a_job_without_a_stage_is_warned_of() {
    let none = told_of(&[("  revision   A 2026-10-01 stage bid \"first issue\"\n", "")]);
    assert_eq!(none, ["no-stage at cover.pick:2:job cover"]);
    let broken = told_of(&[("stage bid \"first issue\"", "stage bit \"first issue\"")]);
    assert_eq!(broken, ["line-not-read at cover.pick:5:bit"]);
}

#[test]
fn an_unknown_rule_set_is_told_with_the_nearest() {
    let files = changed(&[("rules      us", "rules      uss")]);
    let checked = fresh(&files);
    assert_eq!(checked.notices[0].code.code, "unknown-rule-set");
    assert_eq!(checked.notices[0].mend, "did you mean `us`?");
}

#[test]
fn a_plant_that_no_file_opens_is_told_at_the_job_with_the_nearest() {
    let files = changed(&[("plant      pump-hall", "plant      pump-hal")]);
    let snapshot = workspace(&files).snapshot();
    let checked = check(&snapshot);
    let told = told(&snapshot, &checked.notices);
    assert!(
        told.contains(&"name-not-found at cover.pick:3:pump-hal".to_owned()),
        "{told:?}"
    );
    let plant = &checked.notices[0];
    assert_eq!(plant.mend, "did you mean `pump-hall`?");
}

#[test]
fn two_entries_of_one_name_are_told_once_at_each() {
    let twice = told_of(&[(
        "rigging chains-of-three",
        "shackle bow-12\n\nrigging chains-of-three",
    )]);
    assert_eq!(
        twice,
        [
            "name-twice at cover.pick:17:shackle bow-12",
            "name-twice at yard.pick:11:shackle bow-12"
        ]
    );
}

#[test]
fn two_plants_of_one_name_lead_to_neither() {
    let files = clean();
    files.put(at("twin.plant.pick"), b"plant pump-hall\n");
    let snapshot = workspace(&files).snapshot();
    let told = told(&snapshot, &check(&snapshot).notices);
    for place in [
        "cover.pick:3:pump-hall",
        "hall.plant.pick:2:plant pump-hall",
        "twin.plant.pick:1:plant pump-hall",
    ] {
        assert_eq!(
            told.iter().filter(|told| told.ends_with(place)).count(),
            1,
            "{told:?}"
        );
    }
}

#[test]
fn claims_of_a_mass_that_cannot_both_be_true_are_told_once_at_the_later() {
    let apart = told_of(&[(
        "  mass       14.0 t +/- 5 %           from drawing\n",
        "  mass       14.0 t +/- 5 %           from drawing\n  mass  16 t .. 17 t from weighed\n",
    )]);
    assert_eq!(apart, ["claims-disagree at cover.pick:10:16 t .. 17 t"]);
}

#[test]
fn a_broken_line_in_the_yard_is_told_once_for_all_jobs() {
    let files = changed(&[("inside     340 mm +/- 5 mm", "inside     340 mm +/- 5")]);
    let job = plumbhook_checks::example::FILES[2]
        .1
        .replace("job cover", "job second");
    files.put(at("second.pick"), job.as_bytes());
    let checked = fresh(&files);
    assert_eq!(checked.jobs, 2);
    assert_eq!(checked.notices.len(), 1, "{:?}", checked.notices);
}

#[test]
fn a_name_that_leads_nowhere_is_told_at_the_name() {
    let nowhere = told_of(&[(
        "through bow-12, rope-32-long-5, bow-12",
        "through bow-12, rope-32-long-6, bow-12",
    )]);
    assert_eq!(nowhere, ["name-not-found at cover.pick:18:rope-32-long-6"]);
}

#[test]
fn a_move_in_a_yard_or_a_plant_is_told_because_nobody_checks_it() {
    let stray = told_of(&[("shackle bow-12", "move M9\n\nshackle bow-12")]);
    assert_eq!(stray, ["file-opens at yard.pick:11:move M9"]);
}

const MASS_LINE: &str = "  mass       14.0 t +/- 5 %           from drawing\n";

fn told_with(lines: &str) -> Vec<String> {
    told_of(&[(MASS_LINE, lines)])
}

#[test]
fn claims_are_compared_with_the_allowance_of_their_source() {
    const SHEET: &str =
        "source sheet-1 drawing 2019\n  mass-accuracy ACC\n\nrigging chains-of-three";
    let told = |accuracy: &str| {
        let sheet = SHEET.replace("ACC", accuracy);
        told_of(&[
            (
                MASS_LINE,
                "  mass 14.0 t +/- 5 % from drawing\n  mass 15 t from sheet-1\n",
            ),
            ("rigging chains-of-three", &sheet),
        ])
    };
    // 14.7 t is the most by the drawing; 15 t less 1 % is 14.85 t, less 3 % is 14.55 t.
    assert_eq!(told("1 %").len(), 1, "{:?}", told("1 %"));
    assert!(told("3 %").is_empty(), "{:?}", told("3 %"));
}

#[test]
fn an_adoption_settles_a_disagreement_and_one_of_no_claim_is_told() {
    let apart = "  mass 14.0 t +/- 5 % from drawing\n  mass 16 t .. 17 t from stated\n";
    assert_eq!(told_with(apart).len(), 1);
    let adopt = |from: &str| {
        told_with(&format!(
            "{apart}  adopt mass from {from} by role \"lead engineer\" because \"the mail rounds\"\n"
        ))
    };
    assert!(adopt("drawing").is_empty(), "{:?}", adopt("drawing"));
    let idle = adopt("manual");
    assert!(
        idle.iter()
            .any(|told| told == "adopts-nothing at cover.pick:11:manual"),
        "{idle:?}"
    );
    let unnamed = adopt("mail-99");
    assert!(
        unnamed
            .iter()
            .any(|told| told == "name-not-found at cover.pick:11:mail-99"),
        "{unnamed:?}"
    );
    let by_nobody = told_with(&format!(
        "{apart}  adopt mass from drawing because \"so\"\n"
    ));
    assert!(
        by_nobody
            .iter()
            .any(|told| told.starts_with("line-not-read at cover.pick:11:")),
        "{by_nobody:?}"
    );
}

#[test]
fn a_number_that_its_evidence_does_not_give_is_told() {
    let told = |reading: &str, typed: &str| {
        told_of(&[(
            "rated      12 t                     from tag quote \"WLL 12T\" read-as metric because \"maker's sheet 2021\"",
            &format!(
                "rated {typed} from tag quote \"WLL 12T\" read-as {reading} because \"sheet\""
            ),
        )])
    };
    assert_eq!(
        told("short", "12 t"),
        ["quote-differs at yard.pick:13:12 t"]
    );
    // 12 short tons are 10,886 kg (NIST Handbook 44, Appendix C), and 12 long tons 12,193 kg: within half a ton of 12 t.
    for (reading, typed) in [
        ("metric", "12 t"),
        ("short", "10.9 t"),
        ("short", "24000 lb"),
        ("long", "12.2 t"),
    ] {
        assert!(
            told(reading, typed).is_empty(),
            "{reading} {typed}: {:?}",
            told(reading, typed)
        );
    }
}
