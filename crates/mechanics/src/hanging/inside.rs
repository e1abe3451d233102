//! From the best corner on: other corners that need more than one turn, and places inside the bands.
//!
//! A tension has its top inside a band where another leg goes slack there: a kink. Along one input the tangents from both
//! sides meet at it. Along the kink other inputs may go on gaining, if the inside one moves with them.

use super::search::{Hunt, NoPlace};

/// An input whose first-order effect is more than this share of the number is settled by its sign.
const CLEAR: f64 = 0.15;
/// Rounds over all inputs.
const ROUNDS: usize = 4;
/// Solutions along one input in search of a top.
const TOPS: usize = 6;
/// A gain smaller than this share of a number is left where there are kinks,
const WORTH: f64 = 5e-4;
/// and smaller than this where all is smooth and tops are found in a step or two.
const SMOOTH_WORTH: f64 = 1e-9;

/// Other corners are looked around from if they come this close to the best, as a share of it,
const NEARLY: f64 = 0.4;
/// and this many of them at most; a quarter of it up to four legs.
const TRIED: usize = 16;
/// How far beyond an event the next solution stands, as a share of the way.
const NEAR: f64 = 1e-4;

/// A number along one input: where, how much, how steep.
#[derive(Clone, Copy)]
struct Tangent {
    at: f64,
    worth: f64,
    slope: f64,
}

impl Tangent {
    /// Where the slope passes through nothing if it changes evenly, and how high at most.
    fn levels(&self, other: &Self) -> Option<(f64, f64)> {
        let share = self.slope / (self.slope - other.slope);
        let step = share * (other.at - self.at);
        (share > 1e-6 && share < 1.0 - 1e-6)
            .then_some((self.at + step, self.worth + self.slope * step))
    }

    /// Where two tangents meet between their places, and how high.
    fn meets(&self, other: &Self) -> Option<(f64, f64)> {
        let bend = self.slope - other.slope;
        if bend == 0.0 {
            return None;
        }
        let step = (other.worth - self.worth - other.slope * (other.at - self.at)) / bend;
        let share = step / (other.at - self.at);
        (share > 0.01 && share < 0.99).then_some((self.at + step, self.worth + self.slope * step))
    }
}

