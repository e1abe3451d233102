//! `leg-angle`: how flat each leg comes at the worst, against the flattest that the rule sets cover.

use super::{pose, remedy, tiers, worst};
use crate::draft::Compared;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_mechanics::hanging::{Extreme, Worst};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::{Case, LegUse};
use plumbhook_sheet::{Aspect, Basis, Lack, Method, Origin, Step, Trust};
use plumbhook_units::{Amount, HorizontalAngle, Length, Measured};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "leg-angle",
    summary: "No leg comes flatter than the rule sets cover.",
    explanation: "\
The angle is the true one in space, from horizontal, of each leg while it pulls: at the worst corner of the \
centre of gravity, the lengths and, where it is declared, the stiffness, the load hanging as it really does. \
Of several rule sets the one that wants the steepest legs counts. A leg flatter than that has no rating: its \
tension grows without bound as it comes down to horizontal.\n\n\
Mends: longer legs, points closer together, a spreader.",
    basis: &[Basis {
        publication: "the rule sets of the job",
        section: "flattest leg that their tables cover",
        trust: Trust::Published,
    }],
    inputs: &[
        ("centre of gravity", Hurts::Both),
        ("length of each piece", Hurts::Both),
        ("stiffness of each sling", Hurts::Both),
        ("mass of the load", Hurts::Both),
        ("rule sets", Hurts::Both),
    ],
    may_lack: &[(
        "stiffness",
        "legs of which nobody says how stiff they are, are judged by every way of sharing alone",
    )],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "points 4.7 m out with legs of 5.2 m",
            subject: "legs",
            change: &[("ring radius 0.95 m", "ring radius 4.70 m")],
        }),
        Outcome::Shown(Example {
            say: "points 0.95 m out with legs of 5.2 m",
            subject: "legs",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "nobody knows how long the slings are",
            subject: "legs",
            change: &[("long       5.00 m +/- 15 mm", "long       unknown")],
        }),
        Outcome::Shown(Example {
            say: "the load hangs from nothing and only stands",
            subject: "legs",
            change: &[("by         bridge with chains-of-three", "by         none")],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let hanging = case.hanging();
    if !hanging.legs.is_empty() {
        let legs = hanging.legs.iter().enumerate();
        let each = legs.map(|(index, leg)| (tiers::leg_name(case, leg), one(case, (index, leg))));
        return worst::of_legs("legs", each.collect()).into_iter().collect();
    }
    let home = Origin::header(&case.movement.key);
    if case.only_stands() {
        let draft = Draft::new("legs", home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let draft = Draft::new("legs", home, hanging.asked.clone(), case.printer);
    vec![draft.against("how flat the legs come", "", Compared::default())]
}

fn one(case: &Case, (index, leg): (usize, &LegUse)) -> Aspect {
    let mut ask = Ask::new(case);
    let rules_known = ask.rules_known();
    let posed = pose::ask(case, &mut ask);
    posed.ask_least_mass(case, &mut ask);
    let subject = format!("leg {}", tiers::leg_name(case, leg));
    let found = posed.worst.and_then(|worst| pose::flattest(worst, index));
    if posed.worst.is_some() && found.is_none() {
        ask.lacks(
            format!("angle of {subject}: it pulls nowhere inside the bands"),
            Lack::NoAnswer,
            &leg.origin,
            "take the leg out, or make it up so that it carries",
        );
    }
    let mut draft = Draft::new(&subject, leg.origin.clone(), ask.asked, case.printer);
    draft.question = format!("how flat {subject} comes");
    let least = pose::least_angle(case);
    draft.basis = vec![Basis::STATICS];
    draft.basis.extend(least.map(|(_, basis)| basis));
    if let Some((extreme, way)) = found {
        draft.corner = posed.hanging.corner(extreme);
        draft.relate_corner();
        draft.state = way.into();
        draft.book.0.push(Step::Method(Method {
            say: format!("how flat {subject} comes at its worst corner, {way}"),
            residual: posed
                .hanging
                .pose_at(&extreme.corner)
                .map(|pose| pose.residual.share_of_weight),
            results: vec![(
                format!("angle of {subject} from horizontal"),
                Amount::of(extreme.value),
            )],
            basis: Basis::STATICS,
        }));
        if let Some((least, _)) = least.filter(|(least, _)| extreme.value < *least) {
            draft
                .mends
                .push(mend(case, index, extreme, least).unwrap_or_else(|| {
                    "no length of these legs would pass: bring the points closer together".into()
                }));
        }
    }
    let angle = found.map(|(extreme, _)| Amount::of(extreme.value));
    let compared = Compared {
        // Which rule sets govern has to be known before one of them convicts.
        proved: angle.filter(|_| rules_known),
        worst: angle.filter(|_| posed.hanging.complete),
        capacity: least.map(|(least, _)| Amount::of(least)),
    };
    draft.at_least(
        &subject,
        ["from horizontal at the worst", "the least is"],
        compared,
    )
}

/// How much longer the legs would have to be.
fn mend(
    case: &Case,
    leg: usize,
    extreme: &Extreme<HorizontalAngle>,
    least: HorizontalAngle,
) -> Option<String> {
    let hanging = case.hanging();
    let longest = hanging
        .legs
        .iter()
        .filter_map(|leg| leg.length.hi())
        .map(Measured::si)
        .fold(0.0, f64::max);
    let steep_enough = |extra: f64| {
        remedy::pose_with_longer_legs(hanging, &extreme.corner, Length::from_si(extra))
            .and_then(|pose| pose.legs.get(leg)?.horizontal_angle)
            .is_some_and(|angle| angle >= least)
    };
    let extra = remedy::least_change(4.0 * longest, steep_enough)?;
    let all_steep = |worst: &Worst| {
        let mut legs = (0..hanging.legs.len()).map(|leg| pose::flattest(worst, leg));
        legs.all(|found| found.is_none_or(|(angle, _)| angle.value >= least))
    };
    let extra = remedy::proved_by_steps(hanging, extra, all_steep)?;
    Some(remedy::legs_made_up(hanging, case.printer, extra))
}
