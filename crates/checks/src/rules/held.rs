//! The pull on a load that is held: shared by the rules for whatever is in the path of the force.
//!
//! A stuck load weighs what its bolts, seals and rust hold; nothing but the limit device bounds the pull. Until it is
//! free, whatever lies between the hook and the load is judged by that limit where it is more than what hangs.

use super::gross::Gross;
use crate::Draft;
use plumbhook_model::{Case, Datum, Pull};
use plumbhook_sheet::{Basis, Lack, Method, Missing, Stage, Step, Trust, step};
use plumbhook_units::{Amount, Force, Mass, Measured, RatedForce, Round};

/// Where the practice of judging a held load by its limit device comes from.
pub(super) const PRACTICE: Basis = Basis {
    publication: "a held load",
    section: "the pull is bounded by the limit device alone",
    trust: Trust::CommonPractice,
};

/// What acts where so much hangs: that, or the limit of the pull where the load may be held and that is more.
pub(super) fn acts(pull: Pull, hangs: RatedForce) -> RatedForce {
    let limit = pull.while_held().filter(|limit| *limit > hangs);
    limit.unwrap_or(hangs)
}

/// The last station, from 0, at which the load may be held; `None` where nobody says where it is proved free.
pub(super) fn last_station(case: &Case) -> Option<usize> {
    let (_, load) = case.load()?;
    let free_at = load.held_by.known()?.value.free_at.as_deref()?;
    let moves = case.moves()?;
    let rows = moves.stations.known().map_or(&[][..], |rows| &rows.value.0);
    let at_station = rows
        .iter()
        .position(|row| row.hold.as_ref().is_some_and(|hold| *hold.name == *free_at));
    // A hold so far up is one above the start.
    let lines = &moves.hold.members;
    let line = lines.iter().find(|(name, _)| **name == *free_at);
    let above_start = line
        .and_then(|(_, line)| Datum::known(line)?.value.at)
        .map(|_| 0);
    at_station.or(above_start)
}

/// What acts on something that carries the whole: what hangs, or the limit of the pull where that is more.
pub(super) fn at_least(draft: &mut Draft, pull: Pull, hangs: RatedForce) -> RatedForce {
    more_than(draft, pull, hangs).unwrap_or(hangs)
}

/// The limit of the pull where it is more than what hangs, worked on the sheet.
pub(super) fn more_than(draft: &mut Draft, pull: Pull, hangs: RatedForce) -> Option<RatedForce> {
    let limit = pull.while_held().filter(|limit| *limit > hangs)?;
    "while held".clone_into(&mut draft.state);
    draft.basis.push(PRACTICE);
    draft.book.0.push(Step::Method(Method {
        say: "while the load is held, more than hangs may be pulled: up to the limit".into(),
        residual: None,
        results: vec![
            ("what hangs".into(), Amount::of(hangs)),
            ("limit of the pull".into(), Amount::of(limit)),
        ],
        basis: PRACTICE,
    }));
    Some(limit)
}

/// All that hangs beside the load at the most; `None` where that is not known.
pub(super) fn beside(case: &Case, gross: &Gross) -> Option<RatedForce> {
    let (most, load) = gross.most().zip(case.hanging().mass.hi())?;
    let beside = (most - load).si().max(0.0);
    Some(RatedForce::from_mass(Mass::from_si(beside)))
}

/// The limit bounds the pull where its device sits, and nobody says where that is: between it and what carries, all
/// that hangs beside the load may come on top. Where that decides, it is missing.
pub(super) fn lacks_where_device_sits(
    case: &Case,
    draft: &mut Draft,
    (name, pull): (&str, Pull),
    gross: &Gross,
    rating: Option<RatedForce>,
) {
    let known = pull.while_held().zip(beside(case, gross)).zip(rating);
    let Some(((limit, beside), rating)) = known else {
        return;
    };
    let with = RatedForce::from_force(limit.force() + beside.force());
    if limit > rating || with <= rating {
        return;
    }
    let Some(moves) = case.moves() else { return };
    let room = RatedForce::from_force(rating.force() - beside.force());
    draft.asked.missing.push(Missing {
        what: format!(
            "whether the limit of the pull counts the {} that hang between {name} and the load",
            case.printer.amount(Amount::of(beside), Round::Up)
        ),
        lack: Lack::NoAnswer,
        key: None,
        origin: moves.limit.datum.origin().clone(),
        mend: format!(
            "a limit of {} or less would pass wherever its device sits",
            case.printer.amount(Amount::of(room), Round::Down)
        ),
        due: Stage::FirstLook,
    });
}

/// What a leg carries while the load hangs free.
pub(super) struct Leg {
    /// Its tension without factor, N.
    pub(super) tension: Force,
    /// What the load weighs at that corner, N.
    pub(super) weight: Force,
}

impl Leg {
    /// What acts in the leg: what hangs, or its share of the limit where that is more. A load that is held is where it
    /// was before it hangs, so the legs share the pull as they share its weight.
    #[allow(non_snake_case, reason = "symbols of the formula, as print has them")]
    pub(super) fn at_least(&self, draft: &mut Draft, pull: Pull, hangs: RatedForce) -> RatedForce {
        let Some(limit) = pull.while_held() else {
            return hangs;
        };
        let (T, W, F_limit) = (self.tension, self.weight, limit.force());
        step!(&mut draft.book, PRACTICE, [T, W], share = T / W);
        step!(
            &mut draft.book,
            PRACTICE,
            [share, F_limit],
            T_held = share * F_limit
        );
        let held = RatedForce::from_force(T_held);
        if held > hangs {
            "while held".clone_into(&mut draft.state);
            draft.basis.push(PRACTICE);
            held
        } else {
            hangs
        }
    }
}
