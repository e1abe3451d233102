//! From the public inputs to plain numbers, and from a fault to its reason in public words.

use super::elastic::RESIDUAL_BOUND;
use super::family::{Family, Kind, Way};
use super::numbers::{Fault, M3, OneHook, V3};
use super::one::One;
use super::outcome::{Counts, Level, Param};
use super::rig::{BandedRig, Body, End, Input, Leg, Rig, Rotation};
use super::rigid::hang_by;
use super::why::{CgFault, NoPose};
use plumbhook_units::{Length, Measured, VerticalAngle, weight};

/// Three legs whose directions span less than this volume share a load by stiffness, not by statics.
const SPANNED: f64 = 1e-3;

/// The most legs from one hook: each brings two inputs, and a corner of all inputs is one number of 64 bits.
const MOST_LEGS: usize = 24;

/// A vector in plain numbers, m.
pub(crate) fn metres(at: [Length; 3]) -> V3 {
    let [x, y, z] = at;
    V3::new(x.si(), y.si(), z.si())
}

/// A turn as a matrix, from the body's frame to the axes of the hooks.
pub(crate) fn matrix(rotation: &Rotation) -> M3 {
    let [x, y, z] = rotation.axes();
    M3::from_columns(&[V3::from(x), V3::from(y), V3::from(z)])
}

/// A banded rig of one body under one hook, checked, with its middle in plain numbers.
pub(crate) struct Checked {
    pub(crate) one: OneHook,
    level: Level,
    longest: Vec<f64>,
    bands: Vec<(Param, f64, f64)>,
}

impl Checked {
    /// A family of this rig.
    pub(crate) fn family(&self, way: Way) -> Family {
        Family::new(self.counts(), way, &self.bands, |way, params| {
            let longest = self.longest.clone();
            Kind::One(Box::new(One::new(
                self.one.clone(),
                self.level,
                longest,
                way,
                params,
            )))
        })
    }

    /// How many legs there are.
    pub(crate) fn counts(&self) -> Counts {
        Counts::one(self.one.legs())
    }

    /// Whether statics alone can tell the legs' shares.
    pub(crate) fn determinate(&self) -> bool {
        determinate(&self.one)
    }
}

/// Whether statics alone can tell the legs' shares: one leg, two from different points, or three that span a solid
/// angle.
pub(crate) fn determinate(one: &OneHook) -> bool {
    let legs: Vec<usize> = (0..one.legs()).collect();
    if legs.len() > 3 {
        return false;
    }
    match hang_by(one, &legs) {
        Err(Fault::Indeterminate) => false,
        Ok(poses) if legs.len() == 3 => poses.iter().flatten().all(|pose| {
            let sides: Vec<V3> = one
                .points
                .iter()
                .zip(&one.length)
                .map(|(p, l)| (pose.hook - p) / *l)
                .collect();
            M3::from_columns(&sides).determinant().abs() > SPANNED
        }),
        _ => true,
    }
}

/// A definite rig of one body under one hook, in the order that the trade means: legs from the hook down.
pub(crate) fn one_hook(rig: &Rig) -> Result<OneHook, NoPose> {
    check(rig)?;
    let ([body], [_]) = (rig.bodies.as_slice(), rig.hooks.as_slice()) else {
        return Err(NoPose::Unsupported {
            what: "one body under one hook was asked for, and there are more",
        });
    };
    if rig.legs.len() > MOST_LEGS {
        return Err(NoPose::Unsupported {
            what: "more than 24 legs from one hook",
        });
    }
    let mut points = Vec::with_capacity(rig.legs.len());
    for (leg, l) in rig.legs.iter().enumerate() {
        match (l.upper, l.lower) {
            (End::Hook(_), End::Point { at, .. }) => points.push(metres(at)),
            _ => return Err(NoPose::HookBelowPoint { leg }),
        }
    }
    let stiffness: Option<Vec<f64>> = rig
        .legs
        .iter()
        .map(|l| l.stiffness.map(Measured::si))
        .collect();
    Ok(OneHook {
        weight: weight(body.mass).si(),
        cg: metres(body.cg),
        up: matrix(&body.attitude).transpose() * V3::z(),
        points,
        length: rig.legs.iter().map(|l| l.length.si()).collect(),
        stiffness: stiffness.unwrap_or_default(),
    })
}

