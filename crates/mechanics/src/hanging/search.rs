//! The worst of a family inside its bands.
//!
//! Every pose comes with its slopes in all banded inputs, so the corner that is worst to first order is known
//! at once. The search jumps there, reads the slopes again and goes on while it gains. It starts from the
//! middle and from every corner of the centre of gravity with the weight high, and shares every pose it has
//! solved among all the numbers it is after. Then each input is tried at its other end where curvature could
//! hide a gain, and where a slope points into the band the inside is searched along that input.
//!
//! With few banded inputs (up to [`ENUMERATED`]) all corners are solved as well.

use super::family::{Answer, Family, subsets};
use super::numbers::Fault;
use super::outcome::{Param, Point, Said};

/// Up to this many banded inputs all corners are enumerated.
pub(crate) const ENUMERATED: usize = 6;
/// Jumps for one number.
const JUMPS: usize = 12;
/// An input whose first-order effect is more than this share of the number's whole spread is settled by its sign.
const CLEAR: f64 = 0.15;
/// Rounds over all inputs in search of tops inside their bands.
const ROUNDS: usize = 3;
/// Solutions along one input in search of a top.
const TOPS: usize = 6;
/// A gain smaller than this share of a number is left.
const WORTH: f64 = 5e-4;
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
        hunt.look_inside(aim)?;
        hunt.turn_single_inputs(aim)?;
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
        self.few_leg_seeds(centre)?;
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

    /// A leg carries most where it and few others are short and stiff, and the rest long and soft: which others, is
    /// tried. Each such place leads on to the corner that is worst to first order for each of its legs.
    fn few_leg_seeds(&mut self, centre: Option<usize>) -> Result<(), NoPlace> {
        let legs = self.family.legs();
        let lengths = self
            .family
            .params
            .iter()
            .any(|p| matches!(p, Param::Length(_)));
        if !self.family.must_stand() || !lengths {
            return Ok(());
        }
        for few in subsets(legs).into_iter().filter(|few| few.len() > 1) {
            let ends = self.family.lo.iter().zip(&self.family.hi);
            let at: Vec<f64> = ends
                .zip(&self.family.params)
                .map(|((lo, hi), param)| match param {
                    Param::Weight => *hi,
                    Param::Cg(_) => f64::midpoint(*lo, *hi),
                    Param::Length(leg) if few.contains(leg) => *lo,
                    Param::Stiffness(leg) if few.contains(leg) => *hi,
                    Param::Length(_) => *hi,
                    Param::Stiffness(_) => *lo,
                })
                .collect();
            let Some(seed) = self.solve(&at, centre)? else {
                continue;
            };
            for leg in few {
                let aim = Aim {
                    said: Said::Tension(leg),
                    largest: true,
                };
                if let Some(aim) = self.aims.iter().position(|a| *a == aim) {
                    self.climb(aim, seed)?;
                }
            }
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

    /// From the best pose so far, and once from the middle.
    fn jump(&mut self, aim: usize) -> Result<(), NoPlace> {
        let best = self.found.best.get(aim).copied().flatten();
        for start in [best, Some(0)].into_iter().flatten() {
            if start < self.found.points.len() {
                self.climb(aim, start)?;
            }
        }
        Ok(())
    }

    /// Corner after corner, each worst to first order seen from the last, while it gains.
    fn climb(&mut self, aim: usize, start: usize) -> Result<(), NoPlace> {
        let mut from = start;
        for _ in 0..JUMPS {
            let Some(mask) = self.best_corner(aim, from) else {
                break;
            };
            let Some(next) = self.solve_corner(mask, Some(from))? else {
                break;
            };
            if self.gain(aim, self.value(aim, next)) <= self.gain(aim, self.value(aim, from)) {
                break;
            }
            from = next;
        }
        Ok(())
    }

    /// Turns each input of the best pose to its other end and lets the others answer to first order, unless the slope alone
    /// settles it.
    fn turn_single_inputs(&mut self, aim: usize) -> Result<(), NoPlace> {
        let Some(place) = self.places.get(aim).copied() else {
            return Ok(());
        };
        for _ in 0..ROUNDS {
            let Some(best) = self.found.best.get(aim).copied().flatten() else {
                return Ok(());
            };
            let Some(point) = self.found.points.get(best).cloned() else {
                return Ok(());
            };
            let value = point.values.get(place).copied().unwrap_or(0.0);
            let clear = CLEAR * value.abs().max(self.spread(aim));
            for (j, effect) in self.effects(&point, place).into_iter().enumerate() {
                let (Some(lo), Some(hi)) = (self.family.lo.get(j), self.family.hi.get(j)) else {
                    continue;
                };
                if effect.abs() > clear {
                    continue;
                }
                let mut at = point.at.clone();
                let Some(slot) = at.get_mut(j) else { continue };
                let high = *slot <= f64::midpoint(*lo, *hi);
                *slot = if high { *hi } else { *lo };
                let Some(turned) = self.solve(&at, Some(best))? else {
                    continue;
                };
                if let Some(answer) = self.best_corner(aim, turned) {
                    let keep = answer & !(1 << j) | u64::from(high) << j;
                    self.solve_corner(keep, Some(turned))?;
                }
            }
            if self.found.best.get(aim).copied().flatten() == Some(best) {
                break;
            }
            self.jump(aim)?;
            self.look_inside(aim)?;
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

    /// Where a slope of the best pose points into its band, looks for the top along that input. Tops inside are kinks, where
    /// another leg goes slack: the tangents from both sides meet there, so a few solutions find it.
    fn look_inside(&mut self, aim: usize) -> Result<(), NoPlace> {
        for _ in 0..ROUNDS {
            let before = self.found.best.get(aim).copied().flatten();
            for j in 0..self.width() {
                self.top_along(aim, j)?;
            }
            self.slide(aim)?;
            if self.found.best.get(aim).copied().flatten() == before {
                break;
            }
        }
        Ok(())
    }

    /// The place of one input, and value and slope of an aim there, both counted so that more is worse.
    fn along(&self, aim: usize, j: usize, point: usize) -> Option<Tangent> {
        let place = self.places.get(aim).copied()?;
        let at = self.found.points.get(point)?;
        Some(Tangent {
            at: *at.at.get(j)?,
            value: self.gain(aim, *at.values.get(place)?),
            slope: self.gain(aim, *at.slopes_of(place).get(j)?),
        })
    }

    fn top_along(&mut self, aim: usize, j: usize) -> Result<(), NoPlace> {
        let ends = self
            .family
            .lo
            .get(j)
            .copied()
            .zip(self.family.hi.get(j).copied());
        let (Some((lo, hi)), Some(best)) = (ends, self.found.best.get(aim).copied().flatten())
        else {
            return Ok(());
        };
        let Some(mut near) = self.along(aim, j, best) else {
            return Ok(());
        };
        let far = if near.slope > 0.0 { hi } else { lo };
        let worth = WORTH * near.value.abs().max(self.spread(aim));
        if near.slope * (far - near.at) <= worth {
            return Ok(());
        }
        let Some(base) = self.found.points.get(best).map(|p| p.at.clone()) else {
            return Ok(());
        };
        let mut try_at = far;
        let mut beyond: Option<Tangent> = None;
        for _ in 0..TOPS {
            let mut at = base.clone();
            if let Some(slot) = at.get_mut(j) {
                *slot = try_at;
            }
            let solved = self.solve(&at, Some(best))?;
            let Some(there) = solved.and_then(|s| self.along(aim, j, s)) else {
                return Ok(());
            };
            if there.slope * (far - near.at) > 0.0 && there.value >= near.value {
                near = there;
            } else {
                beyond = Some(there);
            }
            let Some(beyond) = beyond else {
                return Ok(());
            };
            try_at = match near.meets(&beyond) {
                Some((_, height)) if height - near.value.max(beyond.value) <= worth => {
                    return Ok(());
                }
                Some((meet, _)) => meet,
                // Not one hill between the two: closer to the one that rises.
                None if near.slope * (beyond.at - near.at) > worth => {
                    near.at + 0.3 * (beyond.at - near.at)
                }
                None => return Ok(()),
            };
        }
        Ok(())
    }

    /// A top inside a band sits on a kink where one leg is about to pull. Other inputs may still gain along that kink, if
    /// the inside one moves with them so that the leg stays where it is. This slides there, all inputs at once.
    fn slide(&mut self, aim: usize) -> Result<(), NoPlace> {
        for j in 0..self.width() {
            let Some(best) = self.found.best.get(aim).copied().flatten() else {
                return Ok(());
            };
            if let Some(at) = self.slid(aim, best, j) {
                self.solve(&at, Some(best))?;
                self.top_along(aim, j)?;
            }
        }
        Ok(())
    }

    /// Where a pose slides to, if input `inside` keeps the kink.
    fn slid(&self, aim: usize, pose: usize, inside: usize) -> Option<Vec<f64>> {
        let point = self.found.points.get(pose)?;
        let place = self.places.get(aim).copied()?;
        let (lo, hi) = (*self.family.lo.get(inside)?, *self.family.hi.get(inside)?);
        let here = *point.at.get(inside)?;
        if here <= lo || here >= hi {
            return None;
        }
        let kink = self.family.kink(point)?;
        let hold = *kink.get(inside)?;
        let slopes = point.slopes_of(place);
        let own = self.gain(aim, *slopes.get(inside)?);
        if hold == 0.0 {
            return None;
        }
        // First-order gain of each input along the kink, the largest first.
        let mut moves: Vec<(f64, usize, f64)> = Vec::new();
        for (j, (slope, across)) in slopes.iter().zip(&kink).enumerate() {
            let (Some(l), Some(h), Some(now)) = (
                self.family.lo.get(j),
                self.family.hi.get(j),
                point.at.get(j),
            ) else {
                continue;
            };
            let rate = self.gain(aim, *slope) - own * across / hold;
            let room = if rate > 0.0 { h - now } else { l - now };
            if j != inside && rate * room > 0.0 {
                moves.push((rate * room, j, room));
            }
        }
        moves.sort_by(|a, b| b.0.total_cmp(&a.0));
        let mut at = point.at.clone();
        let mut middle = here;
        let mut gain = 0.0;
        for (worth, j, room) in moves {
            let follow = -kink.get(j)? / hold * room;
            let share = if middle + follow > hi {
                (hi - middle) / follow
            } else if middle + follow < lo {
                (lo - middle) / follow
            } else {
                1.0
            };
            *at.get_mut(j)? += share * room;
            middle += share * follow;
            gain += share * worth;
        }
        *at.get_mut(inside)? = middle.clamp(lo, hi);
        (gain > WORTH * self.value(aim, pose).abs()).then_some(at)
    }

    /// How far apart the values of an aim lie among the poses solved.
    fn spread(&self, aim: usize) -> f64 {
        let values = (0..self.found.points.len()).map(|p| self.value(aim, p));
        let (least, most) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), v| {
            (l.min(v), m.max(v))
        });
        if most > least { most - least } else { 0.0 }
    }
}

/// A number along one input: where, how much, how steep.
#[derive(Clone, Copy)]
struct Tangent {
    at: f64,
    value: f64,
    slope: f64,
}

impl Tangent {
    /// Where two tangents meet between their places, and how high.
    fn meets(&self, other: &Self) -> Option<(f64, f64)> {
        let bend = self.slope - other.slope;
        if bend == 0.0 {
            return None;
        }
        let step = (other.value - self.value - other.slope * (other.at - self.at)) / bend;
        let share = step / (other.at - self.at);
        (share > 0.01 && share < 0.99).then(|| (self.at + step, self.value + self.slope * step))
    }
}
