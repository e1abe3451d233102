//! Named points of a body, written out or by a pattern of words.

use super::patterns;
use super::place::coordinates;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::{Origin, Part, Via};
use plumbhook_syntax::Node;
use plumbhook_units::{Kind, Length, Measured};

/// One named point in the body's frame.
#[derive(Clone, Debug)]
pub struct LiftingPoint {
    /// Its name.
    pub name: Box<str>,
    /// x, y, z.
    pub at: [Length; 3],
    /// Where it stands.
    pub origin: Origin,
}

/// Points: `A (1.2 m, 0, 1.6 m), B (…)`, or names in order and a pattern:
/// `A B C ring radius 1.20 m, z 1.62 m, first +x, anticlockwise`;
/// `P1 .. P4 rectangle x 4.20 m, y 2.30 m, z 0, first +x+y, anticlockwise`.
#[derive(Clone, Debug)]
pub struct Points(pub Vec<LiftingPoint>);

impl Value for Points {
    const SHAPE: Shape = Shape {
        say: "named points, as `A (1.2 m, 0, 1.6 m), B (…)`, or by a pattern, in the order of the names: `A B C ring radius 1.20 m, z 1.62 m, first +x, anticlockwise`, `P1 .. P4 rectangle x 4.2 m, y 2.3 m, z 0, first +x+y, anticlockwise`, `L1 .. L4 line start (0, 0, 1 m), spacing 1.50 m, toward +x`, `C D mirror A B, plane x-z`",
        kind: Some(Kind::Length),
        words: &["ring", "rectangle", "line", "mirror", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        Self::read_part(line, 3)
    }
}

impl Points {
    /// Reads names and where they are; `count` is 3, or 2 where the points lie in one level. Stops before `, size`.
    pub fn read_part(line: &mut Cursor<'_, '_>, count: usize) -> Result<Self, Fail> {
        let mut points: Vec<LiftingPoint> = Vec::new();
        loop {
            let group = group(line, count, &points)?;
            for point in &group {
                if points.iter().any(|other| other.name == point.name) {
                    return Err(line.broken(format!("`{}` is named twice", point.name), ""));
                }
            }
            points.extend(group);
            if line.next_after_comma() == Some("size") || !line.comma() {
                return Ok(Self(points));
            }
        }
    }
}

/// One point with its coordinates, or several by a pattern.
fn group(
    line: &mut Cursor<'_, '_>,
    count: usize,
    before: &[LiftingPoint],
) -> Result<Vec<LiftingPoint>, Fail> {
    let mut names = names(line)?;
    for (index, (_, origin)) in names.iter_mut().enumerate() {
        origin.part = Part::Member(u16::try_from(before.len() + index).unwrap_or(u16::MAX));
    }
    if line.word("ring") {
        return patterns::ring(line, &names, count);
    }
    if line.word("rectangle") {
        return patterns::rectangle(line, &names, count);
    }
    if line.word("line") {
        return patterns::line(line, &names, count);
    }
    if line.word("mirror") {
        return patterns::mirror(line, &names, count, before);
    }
    match &names[..] {
        [(name, origin)] => Ok(vec![one(line, name, origin, count)?]),
        _ => Err(line.broken(
            "several names are followed by `ring`, `rectangle`, `line` or `mirror`",
            "or give each its own place: `A (1.2 m, 0, 1.6 m), B (…)`",
        )),
    }
}

fn one(
    line: &mut Cursor<'_, '_>,
    name: &str,
    origin: &Origin,
    count: usize,
) -> Result<LiftingPoint, Fail> {
    let values = coordinates(line, count)?;
    let mut at = [Length::from_si(0.0); 3];
    for (axis, value) in at.iter_mut().zip(values) {
        *axis = Length::from_si(value);
    }
    Ok(LiftingPoint {
        name: name.into(),
        at,
        origin: origin.clone(),
    })
}

pub(crate) type Named = (Box<str>, Origin);

/// `A B C`, or `L1 .. L4`: names with a number at their end, in order.
pub(crate) fn names(line: &mut Cursor<'_, '_>) -> Result<Vec<Named>, Fail> {
    let mut names: Vec<Named> = Vec::new();
    while let Some(item) = line.peek() {
        let member = Part::Member(u16::try_from(names.len()).unwrap_or(u16::MAX));
        match &item.node {
            Node::Word("unknown") => return Err(Fail::Unknown),
            Node::Word("ring" | "rectangle" | "line" | "mirror") => break,
            Node::Word(word) if Cursor::is_glue(word) => break,
            Node::Word(_) | Node::Number { .. } => {
                let (name, place) = line.name("the name of a point")?;
                names.push((name.into(), line.origin(place, member)));
            }
            Node::Range { lo, hi } => {
                let span = enumerate(lo.raw(line.text), hi.raw(line.text));
                let Some(span) = span else {
                    return Err(line.broken("these names do not count up", "write `L1 .. L4`"));
                };
                let origin = line.origin(item.place, member).via(Via::Pattern);
                names.extend(span.into_iter().map(|name| (name.into(), origin.clone())));
                line.take();
            }
            _ => break,
        }
    }
    if names.is_empty() {
        return Err(line.broken("the name of a point is missing here", ""));
    }
    for (index, (name, _)) in names.iter().enumerate() {
        if names[..index].iter().any(|(other, _)| other == name) {
            return Err(line.broken(format!("`{name}` is named twice"), ""));
        }
    }
    Ok(names)
}

/// `L1`, `L4` to L1, L2, L3, L4; `A`, `D` to A, B, C, D.
pub(crate) fn enumerate(first: &str, last: &str) -> Option<Vec<String>> {
    if let (Some(from), Some(to)) = (letter_at_end(first), letter_at_end(last)) {
        let same_stem = from.0 == to.0 && from.1.is_ascii_uppercase() == to.1.is_ascii_uppercase();
        return (same_stem && from.1 < to.1).then(|| {
            (from.1..=to.1)
                .map(|letter| format!("{}{letter}", from.0))
                .collect()
        });
    }
    let stem = first.trim_end_matches(|c: char| c.is_ascii_digit());
    let from: u32 = first.strip_prefix(stem)?.parse().ok()?;
    let to: u32 = last.strip_prefix(stem)?.parse().ok()?;
    (from < to && to - from < 100).then(|| (from..=to).map(|n| format!("{stem}{n}")).collect())
}

/// What stands before a letter at the end, and that letter.
fn letter_at_end(name: &str) -> Option<(&str, char)> {
    let last = name.chars().next_back().filter(char::is_ascii_alphabetic)?;
    Some((name.strip_suffix(last)?, last))
}
