//! A part of a machine: its mass, and where its centre of gravity is in plan.

use super::quantity::Banded;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_units::{Kind, Length, Mass};

/// `20 t +/- 2 %, x -3.50 m +/- 50 mm, y 0 +/- 20 mm`.
#[derive(Clone, Copy, Debug)]
pub struct PartWeighs {
    /// Its mass.
    pub mass: Banded<Mass>,
    /// Its centre of gravity along x and y, from the centre of slewing.
    pub at: [Banded<Length>; 2],
}

impl Value for PartWeighs {
    const SHAPE: Shape = Shape {
        say: "its mass and its centre of gravity from the centre of slewing, as `20 t +/- 2 %, x -3.50 m +/- 50 mm, y 0 +/- 20 mm`",
        kind: Some(Kind::Mass),
        words: &["x", "y", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let mass = Banded::read_part(line)?;
        Ok(Self {
            mass,
            at: [along(line, "x")?, along(line, "y")?],
        })
    }
}

fn along(line: &mut Cursor<'_, '_>, axis: &str) -> Result<Banded<Length>, Fail> {
    if line.comma() && line.word(axis) {
        return Banded::read_part(line);
    }
    let say = format!("where it is along {axis} is missing here");
    Err(line.broken(say, "as `, x -3.50 m +/- 50 mm, y 0 +/- 20 mm`"))
}
