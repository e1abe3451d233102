//! One item to one number of a kind, with its unit, or a sentence that says why not.

use crate::{Cursor, Fail};
use plumbhook_syntax::{Item, Node};
use plumbhook_units::{Kind, Quantity, Unit, near};

/// The SI value of an item in a slot of `kind`.
///
/// A bare zero needs no unit. Text is never a number, and a unit of another kind is refused with
/// both dimensions in the message, at the operand.
pub fn amount(cursor: &Cursor<'_, '_>, item: &Item<'_>, kind: Kind) -> Result<f64, Fail> {
    let raw = item.raw(cursor.text);
    match &item.node {
        Node::Quantity { value, unit, .. } => quantity(cursor, item, *value, unit, kind),
        Node::Slope { rise, run, .. } if kind == Kind::Slope && *run != 0.0 => Ok(rise / run),
        Node::Number { value, .. } if kind == Kind::Number || *value == 0.0 => Ok(*value),
        Node::Number { .. } => Err(cursor.broken_at(
            item.place,
            format!("`{raw}` has no unit; {} is wanted here", kind.word()),
            &format!("write its unit: {}", some_units(kind)),
        )),
        Node::Ambiguous { value, unit, .. } => {
            let readings: Vec<_> = unit
                .readings
                .iter()
                .map(|reading| format!("`{value} {}` for the {}", reading.unit, reading.words))
                .collect();
            Err(cursor.broken_at(
                item.place,
                format!("`{raw}` can be read in {} ways", readings.len()),
                &readings.join("; "),
            ))
        }
        Node::Operation { op, left, right } => operation(cursor, item, *op, left, right, kind),
        Node::Bad(fault) => Err(cursor.broken_at(item.place, fault.say().into_owned(), "")),
        Node::Text(_) => Err(cursor.broken_at(
            item.place,
            "quoted text is evidence and never a value",
            "write the value, and the text after `from … quote`",
        )),
        Node::Word("unknown") => Err(Fail::Unknown),
        _ => Err(cursor.broken_at(item.place, format!("`{raw}` is no {}", kind.word()), "")),
    }
}

fn quantity(
    cursor: &Cursor<'_, '_>,
    item: &Item<'_>,
    value: f64,
    unit: &'static Unit,
    kind: Kind,
) -> Result<f64, Fail> {
    match Quantity::new(value, unit).amount(kind) {
        Some(amount) => Ok(amount.si),
        None => Err(cursor.broken_at(
            item.place,
            format!(
                "`{}` is {}; {} is wanted here",
                unit.symbol,
                unit.kinds
                    .first()
                    .map_or("of another kind", |kind| kind.word()),
                kind.word()
            ),
            &format!("its units are {}", some_units(kind)),
        )),
    }
}

fn operation(
    cursor: &Cursor<'_, '_>,
    whole: &Item<'_>,
    op: char,
    left: &Item<'_>,
    right: &Item<'_>,
    kind: Kind,
) -> Result<f64, Fail> {
    let value = match op {
        '+' => amount(cursor, left, kind)? + amount(cursor, right, kind)?,
        '-' => amount(cursor, left, kind)? - amount(cursor, right, kind)?,
        '*' => match (number(left), number(right)) {
            (Some(n), _) => n * amount(cursor, right, kind)?,
            (_, Some(n)) => n * amount(cursor, left, kind)?,
            _ => return Err(no_product(cursor, whole)),
        },
        '/' => match number(right) {
            Some(n) if n != 0.0 => amount(cursor, left, kind)? / n,
            _ => return Err(no_product(cursor, whole)),
        },
        _ => return Err(no_product(cursor, whole)),
    };
    if value.is_finite() {
        Ok(value)
    } else {
        Err(cursor.broken_at(whole.place, "this sum has no finite value", ""))
    }
}

fn no_product(cursor: &Cursor<'_, '_>, whole: &Item<'_>) -> Fail {
    cursor.broken_at(
        whole.place,
        "a quantity can be multiplied or divided by a plain number only, and not by zero",
        "",
    )
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

/// A few units of a kind, for a message.
fn some_units(kind: Kind) -> String {
    let units: Vec<_> = kind.units().map(|unit| unit.symbol).take(6).collect();
    units.join(", ")
}

/// The unit that a mistyped one most likely means, for a message at `word`.
pub(crate) fn nearest_unit(word: &str, kind: Kind) -> Option<&'static str> {
    near(word, Some(kind)).first().map(|unit| unit.symbol)
}
