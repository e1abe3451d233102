//! The pads of something that stands: where they are and how large.

use super::number::amount;
use super::points::{LiftingPoint, Points};
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::Node;
use plumbhook_units::{Kind, Length, Measured};

/// `P1 .. P4 rectangle x 1.2 m, y 1.2 m, first +x+y, anticlockwise, size 300 mm x 300 mm`.
#[derive(Clone, Debug)]
pub struct Pads {
    /// Each pad in the stand's own frame.
    pub points: Vec<LiftingPoint>,
    /// Size along x and y; `None` where it is not given.
    pub size: Option<[Length; 2]>,
}

impl Value for Pads {
    const SHAPE: Shape = Shape {
        say: "points and the size of each pad, as `P1 .. P4 rectangle x 1.2 m, y 1.2 m, first +x+y, anticlockwise, size 300 mm x 300 mm`",
        kind: Some(Kind::Length),
        words: &["rectangle", "ring", "line", "mirror", "size", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let Points(points) = Points::read_part(line, 2)?;
        let mut size = None;
        if line.comma() {
            if !line.word("size") {
                return Err(line.broken("`size` may follow here", "as `size 300 mm x 300 mm`"));
            }
            if !line.word("unknown") {
                size = Some(read_size(line)?);
            }
        }
        Ok(Self { points, size })
    }
}

fn read_size(line: &mut Cursor<'_, '_>) -> Result<[Length; 2], Fail> {
    let Some(item) = line.take() else {
        return Err(line.broken("the size is missing here", "as `300 mm x 300 mm`"));
    };
    let Node::Sizes(sides) = &item.node else {
        return Err(line.broken_at(item.place, "a size has two sides", "as `300 mm x 300 mm`"));
    };
    let [along, across] = &sides[..] else {
        return Err(line.broken_at(item.place, "a pad has two sides", "as `300 mm x 300 mm`"));
    };
    let sides = [
        amount(line, along, Kind::Length)?,
        amount(line, across, Kind::Length)?,
    ];
    if sides.iter().all(|side| *side > 0.0) {
        Ok(sides.map(Length::from_si))
    } else {
        Err(line.broken_at(item.place, "a side is above zero", ""))
    }
}
