//! Take-off against a second method, against textbook solids, and against what it must refuse.
//!
//! The data of the second method and the program that made them stand in `tests/second_method`.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test may fail")]

use plumbhook_mechanics::Interval;
use plumbhook_mechanics::hanging::Axis;
use plumbhook_mechanics::takeoff::{Fault, Part, Parts, Piece, Solid, Turn, take_off};
use plumbhook_units::{Density, Heading, Length, Mass, Measured, Ratio};
use serde_json::Value;

fn interval<T: Measured>(lo: f64, hi: f64) -> Interval<T> {
    Interval {
        lo: T::from_si(lo),
        hi: T::from_si(hi),
    }
}

fn exact<T: Measured>(value: f64) -> Interval<T> {
    interval(value, value)
}

fn sides(of: &Value) -> Vec<Interval<Length>> {
    let pair = |side: &Value| interval(side[0].as_f64().unwrap(), side[1].as_f64().unwrap());
    of.as_array().unwrap().iter().map(pair).collect()
}

fn solid(kind: &str, given: &[Interval<Length>], raw: &Value) -> Solid {
    match (kind, given) {
        ("block", [x, y, z]) => Solid::Block { size: [*x, *y, *z] },
        ("round", [outside, long]) => Solid::Round {
            outside: *outside,
            long: *long,
        },
        ("tube", [outside, inside, long]) => Solid::Tube {
            outside: *outside,
            inside: *inside,
            long: *long,
        },
        ("frustum", [base, top, high]) => Solid::Frustum {
            base: *base,
            top: *top,
            high: *high,
        },
        ("sphere", [outside]) => Solid::Sphere { outside: *outside },
        ("dome", [outside, high]) => Solid::Dome {
            outside: *outside,
            high: *high,
        },
        ("prism", [thick, corners @ ..]) => Solid::Prism {
            corners: corners.chunks(2).map(|c| [c[0], c[1]]).collect(),
            thick: *thick,
        },
        ("section", [_, long]) => Solid::Section {
            per_length: interval(raw[0][0].as_f64().unwrap(), raw[0][1].as_f64().unwrap()),
            long: *long,
        },
        other => panic!("{other:?}"),
    }
}

fn piece(of: &Value) -> Piece {
    let axis = match of["along"].as_str().unwrap() {
        "x" => Axis::X,
        "y" => Axis::Y,
        _ => Axis::Z,
    };
    let turn = Turn::along(axis, of["forwards"].as_bool().unwrap());
    let heading = of["heading_deg"].as_f64().unwrap().to_radians();
    Piece {
        solid: solid(
            of["kind"].as_str().unwrap(),
            &sides(&of["sides"]),
            &of["sides"],
        ),
        at: sides(&of["at"]).try_into().unwrap(),
        turn: turn.about_z(Heading::from_si(heading)),
    }
}

fn parts(row: &Value) -> Parts {
    let part = |part: &Value| Part {
        name: String::new(),
        copies: vec![piece(&part["piece"])],
        density: part["density"]
            .as_array()
            .map(|ends| interval(ends[0].as_f64().unwrap(), ends[1].as_f64().unwrap())),
        holes: part["holes"]
            .as_array()
            .unwrap()
            .iter()
            .map(piece)
            .collect(),
    };
    Parts {
        parts: row["parts"].as_array().unwrap().iter().map(part).collect(),
        left_out: exact(0.0),
    }
}

fn rows() -> Vec<Value> {
    let text = include_str!("../../../tests/second_method/takeoff.json");
    let data: Value = serde_json::from_str(text).unwrap();
    data["takeoffs"].as_array().unwrap().clone()
}

