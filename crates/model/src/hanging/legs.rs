//! The legs of a case: which pieces stand in each, how long, how heavy and how stiff it is made up.

use crate::ask::{Ask, Asked, Hurts};
use crate::case::Case;
use crate::entries::{Load, Rigging};
use crate::scope::Declared;
use crate::values::{LegLine, LiftingPoint, PieceUse};
use crate::{Datum, Gear};
use plumbhook_sheet::{Lack, Origin};
use plumbhook_units::{Band, Length, Mass, Measured, Stiffness};
use std::sync::Arc;

/// One leg as it is made up.
#[derive(Debug, Clone)]
pub struct LegUse {
    /// The lifting point it goes to.
    pub point: LiftingPoint,
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

/// Every leg of the rigging, and whether these are all; what is missing is noted with `ask`.
pub(crate) fn legs(
    case: &Case,
    ask: &mut Ask<'_>,
    load: (&Declared, &Load),
    rigging: (&Declared, &Rigging),
) -> (Vec<LegUse>, bool) {
    let points = match &load.1.points.datum {
        Datum::Known(given) => &given.value.0[..],
        Datum::Lacking(lacking) => {
            ask.lacks(
                format!("lifting points of {}", load.0.name()),
                lacking.lack,
                &lacking.origin,
                "say where they are: `points A (1.2 m, 0, 1.6 m), B (…)`",
            );
            &[]
        }
    };
    if rigging.1.legs.lines.is_empty() {
        ask.lacks(
            format!("legs of {}", rigging.0.name()),
            Lack::Absent,
            &rigging.1.legs.home,
            "add a line `legs A B C to ring-1, through …`",
        );
    }
    let mut legs = Vec::new();
    let mut all = true;
    for line in &rigging.1.legs.lines {
        match line {
            Datum::Known(given) => {
                for (name, origin) in &given.value.points {
                    match points.iter().find(|point| point.name == *name) {
                        Some(point) => legs.push(make_up(case, ask, point, origin, &given.value)),
                        None if points.is_empty() => all = false,
                        None => {
                            all = false;
                            ask.lacks(
                                format!("lifting point {name} of {}", load.0.name()),
                                Lack::NotFound,
                                origin,
                                format!("its points are {}", names(points)),
                            );
                        }
                    }
                }
            }
            Datum::Lacking(lacking) => {
                all = false;
                ask.lacks(
                    format!("legs of {}", rigging.0.name()),
                    lacking.lack,
                    &lacking.origin,
                    "mend the line `legs`",
                );
            }
        }
    }
    (legs, all)
}

fn names(points: &[LiftingPoint]) -> String {
    points
        .iter()
        .map(|point| &*point.name)
        .collect::<Vec<_>>()
        .join(", ")
}

fn make_up(
    case: &Case,
    ask: &mut Ask<'_>,
    point: &LiftingPoint,
    origin: &Origin,
    line: &LegLine,
) -> LegUse {
    let zero = plumbhook_units::ClaimId(0);
    let mut leg = LegUse {
        point: point.clone(),
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
