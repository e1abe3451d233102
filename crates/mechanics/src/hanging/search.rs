//! The worst of a family inside its bands.
//!
//! Every pose comes with its slopes in all banded inputs, so the corner that is worst to first order is known
//! at once. The search jumps there, reads the slopes again and goes on while it gains. It starts from the
//! middle and from every corner of the centre of gravity with the weight high, and shares every pose it has
//! solved among all the numbers it is after. Then each input is tried at its other end where curvature could
//! hide a gain, and where a slope points into the band the inside is searched along that input.
//!
//! With few banded inputs (up to [`ENUMERATED`]) all corners are solved as well.

use super::family::{Answer, Family};
use super::numbers::Fault;
use super::outcome::{Param, Point, Said};

/// Up to this many banded inputs all corners are enumerated.
pub(crate) const ENUMERATED: usize = 6;
/// Jumps for one number.
const JUMPS: usize = 12;
/// An input whose first-order effect is more than this share of the number's whole spread is settled by its sign.
const CLEAR: f64 = 0.5;
/// Directions in which the tilt is sought.
const LEANS: usize = 12;
/// Halvings towards a place that does not hang in this way.
const HALVINGS: usize = 20;

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

/// All that is asked of a rig.
pub(crate) fn aims(legs: usize) -> Vec<Aim> {
    let mut aims = Vec::new();
    let mut add = |said, largest| aims.push(Aim { said, largest });
    for leg in 0..legs {
        add(Said::Tension(leg), true);
    }
    add(Said::Tilt, true);
    for leg in 0..legs {
        add(Said::Angle(leg), false);
        add(Said::Tension(leg), false);
    }
    add(Said::Rise, true);
    add(Said::Rise, false);
    for axis in 0..2 {
        add(Said::Aside(axis), true);
        add(Said::Aside(axis), false);
    }
    aims
}

/// The extremes of one family.
///
/// # Errors
/// The fault of a place where a family that must stand does not. A family that may be elsewhere gives none;
/// it is then empty.
pub(crate) fn search(family: &Family, aims: &[Aim]) -> Result<Found, NoPlace> {
    let mut hunt = Hunt {
        family,
        aims,
        places: aims.iter().map(|a| a.said.place(family.legs())).collect(),
        found: Found {
            points: Vec::new(),
            best: vec![None; aims.len()],
        },
        tried: Vec::new(),
    };
    hunt.seed()?;
    for aim in 0..aims.len() {
        hunt.jump(aim)?;
    }
    for aim in 0..aims.len() {
        hunt.turn_single_inputs(aim)?;
        hunt.look_inside(aim)?;
    }
    Ok(hunt.found)
}

struct Hunt<'a> {
    family: &'a Family,
    aims: &'a [Aim],
    places: Vec<usize>,
    found: Found,
    tried: Vec<u64>,
}