#[test]
fn two_hundred_take_offs_agree_with_meshes_and_quadrature() {
    let rows = rows();
    assert!(rows.len() >= 200);
    let mut holes = 0;
    for (index, row) in rows.iter().enumerate() {
        let parts = parts(row);
        holes += parts
            .parts
            .iter()
            .map(|part| part.holes.len())
            .sum::<usize>();
        let found = take_off(&parts).unwrap_or_else(|why| panic!("{index}: {why}"));
        let mass = row["mass"].as_f64().unwrap();
        assert!(
            (found.middle_mass.si() / mass - 1.0).abs() < 1e-6,
            "{index}"
        );
        for axis in 0..3 {
            let off = found.middle_cg[axis].si() - row["cg"][axis].as_f64().unwrap();
            assert!(off.abs() < 1e-6, "{index}: {off}");
        }
        let Some(wanted) = row["inertia"].as_array() else {
            assert!(
                found.inertia.is_none(),
                "{index}: a section hides its own inertia"
            );
            continue;
        };
        let inertia = found.inertia.expect("every solid is known");
        let wanted = |i: usize, j: usize| wanted[i][j].as_f64().unwrap();
        let scale = (0..3).map(|i| wanted(i, i)).fold(0.0, f64::max);
        for i in 0..3 {
            for j in 0..3 {
                let off = (inertia.middle[i][j] - wanted(i, j)).abs() / scale;
                assert!(off < 1e-6, "{index}: inertia {i}{j} is off by {off}");
                let (lo, mid, hi) = (inertia.lo[i][j], inertia.middle[i][j], inertia.hi[i][j]);
                assert!(
                    lo <= mid + 1e-9 * scale && mid <= hi + 1e-9 * scale,
                    "{index} {i}{j}: {lo} {mid} {hi}, {scale}"
                );
            }
        }
    }
    assert!(holes > 300, "{holes} holes");
}

#[test]
fn bands_hold_whatever_a_search_finds_and_are_not_wider_than_a_hundredth() {
    let (mut seen, mut widest) = (0, 0.0_f64);
    for (index, row) in rows().iter().enumerate() {
        let Some(mass) = row["mass_ends"].as_array() else {
            continue;
        };
        let found = take_off(&parts(row)).unwrap();
        let mut compare = |what: &str, ours: (f64, f64), searched: &Value| {
            let (lo, hi) = (searched[0].as_f64().unwrap(), searched[1].as_f64().unwrap());
            let slack = 1e-9 * hi.abs().max(1.0);
            assert!(
                ours.0 <= lo + slack && ours.1 >= hi - slack,
                "{index} {what}: {ours:?}, found {lo} {hi}"
            );
            let wider = (ours.1 - ours.0) / (hi - lo) - 1.0;
            assert!(
                wider < 0.01,
                "{index} {what}: {ours:?} is wider than {lo} {hi} by {wider}"
            );
            widest = widest.max(wider);
            seen += 1;
        };
        compare(
            "mass",
            (found.mass.lo.si(), found.mass.hi.si()),
            &mass.clone().into(),
        );
        for axis in 0..3 {
            let band = found.cg[axis];
            compare("cg", (band.lo.si(), band.hi.si()), &row["cg_ends"][axis]);
        }
    }
    assert!(seen >= 160, "{seen}");
    println!("widest by {widest:.2e}");
}

fn one(solid: Solid, density: f64) -> Parts {
    Parts {
        parts: vec![part(solid, density)],
        left_out: exact(0.0),
    }
}

fn part(solid: Solid, density: f64) -> Part {
    Part {
        name: "it".into(),
        copies: vec![at(solid, [0.0; 3])],
        density: Some(exact::<Density>(density)),
        holes: vec![],
    }
}

fn at(solid: Solid, place: [f64; 3]) -> Piece {
    Piece {
        solid,
        at: place.map(exact),
        turn: Turn::AS_DRAWN,
    }
}

const FT: f64 = 0.3048;
const LB: f64 = 0.453_592_37;
const INCH: f64 = 0.0254;
const PCF: f64 = LB / (FT * FT * FT);

/// Maritime training page, cylindrical shape, text: a cylinder of radius 2 ft, 6.5 ft high, at 165 lb/ft3 is
/// 81.64 ft3 and 13,470.6 lb, with 3.14 for pi.
#[allow(clippy::approx_constant, reason = "the page computes with 3.14")]
#[test]
fn the_aluminium_cylinder_of_the_training_page_weighs_what_it_says() {
    let cylinder = Solid::Round {
        outside: exact(4.0 * FT),
        long: exact(6.5 * FT),
    };
    let found = take_off(&one(cylinder, 165.0 * PCF)).unwrap();
    let pounds = found.middle_mass.si() / LB * (3.14 / core::f64::consts::PI);
    assert!((pounds - 13_470.6).abs() < 0.001, "{pounds} lb");
    assert!((pounds / 165.0 - 81.64).abs() < 1e-6);
}

