//! One part of a take-off: a solid with its sizes, where it is, what it is made of, how often.

use super::axes::take_signed;
use super::copies::{Copies, read_copies};
use super::number::amount;
use super::quantity::Banded;
use super::stated::tolerance;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::{Origin, Part as LinePart};
use plumbhook_syntax::{Item, Node, coordinates};
use plumbhook_units::{Kind, Length, LinearMass, Mass, Measured, Ratio};

/// A form of solid, by its word, with the lengths that it takes.
#[derive(Debug, PartialEq, Eq)]
pub struct Form {
    /// The word.
    pub word: &'static str,
    /// The labels of its lengths.
    pub sizes: &'static [&'static str],
}

/// Every form of solid.
pub const FORMS: &[Form] = &[
    Form {
        word: "box",
        sizes: &["x", "y", "z"],
    },
    Form {
        word: "round",
        sizes: &["outside", "long"],
    },
    Form {
        word: "tube",
        sizes: &["outside", "inside", "long"],
    },
    Form {
        word: "ring",
        sizes: &["outside", "inside", "thick"],
    },
    Form {
        word: "frustum",
        sizes: &["base", "top", "high"],
    },
    Form {
        word: "cone",
        sizes: &["base", "high"],
    },
    Form {
        word: "sphere",
        sizes: &["outside"],
    },
    Form {
        word: "dome",
        sizes: &["outside", "high"],
    },
    Form {
        word: "polygon",
        sizes: &["thick"],
    },
    Form {
        word: "section",
        sizes: &["long"],
    },
    Form {
        word: "lump",
        sizes: &[],
    },
];

