//! How the load hangs, as the rules read it: which way of counting governs, and what a rule of the pose lacks.

use plumbhook_mechanics::hanging::{CgHeight, Extreme, Extremes, NoPose, Worst};
use plumbhook_model::ask::Ask;
use plumbhook_model::{Case, Datum, Hanging};
use plumbhook_sheet::{Basis, Lack, Missing, Origin, Stage};
use plumbhook_units::{Force, HorizontalAngle, Length, Measured, VerticalAngle};

/// The pose of a case with what was found of it.
pub(super) struct Posed<'c> {
    /// How the load hangs.
    pub(super) hanging: &'c Hanging,
    /// The worst inside its bands; `None` where too much is missing, which is noted.
    pub(super) worst: Option<&'c Worst>,
}

/// Asks for the pose; what is missing of it, and why it may have no answer, is noted.
pub(super) fn ask<'c>(case: &'c Case, ask: &mut Ask<'c>) -> Posed<'c> {
    let hanging = case.hanging();
    ask.asked.include(&hanging.asked);
    let worst = match &hanging.worst {
        Some(Ok(worst)) => {
            note_high_cg(case, worst, ask);
            Some(worst)
        }
        Some(Err(why)) => {
            ask.asked.missing.push(no_pose(case, hanging, why));
            None
        }
        None => None,
    };
    Posed { hanging, worst }
}

/// With the centre of gravity above a lifting point a little stretch can tilt the load much: without the stiffness of
/// every leg the tensions have no bound.
fn note_high_cg(case: &Case, worst: &Worst, ask: &mut Ask<'_>) {
    if worst.elastic.is_none() && worst.sharing.cg_height != CgHeight::BelowAll {
        let home = case.load().map_or_else(
            || Origin::header(&case.movement.key),
            |(_, load)| {
                load.cg
                    .lines
                    .first()
                    .map_or(&load.cg.home, Datum::origin)
                    .clone()
            },
        );
        ask.lacks(
            "stiffness of the legs under a centre of gravity above a lifting point",
            Lack::Absent,
            &home,
            "declare `stiffness` of each sling, or lift by points above the centre of gravity",
        );
    }
}

impl<'c> Posed<'c> {
    /// Of a case in which nothing rests on how it hangs: nothing is asked for, and no number is given.
    pub(super) fn unasked(case: &'c Case) -> Self {
        Self {
            hanging: case.hanging(),
            worst: None,
        }
    }

    /// Notes that the load's least mass is missing where its pose moves with it: legs stretch less under a lighter
    /// load, and a beam whose own centre of gravity lies off its middle hangs less level over it.
    pub(super) fn ask_least_mass(&self, case: &Case, ask: &mut Ask<'_>) {
        if self.worst.is_some_and(|worst| worst.elastic.is_some()) {
            self.least_mass(case, ask, "the legs stretch by it");
        }
        self.ask_least_mass_of_tiers(case, ask);
    }

    /// The same where beams or rings hang between load and hook: which leg pulls how much goes by how all of them hang.
    pub(super) fn ask_least_mass_of_tiers(&self, case: &Case, ask: &mut Ask<'_>) {
        if self.hanging.has_tiers() {
            self.least_mass(case, ask, "what hangs above the load stands by it");
        }
    }

    fn least_mass(&self, case: &Case, ask: &mut Ask<'_>, because: &str) {
        let Some((load, body)) = case.load() else {
            return;
        };
        let mass = self.hanging.mass;
        let what = format!("mass of {}: how low it may be", load.name());
        let told = ask.asked.missing.iter().any(|known| known.what == what);
        if mass.lo().is_none() && mass.hi().is_some() && !told {
            let home = body.mass.lines.first();
            ask.lacks(
                what,
                Lack::OneSided,
                home.map_or(&body.mass.home, |line| line.origin()),
                format!("state a low side of `mass` too: {because}"),
            );
        }
    }

    /// Whether every piece that can stretch says how much; each that does not is noted. A pose that counts no
    /// stretch is one that the real legs do not have.
    pub(super) fn ask_stretch(&self, ask: &mut Ask<'_>) -> bool {
        let mut known = true;
        let due = std::mem::replace(&mut ask.due, Stage::Issue);
        for (piece, found) in self.hanging.legs.iter().flat_map(|leg| &leg.pieces) {
            let gear = found.as_ref().and_then(|found| found.body.as_ref()?.gear());
            let not_said = gear
                .and_then(|gear| gear.stiffness())
                .filter(|stiffness| stiffness.is_not_said());
            if let Some(stiffness) = not_said {
                known = false;
                ask.lacks(
                    format!("stiffness of {}", piece.gear.head()),
                    if stiffness.is_absent() {
                        Lack::Absent
                    } else {
                        Lack::Unknown
                    },
                    stiffness.datum.origin(),
                    format!(
                        "say `{} …` in `{}`: how far the legs stretch counts here",
                        stiffness.key.word,
                        piece.gear.head()
                    ),
                );
            }
        }
        ask.due = due;
        known
    }
}

