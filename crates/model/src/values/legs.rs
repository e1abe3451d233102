//! A line of legs: which points they go to, where they gather, and the pieces between, in order.

use super::reference::GearName;
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
}

/// `A B C to ring-1, through bow-17 pin-at-lug, rope-38-long-6, bow-17`.
#[derive(Clone, Debug)]
pub struct LegLine {
    /// The lifting points, each with a leg of its own.
    pub points: Vec<(Box<str>, Origin)>,
    /// Where the legs gather.
    pub to: GearName,
    /// The pieces of each leg, from the load upwards.
    pub through: Vec<PieceUse>,
}

impl Value for LegLine {
    const SHAPE: Shape = Shape {
        say: "points, where the legs gather, and the pieces from the load upwards: `A B C to ring-1, through bow-17 pin-at-lug, rope-38-long-6, bow-17`",
        kind: None,
        words: &["to", "through"],
        role: Some(Role::Gear),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let mut points = Vec::new();
        while !line
            .peek()
            .is_none_or(|item| matches!(item.node, Node::Word("to")))
        {
            let (name, place) = line.name("the name of a lifting point")?;
            let member = Part::Member(u16::try_from(points.len()).unwrap_or(u16::MAX));
            points.push((name.into(), line.origin(place, member)));
        }
        if points.is_empty() || !line.word("to") {
            return Err(line.broken(
                "where the legs gather is missing",
                "write `A B C to ring-1, through …`",
            ));
        }
        let to = GearName::read_part(line)?;
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
            through.push(PieceUse { gear, sits });
            if !line.comma() {
                break;
            }
        }
        Ok(Self {
            points,
            to,
            through,
        })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.push(self.to.link());
        out.extend(self.through.iter().map(|piece| piece.gear.link()));
    }
}
