//! The worst of a family inside its bands.
//!
//! A pose can be asked for its slopes in all banded inputs, so the corner that is worst to first order is known at once. The
//! search jumps there, reads the slopes again and goes on while it gains. All poses solved are shared among all
//! the numbers it is after. It starts from the many places of [`super::seeds`]; for tensions, and where a
//! slope points into a band, it goes on as [`super::inside`] tells.

use super::family::Family;
use super::numbers::Fault;
use super::outcome::{Counts, Point, Said};
use std::collections::HashMap;

/// Jumps for one number.
const JUMPS: usize = 12;
/// Halvings towards a place that does not hang in this way.
const HALVINGS: usize = 5;

/// A number is left to another family where this many times its first-order gain does not bring it there.
const ROOM: f64 = 1.5;

/// A number and whether its largest or least value is wanted.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Aim {
    pub(crate) said: Said,
    pub(crate) largest: bool,
}

/// A fault and the place in the bands where it is.
pub(crate) type NoPlace = (Fault, Vec<f64>);

/// All poses solved, and for each aim the index of its best one.
pub(crate) struct Found {
    pub(crate) points: Vec<Point>,
    pub(crate) best: Vec<Option<usize>>,
}

/// All that is asked of a rig. `turns` says of each body whether it can turn at all.
pub(crate) fn aims(of: Counts, turns: &[bool]) -> Vec<Aim> {
    let legs = of.legs;
    let mut aims = Vec::new();
    let mut add = |said, largest| aims.push(Aim { said, largest });
    for leg in 0..legs {
        add(Said::Tension(leg), true);
    }
    let bodies = turns.iter().enumerate().filter(|(_, turns)| **turns);
    for (body, _) in bodies {
        add(Said::Tilt(body), true);
    }
    for leg in 0..legs {
        add(Said::Angle(leg), false);
        add(Said::Tension(leg), false);
    }
    let mut both = |said| {
        add(said, true);
        add(said, false);
    };
    both(Said::Rise);
    (0..2).for_each(|axis| both(Said::Aside(axis)));
    if of.several() {
        for body in 1..of.bodies {
            both(Said::Below(body));
            both(Said::Above(body));
            (0..2).for_each(|axis| both(Said::Beside(body, axis)));
        }
        (0..of.hooks).for_each(|hook| both(Said::Load(hook)));
    }
    aims
}

/// The extremes of one family. `beaten` has, for each aim, the number that another family already reached: what cannot
/// come near it is left.
///
/// # Errors
/// The fault of a place where a family that must stand does not. A family that may be elsewhere gives none; it is then
/// empty.
pub(crate) fn search(
    family: &mut Family,
    aims: &[Aim],
    beaten: &[Option<f64>],
) -> Result<Found, NoPlace> {
    let must_stand = family.must_stand();
    let chosen = family.chosen();
    let concerned = chosen.as_deref();
    let mut hunt = Hunt {
        aims,
        places: aims.iter().map(|a| a.said.place(family.counts())).collect(),
        found: Found {
            points: Vec::new(),
            best: vec![None; aims.len()],
        },
        tried: HashMap::new(),
        kinked: true,
        family,
    };
    hunt.seed()?;
    let asked = |(_, aim): &(usize, &Aim)| concerned.is_none_or(|legs| aim.said.is_of(legs));
    let promising: Vec<usize> = aims
        .iter()
        .enumerate()
        .filter(asked)
        .map(|(aim, _)| aim)
        .filter(|aim| hunt.promises(*aim, beaten.get(*aim).copied().flatten()))
        .collect();
    for aim in &promising {
        hunt.jump(*aim)?;
    }
    hunt.kinked = hunt.found.points.iter().any(|p| p.tension.contains(&0.0));
    for aim in promising {
        let Some(wanted) = aims.get(aim) else {
            continue;
        };
        let judged = wanted.largest && matches!(wanted.said, Said::Tension(_) | Said::Tilt(_));
        match (must_stand, judged) {
            (true, true) => {
                hunt.look_inside(aim)?;
                if hunt.kinked {
                    hunt.turn_single_inputs(aim)?;
                }
            }
            (true, false) => hunt.look_inside(aim)?,
            (false, true) => {
                if let Some(best) = hunt.best(aim) {
                    hunt.slide(aim, best)?;
                }
            }
            (false, false) => {}
        }
    }
    Ok(hunt.found)
}

