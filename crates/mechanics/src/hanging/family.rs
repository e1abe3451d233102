//! One way in which a rig inside its bands can hang, as a function of the banded inputs.

use super::elastic;
use super::numbers::{Fault, OneHook, V3, direction};
use super::outcome::{
    Level, Param, Point, Said, Slopes, elastic_slopes, read, rigid_slopes, slopes_of,
};
use super::sharing::{Reach, all_that_pull, chosen, spread};
use super::slide::Border;

/// Which legs pull.
#[derive(Clone, Debug)]
pub(crate) enum Way {
    /// All that want to, by their stiffness.
    Elastic,
    /// All that want to, inextensible; as many legs at most as the geometry can tell apart.
    Inextensible,
    /// Just these, inextensible; the others must reach, with this much stretch.
    Chosen {
        /// Indices of the legs.
        legs: Vec<usize>,
        /// Share of its length by which another leg may stretch.
        stretch: f64,
    },
}

/// A rig, its banded inputs and a way to hang.
#[derive(Clone, Debug)]
pub(crate) struct Family {
    rig: OneHook,
    level: Level,
    longest: Vec<f64>,
    way: Way,
    pub(crate) params: Vec<Param>,
    pub(crate) lo: Vec<f64>,
    pub(crate) hi: Vec<f64>,
}

impl Family {
    /// A family over the banded inputs; `longest` is the long end of each leg.
    pub(crate) fn new(
        rig: OneHook,
        level: Level,
        longest: Vec<f64>,
        way: Way,
        bands: &[(Param, f64, f64)],
    ) -> Self {
        let matters = |param: Param| match (&way, param) {
            (Way::Elastic, _) => true,
            (_, Param::Stiffness(_)) => false,
            (Way::Chosen { legs, .. }, Param::Length(i)) => legs.contains(&i),
            _ => true,
        };
        let kept: Vec<_> = bands.iter().filter(|b| matters(b.0)).collect();
        Self {
            params: kept.iter().map(|b| b.0).collect(),
            lo: kept.iter().map(|b| b.1).collect(),
            hi: kept.iter().map(|b| b.2).collect(),
            rig,
            level,
            longest,
            way,
        }
    }

    /// Number of legs of the rig.
    pub(crate) fn legs(&self) -> usize {
        self.rig.legs()
    }

    /// Whether stretch is counted.
    pub(crate) fn stretches(&self) -> bool {
        matches!(self.way, Way::Elastic)
    }

    /// Whether every place in the bands must hang in this way.
    pub(crate) fn must_stand(&self) -> bool {
        !matches!(self.way, Way::Chosen { .. })
    }

    /// The legs of a chosen sharing.
    pub(crate) fn chosen(&self) -> Option<Vec<usize>> {
        match &self.way {
            Way::Chosen { legs, .. } => Some(legs.clone()),
            _ => None,
        }
    }

    /// The legs that carry a pose, where none stretches; none where stiffness says it.
    pub(crate) fn pulling(&self, point: &Point) -> Option<Vec<usize>> {
        match &self.way {
            Way::Elastic => None,
            Way::Inextensible => Some(pulls(point)),
            Way::Chosen { legs, .. } => Some(legs.clone()),
        }
    }

    /// The middle of all bands.
    pub(crate) fn middle(&self) -> Vec<f64> {
        let ends = self.lo.iter().zip(&self.hi);
        ends.map(|(lo, hi)| f64::midpoint(*lo, *hi)).collect()
    }

    /// The middle of all bands, but with the centre of gravity at a corner: bit `axis` of `pattern` set is high.
    pub(crate) fn cg_corner(&self, pattern: u32) -> Vec<f64> {
        let mut at = self.middle();
        let ends = self.lo.iter().zip(&self.hi).zip(&self.params);
        for (slot, ((lo, hi), param)) in at.iter_mut().zip(ends) {
            if let Param::Cg(axis) = param {
                *slot = if pattern >> axis & 1 == 1 { *hi } else { *lo };
            }
        }
        at
    }

    /// Puts the rig at a place in the bands.
    fn set(&mut self, at: &[f64]) {
        for (param, value) in self.params.iter().zip(at) {
            let slot = match *param {
                Param::Weight => Some(&mut self.rig.weight),
                Param::Cg(axis) => self.rig.cg.get_mut(axis),
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
                if let Some(k) = self.rig.stiffness.get(leg).filter(|_| self.must_stand()) {
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

/// The legs with tension.
fn pulls(point: &Point) -> Vec<usize> {
    let all = point.tension.iter().enumerate();
    all.filter(|(_, t)| **t > 0.0).map(|(leg, _)| leg).collect()
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
