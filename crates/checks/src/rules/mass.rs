//! `mass-known`: what the load weighs, from what, and how well that is known.

use super::carried;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::Case;
use plumbhook_model::ask::{Ask, Hurts};
use plumbhook_sheet::{Aspect, Basis, Origin, Trust, step};
use plumbhook_units::{Amount, Band, Mass, Measured, Printer};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "mass-known",
    summary: "The mass of the load is known on both sides, with how it is known.",
    explanation: "\
Every check of what carries the load needs its heavy end, and every check that gets worse when it is light \
(a slack leg, a stretch, a share of another support) its light end. Both sides come from the claims: each \
claim states its own, the worst of each counts, a plain number takes the allowance of its pedigree from the \
root file. How well it is known is said as half of the band over its middle.\n\n\
Mends: weigh it, state a tolerance, say where the number comes from.",
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
    let band = ask.claims(&what, &load.mass, Hurts::Both);
    carried::ask_pedigrees(&mut ask, &what, &load.mass);
    let mut draft = Draft::new(name, carried::home(&load.mass), ask.asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    let spread = spread(&mut draft, band).map_or_else(String::new, |spread| {
        format!(" (+/- {})", Printer::utilisation(spread))
    });
    let is = format!(
        "{what} is {}{spread}{}",
        case.printer
            .band(band.lo().map(Amount::of), band.hi().map(Amount::of)),
        carried::pedigrees(&load.mass)
    );
    vec![carried::known(draft, &what, Some(is))]
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
