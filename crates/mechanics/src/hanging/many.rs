//! Rigs of several bodies or hooks: public words around [`super::bodies`].

use super::bodies::{At, Line, Many, ManyHung, Solid, Tie};
use super::elastic::RESIDUAL_BOUND;
use super::inputs::{check, explain, matrix, metres};
use super::numbers::{V3, angle_between};
use super::pose::{BodyPose, CgHeight, LegPose, Pose, Residual, Stretch};
use super::rig::{Body, End, Hook, Rig, Rotation};
use super::why::NoPose;
use plumbhook_units::{Force, HorizontalAngle, Length, Measured, Moment, VerticalAngle, weight};

/// A leg longer than this many arms of the largest body does not say how large the rig is.
const LARGE: f64 = 4.0;

/// How a rig of any number of bodies and hooks hangs; as [`super::hang`].
pub(crate) fn hang_many(rig: &Rig) -> Result<Pose, NoPose> {
    check(rig)?;
    let many = numbers(rig)?;
    let hung = many.settle().map_err(|f| explain(rig, &f))?;
    give(rig, &many, &hung)
}

/// As [`super::hang_by_legs`], for any number of bodies and hooks.
pub(crate) fn hang_many_by_legs(rig: &Rig, pulling: &[usize]) -> Result<Pose, NoPose> {
    if let Some(leg) = pulling.iter().find(|leg| **leg >= rig.legs.len()) {
        return Err(NoPose::WrongEnds { leg: *leg });
    }
    let mut few = rig.clone();
    few.legs.clear();
    for leg in pulling.iter().filter_map(|leg| rig.legs.get(*leg)) {
        few.legs.push(super::rig::Leg {
            stiffness: None,
            ..*leg
        });
    }
    let pose = hang_many(&few)?;
    let slack = LegPose {
        tension: Force::from_si(0.0),
        slack: true,
        horizontal_angle: None,
    };
    let of_leg = |leg: usize| {
        let place = pulling.iter().position(|pulls| *pulls == leg)?;
        pose.legs.get(place).copied()
    };
    Ok(Pose {
        legs: (0..rig.legs.len())
            .map(|leg| of_leg(leg).unwrap_or(slack))
            .collect(),
        ..pose
    })
}

/// A definite rig of any number of bodies and hooks in plain numbers.
pub(crate) fn numbers(rig: &Rig) -> Result<Many, NoPose> {
    let tie = |end: End, leg: usize| {
        match end {
            End::Hook(hook) => {
                let place = rig.hooks.get(hook).map(|h| metres(h.position));
                place.map(|place| Tie::Hook(hook, place))
            }
            End::Point { body, at } => rig.bodies.get(body).map(|_| Tie::On(body, metres(at))),
        }
        .ok_or(NoPose::WrongEnds { leg })
    };
    // As for one body: if a leg of the rig has no stiffness, none of them stretches.
    let counted = counted(rig);
    let mut lines = Vec::with_capacity(rig.legs.len());
    for (leg, l) in rig.legs.iter().enumerate() {
        lines.push(Line {
            upper: tie(l.upper, leg)?,
            lower: tie(l.lower, leg)?,
            length: l.length.si(),
            stiffness: l.stiffness.map(Measured::si).filter(|_| counted),
        });
    }
    let solids = rig.bodies.iter().enumerate().map(|(number, b)| Solid {
        weight: weight(b.mass).si(),
        cg: metres(b.cg),
        attitude: matrix(&b.attitude),
        particle: particle(rig, number, metres(b.cg)),
    });
    let many = Many {
        solids: solids.collect(),
        scale: scale(rig, &lines),
        lines,
        spins: vec![],
    };
    Ok(many.with_spins())
}

/// How large the rig is, m: its middle leg, unless that is a hoist rope far longer than the bodies are large.
fn scale(rig: &Rig, lines: &[Line]) -> f64 {
    let mut lengths: Vec<f64> = lines.iter().map(|l| l.length).collect();
    lengths.sort_by(f64::total_cmp);
    let leg = lengths.get(lengths.len() / 2).copied().unwrap_or(1.0);
    let ends = rig.legs.iter().flat_map(|l| [l.upper, l.lower]);
    let arms = ends.filter_map(|end| match end {
        End::Point { body, at } => {
            let cg = rig.bodies.get(body).map(|b| metres(b.cg))?;
            Some((metres(at) - cg).norm())
        }
        End::Hook(_) => None,
    });
    let largest = arms.fold(0.0, f64::max);
    if largest > 0.0 {
        leg.min(LARGE * largest)
    } else {
        leg
    }
}

