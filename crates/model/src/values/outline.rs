//! The outline of a floor in plan.

use super::place::PlanPlace;
use crate::declare::{Link, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_mechanics::plan::Polygon;
use plumbhook_units::Kind;

/// Corners in order: `(0, 0) (46 m, 0) (46 m, 11.4 m) (0, 11.4 m)`, or `A/1 H/1 H/4 A/4`.
#[derive(Clone, Debug)]
pub struct Outline(pub Vec<PlanPlace>);

impl Value for Outline {
    const SHAPE: Shape = Shape {
        say: "the corners in order, as `(0, 0) (46 m, 0) (46 m, 11.4 m) (0, 11.4 m)` or `A/1 H/1 H/4 A/4`",
        kind: Some(Kind::Length),
        words: &["unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let first = line.peek().map(|item| item.place);
        let mut corners = vec![PlanPlace::read_part(line)?];
        while !line.done() {
            line.comma();
            corners.push(PlanPlace::read_part(line)?);
        }
        if corners.len() < 3 {
            return Err(line.broken("an outline has three corners or more", ""));
        }
        // One that names grid lines is drawn where the grid is known.
        if corners.iter().all(PlanPlace::is_bare) {
            let places: Vec<_> = corners
                .iter()
                .map(|corner| corner.offset.map(|(at, _)| at))
                .collect();
            if let (Err(why), Some(first)) = (Polygon::new(&places), first) {
                return Err(line.broken_at(first, why.to_string(), ""));
            }
        }
        Ok(Self(corners))
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.extend(self.0.iter().filter_map(PlanPlace::link));
    }
}
