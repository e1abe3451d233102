//! `weighing-in-range`: what the load is weighed with reads within its range, and two weighings agree.

use super::carried;
use crate::draft::Compared;
use crate::example::ROTOR;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Hurts};
use plumbhook_model::entries::Weighing;
use plumbhook_model::{Case, Datum, Declared, Pedigree};
use plumbhook_sheet::{Aspect, Basis, Origin, Trust};
use plumbhook_units::{Amount, Mass, Measured};
use std::sync::Arc;

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "weighing-in-range",
    summary: "Each load cell of a weighing reads within its range, and weighings of one load agree.",
    explanation: "\
A mass and a centre of gravity by weighing are as good as the cells. A cell beyond its range reads anything; two \
weighings of one load (`again`, `tilted`) whose bands do not meet show that something changed between them: then the \
weighing has no answer. The sum of the readings is the mass whatever four supports share, so a load that rocks \
is weighed as well.\n\n\
Mends: cells of a larger range, weighing again in one and the same state.",
    basis: &[
        Basis {
            publication: "weighing with load cells",
            section: "each is read within its range, and a weighing is repeated",
            trust: Trust::CommonPractice,
        },
        Basis::STATICS,
    ],
    inputs: &[
        ("reading of each cell", Hurts::High),
        ("accuracy of the cells", Hurts::High),
        ("range of the cells", Hurts::Low),
    ],
    may_lack: &[],
    lift: &ROTOR,
    examples: [
        Outcome::Shown(Example {
            say: "a cell of 1.5 t reads 1.7 t",
            subject: "cells-1",
            change: &[("range      at most 5 t", "range      at most 1.5 t")],
        }),
        Outcome::Shown(Example {
            say: "four cells of 5 t, weighed twice",
            subject: "cells-1",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "the second weighing is heavier than the accuracy allows",
            subject: "cells-1",
            change: &[("| 1.548 t |", "| 1.948 t |")],
        }),
        Outcome::Shown(Example {
            say: "nothing of the load is taken from a weighing",
            subject: "rotor",
            change: &[
                ("  mass       expected                 from cells-1\n", ""),
                ("  cg         x expected, y expected   from cells-1\n", ""),
            ],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let mut ask = Ask::new(case);
    let Some((declared, load)) = carried::load(case, &mut ask) else {
        let home = Origin::header(&case.movement.key);
        let draft = Draft::new("load", home, ask.asked, case.printer);
        return vec![carried::known(draft, "what the load weighs", None)];
    };
    let masses = load.mass.lines.iter().filter_map(Datum::known);
    let places = load.cg.lines.iter().filter_map(Datum::known);
    let pedigrees: Vec<&Pedigree> = masses
        .map(|given| &*given.pedigree)
        .chain(places.map(|given| &*given.pedigree))
        .collect();
    let weighings: Vec<_> = case
        .all::<Weighing>()
        .filter(|(weighing, _)| {
            pedigrees
                .iter()
                .any(|of| carried::comes_from(of, weighing.name()))
        })
        .collect();
    if weighings.is_empty() {
        // A claim that could not be read might have named one.
        let mut ask = Ask::new(case);
        carried::ask_sources(case, &mut ask, declared.name(), &load.mass);
        carried::ask_sources(case, &mut ask, declared.name(), &load.cg);
        let home = carried::home(&load.mass);
        let draft = Draft::new(declared.name(), home, ask.asked, case.printer);
        return vec![if draft.asked.missing.is_empty() {
            draft.does_not_apply("nothing of it is known by weighing")
        } else {
            carried::known(draft, "whether it was weighed", None)
        }];
    }
    weighings
        .into_iter()
        .map(|(declared, weighing)| weighed(case, declared, weighing))
        .collect()
}

fn weighed(case: &Case, declared: &Arc<Declared>, weighing: &Weighing) -> Aspect {
    let mut ask = Ask::new(case);
    let name = declared.name();
    let range = ask.value(
        &format!("range of the cells of {name}"),
        &weighing.range,
        |limit| plumbhook_sheet::InputValue::Exact(Amount::of(limit.0)),
    );
    let range = range.map(|given| given.value.0);
    let estimate = case.estimate(name);
    if let Some(estimate) = estimate {
        ask.asked.include(&estimate.asked);
    }
    let worst = worst_reading(weighing);
    let primary = worst.as_ref().map_or_else(
        || weighing.cells.datum.origin().clone(),
        |(_, _, origin)| origin.clone(),
    );
    let mut draft = Draft::new(name, primary, ask.asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    if let Some(estimate) = estimate {
        draft.book.0.extend(estimate.steps.iter().cloned());
    }
    draft.question = format!("whether {name} can be relied on");
    draft.mends = vec!["weigh with cells of a larger range".into()];
    let compared = Compared {
        proved: worst.as_ref().map(|(_, mass, _)| Amount::of(*mass)),
        worst: worst.as_ref().map(|(_, mass, _)| Amount::of(*mass)),
        capacity: range.map(Amount::of),
    };
    let what = worst.map_or_else(
        || name.to_owned(),
        |(cell, _, _)| format!("{name}: cell {cell}"),
    );
    draft.against(&what, "reads up to", compared)
}

/// The most that a cell may have carried, level, again or tilted.
fn worst_reading(weighing: &Weighing) -> Option<(String, Mass, Origin)> {
    let cells = &weighing.cells.known()?.value.0;
    let accuracy = weighing.accuracy.known()?.value;
    let most = |reading: Mass| accuracy.band(reading).hi.si();
    cells
        .iter()
        .map(|cell| {
            let all = [Some(cell.reading), cell.again, cell.tilted];
            let worst = all.into_iter().flatten().map(most).fold(0.0, f64::max);
            (
                cell.name.to_string(),
                Mass::from_si(worst),
                cell.origin.clone(),
            )
        })
        .max_by(|a, b| a.1.si().total_cmp(&b.1.si()))
}
