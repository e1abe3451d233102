//! How one body under one hook hangs, as a function of the banded inputs.

use super::elastic;
use super::family::{Way, pulls};
use super::numbers::{Fault, OneHook, V3, direction};
use super::outcome::{
    Level, Param, Point, Said, Slopes, elastic_slopes, read, rigid_slopes, slopes_of,
};
use super::sharing::{Reach, all_that_pull, chosen, spread};
use super::slide::Border;

/// A rig and a way to hang.
#[derive(Clone, Debug)]
pub(crate) struct One {
    rig: OneHook,
    level: Level,
    longest: Vec<f64>,
    way: Way,
    params: Vec<Param>,
}

impl One {
    /// `longest` is the long end of each leg; `params` are the inputs that have a band.
    pub(crate) fn new(
        rig: OneHook,
        level: Level,
        longest: Vec<f64>,
        way: Way,
        params: Vec<Param>,
    ) -> Self {
        Self {
            rig,
            level,
            longest,
            way,
            params,
        }
    }

    /// Puts the rig at a place in the bands.
    fn set(&mut self, at: &[f64]) {
        for (param, value) in self.params.iter().zip(at) {
            let slot = match *param {
                Param::Weight(_) => Some(&mut self.rig.weight),
                Param::Cg(_, axis) => self.rig.cg.get_mut(axis),
                Param::Length(i) => self.rig.length.get_mut(i),
                Param::Stiffness(i) => self.rig.stiffness.get_mut(i),
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
        let (hook, tension) = self.find(at, near)?;
        read(&self.rig, &self.level, hook, tension, at).ok_or(Fault::Neutral)
    }

    /// Whether it hangs in this way at a place.
    ///
    /// # Errors
    /// Why it does not.
    pub(crate) fn stands(&mut self, at: &[f64]) -> Result<(), Fault> {
        self.find(at, None).map(|_| ())
    }

    fn find(&mut self, at: &[f64], near: Option<&Point>) -> Result<(V3, Vec<f64>), Fault> {
        self.set(at);
        let rig = &self.rig;
        match &self.way {
            Way::Elastic => {
                // The short way can miss; the long way, from the attitude as declared, decides.
                let hung = match near.map(|n| elastic::settle(rig, predict(n, at))) {
                    Some(Ok(hung)) => hung,
                    _ => elastic::settle_from_declared(rig)?,
                };
                Ok((hung.hook, hung.tension))
            }
            Way::Inextensible => {
                let (legs, held) = all_that_pull(rig)?;
                Ok((held.hook, spread(rig.legs(), &legs, &held)))
            }
            Way::Chosen { legs, stretch } => {
                let reach = Reach {
                    longest: &self.longest,
                    stretch: *stretch,
                };
                let held = chosen(rig, legs, Some(reach))?;
                Ok((held.hook, spread(rig.legs(), legs, &held)))
            }
        }
    }

    /// How a pose moves with the inputs.
    pub(crate) fn slopes(&mut self, point: &Point) -> Option<Slopes> {
        self.set(&point.at);
        let rig = &self.rig;
        match &self.way {
            Way::Elastic => {
                let bend = elastic::curvature(rig, &point.hook);
                elastic_slopes(rig, &bend, &point.hook, &self.params)
            }
            Way::Inextensible => rigid_slopes(
                rig,
                &point.hook,
                &pulls(point),
                &point.tension,
                &self.params,
            ),
            Way::Chosen { legs, .. } => {
                rigid_slopes(rig, &point.hook, legs, &point.tension, &self.params)
            }
        }
    }

    /// Slopes of one number of a pose in all inputs.
    pub(crate) fn slopes_of(&mut self, point: &Point, said: Said) -> Option<Vec<f64>> {
        self.set(&point.at);
        let slopes = point.slopes.as_ref()?;
        slopes_of(&self.rig, &self.level, &self.params, point, slopes, said)
    }

    /// Stretch of each leg of an elastic pose (negative when slack) and its slope along one input.
    pub(crate) fn stretches_along(&mut self, point: &Point, j: usize) -> Option<Vec<(f64, f64)>> {
        self.set(&point.at);
        let lead = point.slopes.as_ref()?.hook.get(j)?;
        let param = *self.params.get(j)?;
        self.rig
            .each_leg()
            .map(|(leg, p, length)| {
                let (distance, u) = direction(p, &point.hook)?;
                let own = f64::from(u8::from(param == Param::Length(leg)));
                Some((distance - length, u.dot(lead) - own))
            })
            .collect()
    }

    /// What may change sides on the way from a pose: with stiffness, every leg's stretch; in a chosen sharing, the pull of its
    /// legs and the reach of the others.
    pub(crate) fn borders(&mut self, point: &Point) -> Option<Vec<Border>> {
        self.set(&point.at);
        let slopes = point.slopes.as_ref()?;
        let legs = self.rig.legs();
        let apart = |leg: usize, limit: f64, follows: bool| {
            let (distance, u) = direction(self.rig.points.get(leg)?, &point.hook)?;
            let own = |param: &Param| f64::from(u8::from(follows && *param == Param::Length(leg)));
            let moves = self.params.iter().zip(&slopes.hook);
            let slopes = moves.map(|(p, lead)| u.dot(lead) - own(p)).collect();
            Some((distance - limit, slopes))
        };
        (0..legs)
            .map(|leg| {
                if let Some(k) = self
                    .rig
                    .stiffness
                    .get(leg)
                    .filter(|_| !matches!(self.way, Way::Chosen { .. }))
                {
                    let (amount, slopes) = apart(leg, *self.rig.length.get(leg)?, true)?;
                    return Some(Border {
                        amount,
                        force: amount * k,
                        slopes,
                    });
                }
                match &self.way {
                    Way::Chosen { legs: few, stretch } if !few.contains(&leg) => {
                        let limit = self.longest.get(leg)? * (1.0 + stretch);
                        let (amount, slopes) = apart(leg, limit, false)?;
                        let force = amount * self.rig.weight / self.rig.scale();
                        Some(Border {
                            amount,
                            force,
                            slopes,
                        })
                    }
                    _ => {
                        let pull = *point.tension.get(leg)?;
                        let own = slopes.tension.iter().skip(leg).step_by(legs);
                        Some(Border {
                            amount: pull,
                            force: pull,
                            slopes: own.copied().collect(),
                        })
                    }
                }
            })
            .collect()
    }
}

/// The hook at a new place, to first order from a solved one.
fn predict(near: &Point, at: &[f64]) -> V3 {
    let Some(slopes) = &near.slopes else {
        return near.hook;
    };
    let moves = at.iter().zip(&near.at).zip(&slopes.hook);
    moves.fold(near.hook, |hook, ((to, from), lead)| {
        hook + lead * (to - from)
    })
}
