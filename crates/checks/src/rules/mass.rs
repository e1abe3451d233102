//! `mass-known`: what the load weighs, from what, and how well that is known.

use super::carried;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Hurts};
use plumbhook_model::{Case, Weight, total, weights};
use plumbhook_sheet::{Aspect, Basis, Origin, Step, Trust, step};
use plumbhook_units::{Amount, Band, Mass, Measured, Printer};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "mass-known",
    summary: "The mass of the load is known on both sides, with how it is known.",
    explanation: "\
Every check of what carries the load needs its heavy end, and every check that gets worse when it is light \
(a slack leg, a stretch, a share of another support) its light end. Both sides come from the claims: each \
claim states its own, the worst of each counts, a plain number takes the allowance of its pedigree from the \
root file. A claim that is adopted drops the others, a weighing apart, and says by whom and why. Parts that are on \
and what is inside count with their own bands. How well it is known is said as half of the band over its middle.\n\n\
`mass expected from takeoff-1` takes the number that a take-off or a weighing comes to, with its steps.\n\n\
Mends: weigh it, count it up from its parts, state a tolerance, say where the number comes from.",
    basis: &[Basis {
        publication: "USACE EM 385-1-1",
        section: "form 16-3: the weight, with the source of that information",
        trust: Trust::Published,
    }],
    inputs: &[("mass of the load", Hurts::Both)],
    may_lack: &[],
    lift: &HALL,
    examples: [
        Outcome::Never(
            "No rule set of this version limits how wide the band of a weight may be. A wide band costs where it \
             is used: each check runs at its worst end. Claims that contradict each other are a notice.",
        ),
        Outcome::Shown(Example {
            say: "a weight from a drawing with its tolerance",
            subject: "cover",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "a weight without a tolerance, and no allowance for drawings in the root file",
            subject: "cover",
            change: &[("mass       14.0 t +/- 5 % ", "mass       14.0 t ")],
        }),
        Outcome::Never("Whatever is moved has a mass."),
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
    let name = declared.name();
    let what = format!("mass of {name}");
    let weights = weights(&mut ask, declared, load, Hurts::Both);
    let band = total(&weights);
    carried::ask_inside(&mut ask, declared, load);
    carried::ask_pedigrees(&mut ask, &what, &load.mass, &load.adopt);
    let from = carried::pedigrees(&mut ask, &what, &load.mass, &load.adopt);
    let mut draft = Draft::new(name, carried::home(&load.mass), ask.asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    carried::show_expected(case, &load.mass, |banded| banded.expected, &mut draft.book);
    if weights.len() > 1 {
        draft.book.0.push(sum(&weights));
    }
    let with: Vec<_> = weights.iter().skip(1).map(|weight| &*weight.what).collect();
    let with = if with.is_empty() {
        String::new()
    } else {
        format!(" with {}", with.join(", "))
    };
    let spread = spread(&mut draft, band).map_or_else(String::new, |spread| {
        format!(" (+/- {})", Printer::utilisation(spread))
    });
    let is = format!(
        "{what}{with} is {}{spread}{from}",
        case.printer
            .band(band.lo().map(Amount::of), band.hi().map(Amount::of))
    );
    vec![carried::known(draft, &what, Some(is))]
}

/// Each thing at its heavy end, as far as that is known.
fn sum(weights: &[Weight]) -> Step {
    let heavy = |weight: &Weight| weight.mass.hi().or(weight.mass.lo());
    let parts = weights
        .iter()
        .filter_map(|weight| Some((weight.what.clone(), heavy(weight)?)));
    let parts: Vec<_> = parts.collect();
    Step::Sum {
        say: "all that is carried, at its heavy end".into(),
        total: Amount::of(Mass::from_si(parts.iter().map(|(_, mass)| mass.si()).sum())),
        parts: parts
            .into_iter()
            .map(|(what, mass)| (what, Amount::of(mass)))
            .collect(),
    }
}

/// Half the band over its middle.
#[allow(non_snake_case, reason = "symbols of the formula, as print has them")]
fn spread(draft: &mut Draft, band: Band<Mass>) -> Option<f64> {
    let (m_low, m_high) = band.both().filter(|(_, high)| high.si() > 0.0)?;
    step!(
        &mut draft.book,
        Basis::STATICS,
        [m_low, m_high],
        spread = (m_high - m_low) / (m_high + m_low)
    );
    Some(spread.si())
}
