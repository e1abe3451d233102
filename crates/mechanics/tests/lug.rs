//! The bound on the pull out of the plane of a lug, against poses of the hanging solver and by hand.

#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod common;

use common::{Widths, banded, legs_to, metres, rig};
use plumbhook_mechanics::Interval;
use plumbhook_mechanics::hanging::{BandedRig, End, Rig, hang, worst};
use plumbhook_mechanics::lug::{Plate, Pull, UnderOneHook, radial};
use plumbhook_units::{HorizontalAngle, Length, Measured, VerticalAngle};
use proptest::prelude::*;

const UP: [f64; 3] = [0.0, 0.0, 1.0];

fn pull(flattest_deg: f64, tilt_deg: f64) -> Pull {
    Pull {
        flattest: HorizontalAngle::from_si(flattest_deg.to_radians()),
        tilt: VerticalAngle::from_si(tilt_deg.to_radians()),
    }
}

/// By hand: the load hangs level, its centre of gravity lies up to 50 mm across the plate, the leg is 5 m long. The hook
/// is above the centre of gravity, so the pull leaves the plane by asin(0.05 / 5) = 0.573 deg.
#[test]
fn a_level_load_pulls_as_far_aside_as_its_centre_of_gravity_may_lie() {
    let plate = Plate {
        at: metres([1.0, 0.0, 1.0]),
        normal: radial(metres([1.0, 0.0, 1.0])).unwrap(),
        up: UP,
    };
    let side = |lo: f64, hi: f64| Interval {
        lo: Length::from_si(lo),
        hi: Length::from_si(hi),
    };
    let under = UnderOneHook {
        cg: [side(-0.3, 0.3), side(-0.05, 0.02), side(0.4, 0.5)],
        leg: Length::from_si(5.0),
        rise: Length::from_si(5.9),
    };
    let found = plate.side_pull(pull(78.0, 0.0), Some(under)).si();
    assert!((found - 0.573_f64.to_radians()).abs() < 1e-5, "{found}");
}

/// By hand: of a leg at 70 deg from horizontal under a spreader nobody knows which way it leans; it lies within 20 deg of
/// up and, with 3 deg of tilt, within 23 deg of the plane of any plate that stands upright.
#[test]
fn without_a_hook_above_the_lean_of_the_leg_is_the_bound() {
    let plate = Plate {
        at: metres([1.0, 0.0, 1.0]),
        normal: [0.0, 1.0, 0.0],
        up: UP,
    };
    let found = plate.side_pull(pull(70.0, 3.0), None).si();
    assert!((found - 23.0_f64.to_radians()).abs() < 1e-12, "{found}");
    // A plate that lies flat is pulled square to its plane.
    let flat = Plate {
        normal: UP,
        ..plate
    };
    let found = flat.side_pull(pull(70.0, 3.0), None).si();
    assert!((found - 90.0_f64.to_radians()).abs() < 1e-12, "{found}");
}

#[test]
fn what_is_no_number_is_the_worst_pull() {
    let plate = Plate {
        at: metres([1.0, 0.0, 1.0]),
        normal: [0.0, 1.0, 0.0],
        up: UP,
    };
    let found = plate.side_pull(pull(f64::NAN, 0.0), None).si();
    assert!((found - 90.0_f64.to_radians()).abs() < 1e-12, "{found}");
    assert_eq!(radial(metres([0.0, 0.0, 2.0])), None);
}

/// Angle of a leg out of the plane of a plate, from the pose of the solver: the leg in the load's own frame.
fn out_of_plane(rig: &Rig, leg: usize, normal: [f64; 3]) -> Option<f64> {
    let pose = hang(rig).ok()?;
    let body = pose.bodies.first()?;
    let End::Point { at, .. } = rig.legs.get(leg)?.lower else {
        return None;
    };
    let turned = body.rotation.turn(at.map(Measured::si));
    let lug: Vec<f64> = turned
        .iter()
        .zip(body.position)
        .map(|(a, b)| a + b.si())
        .collect();
    // The hook is at the origin.
    let long = lug.iter().map(|c| c * c).sum::<f64>().sqrt();
    let normal = body.rotation.turn(normal);
    let across: f64 = lug.iter().zip(normal).map(|(c, n)| -c * n).sum();
    Some((across / long).abs().asin())
}

fn bound(rig: &BandedRig, leg: usize, normal: [f64; 3]) -> Option<f64> {
    let worst = worst(rig).ok()?;
    let body = rig.bodies.first()?;
    let banded = rig.legs.get(leg)?;
    let End::Point { at, .. } = banded.lower else {
        return None;
    };
    let plate = Plate {
        at,
        normal,
        up: body.attitude.axes().map(|[_, _, up]| up),
    };
    let way = &worst.sharing;
    let pull = Pull {
        flattest: way.legs.get(leg)?.min_horizontal_angle.as_ref()?.value,
        tilt: way.max_tilt.value,
    };
    let under = UnderOneHook {
        cg: body.cg,
        leg: banded.length.lo,
        rise: way.max_rise.value,
    };
    Some(plate.side_pull(pull, Some(under)).si())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Second method: poses of the solver anywhere inside the bands never pull farther aside than the bound.
    #[test]
    fn no_pose_pulls_farther_out_of_the_plane_than_the_bound(
        turns in proptest::collection::vec(-0.3..0.3_f64, 3),
        height in 1.5..5.0_f64,
        cg in (-0.15..0.15_f64, -0.15..0.15_f64, -1.2..-0.3_f64),
        cg_m in 0.0..0.08_f64,
        length_m in 0.0..0.03_f64,
        picks in proptest::collection::vec(0.0..1.0_f64, 12),
        plane in 0..3_usize,
    ) {
        let points: Vec<[f64; 3]> = turns.iter().enumerate().map(|(i, turn)| {
            let angle = (i as f64 + turn) * core::f64::consts::TAU / 3.0;
            [angle.cos(), angle.sin(), 0.0]
        }).collect();
        let legs = legs_to([0.0, 0.0, height], &points);
        let middle = rig(1e5, [cg.0, cg.1, cg.2], &legs);
        let bands = banded(&middle, Widths { cg_m, length_m, ..Widths::default() });
        let normal = match plane {
            0 => radial(metres(points[0])).unwrap(),
            1 => [0.0, 1.0, 0.0],
            _ => [1.0, 0.0, 0.0],
        };
        let Some(bound) = bound(&bands, 0, normal) else { return Ok(()) };
        let mut inside = middle.clone();
        let between = |band: Interval<Length>, pick: f64| {
            Length::from_si(band.lo.si() + pick * (band.hi.si() - band.lo.si()))
        };
        for (axis, place) in bands.bodies[0].cg.iter().enumerate() {
            inside.bodies[0].cg[axis] = between(*place, picks[axis].round());
        }
        for (leg, place) in bands.legs.iter().enumerate() {
            inside.legs[leg].length = between(place.length, picks[3 + leg].round());
        }
        let Some(angle) = out_of_plane(&inside, 0, normal) else { return Ok(()) };
        prop_assert!(angle <= bound + 1e-6, "{} deg over {} deg", angle.to_degrees(), bound.to_degrees());
    }
}
