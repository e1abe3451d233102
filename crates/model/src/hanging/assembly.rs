//! From the lines of the riggings to things and the legs between them.

use super::legs::{LegUse, make_up};
use super::things::{Fast, Thing, ThingKind};
use crate::ask::{Ask, Hurts};
use crate::case::Case;
use crate::entries::{Beam, Load, Rigging};
use crate::scope::Declared;
use crate::values::{AXES, BeamName, GearName, LegLine, LiftingPoint, LowerEnd, Points, UpperEnd};
use crate::{Datum, Given, Once};
use plumbhook_sheet::{Lack, Origin};
use plumbhook_units::{Band, ClaimId, Length, Mass, Measured};
use std::sync::Arc;

/// Things and legs as far as they are known.
#[derive(Debug, Default)]
pub(super) struct Assembly {
    /// The load first.
    pub(super) things: Vec<Thing>,
    /// In the order of the lines.
    pub(super) legs: Vec<LegUse>,
    /// Whether these are all.
    pub(super) all: bool,
}

/// An end of a leg as found: its name and its place.
type Found = (LiftingPoint, Fast);

/// Reads lines of riggings.
pub(super) struct Reading<'a, 'c> {
    case: &'c Case,
    pub(super) ask: &'a mut Ask<'c>,
    load: (&'c Arc<Declared>, &'c Load),
    points: &'c [LiftingPoint],
    pub(super) it: Assembly,
    rigging: usize,
}

impl Assembly {
    /// Everything between the load and the hooks; what is missing is noted with `ask`.
    pub(super) fn read<'c>(
        case: &'c Case,
        ask: &mut Ask<'c>,
        load: (&'c Arc<Declared>, &'c Load),
        riggings: &[(&'c Arc<Declared>, &'c Rigging)],
    ) -> Self {
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
        let it = Self {
            things: vec![Thing {
                kind: ThingKind::Load,
                name: load.0.name().into(),
                entry: Some(Arc::clone(load.0)),
                rigging: 0,
                origin: Origin::header(&load.0.key),
                mass: Band::unknown(),
                cg: [Band::unknown(); 3],
                hook: None,
                body: Some(0),
            }],
            legs: vec![],
            all: true,
        };
        let mut reading = Reading {
            case,
            ask,
            load,
            points,
            it,
            rigging: 0,
        };
        for (number, rigging) in riggings.iter().enumerate() {
            reading.rigging = number;
            reading.lines(rigging.0, rigging.1);
        }
        reading.hang(riggings);
        reading.it
    }
}