/// Contractor safety note, material weights, text: concrete of 2 x 2 x 4 ft at 150 lb/ft3 is 2,400 lb.
#[test]
fn the_concrete_block_of_the_safety_note_weighs_what_it_says() {
    let block = Solid::Block {
        size: [2.0 * FT, 2.0 * FT, 4.0 * FT].map(exact),
    };
    let found = take_off(&one(block, 150.0 * PCF)).unwrap();
    assert!((found.middle_mass.si() / LB - 2400.0).abs() < 1e-9);
}

/// Rigger study guide, pipe, example: 20 ft at 282.36 lb/ft are 5,647.2 lb; its weight per foot follows from 36 in
/// outside and a wall of 0.75 in (the wall from memory) at 489.6 lb/ft3 to 0.5 lb/ft.
#[test]
fn the_pipe_of_the_study_guide_weighs_what_it_says_by_length_and_by_wall() {
    let section = Solid::Section {
        per_length: exact(282.36 * LB / FT),
        long: exact(20.0 * FT),
    };
    let by_length = Parts {
        parts: vec![Part {
            density: None,
            copies: vec![at(section.clone(), [0.0; 3])],
            ..part(section, 1.0)
        }],
        left_out: exact(0.0),
    };
    let found = take_off(&by_length).unwrap();
    assert!((found.middle_mass.si() / LB - 5647.2).abs() < 1e-6);
    assert!(found.inertia.is_none());
    let tube = Solid::Tube {
        outside: exact(36.0 * INCH),
        inside: exact(34.5 * INCH),
        long: exact(FT),
    };
    let found = take_off(&one(tube, 489.6 * PCF)).unwrap();
    assert!((found.middle_mass.si() / LB - 282.36).abs() < 0.5);
}

/// MAIB Safety Digest 2/2023 as reviewed by IMCA, 2023: 8 t of weights in one corner of a container of 16 t gross. The
/// length of 6.06 m and 0.4 m from each wall are assumed; the centre of gravity is then 1.315 m off lengthwise.
#[test]
fn weights_in_one_corner_of_a_container_put_its_cg_off_the_middle() {
    let lump = |name: &str, mass: f64, x: f64, y: f64| {
        let solid = Solid::Lump {
            mass: exact::<Mass>(mass),
        };
        Part {
            name: name.into(),
            copies: vec![at(solid.clone(), [x, y, 0.0])],
            density: None,
            ..part(solid, 1.0)
        }
    };
    let parts = Parts {
        parts: vec![
            lump("container and the rest", 8000.0, 0.0, 0.0),
            lump("weights", 8000.0, 6.06 / 2.0 - 0.4, 2.44 / 2.0 - 0.4),
        ],
        left_out: exact(0.0),
    };
    let found = take_off(&parts).unwrap();
    assert!((found.middle_cg[0].si() - 1.315).abs() < 5e-4);
}

/// Hemisphere: centre of gravity 3/8 of the radius above the base, half of 2/5 m r2 of the ball about its axis as
/// twice the mass (any statics textbook; from memory). Cone: a quarter of its height.
#[test]
fn textbook_solids_have_their_textbook_centres() {
    let dome = Solid::Dome {
        outside: exact(2.0),
        high: exact(1.0),
    };
    let found = take_off(&one(dome, 1000.0)).unwrap();
    let mass = found.middle_mass.si();
    assert!((found.middle_cg[2].si() - 0.375).abs() < 1e-12);
    let inertia = found.inertia.unwrap().middle;
    assert!((inertia[2][2] - 0.4 * mass).abs() < 1e-9 * mass);
    assert!((inertia[0][0] - 83.0 / 320.0 * mass).abs() < 1e-9 * mass);
    let cone = Solid::Frustum {
        base: exact(1.0),
        top: exact(0.0),
        high: exact(2.0),
    };
    let found = take_off(&one(cone, 1000.0)).unwrap();
    assert!((found.middle_cg[2].si() - 0.5).abs() < 1e-12);
}

