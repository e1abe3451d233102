//! What must hold for any rig.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may fail")]

mod common;

use common::{LegNumbers, Widths, banded, legs_to, metres, rig};
use plumbhook_mechanics::hanging::{Pose, Rig, Rotation, hang, hang_by_legs, worst};
use plumbhook_units::{Length, Mass, Measured};
use proptest::prelude::*;

/// Points around a ring, roughly; a hook above; a centre of gravity below the points and well inside.
fn any_rig(legs: core::ops::RangeInclusive<usize>, stiff: bool) -> impl Strategy<Value = Rig> {
    let spread = proptest::collection::vec(
        (-0.25..0.25_f64, 0.8..1.3_f64, -0.2..0.2_f64, 0.2..5.0_f64),
        legs,
    );
    (
        spread,
        1.2..4.0_f64,
        -0.1..0.1_f64,
        -0.1..0.1_f64,
        0.4..1.5_f64,
        4.0..6.0_f64,
    )
        .prop_map(move |(points, height, cx, cy, below, size)| {
            let count = points.len() as f64;
            let places: Vec<[f64; 3]> = points
                .iter()
                .enumerate()
                .map(|(i, (turn, radius, z, _))| {
                    let angle = (i as f64 + turn) * core::f64::consts::TAU / count;
                    [radius * angle.cos(), radius * angle.sin(), *z]
                })
                .collect();
            let weight = 10.0_f64.powf(size);
            let legs: Vec<LegNumbers> = legs_to([0.0, 0.0, height], &places)
                .into_iter()
                .zip(points)
                .map(|((p, l, _), (_, _, _, k))| (p, l, stiff.then_some(k * 300.0 * weight)))
                .collect();
            rig(weight, [cx, cy, -below], &legs)
        })
}

/// Sane numbers, and now and then any number at all.
fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -5.0..5.0_f64,
        4 => 0.1..10.0_f64,
        1 => any::<f64>(),
        1 => (-300.0..300.0_f64).prop_map(|e| 10.0_f64.powf(e)),
    ]
}

fn triples(count: usize) -> Vec<Vec<usize>> {
    let pairs = (0..count).flat_map(|a| (a + 1..count).map(move |b| (a, b)));
    pairs
        .flat_map(|(a, b)| (b + 1..count).map(move |c| vec![a, b, c]))
        .collect()
}

fn tensions(pose: &Pose) -> Vec<f64> {
    pose.legs.iter().map(|l| l.tension.si()).collect()
}

fn weight(rig: &Rig) -> f64 {
    plumbhook_units::weight(rig.bodies[0].mass).si()
}

fn close(a: &[f64], b: &[f64], tolerance: f64) -> Result<(), TestCaseError> {
    prop_assert_eq!(a.len(), b.len());
    for (x, y) in a.iter().zip(b) {
        prop_assert!((x - y).abs() <= tolerance, "{:?} {:?}", a, b);
    }
    Ok(())
}

