//! `lift-class`: the class of a lift by the triggers of its rule sets; a person may raise it and never lower it.

use super::crane_work::{Used, working};
use super::held;
use super::hook_capacity::{Lifted, lifted};
use crate::draft::{Numbers, cannot_tell};
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Asked, Hurts, words};
use plumbhook_model::entries::{Job, LiftClass, OverheadCrane, SetUp};
use plumbhook_model::values::{Choice, Chosen};
use plumbhook_model::{Case, ClassTrigger, Once, Trigger, USACE_CRITICAL};
use plumbhook_sheet::{Aspect, Basis, Lack, Method, Origin, Reach, Stage, Step, Verdict};
use plumbhook_units::{Amount, Measured, Printer, RatedForce, Round};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "lift-class",
    summary: "The class of the lift is the one that the rule sets' triggers make it, or a higher one that a person gives.",
    explanation: "\
Each rule set has its triggers: how much of a machine's rated capacity is used, how many machines lift. Any of them \
makes the lift critical; the shares are taken with everything below the hook at its heavy end, or the limit \
of the pull while the load is held, where that is more. What only a person can see (a load out of the operator's view, \
people lifted, rigging that is not routine) is listed and not computed: \
`class critical` in the move or the job raises the class. `class ordinary` never lowers it: where a trigger says \
otherwise, that is over.\n\n\
Mends: `class critical` and the plan that it asks for, or a machine of a larger rating.",
    basis: &[USACE_CRITICAL],
    inputs: &[
        ("mass of the load", Hurts::High),
        ("mass of each piece", Hurts::High),
        ("mass of the hook block", Hurts::High),
    ],
    may_lack: &[
        (
            "block-in-rating",
            "where it is not known whether the rating allows for the block, the block counts",
        ),
        (
            "class",
            "where no person gives a class, the triggers alone give it",
        ),
    ],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "15 t on a crane of 18 t, and the job calls its lifts ordinary",
            subject: "class of M1",
            change: &[
                ("rated      30 t ", "rated      18 t "),
                ("  rules      us", "  rules      us\n  class      ordinary"),
            ],
        }),
        Outcome::Shown(Example {
            say: "15 t on a crane of 30 t: no trigger is met",
            subject: "class of M1",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "nobody says what the crane is rated for",
            subject: "class of M1",
            change: &[(
                "  rated      30 t                     from nameplate \"30 t\"\n",
                "",
            )],
        }),
        Outcome::Shown(Example {
            say: "a rule set that has no trigger in numbers",
            subject: "class of M1",
            change: &[("rules      us", "rules      en")],
        }),
    ],
    check,
};

/// What the triggers say of a move.
struct Computed {
    /// The trigger that is met at the worst, with what met it in words.
    met: Option<(String, Basis)>,
    /// Whether what is proved alone meets it.
    proved: bool,
    /// Whether it is known if one is met.
    known: bool,
    /// What is lifted at the most, and the share of the rating that it may be, in newtons.
    share: Numbers,
}

