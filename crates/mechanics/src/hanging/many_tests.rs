//! The general solver against the one for a single body, and against closed forms derived from statics beside each test.

use super::hang_many;
use crate::hanging::{Body, End, Hook, Leg, NoPose, Pose, Rig, Rotation, hang};
use plumbhook_units::{Length, Mass, Measured, STANDARD_GRAVITY, Stiffness};
use proptest::prelude::*;

fn metres(at: [f64; 3]) -> [Length; 3] {
    at.map(Length::from_si)
}

fn body(weight: f64, cg: [f64; 3]) -> Body {
    Body {
        mass: Mass::from_si(weight / STANDARD_GRAVITY.si()),
        cg: metres(cg),
        attitude: Rotation::AS_INSTALLED,
    }
}

fn hook(at: [f64; 3]) -> Hook {
    Hook {
        position: metres(at),
    }
}

fn on(body: usize, at: [f64; 3]) -> End {
    End::Point {
        body,
        at: metres(at),
    }
}

fn leg(upper: End, lower: End, length: f64, stiffness: Option<f64>) -> Leg {
    Leg {
        upper,
        lower,
        length: Length::from_si(length),
        stiffness: stiffness.map(Stiffness::from_si),
    }
}

fn tensions(pose: &Pose) -> Vec<f64> {
    pose.legs.iter().map(|l| l.tension.si()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    // Six freedoms in the axes of the hook, or three in the body's frame: one answer.
    #[test]
    fn one_body_under_one_hook_hangs_the_same_both_ways(
        points in proptest::collection::vec((-0.25..0.25_f64, 0.8..1.3_f64, -0.2..0.2_f64, 0.2..5.0_f64), 3..=6),
        cg in (-0.15..0.15_f64, -0.15..0.15_f64, -1.5..-0.3_f64),
        height in 1.2..4.0_f64, stiff in any::<bool>(),
    ) {
        let stiff = stiff || points.len() > 3;
        let count = points.len() as f64;
        let legs = points.iter().enumerate().map(|(i, (turn, radius, z, k))| {
            let angle = (i as f64 + turn) * core::f64::consts::TAU / count;
            let (x, y) = (radius * angle.cos(), radius * angle.sin());
            let length = f64::sqrt(x * x + y * y + (height - z) * (height - z));
            leg(End::Hook(0), on(0, [x, y, *z]), length, stiff.then_some(k * 3e6))
        }).collect();
        let rig = Rig { bodies: vec![body(1e4, [cg.0, cg.1, cg.2])], hooks: vec![hook([1.0, 2.0, 9.0])], legs };
        let (few, many) = (hang(&rig).unwrap(), hang_many(&rig).unwrap());
        for (a, b) in tensions(&few).iter().zip(tensions(&many)) {
            prop_assert!((a - b).abs() < 1e-4, "{few:?} {many:?}");
        }
        prop_assert!((few.bodies[0].tilt.si() - many.bodies[0].tilt.si()).abs() < 1e-7);
        prop_assert!((few.bodies[0].rise.si() - many.bodies[0].rise.si()).abs() < 1e-7);
    }
}

// Two plumb legs to one level beam: moments about either end give the shares W b / L and W a / L.
#[test]
fn two_hooks_share_a_beam_by_the_lever_rule() {
    for stiffness in [None, Some(1e7)] {
        let rig = Rig {
            bodies: vec![body(60_000.0, [0.5, 0.0, -0.4])],
            hooks: vec![hook([-3.0, 0.0, 10.0]), hook([3.0, 0.0, 10.0])],
            legs: vec![
                leg(End::Hook(0), on(0, [-3.0, 0.0, 0.0]), 4.0, stiffness),
                leg(End::Hook(1), on(0, [3.0, 0.0, 0.0]), 4.0, stiffness),
            ],
        };
        let pose = hang(&rig).unwrap();
        let found = tensions(&pose);
        assert!((found[0] - 60_000.0 * 2.5 / 6.0).abs() < 60.0, "{found:?}");
        assert!((found[1] - 60_000.0 * 3.5 / 6.0).abs() < 60.0, "{found:?}");
        assert!(pose.residual.share_of_weight < 1e-8);
    }
}

// One hook, two legs to a spreader, two plumb legs down to a load: below the spreader each leg carries half the load; above,
// V = (W + w) / 2 and T = V / sin(h).
#[test]
fn a_spreader_carries_its_load_and_itself() {
    let (load, spreader) = (80_000.0, 6_000.0);
    for stiffness in [None, Some(2e7)] {
        let rig = Rig {
            bodies: vec![
                body(spreader, [0.0, 0.0, -0.1]),
                body(load, [0.0, 0.0, 0.8]),
            ],
            hooks: vec![hook([0.0, 0.0, 20.0])],
            legs: vec![
                leg(End::Hook(0), on(0, [-2.0, 0.0, 0.0]), 4.0, stiffness),
                leg(End::Hook(0), on(0, [2.0, 0.0, 0.0]), 4.0, stiffness),
                leg(
                    on(0, [-2.0, 0.0, -0.2]),
                    on(1, [-2.0, 0.0, 1.6]),
                    3.0,
                    stiffness,
                ),
                leg(
                    on(0, [2.0, 0.0, -0.2]),
                    on(1, [2.0, 0.0, 1.6]),
                    3.0,
                    stiffness,
                ),
            ],
        };
        let pose = hang(&rig).unwrap();
        for (i, leg) in pose.legs.iter().enumerate() {
            let vertical = leg.tension.si() * leg.horizontal_angle.unwrap().si().sin();
            let closed = if i < 2 {
                load / 2.0 + spreader / 2.0
            } else {
                load / 2.0
            };
            assert!((vertical - closed).abs() < 1e-3, "leg {i}: {vertical}");
        }
        assert!(pose.bodies.iter().all(|b| b.tilt.si() < 1e-6));
        if stiffness.is_none() {
            // 4 m legs over half 4 m: cos(h) = 1/2. Origin of the load: 4 sin(h) + 0.2 + 3 + 1.6 below the hook.
            let closed = 43_000.0 / (3.0_f64.sqrt() / 2.0);
            assert!((pose.legs[0].tension.si() - closed).abs() < 1e-3);
            let rise = 4.0 * 3.0_f64.sqrt() / 2.0 + 4.8;
            assert!((pose.bodies[1].rise.si() - rise).abs() < 1e-9);
        }
    }
}

// Two load points that are lower than the centre of gravity, hung from plumb legs, tip over.
#[test]
fn a_spreader_over_a_top_heavy_load_is_unstable() {
    let rig = Rig {
        bodies: vec![
            body(6_000.0, [0.0, 0.0, -0.1]),
            body(80_000.0, [0.0, 0.0, 2.5]),
        ],
        hooks: vec![hook([0.0, 0.0, 20.0])],
        legs: vec![
            leg(End::Hook(0), on(0, [-2.0, 0.0, 0.0]), 4.0, Some(2e7)),
            leg(End::Hook(0), on(0, [2.0, 0.0, 0.0]), 4.0, Some(2e7)),
            leg(
                on(0, [-2.0, 0.0, -0.2]),
                on(1, [-2.0, 0.0, 1.6]),
                3.0,
                Some(2e7),
            ),
            leg(
                on(0, [2.0, 0.0, -0.2]),
                on(1, [2.0, 0.0, 1.6]),
                3.0,
                Some(2e7),
            ),
        ],
    };
    let why = hang(&rig).unwrap_err();
    assert!(
        matches!(why, NoPose::Unstable { .. } | NoPose::TurnsOver { .. }),
        "{why:?}"
    );
}

#[test]
fn four_unstretching_legs_under_two_hooks_have_no_single_share() {
    let corner = |x: f64, y: f64| on(0, [x, y, 0.0]);
    let rig = Rig {
        bodies: vec![body(10_000.0, [0.0, 0.0, -0.5])],
        hooks: vec![hook([0.0, 0.0, 5.0]), hook([0.0, 0.0, 6.0])],
        legs: vec![
            leg(End::Hook(0), corner(1.0, 1.0), 3.0, None),
            leg(End::Hook(0), corner(-1.0, 1.0), 3.0, None),
            leg(End::Hook(0), corner(-1.0, -1.0), 3.0, None),
            leg(End::Hook(0), corner(1.0, -1.0), 3.0, None),
        ],
    };
    assert_eq!(hang(&rig), Err(NoPose::Indeterminate));
}
