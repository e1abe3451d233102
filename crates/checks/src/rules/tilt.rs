//! `tilt`: how far the load hangs out of level at the worst, against what the move allows.

use super::pose;
use crate::draft::Compared;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_mechanics::hanging::{BandedRig, Interval, hang, worst};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::{Case, Hanging};
use plumbhook_sheet::{Aspect, Basis, InputValue, Method, Origin, Stage, Step};
use plumbhook_units::{Amount, Kind, Length, Measured, Round, VerticalAngle};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "tilt",
    summary: "The load hangs no further out of level than the move allows.",
    explanation: "\
A load hangs so that its centre of gravity lies plumb below the hook; off its middle, or on legs of unequal \
length or stretch, it tilts. The tilt is that at the worst corner of the centre of gravity, the lengths and the \
stiffness, by each way of sharing. How much is allowed depends on what the load has to pass and stand on, so the \
move says it. A sling that does not say how far it stretches leaves the tilt unknown.\n\n\
Mends: a centre of gravity known better, legs of other lengths, a larger limit where there is room for it.",
    basis: &[Basis::STATICS],
    inputs: &[
        ("mass of the load", Hurts::Both),
        ("centre of gravity", Hurts::Both),
        ("length of each piece", Hurts::Both),
        ("stiffness of each sling", Hurts::Both),
        ("tilt limit", Hurts::Low),
    ],
    examples: [
        Outcome::Shown(Example {
            say: "half a degree is allowed, and the centre of gravity may lie 40 mm off",
            subject: "cover",
            change: &[("tilt       at most 3 deg", "tilt       at most 0.5 deg")],
        }),
        Outcome::Shown(Example {
            say: "three degrees are allowed",
            subject: "cover",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "the move does not say how much is allowed",
            subject: "cover",
            change: &[("  tilt       at most 3 deg\n", "")],
        }),
        Outcome::Shown(Example {
            say: "the load hangs from nothing and only stands",
            subject: "tilt",
            change: &[("by         bridge with chains-of-three", "by         none")],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let home = Origin::header(&case.movement.key);
    if case.only_stands() {
        let draft = Draft::new("tilt", home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let mut ask = Ask::new(case);
    let posed = pose::ask(case, &mut ask);
    posed.ask_least_mass(case, &mut ask);
    let stretch_known = posed.ask_stretch(&mut ask);
    let limit = limit(case, &mut ask);
    let name = case.load().map_or("load", |(load, _)| load.name());
    let primary = case
        .moves()
        .map_or(home, |moves| moves.tilt.datum.origin().clone());
    let mut draft = Draft::new(name, primary, ask.asked, case.printer);
    draft.basis = vec![Basis::STATICS];
    let found = posed.worst.and_then(pose::tilt);
    if let Some((extreme, way)) = found {
        draft.corner = posed.hanging.corner(extreme);
        draft.relate_corner();
        draft.state = way.to_owned();
        draft.figure = posed.hanging.figure(&format!("how {name} hangs"));
        draft.book.0.push(Step::Method(Method {
            say: format!("how far {name} hangs out of level at its worst corner, {way}"),
            residual: posed
                .hanging
                .pose_at(&extreme.corner)
                .map(|pose| pose.residual.share_of_weight),
            results: vec![("tilt".into(), Amount::of(extreme.value))],
            basis: Basis::STATICS,
        }));
        if let Some(limit) = limit.filter(|limit| extreme.value > *limit) {
            draft
                .mends
                .push(mend(case, posed.hanging, extreme.value, limit));
        }
    }
    let tilt = found.map(|(extreme, _)| Amount::of(extreme.value));
    let compared = Compared {
        proved: tilt,
        worst: tilt.filter(|_| posed.hanging.complete && stretch_known),
        capacity: limit.map(Amount::of),
    };
    vec![draft.against(name, "hangs out of level by", compared)]
}

/// The most that the move allows; an issued job says it.
fn limit<'c>(case: &'c Case, ask: &mut Ask<'c>) -> Option<VerticalAngle> {
    let due = std::mem::replace(&mut ask.due, Stage::Issue);
    let limit = case.moves().and_then(|moves| {
        ask.value("tilt limit", &moves.tilt, |limit| {
            InputValue::Exact(Amount::new(Kind::VerticalAngle, limit.0.si()))
        })
    });
    ask.due = due;
    limit.map(|limit| VerticalAngle::from_si(limit.value.0.si()))
}

/// How well the centre of gravity would have to be known; where not even that helps, how it hangs at the middle.
fn mend(case: &Case, hanging: &Hanging, worst_tilt: VerticalAngle, limit: VerticalAngle) -> String {
    const UNEQUAL: &str = "legs of other lengths would hang it more level";
    let middle = hanging.rig().and_then(|rig| hang(&rig.middle()).ok());
    let Some(middle) = middle.and_then(|pose| Some(pose.bodies.first()?.tilt)) else {
        return UNEQUAL.to_owned();
    };
    if let Some(half) = hanging
        .rig()
        .and_then(|rig| well_enough(rig, [middle, worst_tilt].map(Measured::si), limit))
    {
        return format!(
            "a centre of gravity known to +/- {} in plan would pass",
            case.printer.metric(Amount::of(half), Round::Down)
        );
    }
    format!(
        "with everything at its middle it hangs {} out of level: {UNEQUAL}",
        case.printer.metric(Amount::of(middle), Round::Up)
    )
}

/// Half the box of the centre of gravity with which the whole rig passes, in whole millimetres. The tilt grows
/// nearly in proportion from the middle of the box to its corner; the guess from that is proved.
fn well_enough(
    rig: &BandedRig,
    [middle, worst_tilt]: [f64; 2],
    limit: VerticalAngle,
) -> Option<Length> {
    let widest = widest(rig)?;
    let share = (limit.si() - middle) / (worst_tilt - middle);
    let start = (widest * share * 1000.0).floor();
    (0..4)
        .map(|step| (start - f64::from(step)) / 1000.0)
        .filter(|half| *half > 0.0)
        .find(|half| {
            let solved = worst(&narrower(rig, half / widest)).ok();
            let tilt = solved.as_ref().and_then(pose::tilt);
            tilt.is_some_and(|(tilt, _)| tilt.value <= limit)
        })
        .map(Length::from_si)
}

/// The rig with the box of its centre of gravity narrowed about its middle, in plan.
fn narrower(rig: &BandedRig, to: f64) -> BandedRig {
    let mut rig = rig.clone();
    for body in &mut rig.bodies {
        for band in body.cg.iter_mut().take(2) {
            let middle = (band.lo + band.hi) / 2.0;
            let half = (band.hi - band.lo) / 2.0 * to;
            *band = Interval {
                lo: middle - half,
                hi: middle + half,
            };
        }
    }
    rig
}

/// Half the widest side of the box of the centre of gravity in plan, in metres.
fn widest(rig: &BandedRig) -> Option<f64> {
    let sides = rig.bodies.first()?.cg.iter().take(2);
    let widest = sides
        .map(|band| (band.hi.si() - band.lo.si()) / 2.0)
        .fold(0.0, f64::max);
    (widest > 0.0).then_some(widest)
}