impl<'c> Reading<'_, 'c> {
    fn lines(&mut self, declared: &Declared, rigging: &'c Rigging) {
        if rigging.legs.lines.is_empty() {
            self.ask.lacks(
                format!("legs of {}", declared.name()),
                Lack::Absent,
                &rigging.legs.home,
                "add a line `legs A B C to ring-1, through …`",
            );
        }
        for line in &rigging.legs.lines {
            match line {
                Datum::Known(given) => self.line(given),
                Datum::Lacking(lacking) => {
                    self.it.all = false;
                    self.ask.lacks(
                        format!("legs of {}", declared.name()),
                        lacking.lack,
                        &lacking.origin,
                        "mend the line `legs`",
                    );
                }
            }
        }
    }

    fn line(&mut self, given: &'c Given<LegLine>) {
        let line = &given.value;
        let mut lower = Vec::new();
        for end in &line.from {
            match self.lower(end) {
                Some(found) => lower.extend(found.into_iter().map(|found| (found, end.origin()))),
                None => self.it.all = false,
            }
        }
        let Some(upper) = self.upper(&line.to, lower.len()) else {
            self.it.all = false;
            return;
        };
        for (((point, lower), origin), upper) in lower.into_iter().zip(upper) {
            let mut leg = make_up(self.case, self.ask, &point, (lower, upper), origin, given);
            // A leg that carries a ring pulls at its upper bearing.
            if let Some(ring) = self.it.things.get(lower.thing)
                && ring.kind == ThingKind::Ring
            {
                let inside = self.inside(ring.entry.clone().as_ref(), &ring.name.clone());
                leg.length = leg.length.plus(inside);
            }
            self.it.legs.push(leg);
        }
    }

    fn inside(&mut self, entry: Option<&Arc<Declared>>, name: &str) -> Band<Length> {
        let gear = entry.and_then(|entry| entry.body.as_ref()?.gear());
        gear.map_or_else(Band::unknown, |gear| {
            self.ask
                .band(&format!("length of {name}"), gear.length(), Hurts::Both)
        })
    }

    /// What a lower end means: one place, or all tops of a beam.
    fn lower(&mut self, end: &'c LowerEnd) -> Option<Vec<Found>> {
        match end {
            LowerEnd::Named(name, origin) => {
                let point = self.points.iter().find(|point| point.name == *name);
                let ring = self.ring_named(name);
                match (point, ring) {
                    (Some(point), _) => {
                        let (thing, at) = (0, point.at);
                        Some(vec![(point.clone(), Fast { thing, at })])
                    }
                    (None, Some(ring)) => Some(vec![of_ring(name, origin, ring)]),
                    (None, None) => {
                        if !self.points.is_empty() {
                            let names: Vec<&str> =
                                self.points.iter().map(|point| &*point.name).collect();
                            self.ask.lacks(
                                format!("lifting point {name} of {}", self.load.0.name()),
                                Lack::NotFound,
                                origin,
                                format!("its points are {}", names.join(", ")),
                            );
                        }
                        None
                    }
                }
            }
            LowerEnd::Beam(name) => self.of_beam(name, "tops", |beam| &beam.tops),
        }
    }

    /// A ring that legs of this rigging gather in.
    fn ring_named(&self, name: &str) -> Option<usize> {
        let mut things = self.it.things.iter();
        things.position(|thing| {
            thing.kind == ThingKind::Ring && thing.rigging == self.rigging && *thing.name == *name
        })
    }

    fn upper(&mut self, to: &'c UpperEnd, legs: usize) -> Option<Vec<Fast>> {
        match to {
            UpperEnd::Gathered(name) => {
                let ring = self.ring(name);
                let nothing = [Length::from_si(0.0); 3];
                let fast = Fast {
                    thing: ring,
                    at: nothing,
                };
                Some(vec![fast; legs])
            }
            UpperEnd::Beam(name) => {
                let ends = self.of_beam(name, "ends", |beam| &beam.ends)?;
                if let [(_, one)] = &ends[..] {
                    return Some(vec![*one; legs]);
                }
                if ends.len() == legs {
                    return Some(ends.into_iter().map(|(_, fast)| fast).collect());
                }
                self.ask.lacks(
                    format!(
                        "which of the {} ends of {} each of {legs} legs hangs from",
                        ends.len(),
                        name.head()
                    ),
                    Lack::NotFound,
                    &name.origin,
                    format!(
                        "name one leg for each end, or the one end behind a dot: `to {}.{}, through …`",
                        name.head(),
                        ends.first().map_or("L", |(point, _)| &point.name)
                    ),
                );
                None
            }
        }
    }

    /// Points of a beam: all of a key, or the one that is named.
    fn of_beam(
        &mut self,
        name: &'c BeamName,
        word: &str,
        key: impl Fn(&Beam) -> &Once<Points>,
    ) -> Option<Vec<Found>> {
        let (declared, beam) = self.ask.entry::<Beam, _>(name)?;
        let thing = self.beam(name, declared, beam);
        let once = key(beam);
        let what = format!("{word} of {}", declared.name());
        let given = self.ask.value(&what, once, |points| {
            crate::ask::words(&points.0.len().to_string())
        })?;
        let inner = name.inner().unwrap_or(word);
        let points = given.value.0.iter();
        let found: Vec<Found> = points
            .filter(|point| inner == word || *point.name == *inner)
            .map(|point| {
                let named = LiftingPoint {
                    name: format!("{}.{}", declared.name(), point.name).into(),
                    ..point.clone()
                };
                let at = point.at;
                (named, Fast { thing, at })
            })
            .collect();
        if found.is_empty() {
            self.ask.lacks(
                format!("{inner} of {}", declared.name()),
                Lack::NotFound,
                &name.origin,
                format!(
                    "write `{}.{word}`, or one of its {word} by name",
                    declared.name()
                ),
            );
            return None;
        }
        Some(found)
    }

    fn add(&mut self, thing: Thing) -> usize {
        let same = |other: &Thing| {
            (other.kind, &other.name, other.rigging) == (thing.kind, &thing.name, thing.rigging)
        };
        if let Some(known) = self.it.things.iter().position(same) {
            return known;
        }
        self.it.things.push(thing);
        self.it.things.len() - 1
    }

    fn beam(&mut self, name: &BeamName, declared: &Arc<Declared>, beam: &'c Beam) -> usize {
        let of = declared.name();
        let mass = self
            .ask
            .band(&format!("mass of {of}"), &beam.mass, Hurts::Both);
        let cg = self.cg_of_beam(of, beam);
        self.add(Thing {
            kind: ThingKind::Beam,
            name: of.into(),
            entry: Some(Arc::clone(declared)),
            rigging: self.rigging,
            origin: name.origin.clone(),
            mass,
            cg,
            hook: None,
            body: None,
        })
    }

    fn cg_of_beam(&mut self, of: &str, beam: &'c Beam) -> [Band<Length>; 3] {
        let mut bands = [Band::unknown(); 3];
        let what = format!("centre of gravity of {of}");
        let given = self
            .ask
            .value(&what, &beam.cg, |_| crate::ask::words("as declared"));
        let Some(given) = given else { return bands };
        for ((band, axis), letter) in bands.iter_mut().zip(&given.value.0).zip(AXES) {
            if let Some(axis) = axis {
                *band = axis.band(ClaimId(0));
                self.ask.note_band(
                    &format!("cg {letter} of {of}"),
                    *band,
                    vec![given.origin.clone()],
                    "",
                );
            }
            if !band.is_known() {
                self.ask.lacks(
                    format!("{what}: {letter}"),
                    Lack::OneSided,
                    &given.origin,
                    format!("state both sides, as `{letter} 0 +/- 20 mm`"),
                );
            }
        }
        bands
    }

    fn ring(&mut self, name: &GearName) -> usize {
        let nothing = Band::exact(Length::from_si(0.0), ClaimId(0));
        let entry = self.case.entry(name).map(Arc::clone);
        self.add(Thing {
            kind: ThingKind::Ring,
            name: name.name.clone(),
            entry,
            rigging: self.rigging,
            origin: name.origin.clone(),
            mass: Band::unknown(),
            cg: [nothing; 3],
            hook: None,
            body: None,
        })
    }
}

fn of_ring(name: &str, origin: &Origin, thing: usize) -> Found {
    let at = [Length::from_si(0.0); 3];
    let point = LiftingPoint {
        name: name.into(),
        at,
        origin: origin.clone(),
    };
    (point, Fast { thing, at })
}

/// The mass of a ring as a body of its own.
pub(super) fn mass_of_ring(ask: &mut Ask<'_>, thing: &Thing) -> Band<Mass> {
    let gear = thing
        .entry
        .as_ref()
        .and_then(|entry| entry.body.as_ref()?.gear());
    if let Some(gear) = gear {
        return ask.band(&format!("mass of {}", thing.name), gear.mass(), Hurts::Both);
    }
    ask.lacks(
        format!("piece of gear `{}`", thing.name),
        Lack::NotFound,
        &thing.origin,
        "declare it in the yard, or name a piece that is declared",
    );
    Band::unknown()
}