fn map_points(rig: &Rig, map: impl Fn([f64; 3]) -> [f64; 3]) -> Rig {
    use plumbhook_mechanics::hanging::End;
    let mut out = rig.clone();
    out.bodies[0].cg = metres(map(rig.bodies[0].cg.map(Measured::si)));
    for leg in &mut out.legs {
        if let End::Point { body, at } = leg.lower {
            let at = metres(map(at.map(Measured::si)));
            leg.lower = End::Point { body, at };
        }
    }
    out
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    // Statics: the vertical parts of the tensions sum to the weight, the level parts to nothing.
    #[test]
    fn the_legs_carry_the_weight_and_nothing_else(rig in any_rig(3..=7, true)) {
        let pose = hang(&rig).unwrap();
        let up: f64 = pose.legs.iter().filter(|l| !l.slack)
            .map(|l| l.tension.si() * l.horizontal_angle.unwrap().si().sin()).sum();
        prop_assert!((up / weight(&rig) - 1.0).abs() < 1e-8);
        prop_assert!(pose.residual.share_of_weight < 1e-8);
        prop_assert!(tensions(&pose).iter().all(|t| *t >= 0.0));
    }

    // Where the origin of the body's frame is, and where the hook is, changes no force.
    #[test]
    fn shifting_the_frame_or_the_hook_changes_nothing(
        rig in any_rig(3..=6, true), shift in proptest::array::uniform3(-20.0..20.0_f64)
    ) {
        let pose = hang(&rig).unwrap();
        let mut moved = map_points(&rig, |[x, y, z]| [x + shift[0], y + shift[1], z + shift[2]]);
        moved.hooks[0].position = metres([7.0, -3.0, 120.0]);
        let other = hang(&moved).unwrap();
        close(&tensions(&pose), &tensions(&other), 1e-6 * weight(&rig))?;
        prop_assert!((pose.bodies[0].tilt.si() - other.bodies[0].tilt.si()).abs() < 1e-7);
    }

    // A body frame turned by quarter turns, with the attitude that turns it back, is the same rig.
    #[test]
    fn turning_the_frame_with_its_attitude_changes_nothing(rig in any_rig(3..=6, true)) {
        let pose = hang(&rig).unwrap();
        // New frame: x of it is z of the old one, y is x, z is y.
        let mut turned = map_points(&rig, |[x, y, z]| [z, x, y]);
        turned.bodies[0].attitude =
            Rotation::from_axes([0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]).unwrap();
        let other = hang(&turned).unwrap();
        close(&tensions(&pose), &tensions(&other), 1e-6 * weight(&rig))?;
        let place = |p: &Pose| p.bodies[0].position.map(Measured::si);
        close(&place(&pose), &place(&other), 1e-7)?;
    }

    #[test]
    fn a_mirror_image_has_the_same_tensions(rig in any_rig(3..=6, true)) {
        let pose = hang(&rig).unwrap();
        let other = hang(&map_points(&rig, |[x, y, z]| [-x, y, z])).unwrap();
        close(&tensions(&pose), &tensions(&other), 1e-6 * weight(&rig))?;
    }

    #[test]
    fn the_order_of_the_legs_does_not_matter(rig in any_rig(3..=6, true)) {
        let pose = hang(&rig).unwrap();
        let mut other = rig.clone();
        other.legs.reverse();
        let mut reversed = tensions(&hang(&other).unwrap());
        reversed.reverse();
        close(&tensions(&pose), &reversed, 1e-6 * weight(&rig))?;
    }

    // Without stretch the pose does not know the weight, and every tension grows with it.
    #[test]
    fn heavier_is_never_less_tension(rig in any_rig(3..=3, false), more in 1.0..3.0_f64) {
        let mut heavy = rig.clone();
        heavy.bodies[0].mass = Mass::from_si(rig.bodies[0].mass.si() * more);
        let (a, b) = (hang(&rig).unwrap(), hang(&heavy).unwrap());
        for (light, heavy) in tensions(&a).iter().zip(tensions(&b)) {
            prop_assert!((heavy - light * more).abs() <= 1e-9 * heavy);
        }
    }

    // Very stiff legs hang as those that do not stretch at all: two solvers, one answer.
    #[test]
    fn very_stiff_legs_hang_as_inextensible_ones(rig in any_rig(3..=3, false)) {
        let mut stiff = rig.clone();
        for leg in &mut stiff.legs {
            leg.stiffness = Some(Measured::from_si(weight(&rig) * 3e5));
        }
        close(&tensions(&hang(&rig).unwrap()), &tensions(&hang(&stiff).unwrap()), 1e-3 * weight(&rig))?;
    }

    #[test]
    fn a_wider_tolerance_is_never_safer(rig in any_rig(3..=5, true), wider in 1.2..3.0_f64) {
        let narrow = Widths { weight_share: 0.03, cg_m: 0.02, length_m: 0.004, stiffness_share: 0.05 };
        let wide = Widths {
            weight_share: narrow.weight_share * wider,
            cg_m: narrow.cg_m * wider,
            length_m: narrow.length_m * wider,
            stiffness_share: narrow.stiffness_share * wider,
        };
        let (a, b) = (worst(&banded(&rig, narrow)).unwrap(), worst(&banded(&rig, wide)).unwrap());
        let slip = 1e-3 * weight(&rig);
        for (a, b) in [(a.elastic.as_ref(), b.elastic.as_ref()), (Some(&a.sharing), Some(&b.sharing))] {
            let (a, b) = (a.unwrap(), b.unwrap());
            for (a, b) in a.legs.iter().zip(&b.legs) {
                prop_assert!(b.max_tension.value.si() >= a.max_tension.value.si() - slip);
                prop_assert!(b.min_tension.value.si() <= a.min_tension.value.si() + slip);
            }
            prop_assert!(b.max_tilt.value.si() >= a.max_tilt.value.si() - 1e-4);
            prop_assert!(b.max_rise.value.si() >= a.max_rise.value.si() - 1e-4);
            prop_assert!(b.min_rise.value.si() <= a.min_rise.value.si() + 1e-4);
        }
    }

    // The place that is named gives, when it is solved again, the number that was said of it.
    #[test]
    fn the_governing_corner_solved_again_gives_its_number(rig in any_rig(3..=5, true)) {
        let bands = banded(&rig, Widths { weight_share: 0.05, cg_m: 0.04, length_m: 0.006, stiffness_share: 0.1 });
        let found = worst(&bands).unwrap();
        for (i, leg) in found.elastic.unwrap().legs.iter().enumerate() {
            let again = hang(&bands.at(&leg.max_tension.corner)).unwrap();
            prop_assert!((again.legs[i].tension.si() - leg.max_tension.value.si()).abs() < 1e-6 * weight(&rig));
        }
        for (i, leg) in found.sharing.legs.iter().enumerate() {
            let corner = &leg.max_tension.corner;
            let again = hang_by_legs(&bands.at(corner), corner.pulling.as_ref().unwrap()).unwrap();
            prop_assert!((again.legs[i].tension.si() - leg.max_tension.value.si()).abs() < 1e-6 * weight(&rig));
        }
    }

    // No place inside the bands, drawn at random, is worse than the worst by more than a thousandth of the load, 0.03 degrees, half a
    // millimetre of rise or 3 mm sideways.
    #[test]
    fn no_random_place_inside_the_bands_is_worse(
        rig in any_rig(3..=5, true),
        draws in proptest::collection::vec(proptest::collection::vec(0.0..1.0_f64, 16), 40)
    ) {
        let w = Widths { weight_share: 0.05, cg_m: 0.04, length_m: 0.006, stiffness_share: 0.1 };
        let both = worst(&banded(&rig, w)).unwrap();
        let found = both.elastic.unwrap();
        for draw in draws {
            // To the ends more often than not: that is where the worst lives.
            let mut next = draw.iter().map(|d| (d * 3.0 - 1.0).clamp(0.0, 1.0) * 2.0 - 1.0);
            let mut at = rig.clone();
            let mut turn = |value: f64, width: f64| value + next.next().unwrap_or(0.0) * width;
            let mass = at.bodies[0].mass.si();
            at.bodies[0].mass = Mass::from_si(turn(mass, mass * w.weight_share));
            at.bodies[0].cg = at.bodies[0].cg.map(|c| Length::from_si(turn(c.si(), w.cg_m)));
            for leg in &mut at.legs {
                leg.length = Length::from_si(turn(leg.length.si(), w.length_m));
                let k = leg.stiffness.unwrap().si();
                leg.stiffness = Some(Measured::from_si(turn(k, k * w.stiffness_share)));
            }
            let pose = hang(&at).unwrap();
            for (leg, extremes) in pose.legs.iter().zip(&found.legs) {
                let slip = 0.001 * weight(&rig);
                prop_assert!(leg.tension.si() <= extremes.max_tension.value.si() + slip);
                prop_assert!(leg.tension.si() >= extremes.min_tension.value.si() - slip);
                if let (Some(angle), Some(least)) = (leg.horizontal_angle, &extremes.min_horizontal_angle) {
                    // A leg that is all but slack may pass for slack.
                    if leg.tension.si() > 0.01 * weight(&rig) {
                        prop_assert!(angle.si() >= least.value.si() - 2e-3);
                    }
                }
            }
            prop_assert!(pose.bodies[0].tilt.si() <= found.max_tilt.value.si() + 5e-4);
            prop_assert!(pose.bodies[0].rise.si() <= found.max_rise.value.si() + 5e-4);
            prop_assert!(pose.bodies[0].rise.si() >= found.min_rise.value.si() - 5e-4);
            for triple in triples(at.legs.len()) {
                // A sharing in which a leg would push is none.
                let Ok(pose) = hang_by_legs(&at, &triple) else { continue };
                for (leg, extremes) in pose.legs.iter().zip(&both.sharing.legs) {
                    prop_assert!(leg.tension.si() <= extremes.max_tension.value.si() + 0.001 * weight(&rig));
                }
            }
            for (axis, (least, most)) in found.aside.iter().enumerate() {
                let place = pose.bodies[0].position[axis].si();
                prop_assert!(place >= least.value.si() - 3e-3 && place <= most.value.si() + 3e-3);
            }
        }
    }

    // Whatever numbers come in, out comes a reason or finite numbers in balance.
    #[test]
    fn wild_numbers_give_a_reason_or_a_finite_pose(
        numbers in proptest::collection::vec(wild(), 4 + 5 * 4), count in 1..=4_usize, stiff in any::<bool>(),
    ) {
        let mut next = numbers.into_iter();
        let mut one = || next.next().unwrap_or(1.0);
        let cg = [one(), one(), one()];
        let load = one();
        let legs: Vec<LegNumbers> = (0..count)
            .map(|_| ([one(), one(), one()], one(), Some(one()).filter(|_| stiff)))
            .collect();
        let rig = rig(load, cg, &legs);
        if let Ok(pose) = hang(&rig) {
            prop_assert!(pose.residual.share_of_weight < 1e-8);
            prop_assert!(pose.legs.iter().all(|l| l.tension.si().is_finite()));
            prop_assert!(pose.bodies[0].rise.si().is_finite() && pose.bodies[0].tilt.si() < 1.05);
        }
        if let Ok(found) = worst(&banded(&rig, Widths { weight_share: 0.01, cg_m: 0.01, length_m: 0.01, stiffness_share: 0.01 })) {
            let legs = found.elastic.iter().chain([&found.sharing]).flat_map(|e| &e.legs);
            for leg in legs {
                prop_assert!(leg.max_tension.value.si().is_finite());
            }
        }
    }
}
