//! A leg of a case: which pieces stand in it, how long, how heavy and how stiff it is made up.

use super::things::Fast;
use crate::Gear;
use crate::ask::{Ask, Asked, Hurts};
use crate::case::Case;
use crate::scope::Declared;
use crate::values::{LegLine, LiftingPoint, PieceUse};
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
}

/// A leg of a line, between two ends.
pub(super) fn make_up(
    case: &Case,
    ask: &mut Ask<'_>,
    point: &LiftingPoint,
    (lower, upper): (Fast, Fast),
    origin: &Origin,
    line: &LegLine,
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
    };
    let mut weigh = Ask::new(case);
    let mut gives = Some((0.0, 0.0));
    let mut stretches = false;
    for piece in &line.through {
        let found = case.entry(&piece.gear);
        let gear = found.and_then(|entry| entry.body.as_ref()?.gear());
        if let (Some(entry), Some(gear)) = (found, gear) {
            let name = entry.name();
            let length = ask.band(&format!("length of {name}"), gear.length(), Hurts::Both);
            leg.length = leg.length.plus(length);
            let mass = weigh.band(&format!("mass of {name}"), gear.mass(), Hurts::High);
            leg.mass = leg.mass.plus(mass);
            if gear.stiffness().is_some() {
                stretches = true;
                gives = gives
                    .zip(stiffness(ask, name, gear))
                    .map(|(sum, one)| (sum.0 + 1.0 / one.1, sum.1 + 1.0 / one.0));
            }
        } else {
            // Without it the leg would be made up too short and too light.
            (leg.length, leg.mass, gives) = (Band::unknown(), Band::unknown(), None);
            ask.lacks(
                format!("piece of gear `{}`", piece.gear.head()),
                Lack::NotFound,
                &piece.gear.origin,
                "declare it in the yard, or name a piece that is declared",
            );
        }
        leg.pieces.push((piece.clone(), found.map(Arc::clone)));
    }
    leg.mass_asked = weigh.asked;
    leg.stiffness = gives.filter(|_| stretches).map(|(low, high)| {
        (
            Stiffness::from_si(1.0 / high),
            Stiffness::from_si(1.0 / low),
        )
    });
    leg
}

/// Both sides of a declared stiffness. An absent one is allowed: then the worst sharing counts.
/// One that is `unknown`, broken or without its tolerance is missing.
fn stiffness(ask: &mut Ask<'_>, name: &str, gear: &dyn Gear) -> Option<(f64, f64)> {
    let once = gear.stiffness()?;
    if once.is_absent() {
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
