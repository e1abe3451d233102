//! Shapes in plan against hand geometry and against a second method: slices between all heights at which anything
//! happens, where every cross section is a straight strip and its middle gives the area exactly.
#![allow(clippy::unwrap_used, reason = "a test stops at the first wrong input")]

use plumbhook_mechanics::plan::{Polygon, PolygonFault, rectangle};
use plumbhook_units::{Heading, Length, Measured};
use proptest::prelude::*;

fn m(value: f64) -> Length {
    Length::from_si(value)
}

fn at(places: &[[f64; 2]]) -> Vec<[Length; 2]> {
    places.iter().map(|place| place.map(m)).collect()
}

fn shape(places: &[[f64; 2]]) -> Polygon {
    Polygon::new(&at(places)).unwrap()
}

fn fault(places: &[[f64; 2]]) -> PolygonFault {
    Polygon::new(&at(places)).unwrap_err()
}

fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-9, "{found} for {wanted}");
}

/// An L of 4 m by 3 m with a notch of 2 m by 2 m out of its upper right: 8 m2.
const NOTCHED: [[f64; 2]; 6] = [
    [0.0, 0.0],
    [4.0, 0.0],
    [4.0, 1.0],
    [2.0, 1.0],
    [2.0, 3.0],
    [0.0, 3.0],
];

#[test]
fn a_notched_floor_has_its_area_in_either_sense_and_with_the_first_corner_said_twice() {
    // By hand: 4 x 1 + 2 x 2.
    let mut back = NOTCHED.to_vec();
    back.reverse();
    back.push(back[0]);
    near(shape(&NOTCHED).area().si(), 8.0);
    near(shape(&back).area().si(), 8.0);
    assert_eq!(shape(&back).corners().count(), 6);
}

