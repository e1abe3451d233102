//! What stands between the underside of a load and the hook's bearing, part by part, each with both ends.

use super::beyond::{End, Way};
use super::hook::HookUse;
use super::pose;
use plumbhook_mechanics::hanging::Worst;
use plumbhook_model::ask::{Ask, Hurts, words};
use plumbhook_model::values::{BodyShape, HeightOf, Station, Turned};
use plumbhook_model::{Case, centre_of_gravity};
use plumbhook_sheet::Lack;
use plumbhook_units::{Amount, Band, ClaimId, Length, Measured, Printer, Round};

/// A part of the way from the underside to the hook.
#[derive(Clone)]
pub(super) struct Part {
    /// What it is.
    pub(super) what: String,
    low: End,
    high: End,
}

impl Part {
    fn of(what: impl Into<String>, band: Band<Length>) -> Self {
        Self {
            what: what.into(),
            low: End::low(band),
            high: End::high(band),
        }
    }

    /// Its end on the side of a way.
    pub(super) fn end(&self, way: Way) -> End {
        match way {
            Way::Up => self.high,
            Way::Down => self.low,
        }
    }

    fn known_if(mut self, known: bool) -> Self {
        self.low = self.low.known_if(known);
        self.high = self.high.known_if(known);
        self
    }
}

/// A station with its place in the table, from one, and the level that it gives.
pub(super) struct At<'c> {
    /// From one.
    pub(super) number: usize,
    /// The row.
    pub(super) station: &'c Station,
    /// The level of what the station gives the height of.
    pub(super) level: Part,
}

impl<'c> At<'c> {
    /// Asks for what each level rests on.
    pub(super) fn all(ask: &mut Ask<'c>, stations: &'c [Station]) -> Vec<Self> {
        let numbered = stations.iter().enumerate();
        numbered
            .map(|(index, station)| Self {
                number: index + 1,
                station,
                level: Part::of(
                    format!("{} at station {}", station.of.column(), index + 1),
                    ask.station_level(&format!("station {}", index + 1), station),
                ),
            })
            .collect()
    }
}

/// The height of the origin above a centre of gravity in a box, while the load hangs up to `tilt` out of level.
fn lift_of_cg(cg: Turned, tilt: f64) -> Band<Length> {
    let swings = cg.reach.si() * tilt.sin();
    let (low, high) = (cg.low.si(), cg.high.si());
    let (lowest, highest) = (low.min(low * tilt.cos()), high.max(high * tilt.cos()));
    between(-highest - swings, swings - lowest)
}

/// What the way from the underside to the hook is made of.
pub(super) struct Stack {
    shape: Option<Turned>,
    cg: Option<Turned>,
    ring: Part,
    /// The place of the ring among the bodies, where it is on one of several hooks.
    body: Option<usize>,
    pose_known: bool,
}

impl Stack {
    /// Asks for the shape of the load and the ring. `pose_known` says whether all that the pose rests on is known.
    pub(super) fn ask<'c>(
        case: &'c Case,
        ask: &mut Ask<'c>,
        hook: Option<&HookUse<'_>>,
        pose_known: bool,
        stations: &[At<'_>],
    ) -> Self {
        let any = |wanted: fn(HeightOf) -> bool| stations.iter().any(|at| wanted(at.station.of));
        Self {
            shape: any(HeightOf::can_stand).then(|| shape(case, ask)).flatten(),
            cg: any(|of| of == HeightOf::CentreOfGravity)
                .then(|| cg(case, ask))
                .flatten(),
            ring: if stations.is_empty() || any(|of| of != HeightOf::Hook) {
                ring(ask, hook)
            } else {
                Part::of("ring", Band::unknown())
            },
            body: hook.and_then(|hook| hook.body),
            pose_known,
        }
    }