/// `ring outside 3.90 m, inside 3.10 m, thick 1.05 m, at (0, 0, 0) +/- 5 mm, of cast-iron`.
#[derive(Clone, Debug)]
pub struct PartLine {
    /// The part that it is cut from, for a hole.
    pub host: Option<(Box<str>, Origin)>,
    /// Its form.
    pub form: &'static Form,
    /// The lengths that are given, by label.
    pub sizes: Vec<(&'static str, Banded<Length>)>,
    /// The corners of a polygon, from its place.
    pub corners: Vec<[Banded<Length>; 2]>,
    /// Mass per length, of a section.
    pub per_length: Option<Banded<LinearMass>>,
    /// Mass, of a lump.
    pub mass: Option<Banded<Mass>>,
    /// Its place in the load's own frame.
    pub at: Option<[Banded<Length>; 3]>,
    /// The axis that its own z points along, and whether forwards; z where nothing is said.
    pub along: Option<(usize, bool)>,
    /// What it is made of, and where that stands.
    pub of: Option<(Box<str>, Origin)>,
    /// Its copies; one where nothing is said.
    pub times: Option<Copies>,
}

impl Value for PartLine {
    const SHAPE: Shape = Shape {
        say: "a solid with its sizes and their tolerances, its place and its material, as `ring outside 3.90 m +/- 5 mm, inside 3.10 m +/- 5 mm, thick 1.05 m +/- 3 mm, at (0, 0, 0) +/- 5 mm, of cast-iron`; a hole names its part first: `in rim round …`",
        kind: None,
        words: &[
            "box", "round", "tube", "ring", "frustum", "cone", "sphere", "dome", "polygon",
            "section", "lump", "at", "along", "of", "times", "in", "unknown",
        ],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let host = if line.word("in") {
            Some(named(line, "the part that it is cut from")?)
        } else {
            None
        };
        let Some(form) = FORMS.iter().find(|form| line.word(form.word)) else {
            let words: Vec<_> = FORMS.iter().map(|form| form.word).collect();
            return Err(line.broken(
                "the form of the part is missing here",
                &format!("one of {}", words.join(", ")),
            ));
        };
        let mut it = Self {
            host,
            form,
            sizes: vec![],
            corners: vec![],
            per_length: None,
            mass: None,
            at: None,
            along: None,
            of: None,
            times: None,
        };
        if form.word == "polygon" {
            it.corners = corners(line)?;
            line.comma();
        }
        while !line.done() {
            it.label(line)?;
            if !line.comma() {
                break;
            }
        }
        Ok(it)
    }
}

impl PartLine {
    fn label(&mut self, line: &mut Cursor<'_, '_>) -> Result<(), Fail> {
        if let Some(label) = self.form.sizes.iter().find(|label| line.word(label)) {
            if self.sizes.iter().any(|(given, _)| given == label) {
                return Err(line.broken(
                    format!("`{label}` stands twice"),
                    "keep the one that is right",
                ));
            }
            self.sizes.push((label, Banded::read_part(line)?));
            Ok(())
        } else if self.form.word == "section" && line.word("per-length") {
            set(line, &mut self.per_length, "per-length", Banded::read_part)
        } else if self.form.word == "lump" && line.word("mass") {
            set(line, &mut self.mass, "mass", mass)
        } else if line.word("at") {
            set(line, &mut self.at, "at", place)
        } else if line.word("along") {
            set(line, &mut self.along, "along", axis)
        } else if line.word("of") {
            set(line, &mut self.of, "of", |line| named(line, "the material"))
        } else if line.word("times") {
            set(line, &mut self.times, "times", read_copies)
        } else {
            let mut labels: Vec<&str> = self.form.sizes.to_vec();
            match self.form.word {
                "section" => labels.push("per-length"),
                "lump" => labels.push("mass"),
                _ => {}
            }
            Err(line.broken(
                format!("this is no label of a `{}`", self.form.word),
                &format!("it takes {}, at, along, of and times", labels.join(", ")),
            ))
        }
    }
}

/// The mass of a lump: a number of its own, for what the take-off comes to is made of it.
fn mass(line: &mut Cursor<'_, '_>) -> Result<Banded<Mass>, Fail> {
    if line.peek().and_then(Item::word) == Some("expected") {
        return Err(line.broken(
            "a part cannot take its mass from what it is a part of",
            "write the number itself, as `mass 1.2 t +/- 5 %`",
        ));
    }
    Banded::read_part(line)
}

pub(super) fn set<T>(
    line: &mut Cursor<'_, '_>,
    slot: &mut Option<T>,
    label: &str,
    read: impl Fn(&mut Cursor<'_, '_>) -> Result<T, Fail>,
) -> Result<(), Fail> {
    if slot.is_some() {
        return Err(line.broken(
            format!("`{label}` stands twice"),
            "keep the one that is right",
        ));
    }
    *slot = Some(read(line)?);
    Ok(())
}

fn named(line: &mut Cursor<'_, '_>, what: &str) -> Result<(Box<str>, Origin), Fail> {
    let (name, place) = line.name(what)?;
    Ok((name.into(), line.origin(place, LinePart::Value)))
}

/// `(0, 0, 1.2 m)`, `(0, 0, 1.2 m) +/- 5 mm`, or a tolerance at each coordinate: as many lengths as are wanted.
pub(crate) fn place<const N: usize>(
    line: &mut Cursor<'_, '_>,
) -> Result<[Banded<Length>; N], Fail> {
    if line.word("unknown") {
        return Err(Fail::Unknown);
    }
    let Some(item) = line.peek() else {
        return Err(line.broken("a place is missing here", "as `(0, 0, 1.2 m) +/- 5 mm`"));
    };
    let (point, by) = match &item.node {
        Node::Tolerance { of, by } => (&**of, Some(&**by)),
        _ => (item, None),
    };
    let Node::Point(parts) = &point.node else {
        return Err(line.broken(
            format!("`{}` is no place", item.raw(line.text)),
            "as `(0, 0, 1.2 m) +/- 5 mm`",
        ));
    };
    let coordinate = |part: &[Item<'_>]| match (part, by) {
        ([one], Some(by)) => {
            let nominal = amount(line, one, Kind::Length)?;
            // A position has no size that a percentage could be a share of.
            let within = tolerance(line, 0.0, by, Kind::Length)?;
            let side = |by: f64| Length::from_si(nominal + by);
            Ok(Banded::between(side(-within), side(0.0), side(within)))
        }
        ([one], None) => Banded::read_item(line, one),
        _ => Err(line.broken("each coordinate is one length", "")),
    };
    let all = coordinates(parts)
        .map(coordinate)
        .collect::<Result<Vec<_>, _>>()?;
    let given = all.len();
    let all = <[Banded<Length>; N]>::try_from(all).map_err(|_| {
        line.broken(
            format!("a place with {N} coordinates is wanted here, this has {given}"),
            "",
        )
    })?;
    line.take();
    Ok(all)
}

fn corners(line: &mut Cursor<'_, '_>) -> Result<Vec<[Banded<Length>; 2]>, Fail> {
    let is_place = |item: &Item<'_>| match &item.node {
        Node::Point(_) => true,
        Node::Tolerance { of, .. } => matches!(of.node, Node::Point(_)),
        _ => false,
    };
    let mut corners = Vec::new();
    while line.peek().is_some_and(is_place) {
        corners.push(place(line)?);
    }
    if corners.len() < 3 {
        return Err(line.broken(
            "a polygon has three corners at least",
            "as `polygon (0, 0) +/- 2 mm (0.4 m, 0) +/- 2 mm (0, 0.3 m) +/- 2 mm, thick 20 mm +/- 1 mm`",
        ));
    }
    Ok(corners)
}

/// `+x`: the axis and its sign.
fn axis(line: &mut Cursor<'_, '_>) -> Result<(usize, bool), Fail> {
    take_signed(line)
        .ok_or_else(|| line.broken("an axis with its sign is wanted here", "as `along +x`"))
}

/// What a take-off leaves out, as a share of what it counts: `none`, `0 .. 3 %`, `at most 3 %`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeftOut(pub Banded<Ratio>);

impl Value for LeftOut {
    const SHAPE: Shape = Shape {
        say: "what the parts leave out (welds, bolts, paint, fillets) as a share of their mass: `none`, `0 .. 3 %` or `at most 3 %`",
        kind: Some(Kind::Ratio),
        words: &["none", "at most", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let none = Ratio::from_si(0.0);
        if line.word("none") {
            return Ok(Self(Banded::between(none, none, none)));
        }
        let start = line.peek().map(|item| item.place);
        let mut read = Banded::<Ratio>::read_part(line)?;
        // A share of what is there cannot be less than nothing.
        if read.lo.is_none() && read.hi.is_some() {
            read.lo = Some(none);
        }
        match (read.lo, start) {
            (Some(lo), Some(place)) if lo < none => {
                Err(line.broken_at(place, "what is left out is not less than nothing", ""))
            }
            _ => Ok(Self(read)),
        }
    }
}
