//! What hangs below a thing of the rigging: of one hook, of one beam, of one ring.

use super::pose::{Posed, governing};
use crate::Draft;
use plumbhook_mechanics::hanging::{BodyExtremes, Extreme, Extremes, Worst};
use plumbhook_model::ask::Ask;
use plumbhook_model::values::{HeightOf, Station};
use plumbhook_model::{Case, Hanging, LegUse, Thing};
use plumbhook_sheet::{Basis, Lack, Method, Step};
use plumbhook_units::{Amount, Force, weight};

/// What the tier of a leg carries at the most: all that hangs below the thing that its legs are made fast to above, or, where
/// that is the only hook, everything.
pub(super) fn below(hanging: &Hanging, leg: &LegUse, worst: &Worst) -> Option<Force> {
    let upper = hanging.things.get(leg.upper.thing)?;
    match of_body(upper, worst) {
        Some((extreme, _)) => Some(extreme.value),
        None => everything(hanging),
    }
}

/// Notes that a check knows no answer for one of several machines yet.
pub(super) fn refuse_several(case: &Case, ask: &mut Ask<'_>, what: &str) {
    if case.all_hung_from().len() > 1
        && let Some(moves) = case.moves()
    {
        ask.lacks(
            format!("{what} of each of several machines: it is not calculated yet"),
            Lack::NoAnswer,
            moves.by.datum.origin(),
            "check it by hand for each machine",
        );
    }
}

/// A height of the hook says nothing of which of several hooks.
pub(super) fn refuse_height_of_hook(case: &Case, ask: &mut Ask<'_>, stations: &[Station]) {
    let of_hook = stations.iter().find(|station| station.of == HeightOf::Hook);
    if let Some(station) = of_hook.filter(|_| case.all_hung_from().len() > 1) {
        ask.lacks(
            "which of several hooks stands at the height of the station",
            Lack::NoAnswer,
            &station.height_origin,
            "give the height of the underside instead",
        );
    }
}

/// What hangs below a body at the most, without the body itself, and the way of counting that gives it.
pub(super) fn of_body<'w>(
    thing: &Thing,
    worst: &'w Worst,
) -> Option<(&'w Extreme<Force>, &'static str)> {
    let number = thing.body?.checked_sub(1)?;
    governing(
        worst,
        |way: &Extremes| {
            way.others
                .get(number)
                .map(|body: &BodyExtremes| &body.below.1)
        },
        |a, b| a > b,
    )
}

/// What hangs from one of several hooks at the most, and the way of counting that gives it.
pub(super) fn of_hook(worst: &Worst, hook: usize) -> Option<(&Extreme<Force>, &'static str)> {
    governing(
        worst,
        |way: &Extremes| way.hooks.get(hook).map(|both| &both.1),
        |a, b| a > b,
    )
}

/// The name of a thing; of one that stands in several riggings, with the rigging.
pub(super) fn name(case: &Case, thing: &Thing) -> String {
    let same = case
        .hanging()
        .things
        .iter()
        .filter(|t| t.name == thing.name);
    let hung = case.all_hung_from().get(thing.rigging);
    match hung.filter(|_| same.count() > 1) {
        Some(hung) => format!("{} of {}", thing.name, hung.rigging.name),
        None => thing.name.to_string(),
    }
}

/// The name of a leg; of one of several riggings that have a leg of that name, with the rigging.
pub(super) fn leg_name(case: &Case, leg: &LegUse) -> String {
    let hanging = case.hanging();
    let rigging = |leg: &LegUse| hanging.things.get(leg.upper.thing).map(|t| t.rigging);
    let own = rigging(leg);
    let twice = hanging
        .legs
        .iter()
        .any(|other| other.point.name == leg.point.name && rigging(other) != own);
    let hung = own.and_then(|own| case.all_hung_from().get(own));
    match hung.filter(|_| twice) {
        Some(hung) => format!("{} of {}", leg.point.name, hung.rigging.name),
        None => leg.point.name.to_string(),
    }
}

/// What hangs below a body at the most, worked on the sheet.
pub(super) fn put_below(draft: &mut Draft, posed: &Posed<'_>, thing: &Thing) -> Option<Force> {
    let (extreme, way) = of_body(thing, posed.worst?)?;
    put(
        draft,
        posed,
        extreme,
        way,
        &format!("what hangs below {} at the worst corner, {way}", thing.name),
    );
    Some(extreme.value)
}

/// What hangs from one of several hooks at the most, worked on the sheet.
pub(super) fn put_on_hook(
    draft: &mut Draft,
    posed: &Posed<'_>,
    hook: usize,
    name: &str,
) -> Option<Force> {
    let (extreme, way) = of_hook(posed.worst?, hook)?;
    put(
        draft,
        posed,
        extreme,
        way,
        &format!("the share of {name} at the worst corner, {way}"),
    );
    Some(extreme.value)
}

fn put(draft: &mut Draft, posed: &Posed<'_>, extreme: &Extreme<Force>, way: &str, say: &str) {
    draft.corner = posed.hanging.corner(extreme);
    draft.relate_corner();
    way.clone_into(&mut draft.state);
    let pose = posed.hanging.pose_at(&extreme.corner);
    draft.book.0.push(Step::Method(Method {
        say: say.to_owned(),
        residual: pose.map(|pose| pose.residual.share_of_weight),
        results: vec![("plumb part of the pulls".into(), Amount::of(extreme.value))],
        basis: Basis::STATICS,
    }));
}

/// The weight of a body with the legs that hang from it, at the heavy end.
pub(super) fn own_weight(hanging: &Hanging, thing: &Thing) -> Option<Force> {
    let body = hanging.rig()?.bodies.get(thing.body?)?;
    Some(weight(body.mass.hi))
}

/// The weight of every body at its heavy end, or at the end that is known.
fn everything(hanging: &Hanging) -> Option<Force> {
    let heavy = hanging.mass.hi().or(hanging.mass.lo())?;
    let mut sum = weight(heavy);
    if let Some(rig) = hanging.rig() {
        for body in rig.bodies.iter().skip(1) {
            sum += weight(body.mass.hi);
        }
    }
    Some(sum)
}
