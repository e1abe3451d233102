//! Which lug stands at a lifting point, as the load says it.

use plumbhook_mechanics::sling::Hitch;
use plumbhook_model::ask::Ask;
use plumbhook_model::entries::Load;
use plumbhook_model::values::{LugAt, LugName};
use plumbhook_model::{Case, Datum, Declared, LegUse, ThingKind};
use plumbhook_sheet::{Lack, Origin, Stage};

/// The legs that end at the load.
pub(super) fn legs_at_load(case: &Case) -> impl Iterator<Item = (usize, &LegUse)> {
    let hanging = case.hanging();
    let legs = hanging.legs.iter().enumerate();
    legs.filter(|(_, leg)| {
        let thing = hanging.things.get(leg.lower.thing);
        thing.is_some_and(|thing| thing.kind == ThingKind::Load)
    })
}

/// Whether the lowest piece of a leg is a sling that goes round the load itself, which needs no lug there; its hitch is
/// another rule's.
pub(super) fn goes_round(leg: &LegUse) -> bool {
    let first = leg.pieces.first();
    first.is_some_and(|(piece, _)| piece.hitched.hitch != Hitch::Vertical)
}

/// The one lug that the load says stands at a point; `None` where no line names the point, or two do.
pub(super) fn lug_at<'c>(body: &'c Load, point: &str) -> Option<&'c LugName> {
    let mut naming = naming(body, point);
    let (first, _) = naming.next()?;
    naming.next().is_none().then_some(&first.lug)
}

/// The points that legs hang from and of which nobody says which one lug stands there.
pub(super) fn without<'c>(case: &'c Case, body: &Load) -> Vec<&'c str> {
    let legs = legs_at_load(case).map(|(_, leg)| leg);
    let bare = legs.filter(|leg| lug_at(body, &leg.point.name).is_none() && !goes_round(leg));
    bare.map(|leg| &*leg.point.name).collect()
}

/// The lines that name a point.
fn naming<'c>(body: &'c Load, point: &str) -> impl Iterator<Item = (&'c LugAt, &'c Origin)> {
    let lines = body.lug.lines.iter().filter_map(Datum::known);
    let named = lines.filter(move |given| {
        let mut points = given.value.points.iter();
        points.any(|(name, _)| **name == *point)
    });
    named.map(|given| (&given.value, &given.origin))
}

/// What is missing where nobody says which lug stands at some points, in words.
pub(super) fn rating_of(load: &Declared, points: &[&str]) -> String {
    let s = if points.len() == 1 { "" } else { "s" };
    let points = points.join(", ");
    format!("a rating of lifting point{s} {points} of {}", load.name())
}

/// Notes that nobody says which one lug stands at `points`.
pub(super) fn lacks(ask: &mut Ask<'_>, load: &Declared, body: &Load, points: &[&str]) {
    let name = load.name();
    let what = rating_of(load, points);
    let listed = points.join(" ");
    let unread = body.lug.lines.iter().find_map(|line| match line {
        Datum::Lacking(lacking) => Some((lacking.lack, &lacking.origin)),
        Datum::Known(_) => None,
    });
    let twice = points.iter().find_map(|point| naming(body, point).nth(1));
    let due = std::mem::replace(&mut ask.due, Stage::Bid);
    match (unread, twice) {
        (_, Some((_, origin))) => ask.lacks(
            format!("{what}: two lines `lug` name it"),
            Lack::NoAnswer,
            origin,
            "name each point in one line `lug` alone",
        ),
        (Some((lack, origin)), None) => ask.lacks(
            what,
            lack,
            origin,
            format!("find out what stands there: `lug … at {listed}`"),
        ),
        (None, None) => ask.lacks(
            what,
            Lack::Absent,
            &body.lug.home,
            format!(
                "say what stands there and what it is rated for: `lug eye-20 at {listed}` in `{name}`, and an entry `lug eye-20`"
            ),
        ),
    }
    ask.due = due;
}
