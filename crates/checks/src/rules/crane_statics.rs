//! What a mobile crane leaves on its pads by statics, over all that it does in a move: shared by the rules for what it
//! stands on.

use super::chart_radius::Seen;
use plumbhook_mechanics::Interval;
use plumbhook_mechanics::standing::{NoShare, Weighs, worst_reactions};
use plumbhook_units::{Force, Heading, Length, Mass, Measured};

/// The way between two stations is followed in steps of so many metres.
const STEP: f64 = 0.25;
/// At most so many of them on one way.
const MOST_STEPS: usize = 200;
/// What hangs is taken from nothing to all of it in so many slices, as it is picked up and set down.
const SLICES: usize = 8;
/// Without a load the crane turns all round, in so many sectors.
const SECTORS: usize = 120;

/// A crane on its pads, in the axes of its carrier from the centre of slewing.
pub(super) struct Machine {
    /// The pads.
    pub(super) pads: Vec<[Length; 2]>,
    /// What stays with the carrier.
    pub(super) fixed: Vec<Weighs>,
    /// What slews, x along the boom.
    pub(super) slewing: Vec<Weighs>,
    /// All that hangs below the boom, with its dynamic factor, in kilograms.
    pub(super) hangs: f64,
    /// What of that hangs there without a load.
    pub(super) block: f64,
}

/// The worst of all states.
pub(super) struct Worst {
    /// The reaction.
    pub(super) force: Force,
    /// The place of the pad in the list.
    pub(super) pad: usize,
    /// The state.
    pub(super) state: String,
}

/// The state in which it may tip, and how far.
pub(super) type Tips = (String, NoShare);

impl Machine {
    /// The largest reaction while the hook goes through places that lie in these boxes: with all that hangs from
    /// nothing to the whole, and turned all round without a load. A bound: everything is at its worse side.
    pub(super) fn worst(&self, stations: &[Seen]) -> Result<Option<Worst>, Tips> {
        let mut worst: Option<Worst> = None;
        for (state, hook) in on_the_way(stations) {
            for slice in 0..SLICES {
                let share = |number: usize| self.hangs * number as f64 / SLICES as f64;
                let load = mass(share(slice), share(slice + 1));
                self.try_state(&state, hook, load, &mut worst)?;
            }
        }
        let reach = |of: fn(f64, f64) -> f64, end: fn(Seen) -> f64| {
            stations.iter().map(|hook| end(*hook)).reduce(of)
        };
        let farthest = reach(f64::max, |[x, y]| far(x).hypot(far(y)));
        for sector in 0..SECTORS {
            let turn = std::f64::consts::TAU / SECTORS as f64;
            let (middle, half) = (turn * sector as f64, turn / 2.0);
            let along = (0.0, farthest.unwrap_or_default());
            let hook = arc([along, (0.0, 0.0)], middle, half);
            let all = self.all(hook, mass(0.0, self.block), (middle, half));
            self.reduce("turned without a load", &all, &mut worst)?;
        }
        Ok(worst)
    }

    /// The largest reaction with the middle of every band, at the stations alone.
    pub(super) fn in_the_middle(&self, stations: &[Seen]) -> Result<Option<Worst>, Tips> {
        let middle = |(low, high): (f64, f64)| (f64::midpoint(low, high), f64::midpoint(low, high));
        let exact = |all: &[Weighs]| -> Vec<Weighs> {
            let length = |at: Interval<Length>| {
                Interval::exact(Length::from_si(f64::midpoint(at.lo.si(), at.hi.si())))
            };
            let each = all.iter().map(|one| Weighs {
                mass: Interval::exact(Mass::from_si(f64::midpoint(
                    one.mass.lo.si(),
                    one.mass.hi.si(),
                ))),
                at: one.at.map(length),
            });
            each.collect()
        };
        let known = Self {
            pads: self.pads.clone(),
            fixed: exact(&self.fixed),
            slewing: exact(&self.slewing),
            ..*self
        };
        let mut worst = None;
        for (number, [x, y]) in stations.iter().copied().enumerate() {
            let state = format!("at station {}", number + 1);
            let load = mass(self.hangs, self.hangs);
            known.try_state(&state, [middle(x), middle(y)], load, &mut worst)?;
        }
        Ok(worst)
    }

    fn try_state(
        &self,
        state: &str,
        hook: Seen,
        load: Interval<Mass>,
        worst: &mut Option<Worst>,
    ) -> Result<(), Tips> {
        let all = self.all(hook, load, direction(hook));
        self.reduce(state, &all, worst)
    }

