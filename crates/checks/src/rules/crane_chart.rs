//! `crane-chart`: the gross load against the chart of a mobile crane, at every radius of the move.

use super::crane_work::{At, Used, Working, working};
use super::{held, tiers};
use crate::draft::{Numbers, cannot_tell};
use crate::example::LAYDOWN;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::Case;
use plumbhook_model::ask::{Ask, Hurts, words};
use plumbhook_model::entries::{HungFrom, SetUp};
use plumbhook_sheet::{
    Aspect, Basis, Lack, Method, Missing, Origin, Reach, Stage, Step, Trust, Verdict,
};
use plumbhook_units::{Amount, Length, Mass, Measured, Printer, RatedForce, Round};

/// Reading a chart between its radii.
const READING: Basis = Basis {
    publication: "reading a load chart",
    section: "the lower of two neighbouring ratings, nothing outside",
    trust: Trust::CommonPractice,
};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "crane-chart",
    summary: "A mobile crane carries no more than its chart rates at every radius of the move.",
    explanation: "\
The radius is from the centre of slewing to the hook, which hangs plumb above the centre of gravity; places and \
centre of gravity are taken at their worse ends, and the way between two stations is taken straight. The chart has to \
hold for the whole configuration that the crane is set up in: one that mentions an item less, more or otherwise \
rates nothing. Between two radii the lower rating holds; outside its radii, and in an empty cell, a chart rates \
nothing, and working there is over. Against it stand the load at its heavy end, the rigging link by link, and what \
the crane deducts; the rating is compared with this static load, without the dynamic factor. While the load is held, \
the limit of the pull counts where that is more: at every station up to the hold at which it is proved free.\n\n\
Mends: a shorter radius, another configuration with its chart, a lighter load.",
    basis: &[READING, Basis::GEOMETRY],
    inputs: &[
        ("mass of the load", Hurts::High),
        ("mass of each piece", Hurts::High),
        ("deductions", Hurts::High),
        ("rating of the chart", Hurts::Low),
        ("centre of gravity", Hurts::Both),
        ("length of each piece", Hurts::Both),
        ("stiffness of each sling", Hurts::Both),
        ("place of the station", Hurts::Both),
        ("heading of the load", Hurts::Both),
        ("place of the crane", Hurts::Both),
    ],
    may_lack: &[(
        "stiffness",
        "legs of which nobody says how stiff they are, are judged by every way of sharing alone",
    )],
    lift: &LAYDOWN,
    examples: [
        Outcome::Shown(Example {
            say: "the last station lies beyond the longest radius of the chart",
            subject: "C1",
            change: &[("(19.0 m, 6.0 m)  |", "(25.0 m, 6.0 m)  |")],
        }),
        Outcome::Shown(Example {
            say: "every radius is in the chart and rated for more than hangs there",
            subject: "C1",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "the only charts are of other configurations",
            subject: "C1",
            change: &[("config     boom 36.2 m,", "config     boom 30.0 m,")],
        }),
        Outcome::Shown(Example {
            say: "the load hangs from nothing and only stands",
            subject: "mobile crane",
            change: &[("by         C1 with ropes-of-three", "by         none")],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let home = Origin::header(&case.movement.key);
    let mut ask = Ask::new(case);
    let plain = |ask: Ask<'_>| Draft::new("mobile crane", home.clone(), ask.asked, case.printer);
    if case.only_stands() {
        return vec![plain(ask).does_not_apply("the load hangs from nothing")];
    }
    let by = case.moves().and_then(|moves| {
        ask.value("what the move is done by", &moves.by, |by| {
            words(&by.words())
        })
    });
    let is_crane = |hung: &&HungFrom| case.find::<SetUp, _>(&hung.machine).is_some();
    let all = by.map_or(&[][..], |by| &by.value.0);
    let hung = all.iter().find(is_crane).or_else(|| all.first());
    if hung.as_ref().is_some_and(is_crane) {
        tiers::refuse_several(case, &mut ask, "share of the chart");
    }
    let machine = hung.and_then(|hung| {
        case.entry(&hung.machine).or_else(|| {
            let _ = ask.entry::<SetUp, _>(&hung.machine);
            None
        })
    });
    let Some(machine) = machine else {
        let draft = plain(ask);
        let verdict = draft.judge(Reach {
            proved: None,
            worst: None,
        });
        return vec![conclude_unknown(draft, verdict)];
    };
    if let Some(set_up) = machine.of::<SetUp>() {
        return vec![one(case, ask, machine.name(), set_up)];
    }
    let because = format!("{} is no mobile crane", machine.name());
    vec![plain(ask).does_not_apply(&because)]
}

fn conclude_unknown(draft: Draft, verdict: Verdict) -> Aspect {
    let headline = match &verdict {
        Verdict::CannotTell(missing) => cannot_tell("what its chart rates", missing),
        _ => draft.subject.clone(),
    };
    draft.finish(verdict, headline, Numbers::default())
}

fn one<'c>(case: &'c Case, mut ask: Ask<'c>, name: &str, set_up: &'c SetUp) -> Aspect {
    let working = working(case, &mut ask, name, set_up);
    let primary = case.moves().map_or_else(
        || Origin::header(&case.movement.key),
        |moves| moves.by.datum.origin().clone(),
    );
    let mut draft = Draft::new(name, primary, ask.asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    draft
        .book
        .0
        .push(working.gross.step("gross load against the chart"));
    if let Some(chart) = working.chart {
        draft.relate(&chart.origin, "the chart of this configuration");
    }
    draft.sums.push(working.gross.line(case.printer));
    conclude(case, draft, name, &working)
}

fn conclude(case: &Case, mut draft: Draft, name: &str, working: &Working<'_>) -> Aspect {
    let worst_at = working.worst_at();
    let used = working.used();
    let held = worst_at.and_then(|at| working.held(at));
    if let Some(at) = worst_at {
        if held.is_some() {
            held::more_than(&mut draft, working.pull, working.hangs());
        }
        let (of, rated) = ((name, working.pull), working.least_while_held());
        held::lacks_where_device_sits(case, &mut draft, of, &working.gross, rated);
        if used.proved.is_none_or(|proved| proved <= 1.0) {
            lacks_where_free(case, &mut draft, working, at);
        }
        lacks_radius(case, &mut draft, &used, at);
        put(case, &mut draft, at);
    }
    let verdict = draft.judge(Reach {
        proved: used.proved,
        worst: used.worst,
    });
    let printer = case.printer;
    let headline = match (&verdict, worst_at) {
        (Verdict::CannotTell(missing), _) => cannot_tell("what its chart rates", missing),
        (_, Some(at)) => say(name, at, used.lifts, held.is_some(), printer),
        _ => name.to_owned(),
    };
    if let (Verdict::Over, Some(at)) = (&verdict, worst_at) {
        let none = RatedForce::from_si(0.0);
        let beside = held::beside(case, &working.gross).unwrap_or(none);
        draft
            .mends
            .push(mend(at, used.lifts, held.map(|_| beside), printer));
    }
    let numbers = Numbers::at_most(Some(Amount::of(used.lifts)), used.rated.map(Amount::of));
    draft.finish(verdict, headline, numbers)
}

/// The station and the rating there, on the sheet.
fn put(case: &Case, draft: &mut Draft, at: &At) {
    draft.state = match &*draft.state {
        "" => at.radii.at.clone(),
        held => format!("{held}, {}", at.radii.at),
    };
    let stations = case.moves().and_then(|moves| moves.stations.known());
    let row = stations.and_then(|stations| stations.value.0.get(at.radii.station));
    if let Some(row) = row {
        draft.primary = row.origin.clone();
    }
    let rated = at
        .rated
        .least
        .map(|rated| ("rated".into(), Amount::of(rated)));
    draft.book.0.push(Step::Method(Method {
        say: format!("the lowest rating over the radii {}", at.radii.at),
        residual: None,
        results: vec![
            ("shortest radius".into(), length(at.radii.low)),
            ("longest radius".into(), length(at.radii.high)),
        ]
        .into_iter()
        .chain(rated)
        .collect(),
        basis: READING,
    }));
}

/// Further on than where it begins a load need not be held any more: there the limit of the pull alone proves nothing.
fn lacks_where_free(case: &Case, draft: &mut Draft, working: &Working<'_>, at: &At) {
    let rated = at.rated.least;
    let carries = |acts: RatedForce| rated.is_some_and(|rated| acts <= rated);
    let Some((declared, load)) = case.load() else {
        return;
    };
    if carries(working.acts(at)) || !carries(working.hangs()) {
        return;
    }
    draft.asked.missing.push(Missing {
        what: format!("whether {} is free {}", declared.name(), at.radii.at),
        lack: Lack::NoAnswer,
        key: None,
        origin: load.held_by.datum.origin().clone(),
        mend: "say at which hold it is proved free: end the line `held-by` with `, free-at H1`"
            .into(),
        due: Stage::FirstLook,
    });
}

/// Where only radii are over that no known place is proved to reach, nobody can tell.
fn lacks_radius(case: &Case, draft: &mut Draft, used: &Used, at: &At) {
    let over = |share: Option<f64>| share.is_some_and(|share| share > 1.0 + 1e-12);
    if !draft.asked.missing.is_empty() || over(used.proved) || !over(used.worst) {
        return;
    }
    let radius = |metres: f64, round| case.printer.metric(length(metres), round);
    let proved = at.radii.reached.map_or_else(String::new, |(low, high)| {
        let (low, high) = (radius(low, Round::Up), radius(high, Round::Down));
        format!(" and are proved to reach {low} to {high}")
    });
    let what = format!(
        "the radius {}: its bands allow {} to {}{proved}",
        at.radii.at,
        radius(at.radii.low, Round::Down),
        radius(at.radii.high, Round::Up)
    );
    draft.asked.missing.push(Missing {
        what,
        lack: Lack::NoAnswer,
        key: None,
        origin: draft.primary.clone(),
        mend: "state the places, the heading and the centre of gravity more closely, or keep further inside the chart".into(),
        due: Stage::FirstLook,
    });
}

fn length(metres: f64) -> Amount {
    Amount::of(Length::from_si(metres))
}

fn say(name: &str, at: &At, acts: RatedForce, held: bool, printer: Printer) -> String {
    let radius = |metres: f64, round| printer.metric(length(metres), round);
    let place = &at.radii.at;
    let Some(rated) = at.rated.least else {
        return format!(
            "{name} works outside its chart {place}: at a radius of {} to {}",
            radius(at.radii.low, Round::Down),
            radius(at.radii.high, Round::Up)
        );
    };
    let (verb, while_held) = if held {
        ("may pull", " while the load is held")
    } else {
        ("lifts", "")
    };
    format!(
        "{name} {verb} {} of {}{while_held} at a radius of up to {} {place} ({})",
        printer.amount(Amount::of(acts), Round::Up),
        printer.amount(Amount::of(rated), Round::Down),
        radius(at.radii.high, Round::Up),
        Printer::utilisation(acts.si() / rated.si()),
    )
}

/// What would pass; of a load that is held with so much beside it, which limit.
fn mend(at: &At, acts: RatedForce, held: Option<RatedForce>, printer: Printer) -> String {
    match (at.rated.least, held) {
        (Some(rated), Some(beside)) => {
            let most = RatedForce::from_si(rated.si() - beside.si());
            let most = printer.amount(Amount::of(most), Round::Down);
            format!(
                "a limit of the pull of {most} or less would pass there, or a load freed before the move"
            )
        }
        (Some(rated), None) => {
            let much = Mass::from_si(acts.mass().si() - rated.mass().si());
            let much = printer.amount(Amount::of(much), Round::Up);
            format!("{much} less below the boom would pass there, or a shorter radius")
        }
        (None, _) => {
            "a radius that the chart rates would pass, or the chart of another configuration".into()
        }
    }
}
