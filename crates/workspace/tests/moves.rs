//! Moves that follow one another: what each takes from the end before, and where two contradict.

mod common;

use common::*;

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
    let told = told_with(
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
    let load = told_with(
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
        &told_with(&aside, &[]),
        "moves-contradict",
        "M2 begins with the load at",
    );
    assert!(told_with(BACK, &[]).is_empty());
}

#[test]
fn a_start_of_its_own_that_is_the_same_is_no_contradiction() {
    let same = BACK.replace(
        "  by ",
        "  start      at (18.0 m, 5.0 m), underside above slab 400 mm\n  by ",
    );
    assert_eq!(told_with(&same, &[]), Vec::<String>::new());
}
