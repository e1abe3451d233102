//! A line of legs: which points they go to, where they gather, and the pieces between, in order.

use super::hitched::Hitched;
use super::reference::{BeamName, GearName};
use crate::declare::{Link, Role, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::{Origin, Part};
use plumbhook_syntax::Node;

/// One piece in a leg.
#[derive(Clone, Debug)]
pub struct PieceUse {
    /// Its name in the yard.
    pub gear: GearName,
    /// What is said of how it sits (`pin-at-lug`).
    pub sits: Option<Box<str>>,
    /// How a sling is hitched there.
    pub hitched: Hitched,
}

/// What the lower end of a leg is made fast to, by its name.
#[derive(Clone, Debug)]
pub enum LowerEnd {
    /// A lifting point of the load, or a ring below.
    Named(Box<str>, Origin),
    /// A top of a beam, or all its tops in order: `spreader-4.tops`.
    Beam(BeamName),
}

impl LowerEnd {
    /// As written.
    pub fn name(&self) -> &str {
        match self {
            Self::Named(name, _) => name,
            Self::Beam(beam) => &beam.name,
        }
    }

    /// Where it stands.
    pub const fn origin(&self) -> &Origin {
        match self {
            Self::Named(_, origin) => origin,
            Self::Beam(beam) => &beam.origin,
        }
    }
}

/// What the upper ends of legs are made fast to.
#[derive(Clone, Debug)]
pub enum UpperEnd {
    /// A ring or shackle in which they gather.
    Gathered(GearName),
    /// An end of a beam, or one end for each leg in order: `spreader-4.ends`.
    Beam(BeamName),
}

/// `A B C to ring-1, through bow-17 pin-at-lug, rope-38-long-6, bow-17`; in tiers `A B to spreader-4.ends, through …` and
/// `spreader-4.tops to ring-1, through …`.
#[derive(Clone, Debug)]
pub struct LegLine {
    /// What the legs are made fast to below, each with a leg of its own.
    pub from: Vec<LowerEnd>,
    /// What they are made fast to above.
    pub to: UpperEnd,
    /// The pieces of each leg, from the load upwards.
    pub through: Vec<PieceUse>,
}

impl Value for LegLine {
    const SHAPE: Shape = Shape {
        say: "points, where the legs gather, and the pieces from the load upwards: `A B C to ring-1, through bow-17 pin-at-lug, rope-38-long-6, bow-17`; in tiers `A B to spreader-4.ends, through …`, `spreader-4.tops to ring-1, through …`; behind a sling that goes round the load how it is hitched, `choker reach 4.10 m +/- 30 mm choke at least 125 deg edge padded` or `basket reach 2.30 m +/- 20 mm over at least 900 mm edge rounded fast`",
        kind: None,
        words: &[
            "to", "through", "choker", "basket", "reach", "choke", "over", "edge", "padded",
            "rounded", "sharp", "fast",
        ],
        role: Some(Role::Gear),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let mut from = Vec::new();
        while !line
            .peek()
            .is_none_or(|item| matches!(item.node, Node::Word("to")))
        {
            let (name, place) = line.name("the name of a lifting point")?;
            let member = Part::Member(u16::try_from(from.len()).unwrap_or(u16::MAX));
            let origin = line.origin(place, member);
            if from.iter().any(|end: &LowerEnd| end.name() == name) {
                return Err(line.broken_at(
                    place,
                    format!("`{name}` stands twice: each point has one leg of the line"),
                    "take one of them out; a second leg to the same point has a line `legs` of its own",
                ));
            }
            from.push(if name.contains('.') {
                LowerEnd::Beam(BeamName::at(name, origin))
            } else {
                LowerEnd::Named(name.into(), origin)
            });
        }
        if from.is_empty() || !line.word("to") {
            return Err(line.broken(
                "where the legs gather is missing",
                "write `A B C to ring-1, through …`",
            ));
        }
        let to = GearName::read_part(line)?;
        let to = if to.inner().is_some() {
            UpperEnd::Beam(BeamName::at(&to.name, to.origin))
        } else {
            UpperEnd::Gathered(to)
        };
        if !(line.comma() && line.word("through")) {
            return Err(line.broken(
                "the pieces of the leg are missing",
                "write `, through bow-17, rope-38-long-6, bow-17`",
            ));
        }
        let mut through = Vec::new();
        loop {
            let gear = GearName::read_part(line)?;
            let sits = match line.peek().map(|item| &item.node) {
                Some(Node::Word(word)) if word.starts_with("pin-") => {
                    line.take();
                    Some((*word).into())
                }
                _ => None,
            };
            let hitched = Hitched::read_part(line)?;
            through.push(PieceUse {
                gear,
                sits,
                hitched,
            });
            if !line.comma() {
                break;
            }
        }
        Ok(Self { from, to, through })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.extend(self.from.iter().filter_map(|end| match end {
            LowerEnd::Beam(beam) => Some(beam.link()),
            LowerEnd::Named(..) => None,
        }));
        out.push(match &self.to {
            UpperEnd::Gathered(ring) => ring.link(),
            UpperEnd::Beam(beam) => beam.link(),
        });
        out.extend(self.through.iter().map(|piece| piece.gear.link()));
    }
}
