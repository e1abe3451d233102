//! What a piece of a leg carries: shared by the rules for slings and shackles.

use super::pose::{self, Posed};
use super::{held, tiers, worst};
use crate::Draft;
use crate::draft::Compared;
use plumbhook_mechanics::hanging::{Extreme, Worst};
use plumbhook_model::ask::{Ask, Asked, SlingRated};
use plumbhook_model::entries::Sling;
use plumbhook_model::values::PieceUse;
use plumbhook_model::{Case, Datum, Declared, Hanging, LegUse, Pull};
use plumbhook_sheet::{Aspect, Basis, Lack, Method, Missing, Origin, Stage, Step, step};
use plumbhook_units::{Amount, Force, Measured, RatedForce, Ratio, Round, weight};

/// One aspect for each kind of piece of that entry word: the worst of the legs that it stands in.
pub(super) fn check(case: &Case, word: &str) -> Vec<Aspect> {
    let hanging = case.hanging();
    let mut kinds: Vec<(&str, Vec<(String, Aspect)>)> = Vec::new();
    for (index, leg) in hanging.legs.iter().enumerate() {
        for (nth, (piece, found)) in leg.pieces.iter().enumerate() {
            let Some(found) = found.as_ref().filter(|found| &*found.key.word == word) else {
                continue;
            };
            // The same piece twice in a leg carries the same, where it is hitched the same.
            let mut earlier = leg.pieces.iter().take(nth);
            if earlier.any(|(other, it)| {
                let same = it.as_ref().is_some_and(|it| it.key == found.key);
                same && other.hitched == piece.hitched
            }) {
                continue;
            }
            let kind = kinds.iter().position(|(name, _)| *name == found.name());
            let kind = kind.unwrap_or_else(|| {
                kinds.push((found.name(), vec![]));
                kinds.len() - 1
            });
            if let Some((_, legs)) = kinds.get_mut(kind) {
                let name = tiers::leg_name(case, leg);
                legs.push((name, one(case, (index, leg), piece, found)));
            }
        }
    }
    if kinds.is_empty() {
        return vec![none(case, hanging, word)];
    }
    let worst = |(name, legs)| worst::of_legs(name, legs);
    kinds.into_iter().filter_map(worst).collect()
}

/// No such piece: known only if every leg is.
fn none(case: &Case, hanging: &Hanging, word: &str) -> Aspect {
    let origin = Origin::header(&case.movement.key);
    let subject = format!("{word} in the legs");
    if case.only_stands() {
        let draft = Draft::new(subject, origin, Asked::default(), case.printer);
        return draft.does_not_apply("the load hangs from nothing");
    }
    if every_piece_is_known(hanging) {
        let draft = Draft::new(subject, origin, Asked::default(), case.printer);
        return draft.does_not_apply(&format!("no leg has a {word}"));
    }
    let mut asked = hanging.asked.clone();
    asked
        .missing
        .retain(|missing| missing.lack != Lack::OneSided);
    let draft = Draft::new(subject, origin, asked, case.printer);
    draft.against(&format!("what the {word} carries"), "", Compared::default())
}

/// Whether every leg is there, and every piece in it.
pub(super) fn every_piece_is_known(hanging: &Hanging) -> bool {
    let mut pieces = hanging.legs.iter().flat_map(|leg| &leg.pieces);
    hanging.all_legs() && !hanging.legs.is_empty() && pieces.all(|(_, found)| found.is_some())
}

