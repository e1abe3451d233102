//! The solver against a second, independent method: other language, other code, other unknowns.
//! The data and the programs that made them stand in `tests/second_method`.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may fail")]

mod common;

use common::{LegNumbers, rig};
use plumbhook_mechanics::hanging::{
    BandedBody, BandedLeg, BandedRig, Interval, NoPose, Rig, hang, worst,
};
use plumbhook_units::{Mass, Measured, STANDARD_GRAVITY};
use serde::Deserialize;

#[derive(Deserialize)]
struct Rigs {
    rigs: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    id: String,
    weight_n: f64,
    cg_m: [f64; 3],
    legs: Vec<LegCase>,
    expect: Option<Expect>,
    bands: Option<Bands>,
    expect_max_tension_n: Option<Vec<f64>>,
}

#[derive(Deserialize)]
#[allow(
    clippy::struct_field_names,
    reason = "the file's names carry their units"
)]
struct LegCase {
    point_m: [f64; 3],
    length_m: f64,
    stiffness_n_per_m: f64,
}

#[derive(Deserialize)]
struct Expect {
    equilibrium: bool,
    #[serde(default)]
    tension_n: Vec<f64>,
    #[serde(default)]
    slack: Vec<bool>,
    #[serde(default)]
    tilt_deg: f64,
    #[serde(default)]
    min_horizontal_angle_deg: f64,
}

#[derive(Deserialize)]
struct Bands {
    weight_n: [f64; 2],
    cg_m: [[f64; 2]; 3],
    length_m: Vec<[f64; 2]>,
    stiffness_n_per_m: Vec<[f64; 2]>,
}

fn read(name: &str) -> Vec<Case> {
    let path = format!(
        "{}/../../tests/second_method/{name}",
        env!("CARGO_MANIFEST_DIR")
    );
    let text = std::fs::read_to_string(&path).expect("the second method's data");
    serde_json::from_str::<Rigs>(&text)
        .expect("the second method's format")
        .rigs
}

fn definite(case: &Case) -> Rig {
    let legs: Vec<LegNumbers> = case
        .legs
        .iter()
        .map(|l| (l.point_m, l.length_m, Some(l.stiffness_n_per_m)))
        .collect();
    rig(case.weight_n, case.cg_m, &legs)
}

fn interval<T: Measured>([lo, hi]: [f64; 2]) -> Interval<T> {
    Interval {
        lo: T::from_si(lo),
        hi: T::from_si(hi),
    }
}

fn banded(case: &Case, bands: &Bands) -> BandedRig {
    let rig = definite(case);
    let [lo, hi] = bands.weight_n;
    BandedRig {
        bodies: rig
            .bodies
            .iter()
            .map(|b| BandedBody {
                mass: interval::<Mass>([lo, hi].map(|w| w / STANDARD_GRAVITY.si())),
                cg: bands.cg_m.map(interval),
                attitude: b.attitude,
            })
            .collect(),
        hooks: rig.hooks,
        legs: rig
            .legs
            .iter()
            .zip(&bands.length_m)
            .zip(&bands.stiffness_n_per_m)
            .map(|((l, length), stiffness)| BandedLeg {
                upper: l.upper,
                lower: l.lower,
                length: interval(*length),
                stiffness: Some(interval(*stiffness)),
            })
            .collect(),
    }
}

#[test]
fn every_rig_of_the_second_method_hangs_the_same() {
    let mut wrong = Vec::new();
    let cases = read("hanging.json");
    assert!(cases.len() >= 300, "only {} rigs", cases.len());
    for case in &cases {
        let expect = case.expect.as_ref().expect("an answer");
        let pose = match hang(&definite(case)) {
            Ok(pose) => pose,
            Err(NoPose::TurnsOver { .. } | NoPose::Unstable { .. }) if !expect.equilibrium => {
                continue;
            }
            other => {
                wrong.push(format!("{}: {other:?}", case.id));
                continue;
            }
        };
        if !expect.equilibrium {
            wrong.push(format!("{}: hangs, and should not", case.id));
            continue;
        }
        let tilt = pose.bodies[0].tilt.si().to_degrees();
        if (tilt - expect.tilt_deg).abs() > 0.05 {
            wrong.push(format!("{}: tilt {tilt} for {}", case.id, expect.tilt_deg));
        }
        for (i, leg) in pose.legs.iter().enumerate() {
            let apart = (leg.tension.si() - expect.tension_n[i]).abs() / case.weight_n;
            if apart > 0.005 || leg.slack != expect.slack[i] {
                wrong.push(format!("{}: leg {i} {leg:?}", case.id));
            }
        }
        let flattest = pose
            .legs
            .iter()
            .filter_map(|l| l.horizontal_angle)
            .map(|a| a.si().to_degrees())
            .fold(90.0, f64::min);
        if (flattest - expect.min_horizontal_angle_deg).abs() > 0.05 {
            wrong.push(format!("{}: flattest leg {flattest}", case.id));
        }
    }
    assert!(wrong.is_empty(), "{} differ: {wrong:#?}", wrong.len());
}

#[test]
fn no_global_search_finds_a_tension_above_ours_by_half_a_percent_of_the_load() {
    let mut wrong = Vec::new();
    let cases = read("hanging_bands.json");
    assert!(cases.len() >= 50, "only {} rigs", cases.len());
    for case in &cases {
        let bands = case.bands.as_ref().expect("bands");
        let theirs = case.expect_max_tension_n.as_ref().expect("an answer");
        let ours = match worst(&banded(case, bands)) {
            Ok(worst) => worst.elastic.expect("all legs have stiffness"),
            Err(why) => {
                wrong.push(format!("{}: {why}", case.id));
                continue;
            }
        };
        for (i, (leg, theirs)) in ours.legs.iter().zip(theirs).enumerate() {
            let above = (theirs - leg.max_tension.value.si()) / bands.weight_n[1];
            if above > 0.005 {
                wrong.push(format!("{}: leg {i} {:.2} % above", case.id, above * 100.0));
            }
        }
    }
    assert!(wrong.is_empty(), "{} differ: {wrong:#?}", wrong.len());
}
