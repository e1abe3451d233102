//! Calculations in the text, with the numbers of their names put in.

use crate::place::Spot;
use plumbhook_model::Declared;
use plumbhook_model::entries::Let;
use plumbhook_sheet::{Calculation, Origin, Via};
use plumbhook_syntax::{Class, tokens};
use plumbhook_units::{Amount, Kind, Known, Printer, Round};
use plumbhook_workspace::Snapshot;
use std::fmt::Write;
use std::sync::Arc;

/// Names inside names are put in so deep; what lies deeper stands by its name.
const DEEPEST: usize = 8;
/// A calculation that grows longer than this, in bytes, keeps its names.
const LONGEST: usize = 400;

/// How the values at some places are calculated: the calculation, the same with its numbers, what it comes to, and
/// where each name in it is given. Empty where none is.
pub(crate) fn calculations<'o>(
    snapshot: &Snapshot,
    origins: impl IntoIterator<Item = &'o Origin>,
    printer: Printer,
) -> String {
    let mut said: Vec<String> = Vec::new();
    for way in origins.into_iter().flat_map(ways) {
        let told = told(snapshot, way, printer);
        if !said.contains(&told) {
            said.push(told);
        }
    }
    said.join("\n\n")
}

/// The calculations that a value comes from.
fn ways(origin: &Origin) -> impl Iterator<Item = &Calculation> {
    origin.via.iter().filter_map(|via| match via {
        Via::Expression(way) => Some(&**way),
        _ => None,
    })
}

fn told(snapshot: &Snapshot, way: &Calculation, printer: Printer) -> String {
    let mut line = format!("`{}`", way.text);
    let filled = filled(snapshot, way, DEEPEST);
    if filled != *way.text && filled.len() <= LONGEST {
        let _ = write!(line, " = `{filled}`");
    }
    if let Some(value) = way.value {
        let value = printer.amount(value.amount(), Round::Nearest);
        let _ = write!(line, " = {value}");
    }
    let names = way.names.iter().map(|(name, origin)| {
        let value = written(snapshot, origin).unwrap_or_default();
        let place = snapshot
            .locate(origin)
            .map_or_else(String::new, |at| format!(" ({}:{})", at.shown, at.line + 1));
        format!("\n- {name}: `{value}`{place}")
    });
    line.extend(names);
    line
}

/// A calculation with what its names stand for in place of them, in brackets where that is more than one word.
fn filled(snapshot: &Snapshot, way: &Calculation, deep: usize) -> String {
    let mut found = Vec::new();
    tokens(&way.text, &mut found);
    let mut out = String::new();
    let mut from = 0;
    for token in found.iter().filter(|token| token.class == Class::Word) {
        let (start, end) = (token.start as usize, token.end as usize);
        let word = way.text.get(start..end).unwrap_or_default();
        let named = way.names.iter().find(|(name, _)| **name == *word);
        let Some(value) = named.and_then(|(_, origin)| value_of(snapshot, origin, deep)) else {
            continue;
        };
        out.push_str(way.text.get(from..start).unwrap_or_default());
        // A quantity alone needs none: `2 * 14.5 t`.
        if value.split_whitespace().count() > 2 && *way.text != *word {
            let _ = write!(out, "({value})");
        } else {
            out.push_str(&value);
        }
        from = end;
    }
    out.push_str(way.text.get(from..).unwrap_or_default());
    out
}

fn value_of(snapshot: &Snapshot, origin: &Origin, deep: usize) -> Option<String> {
    match ways(origin).next() {
        Some(inner) if deep > 0 => Some(filled(snapshot, inner, deep - 1)),
        _ => written(snapshot, origin),
    }
}

/// The value of a `let` as written.
fn written(snapshot: &Snapshot, origin: &Origin) -> Option<String> {
    let at = snapshot.locate(origin)?;
    let line = snapshot.document(&at.shown)?.line_text(at.line)?;
    let value = line.get(at.start as usize..at.end as usize)?;
    Some(value.trim_start_matches('=').trim().to_owned())
}

/// What a `let` gives: how it is calculated, and its band.
pub(crate) fn of_let(snapshot: &Snapshot, entry: &Declared, printer: Printer) -> Option<String> {
    let given = entry.of::<Let>()?.header.known()?;
    let term = given.value.0;
    let kind = Kind::ALL
        .iter()
        .copied()
        .find(|kind| term.meaning.may_be(*kind))?;
    let amount = |si: f64| Amount::new(kind, si);
    let value = match term.in_kind(kind)? {
        Known::Exact(value) | Known::Plain(value) => printer.amount(amount(value), Round::Nearest),
        Known::Banded { lo, hi, .. } => printer.band(lo.map(amount), hi.map(amount)),
    };
    let calculated = calculations(snapshot, [&given.origin], printer);
    let pedigree = match &*given.pedigree.words {
        "" => String::new(),
        words => format!(", from {words}"),
    };
    let parts = [calculated, format!("- {}: {value}{pedigree}", entry.name())];
    let parts = parts.into_iter().filter(|part| !part.is_empty());
    Some(parts.collect::<Vec<_>>().join("\n\n"))
}

/// The `let` of the same file that a word of a value names.
pub(crate) fn let_at<'s>(spot: &Spot<'s>) -> Option<&'s Arc<Declared>> {
    let line = spot.text.lines().nth(spot.line as usize)?;
    let mut found = Vec::new();
    tokens(line, &mut found);
    // The first word is a key or starts an entry.
    let words = found.iter().skip(1).filter(|it| it.class == Class::Word);
    let mut under = words.filter(|it| (it.start..=it.end).contains(&spot.byte));
    let word = under.next()?;
    let word = line.get(word.start as usize..word.end as usize)?;
    let mut entries = spot.file.entries().iter();
    entries.find(|entry| entry.is_let() && entry.name() == word)
}
