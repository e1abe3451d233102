//! `lifting-point`: each lifting point of the load against what its lug is rated and verified for.

use super::lug_pull::{self, InLeg};
use super::piece::{self, Factors};
use super::{lugs, pose, worst};
use crate::draft::Compared;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Asked, Hurts, words};
use plumbhook_model::entries::{Load, Lug};
use plumbhook_model::values::{LugName, LugVerified};
use plumbhook_model::{Case, Datum, Declared, Hanging, LegUse};
use plumbhook_sheet::{Aspect, Basis, InputValue, Lack, Origin, Stage};
use plumbhook_units::{Amount, RatedForce, Round};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "lifting-point",
    summary: "A lifting point of the load carries no more than it is rated and verified for, pulled as the leg pulls it.",
    explanation: "\
Every lifting point that a leg hangs from has a lug, and the lug has a rating with its evidence and, from issue on, a \
verification that covers the metal it sits on. The pull is the tension of the leg at the worst corner, times the dynamic \
factor; the lesser of the two capacities counts.\n\n\
A rating holds only for the pulls it is given for. `rated-angle` is the flattest, from the level of the load as it is meant \
to hang: the flattest leg less the largest tilt of the load is held against it. `plane` is how the plate lies and \
`rated-side` how far out of it the rating holds: held against an angle that the pull cannot pass, by how far the centre of \
gravity may lie out of that plane and how far the load may tilt. A pull outside them has no rating that is known.\n\n\
A lifting point that nobody rates is unknown, however solid it looks; this is demanded from a bid on.\n\n\
Mends: an answer from whoever made or checked the lug, steeper legs, a lug turned into the pull.",
    basis: &[Basis::STATICS, Basis::GEOMETRY],
    inputs: &[
        ("mass of the load", Hurts::High),
        ("centre of gravity", Hurts::Both),
        ("length of each piece", Hurts::Both),
        ("stiffness of each sling", Hurts::Both),
        ("mass of each piece", Hurts::High),
        ("dynamic factor", Hurts::High),
        ("rated capacity", Hurts::Low),
        ("what the verification of the lug covers", Hurts::Low),
        ("flattest pull of the rating", Hurts::High),
        ("side pull of the rating", Hurts::Low),
    ],
    may_lack: &[(
        "stiffness",
        "legs of which nobody says how stiff they are, are judged by every way of sharing alone",
    )],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "a lug of 5 t under a leg that pulls 6 t",
            subject: "eye-20",
            change: &[("rated      8 t ", "rated      5 t ")],
        }),
        Outcome::Shown(Example {
            say: "a lug of 8 t under a leg that pulls 6 t",
            subject: "eye-20",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "nobody says what stands at the lifting points",
            subject: "lifting points of cover",
            change: &[("  lug        eye-20 at A B C\n", "")],
        }),
        Outcome::Shown(Example {
            say: "the load hangs from nothing and only stands",
            subject: "lifting points",
            change: &[("by         bridge with chains-of-three", "by         none")],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let home = Origin::header(&case.movement.key);
    let subject = "lifting points";
    if case.only_stands() {
        let draft = Draft::new(subject, home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let hanging = case.hanging();
    let known = hanging.all_legs() && !hanging.legs.is_empty();
    let Some((load, body)) = case.load().filter(|_| known) else {
        let draft = Draft::new(subject, home, hanging.asked.clone(), case.printer);
        return vec![draft.against("what the lifting points carry", "", Compared::default())];
    };
    let mut kinds: Vec<(&LugName, Vec<(&str, Aspect)>)> = Vec::new();
    for (index, leg) in lugs::legs_at_load(case) {
        let Some(name) = lugs::lug_at(body, &leg.point.name) else {
            continue;
        };
        let aspect = one(case, name, (index, leg));
        let point = (&*leg.point.name, aspect);
        match kinds.iter_mut().find(|(kind, _)| kind.name == name.name) {
            Some((_, points)) => points.push(point),
            None => kinds.push((name, vec![point])),
        }
    }
    let worst = |(name, points): (&LugName, _)| worst::of_legs(&name.name, points);
    let mut all: Vec<Aspect> = kinds.into_iter().filter_map(worst).collect();
    let without = lugs::without(case, body);
    if !without.is_empty() {
        all.push(nobody(case, load, body, &without));
    }
    if all.is_empty() {
        let draft = Draft::new(subject, home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("every sling goes round the load itself")];
    }
    all
}

/// Points of which nobody says which lug stands there: one aspect for the load.
fn nobody(case: &Case, load: &Declared, body: &Load, points: &[&str]) -> Aspect {
    let mut ask = Ask::new(case);
    lugs::lacks(&mut ask, load, body, points);
    let subject = format!("lifting points of {}", load.name());
    let home = body.lug.home.clone();
    let mut draft = Draft::new(subject, home, ask.asked, case.printer);
    draft.stage = case.stage;
    draft.question = lugs::rating_of(load, points);
    draft.basis = RULE.basis.to_vec();
    draft.against("", "", Compared::default())
}

fn one(case: &Case, name: &LugName, (index, leg): (usize, &LegUse)) -> Aspect {
    let mut ask = Ask::new(case);
    ask.due = Stage::Bid;
    let found = ask.entry::<Lug, _>(name);
    let capacity = found.and_then(|(declared, lug)| capacity(&mut ask, declared.name(), lug));
    ask.due = Stage::FirstLook;
    let posed = pose::ask(case, &mut ask);
    posed.ask_least_mass_of_tiers(case, &mut ask);
    ask.asked.include(&leg.mass_asked);
    together(posed.hanging, &mut ask, leg);
    let factors = Factors::ask(&mut ask);
    if let Some((declared, lug)) = found {
        ask.due = Stage::Bid;
        let it = InLeg {
            name: declared.name(),
            lug,
            index,
            leg,
        };
        lug_pull::ask(&mut ask, &posed, &it);
    }
    let subject = format!("{} at {}", name.name, leg.point.name);
    let mut draft = Draft::new(&subject, name.origin.clone(), ask.asked, case.printer);
    draft.stage = case.stage;
    draft.question = format!("whether {subject} carries it");
    draft.basis = RULE.basis.to_vec();
    if let Some((declared, lug)) = found {
        relate(case, &mut draft, declared.name(), lug);
    }
    let demand = piece::tension(case, &posed, (index, leg), &factors, &mut draft);
    let known = posed.hanging.complete && factors.dynamic.is_some() && leg.mass.hi().is_some();
    let compared = Compared {
        proved: demand,
        worst: demand.filter(|_| known),
        capacity: capacity.map(Amount::of),
    };
    if let Some(demand) = demand {
        let least = case.printer.amount(demand, Round::Up);
        draft.mends.push(format!(
            "a lug rated and verified for {least} or more would pass"
        ));
    }
    draft.against(&subject, "carries", compared)
}

/// Each leg is judged alone: what several at one point pull together is none of their tensions.
fn together(hanging: &Hanging, ask: &mut Ask<'_>, leg: &LegUse) {
    let here = |other: &&LegUse| {
        other.lower.thing == leg.lower.thing && other.point.name == leg.point.name
    };
    if hanging.legs.iter().filter(here).count() > 1 {
        let what = format!(
            "the pull of several legs at {} together: it is not calculated yet",
            leg.point.name
        );
        let mend = "hang each leg from a point of its own, or check the lug by hand";
        ask.lacks(what, Lack::NoAnswer, &leg.origin, mend);
    }
}

/// The lesser of what the lug is rated for and what its verification covers.
fn capacity<'c>(ask: &mut Ask<'c>, name: &str, lug: &'c Lug) -> Option<RatedForce> {
    let what = format!("rated capacity of {name}");
    let rated = ask.rating(&what, &lug.rated, |rated| rated.hitch.is_none());
    let due = std::mem::replace(&mut ask.due, Stage::Issue);
    let covers = covered(ask, name, lug);
    ask.due = due;
    match (rated, covers) {
        (Some(rated), Some(covers)) if covers < rated => Some(covers),
        (None, covers) => covers,
        (rated, _) => rated,
    }
}

/// What the verification covers; where nobody has verified it, that is missing.
fn covered<'c>(ask: &mut Ask<'c>, name: &str, lug: &'c Lug) -> Option<RatedForce> {
    let what = format!("a verification of {name} with what it sits on");
    let given = ask.value(&what, &lug.verified, |verified| match verified {
        LugVerified::Yes { covers, .. } => InputValue::Exact(Amount::of(*covers)),
        LugVerified::No => words("no"),
    })?;
    match &given.value {
        LugVerified::Yes { covers, .. } => Some(*covers),
        LugVerified::No => {
            ask.lacks(
                format!("{name} with what it sits on"),
                Lack::Unverified,
                &given.origin,
                "have it verified for this pull, or lift by points that are",
            );
            None
        }
    }
}

/// The lines that give the rating and the verification.
fn relate(case: &Case, draft: &mut Draft, name: &str, lug: &Lug) {
    let metric = |force: RatedForce| case.printer.metric(Amount::of(force), Round::Down);
    for given in lug.rated.lines.iter().filter_map(Datum::known) {
        let rated = metric(given.value.capacity);
        draft.relate(&given.origin, format!("{name} is rated {rated}"));
    }
    if let Datum::Known(given) = &lug.verified.datum
        && let LugVerified::Yes { by, on, covers } = &given.value
    {
        let covers = metric(*covers);
        draft.relate(
            &given.origin,
            format!("verified for {covers} by {by} on {on}"),
        );
    }
}
