//! How several bodies, or a body under several hooks, hang, as a function of the banded inputs.

use super::bodies::{At, Many, Tie, span};
use super::family::Way;
use super::numbers::Fault;
use super::outcome::{Counts, Param, Point};

/// Reach of a leg that must not stretch at all: rounding only.
const NO_STRETCH: f64 = 1e-9;
/// A pull of less than this share of the weight is none.
const NO_PULL: f64 = 1e-9;
/// Parts in which a way too long for one step is gone.
const PARTS: u32 = 8;

/// A rig and a way to hang.
#[derive(Clone, Debug)]
pub(crate) struct Several {
    /// The definite rig at the place last asked for.
    pub(super) many: Many,
    pub(super) counts: Counts,
    pub(super) way: Way,
    pub(super) longest: Vec<f64>,
    pub(super) params: Vec<Param>,
    /// The middle of all bands, and how it hangs there.
    middle: Vec<f64>,
    start: Vec<At>,
}

impl Several {
    /// `longest` is the long end of each leg, `params` the inputs that have a band, `middle` their middles, `start` the
    /// pose there.
    pub(crate) fn new(
        many: Many,
        counts: Counts,
        way: Way,
        longest: Vec<f64>,
        params: Vec<Param>,
        (middle, start): (Vec<f64>, Vec<At>),
    ) -> Self {
        Self {
            many,
            counts,
            way,
            longest,
            params,
            middle,
            start,
        }
    }

    /// Legs that run between the same two things, together.
    pub(crate) fn tiers(&self) -> Vec<Vec<usize>> {
        tiers(&self.many)
    }

    /// Puts the rig at a place in the bands.
    pub(super) fn set(&mut self, at: &[f64]) {
        for (param, value) in self.params.iter().zip(at) {
            let slot = match *param {
                Param::Weight(body) => self.many.solids.get_mut(body).map(|s| &mut s.weight),
                Param::Cg(body, axis) => self
                    .many
                    .solids
                    .get_mut(body)
                    .and_then(|s| s.cg.get_mut(axis)),
                Param::Length(i) => self.many.lines.get_mut(i).map(|l| &mut l.length),
                Param::Stiffness(i) => self
                    .many
                    .lines
                    .get_mut(i)
                    .and_then(|l| l.stiffness.as_mut()),
            };
            if let Some(slot) = slot {
                *slot = *value;
            }
        }
    }

    /// Hangs the rig at a place in the bands; `near` is a pose to start from.
    ///
    /// # Errors
    /// Why it does not hang in this way there.
    pub(crate) fn evaluate(&mut self, at: &[f64], near: Option<&Point>) -> Result<Point, Fault> {
        let (places, tension) = match self.way.clone() {
            Way::Elastic => self.elastic(at, near)?,
            Way::Inextensible => self.all_that_pull(at, near)?,
            Way::Chosen { legs, stretch } => {
                let (places, tension) = self.rigid(at, near, &legs)?;
                self.all_pull(&legs, &tension)?;
                let pulls = |leg: usize| legs.contains(&leg);
                self.others_reach(&places, stretch, pulls)?;
                (places, tension)
            }
        };
        let tension = without_traces(tension, NO_PULL * self.many.weight());
        let judged = self.many.judged(places, tension, 0.0, 1)?;
        self.read(at, judged.at, judged.tension)
            .ok_or(Fault::Neutral)
    }

    fn guess(&self, at: &[f64], near: Option<&Point>) -> Vec<At> {
        let Some(near) = near else {
            return self.start.clone();
        };
        let Some(leads) = near.slopes.as_ref().and_then(|s| s.leads.as_ref()) else {
            return near.places.clone();
        };
        let change = at.iter().zip(&near.at).map(|(to, from)| to - from);
        let step = leads * nalgebra::DVector::from_iterator(leads.ncols(), change);
        self.many.moved(&near.places, &step, 1.0)
    }

    fn elastic(&mut self, at: &[f64], near: Option<&Point>) -> Result<(Vec<At>, Vec<f64>), Fault> {
        self.set(at);
        let hung = match self.many.near_elastic(self.guess(at, near)) {
            Ok(hung) => hung,
            // The short way can miss; the long way, from the attitudes as declared, decides.
            Err(_) => self.many.settle_firm()?,
        };
        Ok((hung.at, hung.tension))
    }

