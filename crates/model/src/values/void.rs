//! A hole, a hatch or a cavity in a floor.

use super::place::PlanPlace;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_units::{Kind, Measured};

/// A rectangle in plan by two opposite corners: `(12.0 m, 2.0 m) to (15.5 m, 9.0 m)`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Void {
    /// Smaller x and y.
    pub low: PlanPlace,
    /// Larger x and y.
    pub high: PlanPlace,
}

impl Void {
    /// Its corners in metres, in order.
    pub fn metres(&self) -> [[f64; 2]; 4] {
        let (x0, y0) = (self.low.x.si(), self.low.y.si());
        let (x1, y1) = (self.high.x.si(), self.high.y.si());
        [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]
    }
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
        let pick = |less: bool| {
            let of = |p, q| if (p < q) == less { p } else { q };
            PlanPlace {
                x: of(a.x, b.x),
                y: of(a.y, b.y),
            }
        };
        Ok(Self {
            low: pick(true),
            high: pick(false),
        })
    }
}
