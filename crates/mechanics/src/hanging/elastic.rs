//! Legs that stretch: the stable pose reached downhill from the attitude as declared.
//!
//! Newton's method on the potential energy `V(h)` of [`super::numbers`], with its exact second
//! derivative, shifted where it is not positive, and a line search that only goes down. The start is the
//! body held in its attitude and free to move (that energy is convex: one answer, whatever the rig); then
//! it is let go.

use super::numbers::{Fault, Hung, M3, OneHook, V3, across, angle_between, direction};

/// Force left over, as a share of the weight, above which a pose is no pose.
pub(crate) const RESIDUAL_BOUND: f64 = 1e-8;
/// Where the iteration stops early; a hundred thousand times below the bound.
const TARGET: f64 = 1e-13;
const STEPS: u32 = 200;
/// No step is longer than this share of the longest leg, so that the way down is followed, not jumped.
const STRIDE: f64 = 0.1;
/// A soft direction with less than this share of `W / |h - c|` is called neutral.
pub(crate) const NEUTRAL: f64 = 1e-6;
/// A body that turns by more than this from the attitude as declared is said to turn over (60 degrees).
pub(crate) const TURN_LIMIT: f64 = core::f64::consts::FRAC_PI_3;

/// Legs whose stiffness times length is this many weights are easy: they stretch by half a percent under the whole of it.
const EASY: f64 = 200.0;
/// The most that legs are softened.
const SOFTEST: f64 = 1e-9;
/// Stiffening from one step to the next.
const LADDER: f64 = 10.0;

/// Whether the body may turn.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Body {
    Held,
    Free,
}

struct Slope {
    energy: f64,
    force: V3,
    curvature: M3,
}

fn slope(rig: &OneHook, hook: &V3, body: Body) -> Slope {
    let mut energy = 0.0;
    let mut force = V3::zeros();
    let mut curvature = M3::zeros();
    if let (Body::Free, Some((rho, v))) = (body, rig.plumb(hook)) {
        energy -= rig.weight * rho;
        force -= rig.weight * v;
        curvature -= across(&v) * (rig.weight / rho);
    } else {
        energy -= rig.weight * rig.up.dot(&(hook - rig.cg));
        force -= rig.weight * rig.up;
    }
    for ((_, point, length), k) in rig.each_leg().zip(&rig.stiffness) {
        let Some((distance, u)) = direction(point, hook) else {
            continue;
        };
        let stretch = distance - length;
        if stretch <= 0.0 {
            continue;
        }
        energy += 0.5 * k * stretch * stretch;
        force += k * stretch * u;
        let sideways = k * stretch / distance;
        curvature += M3::identity() * sideways + u * u.transpose() * (k - sideways);
    }
    Slope {
        energy,
        force,
        curvature,
    }
}

/// Second derivative of the energy of the free body at a hook position, N/m.
pub(crate) fn curvature(rig: &OneHook, hook: &V3) -> M3 {
    slope(rig, hook, Body::Free).curvature
}

/// Solves `(curvature + shift) step = -force` with the least shift that makes the step go down.
fn downhill(at: &Slope, weight: f64, scale: f64) -> V3 {
    let mut shift = 0.0;
    loop {
        let lifted = at.curvature + M3::identity() * shift;
        if let Some(factors) = lifted.cholesky() {
            return -factors.solve(&at.force);
        }
        shift = if shift == 0.0 {
            1e-3 * weight / scale
        } else {
            shift * 4.0
        };
        if !shift.is_finite() {
            return -at.force * (scale / weight);
        }
    }
}

/// Follows the energy down from `start` until the force left over is small; returns the place, the share of
/// the weight left over, and the steps.
fn descend(rig: &OneHook, start: V3, body: Body) -> (V3, f64, u32) {
    let scale = rig.scale();
    let mut hook = start;
    let mut at = slope(rig, &hook, body);
    for count in 0..STEPS {
        let left_over = at.force.norm() / rig.weight;
        if left_over <= TARGET {
            return (hook, left_over, count);
        }
        let mut step = downhill(&at, rig.weight, scale);
        let longest = STRIDE * scale;
        if step.norm() > longest {
            step *= longest / step.norm();
        }
        let gain = at.force.dot(&step);
        let mut better = None;
        for _ in 0..40 {
            let there = hook + step;
            let next = slope(rig, &there, body);
            // Near the bottom the energy drowns in rounding; there the force decides.
            let lower = next.energy <= at.energy + 1e-4 * gain && gain < 0.0;
            let calmer = left_over < 1e-4 && next.force.norm() < 0.5 * at.force.norm();
            if calmer || (lower && left_over >= 1e-9) {
                better = Some((there, next));
                break;
            }
            step *= 0.5;
            if left_over < 1e-9 {
                break;
            }
        }
        match better {
            Some((there, next)) => {
                hook = there;
                at = next;
            }
            None => return (hook, left_over, count),
        }
    }
    let left_over = at.force.norm() / rig.weight;
    (hook, left_over, STEPS)
}