fn check(case: &Case) -> Vec<Aspect> {
    let name = format!("class of {}", case.movement.name());
    let home = Origin::header(&case.movement.key);
    let plain = |because: &str| {
        let draft = Draft::new(&*name, home.clone(), Asked::default(), case.printer);
        vec![draft.does_not_apply(because)]
    };
    if case.only_stands() {
        return plain("the load hangs from nothing");
    }
    let mut ask = Ask::new(case);
    let rules_known = ask.rules_known();
    let triggers: Vec<&ClassTrigger> = case
        .rules
        .iter()
        .flat_map(|set| set.class_triggers)
        .collect();
    if triggers.is_empty() && rules_known {
        return plain("no governing rule set has a trigger in numbers");
    }
    let person = by_person(case, &mut ask);
    let given = ask.asked.clone();
    let computed = computed(case, &mut ask, &triggers, rules_known);
    let asked = if person.is_some_and(|(class, _)| class == highest()) {
        // Nothing can make it higher.
        given
    } else {
        ask.asked
    };
    let at = person.map_or(home, |(_, origin)| origin.clone());
    let mut draft = Draft::new(&*name, at, asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    draft
        .basis
        .extend(computed.met.as_ref().map(|(_, basis)| *basis));
    let left: Vec<&str> = case
        .rules
        .iter()
        .map(|set| set.class_by_person)
        .filter(|says| !says.is_empty())
        .collect();
    draft.book.0.push(Step::Method(Method {
        say: format!(
            "triggers that are computed: {}; a person says whether {}",
            triggers
                .iter()
                .map(|trigger| say(trigger))
                .collect::<Vec<_>>()
                .join(", "),
            left.join("; ")
        ),
        residual: None,
        results: vec![],
        basis: triggers
            .first()
            .map_or(USACE_CRITICAL, |trigger| trigger.basis),
    }));
    vec![conclude(
        draft,
        case.movement.name(),
        person.map(|(class, _)| class),
        &computed,
    )]
}

fn highest() -> &'static str {
    LiftClass::WORDS.last().copied().unwrap_or_default()
}

fn lowest() -> &'static str {
    LiftClass::WORDS.first().copied().unwrap_or_default()
}

fn rank(class: &str) -> Option<usize> {
    LiftClass::WORDS.iter().position(|word| *word == class)
}

/// The highest class that a person gives, in the move or the job, and where.
fn by_person<'c>(case: &'c Case, ask: &mut Ask<'c>) -> Option<(&'static str, &'c Origin)> {
    let job = case.job.of::<Job>().map(|job| ("the job", &job.class));
    let own = case.moves().map(|moves| ("the move", &moves.class));
    let lines: Vec<(&str, &'c Once<Chosen<LiftClass>>)> = job.into_iter().chain(own).collect();
    lines
        .into_iter()
        .filter(|(_, line)| !line.is_absent())
        .filter_map(|(of, line)| {
            let given = ask.value(&format!("class of {of}, by a person"), line, |class| {
                words(class.word)
            })?;
            Some((given.value.word, &given.origin))
        })
        .max_by_key(|(class, _)| rank(class))
}

fn say(trigger: &ClassTrigger) -> String {
    match trigger.of {
        Trigger::ShareOfRating(share) => {
            format!("more than {} of the rating", Printer::utilisation(share))
        }
        Trigger::Machines(1) => "more than one machine".to_owned(),
        Trigger::Machines(most) => format!("more than {most} machines"),
    }
}

/// The trigger that so many machines together meet, and its publication.
fn by_machines(triggers: &[&ClassTrigger], machines: usize) -> Option<(String, Basis)> {
    let met = triggers
        .iter()
        .find(|trigger| matches!(trigger.of, Trigger::Machines(most) if machines > most))?;
    Some((
        format!("{machines} machines lift together, {}", say(met)),
        met.basis,
    ))
}

fn computed<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    triggers: &[&ClassTrigger],
    rules_known: bool,
) -> Computed {
    let unknown = Computed {
        met: None,
        proved: false,
        known: false,
        share: Numbers::default(),
    };
    let by = case.moves().and_then(|moves| {
        ask.value("what the move is done by", &moves.by, |by| {
            words(&by.words())
        })
    });
    let all = by.map_or(&[][..], |by| &by.value.0);
    if let Some(met) = by_machines(triggers, all.len()) {
        return Computed {
            met: rules_known.then_some(met),
            proved: rules_known,
            known: rules_known,
            share: Numbers::default(),
        };
    }
    let Some(hung) = all.first() else {
        return unknown;
    };
    let Some((machine, used)) = used(case, ask, hung) else {
        return unknown;
    };
    let strictest = triggers
        .iter()
        .filter_map(|trigger| match trigger.of {
            Trigger::ShareOfRating(share) => Some((share, *trigger)),
            Trigger::Machines(_) => None,
        })
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let Some((share, trigger)) = strictest else {
        return unknown;
    };
    let beyond = |used: f64| used > share;
    let proved = rules_known && used.proved.is_some_and(beyond);
    let at_worst = used.worst.or(used.proved);
    let met = at_worst.filter(|at| rules_known && beyond(*at));
    Computed {
        met: met.map(|_| (said(case, machine, &used, share), trigger.basis)),
        proved,
        known: proved || used.worst.is_some(),
        share: Numbers {
            demand: Some(Amount::of(used.lifts)),
            capacity: used
                .rated
                .map(|rated| Amount::of(RatedForce::from_si(rated.si() * share))),
            utilisation: None,
        },
    }
}

