//! What stands on a floor: shared by the rules for bearing, voids and verification.

use super::{crane_standing, worst};
use crate::Draft;
use crate::draft::Compared;
use plumbhook_mechanics::standing::{PadShare, contact_pressure};
use plumbhook_model::ask::Ask;
use plumbhook_model::entries::Floor;
use plumbhook_model::values::Verified;
use plumbhook_model::{Case, Datum, Given, Pressed, Pushes, SetDown};
use plumbhook_sheet::{Aspect, Basis, Book, Corner, CornerInput, Lack, Origin, step};
use plumbhook_units::{Amount, Force, Length, Measured, Pressure, Ratio, Round, weight};
use std::sync::Arc;

/// One aspect a support and a mobile crane, the worst of the stations that set down on it; or one that says why there
/// is none.
pub(super) fn check(case: &Case, nobody: &str, one: fn(&Case, &SetDown) -> Aspect) -> Vec<Aspect> {
    let downs = case.set_downs();
    let (cranes, machines) = crane_standing::cranes(case);
    let mut asked = downs.asked.clone();
    let known = asked.missing.is_empty() && machines.missing.is_empty();
    asked.include(&machines);
    let mut aspects: Vec<Aspect> = Vec::new();
    let none = downs.all.is_empty() && cranes.is_empty();
    if none || !known {
        let home = Origin::header(&case.movement.key);
        let draft = Draft::new(nobody, home, asked, case.printer);
        aspects.push(if known {
            draft.does_not_apply(
                "the move sets the load down on nothing, and no mobile crane lifts it",
            )
        } else {
            draft.against(
                "what the load is set down on, and what stands there to lift it",
                "",
                Compared::default(),
            )
        });
    }
    let all = downs.all.iter().chain(&cranes);
    for aspect in all.map(|down| one(case, down)) {
        match aspects
            .iter_mut()
            .find(|other| other.subject == aspect.subject)
        {
            Some(other) if worst::is_worse(&aspect, other) => *other = aspect,
            Some(_) => {}
            None => aspects.push(aspect),
        }
    }
    aspects
}

/// "hall under stool-3".
pub(super) fn subject(down: &SetDown) -> String {
    let floor = down.floor.as_ref().map_or("floor", |floor| floor.name());
    format!("{floor} under {}", down.stand.name())
}

/// Whether every hurting side of the pressure is known.
fn complete(down: &SetDown) -> bool {
    down.load.hi().is_some()
        && down.own.hi().is_some()
        && down.dynamic.is_some()
        && down.size.is_some()
}

/// The worst pad of a support.
pub(super) enum Worst {
    /// The pressure under it: as the known bounds prove it, and at the worst unless a hurting side is unknown.
    Pressure {
        proved: Option<Pressure>,
        worst: Option<Pressure>,
    },
    /// The load may tip over its pads.
    Tips(String),
    /// Too much is missing; the draft says what.
    Unknown,
}

/// The pressure under the worst pad, worked on the sheet.
#[allow(non_snake_case, reason = "symbols of the formula, as print has them")]
pub(super) fn worst_pad(down: &SetDown, draft: &mut Draft) -> Worst {
    if let Some(pressed) = &down.pressed {
        return under_machine(down, pressed, draft);
    }
    let shares = match &down.shares {
        Some(Ok(shares)) => shares,
        Some(Err(why)) => {
            use plumbhook_mechanics::standing::NoShare;
            if matches!(
                why,
                NoShare::Tips { .. } | NoShare::FewerThanThree { .. } | NoShare::PadsInLine
            ) {
                return Worst::Tips(why.to_string());
            }
            draft.asked.missing.push(plumbhook_sheet::Missing {
                what: format!("how the pads share the load has no answer: {why}"),
                lack: Lack::NoAnswer,
                key: None,
                origin: down.pads_origin.clone(),
                mend: "mend the places of the pads".into(),
                due: plumbhook_sheet::Stage::FirstLook,
            });
            return Worst::Unknown;
        }
        None => return Worst::Unknown,
    };
    let worst = shares
        .iter()
        .enumerate()
        .max_by(|a, b| a.1.share.si().total_cmp(&b.1.share.si()));
    let (Some((index, share)), Some(size)) = (worst, down.size) else {
        return Worst::Unknown;
    };
    let Some(mass) = down.load.hi().or(down.load.lo()) else {
        return Worst::Unknown;
    };
    let dynamic = Ratio::from_si(down.dynamic.unwrap_or(1.0));
    let W_load = weight(mass);
    step!(
        &mut draft.book,
        Basis::STATICS,
        [dynamic, W_load],
        W = dynamic * W_load
    );
    let pad_reaction = share.reaction(W, &mut draft.book);
    let W_stand = down
        .own
        .hi()
        .or(down.own.lo())
        .map_or_else(|| Force::from_si(0.0), weight);
    step!(
        &mut draft.book,
        Basis::STATICS,
        [pad_reaction, W_stand],
        F_pad = pad_reaction + W_stand
    );
    name_corner(down, index, share, draft);
    match contact_pressure(F_pad, size, &mut draft.book) {
        Ok(pressure) => Worst::Pressure {
            proved: Some(pressure),
            worst: Some(pressure).filter(|_| complete(down)),
        },
        Err(why) => {
            no_pressure(down, draft, &why.to_string());
            Worst::Unknown
        }
    }
}

