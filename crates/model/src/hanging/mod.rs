//! How the load of a case hangs: asked for, solved once, and read by every rule that needs it.

mod figure;
mod legs;

pub use legs::LegUse;

use crate::Datum;
use crate::ask::{Ask, Asked, Hurts};
use crate::carried::{attitude, total, weights};
use crate::case::Case;
use crate::centre_of_gravity;
use crate::entries::Load;
use crate::scope::Declared;
use crate::values::{AXES, BodyShape};
use legs::legs;
use plumbhook_mechanics::hanging::{
    BandedBody, BandedLeg, BandedRig, Corner as SolvedCorner, End, Extreme, Hook, Input, Interval,
    NoPose, Pose, Rig, Rotation, Worst, hang, worst,
};
use plumbhook_sheet::{Corner, Figure, Origin};
use plumbhook_units::{Amount, Band, Force, Length, Mass, Measured, weight};
use std::sync::Arc;

/// What a case knows of how its load hangs.
#[derive(Debug)]
pub struct Hanging {
    /// What was asked for and what is missing.
    pub asked: Asked,
    /// Every leg as made up.
    pub legs: Vec<LegUse>,
    /// The mass of the load with all that is on it and in it.
    pub mass: Band<Mass>,
    /// The centre of gravity, axis by axis.
    pub cg: [Band<Length>; 3],
    /// The worst inside the bands. `None` where too much is missing to solve anything: what is missing is in
    /// `asked`. Where only the high side of the mass is missing it is solved at the low side, which proves at
    /// least that much.
    pub worst: Option<Result<Worst, NoPose>>,
    /// Whether it was solved with every hurting side known.
    pub complete: bool,
    all_legs: bool,
    attitude: Option<Rotation>,
    rig: Option<BandedRig>,
    shape: Option<BodyShape>,
    places: Vec<(Input, Arc<str>, Origin)>,
}

impl Hanging {
    /// Asks for everything and solves.
    pub(crate) fn solve(case: &Case) -> Self {
        let mut ask = Ask::new(case);
        let mut it = Self::ask(case, &mut ask);
        it.asked = ask.asked;
        it.complete = it.asked.missing.is_empty();
        it.rig = it.banded_rig();
        it.worst = it.rig.as_ref().map(worst);
        it
    }

