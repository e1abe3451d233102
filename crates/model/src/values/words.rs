//! Words that are kept as written.

use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::Node;

/// The rest of a line, as written. Nothing in it is interpreted.
#[derive(Clone, Debug)]
pub struct Words(pub String);

impl Value for Words {
    const SHAPE: Shape = Shape::said("words");

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.done() {
            return Err(line.broken("words are missing here", ""));
        }
        let mut words = Vec::new();
        if line.word("unknown") {
            if line.done() {
                return Err(Fail::Unknown);
            }
            words.push("unknown".to_owned());
        }
        while let Some(item) = line.take() {
            match &item.node {
                Node::Bad(fault) => {
                    return Err(line.broken_at(item.place, fault.say().into_owned(), ""));
                }
                Node::Text(text) => words.push((*text).to_owned()),
                _ => words.push(item.raw(line.text).to_owned()),
            }
        }
        Ok(Self(words.join(" ")))
    }
}

/// Names in order, separated by blanks or commas: `us, marine`.
#[derive(Clone, Debug)]
pub struct NameList(pub Vec<Box<str>>);

impl Value for NameList {
    const SHAPE: Shape = Shape::said("names, separated by commas");

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let mut names = Vec::new();
        loop {
            names.push(line.name("a name")?.0.into());
            line.comma();
            if line.done() {
                return Ok(Self(names));
            }
        }
    }
}

/// What follows the name in a header, as written.
pub type Header = Words;
