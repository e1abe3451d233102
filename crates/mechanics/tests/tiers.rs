//! Several bodies and hooks: against a second, independent method, and against closed forms derived beside each test.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may fail")]

use plumbhook_mechanics::hanging::{
    BandedBody, BandedLeg, BandedRig, Body, End, Hook, Interval, Leg, NoPose, Rig, Rotation, hang,
    hang_by_legs, worst,
};
use plumbhook_units::{Length, Mass, Measured, STANDARD_GRAVITY, Stiffness};
use serde::Deserialize;

#[derive(Deserialize)]
struct Rigs {
    rigs: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    id: String,
    bodies: Vec<BodyCase>,
    hooks_m: Vec<[f64; 3]>,
    legs: Vec<LegCase>,
    expect: Expect,
}

#[derive(Deserialize)]
struct BodyCase {
    weight_n: f64,
    cg_m: [f64; 3],
    turned_rad: f64,
}

#[derive(Deserialize)]
struct LegCase {
    upper: EndCase,
    lower: EndCase,
    length_m: f64,
    stiffness_n_per_m: f64,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum EndCase {
    Hook { hook: usize },
    Point { body: usize, at_m: [f64; 3] },
}

#[derive(Deserialize)]
struct Expect {
    tension_n: Vec<f64>,
    tilt_deg: Vec<f64>,
}

fn metres(at: [f64; 3]) -> [Length; 3] {
    at.map(Length::from_si)
}

fn end(end: &EndCase) -> End {
    match end {
        EndCase::Hook { hook } => End::Hook(*hook),
        EndCase::Point { body, at_m } => on(*body, *at_m),
    }
}

fn on(body: usize, at: [f64; 3]) -> End {
    End::Point {
        body,
        at: metres(at),
    }
}

fn mass(weight: f64) -> Mass {
    Mass::from_si(weight / STANDARD_GRAVITY.si())
}

fn rig(case: &Case) -> Rig {
    let bodies = case.bodies.iter().map(|b| {
        let (s, c) = b.turned_rad.sin_cos();
        Body {
            mass: mass(b.weight_n),
            cg: metres(b.cg_m),
            attitude: Rotation::from_axes([c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]).unwrap(),
        }
    });
    let legs = case.legs.iter().map(|l| Leg {
        upper: end(&l.upper),
        lower: end(&l.lower),
        length: Length::from_si(l.length_m),
        stiffness: Some(Stiffness::from_si(l.stiffness_n_per_m)),
    });
    Rig {
        bodies: bodies.collect(),
        hooks: (case.hooks_m.iter())
            .map(|at| Hook {
                position: metres(*at),
            })
            .collect(),
        legs: legs.collect(),
    }
}

fn cases() -> Vec<Case> {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../tests/second_method/tiers.json"
    );
    let text = std::fs::read_to_string(path).expect("the second method's data");
    serde_json::from_str::<Rigs>(&text)
        .expect("its format")
        .rigs
}

