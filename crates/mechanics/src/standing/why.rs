//! Why pads have no shares, in words.

use super::MOST_PADS;
use crate::hanging::Axis;
use crate::plane::FARTHEST;
use core::fmt;
use plumbhook_units::{Amount, Length, Printer, Round};

/// Something that shares are computed from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Given {
    /// A pad, by its place in the list.
    Pad(usize),
    /// The band of the centre of gravity along one axis.
    Cg(Axis),
    /// The heading of the load.
    Heading,
    /// The origin of the load.
    Origin,
}

impl fmt::Display for Given {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Pad(pad) => write!(f, "the place of pad {}", pad + 1),
            Self::Cg(axis) => {
                let axis = format!("{axis:?}").to_lowercase();
                write!(f, "the centre of gravity along the load's {axis}")
            }
            Self::Heading => f.write_str("the heading of the load"),
            Self::Origin => f.write_str("the place of the load"),
        }
    }
}

/// Why the pads have no shares. Pads count from zero here and from one in the words.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoShare {
    /// Fewer than three pads.
    FewerThanThree {
        /// How many.
        given: usize,
    },
    /// More than [`MOST_PADS`].
    TooMany {
        /// How many.
        given: usize,
    },
    /// The pads stand in one line.
    PadsInLine,
    /// The centre of gravity may lie outside the line around the pads.
    Tips {
        /// How far, at the worst corner of its band.
        beyond: Length,
        /// That corner, in the frame of the pads.
        cg: [Length; 2],
    },
    /// A number is none, or a place lies more than 1,000 km from the origin.
    NotFinite {
        /// Which.
        given: Given,
    },
    /// A band has its low side above its high side.
    BandReversed {
        /// Of which coordinate of the centre of gravity.
        axis: Axis,
    },
}

impl fmt::Display for NoShare {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FewerThanThree { given } => {
                write!(f, "a load stands on three pads or more, and there are {given}")
            }
            Self::TooMany { given } => write!(
                f,
                "{given} pads are more than the {MOST_PADS} that are judged; group them"
            ),
            Self::PadsInLine => f.write_str(
                "the pads stand in one line, so the load can tip across it; set one pad aside of the line",
            ),
            Self::Tips { beyond, cg } => {
                let printer = Printer::default();
                let metric = |length, round| printer.metric(Amount::of(length), round);
                let [x, y] = cg.map(|c| metric(c, Round::Nearest));
                write!(
                    f,
                    "the load tips: its centre of gravity may be at ({x}, {y}), {} outside the line around \
                     the pads; set the pads further out, or know the centre of gravity better",
                    metric(*beyond, Round::Up)
                )
            }
            Self::NotFinite { given } => write!(
                f,
                "{given} is not a finite number within {:.0} km of the origin",
                FARTHEST / 1e3
            ),
            Self::BandReversed { axis } => write!(
                f,
                "{} has its low side above its high side",
                Given::Cg(*axis)
            ),
        }
    }
}

impl core::error::Error for NoShare {}