#[test]
fn what_is_no_outline_says_which_corner_or_edge_is_wrong() {
    assert_eq!(
        fault(&[[0.0, 0.0], [1.0, 0.0], [1.0, 0.0], [0.0, 0.0]]),
        PolygonFault::FewerThanThree { given: 2 }
    );
    assert_eq!(fault(&[]), PolygonFault::FewerThanThree { given: 0 });
    assert_eq!(
        fault(&[[0.0, 0.0], [1.0, 1.0], [3.0, 3.0], [2.0, 2.0]]),
        PolygonFault::NoArea
    );
    // Corners of a rectangle named across: the second and the fourth edge cross.
    let across = fault(&[[0.0, 0.0], [4.0, 0.0], [0.0, 3.0], [4.0, 3.0]]);
    assert_eq!(
        across,
        PolygonFault::EdgesCross {
            first: 1,
            second: 3
        }
    );
    assert_eq!(
        across.to_string(),
        "the edges that start from corners 2 and 4 cross or touch; give the corners in the order in which one \
         walks around"
    );
    // A spike, a corner on another edge, and an edge that runs back over the first.
    for touching in [
        vec![[0.0, 0.0], [4.0, 0.0], [6.0, 0.0], [4.0, 0.0], [0.0, 3.0]],
        vec![[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [2.0, 0.0], [0.0, 3.0]],
        vec![[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [2.0, 3.0], [2.0, -1.0]],
    ] {
        assert!(matches!(fault(&touching), PolygonFault::EdgesCross { .. }));
    }
    for wrong in [f64::NAN, f64::INFINITY, 2e6] {
        assert_eq!(
            fault(&[[0.0, 0.0], [4.0, 0.0], [4.0, wrong]]),
            PolygonFault::NotFinite { corner: 2 }
        );
    }
}

#[test]
fn a_repeated_corner_does_not_shift_the_names_of_the_edges() {
    assert_eq!(
        fault(&[[0.0, 0.0], [0.0, 0.0], [4.0, 0.0], [0.0, 3.0], [4.0, 3.0]]),
        PolygonFault::EdgesCross {
            first: 2,
            second: 4
        }
    );
}

#[test]
fn a_place_on_an_edge_or_a_corner_is_inside_and_one_in_the_notch_is_not() {
    let floor = shape(&NOTCHED);
    for inside in [
        [1.0, 2.0],
        [2.0, 2.0],
        [4.0, 1.0],
        [0.0, 0.0],
        [3.0, 1.0 + 5e-10],
    ] {
        assert!(floor.contains(inside.map(m)), "{inside:?}");
    }
    for outside in [
        [3.0, 2.0],
        [3.0, 1.0 + 2e-9],
        [-1.0, 1.0],
        [5.0, 1.0],
        [1.0, f64::NAN],
    ] {
        assert!(!floor.contains(outside.map(m)), "{outside:?}");
    }
}

#[test]
fn a_pad_over_a_notch_covers_only_what_is_there() {
    // By hand: a pad of 2 m by 2 m around (2, 1): of its four quarters the upper right one lies in the notch.
    let pad = rectangle([m(2.0), m(1.0)], [m(2.0), m(2.0)], Heading::from_si(0.0)).unwrap();
    let floor = shape(&NOTCHED);
    near(floor.common_area(&pad).si(), 3.0);
    near(pad.common_area(&floor).si(), 3.0);
    assert!(!floor.covers(&pad));
    // Turned by 45 deg it loses a quarter of its area too.
    let turned = rectangle(
        [m(2.0), m(1.0)],
        [m(1.0), m(1.0)],
        Heading::from_si(core::f64::consts::FRAC_PI_4),
    )
    .unwrap();
    near(floor.common_area(&turned).si(), 0.75);
}

#[test]
fn shapes_that_only_touch_share_no_area_and_are_no_distance_apart() {
    let floor = shape(&NOTCHED);
    let beside = shape(&[[4.0, 0.0], [5.0, 0.0], [5.0, 1.0], [4.0, 1.0]]);
    let in_notch = shape(&[[2.0, 1.0], [3.0, 1.0], [3.0, 2.0], [2.0, 2.0]]);
    let overlap = shape(&[[3.9, 0.4], [5.0, 0.4], [5.0, 0.6], [3.9, 0.6]]);
    for touching in [&beside, &in_notch] {
        assert!(floor.common_area(touching).si() == 0.0);
        assert!(floor.distance_to(touching).si() == 0.0);
    }
    assert!(floor.distance_to(&overlap).si() == 0.0);
    near(floor.common_area(&overlap).si(), 0.02);
}

#[test]
fn the_distance_is_to_the_nearest_edge_even_out_of_a_notch_or_wholly_inside() {
    let floor = shape(&NOTCHED);
    // In the notch, 0.3 m over the lower arm and 0.5 m beside the upper one.
    let pad = shape(&[[2.5, 1.3], [3.0, 1.3], [3.0, 1.8], [2.5, 1.8]]);
    near(floor.distance_to(&pad).si(), 0.3);
    near(pad.distance_to(&floor).si(), 0.3);
    // Corner to corner: 3, 4, 5.
    let far = shape(&[[7.0, -4.0], [8.0, -4.0], [8.0, -5.0], [7.0, -5.0]]);
    near(floor.distance_to(&far).si(), 5.0);
    let inside = shape(&[[0.5, 0.2], [0.6, 0.2], [0.6, 0.3], [0.5, 0.3]]);
    near(floor.distance_to(&inside).si(), 0.0);
    near(inside.distance_to(&floor).si(), 0.0);
    assert!(floor.covers(&inside) && !inside.covers(&floor) && floor.covers(&floor));
}

#[test]
fn two_bars_that_cross_without_a_corner_in_each_other_overlap() {
    let level = shape(&[[-3.0, -0.5], [3.0, -0.5], [3.0, 0.5], [-3.0, 0.5]]);
    let plumb = shape(&[[-0.5, -3.0], [0.5, -3.0], [0.5, 3.0], [-0.5, 3.0]]);
    near(level.common_area(&plumb).si(), 1.0);
    near(level.distance_to(&plumb).si(), 0.0);
}

#[test]
fn a_rectangle_is_turned_anticlockwise_from_plus_x_and_needs_both_sides() {
    // By hand: at 90 deg its length runs along +y.
    let quarter = Heading::from_si(core::f64::consts::FRAC_PI_2);
    let pad = rectangle([m(10.0), m(5.0)], [m(4.0), m(1.0)], quarter).unwrap();
    assert!(pad.contains([m(10.4), m(6.9)]) && !pad.contains([m(11.0), m(5.0)]));
    near(pad.area().si(), 4.0);
    for wrong in [[0.0, 1.0], [-2.0, -1.0]] {
        assert_eq!(
            rectangle([m(0.0); 2], wrong.map(m), quarter),
            Err(PolygonFault::NoArea)
        );
    }
    assert!(rectangle([m(f64::NAN); 2], [m(1.0); 2], quarter).is_err());
    assert!(rectangle([m(0.0); 2], [m(1.0), m(f64::NAN)], quarter).is_err());
    assert!(rectangle([m(0.0); 2], [m(1.0); 2], Heading::from_si(f64::NAN)).is_err());
}

/// A star of 4 to 9 corners around `centre`: mostly with notches, never with crossings.
fn star() -> impl Strategy<Value = Vec<[f64; 2]>> {
    let corners = prop::collection::vec((0.1..0.9_f64, 0.5..5.0_f64), 4..10);
    (corners, prop::array::uniform2(-3.0..3.0_f64)).prop_map(|(corners, [x, y])| {
        let step = core::f64::consts::TAU / corners.len() as f64;
        corners
            .iter()
            .enumerate()
            .map(|(i, (aside, reach))| {
                let (sin, cos) = ((i as f64 + aside) * step).sin_cos();
                [x + reach * cos, y + reach * sin]
            })
            .collect()
    })
}

fn sides(places: &[[f64; 2]]) -> Vec<[[f64; 2]; 2]> {
    let ends = places.iter().cycle().skip(1);
    places.iter().zip(ends).map(|(a, b)| [*a, *b]).collect()
}

/// Where a level line at `y` is inside: pairs of x.
fn strips(places: &[[f64; 2]], y: f64) -> Vec<[f64; 2]> {
    let mut cuts: Vec<f64> = sides(places)
        .iter()
        .filter(|[a, b]| (a[1] > y) != (b[1] > y))
        .map(|[a, b]| a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]))
        .collect();
    cuts.sort_by(f64::total_cmp);
    cuts.chunks(2).map(|pair| [pair[0], pair[1]]).collect()
}

