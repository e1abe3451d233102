//! What questions say: days, the datum that an answer gives, the moves that wait.

use super::reference::MoveName;
use crate::declare::{Link, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::{Origin, Part};
use plumbhook_syntax::{Node, Place};

/// A day, ISO.
#[derive(Clone, Debug)]
pub struct Day(pub String);

impl Value for Day {
    const SHAPE: Shape = Shape {
        say: "a day, as `2026-11-02`",
        kind: None,
        words: &["unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        match line.peek().map(|item| &item.node) {
            Some(Node::Word("unknown")) => Err(Fail::Unknown),
            _ => line.day("write it as `2026-11-02`").map(Self),
        }
    }
}

/// A datum by its entry and its key: `runner.mass`.
#[derive(Clone, Debug)]
pub struct DatumPath {
    /// The name of the entry.
    pub entry: Box<str>,
    /// The key.
    pub key: Box<str>,
    /// Where it stands.
    pub origin: Origin,
}

impl Value for DatumPath {
    const SHAPE: Shape = Shape::said("an entry and its key, as `runner.mass`");

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let (path, place): (&str, Place) = line.name("an entry and its key")?;
        match path.split_once('.') {
            Some((entry, key)) if !entry.is_empty() && !key.is_empty() => Ok(Self {
                entry: entry.into(),
                key: key.into(),
                origin: line.origin(place, Part::Value),
            }),
            _ => Err(line.broken_at(
                place,
                format!("`{path}` names no datum"),
                "name the entry and its key, as `runner.mass`",
            )),
        }
    }
}

/// Names of moves, separated by commas or blanks.
#[derive(Clone, Debug)]
pub struct MoveNames(pub Vec<MoveName>);

impl Value for MoveNames {
    const SHAPE: Shape = Shape {
        say: "names of moves, as `M1, M2`",
        kind: None,
        words: &[],
        role: Some(crate::Role::Move),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let mut names = Vec::new();
        loop {
            names.push(MoveName::read_part(line)?);
            line.comma();
            if line.done() {
                return Ok(Self(names));
            }
        }
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.extend(self.0.iter().map(MoveName::link));
    }
}
