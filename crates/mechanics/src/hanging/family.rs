//! One way in which a rig inside its bands can hang, as a function of the banded inputs.

use super::elastic;
use super::numbers::{Fault, OneHook, V3, angle_between, direction};
use super::outcome::{Level, Param, Point, elastic_leads, read, rigid_leads};
use super::rigid::{Held, NO_PULL, hang_by};

/// How much longer than its longest unstretched length a leg outside the sharing may have to be.
///
/// Where stretch is not declared, a leg that the sharing leaves out may still have to reach. Textile slings
/// give up to about a tenth of their length at their rated load (from memory; common practice, no source).
/// A larger value admits more sharings, so it is on the safe side.
pub(crate) const LARGEST_STRETCH: f64 = 0.10;
/// Reach of a leg that must not stretch at all: rounding only.
const NO_STRETCH: f64 = 1e-9;

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

/// What a family says at a place in the bands.
pub(crate) enum Answer {
    /// It hangs so.
    Stands(Box<Point>),
    /// This way of hanging is not there; another may be.
    Elsewhere(Fault),
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

    /// Whether every place in the bands must hang in this way.
    pub(crate) fn must_stand(&self) -> bool {
        !matches!(self.way, Way::Chosen { .. })
    }

    /// The legs of a chosen sharing.
    pub(crate) fn pulling(&self) -> Option<Vec<usize>> {
        match &self.way {
            Way::Chosen { legs, .. } => Some(legs.clone()),
            _ => None,
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

    /// Whether it hangs in this way at a place.
    ///
    /// # Errors
    /// Why it does not.
    pub(crate) fn stands(&self, at: &[f64]) -> Result<(), Fault> {
        match self.evaluate(at, None) {
            Answer::Stands(_) => Ok(()),
            Answer::Elsewhere(fault) => Err(fault),
        }
    }

    /// The definite rig at a place in the bands.
    fn at(&self, at: &[f64]) -> OneHook {
        let mut rig = self.rig.clone();
        for (param, value) in self.params.iter().zip(at) {
            let slot = match *param {
                Param::Weight => Some(&mut rig.weight),
                Param::Cg(axis) => rig.cg.get_mut(axis),
                Param::Length(i) => rig.length.get_mut(i),
                Param::Stiffness(i) => rig.stiffness.get_mut(i),
            };
            if let Some(slot) = slot {
                *slot = *value;
            }
        }
        rig
    }

    /// How the stretch of the leg that is nearest to the border of slack moves with each input.
    pub(crate) fn kink(&self, point: &Point) -> Option<Vec<f64>> {
        let rig = self.at(&point.at);
        let (leg, u, _) = rig
            .each_leg()
            .zip(&rig.stiffness)
            .filter_map(|((leg, p, length), k)| {
                let (distance, u) = direction(p, &point.hook)?;
                Some((leg, u, ((distance - length) * k).abs()))
            })
            .min_by(|a, b| a.2.total_cmp(&b.2))?;
        let moves = self.params.iter().zip(&point.lead);
        Some(
            moves
                .map(|(param, lead)| {
                    let own = if *param == Param::Length(leg) {
                        1.0
                    } else {
                        0.0
                    };
                    u.dot(lead) - own
                })
                .collect(),
        )
    }

    /// Hangs the rig at a place in the bands; `near` is a pose to start from.
    pub(crate) fn evaluate(&self, at: &[f64], near: Option<&Point>) -> Answer {
        let rig = self.at(at);
        let found = match &self.way {
            Way::Elastic => self.stretched(&rig, at, near),
            Way::Inextensible => {
                all_that_pull(&rig).and_then(|(legs, held)| self.stiff(&rig, at, &legs, &held))
            }
            Way::Chosen { legs, stretch } => {
                let reach = Reach {
                    longest: &self.longest,
                    stretch: *stretch,
                };
                chosen(&rig, legs, Some(reach)).and_then(|held| self.stiff(&rig, at, legs, &held))
            }
        };
        match found {
            Ok(point) => Answer::Stands(Box::new(point)),
            Err(fault) => Answer::Elsewhere(fault),
        }
    }

    fn stretched(&self, rig: &OneHook, at: &[f64], near: Option<&Point>) -> Result<Point, Fault> {
        // The short way can miss; the long way, from the attitude as declared, decides.
        let hung = match near.map(|n| elastic::settle(rig, predict(n, at))) {
            Some(Ok(hung)) => hung,
            _ => elastic::settle_from_declared(rig)?,
        };
        let bend = elastic::curvature(rig, &hung.hook);
        elastic_leads(rig, &bend, &hung.hook, &self.params)
            .and_then(|leads| {
                read(
                    rig,
                    &self.level,
                    hung.hook,
                    &hung.tension,
                    at,
                    &self.params,
                    &leads,
                )
            })
            .ok_or(Fault::Neutral)
    }

    fn stiff(
        &self,
        rig: &OneHook,
        at: &[f64],
        legs: &[usize],
        held: &Held,
    ) -> Result<Point, Fault> {
        let tension = spread(rig.legs(), legs, held);
        rigid_leads(rig, &held.hook, legs, &tension, &self.params)
            .and_then(|leads| {
                read(
                    rig,
                    &self.level,
                    held.hook,
                    &tension,
                    at,
                    &self.params,
                    &leads,
                )
            })
            .ok_or(Fault::Neutral)
    }
}

fn predict(near: &Point, at: &[f64]) -> V3 {
    let moves = at.iter().zip(&near.at).zip(&near.lead);
    moves.fold(near.hook, |hook, ((to, from), lead)| {
        hook + lead * (to - from)
    })
}

/// Tensions of all legs from those of the chosen ones; the others are slack.
pub(crate) fn spread(count: usize, legs: &[usize], held: &Held) -> Vec<f64> {
    let mut tension = vec![0.0; count];
    for (leg, pull) in legs.iter().zip(held.tension) {
        if let Some(slot) = tension.get_mut(*leg) {
            *slot = pull;
        }
    }
    tension
}

/// How far the legs that a set leaves out reach.
#[derive(Clone, Copy)]
pub(crate) struct Reach<'a> {
    /// Longest unstretched length of each leg, m.
    pub(crate) longest: &'a [f64],
    /// Share of it by which a leg may stretch.
    pub(crate) stretch: f64,
}

impl Reach<'_> {
    fn holds(&self, rig: &OneHook, legs: &[usize], hook: &V3) -> bool {
        let mut others = rig.points.iter().zip(self.longest).enumerate();
        others.all(|(i, (point, longest))| {
            legs.contains(&i)
                || (hook - point).norm() <= longest * (1.0 + self.stretch + NO_STRETCH)
        })
    }
}

