//! A level datum of a plant.

use super::place::Level;
use crate::declare::{Link, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::Node;
use plumbhook_units::Kind;

/// What follows the name of a datum: `"project, 1949"`, or `at EL 3.20 m +/- 10 mm "mean sea level"` for one that
/// lies at a level of another.
#[derive(Clone, Debug)]
pub struct DatumLine {
    /// Where its zero lies; `None` for the datum that the plant's heights count from.
    pub zero: Option<Level>,
    /// What it is, in words.
    pub say: String,
}

impl Value for DatumLine {
    const SHAPE: Shape = Shape {
        say: "a name and what it is, as `EL \"project, 1949\"`, or where its zero lies, as `MSL at EL 3.20 m +/- 10 mm`",
        kind: Some(Kind::Length),
        words: &["at", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let zero = line
            .word("at")
            .then(|| Level::read_part(line))
            .transpose()?;
        let say = match line.peek().map(|item| &item.node) {
            Some(Node::Text(say)) => {
                line.take();
                (*say).to_owned()
            }
            _ => String::new(),
        };
        Ok(Self { zero, say })
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.extend(self.zero.as_ref().map(|level| level.datum.link()));
    }
}
