//! `sling-rating`: each sling against its tag, or a published table, in the hitch that it stands in.

use super::piece;
use crate::example::HALL;
use crate::{Example, Outcome, Rule};
use plumbhook_model::ask::Hurts;
use plumbhook_sheet::{Basis, Trust};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "sling-rating",
    summary: "A sling carries no more than its tag, or a published table, says for its hitch.",
    explanation: "\
The tension in each leg is that of the load as it really hangs, at the worst corner of mass, centre of \
gravity, length and stiffness, times the dynamic factor, with the leg's own weight. More legs than statics \
can share are judged by the worst sharing of legs that only pull, by stiffness where it is declared, and by \
the rule set's leg count; the worst governs. It is compared with the rating for the hitch.\n\n\
The tag counts first. A sling without a rating of a tag is rated by a published table only where the yard says \
`rated-by table` and the rule sets of the job have one for its `kind`: its grade, its diameter and nothing that the \
table does not know; between two rows there is nothing. A line `rated` puts the table out of use. The tag itself has \
to be on the sling before it is used.\n\n\
Behind a sling that goes round the load stands how: `choker reach 4.80 m +/- 20 mm choke at least 125 deg edge padded`, with what \
it makes up of the leg and its angle of choke, below 120 deg of which it loses some of its choker rating; `basket reach \
3.00 m +/- 15 mm over at least 900 mm edge rounded fast`, a line for each sling with its two points, each part of which carries half \
of the basket rating, round no less than its `bends-over`, and kept from sliding.\n\n\
Mends: a larger sling, steeper legs, a centre of gravity known better.",
    basis: &[
        Basis {
            publication: "29 CFR 1926.251, as amended 8 June 2011",
            section: "(a)(2)(ii): not loaded beyond the working load on the maker's marking",
            trust: Trust::Published,
        },
        Basis {
            publication: "OSHA, Guidance on Safe Sling Use",
            section: "Tables 1 to 3: chain of grade 80 and 100, straight and choked",
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
            say: "a sling rated 5 t in a leg that carries 6 t",
            subject: "rope-32-long-5",
            change: &[("rated      vertical 10.0 t", "rated      vertical 5.0 t")],
        }),
        Outcome::Shown(Example {
            say: "a sling rated 10 t in a leg that carries 6 t",
            subject: "rope-32-long-5",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "nobody knows the centre of gravity",
            subject: "rope-32-long-5",
            change: &[("cg         x 0 +/- 40 mm", "cg         x unknown")],
        }),
        Outcome::Shown(Example {
            say: "the legs are made up of shackles alone",
            subject: "sling in the legs",
            change: &[(
                "through bow-12, rope-32-long-5, bow-12",
                "through bow-12, bow-12",
            )],
        }),
    ],
    check: |case| piece::check(case, "sling"),
};
