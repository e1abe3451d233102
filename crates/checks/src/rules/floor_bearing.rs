//! `floor-bearing`: what stands on a floor, pad by pad, against what the floor allows under a pad.

use super::ground::{self, Worst};
use crate::draft::{Compared, Numbers};
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::Case;
use plumbhook_model::ask::{Ask, Hurts};
use plumbhook_model::entries::Floor;
use plumbhook_model::values::{AllowableFor, Verified};
use plumbhook_model::{Datum, SetDown};
use plumbhook_sheet::{Aspect, Basis, Lack, Stage, Verdict};
use plumbhook_units::{Amount, Pressure};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "floor-bearing",
    summary: "No pad presses harder on a floor than the floor allows under a pad.",
    explanation: "\
A load on three pads is shared by statics, at the worst corner of its centre of gravity. On four or more it \
stands on any three of them: each pad is given the largest share that any three could leave it. The load \
counts at its heavy end and times the dynamic factor, the stand's own weight whole on each pad. Pressure is \
force over the pad's whole face. It is compared with the lowest allowable for a pad; a rating for load spread \
over a bay never judges a pad. A floor carries no more than its verification covers.\n\n\
A mobile crane stands on its pads or tracks with what its maker gives for this configuration (`presses`, \
`pad-reaction`), or, where its parts are listed, with the largest reaction by statics while the hook goes its way with \
nothing up to the whole of what hangs, and while it turns all round without a load.\n\n\
Mends: larger pads, pads further apart, mats, an answer from whoever verifies the floor.",
    basis: &[Basis::STATICS],
    inputs: &[
        ("mass of the load", Hurts::High),
        ("centre of gravity", Hurts::Both),
        ("dynamic factor", Hurts::High),
        ("mass of the stand", Hurts::High),
        ("size of the pads", Hurts::Low),
        ("what the floor allows under a pad", Hurts::Low),
        ("what the verification covers", Hurts::Low),
    ],
    may_lack: &[],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "pads of 300 mm under 9 t each",
            subject: "slab under stool",
            change: &[("size 500 mm x 500 mm", "size 300 mm x 300 mm")],
        }),
        Outcome::Shown(Example {
            say: "pads of 500 mm under 9 t each",
            subject: "slab under stool",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "the floor is rated for spread load alone",
            subject: "slab under stool",
            change: &[("allows     pad 400 kPa ", "allows     spread 25 kPa ")],
        }),
        Outcome::Shown(Example {
            say: "the load is never set down",
            subject: "floor under the load",
            change: &[("    | (18.0 m, 5.0 m) | on stool          |\n", "")],
        }),
    ],
    check: |case| ground::check(case, "floor under the load", one),
};

fn one(case: &Case, down: &SetDown) -> Aspect {
    let mut ask = Ask::new(case);
    let floor = down.floor.as_ref();
    let body = floor.and_then(|floor| floor.of::<Floor>());
    let allowed = floor
        .zip(body)
        .and_then(|(floor, body)| allowable(&mut ask, floor.name(), body));
    ask.asked.include(&down.asked);
    let subject = ground::subject(down);
    let mut draft = Draft::new(&subject, down.origin.clone(), ask.asked, case.printer);
    draft.basis = vec![Basis::STATICS];
    let (proved, worst) = match ground::worst_pad(down, &mut draft) {
        Worst::Pressure { proved, worst } => (proved, worst),
        Worst::Tips(why) => {
            let headline = format!("{subject}: {why}");
            return draft.finish(Verdict::Over, headline, Numbers::default());
        }
        Worst::Unknown => (None, None),
    };
    let compared = Compared {
        proved: proved.map(Amount::of),
        worst: worst.map(Amount::of),
        capacity: allowed.map(Amount::of),
    };
    if let (Some(worst), Some(allowed)) = (worst.or(proved), allowed) {
        draft
            .mends
            .push(ground::larger_pads(case, down, worst, allowed));
    }
    draft.against(&subject, "bears", compared)
}

/// The lowest allowable for a pad. An unverified floor can convict and not acquit.
fn allowable(ask: &mut Ask<'_>, name: &str, floor: &Floor) -> Option<Pressure> {
    let what = format!("what {name} allows under a pad");
    let mut lowest: Option<Pressure> = None;
    let mut spread = None;
    for line in &floor.allows.lines {
        match line {
            Datum::Known(given) if given.value.judges == AllowableFor::Pad => {
                ask.note(&what, Amount::of(given.value.pressure), &given.origin);
                ask.verified(&what, &given.pedigree, &given.origin);
                lowest = Some(lowest.map_or(given.value.pressure, |low| {
                    if given.value.pressure < low {
                        given.value.pressure
                    } else {
                        low
                    }
                }));
            }
            Datum::Known(given) => spread = Some(&given.origin),
            Datum::Lacking(lacking) => ask.lacks(
                &what,
                lacking.lack,
                &lacking.origin,
                "write `allows pad … kPa`, with its source",
            ),
        }
    }
    if lowest.is_none() {
        match spread {
            Some(origin) => ask.lacks(
                format!("{what} (a rating for load spread over a bay never judges a pad)"),
                Lack::Absent,
                origin,
                "ask for an allowable under a pad of this size: `allows pad … kPa`",
            ),
            None => ask.lacks(
                &what,
                Lack::Absent,
                &floor.allows.home,
                "add a line `allows pad … kPa`, with its source",
            ),
        }
    }
    let covered = covered(ask, name, floor);
    lowest.map(|low| covered.filter(|covered| *covered < low).unwrap_or(low))
}

/// What the verification of the floor covers under a pad: nobody vouches for more. From a bid on it is noted that
/// there is none.
fn covered(ask: &mut Ask<'_>, name: &str, floor: &Floor) -> Option<Pressure> {
    let due = std::mem::replace(&mut ask.due, Stage::Bid);
    let given = ground::verified(ask, name, floor);
    ask.due = due;
    let given = given?;
    match &given.value {
        Verified::Yes { covers, .. } if covers.judges == AllowableFor::Pad => {
            let what = format!("what the verification of {name} covers");
            ask.note(&what, Amount::of(covers.pressure), &given.origin);
            Some(covers.pressure)
        }
        _ => None,
    }
}
