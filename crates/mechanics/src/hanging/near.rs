//! Rest of any number of bodies near a pose that is known: Newton's method, no search.

use super::bodies::{At, Many, ManyHung, Slope, add_leg, span};
use super::numbers::Fault;
use nalgebra::{DMatrix, DVector};

/// Steps before a start is given up.
const STEPS: u32 = 14;
/// Residual as a share of the weight, and of the scale for distances, at which a pose is exact.
const EXACT: f64 = 1e-12;
/// Residual below which a pose is good where rounding lets it come no nearer.
const GOOD: f64 = 1e-10;
/// A step longer than this share of the rig's scale has lost its way.
const LOST: f64 = 0.5;
/// Stiffness by which legs that do not stretch hold a pose whose stability is asked, in weights per length.
const HOLD: f64 = 1e4;

impl Many {
    /// The stable pose by stiffness near a guess: by whole steps while they lead there, else downhill from where they led.
    ///
    /// # Errors
    /// [`Fault::NotConverged`] where the guess is not near enough, [`Fault::Unstable`], or as for [`Many::judged`].
    pub(crate) fn near_elastic(&self, guess: Vec<At>) -> Result<ManyHung, Fault> {
        let weight = self.weight();
        let mut at = guess.clone();
        let mut last = f64::INFINITY;
        for count in 0..STEPS {
            let here = self.slope(&at, &[]);
            let left_over = here.force.amax() / weight;
            let settled = left_over <= EXACT || (left_over <= GOOD && left_over >= 0.5 * last);
            last = left_over;
            let Some(factors) = self.lifted(here.curvature, &at).cholesky() else {
                break;
            };
            if settled {
                let tension = self.tensions(&at, &[]);
                return self.judged(at, tension, left_over, count);
            }
            let step = -factors.solve(&here.force);
            if self.is_lost(&step) {
                break;
            }
            at = self.moved(&at, &step, 1.0);
        }
        let (at, left_over, steps) = self.descend(guess, &[], false);
        let tension = self.tensions(&at, &[]);
        let hung = self.judged(at, tension, left_over, STEPS + steps)?;
        match self
            .lifted(self.slope(&hung.at, &[]).curvature, &hung.at)
            .cholesky()
        {
            Some(_) => Ok(hung),
            None => Err(Fault::Unstable),
        }
    }

    /// Whether a step is too long, or no number.
    fn is_lost(&self, step: &DVector<f64>) -> bool {
        let longest = step.amax();
        longest.is_nan() || longest > LOST * self.scale
    }

    /// The slope of weights and given pulls of some legs of fixed length, and the legs' directions as columns.
    pub(crate) fn rigid_slope(
        &self,
        at: &[At],
        legs: &[usize],
        tension: &[f64],
    ) -> Option<(Slope, DMatrix<f64>, DVector<f64>)> {
        let mut slope = self.weights(at);
        let mut columns = DMatrix::zeros(self.size(), legs.len());
        let mut apart = DVector::zeros(legs.len());
        for (column, leg) in legs.iter().enumerate() {
            let line = self.lines.get(*leg)?;
            let span = span(line, at)?;
            add_leg(&mut slope, &span, 0.0, *tension.get(*leg)?, self.scale);
            *apart.get_mut(column)? = span.distance - line.length;
            self.direction_into(&mut columns, column, &span);
        }
        self.hold_particles(&mut slope);
        Some((slope, columns, apart))
    }

    /// How the distance between the ends of a leg moves with the freedoms, into a column.
    pub(crate) fn direction_into(
        &self,
        columns: &mut DMatrix<f64>,
        column: usize,
        span: &super::bodies::Span,
    ) {
        for (end, sign) in [(span.upper, 1.0), (span.lower, -1.0)] {
            let Some((body, arm)) = end else { continue };
            let turns = !self.solids.get(body).is_some_and(|s| s.particle);
            let moment = if turns {
                arm.cross(&span.u) * (sign / self.scale)
            } else {
                super::numbers::V3::zeros()
            };
            let parts = [span.u * sign, moment];
            let rows = parts.iter().flat_map(super::numbers::V3::iter);
            for (k, value) in rows.enumerate() {
                if let Some(slot) = columns.get_mut((6 * body + k, column)) {
                    *slot += *value;
                }
            }
        }
    }

