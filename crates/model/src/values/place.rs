//! Places in the plant.

use super::number::amount;
use super::quantity::Banded;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::Node;
use plumbhook_units::{Kind, Length};

/// A place in plan, in the plant's frame: `(41.0 m, 5.4 m)`. It has no height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanPlace {
    /// Along x.
    pub x: Length,
    /// Along y.
    pub y: Length,
}

/// Reads the coordinates of a point: lengths, `count` of them.
pub(crate) fn coordinates(line: &mut Cursor<'_, '_>, count: usize) -> Result<Vec<f64>, Fail> {
    if line.word("unknown") {
        return Err(Fail::Unknown);
    }
    let Some(item) = line.peek() else {
        return Err(line.broken("a place is missing here", "write it as `(41.0 m, 5.4 m)`"));
    };
    let Node::Point(parts) = &item.node else {
        return Err(line.broken(
            format!("`{}` is no place", item.raw(line.text)),
            "write it as `(41.0 m, 5.4 m)`",
        ));
    };
    let parts: Vec<_> = plumbhook_syntax::coordinates(parts).collect();
    if parts.len() != count {
        return Err(line.broken(
            format!(
                "a place with {count} coordinates is wanted here, this has {}",
                parts.len()
            ),
            "",
        ));
    }
    let values = parts
        .into_iter()
        .map(|part| match part {
            [one] => amount(line, one, Kind::Length),
            _ => Err(line.broken("each coordinate is one length", "")),
        })
        .collect::<Result<Vec<_>, _>>()?;
    line.take();
    Ok(values)
}

impl PlanPlace {
    /// Reads one place; for use inside other shapes.
    pub fn read_part(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        use plumbhook_units::Measured;
        let values = coordinates(line, 2)?;
        match values[..] {
            [x, y] => Ok(Self {
                x: Length::from_si(x),
                y: Length::from_si(y),
            }),
            _ => Err(line.broken("a place has two coordinates here", "")),
        }
    }
}

impl Value for PlanPlace {
    const SHAPE: Shape = Shape {
        say: "a place in plan, as `(41.0 m, 5.4 m)`",
        kind: Some(Kind::Length),
        words: &["unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        Self::read_part(line)
    }
}

/// A level above the plant's datum: `EL 118.95 m +/- 15 mm`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level(pub Banded<Length>);

impl Level {
    /// Reads one level; for use inside other shapes.
    pub fn read_part(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        if !line.word("EL") {
            return Err(line.broken("a level names its datum", "write it as `EL 118.95 m`"));
        }
        Banded::read_part(line).map(Self)
    }
}

impl Value for Level {
    const SHAPE: Shape = Shape {
        say: "a level with its datum, as `EL 118.95 m +/- 15 mm`",
        kind: Some(Kind::Length),
        words: &["EL", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        Self::read_part(line)
    }
}
