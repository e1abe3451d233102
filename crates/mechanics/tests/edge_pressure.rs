//! Pressure under a pad whose force stands off its middle. "Statics" is done by hand in the comment; the grid of springs
//! at the end is the second method.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may fail")]

use plumbhook_mechanics::standing::{
    EdgePressure, NoEdgePressure, NoPressure, contact_pressure, edge_pressure,
};
use plumbhook_sheet::{Book, Silent};
use plumbhook_units::{Force, Length, Measured};
use proptest::prelude::*;

fn m(value: f64) -> Length {
    Length::from_si(value)
}

/// A newton on a pad of one metre by one metre: pressures are shares of the mean.
fn on_a_square(x: f64, y: f64) -> EdgePressure {
    edge_pressure(
        Force::from_si(1.0),
        [m(1.0), m(1.0)],
        [m(x), m(y)],
        &mut Silent,
    )
    .unwrap()
}

fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} for {wanted}");
}

#[test]
fn in_the_middle_the_edge_is_pressed_like_all_of_the_face() {
    let size = [m(1.2), m(2.4)];
    let force = Force::from_si(90e3);
    let even = contact_pressure(force, size, &mut Silent).unwrap();
    let edge = edge_pressure(force, size, [m(0.0), m(0.0)], &mut Silent).unwrap();
    near(edge.highest.si(), even.si(), 1e-6);
    near(edge.bearing.si(), 1.0, 1e-12);
}

#[test]
fn inside_the_middle_third_the_whole_face_bears() {
    // Statics: mean + moment / section modulus both ways, W = b l^2 / 6.
    for (x, y) in [(0.1, 0.0), (0.05, 0.06), (0.0, -1.0 / 6.0), (-0.08, 0.08)] {
        let found = on_a_square(x, y);
        near(
            found.highest.si(),
            1.0 + 6.0 * f64::abs(x) + 6.0 * f64::abs(y),
            1e-9,
        );
        near(found.bearing.si(), 1.0, 1e-9);
    }
}

#[test]
fn beyond_the_middle_third_one_way_a_strip_bears() {
    // Statics: a triangle of pressure over three times the distance to the edge, p = 2 F / (3 b (l/2 - e)).
    for off in [0.2, 0.25, 0.4, 0.48] {
        let found = on_a_square(off, 0.0);
        let to_edge = 0.5 - off;
        near(found.highest.si(), 2.0 / (3.0 * to_edge), 1e-8);
        near(found.bearing.si(), 3.0 * to_edge, 1e-9);
    }
}

#[test]
fn far_off_both_ways_a_corner_bears() {
    // Statics: a pyramid over a right triangle with sides of four times the distances to the edges, p = 6 F / (A B).
    for (x, y) in [(0.25, 0.25), (0.3, 0.4), (-0.45, 0.45), (0.47, -0.26)] {
        let found = on_a_square(x, y);
        let [a, b] = [x, y].map(|off: f64| 4.0 * (0.5 - off.abs()));
        near(found.highest.si() / (6.0 / (a * b)), 1.0, 1e-9);
        near(found.bearing.si(), a * b / 2.0, 1e-9);
    }
}

#[test]
fn what_has_no_edge_pressure_says_why() {
    let of = |force: f64, size: [f64; 2], off: [f64; 2]| {
        edge_pressure(Force::from_si(force), size.map(m), off.map(m), &mut Silent)
    };
    assert!(matches!(
        of(1.0, [0.0, 1.0], [0.0; 2]),
        Err(NoEdgePressure::Pad(NoPressure::NoSize { .. }))
    ));
    for pull in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(
            of(pull, [1.0, 1.0], [0.0; 2]),
            Err(NoEdgePressure::Pad(NoPressure::NoPush { .. }))
        ));
    }
    for off in [[0.5, 0.0], [0.0, -0.6], [f64::NAN, 0.0]] {
        assert!(matches!(
            of(1.0, [1.0, 1.0], off),
            Err(NoEdgePressure::Tips { .. })
        ));
    }
    let said = of(1.0, [1.0, 2.0], [0.55, 0.0]).unwrap_err().to_string();
    assert!(said.contains("550 mm") && said.contains("490 mm"), "{said}");
}