    fn ask<'c>(case: &'c Case, ask: &mut Ask<'c>) -> Self {
        let mut it = Self {
            asked: Asked::default(),
            legs: vec![],
            mass: Band::unknown(),
            cg: [Band::unknown(); 3],
            worst: None,
            complete: false,
            all_legs: false,
            attitude: None,
            rig: None,
            shape: None,
            places: vec![],
        };
        let Some(moves) = case.movement.of::<crate::entries::Move>() else {
            return it;
        };
        let load = ask
            .value("what the move carries", &moves.carries, |carries| {
                crate::ask::words(&carries.words())
            })
            .and_then(|carries| ask.entry::<Load, _>(&carries.value.load));
        let by = ask.value("what the move is done by", &moves.by, |by| {
            crate::ask::words(&by.words())
        });
        let rigging = by
            .and_then(|by| ask.entry::<crate::entries::Rigging, _>(&by.value.0.as_ref()?.rigging));
        let Some(load) = load else { return it };
        it.shape = load.1.shape.known().map(|shape| shape.value);
        it.mass = total(&weights(ask, load.0, load.1, Hurts::High));
        it.attitude = attitude(ask);
        it.places.push((
            Input::Mass { body: 0 },
            "mass".into(),
            home(&load.1.mass.lines, &load.1.mass.home),
        ));
        it.ask_cg(ask, load);
        if let Some(rigging) = rigging {
            (it.legs, it.all_legs) = legs(case, ask, (load.0, load.1), (rigging.0, rigging.1));
            for (index, leg) in it.legs.iter().enumerate() {
                let origin = leg
                    .pieces
                    .iter()
                    .map(|(piece, _)| piece.gear.origin.clone())
                    .next()
                    .unwrap_or_else(|| leg.origin.clone());
                it.places.push((
                    Input::Length { leg: index },
                    format!("length of leg {}", leg.point.name).into(),
                    origin.clone(),
                ));
                it.places.push((
                    Input::Stiffness { leg: index },
                    format!("stiffness of leg {}", leg.point.name).into(),
                    origin,
                ));
            }
        }
        it
    }

    fn ask_cg(&mut self, ask: &mut Ask<'_>, (declared, load): (&Arc<Declared>, &Load)) {
        use plumbhook_mechanics::hanging::Axis;
        let cg = centre_of_gravity(ask, declared, load);
        self.cg = cg;
        let origin = home(&load.cg.lines, &load.cg.home);
        for (axis, name) in Axis::ALL.into_iter().zip(AXES) {
            self.places.push((
                Input::Cg { body: 0, axis },
                format!("cg {name}").into(),
                origin.clone(),
            ));
        }
    }

    /// The rig with every band closed. A mass whose low side nobody states stands at its high side, one whose
    /// high side nobody states at its low side; any other unknown leaves no rig.
    fn banded_rig(&self) -> Option<BandedRig> {
        let mass = match (self.mass.lo(), self.mass.hi()) {
            (Some(lo), Some(hi)) => Interval { lo, hi },
            (None, Some(one)) | (Some(one), None) => Interval::exact(one),
            (None, None) => return None,
        };
        let mut cg = [Interval::exact(Length::from_si(0.0)); 3];
        for (slot, band) in cg.iter_mut().zip(&self.cg) {
            *slot = interval(*band)?;
        }
        // Fewer legs than there are would carry more than they do.
        if self.legs.is_empty() || !self.all_legs {
            return None;
        }
        let legs = self.legs.iter().map(|leg| {
            Some(BandedLeg {
                upper: End::Hook(0),
                lower: End::Point {
                    body: 0,
                    at: leg.point.at,
                },
                length: interval(leg.length)?,
                stiffness: leg.stiffness.map(|(lo, hi)| Interval { lo, hi }),
            })
        });
        Some(BandedRig {
            bodies: vec![BandedBody {
                mass,
                cg,
                attitude: self.attitude?,
            }],
            hooks: vec![Hook {
                position: [Length::from_si(0.0); 3],
            }],
            legs: legs.collect::<Option<Vec<_>>>()?,
        })
    }

    /// The corner that gives a number, input by input, the one that moves most first; those that move nothing
    /// worth naming are left out.
    pub fn corner<T>(&self, extreme: &Extreme<T>) -> Vec<Corner> {
        let named = |input: &Input| self.places.iter().find(|(place, _, _)| place == input);
        extreme
            .corner
            .inputs
            .iter()
            .filter(|corner| corner.effect.abs() >= 1e-4)
            .filter_map(|corner| {
                let (_, what, origin) = named(&corner.input)?;
                Some(Corner {
                    what: Arc::clone(what),
                    value: amount_of(corner.input, corner.value),
                    coordinate: matches!(corner.input, Input::Cg { .. }),
                    origin: Some(origin.clone()),
                })
            })
            .collect()
    }

    /// The rig inside its bands; `None` where too much is missing. A rule that says what would mend something
    /// changes a copy of it and solves that.
    pub fn rig(&self) -> Option<&BandedRig> {
        self.rig.as_ref()
    }

    /// The pose at a corner, solved again for the record.
    pub fn pose_at(&self, corner: &SolvedCorner) -> Option<Pose> {
        let rig = self.rig.as_ref()?.at(corner);
        match &corner.pulling {
            Some(pulling) => plumbhook_mechanics::hanging::hang_by_legs(&rig, pulling).ok(),
            None => hang(&rig).ok(),
        }
    }

    /// What the load weighs at a corner.
    pub fn weight_at(&self, corner: &SolvedCorner) -> Option<Force> {
        let rig = self.rig.as_ref()?.at(corner);
        rig.bodies.first().map(|body| weight(body.mass))
    }

    /// What the pose in the middle of all bands looks like, in the hook's frame; where that has no answer, one at
    /// its limits. The title says which: a tension drawn is not the worst.
    pub fn figure(&self, title: &str) -> Option<Arc<Figure>> {
        let middle = self.rig.as_ref()?.middle();
        let (rig, pose, which) = match hang(&middle) {
            Ok(pose) => (middle, pose, "in the middle of all bands".to_owned()),
            Err(_) => self.pose_of_any_sharing()?,
        };
        Some(Arc::new(figure::hanging(
            &format!("{title}, {which}"),
            &self.legs,
            self.shape,
            &rig,
            &pose,
        )))
    }

    fn pose_of_any_sharing(&self) -> Option<(Rig, Pose, String)> {
        let worst = self.worst.as_ref()?.as_ref().ok()?;
        let (leg, named) = worst.sharing.legs.first().zip(self.legs.first())?;
        let corner = &leg.max_tension.corner;
        let which = format!("where leg {} pulls most", named.point.name);
        Some((self.rig.as_ref()?.at(corner), self.pose_at(corner)?, which))
    }
}

fn home<T>(lines: &[Datum<T>], home: &Origin) -> Origin {
    lines.first().map_or(home, Datum::origin).clone()
}

fn interval<T: Measured>(band: Band<T>) -> Option<Interval<T>> {
    band.both().map(|(lo, hi)| Interval { lo, hi })
}

fn amount_of(input: Input, value: f64) -> Amount {
    use plumbhook_units::Kind;
    match input {
        Input::Mass { .. } => Amount::new(Kind::Mass, value),
        Input::Cg { .. } | Input::Length { .. } => Amount::new(Kind::Length, value),
        Input::Stiffness { .. } => Amount::new(Kind::Stiffness, value),
    }
}
