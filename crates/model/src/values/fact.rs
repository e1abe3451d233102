//! A fact of three states.

use crate::declare::Shape;
use crate::{Cursor, Fail, Value};

/// `yes` or `no`; the third state, `unknown`, is a datum that is not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fact(pub bool);

impl Value for Fact {
    const SHAPE: Shape = Shape {
        say: "`yes`, `no` or `unknown`",
        kind: None,
        words: &["yes", "no", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            Err(Fail::Unknown)
        } else if line.word("yes") {
            Ok(Self(true))
        } else if line.word("no") {
            Ok(Self(false))
        } else {
            Err(line.broken("a fact is `yes`, `no` or `unknown`", ""))
        }
    }
}