#[test]
fn every_rig_in_tiers_of_the_second_method_hangs_the_same() {
    let cases = cases();
    assert!(cases.len() >= 60, "only {} rigs", cases.len());
    let (mut wrong, mut apart, mut turned) = (Vec::new(), 0.0_f64, 0.0_f64);
    for case in &cases {
        let gross: f64 = case.bodies.iter().map(|b| b.weight_n).sum();
        let pose = match hang(&rig(case)) {
            Ok(pose) => pose,
            Err(why) => {
                wrong.push(format!("{}: {why}", case.id));
                continue;
            }
        };
        for (leg, expected) in pose.legs.iter().zip(&case.expect.tension_n) {
            let off = (leg.tension.si() - expected).abs() / gross;
            apart = apart.max(off);
            if off > 0.005 || leg.slack != (*expected == 0.0) {
                wrong.push(format!("{}: {leg:?} for {expected}", case.id));
            }
        }
        for (body, expected) in pose.bodies.iter().zip(&case.expect.tilt_deg) {
            let off = (body.tilt.si().to_degrees() - expected).abs();
            turned = turned.max(off);
            if off > 0.05 {
                wrong.push(format!("{}: tilt {:?} for {expected}", case.id, body.tilt));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // What is agreed on is far nearer than what is allowed.
    assert!(apart < 1e-5 && turned < 1e-3, "{apart} {turned}");
}

fn exact<T: Measured>(value: f64) -> Interval<T> {
    Interval::exact(T::from_si(value))
}

fn within<T: Measured>(middle: f64, by: f64) -> Interval<T> {
    Interval {
        lo: T::from_si(middle - by),
        hi: T::from_si(middle + by),
    }
}

fn banded(weight: f64, cg: [Interval<Length>; 3]) -> BandedBody {
    BandedBody {
        mass: Interval::exact(mass(weight)),
        cg,
        attitude: Rotation::AS_INSTALLED,
    }
}

fn leg(upper: End, lower: End, length: f64) -> BandedLeg {
    BandedLeg {
        upper,
        lower,
        length: exact(length),
        stiffness: None,
    }
}

// A bar plumb over its load, each leg of its own tier: moments about the far end give the largest share of a load whose
// centre of gravity may lie e off the middle of a span of 2 a, hung level: V = W (a + e) / (2 a). Tilt moves it by h tan(tilt),
// which is nothing for points level with the centre of gravity.
#[test]
fn under_a_spreader_the_nearer_leg_carries_by_the_lever_rule() {
    let (load, bar, half, e) = (80_000.0, 6_000.0, 2.0, 0.10);
    let rig = BandedRig {
        bodies: vec![
            banded(load, [within(0.0, e), exact(0.0), exact(0.0)]),
            banded(bar, [exact(0.0), exact(0.0), exact(-0.05)]),
        ],
        hooks: vec![Hook {
            position: metres([0.0; 3]),
        }],
        legs: vec![
            leg(on(1, [-half, 0.0, -0.2]), on(0, [-half, 0.0, 0.0]), 3.0),
            leg(on(1, [half, 0.0, -0.2]), on(0, [half, 0.0, 0.0]), 3.0),
            leg(End::Hook(0), on(1, [-half, 0.0, 0.0]), 4.0),
            leg(End::Hook(0), on(1, [half, 0.0, 0.0]), 4.0),
        ],
    };
    // Neutral about its own axis: the load's points are level with its centre of gravity.
    let why = worst(&rig).unwrap_err();
    assert!(matches!(why, NoPose::Neutral { .. }), "{why:?}");
    let mut stable = rig;
    stable.bodies[0].cg[2] = exact(-0.02);
    let found = worst(&stable).unwrap();
    let lever = load * (half + e) / (2.0 * half);
    for leg in 0..2 {
        let share = found.sharing.legs[leg].max_tension.value.si();
        // The 20 mm that keep it stable and the tilt of 3 degrees move the share by 20 mm tan(3 deg) / 4 m and 1/cos of the legs.
        assert!((share - lever).abs() < 0.003 * load, "{share} for {lever}");
    }
    assert!(!found.indeterminate);
    let below = &found.sharing.others[0].below;
    assert!((below.0.value.si() - load).abs() < 1e-6 * load);
    assert!((below.1.value.si() - load).abs() < 1e-6 * load);
    assert!((found.sharing.hooks[0].1.value.si() - load - bar).abs() < 1e-6 * load);
}

// Two hoists that hang plumb share by the lever rule, whatever the level of the hooks: the share of the nearer is
// W (a + e + h tan(t)) / (2 a) with t the tilt that a difference of level d gives, sin(t) = d / (2 a), and h the height of
// the points over the centre of gravity.
#[test]
fn two_hooks_out_of_level_share_by_statics() {
    let (load, half, e, h, d) = (200_000.0, 3.0, 0.06, 1.5, 0.10);
    let hoist = 1000.0;
    let hooks = [-half, half].map(|x| Hook {
        position: metres([x, 0.0, hoist]),
    });
    let mut legs = vec![
        leg(End::Hook(0), on(0, [-half, 0.0, h]), hoist),
        leg(End::Hook(1), on(0, [half, 0.0, h]), hoist),
    ];
    legs[1].length = within(hoist, d);
    let rig = BandedRig {
        bodies: vec![banded(load, [within(0.0, e), exact(0.0), exact(0.0)])],
        hooks: hooks.to_vec(),
        legs,
    };
    let found = worst(&rig).unwrap();
    let tilt = (d / (2.0 * half)).asin();
    let share = load * (half + e + h * tilt.tan()) / (2.0 * half);
    for hook in 0..2 {
        let most = found.sharing.hooks[hook].1.value.si();
        assert!((most - share).abs() < 1e-3 * load, "{most} for {share}");
    }
    let tilts = found.sharing.max_tilt.value.si().to_degrees();
    assert!((tilts - tilt.to_degrees()).abs() < 0.02, "{tilts}");
}

/// A load under a frame of four ends, itself under four legs; stiffness on all legs or none.
fn frame(stiff: bool) -> BandedRig {
    let corners = [(1.6, 1.2), (-1.5, 1.25), (-1.55, -1.2), (1.5, -1.3)];
    let leg = |upper, lower, length| BandedLeg {
        upper,
        lower,
        length: within(length, 0.01),
        stiffness: stiff.then(|| within(1.5e7, 3.0e6)),
    };
    BandedRig {
        bodies: vec![
            BandedBody {
                mass: within(30_000.0, 1_500.0),
                cg: [within(0.08, 0.06), within(-0.05, 0.06), within(0.7, 0.06)],
                attitude: Rotation::AS_INSTALLED,
            },
            BandedBody {
                mass: within(2_000.0, 60.0),
                cg: [within(0.0, 0.03), within(0.0, 0.03), within(-0.1, 0.03)],
                attitude: Rotation::AS_INSTALLED,
            },
        ],
        hooks: vec![Hook {
            position: metres([0.0; 3]),
        }],
        legs: corners
            .iter()
            .flat_map(|(x, y)| {
                let above = f64::sqrt(x * x + y * y + 9.0);
                [
                    leg(End::Hook(0), on(1, [*x, *y, 0.15]), above),
                    leg(on(1, [*x, *y, -0.15]), on(0, [*x, *y, 1.6]), 2.5),
                ]
            })
            .collect(),
    }
}

// The place that a worst names gives that worst, solved anew by the other solver.
#[test]
fn a_worst_in_tiers_is_found_again_at_its_place() {
    for stiff in [true, false] {
        let rig = frame(stiff);
        let found = worst(&rig).unwrap();
        assert!(found.indeterminate);
        for extremes in found.elastic.iter().chain([&found.sharing]) {
            for (leg, said) in extremes.legs.iter().enumerate() {
                let corner = &said.max_tension.corner;
                let at = rig.at(corner);
                let pose = match &corner.pulling {
                    Some(legs) => hang_by_legs(&at, legs),
                    None => hang(&at),
                };
                let pose = pose.unwrap();
                let again = pose.legs[leg].tension.si();
                let value = said.max_tension.value.si();
                assert!(
                    (again - value).abs() < 1e-6 * value,
                    "{leg}: {again} for {value}"
                );
            }
        }
    }
}

// Random places inside the bands: none passes what the search calls the worst.
#[test]
fn no_place_inside_the_bands_of_a_frame_is_worse_than_the_worst() {
    let rig = frame(true);
    let found = worst(&rig).unwrap().elastic.unwrap();
    let mut state = 7_u64;
    let mut next = || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / f64::from(1_u32 << 31)
    };
    for _ in 0..400 {
        let mut at = rig.clone();
        // Mostly at ends, where the worst is; some inside.
        let mut pick = |lo: f64, hi: f64| match next() {
            share if share < 0.4 => lo,
            share if share > 0.6 => hi,
            _ => lo + next() * (hi - lo),
        };
        for body in &mut at.bodies {
            body.mass = exact(pick(body.mass.lo.si(), body.mass.hi.si()));
            body.cg = body.cg.map(|axis| exact(pick(axis.lo.si(), axis.hi.si())));
        }
        for leg in &mut at.legs {
            leg.length = exact(pick(leg.length.lo.si(), leg.length.hi.si()));
            leg.stiffness = leg.stiffness.map(|k| exact(pick(k.lo.si(), k.hi.si())));
        }
        let pose = hang(&at.middle()).unwrap();
        for (leg, said) in pose.legs.iter().zip(&found.legs) {
            let gross = 32_000.0 * STANDARD_GRAVITY.si();
            assert!(leg.tension.si() <= said.max_tension.value.si() + 0.005 * gross);
        }
        for (tilt, said) in [
            (pose.bodies[0].tilt, &found.max_tilt),
            (
                pose.bodies[1].tilt,
                found.others[0].max_tilt.as_ref().unwrap(),
            ),
        ] {
            assert!(tilt.si() <= said.value.si() + 0.05_f64.to_radians());
        }
    }
}

// A ring in which four legs gather, under one sling: below it the legs share as under a hook, and the sling carries all.
#[test]
fn a_ring_under_one_sling_carries_what_a_hook_would() {
    let corners = [(1.6, 1.2), (-1.6, 1.2), (-1.6, -1.2), (1.6, -1.2)];
    let at = |upper: End, body: usize| -> Vec<BandedLeg> {
        let leg = |(x, y): (f64, f64)| leg(upper, on(body, [x, y, 1.0]), 4.0);
        corners[..3].iter().copied().map(leg).collect()
    };
    let load = |x| banded(100_000.0, [within(x, 0.05), within(0.3, 0.05), exact(0.2)]);
    let hook = Hook {
        position: metres([0.0; 3]),
    };
    let alone = BandedRig {
        bodies: vec![load(-0.4)],
        hooks: vec![hook],
        legs: at(End::Hook(0), 0),
    };
    let mut legs = at(on(1, [0.0; 3]), 0);
    legs.push(leg(End::Hook(0), on(1, [0.0; 3]), 2.0));
    let hung = BandedRig {
        bodies: vec![load(-0.4), banded(500.0, [exact(0.0); 3])],
        hooks: vec![hook],
        legs,
    };
    let (alone, hung) = (worst(&alone).unwrap(), worst(&hung).unwrap());
    for (a, b) in alone.sharing.legs.iter().zip(&hung.sharing.legs) {
        let (a, b) = (a.max_tension.value.si(), b.max_tension.value.si());
        assert!((a - b).abs() < 2e-4 * 100_000.0, "{a} {b}");
    }
    let sling = hung.sharing.legs[3].max_tension.value.si();
    assert!((sling - 100_500.0).abs() < 1.0, "{sling}");
}
