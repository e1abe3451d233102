//! A calculation sheet in the JSON.

use super::value::{Number, Place};
use plumbhook_sheet::{Basis, Input, InputValue, Sheet, Step, Via};
use plumbhook_units::{Amount, Printer, Round};
use plumbhook_workspace::Snapshot;
use serde::Serialize;

/// A sheet as it is written.
#[derive(Serialize)]
pub(super) struct View<'a> {
    inputs: Vec<Given<'a>>,
    steps: Vec<Done<'a>>,
    demand: Option<Number>,
    capacity: Option<Number>,
    utilisation: Option<Share>,
    corner: Vec<Side<'a>>,
    state: &'a str,
    basis: &'a [Basis],
}

impl<'a> View<'a> {
    pub(super) fn of(sheet: &'a Sheet, snapshot: &Snapshot) -> Self {
        Self {
            inputs: sheet
                .inputs
                .iter()
                .map(|input| Given::of(input, snapshot))
                .collect(),
            steps: sheet.steps.iter().map(Done::of).collect(),
            demand: sheet.demand.map(|demand| Number::of(demand, Round::Up)),
            capacity: sheet
                .capacity
                .map(|capacity| Number::of(capacity, Round::Down)),
            utilisation: sheet.utilisation.map(|value| Share {
                value,
                printed: Printer::utilisation(value),
            }),
            corner: sheet
                .corner
                .iter()
                .map(|corner| Side {
                    what: &corner.input.what,
                    value: nearest(corner.value),
                    place: corner
                        .input
                        .origin
                        .as_ref()
                        .map(|origin| Place::of(origin, snapshot)),
                })
                .collect(),
            state: &sheet.state,
            basis: &sheet.basis,
        }
    }
}

fn nearest(amount: Amount) -> Number {
    Number::of(amount, Round::Nearest)
}

#[derive(Serialize)]
struct Share {
    value: f64,
    printed: String,
}

#[derive(Serialize)]
struct Side<'a> {
    what: &'a str,
    value: Number,
    place: Option<Place>,
}

#[derive(Serialize)]
struct Given<'a> {
    what: &'a str,
    value: Value<'a>,
    places: Vec<Place>,
    /// How its value is calculated in the text; left out where it is written there as it is.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    calculated: Vec<Calculated<'a>>,
    pedigree: &'a str,
}

/// A calculation in the text, with where the names in it are given.
#[derive(Serialize)]
struct Calculated<'a> {
    text: &'a str,
    value: Option<Number>,
    names: Vec<GivenAt<'a>>,
}

#[derive(Serialize)]
struct GivenAt<'a> {
    name: &'a str,
    place: Place,
}

impl<'a> Calculated<'a> {
    fn of(via: &'a Via, snapshot: &Snapshot) -> Option<Self> {
        let Via::Expression(way) = via else {
            return None;
        };
        let names = way.names.iter().map(|(name, origin)| GivenAt {
            name,
            place: Place::of(origin, snapshot),
        });
        Some(Self {
            text: &way.text,
            value: way.value.map(|value| nearest(value.amount())),
            names: names.collect(),
        })
    }
}

/// `band` has `null` for a side that is not known.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
enum Value<'a> {
    Exact(Number),
    Band {
        lo: Option<Number>,
        hi: Option<Number>,
        printed: String,
    },
    Words(&'a str),
}

impl<'a> Given<'a> {
    fn of(input: &'a Input, snapshot: &Snapshot) -> Self {
        Self {
            what: &input.what,
            value: match &input.value {
                InputValue::Exact(amount) => Value::Exact(nearest(*amount)),
                InputValue::Band { lo, hi } => Value::Band {
                    lo: lo.map(|lo| Number::of(lo, Round::Down)),
                    hi: hi.map(|hi| Number::of(hi, Round::Up)),
                    printed: Printer::default().band(*lo, *hi),
                },
                InputValue::Words(words) => Value::Words(words),
            },
            places: input
                .origins
                .iter()
                .map(|origin| Place::of(origin, snapshot))
                .collect(),
            calculated: input
                .origins
                .iter()
                .flat_map(|origin| &origin.via)
                .filter_map(|via| Calculated::of(via, snapshot))
                .collect(),
            pedigree: &input.pedigree,
        }
    }
}

/// A step: the formula with its numbers, a method, or a sum.
#[derive(Serialize)]
#[serde(tag = "step", rename_all = "kebab-case")]
enum Done<'a> {
    Formula {
        formula: String,
        filled: String,
        inputs: Vec<Named<'a>>,
        result: Number,
        basis: &'a Basis,
    },
    Method {
        say: &'a str,
        residual: Option<f64>,
        results: Vec<Named<'a>>,
        basis: &'a Basis,
    },
    Sum {
        say: &'a str,
        parts: Vec<Named<'a>>,
        total: Number,
    },
}

#[derive(Serialize)]
struct Named<'a> {
    name: &'a str,
    value: Number,
}

fn named(pairs: &[(String, Amount)]) -> Vec<Named<'_>> {
    pairs
        .iter()
        .map(|(name, amount)| Named {
            name,
            value: nearest(*amount),
        })
        .collect()
}

impl<'a> Done<'a> {
    fn of(step: &'a Step) -> Self {
        match step {
            Step::Worked(worked) => Self::Formula {
                formula: worked.formula.text(),
                filled: worked.text(Printer::default()),
                inputs: worked
                    .inputs
                    .iter()
                    .map(|(name, amount)| Named {
                        name,
                        value: nearest(*amount),
                    })
                    .collect(),
                result: nearest(worked.result),
                basis: &worked.basis,
            },
            Step::Method(method) => Self::Method {
                say: &method.say,
                residual: method.residual,
                results: named(&method.results),
                basis: &method.basis,
            },
            Step::Sum { say, parts, total } => Self::Sum {
                say,
                parts: named(parts),
                total: nearest(*total),
            },
        }
    }
}
