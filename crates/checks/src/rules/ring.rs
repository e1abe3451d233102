//! `ring-rating`: the ring in which the legs gather against the mark on it.

use super::{gross, held, pose, tiers};
use crate::draft::Compared;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::{Case, Thing, ThingKind};
use plumbhook_sheet::{Aspect, Basis, Origin, step};
use plumbhook_units::Measured;
use plumbhook_units::{Amount, RatedForce, Ratio, weight};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "ring-rating",
    summary: "The ring in which the legs gather carries no more than the mark on it.",
    explanation: "\
Everything that hangs below the ring counts: the load at its heavy end, beams, every piece of every leg and the \
ring itself, times the dynamic factor. A ring between two tiers, or on one of two hooks, carries its share at the \
worst corner. While the load is held, the limit of the pull counts where that is more.",
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

fn check(case: &Case) -> Vec<Aspect> {
    if case.only_stands() {
        let home = Origin::header(&case.movement.key);
        let draft = Draft::new("ring", home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let hanging = case.hanging();
    let rings = hanging.things.iter().filter(|thing| {
        let word = thing.entry.as_ref().map(|entry| &*entry.key.word);
        thing.kind == ThingKind::Ring && thing.body.is_some() && word.is_none_or(|w| w == "ring")
    });
    let mut all: Vec<Aspect> = rings.map(|ring| in_tiers(case, ring)).collect();
    if case.all_hung_from().len() < 2 || all.is_empty() {
        all.insert(0, on_the_hook(case));
    }
    all
}

/// A ring between tiers, or on one of several hooks: what hangs below it is its share of the whole at the worst corner.
#[allow(non_snake_case, reason = "symbols of the formula, as print has them")]
fn in_tiers(case: &Case, ring: &Thing) -> Aspect {
    let mut ask = Ask::new(case);
    let posed = pose::ask(case, &mut ask);
    posed.ask_least_mass_of_tiers(case, &mut ask);
    let dynamic = ask.dynamic_factor();
    let pull = ask.pull();
    let name = tiers::name(case, ring);
    let gear = ring
        .entry
        .as_ref()
        .and_then(|entry| entry.body.as_ref()?.gear());
    let rating = gear.and_then(|gear| {
        ask.rating(
            &format!("rated capacity of {name}"),
            gear.rated(),
            |rated| gear.rating_counts(rated),
        )
    });
    let mut draft = Draft::new(&name, ring.origin.clone(), ask.asked, case.printer);
    draft.question = format!("whether {name} carries it");
    draft.basis = vec![Basis::STATICS];
    let below = tiers::put_below(&mut draft, &posed, ring);
    let own = tiers::own_weight(posed.hanging, ring);
    let demand = below.zip(own).map(|(W_below, W_ring)| {
        let factor = Ratio::from_si(dynamic.unwrap_or(1.0));
        step!(
            &mut draft.book,
            Basis::STATICS,
            [factor, W_below, W_ring],
            F = factor * (W_below + W_ring)
        );
        Amount::of(held::at_least(&mut draft, pull, RatedForce::from_force(F)))
    });
    let compared = Compared {
        proved: demand,
        worst: demand.filter(|_| posed.hanging.complete && dynamic.is_some()),
        capacity: rating.map(Amount::of),
    };
    draft.against(&name, "carries", compared)
}

/// The one ring on the only hook: everything hangs from it.
#[allow(non_snake_case, reason = "symbols of the formula, as print has them")]
fn on_the_hook(case: &Case) -> Aspect {
    let mut ask = Ask::new(case);
    let mut gross = gross::load_and_legs(case, &mut ask);
    let home = Origin::header(&case.movement.key);
    let ring = gross::ring(case, &mut ask, &mut gross);
    if let Some(other) = ring.filter(|ring| &*ring.key.word != "ring") {
        let draft = Draft::new("ring", home, ask.asked, case.printer);
        return draft.does_not_apply(&format!(
            "the legs gather in {}, which is no ring",
            other.name()
        ));
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
    draft.against(name, "carries", compared)
}