/// The pose on the chosen legs that is nearest to the attitude as declared, if all of them pull and the others
/// reach.
///
/// # Errors
/// Pushing legs, a body that turns over, a hook below a pulling leg's point, or a geometry without a place.
pub(crate) fn chosen(
    rig: &OneHook,
    legs: &[usize],
    reach: Option<Reach<'_>>,
) -> Result<Held, Fault> {
    let mut best: Option<(f64, Held)> = None;
    let mut worst = None;
    for mut held in hang_by(rig, legs)? {
        if reach.is_some_and(|r| !r.holds(rig, legs, &held.hook)) {
            continue;
        }
        match judge(rig, legs, &held) {
            Ok(tilt) if best.as_ref().is_none_or(|(least, _)| tilt < *least) => {
                for t in &mut held.tension {
                    *t = if *t > NO_PULL * rig.weight { *t } else { 0.0 };
                }
                best = Some((tilt, held));
            }
            Ok(_) => {}
            Err(fault) => worst = Some(worse(worst, fault)),
        }
    }
    best.map(|(_, held)| held)
        .ok_or(worst.unwrap_or(Fault::CannotMeet))
}

/// The tilt of a pose on the chosen legs, or what is wrong with it.
fn judge(rig: &OneHook, legs: &[usize], held: &Held) -> Result<f64, Fault> {
    let Some((_, v)) = rig.plumb(&held.hook) else {
        return Err(Fault::Neutral);
    };
    let none = NO_PULL * rig.weight;
    let pulls = || legs.iter().copied().zip(held.tension);
    let pushing: Vec<usize> = pulls()
        .filter(|(_, t)| t.is_nan() || *t < -none)
        .map(|(leg, _)| leg)
        .collect();
    let tilt = angle_between(&v, &rig.up);
    if !pushing.is_empty() {
        return Err(Fault::Pushes { legs: pushing });
    }
    if tilt > elastic::TURN_LIMIT {
        return Err(Fault::TurnsOver { tilt });
    }
    let below = pulls().find(|(leg, t)| {
        let point = rig.points.get(*leg);
        *t > none && point.is_some_and(|p| (held.hook - p).dot(&v) <= 0.0)
    });
    below.map_or(Ok(tilt), |(leg, _)| Err(Fault::HookBelow { leg }))
}

/// Of all sets of legs that can carry the body while the others reach, the pose nearest to the attitude as
/// declared: which legs pull, and how.
///
/// # Errors
/// Why no set carries.
pub(crate) fn all_that_pull(rig: &OneHook) -> Result<(Vec<usize>, Held), Fault> {
    let mut best: Option<(f64, Vec<usize>, Held)> = None;
    let mut worst: Option<Fault> = None;
    for legs in subsets(rig.legs()) {
        let reach = Reach {
            longest: &rig.length,
            stretch: 0.0,
        };
        match chosen(rig, &legs, Some(reach)) {
            Ok(held) => {
                let tilt = rig
                    .plumb(&held.hook)
                    .map_or(f64::INFINITY, |(_, v)| angle_between(&v, &rig.up));
                if best
                    .as_ref()
                    .is_none_or(|(least, ..)| tilt < *least - 1e-12)
                {
                    best = Some((tilt, legs, held));
                }
            }
            Err(fault) => worst = Some(worse(worst, fault)),
        }
    }
    best.map(|(_, legs, held)| (legs, held))
        .ok_or(worst.unwrap_or(Fault::CannotMeet))
}

/// Of two reasons, the one that tells the engineer more.
fn worse(a: Option<Fault>, b: Fault) -> Fault {
    let weight = |f: &Fault| match f {
        Fault::Unstable => 7,
        Fault::TurnsOver { .. } => 6,
        Fault::Neutral => 5,
        Fault::Pushes { .. } => 4,
        Fault::HookBelow { .. } => 3,
        Fault::NotConverged { .. } => 2,
        Fault::CannotMeet => 1,
        Fault::Indeterminate => 0,
    };
    match a {
        Some(a) if weight(&a) >= weight(&b) => a,
        _ => b,
    }
}

/// All sets of one, two or three of `count` legs; the largest sets first.
pub(crate) fn subsets(count: usize) -> Vec<Vec<usize>> {
    let mut sets = Vec::new();
    for a in 0..count {
        for b in a + 1..count {
            for c in b + 1..count {
                sets.push(vec![a, b, c]);
            }
        }
    }
    for a in 0..count {
        for b in a + 1..count {
            sets.push(vec![a, b]);
        }
    }
    sets.extend((0..count).map(|a| vec![a]));
    sets
}
