//! How any number of bodies come to rest: the way down the energy of [`super::bodies`], and the judgement of where it ends.

use super::bodies::{At, Many, ManyHung, Slope, Span, Tie, hold, span};
use super::elastic::{NEUTRAL, RESIDUAL_BOUND, TURN_LIMIT};
use super::numbers::{Fault, V3, angle_between};
use nalgebra::{DMatrix, DVector};

const STEPS: u32 = 600;
const TARGET: f64 = 1e-12;
const STRIDE: f64 = 0.1;
const ROUNDS: u32 = 40;
/// Lift of the matrix that keeps free spins from making it singular, in weights per length.
const LIFT: f64 = 1e-8;

impl Many {
    /// Follows the energy down; `held` keeps the turns. Returns places, share of the weight left over, steps.
    pub(crate) fn descend(&self, start: Vec<At>, known: &[f64], held: bool) -> (Vec<At>, f64, u32) {
        let (weight, scale) = (self.weight(), self.scale);
        let mut at = start;
        let mut here = self.slope(&at, known);
        let mut left_over = f64::INFINITY;
        for count in 0..STEPS {
            if held {
                self.hold_turns(&mut here);
            }
            left_over = here.force.amax() / weight;
            if left_over <= TARGET {
                return (at, left_over, count);
            }
            let step = downhill(&here, weight / scale);
            let longest = step.amax() / (STRIDE * scale);
            let mut share = if longest > 1.0 { 1.0 / longest } else { 1.0 };
            let gain = here.force.dot(&step);
            let mut better = None;
            for _ in 0..40 {
                let there = self.moved(&at, &step, share);
                let mut next = self.slope(&there, known);
                if held {
                    self.hold_turns(&mut next);
                }
                let lower = next.energy <= here.energy + 1e-4 * share * gain && gain < 0.0;
                let calmer = left_over < 1e-4 && next.force.norm() < 0.5 * here.force.norm();
                if calmer || (lower && left_over >= 1e-9) {
                    better = Some((there, next));
                    break;
                }
                if left_over < 1e-9 {
                    break;
                }
                share *= 0.5;
            }
            match better {
                Some((there, next)) => (at, here) = (there, next),
                None => return (at, left_over, count),
            }
        }
        (at, left_over, STEPS)
    }

    /// Descends, renewing the tensions of legs that do not stretch until they stand still.
    fn rest(&self, start: Vec<At>, held: bool) -> (Vec<At>, Vec<f64>, f64, u32) {
        let mut known = vec![0.0; self.lines.len()];
        let mut at = start;
        let mut steps = 0;
        let mut left_over = f64::INFINITY;
        for _ in 0..ROUNDS {
            let (place, rest, count) = self.descend(at, &known, held);
            (at, left_over, steps) = (place, rest, steps + count);
            let renewed = self.tensions(&at, &known);
            let moved = known.iter().zip(&renewed).zip(&self.lines);
            let change = moved
                .filter(|(_, line)| line.stiffness.is_none())
                .map(|((a, b), _)| (a - b).abs())
                .fold(0.0, f64::max);
            known = renewed;
            if change <= 1e-11 * self.weight() {
                break;
            }
        }
        (at, known, left_over, steps)
    }

    fn hold_turns(&self, slope: &mut Slope) {
        let unit = self.weight() / self.scale;
        for i in 0..self.solids.len() {
            hold(slope, 6 * i + 3..6 * i + 6, unit);
        }
    }

    /// Each body in its attitude as declared, plumb below what carries it; legs are followed from the hooks down.
    fn plumb_below(&self) -> Vec<At> {
        let mut at: Vec<Option<At>> = vec![None; self.solids.len()];
        for _ in 0..self.solids.len() {
            for line in &self.lines {
                let Tie::On(body, point) = line.lower else {
                    continue;
                };
                let above = match line.upper {
                    Tie::Hook(_, place) => Some(place),
                    Tie::On(upper, of_upper) => at
                        .get(upper)
                        .copied()
                        .flatten()
                        .map(|upper| upper.origin + upper.turn * of_upper),
                };
                if let (Some(above), Some(slot), Some(solid)) =
                    (above, at.get_mut(body), self.solids.get(body))
                    && slot.is_none()
                {
                    let turn = solid.attitude;
                    let origin = above - V3::z() * line.length - turn * point;
                    *slot = Some(At { origin, turn });
                }
            }
        }
        let nowhere = |solid: &super::bodies::Solid| At {
            origin: V3::zeros(),
            turn: solid.attitude,
        };
        let solids = at.into_iter().zip(&self.solids);
        solids
            .map(|(at, solid)| at.unwrap_or_else(|| nowhere(solid)))
            .collect()
    }

    /// The stable pose reached downhill from the attitudes as declared.
    ///
    /// # Errors
    /// As for [`super::elastic::settle`]; [`Fault::Indeterminate`] where legs that do not stretch could hold each other.
    pub(crate) fn settle(&self) -> Result<ManyHung, Fault> {
        let (held, ..) = self.rest(self.plumb_below(), true);
        let (at, tension, left_over, iterations) = self.rest(held, false);
        let hung = self.judged(at, tension, left_over, iterations)?;
        self.stable(&hung.at, &hung.tension)?;
        self.determinate(&hung.at)?;
        Ok(hung)
    }

