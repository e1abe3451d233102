//! The stops of a move, against what is expected to come: part of the rule for holds.

use super::{gross, pose, tiers};
use crate::Draft;
use crate::draft::Compared;
use plumbhook_model::ask::Ask;
use plumbhook_model::values::{Stop, StopAbove, StopAt};
use plumbhook_model::{Case, Datum};
use plumbhook_sheet::{Aspect, Basis};
use plumbhook_units::{Amount, Measured, RatedForce, Ratio, Round};

/// Every stop of a move.
pub(super) fn all(case: &Case, stops: &[Datum<Stop>], basis: &'static [Basis]) -> Vec<Aspect> {
    let kind = |stop: &Datum<Stop>| stop.known().map(|given| given.value.at);
    let alike = |stop| {
        stops
            .iter()
            .filter(|other| kind(other) == kind(stop))
            .count()
    };
    (1..)
        .zip(stops)
        .map(|(number, stop)| stopped(case, (number, alike(stop) > 1), stop, basis))
        .collect()
}

/// One stop, the `number`th of its move; of several of a kind each has its number.
fn stopped(
    case: &Case,
    (number, of_several): (usize, bool),
    stop: &Datum<Stop>,
    basis: &'static [Basis],
) -> Aspect {
    let mut ask = Ask::new(case);
    let given = match stop {
        Datum::Known(given) => given,
        Datum::Lacking(lacking) => {
            ask.lacks(
                "the reading at which the move stops",
                lacking.lack,
                &lacking.origin,
                "write `stop cell above 36 t` or `stop any leg above 110 % of expected`",
            );
            let subject = format!("stop {number}");
            let draft = Draft::new(subject, lacking.origin.clone(), ask.asked, case.printer);
            return draft.against("the stop", "", Compared::default());
        }
    };
    let at = given.value.at;
    let (most, proved) = match at {
        StopAt::Cell => {
            let mut gross = gross::load_and_legs(case, &mut ask);
            gross::ring(case, &mut ask, &mut gross);
            tiers::refuse_several(case, &mut ask, "what the cell reads at the hook");
            let force = |mass| RatedForce::from_mass(mass);
            // Of several hooks none carries the whole.
            if case.all_hung_from().len() < 2 {
                (gross.most().map(force), Some(force(gross.proved())))
            } else {
                (None, None)
            }
        }
        StopAt::AnyLeg => {
            let posed = pose::ask(case, &mut ask);
            let legs = 0..posed.hanging.legs.len();
            let most = posed.worst.and_then(|worst| {
                legs.filter_map(|leg| pose::tension(worst, leg))
                    .map(|(tension, _)| RatedForce::from_force(tension.value))
                    .max_by(|a, b| a.si().total_cmp(&b.si()))
            });
            (most.filter(|_| posed.hanging.complete), most)
        }
    };
    let what = if of_several {
        format!("stop {number} of {}", at.say())
    } else {
        format!("stop of {}", at.say())
    };
    let said = match given.value.above {
        StopAbove::Expected(share) => {
            format!(
                "{} of expected",
                case.printer.metric(Amount::of(share), Round::Nearest)
            )
        }
        StopAbove::Typed(mass) => case
            .printer
            .metric(Amount::of(RatedForce::from_mass(mass)), Round::Down),
    };
    ask.used(&what, said, &given.origin);
    let mut draft = Draft::new(what.clone(), given.origin.clone(), ask.asked, case.printer);
    draft.basis = basis.to_vec();
    draft.question = format!("what is expected at the {what}");
    let capacity = match given.value.above {
        StopAbove::Typed(mass) => Some(RatedForce::from_mass(mass)),
        StopAbove::Expected(share) => {
            let expected = most.or(proved);
            expected.map(|expected| RatedForce::from_si(expected.si() * share.si()))
        }
    };
    if let Some(most) = most {
        draft.mends.push(format!(
            "a stop above {} would pass",
            case.printer.amount(Amount::of(most), Round::Up)
        ));
    }
    let compared = match (given.value.above, proved) {
        // Below what is expected, whatever that turns out to be.
        (StopAbove::Expected(share), None) if share.si() < 1.0 => Compared {
            proved: Some(Amount::of(Ratio::from_si(1.0))),
            worst: None,
            capacity: Some(Amount::of(share)),
        },
        _ => Compared {
            proved: proved.map(Amount::of),
            worst: most.map(Amount::of),
            capacity: capacity.map(Amount::of),
        },
    };
    draft.against(&what, "is expected to read up to", compared)
}
