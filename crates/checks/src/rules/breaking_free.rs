//! `breaking-free`: while the load is held, a limit device bounds the pull, and it lets the load be lifted.

use super::held::PRACTICE;
use super::{carried, gross};
use crate::draft::Compared;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::Case;
use plumbhook_model::Holding;
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_sheet::{Aspect, Basis, Origin};
use plumbhook_units::{Amount, RatedForce};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "breaking-free",
    summary: "A load that is held when the move begins is pulled with a limit device, set no lower than what will hang.",
    explanation: "\
Bolts, seals, rust and suction can hold more than a load weighs: until it is proved free, nothing but the limit \
device bounds the pull. Such a move says its limit; the slings, the hardware, the ring and the crane are then each \
judged by it in their own rules, where it is more than what hangs. A limit below what will hang stops the lift \
before it begins. A load of which nobody says whether anything holds it may be held: until it is said, by \
`held-by nothing` or by `free` in the move, nobody can tell what will be pulled.\n\n\
Mends: a limit device, its setting, whatever holds the load taken away first.",
    basis: &[PRACTICE, Basis::STATICS],
    inputs: &[
        ("mass of the load", Hurts::High),
        ("mass of each piece", Hurts::High),
        ("limit of the pull", Hurts::Low),
    ],
    may_lack: &[],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "a limit of 12 t, set below the 15 t that will hang",
            subject: "cover",
            change: &[
                ("held-by    nothing ", "held-by    bolts 24, seal "),
                (
                    "  tilt       at most",
                    "  limit      12 t                     from cell\n  tilt       at most",
                ),
            ],
        }),
        Outcome::Shown(Example {
            say: "a limit of 20 t over the 15 t that will hang",
            subject: "cover",
            change: &[
                ("held-by    nothing ", "held-by    bolts 24, seal "),
                (
                    "  tilt       at most",
                    "  limit      20 t                     from cell\n  tilt       at most",
                ),
            ],
        }),
        Outcome::Shown(Example {
            say: "the cover is held by bolts and a seal, and nobody names a limit",
            subject: "cover",
            change: &[("held-by    nothing ", "held-by    bolts 24, seal ")],
        }),
        Outcome::Shown(Example {
            say: "nothing holds the cover",
            subject: "cover",
            change: &[],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let home = Origin::header(&case.movement.key);
    if case.only_stands() {
        let draft = Draft::new("breaking free", home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let mut ask = Ask::new(case);
    let Some((declared, load)) = carried::load(case, &mut ask) else {
        let draft = Draft::new("breaking free", home, ask.asked, case.printer);
        return vec![draft.against("whether the load is held", "", Compared::default())];
    };
    let name = declared.name();
    let pull = ask.pull();
    match pull.holding {
        Holding::Free => {
            let says = load
                .held_by
                .known()
                .map(|by| (by.value.words(), &by.origin));
            let free = case.moves().and_then(|moves| moves.free.known());
            match (free, says) {
                (Some(free), _) => ask.used(&format!("{name} at the start"), "free", &free.origin),
                (None, Some((by, origin))) => ask.used(&format!("what holds {name}"), by, origin),
                (None, None) => {}
            }
            let draft = Draft::new(name, home, ask.asked, case.printer);
            return vec![draft.does_not_apply("it is free")];
        }
        Holding::Held | Holding::Unknown => {}
    }
    let mut gross = gross::load_and_legs(case, &mut ask);
    gross::ring(case, &mut ask, &mut gross);
    let primary = case
        .moves()
        .map_or(home, |moves| moves.limit.datum.origin().clone());
    let mut draft = Draft::new(name, primary, ask.asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    draft.question = format!("whether {name} breaks free within its limit");
    draft.relate(load.held_by.datum.origin(), "what holds it");
    draft
        .book
        .0
        .push(gross.step("what hangs below the hook once it is free"));
    draft.sums.push(gross.line(case.printer));
    let as_force = |mass| Amount::of(RatedForce::from_mass(mass));
    let compared = Compared {
        proved: Some(as_force(gross.proved())),
        worst: gross.most().map(as_force),
        capacity: pull.limit.map(Amount::of),
    };
    vec![draft.against(name, "will hang with", compared)]
}
