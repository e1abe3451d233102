//! The hanging pose as a figure, in the frame of the hook.

use super::{LegUse, Thing, ThingKind};
use crate::values::BodyShape;
use plumbhook_mechanics::hanging::{End, Pose, Rig};
use plumbhook_sheet::{Figure, Mark, Metres, Role};
use plumbhook_units::{Amount, HorizontalAngle, Length, Measured, Printer, RatedForce, Round};

/// Where a point of a body is.
fn place(pose: &Pose, body: usize, at: [Length; 3]) -> Option<Metres> {
    let body = pose.bodies.get(body)?;
    let turned = body.rotation.turn(at.map(Measured::si));
    let mut world = body.position.map(Measured::si);
    for (slot, part) in world.iter_mut().zip(turned) {
        *slot += part;
    }
    Some(world)
}

/// Where an end of a leg is.
fn place_of(rig: &Rig, pose: &Pose, end: End) -> Option<Metres> {
    match end {
        End::Hook(hook) => rig.hooks.get(hook).map(|h| h.position.map(Measured::si)),
        End::Point { body, at } => place(pose, body, at),
    }
}

/// The pose with its hooks, legs, beams, points and centre of gravity; the load by its shape, or by its points where that
/// is not known.
pub(crate) fn hanging(
    title: &str,
    things: &[Thing],
    legs: &[LegUse],
    shape: Option<BodyShape>,
    rig: &Rig,
    pose: &Pose,
) -> Figure {
    let printer = Printer { us_beside: false };
    let hooks: Vec<Metres> = things
        .iter()
        .filter(|thing| thing.hook.is_some())
        .filter_map(|thing| match thing.body {
            Some(body) => place(pose, body, [Length::from_si(0.0); 3]),
            None => place_of(rig, pose, End::Hook(0)),
        })
        .collect();
    let hook = hooks.first().copied().unwrap_or([0.0; 3]);
    let mut marks: Vec<Mark> = hooks
        .iter()
        .map(|at| Mark::Point {
            at: *at,
            role: Role::Machine,
            label: "hook".into(),
        })
        .collect();
    let mut outlines: Vec<(usize, Vec<Metres>)> = vec![(0, vec![])];
    for ((leg, use_), hangs) in rig.legs.iter().zip(legs).zip(&pose.legs) {
        let (Some(at), Some(from)) = (
            place_of(rig, pose, leg.lower),
            place_of(rig, pose, leg.upper),
        ) else {
            continue;
        };
        for (end, at) in [(leg.lower, at), (leg.upper, from)] {
            let End::Point { body, .. } = end else {
                continue;
            };
            match outlines.iter_mut().find(|(seen, _)| *seen == body) {
                Some((_, outline)) => outline.push(at),
                None => outlines.push((body, vec![at])),
            }
        }
        let tension = Amount::of(RatedForce::from_force(hangs.tension));
        marks.push(Mark::Line {
            from,
            to: at,
            role: if hangs.slack {
                Role::SlackLeg
            } else {
                Role::Leg
            },
            label: leg_label(&use_.point.name, tension, hangs.horizontal_angle, printer),
        });
        marks.push(Mark::Point {
            at,
            role: Role::LiftingPoint,
            label: use_.point.name.to_string(),
        });
    }
    for (body, outline) in outlines {
        let thing = things.iter().find(|thing| thing.body == Some(body));
        if thing.is_some_and(|thing| thing.kind == ThingKind::Ring) {
            continue;
        }
        let corners = shape.filter(|_| body == 0).map(|shape| {
            let corners = shape.drawn().into_iter();
            let corners = corners.map(|corner| corner.map(Length::from_si));
            corners
                .filter_map(|corner| place(pose, 0, corner))
                .collect()
        });
        if let Some(corners) = corners {
            let role = Role::Load;
            marks.insert(0, Mark::Solid { corners, role });
            continue;
        }
        let label = thing
            .filter(|_| body > 0)
            .map(|thing| thing.name.to_string());
        let outline = Mark::Body {
            outline,
            role: Role::Load,
            label: label.unwrap_or_default(),
        };
        marks.insert(0, outline);
    }
    if let Some(cg) = rig.bodies.first().and_then(|body| place(pose, 0, body.cg)) {
        marks.push(Mark::Point {
            at: cg,
            role: Role::CentreOfGravity,
            label: "cg".into(),
        });
        marks.push(Mark::Span {
            from: [cg[0], cg[1], hook[2]],
            to: cg,
            label: format!("hook to cg {:.2} m", hook[2] - cg[2]),
        });
    }
    marks.shrink_to_fit();
    Figure {
        title: title.to_owned(),
        marks,
    }
}

/// "A 4.75 t at 79.0 deg": what it pulls and how flat it comes.
fn leg_label(
    name: &str,
    tension: Amount,
    angle: Option<HorizontalAngle>,
    printer: Printer,
) -> String {
    let tension = printer.metric(tension, Round::Up);
    match angle {
        Some(angle) => {
            let angle = printer.metric(Amount::of(angle), Round::Down);
            format!("{name} {tension} at {angle}")
        }
        None => format!("{name} {tension}"),
    }
}
