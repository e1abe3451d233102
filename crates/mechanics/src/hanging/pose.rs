//! How a definite rig hangs: the public answer.

use super::rig::Rotation;
use plumbhook_units::{Force, HorizontalAngle, Length, Moment, VerticalAngle};

/// How a rig hangs at rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Pose {
    /// Each body, in the order of the rig.
    pub bodies: Vec<BodyPose>,
    /// Each leg, in the order of the rig.
    pub legs: Vec<LegPose>,
    /// Whether stretch of the legs was counted.
    pub stretch: Stretch,
    /// What is left over, checked against its bound before the pose is given.
    pub residual: Residual,
    /// Steps of the solver.
    pub iterations: u32,
}

/// Whether stretch of the legs was counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stretch {
    /// By the declared stiffness of each leg.
    Counted,
    /// Left out, because a leg has no declared stiffness.
    LeftOut,
}

/// Where one body is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BodyPose {
    /// Its turn. Where nothing holds it against a turn about the plumb line, the least turn is given.
    pub rotation: Rotation,
    /// Its origin, in the axes of the hooks.
    pub position: [Length; 3],
    /// Angle between its vertical in the attitude as declared and plumb.
    pub tilt: VerticalAngle,
    /// Height of the first hook above its origin.
    pub rise: Length,
    /// Its centre of gravity against the points that carry it.
    pub cg_height: CgHeight,
}

/// The height of a centre of gravity against the points of the legs that pull. Above them a body can roll over,
/// even where this pose is stable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CgHeight {
    /// Below all of them.
    BelowAll,
    /// Above at least one.
    AboveSome,
    /// Above all of them.
    AboveAll,
}

/// How one leg hangs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LegPose {
    /// Its tension; zero when slack.
    pub tension: Force,
    /// Whether it hangs slack.
    pub slack: bool,
    /// Its angle from the horizontal; `None` when slack.
    pub horizontal_angle: Option<HorizontalAngle>,
}

/// What is left over of equilibrium, largest over the bodies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// Force.
    pub force: Force,
    /// Moment about the centre of gravity.
    pub moment: Moment,
    /// Both as a share of the weight (the moment over the weight and a length that is typical of the rig); the larger.
    pub share_of_weight: f64,
}
