//! Any number of bodies and hooks, in plain numbers (N, m, N/m, rad).
//!
//! Potential energy of all bodies over six freedoms each, with its exact first and second derivatives, and Newton's method
//! going down it, as in [`super::elastic`]. A turn is a small rotation vector put before the turn so far, counted in metres at a typical
//! length so that the matrix is well scaled. Legs that do not stretch pull with `max(0, t + K (d - L))`; `t` is renewed from
//! outside until `d` fits (the method of multipliers), so that `K` need not be large.

use super::numbers::{M3, V3, direction};
use nalgebra::{DMatrix, DVector, Rotation3};

/// Stiffness of a leg that does not stretch, while its tension is sought: weights per length.
const FIRM: f64 = 2e3;

/// A body.
#[derive(Clone, Debug)]
pub(crate) struct Solid {
    pub(crate) weight: f64,
    /// Centre of gravity in its frame, m.
    pub(crate) cg: V3,
    /// Turn from its frame to the axes of the hooks, at the start.
    pub(crate) attitude: M3,
    /// All its points and its centre of gravity are one: a ring in which legs gather. It does not turn.
    pub(crate) particle: bool,
}

/// An end of a leg.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Tie {
    /// A hook, by its place in the list, and where it is, m.
    Hook(usize, V3),
    /// A point of a body in its frame, m.
    On(usize, V3),
}

/// A leg.
#[derive(Clone, Debug)]
pub(crate) struct Line {
    pub(crate) upper: Tie,
    pub(crate) lower: Tie,
    pub(crate) length: f64,
    /// None where it does not stretch.
    pub(crate) stiffness: Option<f64>,
}

/// A definite rig.
#[derive(Clone, Debug)]
pub(crate) struct Many {
    pub(crate) solids: Vec<Solid>,
    pub(crate) lines: Vec<Line>,
    /// A length that is typical of the rig, m.
    pub(crate) scale: f64,
    /// Turns about a plumb line that change nothing.
    pub(crate) spins: Vec<Spin>,
}

/// Bodies that hang by one point alone and so may spin about the plumb line through it.
#[derive(Clone, Debug)]
pub(crate) struct Spin {
    /// The point: a hook, or a ring with its own place in the list.
    pub(crate) about: Tie,
    /// The bodies.
    pub(crate) bodies: Vec<usize>,
}

/// Where a body is: the origin of its frame and its turn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct At {
    pub(crate) origin: V3,
    pub(crate) turn: M3,
}

/// How all hang.
#[derive(Clone, Debug)]
pub(crate) struct ManyHung {
    pub(crate) at: Vec<At>,
    pub(crate) tension: Vec<f64>,
    pub(crate) iterations: u32,
}

/// Energy with its derivatives.
pub(crate) struct Slope {
    pub(crate) energy: f64,
    pub(crate) force: DVector<f64>,
    pub(crate) curvature: DMatrix<f64>,
}

/// A leg as it stands: direction from lower to upper end, distance, and arms from the origins of the bodies.
pub(crate) struct Span {
    pub(crate) u: V3,
    pub(crate) distance: f64,
    pub(crate) upper: Option<(usize, V3)>,
    pub(crate) lower: Option<(usize, V3)>,
}

fn end(tie: &Tie, at: &[At]) -> Option<(V3, Option<(usize, V3)>)> {
    match *tie {
        Tie::Hook(_, place) => Some((place, None)),
        Tie::On(body, point) => {
            let here = at.get(body)?;
            let arm = here.turn * point;
            Some((here.origin + arm, Some((body, arm))))
        }
    }
}

/// A leg as it stands; none where its ends coincide.
pub(crate) fn span(line: &Line, at: &[At]) -> Option<Span> {
    let (upper_place, upper) = end(&line.upper, at)?;
    let (lower_place, lower) = end(&line.lower, at)?;
    let (distance, u) = direction(&lower_place, &upper_place)?;
    Some(Span {
        u,
        distance,
        upper,
        lower,
    })
}

