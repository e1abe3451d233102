//! Short ways to write a rig down in SI units.
#![allow(dead_code, reason = "each test file uses its own part")]

use plumbhook_mechanics::hanging::{
    BandedBody, BandedLeg, BandedRig, Body, End, Hook, Interval, Leg, Rig, Rotation,
};
use plumbhook_units::{Length, Mass, Measured, STANDARD_GRAVITY, Stiffness};

pub(crate) fn metres(at: [f64; 3]) -> [Length; 3] {
    at.map(Length::from_si)
}

pub(crate) fn mass_of(weight_n: f64) -> Mass {
    Mass::from_si(weight_n / STANDARD_GRAVITY.si())
}

/// A leg as (point m, length m, stiffness N/m).
pub(crate) type LegNumbers = ([f64; 3], f64, Option<f64>);

pub(crate) fn rig(weight_n: f64, cg_m: [f64; 3], legs: &[LegNumbers]) -> Rig {
    Rig {
        bodies: vec![Body {
            mass: mass_of(weight_n),
            cg: metres(cg_m),
            attitude: Rotation::AS_INSTALLED,
        }],
        hooks: vec![Hook {
            position: metres([0.0; 3]),
        }],
        legs: legs
            .iter()
            .map(|(point, length, stiffness)| Leg {
                upper: End::Hook(0),
                lower: End::Point {
                    body: 0,
                    at: metres(*point),
                },
                length: Length::from_si(*length),
                stiffness: stiffness.map(Stiffness::from_si),
            })
            .collect(),
    }
}

/// Legs from points to a hook place over the body, each as long as the distance.
pub(crate) fn legs_to(hook: [f64; 3], points: &[[f64; 3]]) -> Vec<LegNumbers> {
    points
        .iter()
        .map(|p| {
            let square: f64 = p.iter().zip(hook).map(|(a, b)| (a - b) * (a - b)).sum();
            (*p, square.sqrt(), None)
        })
        .collect()
}

fn band<T: Measured>((lo, hi): (f64, f64)) -> Interval<T> {
    Interval {
        lo: T::from_si(lo),
        hi: T::from_si(hi),
    }
}

/// Widths to either side of each nominal value.
#[derive(Clone, Copy, Default)]
pub(crate) struct Widths {
    pub(crate) weight_share: f64,
    pub(crate) cg_m: f64,
    pub(crate) length_m: f64,
    pub(crate) stiffness_share: f64,
}

pub(crate) fn banded(rig: &Rig, w: Widths) -> BandedRig {
    let around = |v: f64, d: f64| (v - d, v + d);
    BandedRig {
        bodies: rig
            .bodies
            .iter()
            .map(|b| BandedBody {
                mass: band(around(b.mass.si(), b.mass.si() * w.weight_share)),
                cg: b.cg.map(|c| band(around(c.si(), w.cg_m))),
                attitude: b.attitude,
            })
            .collect(),
        hooks: rig.hooks.clone(),
        legs: rig
            .legs
            .iter()
            .map(|l| BandedLeg {
                upper: l.upper,
                lower: l.lower,
                length: band(around(l.length.si(), w.length_m)),
                stiffness: l
                    .stiffness
                    .map(|k| band(around(k.si(), k.si() * w.stiffness_share))),
            })
            .collect(),
    }
}
