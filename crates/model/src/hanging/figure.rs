//! The hanging pose as a figure, in the frame of the hook.

use super::LegUse;
use crate::values::BodyShape;
use plumbhook_mechanics::hanging::{End, Pose, Rig};
use plumbhook_sheet::{Figure, Mark, Metres, Role};
use plumbhook_units::{Amount, HorizontalAngle, Length, Measured, Printer, RatedForce, Round};

/// The pose with its hook, legs, points and centre of gravity; the load by its shape, or by its points where that is
/// not known.
pub(crate) fn hanging(
    title: &str,
    legs: &[LegUse],
    shape: Option<BodyShape>,
    rig: &Rig,
    pose: &Pose,
) -> Figure {
    let printer = Printer { us_beside: false };
    let place = |at: [Length; 3]| -> Option<Metres> {
        let body = pose.bodies.first()?;
        let turned = body.rotation.turn(at.map(Measured::si));
        let mut world = body.position.map(Measured::si);
        for (slot, part) in world.iter_mut().zip(turned) {
            *slot += part;
        }
        Some(world)
    };
    let hook = rig
        .hooks
        .first()
        .map_or([0.0; 3], |hook| hook.position.map(Measured::si));
    let mut marks = vec![Mark::Point {
        at: hook,
        role: Role::Machine,
        label: "hook".into(),
    }];
    let mut outline = Vec::new();
    for ((leg, use_), hangs) in rig.legs.iter().zip(legs).zip(&pose.legs) {
        let End::Point { at, .. } = leg.lower else {
            continue;
        };
        let Some(at) = place(at) else { continue };
        outline.push(at);
        let tension = Amount::of(RatedForce::from_force(hangs.tension));
        marks.push(Mark::Line {
            from: hook,
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
    let corners = shape.map(|shape| {
        let corners = shape.drawn().into_iter();
        let corners = corners.map(|corner| corner.map(Length::from_si));
        corners.filter_map(place).collect()
    });
    let load = match corners {
        Some(corners) => Mark::Solid {
            corners,
            role: Role::Load,
        },
        None => Mark::Body {
            outline,
            role: Role::Load,
            label: String::new(),
        },
    };
    marks.insert(0, load);
    if let Some(cg) = rig.bodies.first().and_then(|body| place(body.cg)) {
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
