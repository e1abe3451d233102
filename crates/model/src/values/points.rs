//! Named points of a body, written out or by a pattern of words.

use super::axes::AXES;
use super::place::coordinates;
use super::quantity::Banded;
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

/// Points: `A (1.2 m, 0, 1.6 m), B (…)`, or names and a pattern:
/// `A B C ring radius 1.20 m, z 1.62 m, first +x, anticlockwise`;
/// `P1 .. P4 rectangle x 4.20 m, y 2.30 m, z 0, first +x+y, anticlockwise`.
#[derive(Clone, Debug)]
pub struct Points(pub Vec<LiftingPoint>);

impl Value for Points {
    const SHAPE: Shape = Shape {
        say: "named points, as `A (1.2 m, 0, 1.6 m), B (…)` or `A B C ring radius 1.20 m, z 1.62 m, first +x, anticlockwise`",
        kind: Some(Kind::Length),
        words: &["ring", "rectangle", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        Self::read_part(line, 3)
    }
}

impl Points {
    /// Reads names and where they are; `count` is 3, or 2 where the points lie in one level.
    pub fn read_part(line: &mut Cursor<'_, '_>, count: usize) -> Result<Self, Fail> {
        let names = names(line)?;
        if line.word("ring") {
            return ring(line, &names, count).map(Self);
        }
        if line.word("rectangle") {
            return rectangle(line, &names, count).map(Self);
        }
        let [(name, origin)] = &names[..] else {
            return Err(line.broken(
                "several names are followed by `ring` or `rectangle`",
                "or give each its own place: `A (1.2 m, 0, 1.6 m), B (…)`",
            ));
        };
        let mut points = vec![one(line, name, origin, count)?];
        while line.comma() {
            let (name, place) = line.name("the name of a point")?;
            let origin = line.origin(
                place,
                Part::Member(u16::try_from(points.len()).unwrap_or(u16::MAX)),
            );
            points.push(one(line, name, &origin, count)?);
        }
        Ok(Self(points))
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
            Node::Word("ring" | "rectangle") => break,
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

/// The labelled parts of a pattern, in any order, separated by commas.
#[derive(Default)]
struct Pattern {
    lengths: Vec<(&'static str, f64)>,
    first: Option<String>,
    turn: Option<f64>,
}

fn pattern(line: &mut Cursor<'_, '_>, labels: &[&'static str]) -> Result<Pattern, Fail> {
    let mut it = Pattern::default();
    loop {
        if line.word("first") {
            let Some(item) = line.take() else {
                return Err(line.broken("`first` names a direction", "as `first +x`"));
            };
            let Node::Axis(axis) = item.node else {
                return Err(line.broken_at(
                    item.place,
                    "`first` names a direction",
                    "as `first +x`",
                ));
            };
            it.first = Some(axis.to_owned());
        } else if line.word("anticlockwise") {
            it.turn = Some(1.0);
        } else if line.word("clockwise") {
            it.turn = Some(-1.0);
        } else if let Some(label) = labels.iter().find(|label| line.word(label)) {
            if it.lengths.iter().any(|(other, _)| other == label) {
                return Err(line.broken(format!("`{label}` stands twice"), ""));
            }
            let Some(value) = Banded::<Length>::read_part(line)?.nominal else {
                return Err(line.broken("one length is wanted here", ""));
            };
            it.lengths.push((label, value.si()));
        } else {
            return Err(line.broken(
                format!(
                    "a pattern is given by {}, `first` and a sense of turning",
                    labels.join(", ")
                ),
                "",
            ));
        }
        // What follows a comma may belong to the shape around the pattern (`size 300 mm x 300 mm`).
        let known = |word: &str| {
            labels.contains(&word) || matches!(word, "first" | "anticlockwise" | "clockwise")
        };
        if !(line.next_after_comma().is_some_and(known) && line.comma()) {
            return Ok(it);
        }
    }
}

impl Pattern {
    fn length(&self, line: &Cursor<'_, '_>, label: &str) -> Result<f64, Fail> {
        self.lengths
            .iter()
            .find(|(name, _)| *name == label)
            .map(|(_, value)| *value)
            .ok_or_else(|| line.broken(format!("`{label}` of the pattern is missing"), ""))
    }

    /// The points of a plane have no height of their own.
    fn height(&self, line: &Cursor<'_, '_>, count: usize) -> Result<f64, Fail> {
        if count < 3 {
            Ok(0.0)
        } else {
            self.length(line, "z")
        }
    }

    fn turn(&self, line: &Cursor<'_, '_>) -> Result<f64, Fail> {
        self.turn.ok_or_else(|| {
            line.broken(
                "the order of the points is missing",
                "add `anticlockwise` or `clockwise`",
            )
        })
    }

    fn first(&self, line: &Cursor<'_, '_>) -> Result<(f64, f64), Fail> {
        let first = self.first.as_deref().ok_or_else(|| {
            line.broken("where the first point lies is missing", "add `first +x`")
        })?;
        let mut direction = (0.0, 0.0);
        for (index, _) in first.match_indices(['+', '-']) {
            let sign = if first[index..].starts_with('-') {
                -1.0
            } else {
                1.0
            };
            match first.get(index + 1..index + 2) {
                Some(x) if x == AXES[0] => direction.0 = sign,
                Some(y) if y == AXES[1] => direction.1 = sign,
                _ => return Err(line.broken("a pattern lies in x and y", "")),
            }
        }
        Ok(direction)
    }
}

fn place_all(names: &[Named], z: f64, at: impl Fn(usize) -> (f64, f64)) -> Vec<LiftingPoint> {
    names
        .iter()
        .enumerate()
        .map(|(index, (name, origin))| {
            let (x, y) = at(index);
            LiftingPoint {
                name: name.clone(),
                at: [x, y, z].map(Length::from_si),
                origin: origin.clone().via(Via::Pattern),
            }
        })
        .collect()
}

fn ring(
    line: &mut Cursor<'_, '_>,
    names: &[Named],
    count: usize,
) -> Result<Vec<LiftingPoint>, Fail> {
    let pattern = pattern(line, &["radius", "z"])?;
    let (radius, z) = (
        pattern.length(line, "radius")?,
        pattern.height(line, count)?,
    );
    let (x, y) = pattern.first(line)?;
    let step = pattern.turn(line)? * std::f64::consts::TAU / names.len() as f64;
    let start = f64::atan2(y, x);
    Ok(place_all(names, z, |index| {
        let angle = start + step * index as f64;
        (radius * angle.cos(), radius * angle.sin())
    }))
}

fn rectangle(
    line: &mut Cursor<'_, '_>,
    names: &[Named],
    count: usize,
) -> Result<Vec<LiftingPoint>, Fail> {
    if names.len() != 4 {
        return Err(line.broken(
            format!("a rectangle has four points, these are {}", names.len()),
            "",
        ));
    }
    let pattern = pattern(line, &["x", "y", "z"])?;
    let (x, y) = (pattern.length(line, "x")?, pattern.length(line, "y")?);
    let z = pattern.height(line, count)?;
    let (first_x, first_y) = pattern.first(line)?;
    if first_x == 0.0 || first_y == 0.0 {
        return Err(line.broken("the first corner lies in x and in y", "as `first +x+y`"));
    }
    let turn = pattern.turn(line)?;
    Ok(place_all(names, z, |index| {
        // A quarter turn a corner: (x, y) to (-y, x) anticlockwise, scaled to the sides.
        let (mut u, mut v) = (first_x, first_y);
        for _ in 0..index {
            (u, v) = (-turn * v, turn * u);
        }
        (u * x / 2.0, v * y / 2.0)
    }))
}