fn one<'c>(
    case: &'c Case,
    (index, leg): (usize, &LegUse),
    piece: &PieceUse,
    found: &'c Declared,
) -> Aspect {
    let mut ask = Ask::new(case);
    let rated = rated(&mut ask, piece, found);
    let rating = rated.as_ref().map(|rated| rated.capacity);
    let posed = pose::ask(case, &mut ask);
    posed.ask_least_mass_of_tiers(case, &mut ask);
    ask.asked.include(&leg.mass_asked);
    let factors = Factors::ask(&mut ask);
    let subject = format!("{} in leg {}", found.name(), tiers::leg_name(case, leg));
    let mut draft = Draft::new(&subject, piece.gear.origin.clone(), ask.asked, case.printer);
    draft.question = format!("whether {subject} carries it");
    draft.basis = vec![Basis::STATICS];
    relate_rating(case, &mut draft, rating, found);
    if let Some(rated) = rated {
        draft.book.0.extend(rated.steps);
        draft.basis.extend(rated.basis);
    }
    let demand = tension(case, &posed, (index, leg), &factors, &mut draft);
    too_flat(case, &posed, index, piece, &mut draft);
    let compared = Compared {
        proved: demand,
        worst: demand.filter(|_| {
            posed.hanging.complete && factors.dynamic.is_some() && leg.mass.hi().is_some()
        }),
        capacity: rating.map(Amount::of),
    };
    mend(case, &mut draft, demand, found);
    draft.against(&subject, "carries", compared)
}

/// What the piece is rated at: a sling in its hitch, all else for a pull in line.
fn rated<'c>(ask: &mut Ask<'c>, piece: &PieceUse, found: &'c Declared) -> Option<SlingRated> {
    let name = found.name();
    if let Some(sling) = found.of::<Sling>() {
        return ask.sling_rating(name, sling, piece);
    }
    let gear = found.body.as_ref()?.gear()?;
    let what = format!("rated capacity of {name}");
    let tag = ask.rating(&what, gear.rated(), |rated| gear.rating_counts(rated))?;
    Some(SlingRated::of(tag))
}

/// What counts beside the pose.
pub(super) struct Factors {
    pull: Pull,
    /// The dynamic factor, if it is known.
    pub(super) dynamic: Option<f64>,
    rules_known: bool,
}

impl Factors {
    /// Asks for them.
    pub(super) fn ask(ask: &mut Ask<'_>) -> Self {
        Self {
            pull: ask.pull(),
            dynamic: ask.dynamic_factor(),
            rules_known: ask.rules_known(),
        }
    }
}

/// The tension at the worst corner with the dynamic factor and the leg's own weight, worked on the sheet.
#[allow(non_snake_case, reason = "symbols of the formula, as print has them")]
pub(super) fn tension(
    case: &Case,
    posed: &Posed<'_>,
    (index, leg): (usize, &LegUse),
    factors: &Factors,
    draft: &mut Draft,
) -> Option<Amount> {
    let worst = posed.worst?;
    let (extreme, way) = pose::tension(worst, index)?;
    let mut governing = extreme.value;
    draft.corner = posed.hanging.corner(extreme);
    draft.relate_corner();
    way.clone_into(&mut draft.state);
    draft.book.0.push(pose_step(case, extreme, leg, way));
    // Where it is not known which rule sets govern, no leg count of any may convict.
    let counted = by_leg_count(case, posed.hanging, leg, worst).filter(|_| factors.rules_known);
    if let Some((counted, basis)) = counted {
        draft.book.0.push(Step::Method(Method {
            say: format!("leg count of {}", basis.say()),
            residual: None,
            results: vec![("tension in each leg".into(), Amount::of(counted))],
            basis,
        }));
        draft.basis.push(basis);
        if counted.si() > governing.si() {
            governing = counted;
            draft.state = format!("by the leg count of {}", basis.publication);
        }
    }
    // What is not known of the factor or the leg's own weight is left out of the proof and is missing anyway.
    let dynamic = Ratio::from_si(factors.dynamic.unwrap_or(1.0));
    let T = RatedForce::from_force(governing).force();
    let W_leg = leg
        .mass
        .hi()
        .or(leg.mass.lo())
        .map_or_else(|| Force::from_si(0.0), weight);
    step!(
        &mut draft.book,
        Basis::STATICS,
        [dynamic, T, W_leg],
        T_leg = dynamic * (T + W_leg)
    );
    let leg = held::Leg {
        tension: governing,
        weight: posed.hanging.weight_at(&extreme.corner)?,
    };
    let hangs = RatedForce::from_force(T_leg);
    Some(Amount::of(leg.at_least(draft, factors.pull, hangs)))
}

