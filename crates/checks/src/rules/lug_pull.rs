//! Which way a leg pulls at a lug, against the ways for which the lug's rating holds.

use super::pose::{self, Posed};
use plumbhook_mechanics::Interval;
use plumbhook_mechanics::lug::{Plate, Pull, SideAngle, UnderOneHook, radial};
use plumbhook_model::ask::{Ask, words};
use plumbhook_model::entries::Lug;
use plumbhook_model::{LegUse, ThingKind};
use plumbhook_sheet::{InputValue, Lack};
use plumbhook_units::{Amount, Angle, HorizontalAngle, Kind, Length, Measured, Round};

/// The word of a lug that turns into the pull.
pub(super) const ALL_ROUND: &str = "all-round";

/// A lug in a leg.
pub(super) struct InLeg<'c> {
    /// Its name.
    pub(super) name: &'c str,
    /// What is declared of it.
    pub(super) lug: &'c Lug,
    /// The leg, by its place in the list.
    pub(super) index: usize,
    /// The leg.
    pub(super) leg: &'c LegUse,
}

/// Notes every way of pulling for which the rating does not hold.
pub(super) fn ask<'c>(ask: &mut Ask<'c>, posed: &Posed<'c>, it: &InLeg<'c>) {
    let pull = pull(posed, it.index);
    flat(ask, pull, it);
    aside(ask, posed, it);
}

/// How flat the leg and how far the load come at the worst; `None` where nothing is solved.
fn pull(posed: &Posed<'_>, leg: usize) -> Option<Pull> {
    let worst = posed.worst?;
    Some(Pull {
        flattest: pose::flattest(worst, leg)?.0.value,
        tilt: pose::tilt(worst)?.0.value,
    })
}

/// A rating holds for pulls down to an angle from the load's own level. The load may tilt the way that makes the pull
/// flatter still.
fn flat<'c>(ask: &mut Ask<'c>, pull: Option<Pull>, it: &InLeg<'c>) {
    let name = it.name;
    let what = format!("flattest pull for which the rating of {name} holds");
    let given = ask.value(&what, &it.lug.rated_angle, |angle| {
        let band = angle.to_horizontal();
        match band.nominal {
            Some(angle) => InputValue::Exact(Amount::of(angle)),
            None => InputValue::Band {
                lo: band.lo.map(Amount::of),
                hi: band.hi.map(Amount::of),
            },
        }
    });
    let Some(given) = given else { return };
    let band = given.value.to_horizontal();
    // With a tolerance around it the limit may be the steeper side.
    let least = if band.nominal.is_some() {
        band.hi
    } else {
        band.lo
    };
    let Some(least) = least else {
        ask.lacks(
            what,
            Lack::OneSided,
            &given.origin,
            "write `at least 45 deg from horizontal`",
        );
        return;
    };
    let Some(pull) = pull else { return };
    let from_level = pull.flattest.si() - pull.tilt.si();
    if from_level < least.si() - 1e-12 {
        let metric = |angle: f64| {
            let angle = Amount::of(HorizontalAngle::from_si(angle));
            ask.case().printer.metric(angle, Round::Down)
        };
        let tilt = Amount::new(Kind::Angle, pull.tilt.si());
        let say = format!(
            "a rating of {name} for a pull as flat as {} (leg {} at {}, the load tilted by {})",
            metric(from_level),
            it.leg.point.name,
            metric(pull.flattest.si()),
            ask.case().printer.metric(tilt, Round::Up)
        );
        ask.lacks(
            say,
            Lack::OutOfRange,
            &given.origin,
            "make the legs steeper, or give a rating that holds for this pull",
        );
    }
}

/// A rating of a plate holds for pulls in its plane and a little out of it.
fn aside<'c>(ask: &mut Ask<'c>, posed: &Posed<'c>, it: &InLeg<'c>) {
    let name = it.name;
    let plane = it.lug.plane.known();
    if plane.is_some_and(|plane| plane.value.word == ALL_ROUND) {
        ask.used(
            &format!("plane of {name}"),
            ALL_ROUND,
            it.lug.plane.datum.origin(),
        );
        return;
    }
    let side = side(ask, posed, it);
    let what = format!("how far out of its plane the rating of {name} holds");
    let limit = ask.value(&what, &it.lug.rated_side, |limit| {
        InputValue::Exact(Amount::of(limit.0))
    });
    let Some((limit, side)) = limit.zip(side) else {
        return;
    };
    if side.si() > limit.value.0.si() + 1e-12 {
        let say = format!(
            "a rating of {name} for a pull up to {} out of its plane (leg {})",
            ask.case().printer.metric(Amount::of(side), Round::Up),
            it.leg.point.name
        );
        ask.lacks(
            say,
            Lack::OutOfRange,
            &limit.origin,
            "turn the lug into the pull, or give a rating that holds for this pull",
        );
    }
}

/// An angle that the pull does not pass, out of the plane of the plate of a lug.
pub(super) fn side<'c>(ask: &mut Ask<'c>, posed: &Posed<'c>, it: &InLeg<'c>) -> Option<SideAngle> {
    let (name, point) = (it.name, &it.leg.point.name);
    let what = format!("plane of {name}");
    let plane = ask.value(&what, &it.lug.plane, |plane| words(plane.word))?;
    let Some(normal) = normal(plane.value.word, it.leg.lower.at) else {
        ask.lacks(
            format!("plane of {name} at {point}: it stands on the axis"),
            Lack::NoAnswer,
            &plane.origin,
            "say in which plane of the frame it lies, as `x-z`",
        );
        return None;
    };
    let plate = Plate {
        at: it.leg.lower.at,
        normal,
        up: up(posed)?,
    };
    let side = plate.side_pull(pull(posed, it.index)?, under_one_hook(posed, it.leg));
    let what = format!("pull at {point} out of the plane of {name} at the most");
    ask.note(&what, Amount::of(Angle::from_si(side.si())), &plane.origin);
    Some(side)
}

fn normal(plane: &str, at: [Length; 3]) -> Option<[f64; 3]> {
    match plane {
        "radial" => radial(at),
        "x-y" => Some([0.0, 0.0, 1.0]),
        "x-z" => Some([0.0, 1.0, 0.0]),
        "y-z" => Some([1.0, 0.0, 0.0]),
        _ => None,
    }
}

/// Which way is up in the load's own frame.
fn up(posed: &Posed<'_>) -> Option<[f64; 3]> {
    let axes = posed.hanging.attitude()?.axes();
    Some(axes.map(|[_, _, up]| up))
}

/// The load under the hook that all its legs go to; `None` where something hangs between, or a side is not known.
fn under_one_hook(posed: &Posed<'_>, leg: &LegUse) -> Option<UnderOneHook> {
    let hanging = posed.hanging;
    let upper = hanging.things.get(leg.upper.thing)?;
    if hanging.has_tiers() || upper.kind != ThingKind::Ring || upper.hook.is_none() {
        return None;
    }
    let [x, y, z] = hanging.cg.map(|axis| {
        let (lo, hi) = axis.both()?;
        Some(Interval { lo, hi })
    });
    Some(UnderOneHook {
        cg: [x?, y?, z?],
        leg: leg.length.lo()?,
        rise: pose::highest_rise(posed.worst?, None)?.0.value,
    })
}
