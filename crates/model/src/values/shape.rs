//! The outside of a body, in its own frame.

use super::axes::AXES;
use super::quantity::Banded;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_units::{Kind, Length, Measured};

/// `disc, outside 3.45 m, z 0 .. 1.62 m` or `box, x -1 m .. 1 m, y -2 m .. 2 m, z 0 .. 1.6 m`.
///
/// The outside is taken as drawn; it has no band of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BodyShape {
    /// Lowest coordinate along x, y, z.
    pub low: [Length; 3],
    /// Highest coordinate along x, y, z.
    pub high: [Length; 3],
    /// Whether it is round about z.
    pub round: bool,
}

impl BodyShape {
    /// The largest distance of any part from the frame's z axis.
    pub fn reach(&self) -> Length {
        if self.round {
            return self.high[0];
        }
        let far = |axis: usize| self.low[axis].abs().max(self.high[axis].abs()).si();
        Length::from_si(far(0).hypot(far(1)))
    }
}

impl Value for BodyShape {
    const SHAPE: Shape = Shape {
        say: "the outside in its own frame, as `disc, outside 3.45 m, z 0 .. 1.62 m` or `box, x -1 m .. 1 m, y -2 m .. 2 m, z 0 .. 1.6 m`",
        kind: Some(Kind::Length),
        words: &["disc", "box", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let round = line.word("disc");
        if !round && !line.word("box") {
            return Err(line.broken("a shape is a `disc` or a `box`", ""));
        }
        let zero = Length::from_si(0.0);
        let (mut low, mut high) = ([zero; 3], [zero; 3]);
        let mut given = [false; 3];
        while line.comma() {
            if round && line.word("outside") {
                let Some(outside) = Banded::<Length>::read_part(line)?.nominal else {
                    return Err(line.broken("one length is wanted here", ""));
                };
                for axis in 0..2 {
                    (low[axis], high[axis]) = (-outside / 2.0, outside / 2.0);
                    given[axis] = true;
                }
                continue;
            }
            let axis = AXES.iter().position(|axis| line.word(axis));
            let Some(axis) = axis.filter(|axis| *axis == 2 || !round) else {
                return Err(line.broken("this label does not belong to the shape", ""));
            };
            let range = Banded::<Length>::read_part(line)?;
            let (Some(from), Some(to)) = (range.lo, range.hi) else {
                return Err(line.broken("an axis of a shape is a range, as `z 0 .. 1.62 m`", ""));
            };
            (low[axis], high[axis], given[axis]) = (from, to, true);
        }
        match given.iter().position(|given| !given) {
            None => Ok(Self { low, high, round }),
            Some(axis) => Err(line.broken(
                format!("`{}` of the shape is missing", AXES[axis]),
                "as `disc, outside 3.45 m, z 0 .. 1.62 m`",
            )),
        }
    }
}
