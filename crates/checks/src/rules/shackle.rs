//! `shackle-rating`: each shackle against the mark on its body.

use super::piece;
use crate::example::HALL;
use crate::{Example, Outcome, Rule};
use plumbhook_model::ask::Hurts;
use plumbhook_sheet::{Basis, Trust};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "shackle-rating",
    summary: "A shackle carries no more than the mark on its body.",
    explanation: "\
The tension is that of the leg it stands in, at the worst corner, times the dynamic factor, with the leg's \
own weight. It is compared with the rating on the body for a pull in line. A shackle without a legible mark is rated by no \
table here: the one that is still in force is for marine terminals where the maker gives none, and elsewhere such a shackle \
is not to be used.\n\n\
Mends: a larger shackle, steeper legs, a centre of gravity known better.",
    basis: &[
        Basis {
            publication: "29 CFR 1926.251, as amended 8 June 2011",
            section: "(a)(2)(ii), (iii): not loaded beyond the working load on the maker's marking, not used without it",
            trust: Trust::Published,
        },
        Basis::STATICS,
    ],
    inputs: &[
        ("mass of the load", Hurts::High),
        ("centre of gravity", Hurts::Both),
        ("length of each piece", Hurts::Both),
        ("stiffness of each sling", Hurts::Both),
        ("mass of each piece", Hurts::High),
        ("dynamic factor", Hurts::High),
        ("rated capacity", Hurts::Low),
    ],
    may_lack: &[(
        "stiffness",
        "legs of which nobody says how stiff they are, are judged by every way of sharing alone",
    )],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "a shackle of 5 t in a leg that carries 6 t",
            subject: "bow-12",
            change: &[("rated      12 t ", "rated      5 t ")],
        }),
        Outcome::Shown(Example {
            say: "a shackle of 12 t in a leg that carries 6 t",
            subject: "bow-12",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "the mark on the shackle cannot be read",
            subject: "bow-12",
            change: &[("rated      12 t ", "rated      unknown ")],
        }),
        Outcome::Shown(Example {
            say: "the slings go straight to the lugs",
            subject: "shackle in the legs",
            change: &[(
                "through bow-12, rope-32-long-5, bow-12",
                "through rope-32-long-5",
            )],
        }),
    ],
    check: |case| piece::check(case, "shackle"),
};
