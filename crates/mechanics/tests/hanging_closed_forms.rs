//! The solver against closed forms that are derived beside each test from statics alone.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may fail")]

mod common;

use common::{LegNumbers, legs_to, rig};
use plumbhook_mechanics::hanging::{CgHeight, Pose, Stretch, hang};
use plumbhook_mechanics::leg::symmetric_legs_tension;
use plumbhook_sheet::Silent;
use plumbhook_units::{Force, HorizontalAngle, Measured};

fn tensions(pose: &Pose) -> Vec<f64> {
    pose.legs.iter().map(|l| l.tension.si()).collect()
}

fn ring(count: usize, radius: f64) -> Vec<[f64; 3]> {
    (0..count)
        .map(|i| {
            let angle = i as f64 * core::f64::consts::TAU / count as f64;
            [radius * angle.cos(), radius * angle.sin(), 0.0]
        })
        .collect()
}

// Vertical: n T sin(h) = W.
#[test]
fn equal_legs_around_the_centre_share_as_w_over_n_sin_h() {
    for count in 1..=3_u8 {
        let radius = if count == 1 { 0.0 } else { 1.2 };
        let legs = legs_to([0.0, 0.0, 2.0], &ring(usize::from(count), radius));
        let pose = hang(&rig(9000.0, [0.0, 0.0, -0.4], &legs)).unwrap();
        let angle = HorizontalAngle::from_si((2.0_f64 / radius).atan());
        let weight = Force::from_si(9000.0);
        let closed = symmetric_legs_tension(weight, u32::from(count), angle, &mut Silent).unwrap();
        for t in tensions(&pose) {
            assert!((t - closed.si()).abs() < 1e-6, "{count} legs: {t}");
        }
        assert_eq!(pose.stretch, Stretch::LeftOut);
    }
}

// The same for four and more legs of equal stiffness, by symmetry; the angle is that of the stretched legs.
#[test]
fn equal_stiff_legs_share_equally_at_the_angle_they_stretch_to() {
    for count in [4, 5, 6, 8] {
        let legs: Vec<LegNumbers> = legs_to([0.0, 0.0, 2.0], &ring(count, 1.2))
            .into_iter()
            .map(|(p, l, _)| (p, l, Some(2.0e6)))
            .collect();
        let pose = hang(&rig(9000.0, [0.0, 0.0, -0.4], &legs)).unwrap();
        for leg in &pose.legs {
            let sine = leg.horizontal_angle.unwrap().si().sin();
            let closed = 9000.0 / (count as f64 * sine);
            assert!((leg.tension.si() - closed).abs() < 1e-5, "{leg:?}");
            let stretched = 1.2 / leg.horizontal_angle.unwrap().si().cos();
            let by_stiffness = 2.0e6 * (stretched - legs[0].1);
            assert!((leg.tension.si() - by_stiffness).abs() < 1e-3, "{leg:?}");
        }
        assert_eq!(pose.stretch, Stretch::Counted);
        assert!(pose.residual.share_of_weight < 1e-9);
    }
}

// One leg: the centre of gravity hangs plumb below the point, so tan(tilt) = e / h with e sideways, h below it.
#[test]
fn a_load_on_one_leg_tilts_by_e_over_h() {
    for stiffness in [None, Some(1.0e6)] {
        let legs = [([0.3, 0.0, 1.0], 2.5, stiffness)];
        let pose = hang(&rig(5000.0, [0.1, 0.0, 0.2], &legs)).unwrap();
        let tilt = pose.bodies[0].tilt.si().tan();
        assert!((tilt - 0.2 / 0.8).abs() < 1e-9, "{tilt}");
        assert!((tensions(&pose)[0] - 5000.0).abs() < 1e-6);
        assert_eq!(pose.bodies[0].cg_height, CgHeight::BelowAll);
    }
}

// Two legs: across their plane the load swings like a pendulum about the line of the points, tan = e / depth below the line.
#[test]
fn a_load_on_two_legs_swings_across_them_until_plumb() {
    let legs = legs_to([0.0, 0.0, 3.0], &[[-1.5, 0.0, 1.0], [1.5, 0.0, 1.0]]);
    let pose = hang(&rig(5000.0, [0.0, 0.15, 0.4], &legs)).unwrap();
    let tilt = pose.bodies[0].tilt.si().tan();
    assert!((tilt - 0.15 / 0.6).abs() < 1e-9, "{tilt}");
}

