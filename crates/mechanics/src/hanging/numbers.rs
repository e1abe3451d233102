//! One rigid body under one hook, in plain numbers (N, m, N/m, rad), for the loops that solve it.
//!
//! All legs meet in the hook. What they store depends only on where the hook is *in the body's own
//! frame*, and the free body turns until its centre of gravity hangs plumb below the hook. So six
//! degrees of freedom become three, the hook's position `h` in the body's frame:
//!
//! ```text
//! V(h) = -W |h - c| + 1/2 sum k_i max(0, |h - p_i| - L_i)^2
//! ```
//!
//! with `W` weight, `c` centre of gravity, `p_i` lifting points, `L_i` unstretched lengths, `k_i`
//! stiffnesses. The turn of everything about the plumb line through the hook changes nothing and drops
//! out. `v = (h - c) / |h - c|` is the plumb direction as the body sees it.

use nalgebra::{Matrix3, Vector3};

/// A point or a direction in the body's own frame, m or none.
pub(crate) type V3 = Vector3<f64>;
/// A three by three matrix.
pub(crate) type M3 = Matrix3<f64>;

/// A definite rig of one body under one hook.
#[derive(Clone, Debug)]
pub(crate) struct OneHook {
    /// Weight, N.
    pub(crate) weight: f64,
    /// Centre of gravity, m.
    pub(crate) cg: V3,
    /// Plumb up in the attitude as declared, in the body's frame, of length one.
    pub(crate) up: V3,
    /// Lifting points, m.
    pub(crate) points: Vec<V3>,
    /// Unstretched lengths, m.
    pub(crate) length: Vec<f64>,
    /// Stiffness of each leg, N/m; empty when stretch is left out.
    pub(crate) stiffness: Vec<f64>,
}

impl OneHook {
    /// Number of legs.
    pub(crate) fn legs(&self) -> usize {
        self.points.len()
    }

    /// Distance from the centre of gravity to the hook and the direction, or none if they coincide.
    pub(crate) fn plumb(&self, hook: &V3) -> Option<(f64, V3)> {
        direction(&self.cg, hook)
    }

    /// Legs as (index, point, length), for loops.
    pub(crate) fn each_leg(&self) -> impl Iterator<Item = (usize, &V3, f64)> {
        self.points
            .iter()
            .zip(&self.length)
            .enumerate()
            .map(|(i, (p, l))| (i, p, *l))
    }

    /// A length that is typical of the rig: the longest leg.
    pub(crate) fn scale(&self) -> f64 {
        self.length.iter().copied().fold(0.0, f64::max)
    }
}

/// Distance between two points and the direction from the first to the second; none if they coincide.
pub(crate) fn direction(from: &V3, to: &V3) -> Option<(f64, V3)> {
    let along = to - from;
    let distance = along.norm();
    (distance > 1e-9).then(|| (distance, along / distance))
}

/// What is left of a vector across a direction: the matrix `I - u u'`.
pub(crate) fn across(u: &V3) -> M3 {
    M3::identity() - u * u.transpose()
}

/// How the body is found: the hook in its frame, and what each leg carries.
#[derive(Clone, Debug)]
pub(crate) struct Hung {
    /// The hook in the body's frame, m.
    pub(crate) hook: V3,
    /// Tension of each leg, N; exactly zero when slack.
    pub(crate) tension: Vec<f64>,
    /// Steps that the solver took.
    pub(crate) iterations: u32,
}

/// Why plain numbers gave no pose.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Fault {
    /// The force left over, as a share of the weight, is above the bound.
    NotConverged {
        /// Force left over divided by weight.
        left_over: f64,
    },
    /// The pose is in equilibrium and leaves it at the least touch.
    Unstable,
    /// The pose is in equilibrium at any of several attitudes.
    Neutral,
    /// The body turns further than the limit from the attitude as declared.
    TurnsOver {
        /// Turn found, rad.
        tilt: f64,
    },
    /// The hook is not above the point of this pulling leg.
    HookBelow {
        /// Index of the leg.
        leg: usize,
    },
    /// The legs cannot meet in one hook.
    CannotMeet,
    /// These legs would have to push.
    Pushes {
        /// Indices of the legs.
        legs: Vec<usize>,
    },
    /// Leg forces have no single answer without stiffness.
    Indeterminate,
}

/// Angle between two directions, rad.
pub(crate) fn angle_between(a: &V3, b: &V3) -> f64 {
    a.cross(b).norm().atan2(a.dot(b))
}

/// The least turn that brings direction `v` onto direction `up`; none when they are opposite.
pub(crate) fn least_turn(v: &V3, up: &V3) -> Option<M3> {
    let cosine = v.dot(up);
    if cosine <= -1.0 + 1e-12 {
        return None;
    }
    let w = v.cross(up).cross_matrix();
    Some(M3::identity() + w + w * w / (1.0 + cosine))
}