/// Tension of each leg at a hook position, N.
pub(crate) fn tensions(rig: &OneHook, hook: &V3) -> Vec<f64> {
    rig.each_leg()
        .zip(&rig.stiffness)
        .map(|((_, point, length), k)| k * ((hook - point).norm() - length).max(0.0))
        .collect()
}

/// The pose reached from the attitude as declared.
///
/// Very stiff legs make the energy a narrow valley in which a way down from afar can stall. If it does, the legs are
/// softened and stiffened again in steps, each starting where the last one came to rest; the last step is the rig
/// as it is.
///
/// # Errors
/// As for [`settle`].
pub(crate) fn settle_from_declared(rig: &OneHook) -> Result<Hung, Fault> {
    let direct = settle(rig, held(rig));
    if !matches!(direct, Err(Fault::NotConverged { .. })) {
        return direct;
    }
    let stiffest = rig.stiffness.iter().copied().fold(0.0, f64::max);
    let mut softening = EASY * rig.weight / rig.scale() / stiffest;
    // Stiffer than any steel: no number of steps would do.
    if !(SOFTEST..1.0).contains(&softening) {
        return direct;
    }
    let mut soft = rig.clone();
    let mut hook = None;
    loop {
        for (k, stiff) in soft.stiffness.iter_mut().zip(&rig.stiffness) {
            *k = stiff * softening;
        }
        let start = hook.unwrap_or_else(|| held(&soft));
        if softening >= 1.0 {
            return settle(&soft, start);
        }
        hook = Some(descend(&soft, start, Body::Free).0);
        softening = (softening * LADDER).min(1.0);
    }
}

/// The hook's place over the body held in its attitude, where the hunt for the free pose starts.
fn held(rig: &OneHook) -> V3 {
    let count = rig.legs().max(1) as f64;
    let middle = rig.points.iter().sum::<V3>() / count;
    let guess = middle + rig.up * rig.scale();
    descend(rig, guess, Body::Held).0
}

/// The pose of the free body from a start; judged for convergence, stability, turn and legs that point down.
///
/// # Errors
/// [`Fault::NotConverged`] above [`RESIDUAL_BOUND`], [`Fault::TurnsOver`] beyond [`TURN_LIMIT`],
/// [`Fault::Unstable`] and [`Fault::Neutral`] by the smallest eigenvalue of the curvature,
/// [`Fault::HookBelow`] if a pulling leg does not rise to the hook.
pub(crate) fn settle(rig: &OneHook, start: V3) -> Result<Hung, Fault> {
    let (hook, left_over, iterations) = descend(rig, start, Body::Free);
    let Some((rho, v)) = rig.plumb(&hook) else {
        return Err(Fault::Neutral);
    };
    let tilt = angle_between(&v, &rig.up);
    if tilt > TURN_LIMIT {
        return Err(Fault::TurnsOver { tilt });
    }
    // Written so that a residual that is no number fails too.
    if !matches!(
        left_over.partial_cmp(&RESIDUAL_BOUND),
        Some(core::cmp::Ordering::Less)
    ) {
        return Err(Fault::NotConverged { left_over });
    }
    let bend = curvature(rig, &hook);
    let soft = NEUTRAL * rig.weight / rho;
    if (bend - M3::identity() * soft).cholesky().is_none() {
        let steady = (bend + M3::identity() * soft).cholesky().is_some();
        return Err(if steady {
            Fault::Neutral
        } else {
            Fault::Unstable
        });
    }
    let tension = tensions(rig, &hook);
    let below = rig
        .points
        .iter()
        .zip(&tension)
        .position(|(p, t)| *t > 0.0 && (hook - p).dot(&v) <= 0.0);
    if let Some(leg) = below {
        return Err(Fault::HookBelow { leg });
    }
    Ok(Hung {
        hook,
        tension,
        iterations,
    })
}