impl Hunt<'_> {
    fn least(&self, worth: f64) -> f64 {
        worth.abs() * if self.kinked { WORTH } else { SMOOTH_WORTH }
    }

    /// Turns each input of the best pose to its other end and lets the others answer to first order, unless the slope alone
    /// settles it.
    pub(crate) fn turn_single_inputs(&mut self, aim: usize) -> Result<(), NoPlace> {
        for _ in 0..ROUNDS {
            let Some(best) = self.best(aim) else {
                return Ok(());
            };
            let Some(slopes) = self.slopes(aim, best) else {
                return Ok(());
            };
            let top = self.worth(aim, best);
            let mut answers = Vec::new();
            for (j, slope) in slopes.into_iter().enumerate() {
                let ends = self
                    .ends(j)
                    .filter(|(lo, hi)| slope.abs() * (hi - lo) <= CLEAR * top.abs());
                if ends.is_some() {
                    answers.extend(self.turn(aim, best, j)?);
                }
            }
            let promising = top - NEARLY * top.abs();
            answers.retain(|answer| self.worth(aim, *answer) > promising);
            answers.sort_by(|a, b| self.worth(aim, *b).total_cmp(&self.worth(aim, *a)));
            let tried = if self.family.largest_tier() > 4 {
                TRIED
            } else {
                TRIED / 4
            };
            for answer in answers.into_iter().take(tried) {
                self.improve(aim, answer)?;
            }
            let gained = self.best(aim).map_or(0.0, |b| self.worth(aim, b) - top);
            if gained <= WORTH * top.abs() {
                break;
            }
            self.jump(aim)?;
            self.look_inside(aim)?;
        }
        Ok(())
    }

    /// Turns one input to its other end; the corner that answers it, if it is a new one.
    fn turn(&mut self, aim: usize, best: usize, j: usize) -> Result<Option<usize>, NoPlace> {
        let at = self.found.points.get(best).map(|p| p.at.clone());
        let (Some(mut at), Some((lo, hi))) = (at, self.ends(j)) else {
            return Ok(None);
        };
        let Some(slot) = at.get_mut(j) else {
            return Ok(None);
        };
        let high = *slot <= f64::midpoint(lo, hi);
        *slot = if high { hi } else { lo };
        let Some(turned) = self.solve(&at, Some(best))? else {
            return Ok(None);
        };
        self.march(j, turned, if high { lo } else { hi })?;
        let Some(answer) = self.best_corner(aim, turned) else {
            return Ok(None);
        };
        let kept = answer & !(1 << j) | u64::from(high) << j;
        let known = self.found.points.len();
        let answer = self.solve_corner(kept, Some(turned))?;
        Ok(answer.filter(|answer| *answer >= known))
    }

    /// Goes along one input from a pose to `end`, and stops wherever a leg goes slack or starts to pull on the way: tops stand
    /// there. Between two such places everything is close to linear, so each next one is known from the slopes.
    fn march(&mut self, j: usize, start: usize, end: f64) -> Result<(), NoPlace> {
        let mut from = start;
        for _ in 0..2 * self.family.counts().legs {
            self.ready_slopes(from);
            let Some(point) = self.found.points.get(from) else {
                return Ok(());
            };
            let (Some(here), mut at) = (point.at.get(j).copied(), point.at.clone()) else {
                return Ok(());
            };
            let ahead = end - here;
            if ahead == 0.0 {
                return Ok(());
            }
            let Some(stretches) = self.family.stretches_along(point, j) else {
                return Ok(());
            };
            let events = stretches
                .iter()
                .map(|(stretch, slope)| -stretch / (slope * ahead));
            // A little beyond, so that the next slopes are those of the other side.
            let next = events
                .filter(|share| *share > NEAR && *share < 1.0)
                .fold(1.0, f64::min)
                + NEAR;
            if let Some(slot) = at.get_mut(j) {
                *slot = if next >= 1.0 {
                    end
                } else {
                    here + next * ahead
                };
            }
            let Some(solved) = self.solve(&at, Some(from))? else {
                return Ok(());
            };
            from = solved;
        }
        Ok(())
    }

    /// Where a slope of the best pose points into its band, looks for the top there.
    pub(crate) fn look_inside(&mut self, aim: usize) -> Result<(), NoPlace> {
        match self.best(aim) {
            Some(best) => self.improve(aim, best),
            None => Ok(()),
        }
    }

    /// From a pose on: tops along single inputs, then along kinks, while it gains.
    fn improve(&mut self, aim: usize, start: usize) -> Result<(), NoPlace> {
        let mut here = start;
        for _ in 0..ROUNDS {
            let before = here;
            for j in self.rising(aim, here) {
                here = self.top_along(aim, j, here)?;
            }
            here = self.slide(aim, here)?;
            if here == before {
                break;
            }
        }
        Ok(())
    }

    /// Inputs of a pose whose slope points into their band and promises enough.
    fn rising(&mut self, aim: usize, pose: usize) -> Vec<usize> {
        let slopes = self.slopes(aim, pose).unwrap_or_default();
        let least = self.least(self.worth(aim, pose));
        let Some(point) = self.found.points.get(pose) else {
            return Vec::new();
        };
        let places = slopes.iter().zip(&point.at).enumerate();
        places
            .filter(|(j, (slope, at))| {
                self.ends(*j).is_some_and(|(lo, hi)| {
                    let room = if **slope > 0.0 { hi - **at } else { lo - **at };
                    *slope * room > least
                })
            })
            .map(|(j, _)| j)
            .collect()
    }

    fn tangent(&mut self, aim: usize, j: usize, point: usize) -> Option<Tangent> {
        let slope = *self.slopes(aim, point)?.get(j)?;
        Some(Tangent {
            at: *self.found.points.get(point)?.at.get(j)?,
            worth: self.worth(aim, point),
            slope,
        })
    }

    /// The top along one input, from a pose on in the direction in which it rises; the best pose found there.
    fn top_along(&mut self, aim: usize, j: usize, start: usize) -> Result<usize, NoPlace> {
        let (Some((lo, hi)), Some(mut near)) = (self.ends(j), self.tangent(aim, j, start)) else {
            return Ok(start);
        };
        let far = if near.slope > 0.0 { hi } else { lo };
        let least = self.least(near.worth);
        if near.slope * (far - near.at) <= least {
            return Ok(start);
        }
        let mut top = start;
        let Some(base) = self.found.points.get(start).map(|p| p.at.clone()) else {
            return Ok(top);
        };
        let mut next = far;
        let mut beyond: Option<Tangent> = None;
        for _ in 0..TOPS {
            let mut at = base.clone();
            if let Some(slot) = at.get_mut(j) {
                *slot = next;
            }
            let solved = self.solve(&at, Some(start))?;
            if let Some(solved) = solved.filter(|s| self.worth(aim, *s) > self.worth(aim, top)) {
                top = solved;
            }
            let Some(there) = solved.and_then(|s| self.tangent(aim, j, s)) else {
                return Ok(top);
            };
            if there.slope * (far - near.at) > 0.0 && there.worth >= near.worth {
                near = there;
            } else {
                beyond = Some(there);
            }
            let Some(beyond) = beyond else {
                return Ok(top);
            };
            let meeting = if self.kinked {
                near.meets(&beyond)
            } else {
                near.levels(&beyond)
            };
            next = match meeting {
                Some((_, height)) if height - near.worth.max(beyond.worth) <= least => {
                    return Ok(top);
                }
                Some((meet, _)) => meet,
                // Not one hill between the two: closer to the one that rises.
                None if near.slope * (beyond.at - near.at) > least => {
                    near.at + 0.3 * (beyond.at - near.at)
                }
                None => return Ok(top),
            };
        }
        Ok(top)
    }
}
