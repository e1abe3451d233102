//! Places in plan and levels, as they are written. What they come to in the plant's frame is asked for
//! ([`crate::Ask::place`]): only a case sees the plant with its grid lines and datums.

use super::number::amount;
use super::quantity::Banded;
use super::reference::{DatumName, GridName, PlaceName};
use super::stated::tolerance;
use crate::declare::{Link, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::{Origin, Part};
use plumbhook_syntax::{Item, Node};
use plumbhook_units::{Kind, Length, Measured};

/// A place in plan: `(41.0 m, 5.4 m)`, `A/1`, `A/1 + (1.2 m, -0.3 m)`, `stool-3`, `unit-3.pit`. It has no height.
#[derive(Clone, Debug)]
pub struct PlanPlace {
    /// What it counts from.
    pub from: CountsFrom,
    /// How far from there along x and y of the plant, each with half the width of its tolerance.
    pub offset: [(Length, Length); 2],
    /// Where it stands.
    pub origin: Origin,
}

/// What a place counts from.
#[derive(Clone, Debug)]
pub enum CountsFrom {
    /// The origin of the plant's frame.
    Frame,
    /// The crossing of two grid lines.
    Grid(GridName),
    /// Something that has a place, or a named place in it.
    Named(PlaceName),
}

const EXAMPLES: &str =
    "write it as `(41.0 m, 5.4 m)`, `A/1`, `A/1 + (1.2 m, -0.3 m)` or by a name that has a place";

/// Reads the coordinates of a point: lengths without a tolerance, `count` of them.
pub(crate) fn coordinates(line: &mut Cursor<'_, '_>, count: usize) -> Result<Vec<f64>, Fail> {
    if line.word("unknown") {
        return Err(Fail::Unknown);
    }
    let Some(item) = line.peek() else {
        return Err(line.broken("a place is missing here", "write it as `(41.0 m, 5.4 m)`"));
    };
    let Node::Point(_) = &item.node else {
        return Err(line.broken(
            format!("`{}` is no place", item.raw(line.text)),
            "write it as `(41.0 m, 5.4 m)`",
        ));
    };
    let values = point(line, item, count, None)?;
    if values.iter().any(|(_, within)| *within > 0.0) {
        return Err(line.broken("a point of a body is written without a tolerance", ""));
    }
    line.take();
    Ok(values.into_iter().map(|(at, _)| at).collect())
}

/// The coordinates of a point, each with half the width of its tolerance; `whole` stands behind the point and holds
/// for each coordinate.
fn point(
    line: &Cursor<'_, '_>,
    item: &Item<'_>,
    count: usize,
    whole: Option<&Item<'_>>,
) -> Result<Vec<(f64, f64)>, Fail> {
    let Node::Point(parts) = &item.node else {
        let say = format!("`{}` is no place", item.raw(line.text));
        return Err(line.broken_at(item.place, say, EXAMPLES));
    };
    let parts: Vec<_> = plumbhook_syntax::coordinates(parts).collect();
    if parts.len() != count {
        return Err(line.broken_at(
            item.place,
            format!(
                "a place with {count} coordinates is wanted here, this has {}",
                parts.len()
            ),
            "",
        ));
    }
    let coordinate = |part: &[Item<'_>]| {
        let [one] = part else {
            return Err(line.broken_at(item.place, "each coordinate is one length", ""));
        };
        let (of, own) = match &one.node {
            Node::Tolerance { of, by } => (&**of, Some(&**by)),
            _ => (one, None),
        };
        let at = amount(line, of, Kind::Length)?;
        let by = own.or(whole);
        let within = by.map_or(Ok(0.0), |by| position_tolerance(line, by))?;
        Ok((at, within))
    };
    parts.into_iter().map(coordinate).collect()
}

/// A position has no size that a percentage could be a share of.
fn position_tolerance(line: &Cursor<'_, '_>, by: &Item<'_>) -> Result<f64, Fail> {
    tolerance(line, 0.0, by, Kind::Length)
}

impl PlanPlace {
    /// Reads one place; for use inside other shapes.
    pub fn read_part(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let Some(item) = line.take() else {
            return Err(line.broken("a place is missing here", EXAMPLES));
        };
        let (of, within) = match &item.node {
            Node::Tolerance { of, by } => (&**of, Some(&**by)),
            _ => (item, None),
        };
        let (from, offset) = match &of.node {
            Node::Point(_) => (CountsFrom::Frame, Some(of)),
            Node::Operation {
                op: '+',
                left,
                right,
            } => (named(line, left)?, Some(&**right)),
            _ => (named(line, of)?, None),
        };
        let offset = match (offset, within) {
            (Some(offset), within) => point(line, offset, 2, within)?,
            (None, None) => vec![(0.0, 0.0); 2],
            (None, Some(by)) => vec![(0.0, position_tolerance(line, by)?); 2],
        };
        let [x, y] = offset[..] else {
            return Err(line.broken_at(item.place, "a place has two coordinates here", ""));
        };
        Ok(Self {
            from,
            offset: [x, y].map(|(at, within)| (Length::from_si(at), Length::from_si(within))),
            origin: line.origin(item.place, Part::Value),
        })
    }

    /// Whether it is written with coordinates of the plant's frame alone, without a tolerance.
    pub fn is_bare(&self) -> bool {
        matches!(self.from, CountsFrom::Frame)
            && self.offset.iter().all(|(_, within)| within.si() == 0.0)
    }

    /// The name in it that leads elsewhere.
    pub fn link(&self) -> Option<Link<'_>> {
        match &self.from {
            CountsFrom::Frame => None,
            CountsFrom::Grid(lines) => Some(lines.link()),
            CountsFrom::Named(name) => Some(name.link()),
        }
    }
}