    fn reduce(&self, state: &str, all: &[Weighs], worst: &mut Option<Worst>) -> Result<(), Tips> {
        let each = worst_reactions(&self.pads, all).map_err(|why| (state.to_owned(), why))?;
        for (pad, force) in each.into_iter().enumerate() {
            if worst.as_ref().is_none_or(|worst| force > worst.force) {
                *worst = Some(Worst {
                    force,
                    pad,
                    state: state.to_owned(),
                });
            }
        }
        Ok(())
    }

    /// Every mass while the boom points that way, give or take.
    fn all(&self, hook: Seen, load: Interval<Mass>, (middle, half): (f64, f64)) -> Vec<Weighs> {
        let slewing = self.slewing.iter().map(|part| Weighs {
            mass: part.mass,
            at: bands(arc(
                part.at.map(|at| (at.lo.si(), at.hi.si())),
                middle,
                half,
            )),
        });
        let load = Weighs {
            mass: load,
            at: bands(hook),
        };
        let fixed = self.fixed.iter().cloned();
        fixed.chain(slewing).chain([load]).collect()
    }
}

fn mass(lo: f64, hi: f64) -> Interval<Mass> {
    Interval {
        lo: Mass::from_si(lo),
        hi: Mass::from_si(hi),
    }
}

fn bands(at: Seen) -> [Interval<Length>; 2] {
    at.map(|(low, high)| Interval {
        lo: Length::from_si(low),
        hi: Length::from_si(high),
    })
}

fn far((low, high): (f64, f64)) -> f64 {
    low.abs().max(high.abs())
}

/// The box around a box that is turned by an angle, give or take half of a sector. A place so far from the centre moves
/// no further than the chord of that half.
fn arc([x, y]: Seen, middle: f64, half: f64) -> Seen {
    let (sin, cos) = middle.sin_cos();
    let chord = far(x).hypot(far(y)) * 2.0 * (half.min(std::f64::consts::PI) / 2.0).sin();
    let sum = |a: (f64, f64), by_a: f64, b: (f64, f64), by_b: f64| {
        let (a, b) = ((a.0 * by_a, a.1 * by_a), (b.0 * by_b, b.1 * by_b));
        (
            a.0.min(a.1) + b.0.min(b.1) - chord,
            a.0.max(a.1) + b.0.max(b.1) + chord,
        )
    };
    [sum(x, cos, y, -sin), sum(x, sin, y, cos)]
}

/// The box turned by a heading, whole.
pub(super) fn turned(at: Seen, heading: Heading) -> Seen {
    arc(at, heading.si(), 0.0)
}

/// The way from the centre of slewing to a box: its middle, and half of what it spans; any way where the box lies over
/// the centre.
fn direction([x, y]: Seen) -> (f64, f64) {
    let middle = f64::midpoint(y.0, y.1).atan2(f64::midpoint(x.0, x.1));
    let over = x.0 <= 0.0 && x.1 >= 0.0 && y.0 <= 0.0 && y.1 >= 0.0;
    if over {
        return (middle, std::f64::consts::PI);
    }
    let corners = [(x.0, y.0), (x.1, y.0), (x.1, y.1), (x.0, y.1)];
    let off = corners.map(|(x, y)| {
        let (sin, cos) = (y.atan2(x) - middle).sin_cos();
        sin.atan2(cos).abs()
    });
    (middle, off.into_iter().fold(0.0, f64::max))
}

/// Boxes that hold the hook at every station and on the straight way between two.
fn on_the_way(stations: &[Seen]) -> Vec<(String, Seen)> {
    let mut all = Vec::new();
    for (number, here) in stations.iter().enumerate() {
        all.push((format!("at station {}", number + 1), *here));
        let Some(next) = stations.get(number + 1).filter(|next| *next != here) else {
            continue;
        };
        let long = [0, 1].map(|axis: usize| {
            let end = |of: &Seen| of.get(axis).copied().unwrap_or_default();
            far((end(next).0 - end(here).0, end(next).1 - end(here).1))
        });
        let long = long[0].hypot(long[1]);
        let steps = (1..MOST_STEPS)
            .find(|steps| *steps as f64 * STEP >= long)
            .unwrap_or(MOST_STEPS);
        let at = |share: f64, axis: usize| {
            let end = |of: &Seen| of.get(axis).copied().unwrap_or_default();
            let (a, b) = (end(here), end(next));
            (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share)
        };
        for step in 0..steps {
            let share = |step: usize| step as f64 / steps as f64;
            let hull = [0, 1].map(|axis| {
                let (from, to) = (at(share(step), axis), at(share(step + 1), axis));
                (from.0.min(to.0), from.1.max(to.1))
            });
            let state = format!(
                "on the way from station {} to station {}",
                number + 1,
                number + 2
            );
            all.push((state, hull));
        }
    }
    all
}
