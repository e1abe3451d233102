//! Values that calculate: one item to a term.

use super::stated::toleranced;
use crate::named::note_use;
use crate::reading::WordFound;
use crate::{Cursor, Fail};
use plumbhook_syntax::{Item, Node};
use plumbhook_units::{Kind, Known, Meaning, Term, TermRefused};

/// What an item is worth. `wanted` is for messages alone.
pub(crate) fn term(line: &Cursor<'_, '_>, item: &Item<'_>, wanted: &str) -> Result<Term, Fail> {
    let raw = item.raw(line.text);
    match &item.node {
        Node::Quantity { value, unit, .. } => {
            line.entry.note(|made| made.typed = true);
            Ok(Term::of_unit(*value, unit))
        }
        Node::Number { value, .. } => Ok(Term::number(*value)),
        Node::Slope { rise, run, .. } if *run != 0.0 => {
            line.entry.note(|made| made.typed = true);
            Ok(Term {
                meaning: Meaning::of_kind(Kind::Slope),
                known: Known::Plain(rise / run),
            })
        }
        Node::Operation { op, left, right } => operation(line, item, *op, left, right),
        Node::Tolerance { of, by } => toleranced(line, of, by, None),
        Node::Word("unknown") => Err(Fail::Unknown),
        Node::Word(word) => named(line, item, word, wanted),
        Node::Ambiguous { value, unit, .. } => {
            let readings: Vec<_> = unit
                .readings
                .iter()
                .map(|reading| format!("`{value} {}` for the {}", reading.unit, reading.words))
                .collect();
            let say = format!("`{raw}` can be read in {} ways", readings.len());
            Err(line.broken_at(item.place, say, &readings.join("; ")))
        }
        Node::Bad(fault) => Err(line.broken_at(item.place, fault.say().into_owned(), "")),
        Node::Text(_) => Err(line.broken_at(
            item.place,
            "quoted text is evidence and never a value",
            "write the value, and the text after `from … quote`",
        )),
        _ => Err(line.broken_at(item.place, format!("`{raw}` is no {wanted}"), "")),
    }
}

fn named(line: &Cursor<'_, '_>, item: &Item<'_>, word: &str, wanted: &str) -> Result<Term, Fail> {
    match line.entry.word(word) {
        WordFound::Named(named) => match named.term {
            Ok(term) => {
                note_use(line.entry, &named);
                Ok(term)
            }
            Err(lack) => Err(Fail::Lacks(Box::new((lack, named.origin.clone())))),
        },
        WordFound::Nothing(near) => {
            let say = format!("`{word}` is no {wanted}, and no `let` of this file names it");
            let mend = near.map_or_else(String::new, |near| format!("did you mean `{near}`?"));
            Err(line.broken_at(item.place, say, &mend))
        }
    }
}

fn operation(
    line: &Cursor<'_, '_>,
    whole: &Item<'_>,
    op: char,
    left: &Item<'_>,
    right: &Item<'_>,
) -> Result<Term, Fail> {
    let a = term(line, left, "quantity")?;
    let b = term(line, right, "quantity")?;
    let done = match op {
        '+' => a.plus(b),
        '-' => a.minus(b),
        '*' => a.times(b),
        _ => a.over(b),
    };
    done.map_err(|refused| said(line, refused, whole, [left, right]))
}

fn said(
    line: &Cursor<'_, '_>,
    refused: TermRefused,
    whole: &Item<'_>,
    [left, right]: [&Item<'_>; 2],
) -> Fail {
    let raw = |item: &Item<'_>| item.raw(line.text).to_owned();
    match refused {
        TermRefused::Unlike { left: a, right: b } => line.broken_at(
            right.place,
            format!(
                "`{}` is {b} and `{}` is {a}: they make no sum",
                raw(right),
                raw(left)
            ),
            "a sum is of one kind",
        ),
        TermRefused::OneTolerance { right: behind } => {
            let (bare, other) = if behind { (right, left) } else { (left, right) };
            line.broken_at(
                bare.place,
                format!(
                    "`{}` has no tolerance and `{}` has one, so nobody knows that of both together",
                    raw(bare),
                    raw(other)
                ),
                &format!("give it one too, in brackets: `({} +/- …)`", raw(bare)),
            )
        }
        TermRefused::ByZero => line.broken_at(
            right.place,
            format!(
                "`{}` is or may be zero, and nothing is divided by that",
                raw(right)
            ),
            "",
        ),
        TermRefused::Temperature => line.broken_at(
            whole.place,
            "a temperature counts from a zero of its own and makes no sum or product",
            "",
        ),
        TermRefused::OutOfRange => {
            line.broken_at(whole.place, "this has no value that can be counted", "")
        }
    }
}