impl Many {
    /// Weight of all bodies, N.
    pub(crate) fn weight(&self) -> f64 {
        self.solids.iter().map(|s| s.weight).sum()
    }

    /// Number of freedoms.
    pub(crate) fn size(&self) -> usize {
        6 * self.solids.len()
    }

    /// Stiffness of a leg that does not stretch, while its tension is sought, N/m.
    pub(crate) fn firm(&self) -> f64 {
        FIRM * self.weight() / self.scale
    }

    fn pull(&self, number: usize, line: &Line, distance: f64, known: &[f64]) -> (f64, f64) {
        let stretch = distance - line.length;
        if let Some(k) = line.stiffness {
            return (k, k * stretch);
        }
        let k = self.firm();
        (k, known.get(number).copied().unwrap_or(0.0) + k * stretch)
    }

    /// Energy with derivatives; `known` are the tensions so far of legs that do not stretch.
    pub(crate) fn slope(&self, at: &[At], known: &[f64]) -> Slope {
        let scale = self.scale;
        let mut slope = self.weights(at);
        for (number, line) in self.lines.iter().enumerate() {
            let Some(span) = span(line, at) else { continue };
            let (k, pull) = self.pull(number, line, span.distance, known);
            if pull <= 0.0 {
                continue;
            }
            slope.energy += pull * pull / (2.0 * k);
            add_leg(&mut slope, &span, k, pull, scale);
        }
        self.hold_particles(&mut slope);
        slope
    }

    /// The slope of the energy of the weights alone.
    pub(crate) fn weights(&self, at: &[At]) -> Slope {
        let size = self.size();
        let mut slope = Slope {
            energy: 0.0,
            force: DVector::zeros(size),
            curvature: DMatrix::zeros(size, size),
        };
        for (i, (solid, at)) in self.solids.iter().zip(at).enumerate() {
            let arm = at.turn * solid.cg;
            slope.energy += solid.weight * (at.origin.z + arm.z);
            add_force(&mut slope, (i, arm), &(V3::z() * solid.weight), self.scale);
        }
        slope
    }

    /// Takes the turns of particles out of the question.
    pub(crate) fn hold_particles(&self, slope: &mut Slope) {
        let unit = self.weight() / self.scale;
        for (i, _) in self.solids.iter().enumerate().filter(|(_, s)| s.particle) {
            hold(slope, 6 * i + 3..6 * i + 6, unit);
        }
    }

    /// Places after a share of a step.
    pub(crate) fn moved(&self, at: &[At], step: &DVector<f64>, share: f64) -> Vec<At> {
        let scale = self.scale;
        let part = |i: usize| step.get(i).copied().unwrap_or(0.0) * share;
        at.iter()
            .enumerate()
            .map(|(i, here)| {
                let shift = V3::new(part(6 * i), part(6 * i + 1), part(6 * i + 2));
                let turn = V3::new(part(6 * i + 3), part(6 * i + 4), part(6 * i + 5)) / scale;
                At {
                    origin: here.origin + shift,
                    turn: Rotation3::from_scaled_axis(turn).into_inner() * here.turn,
                }
            })
            .collect()
    }

    /// Tension of each leg, N.
    pub(crate) fn tensions(&self, at: &[At], known: &[f64]) -> Vec<f64> {
        let pulls = self.lines.iter().enumerate().map(|(number, line)| {
            span(line, at).map_or(0.0, |span| {
                self.pull(number, line, span.distance, known).1.max(0.0)
            })
        });
        pulls.collect()
    }

    /// Force and moment about the centre of gravity left over on each body.
    pub(crate) fn left_over(&self, hung: &ManyHung) -> Vec<(f64, f64)> {
        let mut sums: Vec<(V3, V3)> = self
            .solids
            .iter()
            .map(|s| (V3::new(0.0, 0.0, -s.weight), V3::zeros()))
            .collect();
        let cgs: Vec<V3> = self
            .solids
            .iter()
            .zip(&hung.at)
            .map(|(s, at)| at.turn * s.cg)
            .collect();
        for (line, pull) in self.lines.iter().zip(&hung.tension) {
            let Some(span) = span(line, &hung.at) else {
                continue;
            };
            for (end, sign) in [(span.lower, 1.0), (span.upper, -1.0)] {
                if let Some((body, arm)) = end
                    && let (Some((force, moment)), Some(cg)) = (sums.get_mut(body), cgs.get(body))
                {
                    *force += span.u * (*pull * sign);
                    *moment += (arm - cg).cross(&(span.u * (*pull * sign)));
                }
            }
        }
        sums.iter().map(|(f, m)| (f.norm(), m.norm())).collect()
    }

