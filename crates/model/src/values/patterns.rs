//! Points by a pattern of words, in the order of their names.

use super::axes::{signs, take_signed};
use super::copies::sense;
use super::place::coordinates;
use super::points::{LiftingPoint, Named, names};
use super::quantity::one_plain;
use crate::{Cursor, Fail};
use plumbhook_sheet::Via;
use plumbhook_syntax::Node;
use plumbhook_units::{Length, Measured};

/// The labelled parts of a pattern, in any order, separated by commas.
#[derive(Default)]
struct Pattern {
    lengths: Vec<(&'static str, f64)>,
    first: Option<String>,
    anticlockwise: Option<bool>,
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
            if it.first.replace(axis.to_owned()).is_some() {
                let mend = "keep the one that is right";
                return Err(line.broken_at(item.place, "`first` stands twice", mend));
            }
        } else if let Some(label) = labels.iter().find(|label| line.word(label)) {
            if it.lengths.iter().any(|(other, _)| other == label) {
                return Err(line.broken(format!("`{label}` stands twice"), ""));
            }
            it.lengths.push((label, one_length(line)?));
        } else if !sense(line, &mut it.anticlockwise)? {
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
    /// A length that says how far the points lie from each other.
    fn extent(&self, line: &Cursor<'_, '_>, label: &str) -> Result<f64, Fail> {
        let extent = self.length(line, label)?;
        if extent > 0.0 {
            return Ok(extent);
        }
        Err(line.broken(format!("`{label}` of the pattern is above zero"), ""))
    }

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
        let anticlockwise = self.anticlockwise.ok_or_else(|| {
            line.broken(
                "the order of the points is missing",
                "add `anticlockwise` or `clockwise`",
            )
        })?;
        Ok(if anticlockwise { 1.0 } else { -1.0 })
    }

    fn first(&self, line: &Cursor<'_, '_>) -> Result<(f64, f64), Fail> {
        let first = self.first.as_deref().ok_or_else(|| {
            line.broken("where the first point lies is missing", "add `first +x`")
        })?;
        match signs(first) {
            Some([x, y, 0.0]) => Ok((x, y)),
            _ => Err(line.broken("a pattern lies in x and y", "as `first +x+y`")),
        }
    }
}

fn place_all(names: &[Named], at: impl Fn(usize) -> [f64; 3]) -> Vec<LiftingPoint> {
    let named = names.iter().enumerate();
    named
        .map(|(index, (name, origin))| LiftingPoint {
            name: name.clone(),
            at: at(index).map(Length::from_si),
            origin: origin.clone().via(Via::Pattern),
        })
        .collect()
}

/// `ring radius 1.20 m, z 1.62 m, first +x, anticlockwise`: the first name in that direction, the others at equal
/// angles after it.
pub(super) fn ring(
    line: &mut Cursor<'_, '_>,
    names: &[Named],
    count: usize,
) -> Result<Vec<LiftingPoint>, Fail> {
    let pattern = pattern(line, &["radius", "z"])?;
    let (radius, z) = (
        pattern.extent(line, "radius")?,
        pattern.height(line, count)?,
    );
    let (x, y) = pattern.first(line)?;
    let step = pattern.turn(line)? * std::f64::consts::TAU / names.len() as f64;
    let start = f64::atan2(y, x);
    Ok(place_all(names, |index| {
        let angle = start + step * index as f64;
        [radius * angle.cos(), radius * angle.sin(), z]
    }))
}

/// `rectangle x 4.20 m, y 2.30 m, z 0, first +x+y, anticlockwise`: the first name at that corner, the others after it.
pub(super) fn rectangle(
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
    let (x, y) = (pattern.extent(line, "x")?, pattern.extent(line, "y")?);
    let z = pattern.height(line, count)?;
    let (first_x, first_y) = pattern.first(line)?;
    if first_x == 0.0 || first_y == 0.0 {
        return Err(line.broken("the first corner lies in x and in y", "as `first +x+y`"));
    }
    let turn = pattern.turn(line)?;
    Ok(place_all(names, |index| {
        // A quarter turn a corner: (x, y) to (-y, x) anticlockwise, scaled to the sides.
        let (mut u, mut v) = (first_x, first_y);
        for _ in 0..index {
            (u, v) = (-turn * v, turn * u);
        }
        [u * x / 2.0, v * y / 2.0, z]
    }))
}

