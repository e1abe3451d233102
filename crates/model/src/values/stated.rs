//! What a line states of a value: a bound, a range, a tolerance, what an angle is measured from; and what a slot of a
//! kind takes of it.

use super::expression::term;
use super::number::nearest_unit;
use crate::{Cursor, Fail};
use plumbhook_sheet::Calculation;
use plumbhook_syntax::{ANGLE_DATUMS, Item, Node, Place};
use plumbhook_units::{Amount, Kind, Known, Meaning, Term, ToleranceRefused, Unit};

/// A value with all that a line may state of it: a bound, a range, a tolerance; `unknown` too.
pub(crate) fn stated_line(line: &mut Cursor<'_, '_>, kind: Option<Kind>) -> Result<Term, Fail> {
    let wanted = kind.map_or("quantity", Kind::word);
    if line.word("unknown") {
        return Err(Fail::Unknown);
    }
    let bound = line.word("at");
    let most = bound && line.word("most");
    if bound && !most && !line.word("least") {
        return Err(line.broken("`at` is followed by `most` or `least` here", ""));
    }
    let Some(item) = line.take() else {
        return Err(line.broken(format!("{wanted} is missing here"), ""));
    };
    let term = if bound {
        let (term, value) = one_number(line, item, kind)?;
        let side = Some(value);
        Term {
            known: Known::Banded {
                lo: side.filter(|_| !most),
                hi: side.filter(|_| most),
                nominal: None,
            },
            ..term
        }
    } else {
        stated(line, item, kind)?
    };
    mistyped_unit(line, item, kind)?;
    let term = with_datum(line, item, term, kind)?;
    note_worked(line, item, term, kind);
    Ok(term)
}

/// An angle and what it is measured from: `60 deg from horizontal`. Where one of the two is wanted, the line says which
/// it is, or a name in it does.
fn with_datum(
    line: &mut Cursor<'_, '_>,
    item: &Item<'_>,
    term: Term,
    kind: Option<Kind>,
) -> Result<Term, Fail> {
    let datum = if line.word("from") {
        DATUMS.iter().find(|(word, _)| line.word(word))
    } else {
        None
    };
    let raw = item.raw(line.text);
    let Some((word, datum)) = datum else {
        let wants = matches!(kind, Some(Kind::HorizontalAngle | Kind::VerticalAngle));
        if wants && term.meaning.may_be(Kind::Angle) {
            let say = format!("`{raw}` does not say what it is measured from");
            let mend = format!("write `{raw} from horizontal` or `{raw} from vertical`");
            return Err(line.broken_at(item.place, say, &mend));
        }
        return Ok(term);
    };
    match term.meaning.shared(Meaning::of_kind(*datum)) {
        Some(meaning) if kind.is_none_or(|kind| kind == *datum) => Ok(Term { meaning, ..term }),
        Some(_) => {
            let wanted = kind.map_or("another", Kind::word);
            let say = format!("`{raw} from {word}` stands where {wanted} is wanted");
            Err(line.broken_at(item.place, say, ""))
        }
        None => {
            let say = format!("`{raw}` is {}, and no angle from {word}", term.meaning);
            Err(line.broken_at(item.place, say, ""))
        }
    }
}

/// What an angle is measured from.
const DATUMS: [(&str, Kind); 2] = [
    (ANGLE_DATUMS[0], Kind::HorizontalAngle),
    (ANGLE_DATUMS[1], Kind::VerticalAngle),
];

/// A word right after a bare number may be a mistyped unit.
fn mistyped_unit(line: &Cursor<'_, '_>, item: &Item<'_>, kind: Option<Kind>) -> Result<(), Fail> {
    if let Some(next) = line.peek()
        && let Node::Word(word) = next.node
        && matches!(item.node, Node::Number { .. })
        && let Some(kind) = kind
        && let Some(near) = nearest_unit(word, kind)
    {
        return Err(line.broken_at(
            next.place,
            format!("`{word}` is no unit of {}", kind.word()),
            &format!("did you mean `{near}`?"),
        ));
    }
    Ok(())
}

/// Keeps what was calculated, so that the sheet can show the way.
pub(crate) fn note_worked(line: &Cursor<'_, '_>, item: &Item<'_>, term: Term, kind: Option<Kind>) {
    if !calculates(item) {
        return;
    }
    let first = Kind::ALL
        .iter()
        .copied()
        .find(|kind| term.meaning.may_be(*kind));
    let Some(kind) = kind.or(first) else { return };
    let value = term.in_kind(kind).and_then(Known::nominal);
    line.entry.note(|made| {
        let names = made.names();
        made.calculations.push(Calculation {
            text: item.raw(line.text).into(),
            value: value.map(|si| Amount::new(kind, si)).map(Into::into),
            names,
        });
    });
}

/// Whether it is more than what is typed.
fn calculates(item: &Item<'_>) -> bool {
    match &item.node {
        Node::Operation { .. } | Node::Word(_) => true,
        Node::Tolerance { of, by } => calculates(of) || calculates(by),
        Node::Range { lo, hi } => calculates(lo) || calculates(hi),
        _ => false,
    }
}