fn no_pressure(down: &SetDown, draft: &mut Draft, why: &str) {
    draft.asked.missing.push(plumbhook_sheet::Missing {
        what: format!("the pressure under the pads has no answer: {why}"),
        lack: Lack::NoAnswer,
        key: None,
        origin: down.pads_origin.clone(),
        mend: "mend the size of the pads".into(),
        due: plumbhook_sheet::Stage::FirstLook,
    });
}

/// The pressure under the worst pad of a machine.
#[allow(non_snake_case, reason = "symbols of the formula, as print has them")]
fn under_machine(down: &SetDown, pressed: &Pressed, draft: &mut Draft) -> Worst {
    if let Some(why) = &pressed.tips {
        return Worst::Tips(why.clone());
    }
    draft.state.clone_from(&pressed.state);
    draft.book.0.extend(pressed.steps.iter().cloned());
    let W_mat = down
        .own
        .hi()
        .or(down.own.lo())
        .map_or_else(|| Force::from_si(0.0), weight);
    let pressure = |pushes: Pushes, book: &mut Book| match (pushes, down.size) {
        (Pushes::Pressure(pressure), _) => Ok(Some(pressure)),
        (Pushes::Force(_), None) => Ok(None),
        (Pushes::Force(pad_reaction), Some(size)) => {
            step!(
                book,
                Basis::STATICS,
                [pad_reaction, W_mat],
                F_pad = pad_reaction + W_mat
            );
            contact_pressure(F_pad, size, book).map(Some)
        }
    };
    let mut unseen = Book::default();
    let proved = pressed.proved.map(|pushes| pressure(pushes, &mut unseen));
    let worst = pressed
        .worst
        .map(|pushes| pressure(pushes, &mut draft.book));
    match (proved.transpose(), worst.transpose()) {
        (Ok(proved), Ok(worst)) => Worst::Pressure {
            proved: proved.flatten(),
            worst: worst.flatten(),
        },
        (Err(why), _) | (_, Err(why)) => {
            no_pressure(down, draft, &why.to_string());
            Worst::Unknown
        }
    }
}

fn name_corner(down: &SetDown, index: usize, share: &PadShare, draft: &mut Draft) {
    let pad = down.pads.get(index).map_or("a pad", |pad| &*pad.name);
    let others: Vec<_> = share
        .on
        .iter()
        .filter_map(|on| down.pads.get(*on))
        .map(|pad| &*pad.name)
        .collect();
    draft.state = format!("pad {pad} while {} carry", others.join(", "));
    draft.relate(
        &down.pads_origin,
        format!(
            "pad {pad} takes {:.1} % of the load",
            (share.share.si() * 1000.0).ceil() / 10.0
        ),
    );
    for (what, value) in ["cg at x", "cg at y"].into_iter().zip(share.cg) {
        let input = CornerInput {
            what: what.into(),
            coordinate: true,
            origin: None,
        };
        draft.corner.push(Corner {
            input: Arc::new(input),
            value: Amount::of(value),
        });
    }
}

/// What size of square pad would pass.
pub(super) fn larger_pads(
    case: &Case,
    down: &SetDown,
    worst: Pressure,
    allowed: Pressure,
) -> String {
    let [along, across] = down.size.unwrap_or([Length::from_si(0.0); 2]);
    let side = (along.si() * across.si() * worst.si() / allowed.si()).sqrt();
    let side = case
        .printer
        .metric(Amount::of(Length::from_si(side)), Round::Up);
    format!("pads of {side} x {side} or larger would pass")
}

/// The verification of a floor, if there is one; what is missing is noted.
pub(super) fn verified<'f>(
    ask: &mut Ask<'_>,
    name: &str,
    floor: &'f Floor,
) -> Option<&'f Given<Verified>> {
    let what = format!("what {name} carries");
    match &floor.verified.datum {
        Datum::Known(given) if given.value != Verified::No => {
            let Verified::Yes { by, on, .. } = &given.value else {
                return None;
            };
            ask.used(
                &format!("verification of {name}"),
                format!("by role \"{by}\" on {on}"),
                &given.origin,
            );
            ask.sourced(&given.pedigree);
            Some(given)
        }
        Datum::Known(given) => {
            ask.lacks(
                what,
                Lack::Unverified,
                &given.origin,
                format!("ask the owner's engineer to verify {name} for what stands there"),
            );
            None
        }
        Datum::Lacking(lacking) => {
            ask.lacks(
                what,
                if lacking.lack == Lack::Absent { Lack::Unverified } else { lacking.lack },
                &lacking.origin,
                format!("ask the owner's engineer to verify {name}: `verified by role \"…\" on 2026-10-04, covers pad … kPa`"),
            );
            None
        }
    }
}
