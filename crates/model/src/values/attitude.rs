//! How a body is turned: which of its own axes points up, and which way another points.

use super::axes::signed;
use super::number::{amount, number};
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_mechanics::hanging::Rotation;
use plumbhook_syntax::{Item, Node};
use plumbhook_units::Kind;

/// `is as-installed`, or `up +y, +z toward plant +x`: a turn from the body's own axes to those of the plant while
/// the move's heading is zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Attitude(pub Rotation);

impl Value for Attitude {
    const SHAPE: Shape = Shape {
        say: "which axis of the load is up and which way another points, as `up +y, +z toward plant +x`, or `is as-installed`",
        kind: None,
        words: &["is as-installed", "up", "toward plant", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        if line.word("is") {
            return if line.word("as-installed") {
                Ok(Self(Rotation::AS_INSTALLED))
            } else {
                Err(line.broken("`is` is followed by `as-installed` here", ""))
            };
        }
        if !line.word("up") {
            return Err(line.broken(
                "which axis of the load is up, is missing here",
                "write `up +y, +z toward plant +x`",
            ));
        }
        let up = direction(line)?;
        if !line.comma() {
            return Err(line.broken(
                "which way a second axis points, is missing here",
                "write `up +y, +z toward plant +x`: one axis alone leaves it free to turn",
            ));
        }
        let second = line.peek();
        let axis = direction(line)?;
        let apart = dot(up, axis).clamp(-1.0, 1.0).acos().to_degrees();
        if let Some(item) = second.filter(|_| (apart - 90.0).abs() > 1e-6) {
            return Err(line.broken_at(
                item.place,
                format!(
                    "this axis lies {apart:.1} deg from the one that is up, it must be square to it"
                ),
                "name a second axis that lies level when the first is up",
            ));
        }
        if !(line.word("toward") && line.word("plant")) {
            return Err(line.broken(
                "which way that axis points, is missing here",
                "write `toward plant +x`, or an angle from the plant's +x: `toward plant 30 deg`",
            ));
        }
        let level = level(line)?;
        turn(up, axis, level)
            .map(Self)
            .ok_or_else(|| line.broken("these axes make no turn", ""))
    }
}

/// The turn that brings `up` plumb and `axis`, square to it, to the level direction `level`; the body's x, y and z in
/// the axes of the plant.
fn turn(up: [f64; 3], axis: [f64; 3], level: [f64; 2]) -> Option<Rotation> {
    let [x, y] = level;
    let (toward, left) = ([x, y, 0.0], [-y, x, 0.0]);
    let third = cross(up, axis);
    let image = |body: usize| -> [f64; 3] {
        let part = |of: [f64; 3]| of.get(body).copied().unwrap_or_default();
        let [a, b, c] = [part(axis), part(third), part(up)];
        let mut out = [0.0; 3];
        for (slot, (t, l)) in out.iter_mut().zip(toward.into_iter().zip(left)) {
            *slot = a * t + b * l;
        }
        let [.., plumb] = &mut out;
        *plumb = c;
        out
    };
    Rotation::from_axes(image(0), image(1), image(2))
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn cross([a, b, c]: [f64; 3], [x, y, z]: [f64; 3]) -> [f64; 3] {
    [b * z - c * y, c * x - a * z, a * y - b * x]
}

/// `+y`, or a direction of plain numbers in the body's frame: `(0, 0.6, 0.8)`.
fn direction(line: &mut Cursor<'_, '_>) -> Result<[f64; 3], Fail> {
    let Some(item) = line.take() else {
        return Err(line.broken("a direction is missing here", "as `+y`"));
    };
    let found = match &item.node {
        Node::Axis(axis) => one_axis(axis),
        Node::Point(parts) => numbers(parts),
        Node::Word("unknown") => return Err(Fail::Unknown),
        _ => None,
    };
    found.ok_or_else(|| {
        line.broken_at(
            item.place,
            "a direction of the load is one of its axes, or three plain numbers",
            "as `+y`, or `(0, 0.6, 0.8)`",
        )
    })
}

fn one_axis(axis: &str) -> Option<[f64; 3]> {
    let (index, forwards) = signed(axis)?;
    let mut out = [0.0; 3];
    *out.get_mut(index)? = if forwards { 1.0 } else { -1.0 };
    Some(out)
}

fn numbers(parts: &[Item<'_>]) -> Option<[f64; 3]> {
    let mut out = [0.0; 3];
    let mut given = plumbhook_syntax::coordinates(parts);
    for slot in &mut out {
        let [one] = given.next()? else { return None };
        *slot = number(one)?;
    }
    let size = dot(out, out).sqrt();
    (given.next().is_none() && size.is_finite() && size > 0.0).then(|| out.map(|part| part / size))
}

/// A level direction of the plant: `+x`, `-y`, or an angle from +x, anticlockwise seen from above.
fn level(line: &mut Cursor<'_, '_>) -> Result<[f64; 2], Fail> {
    let Some(item) = line.take() else {
        return Err(line.broken("a direction of the plant is missing here", "as `+x`"));
    };
    match &item.node {
        Node::Axis(axis) => match one_axis(axis) {
            Some([x, y, 0.0]) => Ok([x, y]),
            _ => Err(line.broken_at(
                item.place,
                "a level direction of the plant is wanted here",
                "as `+x` or `-y`",
            )),
        },
        _ => amount(line, item, Kind::Heading).map(|angle| [angle.cos(), angle.sin()]),
    }
}
