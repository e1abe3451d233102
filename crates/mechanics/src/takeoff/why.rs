//! Why a take-off has no answer.

use crate::plan::PolygonFault;
use core::fmt;

/// What is wrong with a solid or with how solids are put together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// A dimension is not a finite number above zero, at its low end too.
    NotPositive {
        /// Which.
        what: &'static str,
    },
    /// The inside may be as large as the outside.
    NoWall,
    /// The corners make no outline.
    Outline(PolygonFault),
    /// A place is not a finite number.
    NoPlace,
    /// A solid without a density that needs one, or the other way round.
    Density,
    /// The holes may take as much as the part has.
    OnlyHoles,
    /// A hole is cut from a part that is given by its mass.
    HoleInLump,
    /// What is left out may be less than nothing.
    LeftOut,
    /// There is no part.
    Empty,
}

/// Why a take-off has no answer, and the part that is to blame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoTakeOff {
    /// Index of the part; `None` where it is no single one.
    pub part: Option<usize>,
    /// Index of the hole in it.
    pub hole: Option<usize>,
    /// What is wrong.
    pub fault: Fault,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotPositive { what } => {
                write!(
                    f,
                    "{what} must be above zero, at the low end of its tolerance too"
                )
            }
            Self::NoWall => f.write_str(
                "the inside diameter may be as large as the outside one, and then there is no wall",
            ),
            Self::Outline(why) => why.fmt(f),
            Self::NoPlace => f.write_str("its place is not a finite number"),
            Self::Density => {
                f.write_str("a solid by its size takes a density, and one by its mass takes none")
            }
            Self::OnlyHoles => {
                f.write_str("its holes may take away as much as there is; mend a size")
            }
            Self::HoleInLump => {
                f.write_str("a part that is given by its mass has its holes left out already")
            }
            Self::LeftOut => f.write_str("what is left out is a share of the mass, zero or more"),
            Self::Empty => f.write_str("there is no part"),
        }
    }
}

impl fmt::Display for NoTakeOff {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.part, self.hole) {
            (Some(part), Some(hole)) => {
                write!(f, "part {}, hole {}: {}", part + 1, hole + 1, self.fault)
            }
            (Some(part), None) => write!(f, "part {}: {}", part + 1, self.fault),
            _ => self.fault.fmt(f),
        }
    }
}

impl core::error::Error for NoTakeOff {}