/// The largest or least of a number over both ways of counting, with the name of the way that gives it.
pub(super) fn governing<'w, T: Measured>(
    worst: &'w Worst,
    pick: impl Fn(&'w Extremes) -> Option<&'w Extreme<T>>,
    beats: impl Fn(f64, f64) -> bool,
) -> Option<(&'w Extreme<T>, &'static str)> {
    let sharing = pick(&worst.sharing);
    let elastic = worst.elastic.as_ref().and_then(pick);
    match (sharing, elastic) {
        (Some(sharing), Some(elastic)) if beats(elastic.value.si(), sharing.value.si()) => {
            Some((elastic, "by stiffness"))
        }
        (None, Some(elastic)) => Some((elastic, "by stiffness")),
        (Some(sharing), _) if worst.indeterminate => {
            Some((sharing, "by the worst sharing of legs that only pull"))
        }
        (Some(sharing), _) => Some((sharing, "by statics")),
        (None, None) => None,
    }
}

fn larger(a: f64, b: f64) -> bool {
    a > b
}

fn smaller(a: f64, b: f64) -> bool {
    a < b
}

/// The largest tension of a leg.
pub(super) fn tension(worst: &Worst, leg: usize) -> Option<(&Extreme<Force>, &'static str)> {
    governing(worst, |way| Some(&way.legs.get(leg)?.max_tension), larger)
}

/// The flattest angle of a leg from horizontal while it pulls.
pub(super) fn flattest(
    worst: &Worst,
    leg: usize,
) -> Option<(&Extreme<HorizontalAngle>, &'static str)> {
    governing(
        worst,
        |way| way.legs.get(leg)?.min_horizontal_angle.as_ref(),
        smaller,
    )
}

/// The largest tilt.
pub(super) fn tilt(worst: &Worst) -> Option<(&Extreme<VerticalAngle>, &'static str)> {
    governing(worst, |way| Some(&way.max_tilt), larger)
}

/// The largest tilt of a body above the load, by its place among the bodies; `None` of a ring.
pub(super) fn tilt_of(
    worst: &Worst,
    body: usize,
) -> Option<(&Extreme<VerticalAngle>, &'static str)> {
    let other = body.checked_sub(1)?;
    governing(
        worst,
        |way| way.others.get(other)?.max_tilt.as_ref(),
        larger,
    )
}

/// How far the origin of a body above the load may lie aside from the load's, least and largest along x and y of the
/// axes of the hooks.
pub(super) fn beside(
    worst: &Worst,
    body: usize,
) -> Option<[(&Extreme<Length>, &Extreme<Length>); 2]> {
    let other = body.checked_sub(1)?;
    let along = |axis: usize| {
        let least = governing(
            worst,
            |way| Some(&way.others.get(other)?.beside.get(axis)?.0),
            smaller,
        )?;
        let most = governing(
            worst,
            |way| Some(&way.others.get(other)?.beside.get(axis)?.1),
            larger,
        )?;
        Some((least.0, most.0))
    };
    Some([along(0)?, along(1)?])
}

/// The highest rise of where the legs gather above the load's origin: on the only hook, or in the ring of one of several
/// hooks, by its place among the bodies.
pub(super) fn highest_rise(
    worst: &Worst,
    ring: Option<usize>,
) -> Option<(&Extreme<Length>, &'static str)> {
    governing(
        worst,
        |way| match ring {
            None => Some(&way.max_rise),
            Some(body) => Some(&way.others.get(body.checked_sub(1)?)?.above.1),
        },
        larger,
    )
}

/// The lowest rise of where the legs gather above the load's origin; as [`highest_rise`].
pub(super) fn lowest_rise(
    worst: &Worst,
    ring: Option<usize>,
) -> Option<(&Extreme<Length>, &'static str)> {
    governing(
        worst,
        |way| match ring {
            None => Some(&way.min_rise),
            Some(body) => Some(&way.others.get(body.checked_sub(1)?)?.above.0),
        },
        smaller,
    )
}

/// How far the load's origin may lie aside from where the legs gather, least and largest along x and y of the
/// load's axes as installed.
pub(super) fn aside(worst: &Worst) -> Option<[(&Extreme<Length>, &Extreme<Length>); 2]> {
    let along = |axis: usize| {
        let least = governing(worst, |way| Some(&way.aside.get(axis)?.0), smaller)?;
        let most = governing(worst, |way| Some(&way.aside.get(axis)?.1), larger)?;
        Some((least.0, most.0))
    };
    Some([along(0)?, along(1)?])
}

/// The flattest angle from horizontal that every governing rule set covers, with the publication that says so.
pub(super) fn least_angle(case: &Case) -> Option<(HorizontalAngle, Basis)> {
    let set = case
        .rules
        .iter()
        .max_by(|a, b| a.least_horizontal_deg.total_cmp(&b.least_horizontal_deg))?;
    let angle = HorizontalAngle::from_si(set.least_horizontal_deg.to_radians());
    Some((angle, set.least_horizontal_basis))
}

/// Why there is no pose, as something that is missing at the move's line.
pub(super) fn no_pose(case: &Case, hanging: &Hanging, why: &NoPose) -> Missing {
    let origin = case.moves().map_or_else(
        || Origin::header(&case.movement.key),
        |moves| moves.by.datum.origin().clone(),
    );
    Missing {
        what: format!("how the load hangs has no answer: {}", why.told(hanging)),
        lack: Lack::NoAnswer,
        key: None,
        origin,
        mend: "change the legs or the points so that it hangs".into(),
        due: Stage::FirstLook,
    }
}