// Along their plane equal legs keep the hook over the middle of the points, tan = e / (height of the hook above the CG).
#[test]
fn a_load_on_two_equal_legs_tilts_along_them_by_e_over_the_whole_height() {
    let legs = legs_to([0.0, 0.0, 3.0], &[[-1.5, 0.0, 1.0], [1.5, 0.0, 1.0]]);
    let pose = hang(&rig(5000.0, [0.2, 0.0, 0.4], &legs)).unwrap();
    let tilt = pose.bodies[0].tilt.si().tan();
    assert!((tilt - 0.2 / 2.6).abs() < 1e-9, "{tilt}");
    // Moments about the far point in the plane, with the plumb line of the load: T d = W e.
    let [a, b] = [&pose.legs[0], &pose.legs[1]].map(|l| l.tension.si());
    assert!(b > a, "the near leg takes more");
    let horizontal = |i: usize| {
        let leg = &pose.legs[i];
        leg.tension.si() * leg.horizontal_angle.unwrap().si().cos()
    };
    assert!((horizontal(0) - horizontal(1)).abs() < 1e-6);
}

/// A square of points with half side `a`, hook `height` above, one leg shorter by `short`.
///
/// Hook displacement dh in the body's frame from the symmetric pose, first order: `H dh = k u1 dL`. By symmetry, with c and s
/// cosine and sine of the leg angle, d the stretched length, T0 = W / (4 s), rho the hook's height above the CG:
/// `Hxx = Hyy = 2 k c^2 + (T0 / d) (4 - 2 c^2) - W / rho`, `Hzz = 4 k s^2 + (T0 / d) 4 c^2`.
/// Then `Ti = T0 + k (ui . dh) - k dLi`.
fn four_legs_one_short(k: f64, weight: f64, short: f64) -> ([f64; 4], Vec<f64>) {
    let (a, height, below) = (1.5, 3.0, 0.5);
    let points = [[a, a, 0.0], [-a, a, 0.0], [-a, -a, 0.0], [a, -a, 0.0]];
    let d = f64::sqrt(2.0 * a * a + height * height);
    let (c, s) = (a * 2.0_f64.sqrt() / d, height / d);
    let t0 = weight / (4.0 * s);
    let unstretched = d - t0 / k;
    let legs: Vec<LegNumbers> = points
        .iter()
        .enumerate()
        .map(|(i, p)| {
            let cut = if i == 0 { short } else { 0.0 };
            (*p, unstretched - cut, Some(k))
        })
        .collect();
    let pose = hang(&rig(weight, [0.0, 0.0, -below], &legs)).unwrap();
    let level = 2.0 * k * c * c + t0 / d * (4.0 - 2.0 * c * c) - weight / (height + below);
    let upright = 4.0 * k * s * s + t0 / d * 4.0 * c * c;
    // u1 . H^-1 ui: along the diagonal 1, -1 or 0 times c^2, and always s^2.
    let couple = |along: f64| k * (along * c * c / level + s * s / upright);
    let closed = [
        t0 + k * short * (1.0 - couple(1.0)),
        t0 - k * short * couple(0.0),
        t0 - k * short * couple(-1.0),
        t0 - k * short * couple(0.0),
    ];
    (closed, tensions(&pose))
}

#[test]
fn one_short_leg_of_four_takes_its_diagonal_along() {
    let weight = 100_000.0;
    let k = 1.0e7;
    // 1 mm at k = 10 kN/mm: a quarter of 10 kN onto the diagonal, as much off the other one.
    let (closed, solved) = four_legs_one_short(k, weight, 0.001);
    for (a, b) in closed.iter().zip(&solved) {
        assert!((a - b).abs() < 2e-4 * weight, "{closed:?} {solved:?}");
    }
    let quarter = k * 0.001 / 4.0;
    assert!((solved[0] - solved[1] - 2.0 * quarter).abs() < 0.02 * weight);
    let (closed, solved) = four_legs_one_short(k, weight, 0.000_01);
    for (a, b) in closed.iter().zip(&solved) {
        assert!((a - b).abs() < 1e-7 * weight, "{closed:?} {solved:?}");
    }
}

#[test]
fn a_leg_much_too_long_hangs_slack_and_three_carry() {
    let points = [
        [1.5, 1.5, 0.0],
        [-1.5, 1.5, 0.0],
        [-1.5, -1.5, 0.0],
        [1.5, -1.5, 0.0],
    ];
    let mut legs = legs_to([0.0, 0.0, 3.0], &points);
    for leg in &mut legs {
        leg.2 = Some(1.0e7);
    }
    legs[3].1 += 0.5;
    let cg = [-0.2, 0.2, -0.5];
    let pose = hang(&rig(50_000.0, cg, &legs)).unwrap();
    assert!(pose.legs[3].slack && pose.legs[3].tension.si() == 0.0);
    let three = hang(&rig(50_000.0, cg, &legs[..3])).unwrap();
    for (a, b) in tensions(&three).iter().zip(tensions(&pose)) {
        assert!((a - b).abs() < 1e-3, "{a} {b}");
    }
}
