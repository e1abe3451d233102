//! `cg-known`: where the load's centre of gravity lies, from what, and how well that is known.

use super::carried;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Hurts, words};
use plumbhook_model::values::{AXES, Axes};
use plumbhook_model::{Case, centre_of_gravity};
use plumbhook_sheet::{Aspect, Basis, Origin, Trust};
use plumbhook_units::Amount;

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "cg-known",
    summary: "The centre of gravity of the load is known on both sides of every axis, with how it is known.",
    explanation: "\
Where the centre of gravity lies decides which leg takes more, how far the load tilts and which pad it leans on. \
It is a box in the load's own frame, axis by axis: both sides of each come from the claims, and a plain number \
takes the accuracy of its declared source. Parts that are on and what is inside draw it towards them; contents that \
do not say where they lie may be anywhere in the load's outside. It is never taken to be in the middle of the load. \
`cg expected from weighing-2` takes what a weighing or a take-off comes to, with its steps.\n\n\
Mends: a trial lift, weighing on several points, a calculation; then both sides of each axis in the line `cg`.",
    basis: &[Basis {
        publication: "DOE-STD-1090",
        section: "12.1 e: the centre of gravity, with its source",
        trust: Trust::Published,
    }],
    inputs: &[("centre of gravity", Hurts::Both)],
    may_lack: &[],
    lift: &HALL,
    examples: [
        Outcome::Never(
            "No rule set of this version limits how wide the box may be. A wide box costs where it is used: each \
             check runs at its worst corner.",
        ),
        Outcome::Shown(Example {
            say: "every axis with its tolerance, from a drawing",
            subject: "cover",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "nobody says how high it lies",
            subject: "cover",
            change: &[("y 0 +/- 40 mm, z 0.50 m +/- 40 mm", "y 0 +/- 40 mm")],
        }),
        Outcome::Never("Whatever is moved has a centre of gravity."),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let mut ask = Ask::new(case);
    let Some((declared, load)) = carried::load(case, &mut ask) else {
        let home = Origin::header(&case.movement.key);
        let draft = Draft::new("load", home, ask.asked, case.printer);
        let what = "where the centre of gravity lies";
        return vec![carried::known(draft, what, None)];
    };
    let name = declared.name();
    let what = format!("centre of gravity of {name}");
    // Numbers of a frame that nobody describes lie anywhere.
    ask.value(&format!("frame of {name}"), &load.frame, |frame| {
        words(&frame.0)
    });
    let bands = centre_of_gravity(&mut ask, declared, load);
    carried::ask_pedigrees(&mut ask, &what, &load.cg, &load.adopt);
    let from = carried::pedigrees(&mut ask, &what, &load.cg, &load.adopt);
    let mut draft = Draft::new(name, carried::home(&load.cg), ask.asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    let is_expected = |axes: &Axes| axes.0.iter().flatten().any(|banded| banded.expected);
    carried::show_expected(case, &load.cg, is_expected, &mut draft.book);
    let axes: Vec<String> = bands
        .iter()
        .zip(AXES)
        .map(|(band, axis)| {
            let (lo, hi) = (band.lo().map(Amount::of), band.hi().map(Amount::of));
            format!("{axis} {}", case.printer.band(lo, hi))
        })
        .collect();
    vec![carried::known(
        draft,
        &what,
        Some(format!("{what} is {}{from}", axes.join("; "))),
    )]
}
