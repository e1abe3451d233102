//! `support-verified`: somebody has verified the floor, for what really stands on it.

use super::ground::{self, Worst};
use crate::draft::{Compared, Numbers};
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Hurts};
use plumbhook_model::entries::Floor;
use plumbhook_model::values::{AllowableFor, Verified};
use plumbhook_model::{Case, SetDown};
use plumbhook_sheet::{Aspect, Basis, Lack, Stage, Trust, Verdict};
use plumbhook_units::{Amount, Pressure};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "support-verified",
    summary: "Somebody competent has verified the floor for what stands on it.",
    explanation: "\
A verification says by whom (the role), when, and what it covers. It counts only for a pressure under a pad up \
to what it covers. A floor that nobody has verified is unknown, whatever a drawing allows; this is demanded \
from a bid on.\n\n\
Mends: an answer from the owner's engineer for the pads and the loads as they are.",
    basis: &[
        Basis {
            publication: "29 CFR 1926.1402, as of January 2025",
            section: "(b): ground firm, drained and graded enough for what stands on it",
            trust: Trust::Published,
        },
        Basis::STATICS,
    ],
    inputs: &[
        ("pressure under the worst pad", Hurts::High),
        ("what the verification covers", Hurts::Low),
    ],
    may_lack: &[],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "the verification covers 100 kPa",
            subject: "slab under stool",
            change: &[("covers pad 380 kPa", "covers pad 100 kPa")],
        }),
        Outcome::Shown(Example {
            say: "the verification covers 380 kPa",
            subject: "slab under stool",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "nobody has verified the slab",
            subject: "slab under stool",
            change: &[(
                "verified   by role \"owner's engineer\" on 2026-09-01, covers pad 380 kPa",
                "verified   no",
            )],
        }),
        Outcome::Shown(Example {
            say: "the load is never set down",
            subject: "support of the load",
            change: &[("    | (18.0 m, 5.0 m) | on stool          |\n", "")],
        }),
    ],
    check: |case| ground::check(case, "support of the load", one),
};

fn one(case: &Case, down: &SetDown) -> Aspect {
    let mut ask = Ask::new(case);
    ask.due = Stage::Bid;
    let body = down
        .floor
        .as_ref()
        .and_then(|floor| Some((floor.name(), floor.of::<Floor>()?)));
    let covers = body.and_then(|(name, floor)| covered(&mut ask, name, floor));
    ask.asked.include(&down.asked);
    let subject = ground::subject(down);
    let primary = body.map_or_else(
        || down.origin.clone(),
        |(_, floor)| floor.verified.datum.origin().clone(),
    );
    let mut draft = Draft::new(&subject, primary, ask.asked, case.printer);
    draft.stage = case.stage;
    draft.question = format!("whether {subject} is verified for what stands there");
    draft.basis = RULE.basis.to_vec();
    draft.relate(
        &down.origin,
        match (&down.pressed, case.load()) {
            (Some(_), _) => format!("{} stands here", down.stand.name()),
            (None, load) => format!(
                "{} is set down here",
                load.map_or("the load", |(load, _)| load.name())
            ),
        },
    );
    let (proved, worst) = match ground::worst_pad(down, &mut draft) {
        Worst::Pressure { proved, worst } => (proved, worst),
        Worst::Tips(why) => {
            let headline = format!("{subject}: no verification covers a load that tips: {why}");
            return draft.finish(Verdict::Over, headline, Numbers::default());
        }
        Worst::Unknown => (None, None),
    };
    draft
        .mends
        .push("have it verified for this pressure, or set it on larger pads".into());
    let compared = Compared {
        proved: proved.map(Amount::of),
        worst: worst.map(Amount::of),
        capacity: covers.map(Amount::of),
    };
    draft.against(
        &format!("{subject}, as far as it is verified,"),
        "bears",
        compared,
    )
}

/// What the verification covers under a pad.
fn covered(ask: &mut Ask<'_>, name: &str, floor: &Floor) -> Option<Pressure> {
    let given = ground::verified(ask, name, floor)?;
    match &given.value {
        Verified::Yes { covers, .. } if covers.judges == AllowableFor::Pad => {
            ask.note(
                &format!("what the verification of {name} covers"),
                Amount::of(covers.pressure),
                &given.origin,
            );
            Some(covers.pressure)
        }
        _ => {
            ask.lacks(
                format!("a verification of {name} for a pad (it covers spread load alone)"),
                Lack::Unverified,
                &given.origin,
                "have it verified for the pads that stand there",
            );
            None
        }
    }
}
