//! How one definite rig hangs.

use super::elastic::{RESIDUAL_BOUND, settle_from_declared};
use super::inputs::{determinate, explain, matrix, metres, one_hook};
use super::many::{hang_many, hang_many_by_legs};
use super::numbers::{Fault, Hung, M3, OneHook, V3, angle_between, direction, least_turn};
use super::outcome::cg_height;
use super::pose::{BodyPose, LegPose, Pose, Residual, Stretch};
use super::rig::{Body, Hook, Rig, Rotation};
use super::sharing::{all_that_pull, chosen, spread};
use super::why::NoPose;
use plumbhook_units::{Force, HorizontalAngle, Length, Measured, Moment, VerticalAngle};

/// How a definite rig hangs at rest: the stable pose that it reaches downhill from its attitude as declared.
///
/// Equilibrium of each rigid body under its weight and legs that pull along their length and do not push, in its
/// turned place: `sum T = W`, `sum r x T = 0`, with `T = k (d - L)` where the distance `d` is longer than the length
/// `L`, else 0. Turns are not small. With stiffness `k` on every leg, stretch is counted. If a leg has none,
/// no leg stretches ([`Stretch::LeftOut`]); that answer exists where statics alone can tell the shares.
///
/// Valid for turns up to 60 degrees from the attitude as declared (this project's own bound: beyond it a lift is
/// said to turn over); weightless legs; points that do not yield.
///
/// # Errors
/// [`NoPose`] says what is wrong. A pose whose forces and moments leave over more than 1e-8 of the
/// weight is [`NoPose::NotConverged`].
pub fn hang(rig: &Rig) -> Result<Pose, NoPose> {
    if rig.bodies.len() > 1 || rig.hooks.len() > 1 {
        return hang_many(rig);
    }
    let one = one_hook(rig)?;
    let (hung, stretch) = if one.stiffness.is_empty() {
        if !determinate(&one) {
            return Err(NoPose::Indeterminate);
        }
        let (legs, held) = all_that_pull(&one).map_err(|f| explain(rig, &f))?;
        (
            Hung {
                hook: held.hook,
                tension: spread(one.legs(), &legs, &held),
                iterations: 1,
            },
            Stretch::LeftOut,
        )
    } else {
        let hung = settle_from_declared(&one).map_err(|f| explain(rig, &f))?;
        (hung, Stretch::Counted)
    };
    give(rig, &one, &hung, stretch)
}

/// How a definite rig hangs if just the `pulling` legs (by their place in the list; one, two or three under one hook)
/// carry, without stretch. It runs again what a sharing found.
///
/// # Errors
/// [`NoPose`] as for [`hang`]; legs outside `pulling` are not asked whether they reach.
pub fn hang_by_legs(rig: &Rig, pulling: &[usize]) -> Result<Pose, NoPose> {
    if rig.bodies.len() > 1 || rig.hooks.len() > 1 {
        return hang_many_by_legs(rig, pulling);
    }
    let one = one_hook(rig)?;
    if let Some(leg) = pulling.iter().find(|leg| **leg >= one.legs()) {
        return Err(NoPose::WrongEnds { leg: *leg });
    }
    let held = chosen(&one, pulling, None).map_err(|f| explain(rig, &f))?;
    let hung = Hung {
        hook: held.hook,
        tension: spread(one.legs(), pulling, &held),
        iterations: 1,
    };
    give(rig, &one, &hung, Stretch::LeftOut)
}

/// The pose in public words, after its forces and moments are summed anew in the axes of the hooks.
fn give(rig: &Rig, one: &OneHook, hung: &Hung, stretch: Stretch) -> Result<Pose, NoPose> {
    let (Some(body), Some(hook)) = (rig.bodies.first(), rig.hooks.first()) else {
        return Err(NoPose::Empty { what: "body" });
    };
    let neutral = || explain(rig, &Fault::Neutral);
    let (_, v) = one.plumb(&hung.hook).ok_or_else(neutral)?;
    let turn = matrix(&body.attitude) * least_turn(&v, &one.up).ok_or_else(neutral)?;
    let residual = left_over(one, hung, &turn);
    // Written so that a residual that is no number fails too.
    if !matches!(
        residual.share_of_weight.partial_cmp(&RESIDUAL_BOUND),
        Some(core::cmp::Ordering::Less)
    ) {
        return Err(NoPose::NotConverged {
            left_over: residual.share_of_weight,
            bound: RESIDUAL_BOUND,
        });
    }
    let legs = one.points.iter().zip(&hung.tension).map(|(point, pull)| {
        let sine = direction(point, &hung.hook).map(|(_, u)| u.dot(&v).clamp(-1.0, 1.0));
        LegPose {
            tension: Force::from_si(*pull),
            slack: *pull <= 0.0,
            horizontal_angle: sine
                .filter(|_| *pull > 0.0)
                .map(|s| HorizontalAngle::from_si(s.asin())),
        }
    });
    Ok(Pose {
        bodies: vec![place(one, body, hook, hung, &v, &turn)],
        legs: legs.collect(),
        stretch,
        residual,
        iterations: hung.iterations,
    })
}

fn place(one: &OneHook, _: &Body, hook: &Hook, hung: &Hung, v: &V3, turn: &M3) -> BodyPose {
    let origin = metres(hook.position) - turn * hung.hook;
    let axis = |i: usize| -> [f64; 3] { turn.column(i).into_owned().into() };
    BodyPose {
        rotation: Rotation::from_turn([axis(0), axis(1), axis(2)]),
        position: [origin.x, origin.y, origin.z].map(Length::from_si),
        tilt: VerticalAngle::from_si(angle_between(v, &one.up)),
        rise: Length::from_si(hung.hook.dot(v)),
        cg_height: cg_height(one, v, &hung.tension),
    }
}

/// Forces and moments about the centre of gravity in the axes of the hooks, summed from the tensions alone.
fn left_over(one: &OneHook, hung: &Hung, turn: &M3) -> Residual {
    let mut force = V3::new(0.0, 0.0, -one.weight);
    let mut moment = V3::zeros();
    for (point, pull) in one.points.iter().zip(&hung.tension) {
        if let Some((_, u)) = direction(point, &hung.hook) {
            let pull = turn * u * *pull;
            force += pull;
            moment += (turn * (point - one.cg)).cross(&pull);
        }
    }
    let share = force.norm().max(moment.norm() / one.scale()) / one.weight;
    Residual {
        force: Force::from_si(force.norm()),
        moment: Moment::from_si(moment.norm()),
        share_of_weight: share,
    }
}