    /// Its parts above what a height is given of, while the rig hangs as `worst` says.
    pub(super) fn parts(&self, of: HeightOf, worst: Option<&Worst>) -> Vec<Part> {
        let tilt = worst.and_then(pose::tilt).map(|(tilt, _)| tilt.value.si());
        let (origin, lift) = match of {
            HeightOf::Hook => return vec![],
            HeightOf::CentreOfGravity => (
                "origin of the load above its centre of gravity",
                self.cg.zip(tilt).map(|(cg, tilt)| lift_of_cg(cg, tilt)),
            ),
            HeightOf::Underside | HeightOf::Lowest => (
                "origin of the load above its lowest point",
                self.shape.zip(tilt).map(|(shape, tilt)| lift(shape, tilt)),
            ),
        };
        let rise = worst.and_then(|worst| {
            let (low, high) = (
                pose::lowest_rise(worst, self.body)?,
                pose::highest_rise(worst, self.body)?,
            );
            Some(between(low.0.value.si(), high.0.value.si()))
        });
        let legs = "legs above the origin of the load";
        vec![
            tilting(origin, lift.unwrap_or_else(Band::unknown)).known_if(self.pose_known),
            Part::of(legs, rise.unwrap_or_else(Band::unknown)).known_if(self.pose_known),
            self.ring.clone(),
        ]
    }
}

/// A part whose ends belong to other poses than the highest and lowest rise do: at the worst both may come
/// together nearly, but only its other end is proved.
fn tilting(what: &str, band: Band<Length>) -> Part {
    let end = |worst: Option<Length>, proved: Option<Length>| End {
        proved: proved.map(Measured::si),
        worst: worst.map(Measured::si),
    };
    Part {
        what: what.to_owned(),
        low: end(band.lo(), band.hi()),
        high: end(band.hi(), band.lo()),
    }
}

fn between(low: f64, high: f64) -> Band<Length> {
    Band::within(
        Length::from_si(low),
        None,
        Length::from_si(high),
        ClaimId(0),
    )
}

/// The height of the origin above the lowest point of a load that hangs up to `tilt` out of level.
fn lift(shape: Turned, tilt: f64) -> Band<Length> {
    let low = shape.low.si();
    let turned = low * tilt.cos();
    let dips = shape.reach.si() * tilt.sin();
    between(-low.max(turned), dips - low.min(turned))
}

/// The box of the centre of gravity as the load stands in its attitude; `None` where a side of it is not known.
fn cg(case: &Case, ask: &mut Ask<'_>) -> Option<Turned> {
    let (declared, load) = case.load()?;
    let attitude = plumbhook_model::attitude(ask);
    let ends = centre_of_gravity(ask, declared, load).map(|band| band.both());
    let [Some(x), Some(y), Some(z)] = ends else {
        return None;
    };
    let (low, high) = ([x.0, y.0, z.0], [x.1, y.1, z.1]);
    let round = false;
    Some(BodyShape { low, high, round }.turned(attitude.as_ref()?))
}

fn shape<'c>(case: &'c Case, ask: &mut Ask<'c>) -> Option<Turned> {
    let (declared, load) = case.load()?;
    let what = format!("shape of {}", declared.name());
    let metric = |length| Printer::default().metric(Amount::of(length), Round::Nearest);
    let attitude = plumbhook_model::attitude(ask);
    let stands = |shape: &BodyShape| Some(shape.turned(attitude.as_ref()?));
    let shape = ask.value(&what, &load.shape, |shape| {
        let Some(Turned { low, high, reach }) = stands(shape) else {
            return words("given");
        };
        words(&format!(
            "z {} .. {}, reaching {} from its axis",
            metric(low),
            metric(high),
            metric(reach)
        ))
    })?;
    stands(&shape.value)
}

/// The length of what the legs gather in. Whatever it turns out to be, it is not below zero.
fn ring(ask: &mut Ask<'_>, hook: Option<&HookUse<'_>>) -> Part {
    let name = hook.map_or("ring", |hook| hook.ring_name);
    let found = hook.and_then(|hook| hook.ring);
    let gear = found.and_then(|found| found.body.as_ref()?.gear());
    let mut band = gear.map_or_else(Band::unknown, |gear| {
        ask.band(&format!("length of {name}"), gear.length(), Hurts::Both)
    });
    if let Some(gear) = gear.filter(|_| band.lo().is_some_and(|lo| lo.si() < 0.0)) {
        ask.lacks(
            format!("length of {name}: zero or more"),
            Lack::OutOfRange,
            gear.length().datum.origin(),
            "no side of a length inside lies below zero",
        );
        band = Band::unknown();
    }
    let mut part = Part::of(format!("{name}, inside"), band);
    part.high = part.high.or_proved(0.0);
    part
}
