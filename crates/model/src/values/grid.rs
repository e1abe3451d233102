//! Grid lines of a plant.

use super::axes::AXES;
use super::points::names;
use super::quantity::Banded;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::{Origin, Part};
use plumbhook_units::{Kind, Length};

/// Lines across one axis: `A .. H at x 0, 6.10 m, 12.20 m`, or one: `A at x 0`.
///
/// A coordinate is as the plant's frame is laid out, and exact; with a tolerance, or from a source with an accuracy,
/// it is known only so well.
#[derive(Clone, Debug)]
pub struct GridLines {
    /// 0 where they stand along x, 1 along y.
    pub axis: usize,
    /// Each line in order.
    pub lines: Vec<GridLine>,
}

/// One grid line.
#[derive(Clone, Debug)]
pub struct GridLine {
    /// Its name.
    pub name: Box<str>,
    /// Where it stands along its axis.
    pub at: Banded<Length>,
    /// Where its name stands.
    pub origin: Origin,
}

impl Value for GridLines {
    const SHAPE: Shape = Shape {
        say: "names in order and where each stands along one axis, as `A .. C at x 0, 6.10 m, 12.20 m`",
        kind: Some(Kind::Length),
        words: &["at x", "at y", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let names = names(line)?;
        if !line.word("at") {
            return Err(line.broken("where the lines stand is missing here", "write `at x …`"));
        }
        let Some(axis) = AXES[..2].iter().position(|axis| line.word(axis)) else {
            return Err(line.broken("a grid line stands along `x` or `y`", "write `at x …`"));
        };
        let mut at = Vec::with_capacity(names.len());
        loop {
            at.push(Banded::<Length>::read_part(line)?);
            if !line.comma() {
                break;
            }
        }
        if at.len() != names.len() {
            return Err(line.broken(
                format!(
                    "{} grid lines are named here, and {} coordinates are given",
                    names.len(),
                    at.len()
                ),
                "give each line its coordinate, in the order of the names",
            ));
        }
        let lines = names
            .into_iter()
            .zip(at)
            .enumerate()
            .map(|(index, ((name, mut origin), at))| {
                // Each line of a range is a place of its own: what is not known of one says nothing of the next.
                origin.part = Part::Member(u16::try_from(index).unwrap_or(u16::MAX));
                GridLine { name, at, origin }
            })
            .collect();
        Ok(Self { axis, lines })
    }
}
