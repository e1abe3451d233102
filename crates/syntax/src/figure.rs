//! The second reader, where a token starts with a digit: numbers, quantities, dates, slopes, and names like `6x36`.

use std::borrow::Cow;

use plumbhook_units::{Lookup, unit};

use crate::date::{Date, date};
use crate::fault::Fault;
use crate::item::{Item, Node};
use crate::number::{decimal, fraction, is_digits, mixed, proper_fraction, real};
use crate::place::Place;
use crate::reader::Reader;
use crate::token::Class;

impl<'a> Reader<'a, '_> {
    /// A token that starts with a digit, with its unit.
    pub(crate) fn number(&mut self) -> Item<'a> {
        let first = self.next;
        self.next += 1;
        if self.comma_in_digits() {
            return self.digit_comma(first);
        }
        let text = self.text(first);
        let Some(value) = decimal(text) else {
            return self.figure(first, text);
        };
        if self.class(self.next) == Some(Class::Number) {
            if let Some(rewrite) = self.spaced_digits(first) {
                return self.bad(first, Fault::SpacedDigits { rewrite });
            }
            if let Some(item) = self.folded(first, text, value) {
                return item;
            }
        }
        self.with_unit(first, value)
    }

    /// A number, or a quantity if the next word is a unit.
    pub(crate) fn with_unit(&mut self, first: usize, value: f64) -> Item<'a> {
        let found = match self.class(self.next) {
            Some(Class::Word | Class::Percent) => unit(self.text(self.next)),
            _ => Lookup::None,
        };
        if found != Lookup::None {
            self.next += 1;
        }
        self.measure(first, value, found)
    }

    /// The item from token `first` to the last one read, with a unit already looked up.
    pub(crate) fn measure(&self, first: usize, value: f64, found: Lookup) -> Item<'a> {
        let place = self.since(first);
        let raw = place.of(self.line);
        if !value.is_finite() {
            return self.bad(first, Fault::TooLarge);
        }
        let node = match found {
            Lookup::Unit(unit) => Node::Quantity { value, unit, raw },
            Lookup::Ambiguous(unit) => Node::Ambiguous { value, unit, raw },
            Lookup::None => Node::Number { value, raw },
        };
        Item { place, node }
    }

    /// `1 1/2 in` where no count can stand before the fraction.
    fn folded(&mut self, first: usize, text: &str, whole: f64) -> Option<Item<'a>> {
        if !self.inner || !is_digits(text) {
            return None;
        }
        let (part, glued) = split_unit(self.text(self.next));
        let value = whole + proper_fraction(part)?;
        let found = if glued.is_empty() {
            match self.class(self.next + 1) {
                Some(Class::Word) => unit(self.text(self.next + 1)),
                _ => Lookup::None,
            }
        } else {
            unit(glued)
        };
        if found == Lookup::None {
            return None;
        }
        self.next += if glued.is_empty() { 2 } else { 1 };
        Some(self.measure(first, value, found))
    }

    /// Every form of a token that is not plain digits.
    fn figure(&mut self, first: usize, text: &'a str) -> Item<'a> {
        if is_digits(&text.replacen('.', "0", 1)) && !text.ends_with('.') {
            return self.bad(first, Fault::TooLarge);
        }
        if let Some(c) = text.chars().find(|c| matches!(c, '\u{2018}'..='\u{201F}')) {
            return self.bad(first, Fault::of_character(c));
        }
        let plain = without_primes(text);
        if plain.contains('\'') {
            return self.feet(first, &plain);
        }
        match date(text) {
            Some(Date::Day) => return self.node(first, Node::Date(text)),
            Some(Date::NoSuchDay) => return self.bad(first, Fault::NoSuchDay),
            Some(Date::Doubtful(readings)) => {
                return self.bad(first, Fault::DateForm { readings });
            }
            None => {}
        }
        if let Some(slope) = self.slope(first, text) {
            return slope;
        }
        let (digits, rest) = split_unit(&plain);
        if rest.is_empty() {
            return self.fraction_or_name(first, text);
        }
        match (real(digits), unit(rest)) {
            (Some(value), found) if found != Lookup::None => self.measure(first, value, found),
            (None, found) if found != Lookup::None && digits.contains('/') => {
                self.bad(first, Fault::Fraction)
            }
            _ => self.name_or_fault(first, text),
        }
    }

    fn node(&self, first: usize, node: Node<'a>) -> Item<'a> {
        Item {
            place: self.since(first),
            node,
        }
    }

    fn slope(&self, first: usize, text: &'a str) -> Option<Item<'a>> {
        let (rise, run) = text.split_once(':')?;
        let (rise, run) = (decimal(rise)?, decimal(run)?);
        Some(if !rise.is_finite() || !run.is_finite() {
            self.bad(first, Fault::TooLarge)
        } else if run > 0.0 {
            let raw = text;
            self.node(first, Node::Slope { rise, run, raw })
        } else {
            self.bad(first, Fault::SlopeToZero)
        })
    }

    /// Digits, `/`, `-` and `.` only: a fraction before a unit; else a hyphen belongs to a name.
    fn fraction_or_name(&mut self, first: usize, text: &'a str) -> Item<'a> {
        let unit_follows = self.unit_follows();
        let value = fraction(text).or_else(|| mixed(text).filter(|_| unit_follows));
        if let Some(value) = value {
            return self.with_unit(first, value);
        }
        let fault = match text.split_once('-') {
            None if text.contains('/') => Fault::Fraction,
            None => Fault::NotANumber,
            Some(_) if text.contains('/') && unit_follows => Fault::Fraction,
            Some((_, "")) => Fault::GluedOperator { rewrite: None },
            Some((lo, hi)) if unit_follows && decimal(lo).and(decimal(hi)).is_some() => {
                self.next += 1;
                let unit = self.text(self.next - 1);
                Fault::HyphenNumber {
                    rewrites: [" .. ", " - "]
                        .map(|between| format!("{lo}{between}{hi} {unit}").into())
                        .into(),
                }
            }
            Some(_) if unit_follows => Fault::NotANumber,
            Some(_) => return self.node(first, Node::Word(text)),
        };
        self.bad(first, fault)
    }

    /// A token with something in it that no number has.
    fn name_or_fault(&mut self, first: usize, text: &'a str) -> Item<'a> {
        if text.contains(['*', '+']) {
            let rewrite = text.replace('*', " * ").replace('+', " + ");
            let whole = rewrite.split(' ').all(|part| !part.is_empty());
            return self.bad(
                first,
                Fault::GluedOperator {
                    rewrite: whole.then(|| rewrite.into()),
                },
            );
        }
        let sizes = text.split('x').all(|size| decimal(size).is_some());
        if sizes && self.unit_follows() {
            let rewrite = text.replace('x', " x ").into();
            return self.bad(first, Fault::GluedSizes { rewrite });
        }
        if text.contains('"') || !text.contains(char::is_alphabetic) {
            return self.bad(first, Fault::NotANumber);
        }
        self.node(first, Node::Word(text))
    }

    fn unit_follows(&self) -> bool {
        matches!(self.class(self.next), Some(Class::Word | Class::Percent))
            && unit(self.text(self.next)) != Lookup::None
    }

    pub(crate) fn skip_unit(&mut self) {
        if self.unit_follows() {
            self.next += 1;
        }
    }

    /// Whether the number just read goes on with a comma and digits, all glued.
    fn comma_in_digits(&self) -> bool {
        self.class(self.next) == Some(Class::Comma)
            && self.glued_left(self.next)
            && self.glued(self.next)
            && self.class(self.next + 1) == Some(Class::Number)
    }

    fn digit_comma(&mut self, first: usize) -> Item<'a> {
        while self.comma_in_digits() {
            self.next += 2;
        }
        let body = self.since(first).of(self.line);
        self.skip_unit();
        let unit = self
            .since(first)
            .of(self.line)
            .get(body.len()..)
            .unwrap_or("");
        let groups: Vec<&str> = body.split(',').collect();
        let mut rewrites = Vec::new();
        if are_thousands(&groups) {
            rewrites.push(format!("{}{unit}", body.replace(',', "")).into());
        }
        if let [whole, part] = groups[..]
            && is_digits(whole)
            && is_digits(split_unit(part).0)
        {
            rewrites.push(format!("{}{unit}", body.replace(',', ".")).into());
        }
        rewrites.push(format!("{}{unit}", body.replace(',', ", ")).into());
        self.bad(first, Fault::DigitComma { rewrites })
    }

    /// What to write for digits in groups of three, if they are parted by blanks that do not part words.
    fn spaced_digits(&mut self, first: usize) -> Option<Box<str>> {
        let mut last = self.text(first);
        let mut digits = last.to_owned();
        if last.len() > 3 {
            return None;
        }
        // Only the last group may go on with decimals or a unit.
        while is_digits(last) && self.tight_gap() && are_thousands(&["0", self.text(self.next)]) {
            last = self.text(self.next);
            digits.push_str(last);
            self.next += 1;
        }
        if digits == last {
            return None;
        }
        let body = self.since(first).of(self.line).len();
        self.skip_unit();
        let unit = self.since(first).of(self.line).get(body..).unwrap_or("");
        Some((digits + unit).into())
    }

    /// Whether only one no-break or thin blank stands before the next token.
    fn tight_gap(&self) -> bool {
        let end = |index: usize| self.tokens.get(index).map_or(0, |token| token.end);
        let start = self.tokens.get(self.next).map_or(0, |token| token.start);
        let gap = Place {
            start: end(self.next.saturating_sub(1)),
            end: start,
        };
        let mut gap = gap.of(self.line).chars();
        gap.next().is_some_and(is_tight) && gap.next().is_none()
    }
}

/// A count before a fraction, or a whole number with it: joins `1` and `1/2 in` to `1 1/2 in`.
///
/// [`crate::items`] leaves the two apart, because only the slot knows whether a count can stand there. Where none
/// can, its reader may join them; where one can, the line is refused. Nothing if they do not belong together: the
/// first must be a whole number, the second a fraction below one with its unit, and only blanks between them.
pub fn joined<'a>(line: &'a str, whole: &Item<'a>, part: &Item<'a>) -> Option<Item<'a>> {
    let Node::Number { value, raw } = whole.node else {
        return None;
    };
    let digits = raw.trim_start_matches(['+', '-', '−']);
    let place = whole.place.to(part.place);
    let gap = Place {
        start: whole.place.end,
        end: part.place.start,
    };
    if !is_digits(digits) || !gap.of(line).chars().all(crate::place::is_blank) {
        return None;
    }
    let joined = |fraction_raw: &str| {
        let fraction = proper_fraction(split_unit(fraction_raw).0)?;
        let size = decimal(digits)? + fraction;
        // The sign is looked for in the text: -0 has none.
        let minus = raw.starts_with(['-', '−']);
        Some(if minus { -size } else { size }).filter(|_| value.is_finite())
    };
    let raw = place.of(line);
    let node = match part.node {
        Node::Quantity { unit, raw: f, .. } => Node::Quantity {
            value: joined(f)?,
            unit,
            raw,
        },
        Node::Ambiguous { unit, raw: f, .. } => Node::Ambiguous {
            value: joined(f)?,
            unit,
            raw,
        },
        _ => return None,
    };
    Some(Item { place, node })
}

/// Splits digits (with `.`, `/` and `-`) from what is glued behind them.
fn split_unit(text: &str) -> (&str, &str) {
    let cut = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '/' | '-')))
        .unwrap_or(text.len());
    text.split_at_checked(cut).unwrap_or((text, ""))
}

/// Drawings have real foot and inch marks.
fn without_primes(text: &str) -> Cow<'_, str> {
    if text.contains(['\u{2032}', '\u{2033}']) {
        text.replace('\u{2032}', "'")
            .replace('\u{2033}', "\"")
            .into()
    } else {
        text.into()
    }
}

/// One to three digits, then groups of three; the last may go on with decimals or a unit.
fn are_thousands(groups: &[&str]) -> bool {
    let [first, middle @ .., last] = groups else {
        return false;
    };
    let (last, _) = split_unit(last);
    let last = last.split_once('.').map_or(last, |(whole, _)| whole);
    let three = |group: &&str| group.len() == 3 && is_digits(group);
    first.len() <= 3 && is_digits(first) && middle.iter().all(three) && three(&last)
}

/// Blanks that keep digits together.
fn is_tight(c: char) -> bool {
    matches!(c, '\u{A0}' | '\u{2007}'..='\u{200A}' | '\u{202F}')
}
