//! Short ways to write pads and the band of a centre of gravity down in metres.
#![allow(dead_code, reason = "each test file uses its own part")]

use plumbhook_mechanics::Interval;
use plumbhook_mechanics::standing::PadShare;
use plumbhook_units::{Length, Measured};

pub(crate) fn m(value: f64) -> Length {
    Length::from_si(value)
}

pub(crate) fn at(places: &[[f64; 2]]) -> Vec<[Length; 2]> {
    places.iter().map(|place| place.map(m)).collect()
}

pub(crate) fn band([lo, hi]: [f64; 2]) -> Interval<Length> {
    Interval {
        lo: m(lo),
        hi: m(hi),
    }
}

pub(crate) fn shares(found: &[PadShare]) -> Vec<f64> {
    found.iter().map(|pad| pad.share.si()).collect()
}

pub(crate) fn assert_near(found: &[f64], wanted: &[f64], within: f64) {
    assert_eq!(found.len(), wanted.len());
    for (f, w) in found.iter().zip(wanted) {
        assert!((f - w).abs() <= within, "{found:?} for {wanted:?}");
    }
}
