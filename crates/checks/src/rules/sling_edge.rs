//! `sling-edge`: no sling that goes round the load lies bare on a sharp edge of it.

use super::{piece, worst};
use crate::draft::{Numbers, cannot_tell};
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::values::{Edge, Hitch, PieceUse};
use plumbhook_model::{Case, LegUse};
use plumbhook_sheet::{Aspect, Basis, Lack, Origin, Reach, Trust, Verdict};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "sling-edge",
    summary: "No sling that goes round the load lies bare on a sharp edge.",
    explanation: "\
A sling that is choked or in a basket lies on the load. A sharp edge or corner cuts it under a load that it would \
carry in a straight pull, whatever its rating; so what it lies on has to be said behind the sling: `edge padded` \
with something between, `edge rounded` where nothing can cut it, `edge sharp` where it lies bare. No radius is \
compared with a limit: none was found in print. How thick padding has to be, and what it bears, its maker says.\n\n\
Mends: padding that cannot slip out, another way round the load, lifting points.",
    basis: EDGES,
    inputs: &[("edges of the load", Hurts::Both)],
    may_lack: &[],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "choked round a sharp edge, bare",
            subject: "slings round the load",
            change: &[(
                LEGS,
                "legs       A B C to ring-2, through rope-32-long-5 choker reach 4.80 m +/- 20 mm choke at least 125 deg edge sharp, bow-12",
            )],
        }),
        Outcome::Shown(Example {
            say: "choked round an edge with padding",
            subject: "slings round the load",
            change: &[(
                LEGS,
                "legs       A B C to ring-2, through rope-32-long-5 choker reach 4.80 m +/- 20 mm choke at least 125 deg edge padded, bow-12",
            )],
        }),
        Outcome::Shown(Example {
            say: "choked round nobody says what",
            subject: "slings round the load",
            change: &[(
                LEGS,
                "legs       A B C to ring-2, through rope-32-long-5 choker reach 4.80 m +/- 20 mm choke at least 125 deg, bow-12",
            )],
        }),
        Outcome::Shown(Example {
            say: "the slings are shackled to lugs",
            subject: "slings round the load",
            change: &[],
        }),
    ],
    check,
};

const LEGS: &str = "legs       A B C to ring-2, through bow-12, rope-32-long-5, bow-12";

/// Both read directly.
const EDGES: &[Basis] = &[
    Basis {
        publication: "29 CFR 1915.116, as amended 3 July 2002",
        section: "slings padded where they pass over sharp edges or corners of loads",
        trust: Trust::Published,
    },
    Basis {
        publication: "WAC 296-24-29419, effective 5 January 2016",
        section: "(7): slings padded or protected from sharp edges",
        trust: Trust::Published,
    },
];

const SUBJECT: &str = "slings round the load";

fn check(case: &Case) -> Vec<Aspect> {
    let hanging = case.hanging();
    let mut legs = Vec::new();
    for leg in &hanging.legs {
        for (used, _) in &leg.pieces {
            if used.hitched.hitch != Hitch::Vertical {
                legs.push((&*leg.point.name, one(case, leg, used)));
            }
        }
    }
    let worst = worst::of_legs(SUBJECT, legs);
    vec![worst.unwrap_or_else(|| none(case))]
}

/// No sling goes round the load: known only if every leg is.
fn none(case: &Case) -> Aspect {
    let hanging = case.hanging();
    let draft = |asked: Asked| {
        let origin = Origin::header(&case.movement.key);
        Draft::new(SUBJECT, origin, asked, case.printer)
    };
    if case.only_stands() {
        return draft(Asked::default()).does_not_apply("the load hangs from nothing");
    }
    if piece::every_piece_is_known(hanging) {
        return draft(Asked::default()).does_not_apply("no sling goes round the load");
    }
    let mut asked = hanging.asked.clone();
    let about_legs = |lack: Lack| lack != Lack::OneSided;
    asked.missing.retain(|missing| about_legs(missing.lack));
    told(
        draft(asked),
        "whether a sling lies on a sharp edge",
        String::new(),
    )
}

fn one(case: &Case, leg: &LegUse, used: &PieceUse) -> Aspect {
    let mut ask = Ask::new(case);
    let (name, at) = (used.gear.head(), &used.gear.origin);
    let what = format!("what {name} lies on at the edges of the load");
    let lies = match used.hitched.edge {
        None => {
            let mend = "say `edge padded`, `edge rounded` or `edge sharp` behind it";
            ask.lacks(&what, Lack::Absent, at, mend);
            ""
        }
        Some(Edge::Padded) => "on padding",
        Some(Edge::Rounded) => "on nothing that could cut it",
        Some(Edge::Sharp) => "bare on a sharp edge",
    };
    if used.hitched.edge.is_some() {
        ask.used(&what, lies, at);
    }
    if !case.hanging().all_legs() {
        ask.asked.include(&case.hanging().asked);
    }
    let subject = format!("{name} in leg {}", leg.point.name);
    let headline = format!("{subject} lies {lies}");
    let mut draft = Draft::new(&subject, at.clone(), ask.asked, case.printer);
    draft.basis = EDGES.to_vec();
    if used.hitched.edge == Some(Edge::Sharp) {
        draft
            .mends
            .push("put padding between that cannot slip out, and say `edge padded`".into());
        return draft.finish(Verdict::Over, headline, Numbers::default());
    }
    told(
        draft,
        &format!("whether {subject} lies on a sharp edge"),
        headline,
    )
}

/// Within where everything asked for is known: there is no number to compare.
fn told(draft: Draft, question: &str, headline: String) -> Aspect {
    let verdict = draft.judge(Reach {
        proved: Some(0.0),
        worst: Some(0.0),
    });
    let headline = match &verdict {
        Verdict::CannotTell(missing) => cannot_tell(question, missing),
        _ => headline,
    };
    draft.finish(verdict, headline, Numbers::default())
}
