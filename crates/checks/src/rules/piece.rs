//! What a piece of a leg carries: shared by the rules for slings and shackles.

use crate::Draft;
use crate::draft::Compared;
use plumbhook_mechanics::hanging::{Extreme, Extremes, Worst};
use plumbhook_model::ask::{Ask, Asked};
use plumbhook_model::values::PieceUse;
use plumbhook_model::{Case, Declared, Hanging, LegUse};
use plumbhook_sheet::{Aspect, Basis, Lack, Method, Step, step};
use plumbhook_units::{Amount, Force, HorizontalAngle, Measured, RatedForce, Ratio, weight};

/// The larger of two ways of counting a leg's tension, with the place that gives it and its name.
pub(super) fn governing_tension(
    worst: &Worst,
    leg: usize,
) -> Option<(&Extreme<Force>, &'static str)> {
    let tension = |extremes: &'_ Extremes| -> Option<f64> {
        Some(extremes.legs.get(leg)?.max_tension.value.si())
    };
    let sharing = worst.sharing.legs.get(leg)?;
    let elastic = worst
        .elastic
        .as_ref()
        .and_then(|elastic| elastic.legs.get(leg));
    match elastic {
        Some(elastic) if elastic.max_tension.value.si() > tension(&worst.sharing)? => {
            Some((&elastic.max_tension, "by stiffness"))
        }
        _ if worst.indeterminate => Some((
            &sharing.max_tension,
            "by the worst sharing of legs that only pull",
        )),
        _ => Some((&sharing.max_tension, "by statics")),
    }
}

/// The flattest angle of a leg from horizontal, whichever way of counting gives it.
pub(super) fn flattest(worst: &Worst, leg: usize) -> Option<&Extreme<HorizontalAngle>> {
    let of = |extremes: &'static str, e: &'_ Extremes| {
        let _ = extremes;
        e.legs.get(leg).and_then(|leg| {
            leg.min_horizontal_angle
                .as_ref()
                .map(|angle| angle.value.si())
        })
    };
    let sharing = of("sharing", &worst.sharing);
    let elastic = worst
        .elastic
        .as_ref()
        .and_then(|elastic| of("elastic", elastic));
    let from = match (sharing, elastic) {
        (Some(sharing), Some(elastic)) if elastic < sharing => worst.elastic.as_ref()?,
        (None, Some(_)) => worst.elastic.as_ref()?,
        _ => &worst.sharing,
    };
    from.legs.get(leg)?.min_horizontal_angle.as_ref()
}

/// One aspect for each kind of piece of that entry word in each leg.
pub(super) fn check(case: &Case, word: &str) -> Vec<Aspect> {
    let hanging = case.hanging();
    let mut aspects = Vec::new();
    for (index, leg) in hanging.legs.iter().enumerate() {
        let mut seen: Vec<&str> = Vec::new();
        for (piece, found) in &leg.pieces {
            let Some(found) = found else { continue };
            if &*found.key.word != word || seen.contains(&found.name()) {
                continue;
            }
            seen.push(found.name());
            aspects.push(one(case, hanging, (index, leg), piece, found));
        }
    }
    if aspects.is_empty() {
        aspects.push(none(case, hanging, word));
    }
    aspects
}

/// No such piece: known only if every leg is.
fn none(case: &Case, hanging: &Hanging, word: &str) -> Aspect {
    let origin = plumbhook_sheet::Origin::header(&case.movement.key);
    let subject = format!("{word} in the legs");
    if case.only_stands() {
        let draft = Draft::new(subject, origin, Asked::default(), case.printer);
        return draft.does_not_apply("the load hangs from nothing");
    }
    let mut asked = hanging.asked.clone();
    asked
        .missing
        .retain(|missing| missing.lack != Lack::OneSided);
    let unknown = hanging.legs.is_empty()
        || hanging
            .legs
            .iter()
            .any(|leg| leg.pieces.iter().any(|(_, found)| found.is_none()));
    let draft = Draft::new(subject, origin, asked, case.printer);
    if unknown {
        draft.against(&format!("what the {word} carries"), "", Compared::default())
    } else {
        draft.does_not_apply(&format!("no leg has a {word}"))
    }
}

fn one(
    case: &Case,
    hanging: &Hanging,
    (index, leg): (usize, &LegUse),
    piece: &PieceUse,
    found: &Declared,
) -> Aspect {
    let mut ask = Ask::new(case);
    let name = found.name();
    let rating = found
        .body
        .as_ref()
        .and_then(|body| body.gear())
        .and_then(|gear| {
            ask.rating(
                &format!("rated capacity of {name}"),
                gear.rated(),
                |rated| gear.rating_counts(rated),
            )
        });
    ask.asked.include(&hanging.asked);
    let subject = format!("{name} in leg {}", leg.point.name);
    let mut draft = Draft::new(&subject, piece.gear.origin.clone(), ask.asked, case.printer);
    draft.basis = vec![Basis::STATICS];
    relate_rating(case, &mut draft, rating, found);
    let demand = tension(case, hanging, index, leg, &mut draft);
    let flat = too_flat(case, hanging, index);
    if let (Some(flat), Some(_)) = (&flat, demand) {
        draft.asked.missing.push(plumbhook_sheet::Missing {
            what: format!("a rating of {name} for a leg as flat as {flat}"),
            lack: Lack::OutOfRange,
            origin: piece.gear.origin.clone(),
            mend: "make the legs steeper, or give a rating that covers the angle".into(),
            due: plumbhook_sheet::Stage::FirstLook,
        });
    }
    let compared = Compared {
        proved: demand,
        worst: demand.filter(|_| hanging.complete && hanging.dynamic.is_some()),
        capacity: rating.map(Amount::of),
    };
    mend(case, &mut draft, demand, found);
    draft.against(&subject, "carries", compared)
}

