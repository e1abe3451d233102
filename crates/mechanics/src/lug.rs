//! How far out of the plane of its plate a lug may be pulled.

use crate::Interval;
use plumbhook_units::{Angle, HorizontalAngle, Kind, Length, Measured, VerticalAngle};

/// An angle out of the plane of a plate: 0 deg for a pull in its plane, 90 deg for one square to it.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
pub struct SideAngle(Angle);

impl Measured for SideAngle {
    const KIND: Kind = Kind::Angle;
    fn from_si(si: f64) -> Self {
        Self(Angle::from_si(si))
    }
    fn si(self) -> f64 {
        self.0.si()
    }
}

/// A lug on a load, in the load's own frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    /// Where the pin is.
    pub at: [Length; 3],
    /// Square to the plate, of length one.
    pub normal: [f64; 3],
    /// Which way is up in the attitude that the load is meant to hang in, of length one.
    pub up: [f64; 3],
}

/// How the leg in it may come to lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// How flat it comes at the flattest.
    pub flattest: HorizontalAngle,
    /// How far the load tilts at the most from the attitude that it is meant to hang in.
    pub tilt: VerticalAngle,
}

/// A load under one hook in which all its legs gather, so that its centre of gravity hangs straight below the hook.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnderOneHook {
    /// Centre of gravity in the load's own frame.
    pub cg: [Interval<Length>; 3],
    /// Length of the leg at the least.
    pub leg: Length,
    /// Rise of the hook above the load's origin at the most.
    pub rise: Length,
}

/// A normal square to the plane through the z axis of the frame and the point: of a plate that stands radially. `None`
/// where the point lies on that axis.
pub fn radial(at: [Length; 3]) -> Option<[f64; 3]> {
    let [x, y, _] = at.map(Measured::si);
    let from_axis = x.hypot(y);
    (from_axis > 1e-6).then(|| [-y / from_axis, x / from_axis, 0.0])
}

impl Plate {
    /// An angle that the pull does not pass, out of the plane of the plate.
    ///
    /// A leg at `h` from horizontal on a load that tilts by `t` lies within `90 deg - h + t` of the load's own up, which
    /// lies within `a` of the plane of the plate. So it lies within `a + 90 deg - h + t` of the plane, however it
    /// runs. Under one hook the hook lies above the centre of gravity, within `t` of the load's own up; so its distance
    /// from the plane has a bound, and the sine of the angle is that distance over the leg's length. The smaller of the
    /// two is returned. Both are bounds, not values: the pull may be nearer to the plane.
    ///
    /// An angle or a length that is not finite gives 90 deg.
    pub fn side_pull(&self, pull: Pull, under: Option<UnderOneHook>) -> SideAngle {
        let lean = dot(self.normal, self.up).abs().min(1.0).asin();
        let from_up = std::f64::consts::FRAC_PI_2 - pull.flattest.si() + pull.tilt.si();
        let anyhow = quarter(lean + from_up);
        let by_hook = under.map_or(f64::INFINITY, |under| {
            let swing = quarter(lean + pull.tilt.si()).sin();
            let across = self.cg_across(under.cg) + under.above_cg(self.up, pull.tilt) * swing;
            let sine = across / under.leg.si();
            if (0.0..1.0).contains(&sine) {
                sine.asin()
            } else {
                f64::INFINITY
            }
        });
        SideAngle::from_si(anyhow.min(by_hook))
    }

    /// How far the centre of gravity may lie from the plane of the plate.
    fn cg_across(&self, cg: [Interval<Length>; 3]) -> f64 {
        let (mut lo, mut hi) = (0.0, 0.0);
        for ((side, at), n) in cg.iter().zip(self.at).zip(self.normal) {
            let ends = [side.lo, side.hi].map(|end| n * (end.si() - at.si()));
            let [a, b] = ends;
            lo += a.min(b);
            hi += a.max(b);
        }
        hi.max(-lo)
    }
}

impl UnderOneHook {
    /// How far the hook may lie above the centre of gravity.
    fn above_cg(&self, up: [f64; 3], tilt: VerticalAngle) -> f64 {
        let (mut lowest, mut square) = (0.0, 0.0);
        for (side, up) in self.cg.iter().zip(up) {
            let [lo, hi] = [side.lo.si(), side.hi.si()];
            lowest += (up * lo).min(up * hi);
            square += lo.abs().max(hi.abs()).powi(2);
        }
        let tilt = quarter(tilt.si());
        let height = lowest.min(lowest * tilt.cos()) - square.sqrt() * tilt.sin();
        (self.rise.si() - height).max(0.0)
    }
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// An angle from 0 to 90 deg; 90 deg for what is no number.
fn quarter(angle: f64) -> f64 {
    const MOST: f64 = std::f64::consts::FRAC_PI_2;
    if angle.is_finite() {
        angle.clamp(0.0, MOST)
    } else {
        MOST
    }
}