/// A search under way.
pub(crate) struct Hunt<'a> {
    pub(crate) family: &'a mut Family,
    pub(crate) aims: &'a [Aim],
    places: Vec<usize>,
    pub(crate) found: Found,
    tried: HashMap<u64, Option<usize>>,
    /// Whether a leg goes slack anywhere; if not, all is smooth and close to linear, and the corners have nearly all.
    pub(crate) kinked: bool,
}

impl Hunt<'_> {
    pub(crate) fn width(&self) -> usize {
        self.family.params.len()
    }

    /// Both ends of an input.
    pub(crate) fn ends(&self, j: usize) -> Option<(f64, f64)> {
        Some((*self.family.lo.get(j)?, *self.family.hi.get(j)?))
    }

    /// The corner with the high side where the bit of the input is set.
    pub(crate) fn corner(&self, mask: u64) -> Vec<f64> {
        let ends = self.family.lo.iter().zip(&self.family.hi).enumerate();
        ends.map(|(j, (lo, hi))| if mask >> j & 1 == 1 { *hi } else { *lo })
            .collect()
    }

    /// A number counted so that more is worse.
    fn gain(&self, aim: usize, value: f64) -> f64 {
        match self.aims.get(aim) {
            Some(a) if a.largest => value,
            _ => -value,
        }
    }

    /// The index of the best pose so far.
    pub(crate) fn best(&self, aim: usize) -> Option<usize> {
        self.found.best.get(aim).copied().flatten()
    }

    /// The number of a pose, counted so that more is worse.
    pub(crate) fn worth(&self, aim: usize, point: usize) -> f64 {
        let place = self.places.get(aim).copied().unwrap_or(usize::MAX);
        let value = self
            .found
            .points
            .get(point)
            .and_then(|p| p.values.get(place));
        self.gain(aim, value.copied().unwrap_or(f64::NAN))
    }

    /// Slopes of a number of a pose, counted so that more is worse.
    pub(crate) fn slopes(&mut self, aim: usize, point: usize) -> Option<Vec<f64>> {
        let wanted = *self.aims.get(aim)?;
        let mut slopes = self.raw_slopes(wanted.said, point)?;
        if !wanted.largest {
            for slope in &mut slopes {
                *slope = -*slope;
            }
        }
        Some(slopes)
    }

    /// Slopes of a number of a pose.
    pub(crate) fn raw_slopes(&mut self, said: Said, point: usize) -> Option<Vec<f64>> {
        self.ready_slopes(point);
        let point = self.found.points.get(point)?;
        self.family.slopes_of(point, said)
    }

    pub(crate) fn ready_slopes(&mut self, point: usize) {
        if let Some(point) = self.found.points.get_mut(point)
            && point.slopes.is_none()
        {
            point.slopes = self.family.slopes(point);
        }
    }

    /// Keeps a pose for every aim that it serves better.
    fn keep(&mut self, point: Point) -> usize {
        let index = self.found.points.len();
        self.found.points.push(point);
        for aim in 0..self.aims.len() {
            let worth = self.worth(aim, index);
            let better = match self.best(aim) {
                None => !worth.is_nan(),
                Some(other) => worth > self.worth(aim, other),
            };
            if better && let Some(slot) = self.found.best.get_mut(aim) {
                *slot = Some(index);
            }
        }
        index
    }

    /// Solves a place; where a family that may be elsewhere is elsewhere, the last place towards it is kept.
    pub(crate) fn solve(
        &mut self,
        at: &[f64],
        near: Option<usize>,
    ) -> Result<Option<usize>, NoPlace> {
        if let Some(near) = near {
            self.ready_slopes(near);
        }
        let from = near.and_then(|i| self.found.points.get(i));
        match self.family.evaluate(at, from) {
            Ok(point) => Ok(Some(self.keep(point))),
            Err(fault) if self.family.must_stand() => Err((fault, at.to_vec())),
            Err(_) => Ok(near.and_then(|near| self.towards(near, at))),
        }
    }

    /// The last place on the way from a pose that still hangs in this way.
    fn towards(&mut self, from: usize, at: &[f64]) -> Option<usize> {
        let several = self.family.counts().several();
        let near = self.found.points.get(from).filter(|_| several).cloned();
        let from = self.found.points.get(from)?.at.clone();
        let (mut stands, mut falls) = (0.0, 1.0);
        let place = |share: f64| -> Vec<f64> {
            let both = from.iter().zip(at);
            both.map(|(a, b)| a + (b - a) * share).collect()
        };
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(stands, falls);
            if self.family.stands(&place(middle), near.as_ref()).is_ok() {
                stands = middle;
            } else {
                falls = middle;
            }
        }
        if stands == 0.0 {
            return None;
        }
        let last = self.family.evaluate(&place(stands), near.as_ref()).ok()?;
        Some(self.keep(last))
    }

    /// Solves a corner, once.
    pub(crate) fn solve_corner(
        &mut self,
        mask: u64,
        near: Option<usize>,
    ) -> Result<Option<usize>, NoPlace> {
        if let Some(known) = self.tried.get(&mask) {
            return Ok(*known);
        }
        let at = self.corner(mask);
        let solved = self.solve(&at, near)?;
        self.tried.insert(mask, solved);
        Ok(solved)
    }

    /// The corner that is best to first order, seen from a pose.
    pub(crate) fn best_corner(&mut self, aim: usize, from: usize) -> Option<u64> {
        let slopes = self.slopes(aim, from)?;
        let point = self.found.points.get(from)?;
        let ends = self.family.lo.iter().zip(&self.family.hi);
        let places = slopes.iter().zip(&point.at).zip(ends).enumerate();
        Some(places.fold(0, |mask, (j, ((slope, at), (lo, hi)))| {
            let high = if *slope == 0.0 {
                *at > f64::midpoint(*lo, *hi)
            } else {
                *slope > 0.0
            };
            mask | u64::from(high) << j
        }))
    }

    /// Whether a number can, to first order with some room, pass what another family reached.
    fn promises(&mut self, aim: usize, beaten: Option<f64>) -> bool {
        let Some(beaten) = beaten.filter(|_| self.family.counts().several()) else {
            return true;
        };
        let Some(best) = self.best(aim) else {
            return true;
        };
        let worth = self.worth(aim, best);
        let (Some(slopes), Some(point)) = (self.slopes(aim, best), self.found.points.get(best))
        else {
            return true;
        };
        let ends = self.family.lo.iter().zip(&self.family.hi);
        let gains = slopes.iter().zip(&point.at).zip(ends);
        let gain: f64 = gains
            .map(|((slope, at), (lo, hi))| (slope * (hi - at)).max(slope * (lo - at)))
            .sum();
        let hope = worth + ROOM * gain;
        hope.is_nan() || hope > self.gain(aim, beaten)
    }

    /// From the best pose so far, and once from the middle.
    pub(crate) fn jump(&mut self, aim: usize) -> Result<(), NoPlace> {
        for start in [self.best(aim), Some(0)].into_iter().flatten() {
            if start < self.found.points.len() {
                self.climb(aim, start)?;
            }
        }
        Ok(())
    }

    /// Corner after corner, each worst to first order seen from the last, while it gains.
    pub(crate) fn climb(&mut self, aim: usize, start: usize) -> Result<(), NoPlace> {
        let mut from = start;
        for _ in 0..JUMPS {
            let Some(mask) = self.best_corner(aim, from) else {
                break;
            };
            let known = self.tried.contains_key(&mask);
            let Some(next) = self.solve_corner(mask, Some(from))? else {
                break;
            };
            if known || self.worth(aim, next) <= self.worth(aim, from) {
                break;
            }
            from = next;
        }
        Ok(())
    }
}