/// Level directions of the hooks' axes in the body's frame.
pub(crate) fn level(body: &Body) -> Level {
    let to_body = matrix(&body.attitude).transpose();
    Level {
        x: to_body * V3::x(),
        y: to_body * V3::y(),
    }
}

/// Checks a banded rig and puts it into plain numbers.
pub(crate) fn checked_bands(rig: &BandedRig) -> Result<Checked, NoPose> {
    let high = check_ends(rig)?;
    let middle = rig.middle();
    let one = one_hook(&middle)?;
    let Some(body) = middle.bodies.first() else {
        return Err(NoPose::Empty { what: "body" });
    };
    Ok(Checked {
        level: level(body),
        longest: high.legs.iter().map(|l| l.length.si()).collect(),
        bands: plain_bands(rig, !one.stiffness.is_empty()),
        one,
    })
}

/// Checks both ends of all bands and gives the rig at the high one.
pub(crate) fn check_ends(rig: &BandedRig) -> Result<Rig, NoPose> {
    for (input, lo, hi) in rig.bands() {
        if !(lo.is_finite() && hi.is_finite()) {
            return Err(NoPose::NotFinite { input: Some(input) });
        }
        if lo > hi {
            return Err(NoPose::BandReversed { input });
        }
    }
    check(&rig.definite(|_, lo, _| lo))?;
    let high = rig.definite(|_, _, hi| hi);
    check(&high)?;
    Ok(high)
}

/// The inputs that have a band of some width, in plain numbers; stiffness only where it is counted.
pub(crate) fn plain_bands(rig: &BandedRig, stretches: bool) -> Vec<(Param, f64, f64)> {
    let gravity = plumbhook_units::STANDARD_GRAVITY.si();
    let wide = rig.bands().into_iter().filter(|(_, lo, hi)| hi > lo);
    wide.filter_map(|(input, lo, hi)| match input {
        Input::Mass { body } => Some((Param::Weight(body), lo * gravity, hi * gravity)),
        Input::Cg { body, axis } => Some((Param::Cg(body, axis.index()), lo, hi)),
        Input::Length { leg } => Some((Param::Length(leg), lo, hi)),
        Input::Stiffness { leg } => stretches.then_some((Param::Stiffness(leg), lo, hi)),
    })
    .collect()
}

/// Checks what can be said of a rig before it is solved.
pub(crate) fn check(rig: &Rig) -> Result<(), NoPose> {
    for (empty, what) in [
        (rig.bodies.is_empty(), "body"),
        (rig.hooks.is_empty(), "hook"),
        (rig.legs.is_empty(), "legs"),
    ] {
        if empty {
            return Err(NoPose::Empty { what });
        }
    }
    for (i, body) in rig.bodies.iter().enumerate() {
        positive(Input::Mass { body: i }, body.mass.si())?;
        for (axis, value) in super::rig::Axis::ALL.into_iter().zip(body.cg) {
            finite(Some(Input::Cg { body: i, axis }), value.si())?;
        }
    }
    for value in rig.hooks.iter().flat_map(|h| h.position) {
        finite(None, value.si())?;
    }
    for (leg, l) in rig.legs.iter().enumerate() {
        positive(Input::Length { leg }, l.length.si())?;
        if let Some(k) = l.stiffness {
            positive(Input::Stiffness { leg }, k.si())?;
        }
        ends(rig, leg, l)?;
    }
    for body in 0..rig.bodies.len() {
        let carried = rig.legs.iter().any(|l| {
            [l.upper, l.lower]
                .iter()
                .any(|e| matches!(e, End::Point { body: b, .. } if *b == body))
        });
        if !carried {
            return Err(NoPose::NotCarried { body });
        }
    }
    too_short(rig)
}

fn finite(input: Option<Input>, value: f64) -> Result<(), NoPose> {
    if value.is_finite() {
        Ok(())
    } else {
        Err(NoPose::NotFinite { input })
    }
}

fn positive(input: Input, value: f64) -> Result<(), NoPose> {
    finite(Some(input), value)?;
    if value > 0.0 {
        Ok(())
    } else {
        Err(NoPose::NotPositive { input })
    }
}