    /// Angle of each leg from the horizontal, rad, lower end up.
    pub(crate) fn angles(&self, at: &[At]) -> Vec<Option<f64>> {
        let sine = |line| span(line, at).map(|s: Span| s.u.z.clamp(-1.0, 1.0).asin());
        self.lines.iter().map(sine).collect()
    }
}

/// Adds a pulling leg: along itself it is a spring, sideways a pendulum, and its arms turn.
pub(crate) fn add_leg(slope: &mut Slope, span: &Span, k: f64, pull: f64, scale: f64) {
    let sideways = pull / span.distance;
    let spring = M3::identity() * sideways + span.u * span.u.transpose() * (k - sideways);
    let ends = [(span.upper, 1.0), (span.lower, -1.0)];
    for (end, sign) in ends {
        let Some((body, arm)) = end else { continue };
        add_force(slope, (body, arm), &(span.u * (pull * sign)), scale);
        for (other, other_sign) in ends {
            let Some((second, second_arm)) = other else {
                continue;
            };
            let both = spring * (sign * other_sign);
            // A turn w moves an end by w x r = -[r] w.
            let first = -arm.cross_matrix() / scale;
            let next = -second_arm.cross_matrix() / scale;
            let (row, column) = (6 * body, 6 * second);
            add_block(&mut slope.curvature, row, column, &both);
            add_block(&mut slope.curvature, row, column + 3, &(both * next));
            add_block(
                &mut slope.curvature,
                row + 3,
                column,
                &(first.transpose() * both),
            );
            add_block(
                &mut slope.curvature,
                row + 3,
                column + 3,
                &(first.transpose() * both * next),
            );
        }
    }
}

/// Adds the work of a force of fixed direction at an arm of a body.
fn add_force(slope: &mut Slope, (body, arm): (usize, V3), force: &V3, scale: f64) {
    add(&mut slope.force, 6 * body, force);
    add(&mut slope.force, 6 * body + 3, &(arm.cross(force) / scale));
    // The arm's second-order part: F . (w x (w x r)) / 2.
    let turn = (force * arm.transpose() + arm * force.transpose()) * 0.5
        - M3::identity() * force.dot(&arm);
    let place = 6 * body + 3;
    add_block(
        &mut slope.curvature,
        place,
        place,
        &(turn / (scale * scale)),
    );
}

/// Takes freedoms out of the question; `unit` stands for their stiffness.
pub(crate) fn hold(slope: &mut Slope, freedoms: core::ops::Range<usize>, unit: f64) {
    let size = slope.force.len();
    for i in freedoms {
        if let Some(slot) = slope.force.get_mut(i) {
            *slot = 0.0;
        }
        for j in 0..size {
            let value = if i == j { unit } else { 0.0 };
            for place in [(i, j), (j, i)] {
                if let Some(slot) = slope.curvature.get_mut(place) {
                    *slot = value;
                }
            }
        }
    }
}

/// Adds a part of three to a long vector.
pub(crate) fn add(vector: &mut DVector<f64>, place: usize, part: &V3) {
    for (k, value) in part.iter().enumerate() {
        if let Some(slot) = vector.get_mut(place + k) {
            *slot += *value;
        }
    }
}

fn add_block(matrix: &mut DMatrix<f64>, row: usize, column: usize, block: &M3) {
    for i in 0..3 {
        for j in 0..3 {
            if let (Some(slot), Some(value)) =
                (matrix.get_mut((row + i, column + j)), block.get((i, j)))
            {
                *slot += *value;
            }
        }
    }
}
