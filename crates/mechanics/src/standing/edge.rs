//! Highest pressure under a stiff pad whose force stands off its middle. No rule uses it yet.

use super::NoPressure;
use core::fmt;
use nalgebra::{Matrix3, Vector3};
use plumbhook_sheet::{Basis, Trail, step};
use plumbhook_units::{Amount, Force, Length, Measured, Pressure, Printer, Ratio, Round};

/// What bears under a pad whose force stands off its middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgePressure {
    /// The pressure where it is highest: at a corner of the pad, or along an edge.
    pub highest: Pressure,
    /// The part of the face that bears, above 0 to 1; the rest has lifted off.
    pub bearing: Ratio,
}

/// Why there is no edge pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoEdgePressure {
    /// The pad or the force is none.
    Pad(NoPressure),
    /// The force stands at the edge of the pad, beyond it, or nowhere finite: the pad tips.
    Tips {
        /// How far the force stands off the middle, along each side.
        off: [Length; 2],
        /// The farthest that is judged.
        most: [Length; 2],
    },
    /// The search for the part that bears did not settle: our bug, never an answer.
    NotSettled,
}

impl fmt::Display for NoEdgePressure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Pad(why) => why.fmt(f),
            Self::Tips { off, most } => {
                let say = |sides: &[Length; 2]| {
                    sides.map(|side| Printer::default().metric(Amount::of(side), Round::Nearest))
                };
                let ([x, y], [most_x, most_y]) = (say(off), say(most));
                write!(
                    f,
                    "the force stands {x} and {y} off the middle of the pad, and beyond {most_x} or {most_y} the pad \
                     tips about its edge; set it nearer the middle or give it a larger pad"
                )
            }
            Self::NotSettled => {
                f.write_str("the part of the pad that bears was not found: a bug of ours")
            }
        }
    }
}

impl core::error::Error for NoEdgePressure {}

/// As a share of the side: nearer the edge than this nothing of the pad is left that bears.
const FARTHEST: f64 = 0.49;

/// Relative; far above rounding, far below any tolerance.
const SETTLED: f64 = 1e-11;

/// Relative; what rounding makes of the function that is lessened must not shorten the last steps.
const ROUNDING: f64 = 1e-12;

/// Corners of the pad in shares of its sides.
const CORNERS: [[f64; 2]; 4] = [[-0.5, -0.5], [0.5, -0.5], [0.5, 0.5], [-0.5, 0.5]];

/// Highest pressure under a stiff rectangular pad on ground that gives evenly and cannot pull, `p = k F / (l b)`.
///
/// `force`: all that the pad presses down with, its own weight included. `size`: the sides `l` and `b` of the face that
/// bears. `off`: how far the force stands off the middle along `l` and along `b`, either sign, up to 49 % of the side.
///
/// The pressure varies linearly over the part that bears, is zero where the pad has lifted off, and balances the force
/// and its moments about both axes; `k` follows from that. With the force inside the middle third both ways the whole
/// face bears and `k = 1 + 6 |off_l| / l + 6 |off_b| / b`. Holds for a pad that is stiff against what it stands on; a
/// pad that bends presses more under the force, and for it this is no bound.
///
/// # Errors
/// [`NoEdgePressure`].
pub fn edge_pressure<T: Trail>(
    force: Force,
    size: [Length; 2],
    off: [Length; 2],
    trail: &mut T,
) -> Result<EdgePressure, NoEdgePressure> {
    if !size
        .iter()
        .all(|side| side.si().is_finite() && side.si() > 0.0)
    {
        return Err(NoEdgePressure::Pad(NoPressure::NoSize { size }));
    }
    if !(force.si().is_finite() && force.si() >= 0.0) {
        return Err(NoEdgePressure::Pad(NoPressure::NoPush { force }));
    }
    let [pad_length, pad_width] = size;
    let [along, across] = off;
    let at = [along.si() / pad_length.si(), across.si() / pad_width.si()];
    if !at.iter().all(|share| share.abs() <= FARTHEST) {
        let most = size.map(|side| Length::from_si(FARTHEST * side.si()));
        return Err(NoEdgePressure::Tips { off, most });
    }
    let plane = settle(at).ok_or(NoEdgePressure::NotSettled)?;
    let highest = CORNERS
        .iter()
        .map(|corner| pressure(&plane, *corner))
        .fold(0.0, f64::max);
    let edge_factor = Ratio::from_si(highest);
    step!(
        trail,
        Basis::STATICS,
        [edge_factor, force, pad_length, pad_width],
        edge_pressure = edge_factor * force / (pad_length * pad_width)
    );
    Ok(EdgePressure {
        highest: edge_pressure,
        bearing: Ratio::from_si(moments(&bearing(&plane)).m11.min(1.0)),
    })
}

/// Pressure at a place, in shares of the mean over the whole face; below zero where the pad has lifted off.
fn pressure(plane: &Vector3<f64>, [x, y]: [f64; 2]) -> f64 {
    plane.dot(&Vector3::new(1.0, x, y))
}

/// The plane of pressure that balances a force of one at this place, all lengths in shares of the sides.
///
/// It is the least of a convex function: half of the squared pressure over the part that bears, less the work of the
/// force. Newton's steps, each shortened until the function falls.
fn settle(at: [f64; 2]) -> Option<Vector3<f64>> {
    let [x, y] = at;
    let load = Vector3::new(1.0, x, y);
    let energy = |plane: &Vector3<f64>| {
        let stiff = moments(&bearing(plane));
        plane.dot(&(stiff * plane)) / 2.0 - plane.dot(&load)
    };
    let mut plane = Vector3::new(1.0, 0.0, 0.0);
    for _ in 0..200 {
        let stiff = moments(&bearing(&plane));
        if (stiff * plane - load).amax() <= SETTLED {
            return Some(plane);
        }
        let step = stiff.lu().solve(&load)? - plane;
        let now = energy(&plane);
        let ceiling = now + ROUNDING * now.abs();
        let mut length = 1.0;
        while length > 1e-12 && energy(&(plane + step * length)) > ceiling {
            length /= 2.0;
        }
        plane += step * length;
    }
    None
}

/// The part of the pad where the plane presses.
fn bearing(plane: &Vector3<f64>) -> Vec<[f64; 2]> {
    let mut kept = Vec::new();
    for (a, b) in CORNERS.iter().zip(CORNERS.iter().cycle().skip(1)) {
        let (pa, pb) = (pressure(plane, *a), pressure(plane, *b));
        if pa >= 0.0 {
            kept.push(*a);
        }
        if pa * pb < 0.0 {
            let share = pa / (pa - pb);
            let ([ax, ay], [bx, by]) = (*a, *b);
            kept.push([ax + share * (bx - ax), ay + share * (by - ay)]);
        }
    }
    kept
}

/// Integrals of the products of `1, x, y` over a polygon without notches: exact, triangle by triangle.
fn moments(polygon: &[[f64; 2]]) -> Matrix3<f64> {
    let mut whole = Matrix3::zeros();
    let [first, rest @ ..] = polygon else {
        return whole;
    };
    for pair in rest.windows(2) {
        let [second, third] = pair else { continue };
        let corners = [first, second, third].map(|[x, y]| Vector3::new(1.0, *x, *y));
        let [a, b, c] = corners;
        let area = Matrix3::from_columns(&corners).determinant() / 2.0;
        let sum = a + b + c;
        let squares =
            sum * sum.transpose() + a * a.transpose() + b * b.transpose() + c * c.transpose();
        whole += squares * (area / 12.0);
    }
    whole
}
