//! Where there is no pose, the solver gives no number and says why.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may fail")]

mod common;

use common::{LegNumbers, Widths, banded, legs_to, rig};
use plumbhook_mechanics::hanging::{
    Axis, BandedRig, CgFault, CgHeight, End, Input, Names, NoPose, Rig, hang, worst,
};
use plumbhook_units::{Length, Mass, Measured, Stiffness};

const TRIANGLE: [[f64; 3]; 3] = [[1.0, 0.0, 0.0], [-0.5, 0.8, 0.0], [-0.5, -0.8, 0.0]];
const SQUARE: [[f64; 3]; 4] = [
    [1.0, 1.0, 0.0],
    [-1.0, 1.0, 0.0],
    [-1.0, -1.0, 0.0],
    [1.0, -1.0, 0.0],
];

fn three(cg: [f64; 3]) -> Rig {
    rig(10_000.0, cg, &legs_to([0.0, 0.0, 2.0], &TRIANGLE))
}

fn stiff(legs: Vec<LegNumbers>, k: f64) -> Vec<LegNumbers> {
    legs.into_iter().map(|(p, l, _)| (p, l, Some(k))).collect()
}

fn says(answer: Result<impl core::fmt::Debug, NoPose>, words: &str) -> NoPose {
    let why = answer.expect_err("a pose was given");
    let text = why.to_string();
    assert!(text.contains(words), "says {text:?}, not {words:?}");
    why
}

#[test]
fn zero_negative_and_endless_numbers_are_refused_by_name() {
    let mut heavy = three([0.0, 0.0, -0.5]);
    for mass in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        heavy.bodies[0].mass = Mass::from_si(mass);
        says(hang(&heavy), "mass of body 1");
    }
    let mut long = three([0.0, 0.0, -0.5]);
    for length in [0.0, -2.0, f64::NAN] {
        long.legs[1].length = Length::from_si(length);
        says(hang(&long), "length of leg 2");
    }
    let mut soft = three([0.0, 0.0, -0.5]);
    for k in [0.0, -5.0, f64::INFINITY] {
        soft.legs[2].stiffness = Some(Stiffness::from_si(k));
        says(hang(&soft), "stiffness of leg 3");
    }
    let mut off = three([0.0, 0.0, -0.5]);
    off.bodies[0].cg[1] = Length::from_si(f64::NAN);
    says(hang(&off), "centre of gravity y of body 1");
    let mut hook = three([0.0, 0.0, -0.5]);
    hook.hooks[0].position[2] = Length::from_si(f64::INFINITY);
    says(hang(&hook), "a position");
}

#[test]
fn lists_that_do_not_fit_are_refused() {
    let whole = three([0.0, 0.0, -0.5]);
    let mut rig = whole.clone();
    rig.legs.clear();
    says(hang(&rig), "no legs");
    let mut rig = whole.clone();
    rig.hooks.clear();
    says(hang(&rig), "no hook");
    let mut rig = whole.clone();
    rig.legs[1].upper = End::Hook(7);
    assert_eq!(hang(&rig), Err(NoPose::WrongEnds { leg: 1 }));
    let mut rig = whole;
    rig.bodies.push(rig.bodies[0]);
    assert_eq!(hang(&rig), Err(NoPose::NotCarried { body: 1 }));
}

#[test]
fn more_legs_than_can_be_judged_are_refused() {
    let angle = |i: usize| i as f64 / 25.0 * core::f64::consts::TAU;
    let points: Vec<[f64; 3]> = (0..25)
        .map(|i| [angle(i).cos(), angle(i).sin(), 0.0])
        .collect();
    let legs = stiff(legs_to([0.0, 0.0, 2.0], &points), 1e7);
    let bands = banded(&rig(1e5, [0.0, 0.0, -0.5], &legs), Widths::default());
    says(worst(&bands), "more than 24 legs");
}

#[test]
fn a_cg_outside_the_points_is_named() {
    for stiffness in [None, Some(1.0e7)] {
        let mut rig = three([2.5, 0.0, -0.2]);
        for leg in &mut rig.legs {
            leg.stiffness = stiffness.map(Stiffness::from_si);
        }
        let why = says(hang(&rig), "outside the lifting points in plan");
        assert!(matches!(
            why,
            NoPose::TurnsOver {
                because: CgFault::Outside,
                ..
            } | NoPose::Pushes {
                because: CgFault::Outside,
                ..
            }
        ));
    }
}

#[test]
fn a_cg_above_two_points_rolls_over() {
    let points = [[-1.0, 0.0, 0.0], [1.0, 0.0, 0.0]];
    let legs = legs_to([0.0, 0.0, 2.0], &points);
    says(
        hang(&rig(10_000.0, [0.0, 0.05, 0.3], &legs)),
        "above the lifting points",
    );
    // Exactly upright it is in equilibrium, and unstable.
    let upright = rig(10_000.0, [0.0, 0.0, 0.3], &stiff(legs, 1.0e7));
    let why = says(hang(&upright), "unstable");
    assert_eq!(
        why,
        NoPose::Unstable {
            because: CgFault::Above
        }
    );
}