#[test]
fn the_factor_stands_in_the_book() {
    let mut book = Book::default();
    let off = [m(0.1), m(0.0)];
    edge_pressure(Force::from_si(1e5), [m(1.0), m(1.0)], off, &mut book).unwrap();
    assert_eq!(book.0.len(), 1);
}

/// The second method: 80 by 80 springs that push and do not pull, those that would pull taken away until none is left.
fn by_springs(x: f64, y: f64) -> f64 {
    const SIDE: u32 = 80;
    let place = |index: u32| (f64::from(index) + 0.5) / f64::from(SIDE) - 0.5;
    let all = (0..SIDE).flat_map(|i| (0..SIDE).map(move |j| [1.0, place(i), place(j)]));
    let all: Vec<[f64; 3]> = all.collect();
    let mut plane = [1.0, 0.0, 0.0];
    let at = |plane: &[f64; 3], spring: &[f64; 3]| -> f64 {
        plane.iter().zip(spring).map(|(a, b)| a * b).sum()
    };
    for _ in 0..100 {
        let mut stiff = [[0.0; 3]; 3];
        for spring in all.iter().filter(|spring| at(&plane, spring) > 0.0) {
            for (row, a) in stiff.iter_mut().zip(spring) {
                for (cell, b) in row.iter_mut().zip(spring) {
                    *cell += a * b / f64::from(SIDE * SIDE);
                }
            }
        }
        let next = cramer(&stiff, [1.0, x, y]);
        // Half the way, so that the set of springs does not swing to and fro.
        for (old, new) in plane.iter_mut().zip(next) {
            *old += 0.5 * (new - *old);
        }
    }
    let corners = [
        [1.0, -0.5, -0.5],
        [1.0, 0.5, -0.5],
        [1.0, 0.5, 0.5],
        [1.0, -0.5, 0.5],
    ];
    corners
        .iter()
        .map(|corner| at(&plane, corner))
        .fold(0.0, f64::max)
}

fn cramer(a: &[[f64; 3]; 3], b: [f64; 3]) -> [f64; 3] {
    let det = |m: &[[f64; 3]; 3]| {
        m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
            - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
            + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
    };
    let whole = det(a);
    [0, 1, 2].map(|column| {
        let mut with = *a;
        for (row, value) in with.iter_mut().zip(b) {
            row[column] = value;
        }
        det(&with) / whole
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn springs_that_only_push_agree(x in -0.4..0.4_f64, y in -0.4..0.4_f64) {
        let (found, springs) = (on_a_square(x, y).highest.si(), by_springs(x, y));
        // The grid is coarse where little of the face bears.
        prop_assert!((found / springs - 1.0).abs() < 0.03, "{found} {springs}");
    }

    #[test]
    fn nearer_the_edge_is_never_less(
        x in 0.0..0.48_f64, y in 0.0..0.48_f64, further in 0.0..1.0_f64,
        size in prop::array::uniform2(0.1..5.0_f64),
    ) {
        let out = |off: f64| off + further * (0.49 - off);
        let here = on_a_square(x, y);
        prop_assert!(here.highest.si() >= 1.0 - 1e-9);
        prop_assert!(here.bearing.si() > 0.0 && here.bearing.si() <= 1.0);
        for beyond in [on_a_square(out(x), y), on_a_square(x, out(y))] {
            prop_assert!(beyond.highest.si() >= here.highest.si() * (1.0 - 1e-9));
        }
        // The same whichever side and whichever way round.
        for mirrored in [on_a_square(-x, y), on_a_square(x, -y), on_a_square(y, x)] {
            prop_assert!((mirrored.highest.si() / here.highest.si() - 1.0).abs() < 1e-9);
        }
        // Size and force only scale it.
        let [l, b] = size;
        let scaled = edge_pressure(
            Force::from_si(7e4), [m(l), m(b)], [m(x * l), m(y * b)], &mut Silent,
        ).unwrap();
        prop_assert!((scaled.highest.si() * l * b / 7e4 / here.highest.si() - 1.0).abs() < 1e-8);
    }
}