    /// The pose on just these legs; where that is too far from what is known, in parts from the middle.
    fn rigid(
        &mut self,
        at: &[f64],
        near: Option<&Point>,
        legs: &[usize],
    ) -> Result<(Vec<At>, Vec<f64>), Fault> {
        self.set(at);
        let pulls = near.map_or(&[][..], |near| &near.tension);
        let direct = self.many.near_rigid(self.guess(at, near), legs, pulls);
        if !matches!(direct, Err(Fault::NotConverged { .. })) {
            return direct;
        }
        let mut here = (self.start.clone(), vec![]);
        for part in 1..=PARTS {
            let share = f64::from(part) / f64::from(PARTS);
            let both = self.middle.iter().zip(at);
            let place: Vec<f64> = both.map(|(m, at)| m + (at - m) * share).collect();
            self.set(&place);
            here = self.many.near_rigid(here.0, legs, &here.1)?;
        }
        Ok(here)
    }

    /// All legs while they pull; one that would push is let go, and must then reach.
    fn all_that_pull(
        &mut self,
        at: &[f64],
        near: Option<&Point>,
    ) -> Result<(Vec<At>, Vec<f64>), Fault> {
        let mut legs: Vec<usize> = (0..self.counts.legs).collect();
        loop {
            let (places, tension) = self.rigid(at, near, &legs)?;
            let least = legs
                .iter()
                .filter_map(|leg| tension.get(*leg).map(|t| (*leg, *t)))
                .min_by(|a, b| a.1.total_cmp(&b.1));
            match least {
                Some((leg, pull)) if pull < -NO_PULL * self.many.weight() && legs.len() > 1 => {
                    legs.retain(|other| *other != leg);
                }
                _ => {
                    self.all_pull(&legs, &tension)?;
                    self.others_reach(&places, 0.0, |leg| legs.contains(&leg))?;
                    return Ok((places, tension));
                }
            }
        }
    }

    fn all_pull(&self, legs: &[usize], tension: &[f64]) -> Result<(), Fault> {
        let none = -NO_PULL * self.many.weight();
        let pushes = |leg: &&usize| tension.get(**leg).is_none_or(|t| t.is_nan() || *t < none);
        let pushing: Vec<usize> = legs.iter().filter(pushes).copied().collect();
        if pushing.is_empty() {
            Ok(())
        } else {
            Err(Fault::Pushes { legs: pushing })
        }
    }

    fn others_reach(
        &self,
        places: &[At],
        stretch: f64,
        pulls: impl Fn(usize) -> bool,
    ) -> Result<(), Fault> {
        let mut lines = self.many.lines.iter().zip(&self.longest).enumerate();
        let chosen = matches!(self.way, Way::Chosen { .. });
        let reach = lines.all(|(leg, (line, longest))| {
            // A sharing lets a leg be as long as it may be; else it is as long as it is.
            let length = if chosen { *longest } else { line.length };
            pulls(leg)
                || span(line, places)
                    .is_some_and(|s| s.distance <= length * (1.0 + stretch + NO_STRETCH))
        });
        if reach {
            Ok(())
        } else {
            Err(Fault::CannotMeet)
        }
    }
}

/// Legs that run between the same two things, together.
pub(crate) fn tiers(many: &Many) -> Vec<Vec<usize>> {
    let thing = |tie: &Tie| match *tie {
        Tie::Hook(hook, _) => (true, hook),
        Tie::On(body, _) => (false, body),
    };
    let mut tiers: Vec<((_, _), Vec<usize>)> = Vec::new();
    for (leg, line) in many.lines.iter().enumerate() {
        let between = (thing(&line.upper), thing(&line.lower));
        match tiers.iter_mut().find(|(seen, _)| *seen == between) {
            Some((_, legs)) => legs.push(leg),
            None => tiers.push((between, vec![leg])),
        }
    }
    tiers.into_iter().map(|(_, legs)| legs).collect()
}

/// A pull that is rounding alone is none.
fn without_traces(tension: Vec<f64>, none: f64) -> Vec<f64> {
    let all = tension.into_iter();
    all.map(|t| if t > none { t } else { 0.0 }).collect()
}