/// Whether all points of a body and its centre of gravity are one.
fn particle(rig: &Rig, number: usize, cg: V3) -> bool {
    let ends = rig.legs.iter().flat_map(|l| [l.upper, l.lower]);
    let mut points = ends.filter_map(|end| match end {
        End::Point { body, at } if body == number => Some(metres(at)),
        _ => None,
    });
    points.all(|point| (point - cg).norm() <= 1e-9)
}

fn counted(rig: &Rig) -> bool {
    rig.legs.iter().all(|l| l.stiffness.is_some())
}

fn give(rig: &Rig, many: &Many, hung: &ManyHung) -> Result<Pose, NoPose> {
    let total: f64 = many.solids.iter().map(|s| s.weight).sum();
    let sums = many.left_over(hung);
    let force = sums.iter().map(|s| s.0).fold(0.0, f64::max);
    let moment = sums.iter().map(|s| s.1).fold(0.0, f64::max);
    let share_of_weight = force.max(moment / many.scale) / total;
    if !matches!(
        share_of_weight.partial_cmp(&RESIDUAL_BOUND),
        Some(core::cmp::Ordering::Less)
    ) {
        return Err(NoPose::NotConverged {
            left_over: share_of_weight,
            bound: RESIDUAL_BOUND,
        });
    }
    let Some(hook) = rig.hooks.first() else {
        return Err(NoPose::Empty { what: "hook" });
    };
    let bodies = rig
        .bodies
        .iter()
        .zip(&hung.at)
        .enumerate()
        .map(|(number, (body, at))| BodyPose {
            cg_height: cg_height(rig, hung, number, at),
            ..place(body, at, hook)
        });
    let legs = hung.tension.iter().zip(many.angles(&hung.at));
    Ok(Pose {
        bodies: bodies.collect(),
        legs: legs
            .map(|(pull, angle)| LegPose {
                tension: Force::from_si(*pull),
                slack: *pull <= 0.0,
                horizontal_angle: angle.filter(|_| *pull > 0.0).map(HorizontalAngle::from_si),
            })
            .collect(),
        stretch: if counted(rig) {
            Stretch::Counted
        } else {
            Stretch::LeftOut
        },
        residual: Residual {
            force: Force::from_si(force),
            moment: Moment::from_si(moment),
            share_of_weight,
        },
        iterations: hung.iterations,
    })
}

fn place(body: &Body, at: &At, hook: &Hook) -> BodyPose {
    let origin = at.origin;
    let up = matrix(&body.attitude).transpose() * V3::z();
    let axis = |i: usize| -> [f64; 3] { at.turn.column(i).into_owned().into() };
    BodyPose {
        rotation: Rotation::from_turn([axis(0), axis(1), axis(2)]),
        position: [origin.x, origin.y, origin.z].map(Length::from_si),
        tilt: VerticalAngle::from_si(angle_between(&(at.turn * up), &V3::z())),
        rise: Length::from_si(metres(hook.position).z - origin.z),
        cg_height: CgHeight::BelowAll,
    }
}

/// The centre of gravity of a body against the points of the legs that carry it from above.
fn cg_height(rig: &Rig, hung: &ManyHung, number: usize, at: &At) -> CgHeight {
    let cg = rig
        .bodies
        .get(number)
        .map_or_else(V3::zeros, |b| metres(b.cg));
    let carrying = rig
        .legs
        .iter()
        .zip(&hung.tension)
        .filter_map(|(leg, pull)| match leg.lower {
            End::Point { body, at } if body == number && *pull > 0.0 => Some(metres(at)),
            _ => None,
        });
    let (above, all) = carrying.fold((0, 0), |(above, all), point| {
        let over = (at.turn * (point - cg)).z < 0.0;
        (above + usize::from(over), all + 1)
    });
    match above {
        0 => CgHeight::BelowAll,
        n if n == all => CgHeight::AboveAll,
        _ => CgHeight::AboveSome,
    }
}

#[cfg(test)]
#[path = "many_tests.rs"]
mod tests;
