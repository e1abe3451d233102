//! How the load of a case hangs: asked for, solved once, and read by every rule that needs it.

mod assembly;
mod figure;
mod hung;
mod legs;
mod rig;
mod things;

pub use legs::LegUse;
pub use things::{Fast, Thing, ThingKind};

use crate::Datum;
use crate::ask::{Ask, Asked, Hurts};
use crate::carried::{attitude, total, weights};
use crate::case::Case;
use crate::centre_of_gravity;
use crate::entries::{Load, Move, Rigging};
use crate::scope::Declared;
use crate::values::{AXES, BodyShape};
use assembly::{Assembly, mass_of_ring};
use plumbhook_mechanics::hanging::{
    Axis, BandedRig, Corner as SolvedCorner, Extreme, Input, Names, NoPose, Pose, Rig, Rotation,
    Worst, hang, worst,
};
use plumbhook_sheet::{Corner, CornerInput, Figure, InputValue, Origin};
use plumbhook_units::{Amount, Band, Force, Length, Mass, weight};
use rig::{Making, hook_above_level};
use std::sync::Arc;

/// What a case knows of how its load hangs.
#[derive(Debug)]
pub struct Hanging {
    /// What was asked for and what is missing.
    pub asked: Asked,
    /// The load, every beam and every ring in which legs gather; the load first.
    pub things: Vec<Thing>,
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
    level: Option<Length>,
    rig: Option<BandedRig>,
    shape: Option<BodyShape>,
    places: Vec<(Input, Arc<CornerInput>)>,
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
            things: vec![],
            legs: vec![],
            mass: Band::unknown(),
            cg: [Band::unknown(); 3],
            worst: None,
            complete: false,
            all_legs: false,
            attitude: None,
            level: None,
            rig: None,
            shape: None,
            places: vec![],
        };
        let Some(moves) = case.movement.of::<Move>() else {
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
        let mut riggings = Vec::new();
        for hung in by.iter().flat_map(|by| &by.value.0) {
            riggings.extend(ask.entry::<Rigging, _>(&hung.rigging));
        }
        let all_found = by.is_some_and(|by| by.value.0.len() == riggings.len());
        let Some(load) = load else { return it };
        it.shape = load.1.shape.known().map(|shape| shape.value);
        it.mass = total(&weights(ask, load.0, load.1, Hurts::High));
        it.attitude = attitude(ask);
        let home = home(&load.1.mass.lines, &load.1.mass.home);
        it.places
            .push(named(Input::Mass { body: 0 }, "mass".into(), &home));
        it.ask_cg(ask, load);
        if !riggings.is_empty() {
            let assembly = Assembly::read(case, ask, load, &riggings);
            it.things = assembly.things;
            it.legs = assembly.legs;
            it.all_legs = assembly.all && all_found;
            it.settle_bodies(ask);
            if riggings.len() > 1 {
                it.ask_level(ask, moves);
            }
            it.name_legs();
        }
        it
    }

    /// Which things are bodies of their own: all but a ring that hangs by the only hook. Above the load each carries the
    /// weight of what hangs from it.
    fn settle_bodies(&mut self, ask: &mut Ask<'_>) {
        let hooks = self.things.iter().filter(|t| t.hook.is_some()).count();
        let mut bodies = 0;
        for thing in &mut self.things {
            if thing.kind == ThingKind::Load {
                (thing.mass, thing.cg) = (self.mass, self.cg);
            }
            if thing.kind == ThingKind::Ring && thing.hook.is_some() && hooks < 2 {
                continue;
            }
            if thing.kind == ThingKind::Ring {
                thing.mass = mass_of_ring(ask, thing);
            }
            thing.body = Some(bodies);
            bodies += 1;
        }
        if bodies < 2 {
            return;
        }
        for leg in &self.legs {
            if self
                .things
                .get(leg.upper.thing)
                .is_some_and(|t| t.body.is_some())
            {
                ask.asked.include(&leg.mass_asked);
            }
        }
        for thing in self.things.iter().skip(1) {
            let Some(body) = thing.body else { continue };
            let (name, origin) = (&thing.name, &thing.origin);
            let what = format!("mass of {name} and its legs");
            self.places.push(named(Input::Mass { body }, what, origin));
            for (axis, letter) in Axis::ALL.into_iter().zip(AXES) {
                let (input, what) = (Input::Cg { body, axis }, format!("cg {letter} of {name}"));
                self.places.push(named(input, what, origin));
            }
        }
    }

    /// How far the hooks may come out of level.
    fn ask_level(&mut self, ask: &mut Ask<'_>, moves: &Move) {
        let what = "how far the hooks may come out of level";
        let level = ask.case().moves().and_then(|moves| {
            ask.value(what, &moves.hooks_level, |limit| {
                InputValue::Exact(Amount::of(limit.0))
            })
        });
        self.level = level.map(|level| level.value.0);
        let origin = moves.hooks_level.datum.origin();
        let hooks = self.things.iter().filter_map(|t| t.hook).count();
        for hook in 0..hooks {
            let leg = self.legs.len() + hook;
            let by = moves.by.known().and_then(|by| by.value.0.get(hook));
            let Some(hung) = by else { continue };
            let what = format!("hook of {} off level by", hung.machine.name);
            self.places
                .push((Input::Length { leg }, corner_input(what, origin, true)));
        }
    }

    fn name_legs(&mut self) {
        for (index, leg) in self.legs.iter().enumerate() {
            let origin = leg.pieces.first().map_or_else(
                || leg.origin.clone(),
                |(piece, _)| piece.gear.origin.clone(),
            );
            for (input, of) in [
                (Input::Length { leg: index }, "length"),
                (Input::Stiffness { leg: index }, "stiffness"),
            ] {
                let what = format!("{of} of leg {}", leg.point.name);
                self.places.push(named(input, what, &origin));
            }
        }
    }

    fn ask_cg(&mut self, ask: &mut Ask<'_>, (declared, load): (&Arc<Declared>, &Load)) {
        let cg = centre_of_gravity(ask, declared, load);
        self.cg = cg;
        let origin = home(&load.cg.lines, &load.cg.home);
        for (axis, name) in Axis::ALL.into_iter().zip(AXES) {
            let what = format!("cg {name}");
            let input = Input::Cg { body: 0, axis };
            self.places.push(named(input, what, &origin));
        }
    }

    /// The rig with every band closed; `None` where too much is missing.
    fn banded_rig(&self) -> Option<BandedRig> {
        // Fewer legs than there are would carry more than they do.
        if self.legs.is_empty() || !self.all_legs {
            return None;
        }
        let making = Making {
            things: &self.things,
            legs: &self.legs,
            attitude: self.attitude?,
            level: self.level,
        };
        making.rig()
    }

    /// The attitude that the load is meant to hang in; `None` where it is not known.
    pub fn attitude(&self) -> Option<Rotation> {
        self.attitude
    }

    /// Whether the legs are all that there are.
    pub fn all_legs(&self) -> bool {
        self.all_legs
    }

    /// Whether anything but the load and the legs from one hook hangs: beams, rings below it, a second hook.
    pub fn has_tiers(&self) -> bool {
        self.things
            .iter()
            .filter(|thing| thing.body.is_some())
            .count()
            > 1
    }

    /// The legs that run between the same two things as this one, itself included.
    pub fn tier(&self, leg: &LegUse) -> impl Iterator<Item = (usize, &LegUse)> {
        let between = (leg.lower.thing, leg.upper.thing);
        let legs = self.legs.iter().enumerate();
        legs.filter(move |(_, other)| (other.lower.thing, other.upper.thing) == between)
    }

    /// The corner that gives a number, input by input, the one that moves most first; those that move nothing
    /// worth naming are left out.
    pub fn corner<T>(&self, extreme: &Extreme<T>) -> Vec<Corner> {
        let named = |input: &Input| self.places.iter().find(|(place, _)| place == input);
        extreme
            .corner
            .inputs
            .iter()
            .filter(|corner| corner.effect.abs() >= 1e-4)
            .filter_map(|corner| {
                let (_, input) = named(&corner.input)?;
                let hoist = matches!(corner.input, Input::Length { leg } if leg >= self.legs.len());
                let value = if hoist {
                    hook_above_level(corner.value)
                } else {
                    corner.value
                };
                Some(Corner {
                    input: Arc::clone(input),
                    value: amount_of(corner.input, value),
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
            &self.things,
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

/// What the move calls its bodies and legs.
impl Names for Hanging {
    fn body(&self, body: usize) -> String {
        let mut things = self.things.iter();
        let thing = things.find(|thing| thing.body == Some(body));
        thing.map_or_else(
            || format!("body {}", body + 1),
            |thing| thing.name.to_string(),
        )
    }

    fn leg(&self, leg: usize) -> String {
        let known = self.legs.get(leg);
        known.map_or_else(|| (leg + 1).to_string(), |leg| leg.point.name.to_string())
    }
}

/// What an input of the load, of a thing or of a leg is called at a corner.
fn named(input: Input, what: String, origin: &Origin) -> (Input, Arc<CornerInput>) {
    let coordinate = matches!(input, Input::Cg { .. });
    (input, corner_input(what, origin, coordinate))
}

fn corner_input(what: String, origin: &Origin, coordinate: bool) -> Arc<CornerInput> {
    Arc::new(CornerInput {
        what,
        coordinate,
        origin: Some(origin.clone()),
    })
}

fn home<T>(lines: &[Datum<T>], home: &Origin) -> Origin {
    lines.first().map_or(home, Datum::origin).clone()
}

fn amount_of(input: Input, value: f64) -> Amount {
    use plumbhook_units::Kind;
    match input {
        Input::Mass { .. } => Amount::new(Kind::Mass, value),
        Input::Cg { .. } | Input::Length { .. } => Amount::new(Kind::Length, value),
        Input::Stiffness { .. } => Amount::new(Kind::Stiffness, value),
    }
}
