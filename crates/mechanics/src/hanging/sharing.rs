//! Which legs carry, where none of them stretches.

use super::elastic::TURN_LIMIT;
use super::numbers::{Fault, OneHook, V3, angle_between};
use super::rigid::{Held, NO_PULL, hang_by};

/// How much longer than its longest unstretched length a leg outside the sharing may have to be.
///
/// Where stretch is not declared, a leg that the sharing leaves out may still have to reach. Textile slings
/// give up to about a tenth of their length at their rated load (from memory; common practice, no source).
/// A larger value admits more sharings, so it is on the safe side.
pub(crate) const LARGEST_STRETCH: f64 = 0.10;
/// Reach of a leg that must not stretch at all: rounding only.
const NO_STRETCH: f64 = 1e-9;

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
    for mut held in hang_by(rig, legs)?.into_iter().flatten() {
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
    if tilt > TURN_LIMIT {
        return Err(Fault::TurnsOver { tilt });
    }
    let below = pulls().find(|(leg, t)| {
        let point = rig.points.get(*leg);
        *t > none && point.is_some_and(|p| (held.hook - p).dot(&v) <= 0.0)
    });
    below.map_or(Ok(tilt), |(leg, _)| Err(Fault::HookBelow { leg }))
}

/// Which legs pull, and how: all of them if they can; else, of all sets that can carry the body while the others reach, the one
/// whose pose is nearest to the attitude as declared.
///
/// # Errors
/// Why no set carries.
pub(crate) fn all_that_pull(rig: &OneHook) -> Result<(Vec<usize>, Held), Fault> {
    let reach = Reach {
        longest: &rig.length,
        stretch: 0.0,
    };
    let all: Vec<usize> = (0..rig.legs()).collect();
    if let Ok(held) = chosen(rig, &all, Some(reach)) {
        return Ok((all, held));
    }
    let mut best: Option<(f64, Vec<usize>, Held)> = None;
    let mut worst: Option<Fault> = None;
    for legs in subsets(rig.legs()) {
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
