//! One item to one number of a kind, with its unit, or a sentence that says why not.

use super::stated::{in_slot, note_worked, stated};
use crate::{Cursor, Fail};
use plumbhook_syntax::{Item, Node};
use plumbhook_units::{Kind, Known, near};

/// The SI value of an item in a slot of `kind`: typed, calculated, or by the name that a `let` gives.
///
/// A bare zero needs no unit. Text is never a number, a unit of another kind is refused with both in the message, at
/// the operand, and so is a value with a band.
pub fn amount(cursor: &Cursor<'_, '_>, item: &Item<'_>, kind: Kind) -> Result<f64, Fail> {
    let term = stated(cursor, item, Some(kind))?;
    note_worked(cursor, item, term, Some(kind));
    match in_slot(cursor, item, term, kind)? {
        Known::Exact(value) | Known::Plain(value) => Ok(value),
        Known::Banded { .. } => Err(cursor.broken_at(
            item.place,
            format!(
                "`{}` has a tolerance; one number is wanted here",
                item.raw(cursor.text)
            ),
            "",
        )),
    }
}

/// The value of a bare number, or of a sum of bare numbers.
pub fn number(item: &Item<'_>) -> Option<f64> {
    match &item.node {
        Node::Number { value, .. } => Some(*value),
        Node::Operation { op, left, right } => {
            let (left, right) = (number(left)?, number(right)?);
            match op {
                '+' => Some(left + right),
                '-' => Some(left - right),
                '*' => Some(left * right),
                '/' if right != 0.0 => Some(left / right),
                _ => None,
            }
        }
        _ => None,
    }
}

/// The unit that a mistyped one most likely means, for a message at `word`.
pub(crate) fn nearest_unit(word: &str, kind: Kind) -> Option<&'static str> {
    near(word, Some(kind)).first().map(|unit| unit.symbol)
}