    /// The matrix of a pose on legs of fixed length: forces counted in weights, so that it is well scaled.
    pub(crate) fn rigid_matrix(
        &self,
        curvature: DMatrix<f64>,
        columns: &DMatrix<f64>,
        at: &[At],
    ) -> DMatrix<f64> {
        let (size, legs) = columns.shape();
        let mut matrix = DMatrix::zeros(size + legs, size + legs);
        let scaled = self.lifted(curvature, at) / self.weight();
        matrix.view_mut((0, 0), (size, size)).copy_from(&scaled);
        matrix.view_mut((0, size), (size, legs)).copy_from(columns);
        matrix
            .view_mut((size, 0), (legs, size))
            .copy_from(&columns.transpose());
        matrix
    }

    /// Pulls to start from: those that are known, or those that come nearest to carrying the weights.
    fn first_pulls(&self, at: &[At], legs: &[usize], known: &[f64]) -> Option<Vec<f64>> {
        if !known.is_empty() {
            return legs.iter().map(|leg| known.get(*leg).copied()).collect();
        }
        let none = vec![0.0; self.lines.len()];
        let (slope, columns, _) = self.rigid_slope(at, legs, &none)?;
        let square = columns.transpose() * &columns;
        let right = columns.transpose() * -slope.force;
        let pulls = square.lu().solve(&right)?;
        Some(pulls.iter().copied().collect())
    }

    /// The pose on just some legs, which neither stretch nor go slack, near a guess; a leg may push.
    ///
    /// # Errors
    /// [`Fault::NotConverged`] where the guess is not near enough, [`Fault::Unstable`].
    pub(crate) fn near_rigid(
        &self,
        guess: Vec<At>,
        legs: &[usize],
        pulls: &[f64],
    ) -> Result<(Vec<At>, Vec<f64>), Fault> {
        let weight = self.weight();
        let size = self.size();
        let mut at = guess;
        let mut tension = vec![0.0; self.lines.len()];
        let pulls = self.first_pulls(&at, legs, pulls).unwrap_or_default();
        for (leg, pull) in legs.iter().zip(pulls) {
            if let Some(slot) = tension.get_mut(*leg) {
                *slot = pull;
            }
        }
        let mut last = f64::INFINITY;
        for _ in 0..STEPS {
            let Some((slope, columns, apart)) = self.rigid_slope(&at, legs, &tension) else {
                break;
            };
            let left_over = (slope.force.amax() / weight).max(apart.amax() / self.scale);
            if left_over <= EXACT || (left_over <= GOOD && left_over >= 0.5 * last) {
                let held =
                    slope.curvature + &columns * columns.transpose() * (HOLD * weight / self.scale);
                return match self.lifted(held, &at).cholesky() {
                    Some(_) => Ok((at, tension)),
                    None => Err(Fault::Unstable),
                };
            }
            last = left_over;
            let mut right = DVector::zeros(size + legs.len());
            right.rows_mut(0, size).copy_from(&(-slope.force / weight));
            right.rows_mut(size, legs.len()).copy_from(&-apart);
            let matrix = self.rigid_matrix(slope.curvature, &columns, &at);
            let Some(step) = matrix.lu().solve(&right) else {
                break;
            };
            let shift = step.rows(0, size).into_owned();
            if self.is_lost(&shift) {
                break;
            }
            at = self.moved(&at, &shift, 1.0);
            for (k, leg) in legs.iter().enumerate() {
                if let (Some(slot), Some(more)) = (tension.get_mut(*leg), step.get(size + k)) {
                    *slot += more * weight;
                }
            }
        }
        Err(Fault::NotConverged { left_over: last })
    }
}
