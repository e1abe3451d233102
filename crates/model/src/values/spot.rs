//! A named place inside an entry.

use super::place::{Level, PlanPlace};
use crate::declare::{Link, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_units::Kind;

/// `(32.3 m, 5.4 m)`, or with its level: `(32.3 m, 5.4 m), EL 104.20 m`.
#[derive(Clone, Debug)]
pub struct NamedSpot {
    /// Where it is in plan.
    pub at: PlanPlace,
    /// How high it is, where that is said.
    pub level: Option<Level>,
}

impl Value for NamedSpot {
    const SHAPE: Shape = Shape {
        say: "a name and a place in plan, as `pit (32.3 m, 5.4 m)`, or with its level, as `pit A/1, EL 104.20 m`",
        kind: Some(Kind::Length),
        words: &["unknown"],
        role: Some(crate::declare::Role::Spot),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let at = PlanPlace::read_part(line)?;
        let level = line.comma().then(|| Level::read_part(line)).transpose()?;
        Ok(Self { at, level })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.extend(self.at.link());
        out.extend(self.level.as_ref().map(|level| level.datum.link()));
    }
}
