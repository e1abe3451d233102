//! The value behind the `=` of a `let`.

use super::stated::stated_line;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::{Node, Place};
use plumbhook_units::{Lookup, Term, unit};

/// A value of whatever kind, with its band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NamedValue(pub Term);

/// Words that mean something else where a value stands.
const TAKEN: &[&str] = &[
    "from", "at", "to", "on", "by", "of", "under", "over", "with", "within", "through", "unknown",
    "expected", "most", "least", "in", "x", "EL", "none",
];

impl Value for NamedValue {
    const SHAPE: Shape = Shape {
        say: "`=` and a quantity or a calculation, as `let wall = 600 mm`",
        kind: None,
        words: &["at most", "at least", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let name = line.entry.name.clone();
        let at = place_of(line.text, &name);
        if name.is_empty() || !name.starts_with(char::is_alphabetic) {
            return Err(line.broken_at(at, "a `let` begins with a name", "as `let wall = 600 mm`"));
        }
        if TAKEN.contains(&&*name) || unit(&name) != Lookup::None {
            let say = format!("`{name}` means something else where a value stands");
            return Err(line.broken_at(at, say, "give the value another name"));
        }
        match line.take().map(|item| &item.node) {
            Some(Node::Mark("=")) => {}
            _ => return Err(line.broken("`=` is missing here", "as `let wall = 600 mm`")),
        }
        stated_line(line, None).map(Self)
    }
}

/// Where the name stands in the first line.
fn place_of(text: &str, name: &str) -> Place {
    if name.is_empty() {
        let end = u32::try_from(text.trim_end().len()).unwrap_or(u32::MAX);
        return Place { start: 0, end };
    }
    let behind = text.find(char::is_whitespace).unwrap_or(0);
    let found = text.get(behind..).and_then(|rest| rest.find(name));
    let start = found.map_or(0, |at| behind + at);
    let narrow = |byte: usize| u32::try_from(byte).unwrap_or(u32::MAX);
    Place {
        start: narrow(start),
        end: narrow(if found.is_some() {
            start + name.len()
        } else {
            text.len()
        }),
    }
}
