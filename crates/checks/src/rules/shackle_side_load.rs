//! `shackle-side-load`: the shackle at a plate against what is left of its rating where the leg pulls it aside.

use super::lug_pull::{self, ALL_ROUND, InLeg};
use super::piece::{self, Factors};
use super::{lugs, pose, worst};
use crate::draft::Compared;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_mechanics::shackle::{BANDS, SHARES, pulled_aside};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::entries::{Load, Lug, Shackle};
use plumbhook_model::{Case, Declared, LegUse};
use plumbhook_sheet::{Aspect, Basis, Lack, Method, Origin, Step};
use plumbhook_units::{Amount, Kind, Measured, RatedForce, Round};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "shackle-side-load",
    summary: "A shackle at a plate carries what is left of its rating where the leg pulls it aside.",
    explanation: "\
The mark on a shackle is for a pull in line. In a plate the shackle cannot turn into a leg that leaves the plane of the \
plate, and is pulled aside by that angle. What the angle cannot pass is worked out as for the lug; up to 5 deg counts as in \
line, up to 45 deg 70 % of the rating is left, up to 90 deg 50 %. Nothing lies between the bands.\n\n\
The angle is a bound: where the reduced rating is passed and the full one is not, nobody can tell before the angle is known \
better.\n\n\
Mends: a plate turned into the pull, a larger shackle, a lug that swivels.",
    basis: &[BANDS, SHARES, Basis::GEOMETRY],
    inputs: &[
        ("mass of the load", Hurts::High),
        ("centre of gravity", Hurts::Both),
        ("length of each piece", Hurts::Both),
        ("stiffness of each sling", Hurts::Both),
        ("mass of each piece", Hurts::High),
        ("dynamic factor", Hurts::High),
        ("rated capacity", Hurts::Low),
    ],
    may_lack: &[(
        "stiffness",
        "legs of which nobody says how stiff they are, are judged by every way of sharing alone",
    )],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "a shackle of 5 t in a leg that carries 6 t",
            subject: "bow-12",
            change: &[("rated      12 t ", "rated      5 t ")],
        }),
        Outcome::Shown(Example {
            say: "plates that stand radially under a ring above the middle: in line",
            subject: "bow-12",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "plates that stand across the legs, and no shackle to spare",
            subject: "bow-12",
            change: &[
                ("plane      radial", "plane      x-z"),
                ("rated      12 t ", "rated      8 t "),
            ],
        }),
        Outcome::Shown(Example {
            say: "lugs that swivel into the pull",
            subject: "shackles at the load",
            change: &[("plane      radial", "plane      all-round")],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let home = Origin::header(&case.movement.key);
    let say = |asked| Draft::new("shackles at the load", home.clone(), asked, case.printer);
    if case.only_stands() {
        return vec![say(Asked::default()).does_not_apply("the load hangs from nothing")];
    }
    let hanging = case.hanging();
    let known = hanging.all_legs() && !hanging.legs.is_empty();
    let Some((load, body)) = case.load().filter(|_| known) else {
        let draft = say(hanging.asked.clone());
        return vec![draft.against(
            "what the shackles at the load carry",
            "",
            Compared::default(),
        )];
    };
    let mut kinds: Vec<(&str, Vec<(&str, Aspect)>)> = Vec::new();
    for (index, leg) in lugs::legs_at_load(case) {
        let Some((declared, shackle)) = shackle(leg) else {
            continue;
        };
        let name = declared.name();
        let Some(aspect) = one(case, (load, body), (index, leg), (name, shackle)) else {
            continue;
        };
        let point = (&*leg.point.name, aspect);
        match kinds.iter_mut().find(|(kind, _)| *kind == name) {
            Some((_, legs)) => legs.push(point),
            None => kinds.push((name, vec![point])),
        }
    }
    if kinds.is_empty() {
        return vec![
            say(Asked::default()).does_not_apply("no shackle sits in a plate at the load"),
        ];
    }
    let worst = |(name, legs)| worst::of_legs(name, legs);
    kinds.into_iter().filter_map(worst).collect()
}

/// The shackle that is next to the load in a leg.
fn shackle(leg: &LegUse) -> Option<(&Declared, &Shackle)> {
    let found = leg.pieces.first()?.1.as_ref()?;
    Some((found, found.of::<Shackle>()?))
}

/// One shackle at one point; `None` where it is known that the lug turns into the pull.
fn one(
    case: &Case,
    (load, body): (&Declared, &Load),
    (index, leg): (usize, &LegUse),
    (name, shackle): (&str, &Shackle),
) -> Option<Aspect> {
    let mut ask = Ask::new(case);
    let lug = lugs::lug_at(body, &leg.point.name);
    let found = lug.and_then(|lug| ask.entry::<Lug, _>(lug));
    if lug.is_none() {
        lugs::lacks(&mut ask, load, body, &lugs::without(case, body));
    }
    if let Some((_, lug)) = found
        && lug
            .plane
            .known()
            .is_some_and(|plane| plane.value.word == ALL_ROUND)
    {
        return None;
    }
    let what = format!("rated capacity of {name}");
    let rating = ask.rating(&what, &shackle.rated, |rated| rated.hitch.is_none());
    let posed = pose::ask(case, &mut ask);
    ask.asked.include(&leg.mass_asked);
    let factors = Factors::ask(&mut ask);
    let side = found.and_then(|(declared, lug)| {
        let it = InLeg {
            name: declared.name(),
            lug,
            index,
            leg,
        };
        lug_pull::side(&mut ask, &posed, &it)
    });
    let left = rating
        .zip(side)
        .and_then(|(rating, side)| pulled_aside(rating, side));
    let subject = format!("{name} at {}", leg.point.name);
    let origin = leg
        .pieces
        .first()
        .map_or(&leg.origin, |(piece, _)| &piece.gear.origin);
    let mut draft = Draft::new(&subject, origin.clone(), ask.asked, case.printer);
    draft.question = format!("whether {subject} carries it aside");
    draft.basis = RULE.basis.to_vec();
    if let Some((left, side)) = left.zip(side) {
        draft.book.0.push(Step::Method(Method {
            say: "what is left of the rating for a pull aside, by its band".into(),
            residual: None,
            results: vec![
                (
                    "pull aside at the most".into(),
                    Amount::new(Kind::Angle, side.si()),
                ),
                ("rating that is left".into(), Amount::of(left)),
            ],
            basis: BANDS,
        }));
    }
    let demand = piece::tension(case, &posed, (index, leg), &factors, &mut draft);
    bound_alone(case, &mut draft, demand, (rating, left), origin);
    let known = posed.hanging.complete && factors.dynamic.is_some() && leg.mass.hi().is_some();
    let full = |demand: &Amount| rating.is_some_and(|rating| demand.si > rating.si());
    let compared = Compared {
        proved: demand.filter(full),
        worst: demand.filter(|_| known && left.is_some()),
        capacity: left.or(rating).map(Amount::of),
    };
    Some(draft.against(&subject, "carries", compared))
}

/// The angle is a bound and proves nothing: what passes the reduced rating alone is not known to be too much.
fn bound_alone(
    case: &Case,
    draft: &mut Draft,
    demand: Option<Amount>,
    (rating, left): (Option<RatedForce>, Option<RatedForce>),
    origin: &Origin,
) {
    let (Some(demand), Some(rating), Some(left)) = (demand, rating, left) else {
        return;
    };
    if demand.si > left.si() && demand.si <= rating.si() {
        let printed = |amount, round| case.printer.amount(amount, round);
        draft.asked.missing.push(plumbhook_sheet::Missing {
            what: format!(
                "a rating of {} for {} aside (its rating in line leaves {})",
                draft.subject,
                printed(demand, Round::Up),
                printed(Amount::of(left), Round::Down)
            ),
            lack: Lack::OutOfRange,
            key: None,
            origin: origin.clone(),
            mend: "turn the plate into the pull, or take a larger shackle".into(),
            due: plumbhook_sheet::Stage::FirstLook,
        });
    }
}