/// The pose at the worst corner of a leg, solved again for the record.
fn pose_step(case: &Case, extreme: &Extreme<Force>, leg: &LegUse, way: &str) -> Step {
    let hanging = case.hanging();
    let pose = hanging.pose_at(&extreme.corner);
    Step::Method(Method {
        say: format!(
            "how the load hangs at the worst corner for leg {}, {way}",
            tiers::leg_name(case, leg)
        ),
        residual: pose.as_ref().map(|pose| pose.residual.share_of_weight),
        results: pose
            .iter()
            .flat_map(|pose| &pose.legs)
            .zip(&hanging.legs)
            .map(|(hangs, leg)| {
                (
                    format!("tension in leg {}", tiers::leg_name(case, leg)),
                    Amount::of(hangs.tension),
                )
            })
            .collect(),
        basis: Basis::STATICS,
    })
}

/// The rule set's own count of legs, where it has one for as many legs as run between the same two things, and their
/// angle: the strictest.
fn by_leg_count(
    case: &Case,
    hanging: &Hanging,
    leg: &LegUse,
    worst: &Worst,
) -> Option<(Force, Basis)> {
    let legs = hanging.tier(leg).count();
    let flattest = hanging
        .tier(leg)
        .filter_map(|(leg, _)| pose::flattest(worst, leg))
        .map(|(angle, _)| angle.value.si())
        .reduce(f64::min)?;
    let from_vertical = 90.0 - flattest.to_degrees();
    let carried = tiers::below(hanging, leg, worst)?;
    case.rules
        .iter()
        .filter_map(|set| {
            let factor = set.leg_factors.iter().find(|row| {
                (row.legs.0..=row.legs.1).contains(&legs)
                    && from_vertical <= row.to_vertical_deg + 1e-9
            })?;
            Some((carried / factor.factor, set.leg_factor_basis?))
        })
        .max_by(|a, b| a.0.si().total_cmp(&b.0.si()))
}

/// A leg flatter than the rule sets cover: its own rule says so, and here no rating is known for it.
fn too_flat(case: &Case, posed: &Posed<'_>, leg: usize, piece: &PieceUse, draft: &mut Draft) {
    let flattest = posed.worst.and_then(|worst| pose::flattest(worst, leg));
    let (Some((angle, _)), Some((least, basis))) = (flattest, pose::least_angle(case)) else {
        return;
    };
    if angle.value.si() >= least.si() - 1e-12 {
        return;
    }
    draft.asked.missing.push(Missing {
        what: format!(
            "a rating of {} for a leg as flat as {} ({} covers none)",
            piece.gear.head(),
            case.printer.metric(Amount::of(angle.value), Round::Down),
            basis.publication
        ),
        lack: Lack::OutOfRange,
        key: None,
        origin: piece.gear.origin.clone(),
        mend: "make the legs steeper, or give a rating that covers the angle".into(),
        due: Stage::FirstLook,
    });
}

/// The line that gives the rating.
fn relate_rating(case: &Case, draft: &mut Draft, rating: Option<RatedForce>, found: &Declared) {
    let gear = found.body.as_ref().and_then(|body| body.gear());
    let lines = gear.iter().flat_map(|gear| &gear.rated().lines);
    for given in lines.filter_map(Datum::known) {
        if Some(given.value.capacity) == rating {
            let capacity = case
                .printer
                .metric(Amount::of(given.value.capacity), Round::Down);
            draft.relate(
                &given.origin,
                format!("{} is rated {capacity}", found.name()),
            );
        }
    }
}

/// The smallest piece of the same kind that the case's yard offers is not known to a rule; the number is.
fn mend(case: &Case, draft: &mut Draft, demand: Option<Amount>, found: &Declared) {
    if let Some(demand) = demand {
        draft.mends.push(format!(
            "a {} rated {} or more would pass",
            found.key.word,
            case.printer.amount(demand, Round::Up)
        ));
    }
}
