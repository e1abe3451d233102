//! From the families of a rig to its extremes in public words.

use super::family::{Family, Way};
use super::inputs::{Checked, explain};
use super::numbers::Fault;
use super::outcome::{Counts, Param, Said};
use super::rig::{Axis, BandedRig, Input};
use super::search::{Aim, Found, search};
use super::sharing::{LARGEST_STRETCH, subsets};
use super::why::NoPose;
use super::worst::{
    BandEnd, BodyExtremes, Both, Corner, CornerInput, Extreme, Extremes, LegExtremes,
};
use plumbhook_units::{Force, Measured, STANDARD_GRAVITY};

/// Every set of legs that may carry alone.
///
/// Sets of three come first. They are admitted although another leg is a little short ([`LARGEST_STRETCH`]): without a
/// declared stiffness nobody knows how far that one gives. Smaller sets are admitted so only where no larger one stands
/// (all legs in one plane, or from one point); else only where the other legs really hang slack.
pub(crate) fn sharings(checked: &Checked) -> Vec<Family> {
    let mut families: Vec<Family> = Vec::new();
    let sets = subsets(checked.one.legs());
    for size in [3, 2, 1] {
        let stretch = if families.iter_mut().any(stands_somewhere) {
            0.0
        } else {
            LARGEST_STRETCH
        };
        let of_size = sets.iter().filter(|legs| legs.len() == size);
        let next: Vec<Family> = of_size
            .map(|legs| {
                let legs = legs.clone();
                checked.family(Way::Chosen { legs, stretch })
            })
            .collect();
        families.extend(next);
    }
    families
}

fn stands_somewhere(family: &mut Family) -> bool {
    let mut places: Vec<Vec<f64>> = (0..8).map(|pattern| family.cg_corner(pattern)).collect();
    places.push(family.middle());
    places.iter().any(|at| family.stands(at, None).is_ok())
}

/// Searches each family and takes for each aim the best of all.
pub(crate) fn gather(
    rig: &BandedRig,
    mut families: Vec<Family>,
    aims: &[Aim],
) -> Result<Extremes, NoPose> {
    every_corner_hangs(rig, &mut families)?;
    let mut found = Vec::with_capacity(families.len());
    let mut beaten: Vec<Option<f64>> = vec![None; aims.len()];
    for mut family in families {
        match search(&mut family, aims, &beaten) {
            Ok(answer) => {
                for (slot, (aim, best)) in beaten.iter_mut().zip(aims.iter().zip(&answer.best)) {
                    let point = best.and_then(|best| answer.points.get(best));
                    let place = aim.said.place(family.counts());
                    let value = point.and_then(|p| p.values.get(place)).copied();
                    *slot = match (*slot, value) {
                        (Some(a), Some(b)) if aim.largest => Some(a.max(b)),
                        (Some(a), Some(b)) => Some(a.min(b)),
                        (a, b) => a.or(b),
                    };
                }
                found.push((family, answer));
            }
            Err((fault, at)) => return Err(inside(rig, &family, &at, &fault)),
        }
    }
    let Some((first, _)) = found.first() else {
        return Err(NoPose::CannotMeet);
    };
    let counts = first.counts();
    Picked {
        found,
        aims,
        counts,
    }
    .extremes()
    .ok_or(NoPose::CannotMeet)
}

/// Sharings come and go inside the bands; at each corner of the centre of gravity at least one must be there.
fn every_corner_hangs(rig: &BandedRig, families: &mut [Family]) -> Result<(), NoPose> {
    if families.iter().any(Family::must_stand) {
        return Ok(());
    }
    for pattern in 0..8 {
        let mut refused = Vec::new();
        for family in families.iter_mut() {
            let at = family.cg_corner(pattern);
            match family.stands(&at, None) {
                Ok(()) => {
                    refused.clear();
                    break;
                }
                Err(fault) => refused.push(inside(rig, family, &at, &fault)),
            }
        }
        if let Some(first) = refused.into_iter().next() {
            return Err(first);
        }
    }
    Ok(())
}

/// A fault at a place, in public words.
fn inside(rig: &BandedRig, family: &Family, at: &[f64], fault: &Fault) -> NoPose {
    let inputs = corner_inputs(family, at, &[], 1.0);
    let corner = Corner {
        inputs: inputs.clone(),
        pulling: None,
    };
    let why = explain(&rig.at(&corner), fault);
    if inputs.is_empty() {
        why
    } else {
        NoPose::InsideBands {
            at: inputs,
            why: Box::new(why),
        }
    }
}

