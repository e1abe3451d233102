//! Why a rig has no pose: what is wrong, where, by how much, what would mend it.

use super::rig::{Axis, Input};
use super::worst::{BandEnd, CornerInput};
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

/// Sides of bands beyond these are counted, not named.
const SIDES_TOLD: usize = 4;

/// What the bodies and the legs of a rig are called, for people who know them by other names than their number.
pub trait Names {
    /// The name of a body, by its place in the list: "the load".
    fn body(&self, body: usize) -> String;
    /// The name of a leg, by its place in the list, as it stands behind "leg": "A".
    fn leg(&self, leg: usize) -> String;
}

/// Each by its number, from one.
#[derive(Clone, Copy, Debug)]
struct Numbers;

impl Names for Numbers {
    fn body(&self, body: usize) -> String {
        format!("body {}", body + 1)
    }

    fn leg(&self, leg: usize) -> String {
        (leg + 1).to_string()
    }
}

impl Input {
    /// Which it is, by these names.
    pub fn told(self, names: &dyn Names) -> String {
        match self {
            Self::Mass { body } => format!("mass of {}", names.body(body)),
            Self::Cg { body, axis } => {
                let axis = match axis {
                    Axis::X => "x",
                    Axis::Y => "y",
                    Axis::Z => "z",
                };
                format!("centre of gravity {axis} of {}", names.body(body))
            }
            Self::Length { leg } => format!("length of leg {}", names.leg(leg)),
            Self::Stiffness { leg } => format!("stiffness of leg {}", names.leg(leg)),
        }
    }
}

impl fmt::Display for Input {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told(&Numbers))
    }
}

/// "leg A", "legs A, B".
fn list(legs: &[usize], names: &dyn Names) -> String {
    let each: Vec<String> = legs.iter().map(|leg| names.leg(*leg)).collect();
    let word = if legs.len() == 1 { "leg" } else { "legs" };
    format!("{word} {}", each.join(", "))
}

/// ", at mass of runner at its low side and 3 more": those that stand at a side, the one that moves most first.
fn sides(at: &[CornerInput], names: &dyn Names) -> String {
    let at_side = at.iter().filter(|input| input.end != BandEnd::Inside);
    let all: Vec<String> = at_side.map(|input| input.told(names)).collect();
    let shown = all.iter().take(SIDES_TOLD);
    let shown: Vec<&str> = shown.map(|side| &**side).collect();
    match (shown.is_empty(), all.len() - shown.len()) {
        (true, _) => String::new(),
        (_, 0) => format!(", at {}", shown.join(", ")),
        (_, more) => format!(", at {} and {more} more", shown.join(", ")),
    }
}

impl NoPose {
    /// Why there is none, by these names.
    pub fn told(&self, names: &dyn Names) -> String {
        match self {
            Self::Unsupported { what } => format!("not solved yet: {what}"),
            Self::Empty { what } => format!("the rig has no {what}"),
            Self::WrongEnds { leg } => format!(
                "leg {} does not run between two things of the rig; name a hook and a point of a body",
                names.leg(*leg)
            ),
            Self::NotCarried { body } => format!("no leg carries {}", names.body(*body)),
            Self::NotFinite { .. } | Self::NotPositive { .. } | Self::BandReversed { .. } => {
                self.of_input(names)
            }
            Self::LegsTooShort { first, second, missing } => format!(
                "legs {} and {} cannot meet in one hook: together they are {:.0} mm too short",
                names.leg(*first),
                names.leg(*second),
                (missing.si() * 1e3).ceil()
            ),
            Self::CannotMeet => "no hook place is within the lengths of all these legs; check lengths and points".into(),
            Self::HookBelowPoint { leg } => format!(
                "the hook is not above the point of leg {}: the leg would pull down",
                names.leg(*leg)
            ),
            Self::Pushes { legs, because } => {
                format!("{} would have to push: {because}", list(legs, names))
            }
            Self::Unstable { because } => {
                format!("balanced but unstable, it can roll over: {because}")
            }
            Self::Neutral { because } => {
                format!("nothing says in which attitude it hangs: {because}")
            }
            Self::TurnsOver { tilt, because } => format!(
                "it turns by {:.0} deg from its attitude as declared: {because}",
                tilt.si().to_degrees()
            ),
            Self::Indeterminate => "the share of the legs depends on their stiffness; declare it, or judge by the worst sharing".into(),
            Self::NotConverged { left_over, bound } => format!(
                "no pose found: {left_over:.1e} of the weight is left over where {bound:.0e} is the bound"
            ),
            Self::InsideBands { at, why } => {
                format!("inside the bands{}: {}", sides(at, names), why.told(names))
            }
        }
    }

    /// What is wrong with one number of the rig; empty where that is not the reason.
    fn of_input(&self, names: &dyn Names) -> String {
        match self {
            Self::NotFinite { input: Some(input) } => {
                format!("{} is not a finite number", input.told(names))
            }
            Self::NotFinite { input: None } => {
                "a position of the rig is not a finite number".into()
            }
            Self::NotPositive { input } => format!("{} must be above zero", input.told(names)),
            Self::BandReversed { input } => {
                format!("{} has its low side above its high side", input.told(names))
            }
            _ => String::new(),
        }
    }
}

impl fmt::Display for NoPose {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told(&Numbers))
    }
}

impl core::error::Error for NoPose {}