impl Hunt<'_> {
    fn width(&self) -> usize {
        self.family.params.len()
    }

    fn corner(&self, mask: u64) -> Vec<f64> {
        let ends = self.family.lo.iter().zip(&self.family.hi).enumerate();
        ends.map(|(j, (lo, hi))| if mask >> j & 1 == 1 { *hi } else { *lo })
            .collect()
    }

    fn gain(&self, aim: usize, value: f64) -> f64 {
        match self.aims.get(aim) {
            Some(a) if a.largest => value,
            _ => -value,
        }
    }

    fn value(&self, aim: usize, point: usize) -> f64 {
        let place = self.places.get(aim).copied().unwrap_or(0);
        self.found
            .points
            .get(point)
            .and_then(|p| p.values.get(place))
            .copied()
            .unwrap_or(f64::NAN)
    }

    /// Keeps a pose for every aim that it serves better.
    fn keep(&mut self, point: Point) -> usize {
        let index = self.found.points.len();
        self.found.points.push(point);
        for aim in 0..self.aims.len() {
            let value = self.gain(aim, self.value(aim, index));
            let held = self.found.best.get(aim).copied().flatten();
            let better = match held {
                None => !value.is_nan(),
                Some(other) => value > self.gain(aim, self.value(aim, other)),
            };
            if better && let Some(slot) = self.found.best.get_mut(aim) {
                *slot = Some(index);
            }
        }
        index
    }

    /// Solves a place; where a family that may be elsewhere is elsewhere, the last place towards it is kept.
    fn solve(&mut self, at: &[f64], near: Option<usize>) -> Result<Option<usize>, NoPlace> {
        let from = near.and_then(|i| self.found.points.get(i));
        match self.family.evaluate(at, from) {
            Answer::Stands(point) => Ok(Some(self.keep(*point))),
            Answer::Elsewhere(fault) if self.family.must_stand() => Err((fault, at.to_vec())),
            Answer::Elsewhere(_) => Ok(from
                .cloned()
                .and_then(|from| self.towards(&from, at))
                .map(|last| self.keep(last))),
        }
    }

    fn towards(&self, from: &Point, at: &[f64]) -> Option<Point> {
        let (mut stands, mut falls) = (0.0, 1.0);
        let mut last = None;
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(stands, falls);
            let place: Vec<f64> = from
                .at
                .iter()
                .zip(at)
                .map(|(a, b)| a + (b - a) * middle)
                .collect();
            if let Answer::Stands(point) = self.family.evaluate(&place, Some(from)) {
                stands = middle;
                last = Some(*point);
            } else {
                falls = middle;
            }
        }
        last
    }

    fn solve_corner(&mut self, mask: u64, near: Option<usize>) -> Result<Option<usize>, NoPlace> {
        if self.tried.contains(&mask) {
            return Ok(None);
        }
        self.tried.push(mask);
        let at = self.corner(mask);
        self.solve(&at, near)
    }

    fn seed(&mut self) -> Result<(), NoPlace> {
        let ends = self.family.lo.iter().zip(&self.family.hi);
        let middle: Vec<f64> = ends.map(|(lo, hi)| f64::midpoint(*lo, *hi)).collect();
        let centre = self.solve(&middle, None)?;
        let bits = |wanted: fn(&Param) -> bool| -> Vec<usize> {
            let all = self.family.params.iter().enumerate();
            all.filter(|(_, p)| wanted(p)).map(|(j, _)| j).collect()
        };
        if self.width() <= ENUMERATED {
            for mask in 0..1_u64 << self.width() {
                self.solve_corner(mask, centre)?;
            }
            return Ok(());
        }
        self.lean_seeds(centre)?;
        let cg = bits(|p| matches!(p, Param::Cg(_)));
        let weight = bits(|p| matches!(p, Param::Weight));
        let heavy = weight.iter().fold(0_u64, |m, j| m | 1 << j);
        for pattern in 0..1_u64 << cg.len() {
            let corner = cg
                .iter()
                .enumerate()
                .fold(heavy, |mask, (bit, j)| mask | (pattern >> bit & 1) << j);
            // The other inputs stay in the middle, so that no end of theirs is preferred from the start.
            let mut at = middle.clone();
            for (j, slot) in at.iter_mut().enumerate() {
                if cg.contains(&j) || weight.contains(&j) {
                    *slot = if corner >> j & 1 == 1 {
                        self.family.hi.get(j).copied().unwrap_or(*slot)
                    } else {
                        self.family.lo.get(j).copied().unwrap_or(*slot)
                    };
                }
            }
            self.solve(&at, centre)?;
        }
        Ok(())
    }

    /// The tilt grows from nothing in any direction, so its slope says little: corners that lean furthest in each of many
    /// directions are tried.
    fn lean_seeds(&mut self, centre: Option<usize>) -> Result<(), NoPlace> {
        let Some(point) = centre.and_then(|c| self.found.points.get(c)) else {
            return Ok(());
        };
        let legs = self.family.legs();
        let [x, y] = [0, 1].map(|axis| point.slopes_of(Said::Lean(axis).place(legs)).to_vec());
        for direction in 0..LEANS {
            let angle = direction as f64 * core::f64::consts::TAU / LEANS as f64;
            let (sine, cosine) = angle.sin_cos();
            let towards = x.iter().zip(&y).enumerate();
            let mask = towards.fold(0, |mask, (j, (x, y))| {
                mask | u64::from(cosine * x + sine * y > 0.0) << j
            });
            self.solve_corner(mask, centre)?;
        }
        Ok(())
    }

    /// The corner that is best to first order, seen from a pose.
    fn best_corner(&self, aim: usize, from: usize) -> Option<u64> {
        let point = self.found.points.get(from)?;
        let place = self.places.get(aim).copied()?;
        let ends = self.family.lo.iter().zip(&self.family.hi);
        let mut mask = 0;
        for (j, ((slope, at), (lo, hi))) in point
            .slopes_of(place)
            .iter()
            .zip(&point.at)
            .zip(ends)
            .enumerate()
        {
            let gain = self.gain(aim, *slope);
            let high = if gain == 0.0 {
                *at > f64::midpoint(*lo, *hi)
            } else {
                gain > 0.0
            };
            mask |= u64::from(high) << j;
        }
        Some(mask)
    }

    fn jump(&mut self, aim: usize) -> Result<(), NoPlace> {
        // From the best pose so far, and once from the middle.
        for start in [self.found.best.get(aim).copied().flatten(), Some(0)] {
            let Some(mut from) = start.filter(|s| *s < self.found.points.len()) else {
                continue;
            };
            for _ in 0..JUMPS {
                let Some(mask) = self.best_corner(aim, from) else {
                    break;
                };
                match self.solve_corner(mask, Some(from))? {
                    Some(next)
                        if self.gain(aim, self.value(aim, next))
                            > self.gain(aim, self.value(aim, from)) =>
                    {
                        from = next;
                    }
                    _ => break,
                }
            }
        }
        Ok(())
    }

    /// Tries each input of the best pose at its other end, unless the slope alone settles it.
    fn turn_single_inputs(&mut self, aim: usize) -> Result<(), NoPlace> {
        let Some(place) = self.places.get(aim).copied() else {
            return Ok(());
        };
        for _ in 0..2 {
            let Some(best) = self.found.best.get(aim).copied().flatten() else {
                return Ok(());
            };
            let Some(point) = self.found.points.get(best).cloned() else {
                return Ok(());
            };
            let spread: f64 = self
                .effects(&point, place)
                .iter()
                .map(|e| e.abs())
                .fold(0.0, f64::max);
            for (j, effect) in self.effects(&point, place).into_iter().enumerate() {
                if effect.abs() > CLEAR * spread {
                    continue;
                }
                let (Some(lo), Some(hi)) = (self.family.lo.get(j), self.family.hi.get(j)) else {
                    continue;
                };
                let mut at = point.at.clone();
                if let Some(slot) = at.get_mut(j) {
                    *slot = if *slot > f64::midpoint(*lo, *hi) {
                        *lo
                    } else {
                        *hi
                    };
                }
                self.solve(&at, Some(best))?;
            }
            if self.found.best.get(aim).copied().flatten() == Some(best) {
                break;
            }
            self.jump(aim)?;
        }
        Ok(())
    }

    /// First-order change of a number over each input's whole band.
    fn effects(&self, point: &Point, place: usize) -> Vec<f64> {
        let widths = self.family.lo.iter().zip(&self.family.hi);
        let slopes = point.slopes_of(place).iter();
        slopes
            .zip(widths)
            .map(|(s, (lo, hi))| s * (hi - lo))
            .collect()
    }

    /// Where a slope of the best pose points into its band, looks for the top along that input.
    fn look_inside(&mut self, aim: usize) -> Result<(), NoPlace> {
        let Some(place) = self.places.get(aim).copied() else {
            return Ok(());
        };
        for j in 0..self.width() {
            let (Some(lo), Some(hi)) = (
                self.family.lo.get(j).copied(),
                self.family.hi.get(j).copied(),
            ) else {
                continue;
            };
            for _ in 0..4 {
                let Some(best) = self.found.best.get(aim).copied().flatten() else {
                    return Ok(());
                };
                let Some(point) = self.found.points.get(best).cloned() else {
                    return Ok(());
                };
                let slope = self.gain(aim, point.slopes_of(place).get(j).copied().unwrap_or(0.0));
                let at = point.at.get(j).copied().unwrap_or(lo);
                let room = if slope > 0.0 { hi - at } else { lo - at };
                // Too little to gain, even if the slope held all the way.
                if slope * room <= 1e-4 * point.values.get(place).copied().unwrap_or(0.0).abs() {
                    break;
                }
                let mut next = point.at.clone();
                if let Some(slot) = next.get_mut(j) {
                    *slot = at + 0.5 * room;
                }
                self.solve(&next, Some(best))?;
                if self.found.best.get(aim).copied().flatten() == Some(best) {
                    break;
                }
            }
        }
        Ok(())
    }
}