/// The inputs at a place, the one that moves the number most first.
fn corner_inputs(family: &Family, at: &[f64], slopes: &[f64], value: f64) -> Vec<CornerInput> {
    let ends = family.lo.iter().zip(&family.hi);
    let mut inputs: Vec<CornerInput> = family
        .params
        .iter()
        .zip(at)
        .zip(ends)
        .enumerate()
        .map(|(j, ((param, at), (lo, hi)))| {
            let gravity = STANDARD_GRAVITY.si();
            let (input, scale) = match *param {
                Param::Weight(body) => (Input::Mass { body }, gravity),
                Param::Cg(body, i) => {
                    let axis = Axis::ALL.get(i).copied().unwrap_or(Axis::Z);
                    (Input::Cg { body, axis }, 1.0)
                }
                Param::Length(leg) => (Input::Length { leg }, 1.0),
                Param::Stiffness(leg) => (Input::Stiffness { leg }, 1.0),
            };
            let end = if at <= lo {
                BandEnd::Low
            } else if at >= hi {
                BandEnd::High
            } else {
                BandEnd::Inside
            };
            let change = slopes.get(j).map_or(0.0, |s| (s * (hi - lo)).abs());
            CornerInput {
                input,
                end,
                value: at / scale,
                effect: if value.abs() > 0.0 {
                    change / value.abs()
                } else {
                    0.0
                },
            }
        })
        .collect();
    inputs.sort_by(|a, b| b.effect.total_cmp(&a.effect));
    inputs
}

/// The best of all families.
struct Picked<'a> {
    found: Vec<(Family, Found)>,
    aims: &'a [Aim],
    counts: Counts,
}

impl Picked<'_> {
    /// The family and the pose that are best for an aim.
    fn best(&self, wanted: Aim) -> Option<(usize, usize)> {
        let aim = self.aims.iter().position(|a| *a == wanted)?;
        let place = wanted.said.place(self.counts);
        let mut best: Option<(f64, usize, usize)> = None;
        for (number, (_, found)) in self.found.iter().enumerate() {
            let Some(index) = found.best.get(aim).copied().flatten() else {
                continue;
            };
            let value = found
                .points
                .get(index)
                .and_then(|p| p.values.get(place))
                .copied()?;
            let worth = if wanted.largest { value } else { -value };
            if best.is_none_or(|(least, ..)| worth > least) {
                best = Some((worth, number, index));
            }
        }
        best.map(|(_, number, index)| (number, index))
    }

    fn extreme<T: Measured>(&mut self, said: Said, largest: bool) -> Option<Extreme<T>> {
        let (number, index) = self.best(Aim { said, largest })?;
        let place = said.place(self.counts);
        let (family, found) = self.found.get_mut(number)?;
        let point = found.points.get_mut(index)?;
        if point.slopes.is_none() {
            point.slopes = family.slopes(point);
        }
        let slopes = family.slopes_of(point, said).unwrap_or_default();
        let value = *point.values.get(place)?;
        Some(Extreme {
            value: T::from_si(value),
            corner: Corner {
                inputs: corner_inputs(family, &point.at, &slopes, value),
                pulling: family.pulling(point),
            },
        })
    }

    fn leg(&mut self, leg: usize) -> Option<LegExtremes> {
        Some(LegExtremes {
            max_tension: self.extreme(Said::Tension(leg), true)?,
            min_tension: self.extreme(Said::Tension(leg), false)?,
            min_horizontal_angle: self.extreme(Said::Angle(leg), false),
        })
    }

    /// The least and the largest.
    fn both<T: Measured>(&mut self, said: Said) -> Option<Both<T>> {
        Some((self.extreme(said, false)?, self.extreme(said, true)?))
    }

    fn extremes(&mut self) -> Option<Extremes> {
        let points = self.found.iter().flat_map(|(_, f)| &f.points);
        Some(Extremes {
            cg_height: points.map(|p| p.cg_height).max()?,
            poses: self.found.iter().map(|(_, f)| f.points.len()).sum(),
            legs: (0..self.counts.legs)
                .map(|leg| self.leg(leg))
                .collect::<Option<_>>()?,
            max_tilt: self.extreme(Said::Tilt(0), true)?,
            max_rise: self.extreme(Said::Rise, true)?,
            min_rise: self.extreme(Said::Rise, false)?,
            aside: [self.both(Said::Aside(0))?, self.both(Said::Aside(1))?],
            others: self.others()?,
            hooks: self.hooks()?,
        })
    }

    fn others(&mut self) -> Option<Vec<BodyExtremes>> {
        let bodies = 1..self.counts.bodies;
        let of_body = |body| {
            Some(BodyExtremes {
                max_tilt: self.extreme(Said::Tilt(body), true),
                below: self.both(Said::Below(body))?,
                above: self.both(Said::Above(body))?,
                beside: [
                    self.both(Said::Beside(body, 0))?,
                    self.both(Said::Beside(body, 1))?,
                ],
            })
        };
        bodies.map(of_body).collect()
    }

    fn hooks(&mut self) -> Option<Vec<Both<Force>>> {
        let hooks = if self.counts.several() {
            self.counts.hooks
        } else {
            0
        };
        (0..hooks).map(|hook| self.both(Said::Load(hook))).collect()
    }
}