/// `line start (0, 0, 1 m), spacing 1.50 m, toward +x`: the first name at the start, the others after it.
pub(super) fn line(
    line: &mut Cursor<'_, '_>,
    names: &[Named],
    count: usize,
) -> Result<Vec<LiftingPoint>, Fail> {
    let mut start = None;
    let mut toward = None;
    let mut spacing = Pattern::default();
    loop {
        if line.word("start") && start.is_none() {
            start = Some(coordinates(line, count)?);
        } else if line.word("toward") && toward.is_none() {
            toward = Some(direction(line, count)?);
        } else if line.word("spacing") && spacing.lengths.is_empty() {
            spacing.lengths.push(("spacing", one_length(line)?));
        } else {
            return Err(line.broken(
                "a line of points is given by `start`, `spacing` and `toward`, each once",
                "",
            ));
        }
        let known = |word| matches!(word, "start" | "spacing" | "toward");
        if !(line.next_after_comma().is_some_and(known) && line.comma()) {
            break;
        }
    }
    let spacing = spacing.extent(line, "spacing")?;
    let Some((start, (axis, sign))) = start.zip(toward) else {
        return Err(line.broken("where the line starts or where it goes is missing", ""));
    };
    Ok(place_all(names, |index| {
        let along = sign * spacing * index as f64;
        std::array::from_fn(|of| {
            start.get(of).copied().unwrap_or(0.0) + if of == axis { along } else { 0.0 }
        })
    }))
}

/// `+x` as an axis and a sign.
fn direction(line: &mut Cursor<'_, '_>, count: usize) -> Result<(usize, f64), Fail> {
    let say = "a line goes along one axis";
    let here = line.here();
    match take_signed(line).filter(|(axis, _)| *axis < count) {
        Some((axis, forwards)) => Ok((axis, if forwards { 1.0 } else { -1.0 })),
        None => Err(line.broken_at(here, say, "as `toward +x`")),
    }
}

/// `mirror A B, plane x-z`: each name the image of the one at its place, in a plane through the frame's origin.
pub(super) fn mirror(
    line: &mut Cursor<'_, '_>,
    images: &[Named],
    count: usize,
    before: &[LiftingPoint],
) -> Result<Vec<LiftingPoint>, Fail> {
    let of = names(line)?;
    if of.len() != images.len() {
        let say = format!("{} points are mirrored to {} names", of.len(), images.len());
        return Err(line.broken(say, "name one image for each point"));
    }
    let mut originals = Vec::with_capacity(of.len());
    for (name, _) in &of {
        let Some(original) = before.iter().find(|point| point.name == *name) else {
            let say = format!("`{name}` has no place before it is mirrored");
            return Err(line.broken(say, "give its place first, in this line"));
        };
        originals.push(original);
    }
    let planes: &[(&str, usize)] = if count < 3 {
        &[("x-z", 1), ("y-z", 0)]
    } else {
        &[("x-z", 1), ("y-z", 0), ("x-y", 2)]
    };
    let plane = line.comma() && line.word("plane");
    let normal = planes.iter().find(|(word, _)| plane && line.word(word));
    let Some((_, normal)) = normal else {
        return Err(line.broken("the plane of the mirror is missing here", "as `plane x-z`"));
    };
    Ok(place_all(images, |index| {
        let at = originals
            .get(index)
            .map_or([0.0; 3], |point| point.at.map(Length::si));
        std::array::from_fn(|of| if of == *normal { -at[of] } else { at[of] })
    }))
}

fn one_length(line: &mut Cursor<'_, '_>) -> Result<f64, Fail> {
    let say = "one length is wanted here, without a tolerance";
    one_plain(line, |_: Length| true, (say, "")).map(Measured::si)
}