/// The tension at the worst corner with the dynamic factor and the leg's own weight, worked on the sheet.
#[allow(non_snake_case, reason = "symbols of the formula, as print has them")]
fn tension(
    case: &Case,
    hanging: &Hanging,
    index: usize,
    leg: &LegUse,
    draft: &mut Draft,
) -> Option<Amount> {
    let worst = match hanging.worst.as_ref()? {
        Ok(worst) => worst,
        Err(why) => {
            draft.asked.missing.push(no_pose(case, why));
            return None;
        }
    };
    let (extreme, way) = governing_tension(worst, index)?;
    let mut governing = extreme.value;
    draft.corner = hanging.corner(extreme);
    draft.relate_corner();
    way.clone_into(&mut draft.state);
    let pose = hanging.pose_at(&extreme.corner);
    draft.book.0.push(Step::Method(Method {
        say: format!(
            "how the load hangs at the worst corner for leg {}, {way}",
            leg.point.name
        ),
        residual: pose.as_ref().map(|pose| pose.residual.share_of_weight),
        results: pose
            .iter()
            .flat_map(|pose| &pose.legs)
            .zip(&hanging.legs)
            .map(|(hangs, leg)| {
                (
                    format!("tension in leg {}", leg.point.name),
                    Amount::of(hangs.tension),
                )
            })
            .collect(),
        basis: Basis::STATICS,
    }));
    if let Some((counted, basis)) = by_leg_count(case, hanging, worst) {
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
    let dynamic = Ratio::from_si(hanging.dynamic.unwrap_or(1.0));
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
    Some(Amount::of(RatedForce::from_force(T_leg)))
}

/// The rule set's own count of legs, where it has one for this many legs and this angle: the strictest.
fn by_leg_count(case: &Case, hanging: &Hanging, worst: &Worst) -> Option<(Force, Basis)> {
    let legs = hanging.legs.len();
    let flattest = (0..legs)
        .filter_map(|leg| flattest(worst, leg))
        .map(|angle| angle.value.si())
        .reduce(f64::min)?;
    let from_vertical = 90.0 - flattest.to_degrees();
    let heavy = hanging.mass.hi().or(hanging.mass.lo())?;
    case.rules
        .iter()
        .filter_map(|set| {
            let factor = set.leg_factors.iter().find(|row| {
                (row.legs.0..=row.legs.1).contains(&legs)
                    && from_vertical <= row.to_vertical_deg + 1e-9
            })?;
            Some((weight(heavy) / factor.factor, set.leg_factor_basis?))
        })
        .max_by(|a, b| a.0.si().total_cmp(&b.0.si()))
}

/// The printed angle of a leg that is flatter than a rule set covers.
fn too_flat(case: &Case, hanging: &Hanging, leg: usize) -> Option<String> {
    let worst = hanging.worst.as_ref()?.as_ref().ok()?;
    let angle = flattest(worst, leg)?.value;
    let limit = case
        .rules
        .iter()
        .map(|set| set.least_horizontal_deg)
        .fold(0.0, f64::max);
    (angle.si().to_degrees() < limit - 1e-9).then(|| {
        case.printer
            .metric(Amount::of(angle), plumbhook_units::Round::Down)
    })
}

/// Why there is no pose, as something that is missing at the rigging's line.
pub(super) fn no_pose(
    case: &Case,
    why: &plumbhook_mechanics::hanging::NoPose,
) -> plumbhook_sheet::Missing {
    let origin = case.moves().map_or_else(
        || plumbhook_sheet::Origin::header(&case.movement.key),
        |moves| moves.by.datum.origin().clone(),
    );
    plumbhook_sheet::Missing {
        what: format!("how the load hangs has no answer: {why}"),
        lack: Lack::NoAnswer,
        origin,
        mend: "change the legs or the points so that it hangs".into(),
        due: plumbhook_sheet::Stage::FirstLook,
    }
}

/// The line that gives the rating.
fn relate_rating(case: &Case, draft: &mut Draft, rating: Option<RatedForce>, found: &Declared) {
    let gear = found.body.as_ref().and_then(|body| body.gear());
    let lines = gear.iter().flat_map(|gear| &gear.rated().lines);
    for given in lines.filter_map(plumbhook_model::Datum::known) {
        if Some(given.value.capacity) == rating {
            let capacity = case.printer.metric(
                Amount::of(given.value.capacity),
                plumbhook_units::Round::Down,
            );
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
            case.printer.amount(demand, plumbhook_units::Round::Up)
        ));
    }
}
