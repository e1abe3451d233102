//! Going on along kinks.
//!
//! A top inside the bands stands where one or more legs are just about to pull. Along that edge the number may still rise. The
//! slope is projected onto the edge (all inputs measured in widths of their bands), inputs that press against an end of their band
//! are held, and the place slides until the next end or event; then again.

use super::search::{Hunt, NoPlace};
use nalgebra::{DMatrix, DVector};

/// A leg whose tension, or whose lack of it, is below this share of the largest tension is on the edge.
const EDGE: f64 = 3e-3;
/// Slides for one number.
const SLIDES: usize = 12;
/// A gain smaller than this share of a number is left.
const WORTH: f64 = 2e-4;

/// One way to slide: the direction in widths, its gain per unit, and how far it may go.
struct Way {
    direction: Vec<f64>,
    gain: f64,
    room: f64,
}

impl Hunt<'_> {
    /// Slides from a pose while that gains; the best pose found.
    pub(crate) fn slide(&mut self, aim: usize, start: usize) -> Result<usize, NoPlace> {
        let mut here = start;
        for _ in 0..SLIDES {
            let worth = self.worth(aim, here);
            let least = WORTH * worth.abs();
            let Some(way) = self.way(aim, here) else {
                break;
            };
            if way.gain * way.room <= least {
                break;
            }
            let mut next = None;
            for share in [1.0, 0.3] {
                let Some(at) = self.along(here, &way, share * way.room) else {
                    break;
                };
                next = self.solve(&at, Some(here))?;
                next = next.filter(|next| self.worth(aim, *next) > worth + least);
                if next.is_some() {
                    break;
                }
            }
            match next {
                Some(next) => here = next,
                None => break,
            }
        }
        Ok(here)
    }

    fn along(&self, pose: usize, way: &Way, length: f64) -> Option<Vec<f64>> {
        let point = self.found.points.get(pose)?;
        let moves = point.at.iter().zip(&way.direction).enumerate();
        moves
            .map(|(j, (at, d))| {
                let (lo, hi) = self.ends(j)?;
                Some((at + d * length * (hi - lo)).clamp(lo, hi))
            })
            .collect()
    }

    fn way(&mut self, aim: usize, pose: usize) -> Option<Way> {
        let slopes = self.slopes(aim, pose)?;
        let point = self.found.points.get(pose)?;
        let mut widths = Vec::with_capacity(slopes.len());
        let mut places = Vec::with_capacity(slopes.len());
        for (j, at) in point.at.iter().enumerate() {
            let (lo, hi) = self.ends(j)?;
            widths.push(hi - lo);
            places.push((at - lo) / (hi - lo));
        }
        let at_corner = places.iter().all(|p| *p <= 0.0 || *p >= 1.0);
        if at_corner && self.family.must_stand() {
            return None;
        }
        let borders = self.family.borders(point)?;
        let small = EDGE * point.tension.iter().copied().fold(0.0, f64::max);
        let gain =
            DVector::from_iterator(slopes.len(), slopes.iter().zip(&widths).map(|(s, w)| s * w));
        let (edge, others): (Vec<_>, Vec<_>) = borders
            .into_iter()
            .partition(|border| border.force.abs() <= small);
        let mut free = vec![true; slopes.len()];
        loop {
            let direction = projected(&gain, &edge, &widths, &free)?;
            let mut held = false;
            for ((free, place), d) in free.iter_mut().zip(&places).zip(&direction) {
                if *free && ((*place <= 0.0 && *d < 0.0) || (*place >= 1.0 && *d > 0.0)) {
                    *free = false;
                    held = true;
                }
            }
            if !held {
                return measured(&gain, &direction, &places, &widths, &others);
            }
        }
    }
}

/// Something that changes sides where its amount passes through zero.
pub(crate) struct Border {
    /// How far off it is, in its own unit.
    pub(crate) amount: f64,
    /// The same as a force, N, to tell what is near.
    pub(crate) force: f64,
    /// Slope of the amount in each input.
    pub(crate) slopes: Vec<f64>,
}

/// The slope of the free inputs less its part across the edge.
fn projected(
    gain: &DVector<f64>,
    edge: &[Border],
    widths: &[f64],
    free: &[bool],
) -> Option<Vec<f64>> {
    let only = |j: usize, value: f64| {
        if free.get(j) == Some(&true) {
            value
        } else {
            0.0
        }
    };
    let gain = DVector::from_fn(gain.len(), |j, _| {
        only(j, gain.get(j).copied().unwrap_or(0.0))
    });
    if edge.is_empty() {
        return Some(gain.iter().copied().collect());
    }
    let across = DMatrix::from_fn(edge.len(), gain.len(), |i, j| {
        let slope = edge.get(i).and_then(|leg| leg.slopes.get(j)).copied();
        only(
            j,
            slope.unwrap_or(0.0) * widths.get(j).copied().unwrap_or(0.0),
        )
    });
    let mut square = &across * across.transpose();
    let lift = 1e-9 * square.trace();
    for i in 0..edge.len() {
        *square.get_mut((i, i))? += lift;
    }
    let share = square.cholesky()?.solve(&(&across * &gain));
    let direction = gain - across.transpose() * share;
    Some(direction.iter().copied().collect())
}

/// How much a direction gains and how far it may go: to the end of a band, or until another leg changes sides.
fn measured(
    gain: &DVector<f64>,
    direction: &[f64],
    places: &[f64],
    widths: &[f64],
    others: &[Border],
) -> Option<Way> {
    let rate = gain.iter().zip(direction).map(|(g, d)| g * d).sum::<f64>();
    let ends = places.iter().zip(direction).map(|(place, d)| {
        if *d > 0.0 {
            (1.0 - place) / d
        } else if *d < 0.0 {
            -place / d
        } else {
            f64::INFINITY
        }
    });
    let events = others.iter().map(|leg| {
        let moves = leg.slopes.iter().zip(direction).zip(widths);
        let speed: f64 = moves.map(|((s, d), w)| s * d * w).sum();
        let until = -leg.amount / speed;
        if until > 0.0 { until } else { f64::INFINITY }
    });
    let room = ends.chain(events).fold(f64::INFINITY, f64::min);
    room.is_finite().then(|| Way {
        direction: direction.to_vec(),
        gain: rate,
        room,
    })
}
