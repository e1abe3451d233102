//! `tilt`: how far the load hangs out of level at the worst, against what the move allows.

use super::pose::{self, Posed};
use super::tiers;
use crate::draft::Compared;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_mechanics::hanging::{BandedRig, Interval, worst};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::{Case, Thing, ThingKind};
use plumbhook_sheet::{Aspect, Basis, Method, Origin, Stage, Step};
use plumbhook_units::{Amount, Length, Measured, Round, VerticalAngle};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "tilt",
    summary: "The load and every beam above it hang no further out of level than the move allows.",
    explanation: "\
A load hangs so that its centre of gravity lies plumb below the hook; off its middle, or on legs of unequal \
length or stretch, it tilts. The tilt is that at the worst corner of the centre of gravity, the lengths and the \
stiffness, by each way of sharing. How much is allowed depends on what the load has to pass and stand on, so the \
move says it; it is the limit of each beam in the rigging too. A sling that does not say how far it stretches leaves the tilt unknown.\n\n\
Mends: a centre of gravity known better, legs of other lengths, a larger limit where there is room for it.",
    basis: &[Basis::STATICS],
    inputs: &[
        ("mass of the load", Hurts::Both),
        ("centre of gravity", Hurts::Both),
        ("length of each piece", Hurts::Both),
        ("stiffness of each sling", Hurts::Both),
        ("tilt limit", Hurts::Low),
    ],
    may_lack: &[],
    lift: &HALL,
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
    let limit = limit(&mut ask);
    let name = case.load().map_or("load", |(load, _)| load.name());
    let primary = case
        .moves()
        .map_or(home, |moves| moves.tilt.datum.origin().clone());
    let mut draft = Draft::new(name, primary.clone(), ask.asked.clone(), case.printer);
    draft.question = format!("whether {name} hangs level enough");
    draft.basis = vec![Basis::STATICS];
    let found = posed.worst.and_then(pose::tilt);
    if let Some((extreme, way)) = found {
        draft.corner = posed.hanging.corner(extreme);
        draft.relate_corner();
        draft.state = way.into();
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
        let over = limit.filter(|limit| extreme.value > *limit);
        if let Some((limit, rig)) = over.zip(posed.hanging.rig()) {
            let bands = Bands {
                rig,
                hoists_from: posed.hanging.legs.len(),
            };
            draft.mends.push(mend(case, &bands, extreme.value, limit));
        }
    }
    let tilt = found.map(|(extreme, _)| Amount::of(extreme.value));
    let compared = Compared {
        proved: tilt,
        worst: tilt.filter(|_| posed.hanging.complete && stretch_known),
        capacity: limit.map(Amount::of),
    };
    let mut all = vec![draft.against(name, "hangs out of level by", compared)];
    let beams = posed.hanging.things.iter();
    for beam in beams.filter(|thing| thing.kind == ThingKind::Beam) {
        let name = tiers::name(case, beam);
        let draft = Draft::new(name, primary.clone(), ask.asked.clone(), case.printer);
        all.push(of_beam(draft, &posed, beam, limit, stretch_known));
    }
    all
}

/// How far a beam hangs out of level, by the same limit as the load below it.
fn of_beam(
    mut draft: Draft,
    posed: &Posed<'_>,
    beam: &Thing,
    limit: Option<VerticalAngle>,
    stretch_known: bool,
) -> Aspect {
    let name = draft.subject.clone();
    draft.question = format!("whether {name} hangs level enough");
    draft.basis = vec![Basis::STATICS];
    draft.relate(&beam.origin, "the beam");
    let found = posed
        .worst
        .zip(beam.body)
        .and_then(|(worst, body)| pose::tilt_of(worst, body));
    if let Some((extreme, way)) = found {
        draft.corner = posed.hanging.corner(extreme);
        draft.relate_corner();
        draft.state = way.into();
        draft.book.0.push(Step::Method(Method {
            say: format!("how far {name} hangs out of level at its worst corner, {way}"),
            residual: posed
                .hanging
                .pose_at(&extreme.corner)
                .map(|pose| pose.residual.share_of_weight),
            results: vec![("tilt".into(), Amount::of(extreme.value))],
            basis: Basis::STATICS,
        }));
        draft.mends.push(
            "legs above it that are nearer to one length, or longer ones, hang it more level"
                .into(),
        );
    }
    let tilt = found.map(|(extreme, _)| Amount::of(extreme.value));
    let compared = Compared {
        proved: tilt,
        worst: tilt.filter(|_| posed.hanging.complete && stretch_known),
        capacity: limit.map(Amount::of),
    };
    draft.against(&name, "hangs out of level by", compared)
}

/// The most that the move allows; an issued job says it.
fn limit(ask: &mut Ask<'_>) -> Option<VerticalAngle> {
    let due = std::mem::replace(&mut ask.due, Stage::Issue);
    let limit = ask.tilt_limit();
    ask.due = due;
    limit.map(|limit| VerticalAngle::from_si(limit.si()))
}