    /// The stable pose reached downhill from the attitudes as declared, each leg stretching: by its own stiffness, or by a
    /// firm one. It tells where a search starts.
    ///
    /// # Errors
    /// As for [`Many::settle`].
    pub(crate) fn settle_firm(&self) -> Result<ManyHung, Fault> {
        let mut firm = self.clone();
        for line in &mut firm.lines {
            line.stiffness = line.stiffness.or(Some(self.firm()));
        }
        let (held, ..) = firm.rest(firm.plumb_below(), true);
        let (at, tension, left_over, iterations) = firm.rest(held, false);
        let hung = firm.judged(at, tension, left_over, iterations)?;
        firm.stable(&hung.at, &hung.tension)?;
        Ok(hung)
    }

    /// A place at rest, if it is one: small enough residual, no body turned over, no leg that pulls down.
    pub(crate) fn judged(
        &self,
        at: Vec<At>,
        tension: Vec<f64>,
        left_over: f64,
        iterations: u32,
    ) -> Result<ManyHung, Fault> {
        for (here, solid) in at.iter().zip(&self.solids) {
            let up = solid.attitude.transpose() * V3::z();
            let tilt = angle_between(&(here.turn * up), &V3::z());
            if tilt > TURN_LIMIT {
                return Err(Fault::TurnsOver { tilt });
            }
        }
        // Written so that a residual that is no number fails too.
        if !matches!(
            left_over.partial_cmp(&RESIDUAL_BOUND),
            Some(core::cmp::Ordering::Less)
        ) {
            return Err(Fault::NotConverged { left_over });
        }
        let pulling = self.lines.iter().zip(&tension);
        let below = pulling
            .map(|(line, t)| *t > 0.0 && span(line, &at).is_none_or(|span| span.u.z <= 0.0))
            .position(|below| below);
        if let Some(leg) = below {
            return Err(Fault::HookBelow { leg });
        }
        Ok(ManyHung {
            at,
            tension,
            iterations,
        })
    }

    /// By the eigenvalues of the curvature. A free direction is harmless only if it turns nothing but about plumb lines.
    pub(crate) fn stable(&self, at: &[At], known: &[f64]) -> Result<(), Fault> {
        let slope = self.slope(at, known);
        let eigen = slope.curvature.symmetric_eigen();
        let soft = NEUTRAL * self.weight() / self.scale;
        let mut neutral = false;
        for (value, vector) in eigen
            .eigenvalues
            .iter()
            .zip(eigen.eigenvectors.column_iter())
        {
            if *value < -soft {
                return Err(Fault::Unstable);
            }
            let tips = (0..self.solids.len()).any(|i| {
                let part = |k: usize| vector.get(6 * i + k).copied().unwrap_or(0.0);
                part(3).hypot(part(4)) > 1e-3
            });
            neutral |= *value <= soft && tips;
        }
        if neutral { Err(Fault::Neutral) } else { Ok(()) }
    }

    /// Legs that do not stretch must not be able to pull against each other without load.
    fn determinate(&self, at: &[At]) -> Result<(), Fault> {
        let rigid: Vec<Span> = self
            .lines
            .iter()
            .filter(|l| l.stiffness.is_none())
            .filter_map(|l| span(l, at))
            .collect();
        if rigid.is_empty() {
            return Ok(());
        }
        let size = self.size();
        let scale = self.scale;
        let mut pulls = DMatrix::<f64>::zeros(size, rigid.len());
        for (column, span) in rigid.iter().enumerate() {
            for (end, sign) in [(span.lower, 1.0), (span.upper, -1.0)] {
                let Some((body, arm)) = end else { continue };
                let turns = !self.solids.get(body).is_some_and(|s| s.particle);
                let moment = arm.cross(&span.u) * (f64::from(u8::from(turns)) * sign / scale);
                let parts = [span.u * sign, moment];
                for (k, value) in parts.iter().flat_map(V3::iter).enumerate() {
                    if let Some(slot) = pulls.get_mut((6 * body + k, column)) {
                        *slot += *value;
                    }
                }
            }
        }
        let values = pulls.svd(false, false).singular_values;
        let least = values.iter().copied().fold(f64::INFINITY, f64::min);
        if rigid.len() > size || least < 1e-6 {
            return Err(Fault::Indeterminate);
        }
        Ok(())
    }
}

/// Solves for the step with the least lift of the matrix that makes it go down.
fn downhill(at: &Slope, unit: f64) -> DVector<f64> {
    let size = at.force.len();
    let mut lift = LIFT * unit;
    loop {
        let lifted = &at.curvature + DMatrix::identity(size, size) * lift;
        if let Some(factors) = lifted.cholesky() {
            return -factors.solve(&at.force);
        }
        lift = (lift * 4.0).max(1e-3 * unit);
        if !lift.is_finite() {
            return -&at.force / unit;
        }
    }
}