fn ends(rig: &Rig, leg: usize, l: &Leg) -> Result<(), NoPose> {
    let whose = |end: End| match end {
        End::Hook(i) => (i < rig.hooks.len()).then_some(None),
        End::Point { body, at } => {
            let known = body < rig.bodies.len();
            known.then_some(Some((body, at)))
        }
    };
    match (whose(l.upper), whose(l.lower)) {
        (Some(upper), Some(lower)) => {
            for (_, at) in [upper, lower].into_iter().flatten() {
                for value in at {
                    finite(None, value.si())?;
                }
            }
            if upper.map(|u| u.0) == lower.map(|l| l.0) {
                return Err(NoPose::WrongEnds { leg });
            }
            Ok(())
        }
        _ => Err(NoPose::WrongEnds { leg }),
    }
}

/// Two legs from one hook to one body must together span the distance of their points.
fn too_short(rig: &Rig) -> Result<(), NoPose> {
    let ends = |l: &Leg| match (l.upper, l.lower) {
        (End::Hook(hook), End::Point { body, at }) => Some((hook, body, metres(at), l.length.si())),
        _ => None,
    };
    for (first, a) in rig.legs.iter().enumerate() {
        for (second, b) in rig.legs.iter().enumerate().skip(first + 1) {
            let (Some(a), Some(b)) = (ends(a), ends(b)) else {
                continue;
            };
            let missing = (a.2 - b.2).norm() - (a.3 + b.3);
            if (a.0, a.1) == (b.0, b.1) && missing > 0.0 {
                return Err(NoPose::LegsTooShort {
                    first,
                    second,
                    missing: Length::from_si(missing),
                });
            }
        }
    }
    Ok(())
}

/// A fault in public words.
pub(crate) fn explain(rig: &Rig, fault: &Fault) -> NoPose {
    let because = cg_fault(rig);
    match fault {
        Fault::NotConverged { left_over } => NoPose::NotConverged {
            left_over: *left_over,
            bound: RESIDUAL_BOUND,
        },
        Fault::Unstable => NoPose::Unstable { because },
        Fault::Neutral => NoPose::Neutral { because },
        Fault::TurnsOver { tilt } => NoPose::TurnsOver {
            tilt: VerticalAngle::from_si(*tilt),
            because,
        },
        Fault::HookBelow { leg } => NoPose::HookBelowPoint { leg: *leg },
        Fault::CannotMeet => NoPose::CannotMeet,
        Fault::Pushes { legs } => NoPose::Pushes {
            legs: legs.clone(),
            because,
        },
        Fault::Indeterminate => NoPose::Indeterminate,
    }
}

/// What about the centre of gravity of the first body is wrong, in its attitude as declared.
pub(crate) fn cg_fault(rig: &Rig) -> CgFault {
    let Some(body) = rig.bodies.first() else {
        return CgFault::Neither;
    };
    let turn = matrix(&body.attitude);
    let cg = metres(body.cg);
    let points: Vec<V3> = rig
        .legs
        .iter()
        .filter_map(|l| match l.lower {
            End::Point { body: 0, at } => Some(turn * (metres(at) - cg)),
            _ => None,
        })
        .collect();
    if outside(&points) {
        CgFault::Outside
    } else if points.iter().any(|p| p.z < 0.0) {
        CgFault::Above
    } else {
        CgFault::Neither
    }
}

/// Whether the origin lies outside the plan of the points: beyond an end where they stand in one line, else where some
/// level direction has all of them on one side.
fn outside(points: &[V3]) -> bool {
    let plan = |p: &V3| V3::new(p.x, p.y, 0.0);
    let Some(first) = points.first().map(plan) else {
        return false;
    };
    let apart = |p: &V3| plan(p) - first;
    let longest = points
        .iter()
        .map(apart)
        .max_by(|a, b| a.norm().total_cmp(&b.norm()))
        .unwrap_or_else(V3::zeros);
    let size = longest.norm();
    if size < 1e-6 {
        return false;
    }
    let in_line = points
        .iter()
        .all(|p| apart(p).cross(&longest).norm() <= 1e-6 * size * size);
    if in_line {
        let along = points.iter().map(|p| plan(p).dot(&longest));
        let (least, most) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), a| {
            (l.min(a), m.max(a))
        });
        return least > 0.0 || most < 0.0;
    }
    let mut angles: Vec<f64> = points.iter().map(|p| p.y.atan2(p.x)).collect();
    angles.sort_by(f64::total_cmp);
    let following = angles.iter().skip(1).copied();
    let around = angles.first().map(|a| a + core::f64::consts::TAU);
    angles
        .iter()
        .zip(following.chain(around))
        .any(|(a, b)| b - a > core::f64::consts::PI + 1e-9)
}
