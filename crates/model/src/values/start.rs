//! Where a move starts, where it does not start where another ended.

use super::height_of::HeightOf;
use super::place::PlanPlace;
use super::reference::StandName;
use super::stations::{Standing, Station, standing};
use crate::declare::{Link, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::Part;

/// `at (32.3 m, 5.4 m), underside EL 104.20 m`, or `at (31.0 m, 5.4 m), on cradle-1`: a station without a row.
#[derive(Clone, Debug)]
pub struct Start(pub Station);

const EXAMPLE: &str = "write `start at (32.3 m, 5.4 m), underside EL 104.20 m`";

impl Value for Start {
    const SHAPE: Shape = Shape {
        say: "a place and how high, as `at (32.3 m, 5.4 m), underside EL 104.20 m` or `at (31.0 m, 5.4 m), on cradle-1`",
        kind: None,
        words: &[
            "at",
            "underside",
            "lowest",
            "cg",
            "hook",
            "on",
            "above",
            "unknown",
        ],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        if !line.word("at") {
            return Err(line.broken("a start says its place first", EXAMPLE));
        }
        let at = PlanPlace::read_part(line)?;
        let place = line.here();
        if !line.comma() {
            return Err(line.broken("a start says how high too", EXAMPLE));
        }
        let height_origin = line.origin(line.here(), Part::Value);
        let of = HeightOf::ALL.into_iter().find(|of| line.word(of.column()));
        let (of, standing) = if let Some(of) = of {
            (of, standing(line, of)?)
        } else if line.word("on") {
            let stand = StandName::read_part(line)?;
            (HeightOf::Underside, Standing::On(stand))
        } else {
            return Err(line.broken_at(place, "a start says how high too", EXAMPLE));
        };
        Ok(Self(Station {
            origin: at.origin.clone(),
            at,
            of,
            standing,
            hold: None,
            height_origin,
        }))
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        self.0.links_to(out);
    }
}
