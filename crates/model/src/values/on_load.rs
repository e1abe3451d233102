//! What is on a load, in it, and what holds it.

use super::axes::Axes;
use super::quantity::Banded;
use crate::declare::Shape;
use crate::{Cursor, Datum, Fail, Lines, Value};
use plumbhook_sheet::{Lack, Origin, Part};
use plumbhook_syntax::Node;
use plumbhook_units::{Kind, Mass};

/// A part of a line: its value, or why there is none.
type Said<T> = Result<T, Lack>;

fn said<T>(read: Result<T, Fail>) -> Result<Said<T>, Fail> {
    match read {
        Ok(value) => Ok(Ok(value)),
        Err(Fail::Unknown) => Ok(Err(Lack::Unknown)),
        Err(broken) => Err(broken),
    }
}

/// A part that can be taken off: `mass 1.2 t +/- 5 %, cg x 0 +/- 50 mm, y 0 +/- 50 mm, z 1.1 m +/- 50 mm`.
#[derive(Clone, Debug)]
pub struct PartOf {
    /// Its own mass.
    pub mass: Said<Banded<Mass>>,
    /// Its centre of gravity in the frame of the load.
    pub cg: Said<Axes>,
}

impl Value for PartOf {
    const SHAPE: Shape = Shape {
        say: "its name, its own mass and its centre of gravity in the load's frame: `cover mass 1.2 t +/- 5 %, cg x 0 +/- 50 mm, y 0 +/- 50 mm, z 1.1 m +/- 50 mm`",
        kind: Some(Kind::Mass),
        words: &["mass", "cg", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let mut mass = Err(Lack::Absent);
        let mut cg = Err(Lack::Absent);
        if line.word("mass") {
            mass = said(Banded::read_part(line))?;
            line.comma();
        }
        if line.word("cg") {
            cg = said(Axes::read(line))?;
        }
        Ok(Self { mass, cg })
    }
}

/// One thing that is inside a load.
#[derive(Clone, Debug)]
pub struct Content {
    /// What it is.
    pub name: Box<str>,
    /// Where it is named.
    pub origin: Origin,
    /// How much of it.
    pub mass: Said<Banded<Mass>>,
    /// Where its centre of gravity is, in the frame of the load; anywhere in the load's outside where not stated.
    pub cg: Option<Axes>,
}

/// `nothing`, or `water 0 .. 300 kg, silt 0 .. 400 kg`.
#[derive(Clone, Debug)]
pub struct Contents(pub Vec<Content>);

impl Lines<Contents> {
    /// Where a line says that nothing is inside though another says that something is, or may.
    pub fn says_nothing_and_something(&self) -> Option<&Origin> {
        let lines = || self.lines.iter();
        let is_nothing =
            |line: &&Datum<Contents>| line.known().is_some_and(|line| line.value.0.is_empty());
        let nothing = lines().find(is_nothing)?;
        let other = lines().any(|line| !is_nothing(&line));
        other.then(|| nothing.origin())
    }
}

impl Value for Contents {
    const SHAPE: Shape = Shape {
        say: "what is in it and how much, as `water 0 .. 300 kg, silt 0 .. 400 kg`, or `nothing`",
        kind: Some(Kind::Mass),
        words: &["nothing", "cg", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        if line.word("nothing") {
            return Ok(Self(vec![]));
        }
        let mut all = Vec::new();
        loop {
            let (name, place) = line.name("what is inside")?;
            let mut content = Content {
                name: name.into(),
                origin: line.origin(place, Part::Value),
                mass: said(Banded::read_part(line))?,
                cg: None,
            };
            if line.word("cg") {
                content.cg = Some(Axes::read(line)?);
            }
            all.push(content);
            if !line.comma() {
                return Ok(Self(all));
            }
        }
    }
}

/// What holds a load where it is, and at which hold it is proved free: `bolts 24, band, seal, free-at H1`; `nothing`.
#[derive(Clone, Debug)]
pub struct HeldBy {
    /// Each thing that holds it, in words; none where nothing does.
    pub by: Vec<String>,
    /// The hold of the move at which it is proved free.
    pub free_at: Option<Box<str>>,
}

impl HeldBy {
    /// For the sheet.
    pub fn words(&self) -> String {
        if self.by.is_empty() {
            return "nothing".to_owned();
        }
        let by = self.by.join(", ");
        match &self.free_at {
            Some(hold) => format!("{by}; free at {hold}"),
            None => by,
        }
    }
}

impl Value for HeldBy {
    const SHAPE: Shape = Shape {
        say: "what holds it, and at which hold it is proved free, as `bolts 24, seal, free-at H1`, or `nothing`",
        kind: None,
        words: &["nothing", "free-at", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        if line.word("nothing") {
            return Ok(Self {
                by: vec![],
                free_at: None,
            });
        }
        let mut it = Self {
            by: vec![],
            free_at: None,
        };
        loop {
            if line.word("free-at") {
                it.free_at = Some(line.name("the name of a hold")?.0.into());
                break;
            }
            let mut words = vec![line.name("what holds it")?.0];
            while let Some(item) = line.peek() {
                if matches!(item.node, Node::Comma | Node::Bad(_)) {
                    break;
                }
                words.push(item.raw(line.text));
                line.take();
            }
            it.by.push(words.join(" "));
            if !line.comma() {
                break;
            }
        }
        if it.by.is_empty() {
            return Err(line.broken("what holds it is missing here", "as `bolts 24, free-at H1`"));
        }
        Ok(it)
    }
}

/// A key that says all by standing there.
#[derive(Clone, Copy, Debug)]
pub struct Marked;

impl Value for Marked {
    const SHAPE: Shape = Shape {
        say: "nothing behind the word, or `unknown`",
        kind: None,
        words: &["unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            Err(Fail::Unknown)
        } else {
            Ok(Self)
        }
    }
}
