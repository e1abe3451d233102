//! What is said of lifting points: pulls that no rating covers, points that nobody rates, pins that do not fit.

mod said;

use plumbhook_sheet::{Aspect, Stage, Verdict};
use said::{lacks, of};

const AT: &str = "lug        eye-20 at A B C";
const PLANE: &str = "plane      radial";
const SIDE: &str = "rated-side at most 5 deg";
const VERIFIED: &str = "verified   by role \"structural engineer\" on 2026-09-01, covers 8 t";
const LEGS: &str = "through bow-12, rope-32-long-5, bow-12";

fn point(subject: &str, changes: &[(&'static str, &str)]) -> Aspect {
    let changes: Vec<_> = changes
        .iter()
        .map(|(from, to)| (*from, (*to).to_owned()))
        .collect();
    of("lifting-point", subject, &changes)
}

/// The first thing that is missing, with the stage from which it is demanded.
fn missing(aspect: &Aspect) -> (String, Stage) {
    let (what, _, due) = lacks(aspect).remove(0);
    (what, due)
}

#[test]
fn a_rating_for_a_straight_pull_says_nothing_of_a_leg_that_slants() {
    // A ring of 0.95 m under legs of 5.2 m: no leg stands steeper than 80 deg.
    let straight = "rated-angle at least 85 deg from horizontal";
    let said = point(
        "eye-20",
        &[("rated-angle at least 45 deg from horizontal", straight)],
    );
    let (what, _) = missing(&said);
    assert!(what.contains("for a pull as flat as"), "{what}");
}

#[test]
fn an_angle_from_vertical_is_the_same_limit() {
    let slanting = "rated-angle at most 45 deg from vertical";
    let said = point(
        "eye-20",
        &[("rated-angle at least 45 deg from horizontal", slanting)],
    );
    assert_eq!(said.verdict, Verdict::Within, "{}", said.headline);
}

#[test]
fn a_limit_with_a_tolerance_counts_at_its_steep_side() {
    let around = "rated-angle 75 deg +/- 10 deg from horizontal";
    let said = point(
        "eye-20",
        &[("rated-angle at least 45 deg from horizontal", around)],
    );
    let (what, _) = missing(&said);
    assert!(what.contains("for a pull as flat as"), "{what}");
}

#[test]
fn a_plate_across_the_pull_is_rated_for_nothing() {
    // B and C lie 0.82 m aside of the x-z plane, so their legs pull some 9 deg out of it.
    let said = point("eye-20", &[(PLANE, "plane      x-z")]);
    let (what, _) = missing(&said);
    assert!(what.contains("out of its plane"), "{what}");
    let said = point(
        "eye-20",
        &[
            (PLANE, "plane      x-z"),
            (SIDE, "rated-side at most 15 deg"),
        ],
    );
    assert_eq!(said.verdict, Verdict::Within, "{}", said.headline);
}

#[test]
fn a_verification_for_less_than_the_pull_is_passed_whatever_the_mark_says() {
    let less = VERIFIED.replace("8 t", "5 t");
    let said = point("eye-20", &[(VERIFIED, &less)]);
    assert_eq!(said.verdict, Verdict::Over, "{}", said.headline);
    assert!(said.headline.contains(" of 5 t"), "{}", said.headline);
}

#[test]
fn nobody_has_to_have_verified_a_lug_before_the_issue() {
    for (said, what) in [
        (
            point("eye-20", &[(VERIFIED, "verified   no")]),
            "eye-20 with what it sits on",
        ),
        (
            point("eye-20", &[(VERIFIED, "thick      40 mm")]),
            "a verification of eye-20",
        ),
    ] {
        let (found, due) = missing(&said);
        assert!(found.starts_with(what), "{found}");
        assert_eq!(due, Stage::Issue);
    }
}

#[test]
fn a_point_of_which_nobody_says_what_stands_there_is_named_alone() {
    let said = point(
        "lifting points of cover",
        &[(AT, "lug        eye-20 at A C")],
    );
    let (what, due) = missing(&said);
    assert_eq!(what, "a rating of lifting point B of cover");
    assert_eq!(due, Stage::Bid);
    let others = point("eye-20", &[(AT, "lug        eye-20 at A C")]);
    assert_eq!(others.verdict, Verdict::Within, "{}", others.headline);
}

#[test]
fn a_point_that_two_lines_name_has_no_lug_that_is_known() {
    let twice = "lug        eye-20 at A B C\n  lug        eye-9 at B";
    let said = point("lifting points of cover", &[(AT, twice)]);
    let (what, _) = missing(&said);
    assert!(
        what.contains("lifting point B of cover: two lines"),
        "{what}"
    );
}

#[test]
fn a_lug_that_is_declared_nowhere_carries_nothing_that_is_known() {
    let said = point("eye-9", &[(AT, "lug        eye-9 at A B C")]);
    let (what, _) = missing(&said);
    assert_eq!(what, "type of lug `eye-9`");
}

#[test]
fn slings_that_go_round_the_load_need_no_lug() {
    let round =
        "through rope-32-long-5 choker reach 4.80 m +/- 20 mm choke at least 125 deg, bow-12";
    let said = point("lifting points", &[(AT, ""), (LEGS, round)]);
    assert!(
        matches!(said.verdict, Verdict::DoesNotApply(_)),
        "{}",
        said.headline
    );
}

#[test]
fn it_is_not_said_that_a_pin_is_too_thick_before_it_is_known_what_sits_in_the_lug() {
    let fit = |sits: &str| {
        let changes = [
            (
                "covers 8 t\n",
                "covers 8 t\n  hole       34 mm\n".to_owned(),
            ),
            (
                "kind       bow, screw pin, alloy\n",
                "kind       bow, screw pin, alloy\n  pin        35 mm\n".to_owned(),
            ),
            (
                LEGS,
                format!("through bow-12{sits}, rope-32-long-5, bow-12"),
            ),
        ];
        of(
            "fits-neighbour",
            "pin of bow-12 in the hole of eye-20",
            &changes,
        )
    };
    let (told, silent) = (fit(" pin-at-lug"), fit(""));
    assert_eq!(told.verdict, Verdict::Over, "{}", told.headline);
    assert_eq!(missing(&silent).0, "how bow-12 sits in eye-20");
}