fn said(case: &Case, machine: &str, used: &Used, share: f64) -> String {
    let printer = case.printer;
    let lifts = printer.amount(Amount::of(used.lifts), Round::Up);
    let than = Printer::utilisation(share);
    match used.rated {
        Some(rated) => format!(
            "{machine} lifts {lifts} of {} ({}), more than {than}",
            printer.amount(Amount::of(rated), Round::Down),
            Printer::utilisation(used.lifts.si() / rated.si()),
        ),
        None => format!("{machine} lifts {lifts} where nothing is rated, more than {than} of it"),
    }
}

/// How much of its rating the machine uses; `None` where that cannot be told at all, which is noted.
fn used<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    hung: &'c plumbhook_model::entries::HungFrom,
) -> Option<(&'c str, Used)> {
    let machine = case.entry(&hung.machine);
    if let Some(machine) = machine
        && let Some(set_up) = machine.of::<SetUp>()
    {
        let working = working(case, ask, machine.name(), set_up);
        return Some((machine.name(), working.used()));
    }
    if let Some(machine) = machine.filter(|machine| machine.of::<OverheadCrane>().is_none()) {
        ask.due = Stage::Issue;
        ask.lacks(
            format!("how much of its rating {} uses", machine.name()),
            Lack::NoAnswer,
            &hung.machine.origin,
            "say `class critical` in the move: no class below that is computed for such a machine",
        );
        return None;
    }
    let (machine, crane) = ask.entry::<OverheadCrane, _>(&hung.machine)?;
    let name = machine.name();
    let Lifted { gross, proved, .. } = lifted(case, ask, name, crane);
    let rating = ask.rating(
        &format!("rated capacity of {name}"),
        &crane.rated,
        |rated| rated.hitch.is_none(),
    );
    let pull = ask.pull();
    let rating = rating?;
    let acts = |mass| held::acts(pull, RatedForce::from_mass(mass));
    let share = |mass| acts(mass).si() / rating.si();
    let most = gross.most();
    let used = Used {
        proved: Some(share(proved)),
        worst: most.map(share),
        lifts: acts(most.unwrap_or(proved)),
        rated: Some(rating),
    };
    Some((name, used))
}

fn conclude(
    mut draft: Draft,
    movement: &str,
    person: Option<&'static str>,
    computed: &Computed,
) -> Aspect {
    let raised = person == Some(highest());
    let lowered = person.is_some() && !raised;
    let critical = computed.met.is_some();
    let reach = Reach {
        proved: (computed.proved && lowered).then_some(2.0),
        // A class that a trigger may make too low is no answer.
        worst: (raised || computed.known && !(critical && lowered)).then_some(0.0),
    };
    let verdict = draft.judge(reach);
    if verdict == Verdict::Over {
        draft
            .mends
            .push(format!("write `class {}`, and plan it as that", highest()));
    }
    let because = computed
        .met
        .as_ref()
        .map_or_else(String::new, |(met, _)| met.clone());
    let headline = match &verdict {
        Verdict::CannotTell(missing) => cannot_tell(&draft.subject, missing),
        Verdict::Over => format!(
            "{movement} is called {}, but it is {}: {because}",
            person.unwrap_or_default(),
            highest()
        ),
        _ if critical => format!("{movement} is {}: {because}", highest()),
        _ if raised => format!("{movement} is {}: a person says so", highest()),
        _ => format!("{movement} is {}: no trigger is met", lowest()),
    };
    draft.finish(verdict, headline, computed.share)
}