/// An item with its tolerance or as a range.
pub(crate) fn stated(
    line: &Cursor<'_, '_>,
    item: &Item<'_>,
    kind: Option<Kind>,
) -> Result<Term, Fail> {
    match &item.node {
        Node::Tolerance { of, by } => toleranced(line, of, by, kind),
        Node::Range { lo, hi } => range(line, item, lo, hi, kind),
        _ => part(line, item, kind),
    }
}

/// One term that may stand in a slot of `kind`. A bare zero needs no unit.
fn part(line: &Cursor<'_, '_>, item: &Item<'_>, kind: Option<Kind>) -> Result<Term, Fail> {
    let Some(kind) = kind else {
        return term(line, item, "quantity");
    };
    let term = term(line, item, kind.word())?;
    match &item.node {
        Node::Number { value, .. } if kind == Kind::Number || *value == 0.0 => Ok(term),
        Node::Number { .. } => Err(line.broken_at(
            item.place,
            format!(
                "`{}` has no unit; {} is wanted here",
                item.raw(line.text),
                kind.word()
            ),
            &format!("write its unit: {}", some_units(kind)),
        )),
        _ if term.meaning.may_be(kind) => Ok(term),
        Node::Quantity { unit, .. } => Err(other_unit(line, item.place, unit, kind)),
        _ => Err(line.broken_at(
            item.place,
            format!(
                "`{}` is {}; {} is wanted here",
                item.raw(line.text),
                term.meaning,
                Meaning::of_kind(kind)
            ),
            "",
        )),
    }
}

fn other_unit(line: &Cursor<'_, '_>, place: Place, unit: &Unit, kind: Kind) -> Fail {
    let of = unit
        .kinds
        .first()
        .map_or("of another kind", |kind| kind.word());
    let say = format!("`{}` is {of}; {} is wanted here", unit.symbol, kind.word());
    let units = some_units(kind);
    let mend = if units.is_empty() {
        "write a number without a unit, as `1.10`".to_owned()
    } else {
        format!("its units are {units}")
    };
    line.broken_at(place, say, &mend)
}

/// A term without a band, and its number.
fn one_number(
    line: &Cursor<'_, '_>,
    item: &Item<'_>,
    kind: Option<Kind>,
) -> Result<(Term, f64), Fail> {
    let term = part(line, item, kind)?;
    match term.known {
        Known::Exact(value) | Known::Plain(value) => Ok((term, value)),
        Known::Banded { .. } => Err(line.broken_at(
            item.place,
            format!(
                "`{}` has a tolerance; one number is wanted here",
                item.raw(line.text)
            ),
            "",
        )),
    }
}

fn is_zero(item: &Item<'_>) -> bool {
    matches!(item.node, Node::Number { value, .. } if value == 0.0)
}