/// How well what tilts it most would have to be known; where not even everything at its middle helps, how it hangs
/// then.
fn mend(case: &Case, bands: &Bands, worst_tilt: VerticalAngle, limit: VerticalAngle) -> String {
    let enough = |of| {
        let half = bands.well_enough(of, [worst_tilt, limit])?;
        let half = Amount::of(Length::from_si(half));
        Some(case.printer.metric(half, Round::Down))
    };
    if let Some(half) = enough(Of::CentreOfGravity) {
        return format!("a centre of gravity known to +/- {half} in plan would pass");
    }
    if let Some(half) = enough(Of::Lengths) {
        return format!("legs made up to lengths known to +/- {half} would pass");
    }
    if let Some(half) = enough(Of::Levels) {
        return format!("hooks that come at most {half} out of level would pass");
    }
    match tilt_of(&bands.narrowed(Of::Everything, 0.0)) {
        Some(middle) if middle <= limit => format!(
            "neither the centre of gravity nor the lengths alone: with both known exactly it hangs {} out of level",
            case.printer.metric(Amount::of(middle), Round::Up)
        ),
        Some(middle) => format!(
            "even with everything at its middle it hangs {} out of level: legs of other lengths hang it more level",
            case.printer.metric(Amount::of(middle), Round::Up)
        ),
        None => "legs of other lengths hang it more level".to_owned(),
    }
}

fn tilt_of(rig: &BandedRig) -> Option<VerticalAngle> {
    let worst = worst(rig).ok()?;
    pose::tilt(&worst).map(|(tilt, _)| tilt.value)
}

/// What of a rig is known better.
#[derive(Clone, Copy, PartialEq)]
enum Of {
    CentreOfGravity,
    Lengths,
    /// How far several hooks come out of level.
    Levels,
    Everything,
}

impl Of {
    fn takes(self, part: Self) -> bool {
        self == part || self == Self::Everything
    }
}

/// A rig whose bands are narrowed. Behind the legs of the rigging stand the hoists of several hooks.
struct Bands<'a> {
    rig: &'a BandedRig,
    hoists_from: usize,
}

impl Bands<'_> {
    /// Half the band with which the whole rig passes, in metres, down to a whole millimetre. The tilt grows nearly in
    /// proportion to the band; the guess from that is proved.
    fn well_enough(&self, of: Of, [worst_tilt, limit]: [VerticalAngle; 2]) -> Option<f64> {
        let widest = self.widest(of);
        let exactly = tilt_of(&self.narrowed(of, 0.0)).filter(|tilt| *tilt < limit)?;
        let share = (limit.si() - exactly.si()) / (worst_tilt.si() - exactly.si());
        let start = (widest * share * 1000.0).floor();
        (0..3)
            .map(|step| (start - f64::from(step)) / 1000.0)
            .filter(|half| *half > 0.0)
            .find(|half| {
                let tilt = tilt_of(&self.narrowed(of, half / widest));
                tilt.is_some_and(|tilt| tilt <= limit)
            })
    }

    /// The rig with these bands narrowed about their middles.
    fn narrowed(&self, of: Of, to: f64) -> BandedRig {
        let mut rig = self.rig.clone();
        let narrow = |band: &mut Interval<Length>| {
            let (middle, half) = halves(*band);
            *band = Interval {
                lo: Length::from_si(middle - half * to),
                hi: Length::from_si(middle + half * to),
            };
        };
        if of.takes(Of::CentreOfGravity) {
            let bodies = rig.bodies.iter_mut();
            bodies
                .flat_map(|body| body.cg.iter_mut().take(2))
                .for_each(narrow);
        }
        for (index, leg) in rig.legs.iter_mut().enumerate() {
            if of.takes(self.part(index)) {
                narrow(&mut leg.length);
            }
        }
        rig
    }

    fn part(&self, leg: usize) -> Of {
        if leg < self.hoists_from {
            Of::Lengths
        } else {
            Of::Levels
        }
    }

    /// Half of the widest of these bands, in metres.
    fn widest(&self, of: Of) -> f64 {
        let bodies = self.rig.bodies.iter();
        let cg = bodies
            .flat_map(|body| body.cg.iter().take(2))
            .filter(|_| of.takes(Of::CentreOfGravity));
        let legs = self.rig.legs.iter().enumerate();
        let lengths = legs
            .filter(|(index, _)| of.takes(self.part(*index)))
            .map(|(_, leg)| &leg.length);
        cg.chain(lengths)
            .map(|band| halves(*band).1)
            .fold(0.0, f64::max)
    }
}

fn halves(band: Interval<Length>) -> (f64, f64) {
    let (lo, hi) = (band.lo.si(), band.hi.si());
    (f64::midpoint(lo, hi), (hi - lo) / 2.0)
}