/// A grid crossing or a name.
fn named(line: &Cursor<'_, '_>, item: &Item<'_>) -> Result<CountsFrom, Fail> {
    let origin = line.origin(item.place, Part::Value);
    match &item.node {
        Node::Word("unknown") => Err(Fail::Unknown),
        Node::Word(word) if word.contains('/') => Ok(CountsFrom::Grid(GridName::at(word, origin))),
        Node::Word(word) if !Cursor::is_glue(word) => {
            Ok(CountsFrom::Named(PlaceName::at(word, origin)))
        }
        Node::Bad(fault) => Err(line.broken_at(item.place, fault.say().into_owned(), "")),
        _ => {
            let say = format!("`{}` is no place", item.raw(line.text));
            Err(line.broken_at(item.place, say, EXAMPLES))
        }
    }
}

impl Value for PlanPlace {
    const SHAPE: Shape = Shape {
        say: "a place in plan, as `(41.0 m, 5.4 m)`, `A/1`, `A/1 + (1.2 m, -0.3 m)`, or the name of something that has one",
        kind: Some(Kind::Length),
        words: &["unknown"],
        role: Some(crate::declare::Role::Spot),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        Self::read_part(line)
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.extend(self.link());
    }
}

/// A level above a datum of the plant: `EL 118.95 m +/- 15 mm`.
#[derive(Clone, Debug)]
pub struct Level {
    /// The datum that it counts from.
    pub datum: DatumName,
    /// How far above the datum.
    pub above: Banded<Length>,
}

impl Level {
    /// Reads one level; for use inside other shapes.
    pub fn read_part(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let datum = match line.peek().map(|item| &item.node) {
            Some(Node::Word("unknown")) => return Err(Fail::Unknown),
            Some(Node::Word(word)) if !Cursor::is_glue(word) => DatumName::read_part(line)?,
            _ => {
                return Err(line.broken("a level names its datum", "write it as `EL 118.95 m`"));
            }
        };
        let above = Banded::read_part(line)?;
        Ok(Self { datum, above })
    }
}

impl Value for Level {
    const SHAPE: Shape = Shape {
        say: "a level with its datum, as `EL 118.95 m +/- 15 mm`",
        kind: Some(Kind::Length),
        words: &["EL", "unknown"],
        role: Some(crate::declare::Role::Datum),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        Self::read_part(line)
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.push(self.datum.link());
    }
}
