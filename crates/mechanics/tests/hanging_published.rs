//! The solver and the closed forms against numbers in print. Each check names its source.
//!
//! Not here: "University statics text, solution to problem 2.104" (three tethers of a balloon). We have its answers (54, 112,
//! 215 lbf for a given 100 lbf) but not its directions, so the problem cannot be set up; working the directions back from
//! the answers would prove nothing. Unsymmetrical concurrent legs are covered by the college course below.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may fail")]

mod common;

use common::{legs_to, rig};
use plumbhook_mechanics::hanging::hang;
use plumbhook_mechanics::leg::{NotThisForm, check_consistent, sling_tension, two_leg_tensions};
use plumbhook_sheet::{Book, Silent};
use plumbhook_units::{Force, HorizontalAngle, Length, Measured};

/// lbf in newtons: the 1959 international pound (0.453 592 37 kg, exact) under standard gravity (9.806 65 m/s2, exact).
const LBF: f64 = 4.448_221_615_260_5;
/// International foot, exact.
const FT: f64 = 0.3048;

// Wire-rope maker's leaflet on basket hitches and bridles (reproduces the wire-rope trade board / B30.9 tables), load
// factor and choker tables. The table is cut off after three decimals, not rounded; the exact value lies up to 0.001 above.
const LOAD_FACTORS: [(f64, f64); 13] = [
    (90.0, 1.0),
    (85.0, 1.003),
    (80.0, 1.015),
    (75.0, 1.035),
    (70.0, 1.064),
    (65.0, 1.103),
    (60.0, 1.154),
    (55.0, 1.22),
    (50.0, 1.305),
    (45.0, 1.414),
    (40.0, 1.555),
    (35.0, 1.743),
    (30.0, 2.0),
];

#[test]
fn load_factors_are_exact_and_never_below_the_cut_off_table() {
    let share = Force::from_si(1.0);
    for (degrees, printed) in LOAD_FACTORS {
        let angle = HorizontalAngle::from_si(f64::to_radians(degrees));
        let factor = sling_tension(share, angle, &mut Silent).unwrap().si();
        assert!((factor - printed).abs() < 0.001, "{degrees}: {factor}");
        assert!(factor > printed - 1e-9, "{degrees}: cut off like the table");
    }
}

#[test]
fn two_legs_through_the_solver_have_the_same_load_factors() {
    for (degrees, printed) in LOAD_FACTORS {
        if degrees > 89.0 {
            continue;
        }
        let angle = f64::to_radians(degrees);
        let hook = [0.0, 0.0, 3.0 * angle.tan()];
        let legs = legs_to(hook, &[[-3.0, 0.0, 0.0], [3.0, 0.0, 0.0]]);
        let pose = hang(&rig(2000.0, [0.0, 0.0, -1.0], &legs)).unwrap();
        for leg in &pose.legs {
            let factor = leg.tension.si() / 1000.0;
            assert!((factor - printed).abs() < 0.001, "{degrees}: {factor}");
            let found = leg.horizontal_angle.unwrap().si().to_degrees();
            assert!((found - degrees).abs() < 1e-9, "{degrees}: {found}");
        }
    }
}

// Rigging course page, US maritime simulation centre, consistency check: W 4000 lb, offsets 2 and 10 ft, height 3 ft.
// Printed with lengths of 4 and 14 ft: 4444.44 and 3111.11 lbf. With the lengths that fit (3.606 and 10.440 ft):
// 4006.168084 and 2320.068113 lbf.
#[test]
fn the_faulty_two_leg_example_is_refused_and_its_consistent_geometry_solved() {
    let feet = |v: f64| Length::from_si(v * FT);
    let offsets = [feet(2.0), feet(10.0)];
    let refused = check_consistent(&[feet(4.0), feet(14.0)], &offsets, feet(3.0), feet(0.05));
    let Err(NotThisForm::Inconsistent { leg, .. }) = refused else {
        panic!("accepted");
    };
    assert_eq!(leg, 1);
    let words = refused.unwrap_err().to_string();
    assert!(words.contains("+34 %"), "{words}");
    let first_only = check_consistent(&[feet(4.0)], &offsets[..1], feet(3.0), feet(0.05));
    assert!(first_only.unwrap_err().to_string().contains("+11 %"));

    let points = [[-2.0 * FT, 0.0, 0.0], [10.0 * FT, 0.0, 0.0]];
    let legs = legs_to([0.0, 0.0, 3.0 * FT], &points);
    let pose = hang(&rig(4000.0 * LBF, [0.0, 0.0, -1.0], &legs)).unwrap();
    let found: Vec<f64> = pose.legs.iter().map(|l| l.tension.si() / LBF).collect();
    assert!((found[0] - 4_006.168_084).abs() < 0.01, "{found:?}");
    assert!((found[1] - 2_320.068_113).abs() < 0.01, "{found:?}");

    let lengths = [legs[0].1, legs[1].1].map(Length::from_si);
    let mut book = Book::default();
    let weight = Force::from_si(4000.0 * LBF);
    let closed =
        two_leg_tensions(weight, offsets, lengths, feet(3.0), feet(0.001), &mut book).unwrap();
    assert!((closed[0].si() / LBF - 4_006.168_084).abs() < 0.01);
    assert!((closed[1].si() / LBF - 2_320.068_113).abs() < 0.01);
    assert_eq!(book.0.len(), 2, "both formulas stand in the book");
}

// College physics course module 3-3 example 1, worked example: 80 kg, g 9.8 m/s2, leg vectors (0.2, -0.15, 0.8), (-0.1, -0.15,
// 0.8), (-0.1, 0.3, 0.8) m; 273.7968, 267.8866, 281.0092 N. The second and third vectors are rebuilt from the printed matrix.
#[test]
fn three_unsymmetrical_legs_share_as_in_the_college_course() {
    let hook = [0.0, 0.0, 0.8];
    let points = [[-0.2, 0.15, 0.0], [0.1, 0.15, 0.0], [0.1, -0.3, 0.0]];
    let pose = hang(&rig(80.0 * 9.8, [0.0, 0.0, -0.5], &legs_to(hook, &points))).unwrap();
    for (leg, printed) in pose.legs.iter().zip([273.7968, 267.8866, 281.0092]) {
        assert!((leg.tension.si() - printed).abs() < 0.01, "{leg:?}");
    }
    assert!(pose.bodies[0].tilt.si() < 1e-12);
    for (found, wanted) in pose.bodies[0].position.iter().zip([0.0, 0.0, -0.8]) {
        assert!((found.si() - wanted).abs() < 1e-12, "{found:?}");
    }
}
