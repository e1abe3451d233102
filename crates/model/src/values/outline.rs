//! The outline of a floor in plan.

use super::place::PlanPlace;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_units::{Kind, Measured};

/// Corners in order: `(0, 0) (46 m, 0) (46 m, 11.4 m) (0, 11.4 m)`.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline(pub Vec<PlanPlace>);

impl Outline {
    /// The corners in metres.
    pub fn metres(&self) -> Vec<[f64; 2]> {
        self.0
            .iter()
            .map(|corner| [corner.x.si(), corner.y.si()])
            .collect()
    }
}

impl Value for Outline {
    const SHAPE: Shape = Shape {
        say: "the corners in order, as `(0, 0) (46 m, 0) (46 m, 11.4 m) (0, 11.4 m)`",
        kind: Some(Kind::Length),
        words: &["unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let mut corners = vec![PlanPlace::read_part(line)?];
        while !line.done() {
            line.comma();
            corners.push(PlanPlace::read_part(line)?);
        }
        if corners.len() < 3 {
            return Err(line.broken("an outline has three corners or more", ""));
        }
        Ok(Self(corners))
    }
}
