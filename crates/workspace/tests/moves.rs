//! Moves that follow one another: what each takes from the end before, and where two contradict.

mod common;

use common::*;

const BACK: &str = "\
move M2 \"Back to the pump\"
  follows    M1
  by         bridge with chains-of-three
  dynamic    1.10                     from practice-note
  tilt       at most 3 deg
  out-of-plumb at most 120 mm
  stations
    | at              | underside         |
    | (18.0 m, 5.0 m) | above slab 1.80 m |
    | (8.0 m, 5.0 m)  | above slab 1.80 m |
";

/// The row in which M1 sets the load down.
const LAST: &str = "    | (18.0 m, 5.0 m) | on stool          |\n";

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
    // One that hangs at the end of the move before does not turn by itself either.
    let turned = BACK.replace("  by ", "  heading    90 deg\n  by ");
    let hangs = (
        "(18.0 m, 5.0 m) | on stool          |",
        "(18.0 m, 5.0 m) | above slab 1.80 m |\n    | (18.0 m, 5.0 m) | above slab 1.20 m |",
    );
    says(
        &told_with(&turned, &[hangs]),
        "moves-contradict",
        "M2 begins with the load at heading 90.0 deg",
    );
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

/// A part that may be taken off, and another way to turn the load; whole moves behind them.
const LID: &str = "  part       lid mass 1.0 t +/- 10 %, cg x 0 +/- 20 mm, y 0 +/- 20 mm, z 1.0 m +/- 20 mm  from drawing\n  attitude   turned up +z, +x toward plant +y\n";

/// What the move M2 misses, of the clean lift whose load has a part and an attitude.
fn misses(more: &str, change: &[(&str, &str)]) -> Vec<String> {
    let inside = "  inside     nothing                  from walk-2\n";
    let lid = format!("{inside}{LID}");
    let mut all = vec![(inside, &*lid)];
    all.extend(change);
    missed(&with(more, &all).1)
}

fn missed(checked: &plumbhook_workspace::Checked) -> Vec<String> {
    let cases = checked.cases.iter().filter(|case| case.case == "cover/M2");
    let findings = cases.flat_map(|case| &case.findings);
    let mut missing: Vec<_> = findings
        .filter_map(|finding| match &finding.aspect.verdict {
            plumbhook_sheet::Verdict::CannotTell(missing) => Some(missing.clone()),
            _ => None,
        })
        .flatten()
        .map(|missing| missing.what)
        .collect();
    missing.sort();
    missing.dedup();
    missing
}

const LOST: [&str; 4] = [
    "attitude of cover at the end of the move before",
    "heading of the load",
    "what cover is moved without",
    "whether cover is held",
];

#[test]
fn nobody_knows_what_a_move_leaves_out_where_what_it_follows_is_not_known() {
    let own = "  carries  cover\n  start      at (18.0 m, 5.0 m), on stool\n  by ";
    let more = BACK.replace("  by ", own);
    assert_eq!(misses(&more, &[]), Vec::<String>::new());
    for follows in [
        "follows    unknown",
        "follows    M7",
        "follows    M1 ?",
        "follows    cover",
    ] {
        let more = more.replace("follows    M1", follows);
        let missing = misses(&more, &[]);
        for lost in LOST {
            assert!(
                missing.iter().any(|what| what == lost),
                "{follows}: {lost}: {missing:?}"
            );
        }
    }
    let circle = (
        "  carries    cover\n",
        "  carries    cover\n  follows    M2\n",
    );
    let missing = misses(&more, &[circle]);
    for lost in LOST {
        assert!(
            missing.iter().any(|what| what == lost),
            "{lost}: {missing:?}"
        );
    }
}

#[test]
fn the_attitude_is_not_known_where_what_the_move_before_carries_is_not() {
    let more = BACK.replace("  by ", "  carries  cover\n  by ");
    for carries in ["carries    cover attitude", "carries    unknown"] {
        let change = ("  carries    cover\n", &*format!("  {carries}\n"));
        let missing = misses(&more, &[change]);
        assert!(
            missing.iter().any(|what| what == LOST[0]),
            "{carries}: {missing:?}"
        );
    }
}

#[test]
fn a_load_is_free_only_behind_a_move_that_has_carried_it_away() {
    let rows = "\
    | (8.0 m, 5.0 m)  | EL 51.20 m        |
    | (8.0 m, 5.0 m)  | above slab 1.80 m |
    | (18.0 m, 5.0 m) | above slab 1.80 m |
";
    let held = (
        "  held-by    nothing                  from walk-2\n",
        "  held-by    bolts 24                 from walk-2\n",
    );
    let limit = (
        "  heading    0 deg\n",
        "  heading    0 deg\n  limit      20 t                     from cell\n",
    );
    // M1 limits its pull; M2 does not, so it lacks a limit where the load may still be held.
    let back = BACK.replace("    | (18.0 m, 5.0 m) | above slab 1.80 m |\n", "");
    let held_in_m2 = |m1: &str| {
        let (_, checked) = with(&back, &[held, limit, (rows, m1), (LAST, "")]);
        let limit = "limit of the pull while cover is held";
        missed(&checked).iter().any(|what| what == limit)
    };
    let once = "    | (8.0 m, 5.0 m)  | EL 51.20 m        |\n";
    for stays in [once.to_owned(), format!("{once}{once}")] {
        assert!(held_in_m2(&stays), "{stays}");
    }
    for goes in [
        "(8.0 m, 5.0 m)  | EL 51.30 m",
        "(9.0 m, 5.0 m)  | EL 51.20 m",
    ] {
        let goes = format!("{once}    | {goes}        |\n");
        assert!(!held_in_m2(&goes), "{goes}");
    }
}