fn common_by_slices(one: &[[f64; 2]], other: &[[f64; 2]]) -> f64 {
    let mut heights: Vec<f64> = one.iter().chain(other).map(|place| place[1]).collect();
    for [a, b] in sides(one) {
        for [c, d] in sides(other) {
            let (run, rise) = ([b[0] - a[0], b[1] - a[1]], [d[0] - c[0], d[1] - c[1]]);
            let turn = run[0] * rise[1] - run[1] * rise[0];
            let along = ((c[0] - a[0]) * rise[1] - (c[1] - a[1]) * rise[0]) / turn;
            if (0.0..=1.0).contains(&along) {
                heights.push(a[1] + along * run[1]);
            }
        }
    }
    heights.sort_by(f64::total_cmp);
    heights
        .windows(2)
        .map(|pair| {
            let y = f64::midpoint(pair[0], pair[1]);
            let wide: f64 = strips(one, y)
                .iter()
                .flat_map(|[a, b]| {
                    strips(other, y)
                        .into_iter()
                        .map(|[c, d]| (b.min(d) - a.max(c)).max(0.0))
                })
                .sum();
            wide * (pair[1] - pair[0])
        })
        .sum()
}

proptest! {
    #[test]
    fn slices_find_the_same_common_area(one in star(), other in star()) {
        let (a, b) = (shape(&one), shape(&other));
        let found = a.common_area(&b).si();
        prop_assert!((found - common_by_slices(&one, &other)).abs() < 1e-8);
        prop_assert!((b.common_area(&a).si() - found).abs() < 1e-8);
        prop_assert!((a.common_area(&a) - a.area()).si().abs() < 1e-8);
        prop_assert!(found == 0.0 || a.distance_to(&b).si() == 0.0);
    }

    #[test]
    fn no_places_of_the_outlines_are_nearer_than_the_distance_and_some_are_that_near(
        one in star(), other in star(), apart in 8.0..20.0_f64,
    ) {
        let other: Vec<[f64; 2]> = other.iter().map(|[x, y]| [x + apart, *y]).collect();
        let (a, b) = (shape(&one), shape(&other));
        let found = a.distance_to(&b).si();
        prop_assume!(a.common_area(&b).si() == 0.0);
        let along = |places: &[[f64; 2]]| -> Vec<[f64; 2]> {
            sides(places)
                .iter()
                .flat_map(|[p, q]| (0..=40).map(move |i| {
                    let share = f64::from(i) / 40.0;
                    [p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share]
                }))
                .collect()
        };
        let nearest = along(&one)
            .iter()
            .flat_map(|p| along(&other).into_iter().map(move |q| (p[0] - q[0]).hypot(p[1] - q[1])))
            .fold(f64::INFINITY, f64::min);
        // The longest edge is 10 m, so the nearest of the tried places is within 2 x 0.125 m.
        prop_assert!(found <= nearest + 1e-9 && nearest <= found + 0.25);
    }

    #[test]
    fn a_place_is_inside_where_its_level_line_says_so(one in star(), place in prop::array::uniform2(-6.0..6.0_f64)) {
        let [x, y] = place;
        let by_line = strips(&one, y).iter().any(|[from, to]| *from <= x && x <= *to);
        prop_assert_eq!(shape(&one).contains(place.map(m)), by_line);
    }

    #[test]
    fn a_plant_far_from_its_origin_loses_no_area(one in star(), other in star(), far in prop::array::uniform2(-9e4..9e4_f64)) {
        let moved = |places: &[[f64; 2]]| -> Vec<[f64; 2]> {
            places.iter().map(|[x, y]| [x + far[0], y + far[1]]).collect()
        };
        let here = shape(&one).common_area(&shape(&other)).si();
        let there = shape(&moved(&one)).common_area(&shape(&moved(&other))).si();
        prop_assert!((here - there).abs() < 1e-7);
    }
}