#[test]
fn a_cg_on_the_line_of_two_points_is_neutral() {
    let points = [[-1.0, 0.0, 0.0], [1.0, 0.0, 0.0]];
    let legs = legs_to([0.0, 0.0, 2.0], &points);
    for legs in [legs.clone(), stiff(legs, 1.0e7)] {
        says(
            hang(&rig(10_000.0, [0.1, 0.0, 0.0], &legs)),
            "nothing says in which attitude",
        );
    }
}

#[test]
fn a_cg_at_the_single_point_is_neutral() {
    let legs = [([0.5, 0.0, 0.0], 2.0, None)];
    says(
        hang(&rig(10_000.0, [0.5, 0.0, 0.0], &legs)),
        "nothing says in which attitude",
    );
}

// Common practice, no source: points below the centre of gravity call for a look even where the pose is stable.
#[test]
fn a_cg_above_the_points_is_flagged_even_where_it_is_stable() {
    let pose = hang(&three([0.0, 0.0, 0.3])).unwrap();
    assert_eq!(pose.bodies[0].cg_height, CgHeight::AboveAll);
    let bands = banded(
        &three([0.0, 0.0, -0.01]),
        Widths {
            cg_m: 0.05,
            ..Widths::default()
        },
    );
    assert_eq!(
        worst(&bands).unwrap().sharing.cg_height,
        CgHeight::AboveAll,
        "the high side of the band decides"
    );
}

#[test]
fn legs_shorter_than_the_distance_are_told_by_how_much() {
    let legs = [
        ([-1.5, 0.0, 0.0], 1.2, Some(1.0e7)),
        ([1.5, 0.0, 0.0], 1.3, Some(1.0e7)),
    ];
    says(
        hang(&rig(10_000.0, [0.0, 0.0, -0.5], &legs)),
        "legs 1 and 2 cannot meet in one hook: together they are 500 mm too short",
    );
}

#[test]
fn three_legs_that_meet_in_no_place_are_refused() {
    // Pairs can meet; all three cannot: the far one is too short for where the first two leave the hook.
    let legs = [
        ([-1.0, 0.0, 0.0], 1.05, None),
        ([1.0, 0.0, 0.0], 1.05, None),
        ([0.0, 4.0, 0.0], 3.2, None),
    ];
    let answer = hang(&rig(10_000.0, [0.0, 1.0, -0.5], &legs));
    says(answer, "no hook place is within the lengths");
}

#[test]
fn a_hook_below_a_point_is_refused() {
    let mut rig = three([0.0, 0.0, -0.5]);
    let leg = &mut rig.legs[0];
    (leg.upper, leg.lower) = (leg.lower, leg.upper);
    assert_eq!(hang(&rig), Err(NoPose::HookBelowPoint { leg: 0 }));
}

#[test]
fn four_legs_without_stiffness_have_no_single_share() {
    let legs = legs_to([0.0, 0.0, 2.0], &SQUARE);
    assert_eq!(
        hang(&rig(10_000.0, [0.0, 0.0, -0.5], &legs)),
        Err(NoPose::Indeterminate)
    );
    let from_one_point = legs_to([0.0, 0.0, 2.0], &[[1.0, 0.0, 0.0], [1.0, 0.0, 0.0]]);
    assert_eq!(
        hang(&rig(10_000.0, [0.9, 0.0, -1.0], &from_one_point)),
        Err(NoPose::Indeterminate),
        "coincident points"
    );
}

#[test]
fn a_band_that_reaches_an_unstable_place_has_no_worst() {
    let points = [[-1.0, 0.0, 0.0], [1.0, 0.0, 0.0]];
    let legs = legs_to([0.0, 0.0, 2.0], &points);
    let bands = banded(
        &rig(10_000.0, [0.0, 0.0, -0.03], &legs),
        Widths {
            cg_m: 0.05,
            ..Widths::default()
        },
    );
    let why = says(worst(&bands), "inside the bands, at");
    let NoPose::InsideBands { at, why } = why else {
        panic!("{why:?}");
    };
    assert!(matches!(
        *why,
        NoPose::TurnsOver { .. } | NoPose::Neutral { .. }
    ));
    let z = Input::Cg {
        body: 0,
        axis: Axis::Z,
    };
    assert!(at.iter().any(|c| c.input == z), "{at:?}");
}

#[test]
fn a_band_upside_down_is_refused() {
    let mut bands: BandedRig = banded(&three([0.0, 0.0, -0.5]), Widths::default());
    bands.bodies[0].mass.lo = Mass::from_si(2000.0);
    says(worst(&bands), "low side above its high side");
}

struct AsWritten;

impl Names for AsWritten {
    fn body(&self, body: usize) -> String {
        ["runner", "spreader-4"][body].to_owned()
    }

    fn leg(&self, leg: usize) -> String {
        ["A", "B", "C"][leg].to_owned()
    }
}

#[test]
fn why_there_is_no_pose_is_told_by_the_names_of_whoever_asks() {
    let because = CgFault::Outside;
    let pushes = NoPose::Pushes {
        legs: vec![0, 2],
        because,
    };
    let told = pushes.told(&AsWritten);
    assert!(told.starts_with("legs A, C would have to push: "), "{told}");
    let low = NoPose::NotPositive {
        input: Input::Mass { body: 1 },
    };
    assert_eq!(
        low.told(&AsWritten),
        "mass of spreader-4 must be above zero"
    );
    assert_eq!(low.to_string(), "mass of body 2 must be above zero");
}