#[test]
fn what_is_left_out_widens_mass_and_centre_and_never_narrows_them() {
    let block = || Solid::Block {
        size: [2.0, 1.0, 1.0].map(exact),
    };
    let mut parts = one(block(), 1000.0);
    parts.left_out = interval::<Ratio>(0.0, 0.05);
    let found = take_off(&parts).unwrap();
    assert!((found.mass.lo.si() - 2000.0).abs() < 1e-6);
    assert!((found.mass.hi.si() - 2100.0).abs() < 1e-6);
    // 100 kg at the very end of a block of 2 m: 1 m x 100 / 2100.
    assert!((found.cg[0].hi.si() - 0.1 / 2.1).abs() < 1e-9);
    assert!((found.cg[0].lo.si() + 0.1 / 2.1).abs() < 1e-9);
}

#[test]
fn copies_around_a_ring_balance_and_turn_with_it() {
    let spoke = at(
        Solid::Block {
            size: [1.0, 0.1, 0.1].map(exact),
        },
        [0.3, 0.0, 0.0],
    );
    let first = Heading::from_si(0.0);
    let ring = spoke.ring(6, exact(1.0), first, true);
    assert_eq!(ring.len(), 6);
    let parts = Parts {
        parts: vec![Part {
            copies: ring,
            ..part(spoke.solid.clone(), 7850.0)
        }],
        left_out: exact(0.0),
    };
    let found = take_off(&parts).unwrap();
    assert!((found.middle_cg[0].si() - 0.3).abs() < 1e-12);
    assert!(found.middle_cg[1].si().abs() < 1e-12);
    // Spokes reach 1.5 m from the middle of the ring.
    assert!((found.outside[0].hi.si() - 1.8).abs() < 1e-9);
}

#[test]
fn a_hole_that_is_longer_than_its_plate_sticks_out_and_one_that_may_just_fit_does_not() {
    let plate = Solid::Block {
        size: [interval(0.99, 1.01), exact(1.0), interval(0.039, 0.041)],
    };
    let hole = |lo: f64, hi: f64, place: [f64; 3]| {
        let round = Solid::Round {
            outside: exact(0.2),
            long: interval(lo, hi),
        };
        let mut it = part(plate.clone(), 7850.0);
        it.holes = vec![at(round, place)];
        it.hole_that_sticks_out()
    };
    assert_eq!(hole(0.039, 0.041, [0.0; 3]), None);
    assert_eq!(
        hole(0.0405, 0.05, [0.0; 3]),
        None,
        "it may be as thick as the plate"
    );
    assert_eq!(hole(0.05, 0.06, [0.0; 3]), Some(0));
    assert_eq!(hole(0.039, 0.041, [0.4, 0.0, 0.0]), None);
    assert_eq!(hole(0.039, 0.041, [0.41, 0.0, 0.0]), Some(0));
}

#[test]
fn a_take_off_that_cannot_be_is_refused_with_the_part_to_blame() {
    let tube = Solid::Tube {
        outside: interval(0.9, 1.1),
        inside: exact(0.95),
        long: exact(1.0),
    };
    let why = take_off(&one(tube, 1000.0)).unwrap_err();
    assert_eq!((why.part, why.fault), (Some(0), Fault::NoWall));
    let block = |size: f64| Solid::Block {
        size: [size; 3].map(exact),
    };
    let mut hollow = one(block(1.0), 1000.0);
    hollow.parts[0].holes = vec![at(block(1.1), [0.0; 3])];
    assert_eq!(take_off(&hollow).unwrap_err().fault, Fault::OnlyHoles);
    let thin = Solid::Block {
        size: [interval(-0.1, 0.3), exact(1.0), exact(1.0)],
    };
    assert!(matches!(
        take_off(&one(thin, 1000.0)).unwrap_err().fault,
        Fault::NotPositive { .. }
    ));
    let crossed = Solid::Prism {
        corners: [[0.0, 0.0], [1.0, 1.0], [1.0, 0.0], [0.0, 1.0]]
            .map(|corner| corner.map(exact))
            .into(),
        thick: exact(0.02),
    };
    assert!(matches!(
        take_off(&one(crossed, 1000.0)).unwrap_err().fault,
        Fault::Outline(_)
    ));
    let mut none = one(block(1.0), 1000.0);
    none.parts.clear();
    assert_eq!(take_off(&none).unwrap_err().fault, Fault::Empty);
    let mut lump = one(block(1.0), 1000.0);
    lump.parts[0].density = None;
    assert_eq!(take_off(&lump).unwrap_err().fault, Fault::Density);
}
