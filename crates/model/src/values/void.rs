//! A hole, a hatch or a cavity in a floor.

use super::place::PlanPlace;
use crate::declare::{Link, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_units::Kind;

/// A rectangle in plan by two opposite corners: `(12.0 m, 2.0 m) to (15.5 m, 9.0 m)`.
#[derive(Clone, Debug)]
pub struct Void {
    /// Two opposite corners.
    pub corners: [PlanPlace; 2],
}

impl Value for Void {
    const SHAPE: Shape = Shape {
        say: "a name and two opposite corners, as `pipe-gallery (12.0 m, 2.0 m) to (15.5 m, 9.0 m)`",
        kind: Some(Kind::Length),
        words: &["unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let a = PlanPlace::read_part(line)?;
        if !line.word("to") {
            return Err(line.broken("the opposite corner is missing here", "write `(…) to (…)`"));
        }
        let b = PlanPlace::read_part(line)?;
        Ok(Self { corners: [a, b] })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.extend(self.corners.iter().filter_map(PlanPlace::link));
    }
}
