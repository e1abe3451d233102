//! Legs without stiffness that statics alone cannot tell: the worst over all sharings in equilibrium in which legs only pull.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod common;

use common::{LegNumbers, Widths, banded, legs_to, rig};
use plumbhook_mechanics::hanging::{Worst, worst};
use plumbhook_units::Measured;
use proptest::prelude::*;

fn exact(weight: f64, cg: [f64; 3], legs: &[LegNumbers]) -> Worst {
    worst(&banded(&rig(weight, cg, legs), Widths::default())).unwrap()
}

fn most(worst: &Worst) -> Vec<f64> {
    let legs = worst.sharing.legs.iter();
    legs.map(|l| l.max_tension.value.si()).collect()
}

fn square(a: f64) -> [[f64; 3]; 4] {
    [[a, a, 0.0], [-a, a, 0.0], [-a, -a, 0.0], [a, -a, 0.0]]
}

// Either diagonal may carry alone: T = W / (2 sin h).
#[test]
fn of_four_equal_legs_each_diagonal_must_carry_alone() {
    let legs = legs_to([0.0, 0.0, 3.0], &square(1.5));
    let worst = exact(100_000.0, [0.0, 0.0, -0.5], &legs);
    assert!(worst.indeterminate && worst.elastic.is_none());
    let sine = 3.0 / legs[0].1;
    for t in most(&worst) {
        assert!((t - 100_000.0 / (2.0 * sine)).abs() < 1e-6, "{t}");
    }
    for leg in &worst.sharing.legs {
        assert!(leg.min_tension.value.si() < 1e-9, "each may hang slack");
    }
}

// Two legs at each end of a beam, at the same points: either of a pair carries the whole end, W b / L and W a / L vertically.
#[test]
fn of_two_legs_at_one_point_each_must_carry_alone() {
    let points = [
        [-2.0, 0.0, 0.0],
        [-2.0, 0.0, 0.0],
        [1.0, 0.0, 0.0],
        [1.0, 0.0, 0.0],
    ];
    let legs = legs_to([0.0, 0.0, 3.0], &points);
    let worst = exact(90_000.0, [0.0, 0.0, -0.5], &legs);
    for (i, t) in most(&worst).into_iter().enumerate() {
        let vertical = t * 3.0 / legs[i].1;
        let closed = if i < 2 { 30_000.0 } else { 60_000.0 };
        assert!((vertical - closed).abs() < 1e-6, "leg {i}: {vertical}");
    }
}

// Legs in one plane: pairs carry. With the centre of gravity plumb below the hook the outer legs alone, or the middle one alone.
#[test]
fn of_three_legs_in_one_plane_the_middle_one_must_carry_alone() {
    let points = [[-2.0, 0.0, 0.0], [0.0, 0.0, 0.0], [2.0, 0.0, 0.0]];
    let legs = legs_to([0.0, 0.0, 3.0], &points);
    let worst = exact(60_000.0, [0.0, 0.0, -0.5], &legs);
    assert!(worst.indeterminate);
    let t = most(&worst);
    assert!((t[1] - 60_000.0).abs() < 1e-6, "{t:?}");
    assert!((t[0] - 30_000.0 * legs[0].1 / 3.0).abs() < 1e-6, "{t:?}");
}

// A leg much longer than it reaches is no part of any sharing.
#[test]
fn a_leg_that_always_hangs_slack_shares_nothing() {
    let mut legs = legs_to([0.0, 0.0, 3.0], &square(1.5));
    legs[3].1 *= 1.5;
    let worst = exact(60_000.0, [-0.1, 0.1, -0.5], &legs);
    let t = most(&worst);
    assert!(t[3] < 1e-9, "{t:?}");
    assert!(
        worst
            .sharing
            .legs
            .iter()
            .take(3)
            .all(|l| l.max_tension.value.si() > 0.0)
    );
}

#[test]
fn three_legs_have_one_sharing_and_stiffness_moves_it_little() {
    let points = [[1.0, 0.1, 0.0], [-0.6, 0.9, 0.0], [-0.5, -0.8, 0.0]];
    let mut legs = legs_to([0.0, 0.0, 3.0], &points);
    for leg in &mut legs {
        leg.2 = Some(2e7);
    }
    let worst = exact(60_000.0, [0.05, 0.0, -0.5], &legs);
    assert!(!worst.indeterminate);
    let elastic = worst.elastic.as_ref().unwrap();
    for (a, b) in elastic.legs.iter().zip(&worst.sharing.legs) {
        let apart = a.max_tension.value.si() - b.max_tension.value.si();
        assert!(apart.abs() < 100.0, "{apart}");
    }
}

/// All vertices of `sum T u = W v, T >= 0` at a given hook place by Cramer's rule; the largest tension of each leg.
fn vertices(weight: f64, cg: [f64; 3], hook: [f64; 3], legs: &[LegNumbers]) -> Vec<f64> {
    let minus = |a: [f64; 3], b: [f64; 3]| [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
    let unit = |a: [f64; 3]| {
        let size = (a[0] * a[0] + a[1] * a[1] + a[2] * a[2]).sqrt();
        a.map(|x| x / size)
    };
    let det = |a: [f64; 3], b: [f64; 3], c: [f64; 3]| {
        a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0])
            + a[2] * (b[0] * c[1] - b[1] * c[0])
    };
    let v = unit(minus(hook, cg));
    let u: Vec<[f64; 3]> = legs.iter().map(|l| unit(minus(hook, l.0))).collect();
    let mut most = vec![0.0_f64; legs.len()];
    for a in 0..u.len() {
        for b in a + 1..u.len() {
            for c in b + 1..u.len() {
                let all = det(u[a], u[b], u[c]);
                let t = [
                    det(v, u[b], u[c]) / all,
                    det(u[a], v, u[c]) / all,
                    det(u[a], u[b], v) / all,
                ];
                if all.abs() > 1e-9 && t.iter().all(|t| *t >= -1e-12) {
                    for (leg, t) in [a, b, c].into_iter().zip(t) {
                        most[leg] = most[leg].max(t * weight);
                    }
                }
            }
        }
    }
    most
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    // Legs that all just reach one hook place: the sharings are the vertices of a linear programme there.
    #[test]
    fn the_worst_sharing_is_the_worst_vertex_of_equilibrium(
        points in proptest::collection::vec((-0.25..0.25_f64, 0.8..1.3_f64, -0.2..0.2_f64), 4..=7),
        height in 1.2..4.0_f64, cx in -0.2..0.2_f64, cy in -0.2..0.2_f64, below in 0.4..1.5_f64,
    ) {
        let count = points.len() as f64;
        let places: Vec<[f64; 3]> = points.iter().enumerate().map(|(i, (turn, radius, z))| {
            let angle = (i as f64 + turn) * core::f64::consts::TAU / count;
            [radius * angle.cos(), radius * angle.sin(), *z]
        }).collect();
        let hook = [0.0, 0.0, height];
        let legs = legs_to(hook, &places);
        let cg = [cx, cy, -below];
        let found = most(&exact(1e5, cg, &legs));
        for (a, b) in found.iter().zip(vertices(1e5, cg, hook, &legs)) {
            prop_assert!((a - b).abs() < 1.0, "{found:?} {b}");
        }
    }
}
