//! `ring-rating`: the ring in which the legs gather against the mark on it.

use super::{gross, held};
use crate::draft::Compared;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::Case;
use plumbhook_model::ask::{Ask, Hurts};
use plumbhook_sheet::{Aspect, Basis, Origin, step};
use plumbhook_units::Measured;
use plumbhook_units::{Amount, RatedForce, Ratio, weight};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "ring-rating",
    summary: "The ring in which the legs gather carries no more than the mark on it.",
    explanation: "\
Everything that hangs below the hook counts: the load at its heavy end, every piece of every leg and the \
ring itself, times the dynamic factor. While the load is held, the limit of the pull counts where that is more.",
    basis: &[Basis::STATICS],
    inputs: &[
        ("mass of the load", Hurts::High),
        ("mass of each piece", Hurts::High),
        ("dynamic factor", Hurts::High),
        ("rated capacity", Hurts::Low),
    ],
    may_lack: &[],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "a ring of 15 t under 15 t and the dynamic factor",
            subject: "ring-2",
            change: &[("rated      25 t ", "rated      15 t ")],
        }),
        Outcome::Shown(Example {
            say: "a ring of 25 t",
            subject: "ring-2",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "nobody knows what the ring weighs",
            subject: "ring-2",
            change: &[("mass       22 kg +/- 5 %", "mass       unknown")],
        }),
        Outcome::Shown(Example {
            say: "the one sling goes straight to the hook by a shackle",
            subject: "ring",
            change: &[(
                "hung       ring-2 by bridge.main",
                "hung       bow-12 by bridge.main",
            )],
        }),
    ],
    check,
};

#[allow(non_snake_case, reason = "symbols of the formula, as print has them")]
fn check(case: &Case) -> Vec<Aspect> {
    let mut ask = Ask::new(case);
    if case.only_stands() {
        let home = Origin::header(&case.movement.key);
        let draft = Draft::new("ring", home, ask.asked, case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let mut gross = gross::load_and_legs(case, &mut ask);
    let home = Origin::header(&case.movement.key);
    let ring = gross::ring(case, &mut ask, &mut gross);
    if let Some(other) = ring.filter(|ring| &*ring.key.word != "ring") {
        let draft = Draft::new("ring", home, ask.asked, case.printer);
        return vec![draft.does_not_apply(&format!(
            "the legs gather in {}, which is no ring",
            other.name()
        ))];
    }
    let dynamic = ask.dynamic_factor();
    let pull = ask.pull();
    let name = ring.map_or("ring", |ring| ring.name());
    let rating = ring
        .and_then(|ring| ring.body.as_ref()?.gear())
        .and_then(|gear| {
            ask.rating(
                &format!("rated capacity of {name}"),
                gear.rated(),
                |rated| gear.rating_counts(rated),
            )
        });
    let primary = case
        .rigging()
        .map_or(home, |(_, rigging)| rigging.hung.datum.origin().clone());
    let mut draft = Draft::new(name, primary, ask.asked, case.printer);
    draft.basis = vec![Basis::STATICS];
    draft
        .book
        .0
        .push(gross.step("what hangs from the ring, itself included"));
    let W = weight(gross.proved());
    let factor = Ratio::from_si(dynamic.unwrap_or(1.0));
    step!(&mut draft.book, Basis::STATICS, [factor, W], F = factor * W);
    let demand = Amount::of(held::at_least(&mut draft, pull, RatedForce::from_force(F)));
    let compared = Compared {
        proved: Some(demand),
        worst: Some(demand).filter(|_| gross.most().is_some() && dynamic.is_some()),
        capacity: rating.map(Amount::of),
    };
    draft.mends.push(format!(
        "a ring rated {} or more would pass",
        case.printer.amount(demand, plumbhook_units::Round::Up)
    ));
    draft.sums.push(gross.line(case.printer));
    vec![draft.against(name, "carries", compared)]
}
