//! A leg of a case: which pieces stand in it, how long, how heavy and how stiff it is made up.

use super::things::Fast;
use crate::ask::{Ask, Asked, Hurts};
use crate::case::Case;
use crate::scope::Declared;
use crate::values::{Hitch, LegLine, LiftingPoint, PieceUse};
use crate::{Gear, Given};
use plumbhook_sheet::{Lack, Origin};
use plumbhook_units::{Band, Length, Mass, Measured, Stiffness};
use std::sync::Arc;

/// One leg as it is made up.
#[derive(Debug, Clone)]
pub struct LegUse {
    /// What its lower end is made fast to, by name and in that thing's own frame.
    pub point: LiftingPoint,
    /// Its lower end.
    pub lower: Fast,
    /// Its upper end.
    pub upper: Fast,
    /// Where the rigging says so.
    pub origin: Origin,
    /// Its pieces from the load upwards, with what each name leads to.
    pub pieces: Vec<(PieceUse, Option<Arc<Declared>>)>,
    /// Length from the lifting point to where the legs gather.
    pub length: Band<Length>,
    /// Its own mass.
    pub mass: Band<Mass>,
    /// What that mass was asked from: only who counts it lacks what is missing of it.
    pub mass_asked: Asked,
    /// Force over stretch, if every piece that stretches declares it.
    pub stiffness: Option<(Stiffness, Stiffness)>,
    /// Whether nothing stands in it whose stretch counts: it is of shackles or rings alone.
    pub firm: bool,
}

/// A leg of a line, between two ends.
pub(super) fn make_up(
    case: &Case,
    ask: &mut Ask<'_>,
    point: &LiftingPoint,
    (lower, upper): (Fast, Fast),
    origin: &Origin,
    line: &Given<LegLine>,
) -> LegUse {
    let zero = plumbhook_units::ClaimId(0);
    let mut leg = LegUse {
        point: point.clone(),
        lower,
        upper,
        origin: origin.clone(),
        pieces: vec![],
        length: Band::exact(Length::from_si(0.0), zero),
        mass: Band::exact(Mass::from_si(0.0), zero),
        mass_asked: Asked::default(),
        stiffness: None,
        firm: false,
    };
    let mut weigh = Ask::new(case);
    let mut gives = Some((0.0, 0.0));
    let mut stretches = false;
    for piece in &line.value.through {
        let found = case.entry(&piece.gear);
        let gear = found.and_then(|entry| entry.body.as_ref()?.gear());
        if let (Some(entry), Some(gear)) = (found, gear) {
            let name = entry.name();
            let length = length(ask, name, gear, (piece, line));
            leg.length = leg.length.plus(length);
            let mass = weigh.band(&format!("mass of {name}"), gear.mass(), Hurts::High);
            leg.mass = leg.mass.plus(mass);
            if piece.hitched.hitch != Hitch::Vertical {
                // What it stretches over its whole length says nothing of a part of it.
                gives = None;
            } else if gear.stiffness().is_some() {
                stretches = true;
                gives = gives
                    .zip(stiffness(ask, name, gear))
                    .map(|(sum, one)| (sum.0 + 1.0 / one.1, sum.1 + 1.0 / one.0));
            }
        } else {
            // Without it the leg would be made up too short and too light.
            (leg.length, leg.mass, gives) = (Band::unknown(), Band::unknown(), None);
            let mend = "declare it in the yard, or name a piece that is declared";
            ask.leads_nowhere("piece of gear", &piece.gear, mend);
        }
        leg.pieces.push((piece.clone(), found.map(Arc::clone)));
    }
    leg.mass_asked = weigh.asked;
    leg.firm = gives.is_some() && !stretches;
    leg.stiffness = gives.filter(|_| stretches).map(|(low, high)| {
        (
            Stiffness::from_si(1.0 / high),
            Stiffness::from_si(1.0 / low),
        )
    });
    leg
}

/// How much of a leg a piece makes up: its own length, or the reach of a sling that goes round the load.
fn length(
    ask: &mut Ask<'_>,
    name: &str,
    gear: &dyn Gear,
    (piece, line): (&PieceUse, &Given<LegLine>),
) -> Band<Length> {
    if piece.hitched.hitch == Hitch::Vertical {
        return ask.band(&format!("length of {name}"), gear.length(), Hurts::Both);
    }
    let hitch = piece.hitched.hitch.word();
    if !gear.goes_round() {
        ask.lacks(
            format!("{name} as a {hitch}: it is no sling"),
            Lack::OutOfRange,
            &piece.gear.origin,
            format!("take `{hitch}` away, or name a sling"),
        );
        return Band::unknown();
    }
    let what = format!("reach of {name} as a {hitch}");
    ask.part(
        &what,
        line,
        &format!("{hitch} reach"),
        piece.hitched.reach.as_ref(),
        Hurts::Both,
    )
}

/// Both sides of a declared stiffness. One that is absent or `unknown` is allowed: then the worst sharing counts.
/// One that is broken or without its tolerance is missing.
fn stiffness(ask: &mut Ask<'_>, name: &str, gear: &dyn Gear) -> Option<(f64, f64)> {
    let once = gear.stiffness()?;
    if once.is_not_said() {
        return None;
    }
    let band = ask.band(&format!("stiffness of {name}"), once, Hurts::Both);
    let (lo, hi) = band.both()?;
    if lo.si() > 0.0 {
        return Some((lo.si(), hi.si()));
    }
    ask.lacks(
        format!("stiffness of {name}: a low side above zero"),
        Lack::OutOfRange,
        once.datum.origin(),
        "a piece that carries has some stiffness: state how little it may be",
    );
    None
}
