//! What the second reader makes of a line: values, words and the shapes they form by position.

use plumbhook_units::{Ambiguous, Unit};

use crate::fault::Fault;
use crate::place::Place;

/// One piece of a line with its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Item<'a> {
    /// Where it stands.
    pub place: Place,
    /// What it is.
    pub node: Node<'a>,
}

/// What a piece of a line is.
///
/// Numbers keep their text (`raw`), so that a tag `0412` stays `0412`. Values stand as typed, in the unit typed.
#[derive(Clone, Debug, PartialEq)]
pub enum Node<'a> {
    /// A name or a word of the language.
    Word(&'a str),
    /// A number with no unit directly after it. Finite.
    Number {
        /// Its value.
        value: f64,
        /// As typed.
        raw: &'a str,
    },
    /// A number and its unit; feet and inches, and fractions, folded to one value. Finite.
    ///
    /// `10 in 3 groups` gives ten inches, a number and a word: whoever expects a count finds a quantity and refuses it.
    Quantity {
        /// In `unit`.
        value: f64,
        /// The unit typed; inches where feet and inches are typed.
        unit: &'static Unit,
        /// As typed.
        raw: &'a str,
    },
    /// A number and a word that several units go by, as `5 ton`. Finite.
    Ambiguous {
        /// In whichever unit is meant.
        value: f64,
        /// What may be meant.
        unit: &'static Ambiguous,
        /// As typed.
        raw: &'a str,
    },
    /// A slope `rise:run`, as `1:50`. Finite, `run` above zero.
    Slope {
        /// First number.
        rise: f64,
        /// Second number, in the unit of the first.
        run: f64,
        /// As typed.
        raw: &'a str,
    },
    /// A day of the calendar, year-month-day.
    Date(&'a str),
    /// What stands between quotation marks. Evidence, never interpreted.
    Text(&'a str),
    /// What stands in brackets, commas included ([`coordinates`] splits it); no coordinate is empty. A lone value in
    /// brackets is no point but that value.
    Point(Vec<Item<'a>>),
    /// Signed axes, as `+x` or `+x-y`; none twice.
    Axis(&'a str),
    /// `of +/- by`. After sizes or a point it holds for each of their values.
    Tolerance {
        /// The value.
        of: Box<Item<'a>>,
        /// How far to each side; no sign of its own.
        by: Box<Item<'a>>,
    },
    /// `lo .. hi`. A number without a unit at one side is left as typed: the slot says what it means.
    Range {
        /// Left side.
        lo: Box<Item<'a>>,
        /// Right side.
        hi: Box<Item<'a>>,
    },
    /// `a x b`, `a x b x c`: numbers and quantities, some with their own tolerance.
    Sizes(Vec<Item<'a>>),
    /// `2 of push-20`, `16 of 1-1/2 in`.
    Count {
        /// How many. Finite.
        count: f64,
        /// Of what.
        of: Box<Item<'a>>,
    },
    /// Arithmetic: `*` and `/` before `+` and `-`, left to right.
    Operation {
        /// One of `+ - * /`.
        op: char,
        /// Left operand.
        left: Box<Item<'a>>,
        /// Right operand.
        right: Box<Item<'a>>,
    },
    /// Parts labels and list members.
    Comma,
    /// One of `= < > <= >= : |`.
    Mark(&'a str),
    /// What could not be read. The datum it stands in is unknown.
    Bad(Fault),
}

impl<'a> Item<'a> {
    /// Its text; `line` must be the line it was read from.
    pub fn raw<'l>(&self, line: &'l str) -> &'l str {
        self.place.of(line)
    }

    /// The word, if it is one.
    pub fn word(&self) -> Option<&'a str> {
        match self.node {
            Node::Word(word) => Some(word),
            _ => None,
        }
    }

    /// Every fault in it, with its place, in order; also those deep inside a range, point or calculation.
    pub fn faults(&self) -> Vec<(Place, &Fault)> {
        let mut found = Vec::new();
        self.collect_faults(&mut found);
        found
    }

    fn collect_faults<'s>(&'s self, found: &mut Vec<(Place, &'s Fault)>) {
        match &self.node {
            Node::Bad(fault) => found.push((self.place, fault)),
            Node::Point(items) | Node::Sizes(items) => {
                for item in items {
                    item.collect_faults(found);
                }
            }
            Node::Tolerance { of: a, by: b }
            | Node::Range { lo: a, hi: b }
            | Node::Operation {
                left: a, right: b, ..
            } => {
                a.collect_faults(found);
                b.collect_faults(found);
            }
            Node::Count { of, .. } => of.collect_faults(found),
            _ => {}
        }
    }
}

/// The coordinates of a [`Node::Point`], or the members of any list: what lies between commas.
pub fn coordinates<'s, 'a>(items: &'s [Item<'a>]) -> impl Iterator<Item = &'s [Item<'a>]> {
    items.split(|item| matches!(item.node, Node::Comma))
}