/// What two items mean that belong together; a bare zero means what the other does.
fn alike(line: &Cursor<'_, '_>, [a, b]: [(&Item<'_>, Term); 2]) -> Result<Meaning, Fail> {
    if is_zero(a.0) {
        return Ok(b.1.meaning);
    }
    if is_zero(b.0) {
        return Ok(a.1.meaning);
    }
    a.1.meaning.shared(b.1.meaning).ok_or_else(|| {
        line.broken_at(
            b.0.place,
            format!(
                "`{}` is {} and `{}` is {}",
                b.0.raw(line.text),
                b.1.meaning,
                a.0.raw(line.text),
                a.1.meaning
            ),
            "both are of one kind here",
        )
    })
}

fn range(
    line: &Cursor<'_, '_>,
    whole: &Item<'_>,
    lo: &Item<'_>,
    hi: &Item<'_>,
    kind: Option<Kind>,
) -> Result<Term, Fail> {
    let (above, high) = one_number(line, hi, kind)?;
    let (below, low) = match (&lo.node, &hi.node) {
        // `-60 .. 60 mm`: the unit stands once, behind the range.
        (Node::Number { value, .. }, Node::Quantity { unit, .. }) => (above, unit.to_si(*value)),
        _ => one_number(line, lo, kind)?,
    };
    let meaning = alike(line, [(lo, below), (hi, above)]).or_else(|fail| match lo.node {
        Node::Number { .. } => Ok(above.meaning),
        _ => Err(fail),
    })?;
    if low > high {
        return Err(line.broken_at(whole.place, "this range runs backwards", ""));
    }
    Ok(Term {
        meaning,
        known: Known::Banded {
            lo: Some(low),
            hi: Some(high),
            nominal: None,
        },
    })
}

pub(crate) fn toleranced(
    line: &Cursor<'_, '_>,
    of: &Item<'_>,
    by: &Item<'_>,
    kind: Option<Kind>,
) -> Result<Term, Fail> {
    let term = part(line, of, kind)?;
    let nominal = match term.known {
        Known::Exact(value) | Known::Plain(value) => value,
        Known::Banded { .. } => {
            let say = format!("`{}` has a tolerance of its own", of.raw(line.text));
            return Err(line.broken_at(by.place, say, "state one of the two"));
        }
    };
    let points = matches!(of.node, Node::Quantity { unit, .. } if is_percent(unit));
    share_of_share(line, (of, term), nominal, by)?;
    let (meaning, wide) = match share(line, by, nominal).filter(|_| !points) {
        Some(_) if term.meaning.may_be(Kind::Temperature) => {
            let refused = ToleranceRefused::PercentOfTemperature;
            return Err(line.broken_at(by.place, refused.to_string(), ""));
        }
        Some(wide) => (term.meaning, wide?),
        None => {
            let (other, wide) = width(line, by, kind)?;
            (alike(line, [(of, term), (by, other)])?, wide)
        }
    };
    if !(wide.is_finite() && wide >= 0.0) {
        return Err(line.broken_at(by.place, "a tolerance is not negative", ""));
    }
    Ok(Term {
        meaning,
        known: Known::Banded {
            lo: Some(nominal - wide),
            hi: Some(nominal + wide),
            nominal: Some(nominal),
        },
    })
}

/// A percentage of something that is a share itself, and does not show how it was written: points, or per cent of it?
fn share_of_share(
    line: &Cursor<'_, '_>,
    (of, term): (&Item<'_>, Term),
    nominal: f64,
    by: &Item<'_>,
) -> Result<(), Fail> {
    let typed = matches!(of.node, Node::Quantity { .. } | Node::Number { .. });
    let Node::Quantity { value, unit, .. } = by.node else {
        return Ok(());
    };
    let is_share = term.meaning.may_be(Kind::Ratio);
    if typed || !is_percent(unit) || !is_share {
        return Ok(());
    }
    let (middle, points) = (nominal * 100.0, value);
    let range = |wide: f64| {
        let side = |side: f64| (side * 1e6).round() / 1e6;
        format!("{} % .. {} %", side(middle - wide), side(middle + wide))
    };
    let (of_it, by_points) = (range(middle.abs() * value / 100.0), range(points));
    Err(line.broken_at(
        by.place,
        format!(
            "`{}` is {} % itself: within {value} % of that it is {of_it}, within {value} points {by_points}",
            of.raw(line.text),
            (middle * 1e6).round() / 1e6
        ),
        &format!("write the range that is meant: `{by_points}`, or `{of_it}`"),
    ))
}

fn is_percent(unit: &Unit) -> bool {
    unit.symbol == "%"
}

/// What a percentage is of `nominal`; nothing if `by` is none.
fn share(line: &Cursor<'_, '_>, by: &Item<'_>, nominal: f64) -> Option<Result<f64, Fail>> {
    let Node::Quantity { value, unit, .. } = by.node else {
        return None;
    };
    if !is_percent(unit) {
        return None;
    }
    Some(if nominal == 0.0 {
        Err(line.broken_at(
            by.place,
            "a percentage of zero is no tolerance",
            "write the tolerance as a quantity",
        ))
    } else {
        Ok(nominal.abs() * value / 100.0)
    })
}

/// How wide a tolerance is: of a temperature a difference, never a temperature.
fn width(line: &Cursor<'_, '_>, by: &Item<'_>, kind: Option<Kind>) -> Result<(Term, f64), Fail> {
    let (term, wide) = one_number(line, by, kind)?;
    Ok(match by.node {
        Node::Quantity { value, unit, .. } => (term, unit.interval_to_si(value)),
        _ => (term, wide),
    })
}

/// What stands behind `+/-` of a value `nominal`, as half the width of its band in SI.
///
/// A percentage of a position or of zero is refused: a place has no size that could be a share of.
pub(crate) fn tolerance(
    line: &Cursor<'_, '_>,
    nominal: f64,
    by: &Item<'_>,
    kind: Kind,
) -> Result<f64, Fail> {
    let wide = match share(line, by, nominal) {
        Some(wide) => wide?,
        None => width(line, by, Some(kind))?.1,
    };
    if wide.is_finite() && wide >= 0.0 {
        Ok(wide)
    } else {
        Err(line.broken_at(by.place, "a tolerance is not negative", ""))
    }
}

/// What is known of a term in a slot of `kind`, in its SI unit.
pub(crate) fn in_slot(
    line: &Cursor<'_, '_>,
    item: &Item<'_>,
    term: Term,
    kind: Kind,
) -> Result<Known, Fail> {
    if is_zero(item) {
        return Ok(Known::Plain(0.0));
    }
    // A zero that only a tolerance or a range gave its meaning is told from a mass in a rating by that meaning.
    term.in_kind(kind).ok_or_else(|| {
        let say = format!("`{}` has no value as {}", item.raw(line.text), kind.word());
        line.broken_at(item.place, say, "")
    })
}

/// A few units of a kind, for a message.
fn some_units(kind: Kind) -> String {
    let units: Vec<_> = kind.units().map(|unit| unit.symbol).take(6).collect();
    units.join(", ")
}
