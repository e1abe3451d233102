//! Why a rig has no pose: what is wrong, where, by how much, what would mend it.

use super::rig::{Axis, Input};
use super::worst::CornerInput;
use core::fmt;
use plumbhook_units::{Length, Measured, VerticalAngle};

/// Why there is no pose to give. Places in lists count from zero here and from one in the words.
#[derive(Clone, Debug, PartialEq)]
pub enum NoPose {
    /// The solver does not do this yet.
    Unsupported {
        /// What.
        what: &'static str,
    },
    /// A list is empty: bodies, hooks or legs.
    Empty {
        /// Which list.
        what: &'static str,
    },
    /// A leg ends on a hook or a body that is not in its list, or on the same thing twice.
    WrongEnds {
        /// The leg.
        leg: usize,
    },
    /// A body that no leg carries.
    NotCarried {
        /// The body.
        body: usize,
    },
    /// An input is not a finite number.
    NotFinite {
        /// The input; `None` for the position of a hook or a lifting point.
        input: Option<Input>,
    },
    /// An input that must be above zero is not.
    NotPositive {
        /// The input.
        input: Input,
    },
    /// The low side of a band lies above its high side.
    BandReversed {
        /// The input.
        input: Input,
    },
    /// Two legs together are shorter than the distance that they should span.
    LegsTooShort {
        /// One leg.
        first: usize,
        /// The other.
        second: usize,
        /// What is missing.
        missing: Length,
    },
    /// No hook place is within the lengths of these legs.
    CannotMeet,
    /// The hook is not above the point that this pulling leg is made fast to.
    HookBelowPoint {
        /// The leg.
        leg: usize,
    },
    /// Equilibrium would need these legs to push.
    Pushes {
        /// The legs.
        legs: Vec<usize>,
        /// What about the centre of gravity makes them push.
        because: CgFault,
    },
    /// The body is balanced and turns over at the least touch.
    Unstable {
        /// What about the centre of gravity makes it so.
        because: CgFault,
    },
    /// The body stays in any of many attitudes: nothing says how it will hang.
    Neutral {
        /// What about the centre of gravity makes it so.
        because: CgFault,
    },
    /// The body turns further from its attitude as declared than a lift can mean.
    TurnsOver {
        /// The turn at rest; from the start to the end of the way down.
        tilt: VerticalAngle,
        /// What about the centre of gravity makes it so.
        because: CgFault,
    },
    /// Without stiffness the share of these legs has no single answer; the worst over all sharings has.
    Indeterminate,
    /// What is left over of forces or moments is too large to call it a pose.
    NotConverged {
        /// What is left over, as a share of the weight.
        left_over: f64,
        /// The bound for it.
        bound: f64,
    },
    /// There is a place inside the bands with no pose.
    InsideBands {
        /// Where.
        at: Vec<CornerInput>,
        /// Why there.
        why: Box<NoPose>,
    },
}

/// What about the centre of gravity is wrong, seen in the attitude as declared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CgFault {
    /// In plan it lies outside the lifting points.
    Outside,
    /// It lies above the lifting points.
    Above,
    /// Neither; the lengths of the legs do it.
    Neither,
}

impl fmt::Display for CgFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Outside => {
                "the centre of gravity lies outside the lifting points in plan; \
                 points on both sides of it would hold it"
            }
            Self::Above => {
                "the centre of gravity lies above the lifting points; \
                 points above it would hold it"
            }
            Self::Neither => "the lengths of the legs do not hold it level; check them",
        })
    }
}

impl fmt::Display for Input {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Mass { body } => write!(f, "mass of body {}", body + 1),
            Self::Cg { body, axis } => {
                let axis = match axis {
                    Axis::X => "x",
                    Axis::Y => "y",
                    Axis::Z => "z",
                };
                write!(f, "centre of gravity {axis} of body {}", body + 1)
            }
            Self::Length { leg } => write!(f, "length of leg {}", leg + 1),
            Self::Stiffness { leg } => write!(f, "stiffness of leg {}", leg + 1),
        }
    }
}

fn list(legs: &[usize]) -> String {
    let names: Vec<String> = legs.iter().map(|l| (l + 1).to_string()).collect();
    names.join(", ")
}

impl fmt::Display for NoPose {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unsupported { what } => write!(f, "not solved yet: {what}"),
            Self::Empty { what } => write!(f, "the rig has no {what}"),
            Self::WrongEnds { leg } => write!(
                f,
                "leg {} does not run between two things of the rig; name a hook and a point of a body",
                leg + 1
            ),
            Self::NotCarried { body } => write!(f, "no leg carries body {}", body + 1),
            Self::NotFinite { input: Some(input) } => write!(f, "{input} is not a finite number"),
            Self::NotFinite { input: None } => {
                f.write_str("a position of the rig is not a finite number")
            }
            Self::NotPositive { input } => write!(f, "{input} must be above zero"),
            Self::BandReversed { input } => {
                write!(f, "{input} has its low side above its high side")
            }
            Self::LegsTooShort {
                first,
                second,
                missing,
            } => write!(
                f,
                "legs {} and {} cannot meet in one hook: together they are {:.0} mm too short",
                first + 1,
                second + 1,
                (missing.si() * 1e3).ceil()
            ),
            Self::CannotMeet => {
                f.write_str("no hook place is within the lengths of all these legs; check lengths and points")
            }
            Self::HookBelowPoint { leg } => write!(
                f,
                "the hook is not above the point of leg {}: the leg would pull down",
                leg + 1
            ),
            Self::Pushes { legs, because } => {
                write!(f, "leg {} would have to push: {because}", list(legs))
            }
            Self::Unstable { because } => {
                write!(f, "balanced but unstable, it can roll over: {because}")
            }
            Self::Neutral { because } => {
                write!(f, "nothing says in which attitude it hangs: {because}")
            }
            Self::TurnsOver { tilt, because } => write!(
                f,
                "it turns by {:.0} deg from its attitude as declared: {because}",
                tilt.si().to_degrees()
            ),
            Self::Indeterminate => f.write_str(
                "the share of the legs depends on their stiffness; declare it, or judge by the worst sharing",
            ),
            Self::NotConverged { left_over, bound } => write!(
                f,
                "no pose found: {left_over:.1e} of the weight is left over where {bound:.0e} is the bound"
            ),
            Self::InsideBands { at, why } => {
                let places: Vec<String> = at.iter().map(ToString::to_string).collect();
                write!(f, "inside the bands, at {}: {why}", places.join(", "))
            }
        }
    }
}

impl core::error::Error for NoPose {}
