//! `beam-rating`: a spreader or lifting beam against its plate.

use super::pose::{self, Posed};
use super::{held, tiers};
use crate::draft::Compared;
use crate::example::SPREADER;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::entries::Beam;
use plumbhook_model::{Case, Datum, Hanging, Thing, ThingKind};
use plumbhook_sheet::{Aspect, Basis, InputValue, Lack, Origin, Trust, step};
use plumbhook_units::{Amount, Force, Length, Measured, RatedForce, Ratio, Round, weight};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "beam-rating",
    summary: "A spreader or lifting beam carries no more than its plate rates, as the plate rates it.",
    explanation: "\
What hangs below the beam at the worst corner, with the legs that hang from it, times the dynamic factor, is compared \
with the rating on its plate. The plate rates one configuration: the span between the ends has to lie in what it \
says, and the legs above a spreader have to be as steep as it says, for flatter legs press it together more. Outside \
of that nothing is known of its capacity. Its strength itself is not calculated here.\n\n\
Mends: a beam of a larger rating, longer legs above it, the span that the plate rates.",
    basis: &[
        Basis {
            publication: "common practice, no source",
            section: "a beam is loaded as its plate rates it: load, span and angle of the legs above",
            trust: Trust::FromMemory,
        },
        Basis::STATICS,
    ],
    inputs: &[
        ("mass of the load", Hurts::High),
        ("centre of gravity", Hurts::Both),
        ("length of each piece", Hurts::Both),
        ("stiffness of each sling", Hurts::Both),
        ("mass of each piece", Hurts::High),
        ("mass of the beam", Hurts::Both),
        ("dynamic factor", Hurts::High),
        ("rated capacity", Hurts::Low),
        ("rated span", Hurts::Both),
        ("rated angle", Hurts::High),
    ],
    lift: &SPREADER,
    may_lack: &[(
        "stiffness",
        "legs of which nobody says how stiff they are, are judged by every way of sharing alone",
    )],
    examples: [
        Outcome::Shown(Example {
            say: "a spreader of 8 t over a load of 9 t",
            subject: "bar-4",
            change: &[("rated        12 t ", "rated        8 t ")],
        }),
        Outcome::Shown(Example {
            say: "a spreader of 12 t over a load of 9 t",
            subject: "bar-4",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "its plate rates another span",
            subject: "bar-4",
            change: &[("rated-span   3.9 m .. 4.1 m", "rated-span   2.9 m .. 3.1 m")],
        }),
        Outcome::Shown(Example {
            say: "the load hangs from nothing and only stands",
            subject: "beam",
            change: &[("by         bridge with under-bar", "by         none")],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let home = Origin::header(&case.movement.key);
    let hanging = case.hanging();
    if case.only_stands() {
        let draft = Draft::new("beam", home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let beams: Vec<&Thing> = hanging
        .things
        .iter()
        .filter(|thing| thing.kind == ThingKind::Beam)
        .collect();
    if beams.is_empty() && hanging.all_legs() {
        let draft = Draft::new("beam", home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("no beam hangs below the hook")];
    }
    if beams.is_empty() {
        let mut asked = hanging.asked.clone();
        asked
            .missing
            .retain(|missing| missing.lack != Lack::OneSided);
        let draft = Draft::new("beam", home, asked, case.printer);
        return vec![draft.against("what a beam carries", "", Compared::default())];
    }
    beams.into_iter().map(|beam| one(case, beam)).collect()
}

#[allow(non_snake_case, reason = "symbols of the formula, as print has them")]
fn one(case: &Case, thing: &Thing) -> Aspect {
    let mut ask = Ask::new(case);
    let name = tiers::name(case, thing);
    let posed = pose::ask(case, &mut ask);
    posed.ask_least_mass(case, &mut ask);
    let beam = thing.entry.as_ref().and_then(|entry| entry.of::<Beam>());
    let dynamic = ask.dynamic_factor();
    let pull = ask.pull();
    let rating = beam.and_then(|beam| {
        ask.rating(&format!("rated capacity of {name}"), &beam.rated, |rated| {
            rated.hitch.is_none()
        })
    });
    let as_rated = beam.is_some_and(|beam| {
        let span = span_is_rated(&mut ask, &name, beam);
        let angle = angle_is_rated(case, &mut ask, &posed, (&name, thing), beam);
        span && angle
    });
    let mut draft = Draft::new(&name, thing.origin.clone(), ask.asked, case.printer);
    draft.question = format!("whether {name} carries it");
    draft.basis = RULE.basis.to_vec();
    draft.figure = posed.hanging.figure(&format!("how {name} hangs"));
    for line in beam.iter().flat_map(|beam| &beam.rated.lines) {
        draft.relate(line.origin(), format!("{name} is rated here"));
    }
    let below = tiers::put_below(&mut draft, &posed, thing);
    let demand = below.map(|W_below| {
        let W_legs = legs_below(posed.hanging, thing);
        let factor = Ratio::from_si(dynamic.unwrap_or(1.0));
        step!(
            &mut draft.book,
            Basis::STATICS,
            [factor, W_below, W_legs],
            F = factor * (W_below + W_legs)
        );
        Amount::of(held::at_least(&mut draft, pull, RatedForce::from_force(F)))
    });
    if let Some(demand) = demand {
        draft.mends.push(format!(
            "a beam rated {} or more would pass",
            case.printer.amount(demand, Round::Up)
        ));
    }
    let compared = Compared {
        proved: demand,
        worst: demand.filter(|_| posed.hanging.complete && dynamic.is_some()),
        // A rating of another configuration is none.
        capacity: rating.filter(|_| as_rated).map(Amount::of),
    };
    draft.against(&name, "carries", compared)
}

/// The weight of the legs that hang from a beam, as far as it is known.
fn legs_below(hanging: &Hanging, thing: &Thing) -> Force {
    let number = hanging
        .things
        .iter()
        .position(|other| std::ptr::eq(other, thing));
    let legs = hanging
        .legs
        .iter()
        .filter(|leg| Some(leg.upper.thing) == number);
    let weights = legs.filter_map(|leg| leg.mass.hi().or(leg.mass.lo()));
    weights.map(weight).fold(Force::from_si(0.0), |a, b| a + b)
}

/// Whether the span of the ends lies in what the plate rates; if not, that is missing.
fn span_is_rated(ask: &mut Ask<'_>, name: &str, beam: &Beam) -> bool {
    let what = format!("span that the plate of {name} rates");
    let rated = ask.band(&what, &beam.rated_span, Hurts::Both);
    let (Some((lo, hi)), Datum::Known(ends)) = (rated.both(), &beam.ends.datum) else {
        return false;
    };
    let ends = &ends.value.0;
    let apart = |a: [Length; 3], b: [Length; 3]| {
        let square: f64 = a
            .iter()
            .zip(b)
            .map(|(a, b)| (a.si() - b.si()).powi(2))
            .sum();
        square.sqrt()
    };
    let pairs = ends
        .iter()
        .flat_map(|a| ends.iter().map(|b| apart(a.at, b.at)));
    let span = pairs.fold(0.0, f64::max);
    // Points are written to the millimetre.
    if span >= lo.si() - 1e-9 && span <= hi.si() + 1e-9 {
        return true;
    }
    let printer = ask.case().printer;
    ask.lacks(
        format!(
            "a rating of {name} for a span of {}",
            printer.metric(Amount::of(Length::from_si(span)), Round::Nearest)
        ),
        Lack::OutOfRange,
        beam.rated_span.datum.origin(),
        "use the span that the plate rates, or give the rating for this one",
    );
    false
}

/// Whether the legs above a spreader are as steep as its plate asks; if not, that is missing. A lifting beam bends, and
/// the legs above it do not press it together.
fn angle_is_rated(
    case: &Case,
    ask: &mut Ask<'_>,
    posed: &Posed<'_>,
    (name, thing): (&str, &Thing),
    beam: &Beam,
) -> bool {
    let kind = match &beam.kind.datum {
        Datum::Known(given) => {
            ask.used(&format!("kind of {name}"), given.value.word, &given.origin);
            Some(given.value.word)
        }
        Datum::Lacking(lacking) => {
            ask.lacks(
                format!("kind of {name}"),
                lacking.lack,
                &lacking.origin,
                "say `kind spreader` or `kind lifting-beam`",
            );
            None
        }
    };
    match kind {
        Some("lifting-beam") => return true,
        Some(_) => {}
        None => return false,
    }
    let what = format!("flattest legs above {name} by its plate");
    let Some(least) = ask.band(&what, &beam.rated_angle, Hurts::Low).lo() else {
        return false;
    };
    let hanging = posed.hanging;
    let number = hanging
        .things
        .iter()
        .position(|other| std::ptr::eq(other, thing));
    let Some(worst) = posed.worst else {
        return false;
    };
    let legs = hanging.legs.iter().enumerate();
    let above = legs.filter(|(_, leg)| Some(leg.lower.thing) == number);
    let flattest = above
        .filter_map(|(index, _)| pose::flattest(worst, index))
        .map(|(extreme, _)| extreme.value)
        .min_by(|a, b| a.si().total_cmp(&b.si()));
    let Some(flattest) = flattest else {
        return false;
    };
    ask.asked
        .inputs
        .push(std::sync::Arc::new(plumbhook_sheet::Input {
            what: format!("flattest leg above {name} at the worst"),
            value: InputValue::Exact(Amount::of(flattest)),
            origins: vec![thing.origin.clone()],
            pedigree: "solved".into(),
        }));
    if flattest.si() >= least.si() - 1e-12 {
        return true;
    }
    ask.lacks(
        format!(
            "a rating of {name} for legs above as flat as {}",
            case.printer.metric(Amount::of(flattest), Round::Down)
        ),
        Lack::OutOfRange,
        beam.rated_angle.datum.origin(),
        "make the legs above longer, or give the rating for this angle",
    );
    false
}
