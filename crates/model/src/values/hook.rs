//! A hook of a machine: how high and low it bears, and where it reaches.

use super::axes::AXES;
use super::place::Level;
use super::quantity::Banded;
use crate::declare::{Link, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_units::{Kind, Length};

/// `bears-up-to EL 118.95 m, bears-down-to EL 98.0 m, reaches x 3.2 m .. 44.1 m, y 1.9 m .. 9.6 m`.
///
/// Heights are of the bearing of the hook. What is not given is `None`.
#[derive(Clone, Debug, Default)]
pub struct MachineHook {
    /// Highest level of the bearing.
    pub up: Option<Level>,
    /// Lowest level of the bearing.
    pub down: Option<Level>,
    /// Range of the hook in plan along x and y.
    pub reach: [Option<Banded<Length>>; 2],
}

impl Value for MachineHook {
    const SHAPE: Shape = Shape {
        say: "a name, and `bears-up-to EL 118.95 m, bears-down-to EL 98.0 m, reaches x 3.2 m .. 44.1 m, y 1.9 m .. 9.6 m`",
        kind: Some(Kind::Length),
        words: &["bears-up-to", "bears-down-to", "reaches"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let mut it = Self::default();
        loop {
            if line.word("bears-up-to") {
                it.up = known(line, Level::read_part)?;
            } else if line.word("bears-down-to") {
                it.down = known(line, Level::read_part)?;
            } else {
                line.word("reaches");
                let axis = AXES[..2].iter().position(|axis| line.word(axis));
                let Some(axis) = axis else {
                    return Err(line.broken("this label does not belong to a hook", ""));
                };
                it.reach[axis] = known(line, Banded::read_part)?;
            }
            if !line.comma() {
                return Ok(it);
            }
        }
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        let levels = [&self.up, &self.down].into_iter().flatten();
        out.extend(levels.map(|level| level.datum.link()));
    }
}

/// A part that says `unknown` is not given; anything else that fails breaks the line.
fn known<'s, 't, T>(
    line: &mut Cursor<'s, 't>,
    read: impl FnOnce(&mut Cursor<'s, 't>) -> Result<T, Fail>,
) -> Result<Option<T>, Fail> {
    match read(line) {
        Ok(value) => Ok(Some(value)),
        Err(Fail::Unknown) => {
            // Some readers leave the word: what follows it is the next part.
            line.word("unknown");
            Ok(None)
        }
        Err(broken) => Err(broken),
    }
}
