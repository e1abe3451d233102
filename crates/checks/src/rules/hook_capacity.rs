//! `hook-capacity`: the gross load, line by line, against the crane's rating.

use super::gross::{self, Gross};
use super::{held, pose, tiers};
use crate::draft::Compared;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Hurts};
use plumbhook_model::entries::{HungFrom, OverheadCrane, Rigging};
use plumbhook_model::{Case, Datum};
use plumbhook_sheet::{Aspect, Basis, Lack, Origin, Stage, Step, Trust};
use plumbhook_units::{Amount, Band, Force, Mass, Measured, RatedForce, Round};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "hook-capacity",
    summary: "The crane carries no more than its rated capacity, everything below the hook counted.",
    explanation: "\
The gross load is the load at its heavy end, every piece of every leg, the ring, and the hook block where \
the rating does not already allow for it. The rating is compared with this static load, without the dynamic \
factor. While the load is held, the limit of the pull counts where that is more. Where it is not known whether the rating allows for the block, the block is counted.\n\n\
Mends: a lighter load, lighter rigging, a crane of a larger rating.",
    basis: &[
        Basis {
            publication: "29 CFR 1910.179",
            section: "(n)(1): not loaded beyond its rated load",
            trust: Trust::FromMemory,
        },
        Basis::STATICS,
    ],
    inputs: &[
        ("mass of the load", Hurts::High),
        ("mass of each piece", Hurts::High),
        ("mass of the hook block", Hurts::High),
        ("rated capacity", Hurts::Low),
    ],
    may_lack: &[(
        "block-in-rating",
        "where it is not known whether the rating allows for the block, the block counts",
    )],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "a crane of 14 t under 15 t",
            subject: "bridge",
            change: &[("rated      30 t ", "rated      14 t ")],
        }),
        Outcome::Shown(Example {
            say: "a crane of 30 t under 15 t",
            subject: "bridge",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "the weight is only said to be at least something",
            subject: "bridge",
            change: &[("mass       14.0 t +/- 5 % ", "mass       at least 14 t ")],
        }),
        Outcome::Shown(Example {
            say: "the load hangs from nothing and only stands",
            subject: "overhead crane",
            change: &[("by         bridge with chains-of-three", "by         none")],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let home = Origin::header(&case.movement.key);
    let mut ask = Ask::new(case);
    if case.only_stands() {
        let draft = Draft::new("overhead crane", home, ask.asked, case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let by = case.moves().and_then(|moves| {
        ask.value("what the move is done by", &moves.by, |by| {
            plumbhook_model::ask::words(&by.words())
        })
    });
    let all = by.map_or(&[][..], |by| &by.value.0);
    if let [] | [_] = all {
        return vec![of_machine(case, ask, all.first(), None)];
    }
    // Of several machines each carries its share.
    let each = all.iter().enumerate();
    each.map(|(hook, hung)| of_machine(case, Ask::new(case), Some(hung), Some(hook)))
        .collect()
}

fn of_machine<'c>(
    case: &'c Case,
    mut ask: Ask<'c>,
    hung: Option<&'c HungFrom>,
    hook: Option<usize>,
) -> Aspect {
    let home = Origin::header(&case.movement.key);
    let Some(machine) = hung.and_then(|hung| case.entry(&hung.machine)) else {
        if let Some(hung) = hung {
            let _ = ask.entry::<OverheadCrane, _>(&hung.machine);
        }
        let draft = Draft::new("overhead crane", home, ask.asked, case.printer);
        return draft.against("what the hook carries", "", Compared::default());
    };
    let Some(crane) = machine.of::<OverheadCrane>() else {
        let draft = Draft::new("overhead crane", home, ask.asked, case.printer);
        return draft.does_not_apply(&format!("{} is no overhead crane", machine.name()));
    };
    match hook {
        None => one(case, ask, machine.name(), crane),
        Some(hook) => share(case, ask, (machine.name(), crane), hook),
    }
}

/// One of several machines: its share of the whole at the worst corner, and its hook block unless the rating allows for it.
fn share<'c>(
    case: &'c Case,
    mut ask: Ask<'c>,
    (name, crane): (&str, &'c OverheadCrane),
    hook: usize,
) -> Aspect {
    let posed = pose::ask(case, &mut ask);
    let hung = case.all_hung_from().get(hook);
    if let Some((_, rigging)) = hung.and_then(|hung| case.find::<Rigging, _>(&hung.rigging)) {
        let _ = ask.value(
            "what the legs gather in, and its hook",
            &rigging.hung,
            |hung| {
                plumbhook_model::ask::words(&format!("{} by {}", hung.ring.name, hung.hook.name))
            },
        );
    }
    let block = block(&mut ask, name, crane);
    let pull = ask.pull();
    let rating = ask.rating(
        &format!("rated capacity of {name}"),
        &crane.rated,
        |rated| rated.hitch.is_none(),
    );
    let primary = case.moves().map_or_else(
        || Origin::header(&case.movement.key),
        |moves| moves.by.datum.origin().clone(),
    );
    let mut draft = Draft::new(name, primary, ask.asked, case.printer);
    draft.question = format!("whether {name} carries its share");
    draft.basis = RULE.basis.to_vec();
    let carried = tiers::put_on_hook(&mut draft, &posed, hook, name);
    let as_mass = |force: Force| RatedForce::from_force(force).mass();
    let counted = |side: fn(&Band<Mass>) -> Option<Mass>| match &block {
        Block::InRating => Some(Mass::from_si(0.0)),
        Block::Counted(band) | Block::MayCount(band) => side(band),
    };
    // Where it is not known whether the block counts, it may acquit when counted, and convict only when not.
    let least = match &block {
        Block::MayCount(_) | Block::InRating => Mass::from_si(0.0),
        Block::Counted(band) => band.hi().or(band.lo()).unwrap_or(Mass::from_si(0.0)),
    };
    let most = counted(Band::hi);
    let proved = carried.map(|force| as_mass(force) + least);
    let worst = carried
        .zip(most)
        .map(|(force, block)| as_mass(force) + block);
    if let (Some(force), Some(total)) = (carried, worst) {
        let parts = vec![
            ("share".to_owned(), Amount::of(as_mass(force))),
            (
                format!("hook block of {name}"),
                Amount::of(most.unwrap_or(least)),
            ),
        ];
        draft.book.0.push(Step::Sum {
            say: format!("gross load on {name}"),
            parts,
            total: Amount::of(total),
        });
    }
    lacks_whether_block_counts(&mut draft, (name, crane), &block, [proved, worst], rating);
    let as_rated = |mass: Mass| RatedForce::from_mass(mass);
    let held = worst
        .or(proved)
        .and_then(|mass| held::more_than(&mut draft, pull, as_rated(mass)));
    let acts = |mass: Mass| {
        let hangs = as_rated(mass);
        Amount::of(held.filter(|held| *held > hangs).unwrap_or(hangs))
    };
    let compared = Compared {
        proved: proved.map(acts),
        worst: worst.map(acts).filter(|_| posed.hanging.complete),
        capacity: rating.map(Amount::of),
    };
    draft.against(name, "lifts", compared)
}

fn one<'c>(case: &'c Case, mut ask: Ask<'c>, name: &str, crane: &'c OverheadCrane) -> Aspect {
    let Lifted {
        gross,
        proved,
        block,
    } = lifted(case, &mut ask, name, crane);
    let pull = ask.pull();
    let rating = ask.rating(
        &format!("rated capacity of {name}"),
        &crane.rated,
        |rated| rated.hitch.is_none(),
    );
    let primary = case.moves().map_or_else(
        || Origin::header(&case.movement.key),
        |moves| moves.by.datum.origin().clone(),
    );
    let mut draft = Draft::new(name, primary, ask.asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    draft.book.0.push(gross.step("gross load below the hook"));
    if let Some((_, load)) = case.load() {
        let heavy = case.hanging().mass.hi().map(Amount::of);
        for line in load.mass.lines.iter().filter_map(Datum::known) {
            let say = heavy.map_or_else(String::new, |heavy| {
                format!("{} at its heavy end", case.printer.metric(heavy, Round::Up))
            });
            draft.relate(&line.origin, say);
        }
    }
    let most = gross.most();
    let hangs = most.map_or(proved, |most| if most < proved { proved } else { most });
    let while_held = held::more_than(&mut draft, pull, RatedForce::from_mass(hangs));
    let as_rated = |mass: Mass| {
        let weight = RatedForce::from_mass(mass);
        Amount::of(while_held.filter(|held| *held > weight).unwrap_or(weight))
    };
    lacks_whether_block_counts(
        &mut draft,
        (name, crane),
        &block,
        [Some(proved), most],
        rating,
    );
    held::lacks_where_device_sits(case, &mut draft, (name, pull), &gross, rating);
    if let Some(rating) = rating {
        let room = rating.mass().si() - most.map_or(0.0, Measured::si);
        if room < 0.0 && while_held.is_none() {
            draft.mends.push(format!(
                "{} less below the hook would pass",
                case.printer
                    .amount(Amount::of(Mass::from_si(-room)), Round::Up)
            ));
        }
    }
    let compared = Compared {
        proved: Some(as_rated(proved)),
        worst: most.map(as_rated),
        capacity: rating.map(Amount::of),
    };
    draft.sums.push(gross.line(case.printer));
    draft.against(name, "lifts", compared)
}

/// Where the block alone decides and nobody says whether it counts, that is missing: it convicts nobody.
fn lacks_whether_block_counts(
    draft: &mut Draft,
    (name, crane): (&str, &OverheadCrane),
    block: &Block,
    [without, with]: [Option<Mass>; 2],
    rating: Option<RatedForce>,
) {
    let over = |mass: Option<Mass>| {
        let carried = mass.map(RatedForce::from_mass);
        carried
            .zip(rating)
            .is_some_and(|(carried, rating)| carried > rating)
    };
    if matches!(block, Block::MayCount(_)) && over(with) && !over(without) {
        draft.asked.missing.push(plumbhook_sheet::Missing {
            what: format!("whether the rating of {name} allows for its hook block"),
            lack: Lack::Unknown,
            key: None,
            origin: crane.block_in_rating.datum.origin().clone(),
            mend: "say `block-in-rating yes` or `no`: it decides here".into(),
            due: Stage::FirstLook,
        });
    }
}

/// What hangs at the hook, as its rating counts it.
pub(super) struct Lifted {
    pub(super) gross: Gross,
    /// What the known sides alone prove of it.
    pub(super) proved: Mass,
    block: Block,
}

/// The load, the legs, the ring, and the hook block where the rating does not allow for it.
pub(super) fn lifted<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    name: &str,
    crane: &'c OverheadCrane,
) -> Lifted {
    let mut gross = gross::load_and_legs(case, ask);
    gross::ring(case, ask, &mut gross);
    let mut proved = gross.proved();
    let block = block(ask, name, crane);
    match block {
        Block::InRating => {}
        Block::Counted(band) => {
            gross.add(format!("hook block of {name}"), band, 1);
            proved = gross.proved();
        }
        // Whether it counts is not known: it may acquit when counted, and convict only when not.
        Block::MayCount(band) => gross.add(format!("hook block of {name}"), band, 1),
    }
    Lifted {
        gross,
        proved,
        block,
    }
}

enum Block {
    InRating,
    Counted(Band<Mass>),
    MayCount(Band<Mass>),
}

fn block<'c>(ask: &mut Ask<'c>, name: &str, crane: &'c OverheadCrane) -> Block {
    match crane.block_in_rating.known().map(|fact| fact.value.0) {
        Some(true) => {
            ask.used(
                "hook block",
                "allowed for in the rating",
                crane.block_in_rating.datum.origin(),
            );
            Block::InRating
        }
        counted => {
            let mass = ask.band(
                &format!("mass of the hook block of {name}"),
                &crane.block,
                Hurts::High,
            );
            if counted == Some(false) {
                ask.used(
                    "hook block",
                    "not in the rating",
                    crane.block_in_rating.datum.origin(),
                );
                Block::Counted(mass)
            } else {
                Block::MayCount(mass)
            }
        }
    }
}
