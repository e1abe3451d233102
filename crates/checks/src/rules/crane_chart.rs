//! `crane-chart`: the gross load against the chart of a mobile crane, at every radius of the move.

use super::chart_radius::{Radii, radii};
use super::gross::{self, Gross};
use super::hook;
use super::hook_place::{any_way, aside, turned};
use super::{pose, tiers};
use crate::draft::{Numbers, cannot_tell};
use crate::example::LAYDOWN;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_mechanics::load_chart::{NoChart, Rated, rated_between};
use plumbhook_model::ask::{Ask, Hurts, words};
use plumbhook_model::entries::{Crane, HungFrom, SetUp};
use plumbhook_model::values::{Chart, Configuration};
use plumbhook_model::{Case, Datum, Given};
use plumbhook_sheet::{Aspect, Basis, Lack, Method, Origin, Reach, Step, Trust, Verdict};
use plumbhook_units::{Amount, Heading, Length, Mass, Measured, Printer, RatedForce, Round};

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
the crane deducts; the rating is compared with this static load, without the dynamic factor.\n\n\
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

/// A range of radii with what is rated there.
struct At {
    radii: Radii,
    rated: Rated,
}

/// What hangs below the boom and what the chart rates at each radius of the move.
pub(super) struct Working<'c> {
    gross: Gross,
    chart: Option<&'c Given<Chart>>,
    at: Option<Vec<At>>,
}

/// What is lifted, of what it is rated for, as far as that is known.
pub(super) struct Used {
    /// The share that is proved.
    pub(super) proved: Option<f64>,
    /// The share at the worst; `None` where that is not known.
    pub(super) worst: Option<f64>,
    /// What is lifted.
    pub(super) lifts: RatedForce,
    /// The rating at the worst; `None` where nothing is rated there.
    pub(super) rated: Option<RatedForce>,
}

impl Working<'_> {
    fn worst_at(&self) -> Option<&At> {
        let demand = self.gross.most().unwrap_or(self.gross.proved());
        let of = |at: &&At| share(demand, at.rated.least);
        self.at
            .as_ref()?
            .iter()
            .max_by(|a, b| of(a).total_cmp(&of(b)))
    }

    /// The shares over all radii.
    pub(super) fn used(&self) -> Used {
        let most = self.gross.most();
        let worst_at = self.worst_at();
        Used {
            proved: self.at.as_ref().map(|at| {
                let shares = at
                    .iter()
                    .map(|at| share(self.gross.proved(), at.rated.most));
                shares.fold(0.0, f64::max)
            }),
            worst: worst_at
                .zip(most)
                .map(|(at, most)| share(most, at.rated.least)),
            lifts: RatedForce::from_mass(most.unwrap_or(self.gross.proved())),
            rated: worst_at.and_then(|at| at.rated.least),
        }
    }
}

fn share(mass: Mass, rated: Option<RatedForce>) -> f64 {
    rated.map_or(f64::MAX, |rated| {
        RatedForce::from_mass(mass).si() / rated.si()
    })
}

/// Asks for all that a crane's work rests on.
pub(super) fn working<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    name: &str,
    set_up: &'c SetUp,
) -> Working<'c> {
    let mut gross = gross::load_and_legs(case, ask);
    gross::ring(case, ask, &mut gross);
    let crane = ask
        .value("which crane it is", &set_up.crane, |crane| {
            words(&crane.name)
        })
        .and_then(|crane| ask.entry::<Crane, _>(&crane.value));
    let chart = crane.and_then(|(declared, crane)| {
        deductions(ask, declared.name(), crane, &mut gross);
        chart(ask, declared.name(), crane, set_up)
    });
    if crane.is_none() {
        gross.unknown();
    }
    let all = worked_radii(case, ask, name, set_up);
    // Where its own hook stands, and so its radius, is not calculated for one of several machines.
    let at = chart
        .zip(all.filter(|_| case.all_hung_from().len() < 2))
        .and_then(|(chart, all)| rated(ask, chart, all));
    Working { gross, chart, at }
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

fn deductions<'c>(ask: &mut Ask<'c>, name: &str, crane: &'c Crane, gross: &mut Gross) {
    let what = format!("what the chart of {name} deducts");
    let deducts = ask.value(&what, &crane.deducts, |deducts| {
        let names: Vec<_> = deducts.0.iter().map(|(name, _)| &**name).collect();
        words(&if names.is_empty() {
            "nothing".to_owned()
        } else {
            names.join(", ")
        })
    });
    let Some(deducts) = deducts else {
        gross.unknown();
        return;
    };
    for (part, mass) in &deducts.value.0 {
        let band = ask.part(
            &format!("mass of {part} of {name}"),
            deducts,
            part,
            Some(mass),
            Hurts::High,
        );
        gross.add(&**part, band, 1);
    }
}

/// The one chart that holds for the configuration.
fn chart<'c>(
    ask: &mut Ask<'c>,
    name: &str,
    crane: &'c Crane,
    set_up: &'c SetUp,
) -> Option<&'c Given<Chart>> {
    let config = ask.value("how the crane is set up", &set_up.config, |config| {
        words(&config.words())
    })?;
    let mut others = Vec::new();
    let mut found: Vec<(&str, &Given<Chart>)> = Vec::new();
    for (chart, datum) in &crane.chart.members {
        match datum {
            Datum::Known(given) => {
                let differences = differences(&given.value.needs, &config.value);
                if differences.is_empty() {
                    found.push((chart, given));
                } else {
                    others.push(format!("{chart} is for {differences}"));
                }
            }
            Datum::Lacking(lacking) => ask.lacks(
                format!("chart {chart} of {name}"),
                lacking.lack,
                &lacking.origin,
                "mend the chart: it may be the one that holds",
            ),
        }
    }
    if let [(chart, given)] = found[..] {
        ask.used(&format!("chart of {name}"), chart, &given.origin);
        ask.verified(
            &format!("chart {chart} of {name}"),
            &given.pedigree,
            &given.origin,
        );
        return Some(given);
    }
    let (what, mend) = if found.is_empty() {
        let mend = if others.is_empty() {
            String::new()
        } else {
            others.join("; ")
        };
        (
            format!("a chart of {name} for {}", config.value.words()),
            mend,
        )
    } else {
        let names: Vec<_> = found.iter().map(|(chart, _)| *chart).collect();
        (
            format!("which chart of {name} holds: {}", names.join(" and ")),
            "let each chart name all that it needs".into(),
        )
    };
    ask.lacks(what, Lack::NotFound, &config.origin, mend);
    None
}

fn differences(needs: &Configuration, config: &Configuration) -> String {
    config.differences(needs).join(", ")
}

fn worked_radii<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    name: &str,
    set_up: &'c SetUp,
) -> Option<Vec<Radii>> {
    let posed = pose::ask(case, ask);
    posed.ask_least_mass(case, ask);
    let stations: Vec<_> = hook::stations(case, ask)
        .iter()
        .enumerate()
        .map(|(index, row)| ask.place(&format!("place of station {}", index + 1), &row.at))
        .collect();
    let centre = ask.place_once(&format!("place of {name}"), &set_up.at);
    let heading = case
        .moves()
        .and_then(|moves| ask.exact::<Heading>("heading of the load", &moves.heading));
    let aside = posed
        .worst
        .and_then(aside)
        .filter(|_| posed.hanging.complete)?;
    let offset = heading.map_or_else(|| any_way(aside), |heading| turned(aside, heading));
    radii(&stations, centre.as_ref()?, offset).filter(|radii| !radii.is_empty())
}

/// What the chart rates at each of the radii.
fn rated(ask: &mut Ask<'_>, chart: &Given<Chart>, all: Vec<Radii>) -> Option<Vec<At>> {
    let cells: Vec<_> = chart.value.cells.iter().map(|cell| cell.cell).collect();
    let mut out = Vec::with_capacity(all.len());
    for radii in all {
        let (low, high) = (Length::from_si(radii.low), Length::from_si(radii.high));
        match rated_between(&cells, low, high) {
            Ok(rated) => out.push(At { radii, rated }),
            Err(why) => {
                let (cell, say) = match why {
                    NoChart::NotInOrder(cell) => {
                        (Some(cell), "its radii grow from cell to cell, above zero")
                    }
                    NoChart::NotPositive(cell) => (
                        Some(cell),
                        "a rating is above zero; leave the cell empty where nothing is rated",
                    ),
                    NoChart::Empty => (None, "it has at least one cell"),
                    NoChart::NoRange => (None, "the radii of the move could not be told"),
                };
                let cell = cell.and_then(|cell| chart.value.cells.get(cell));
                let origin = cell.map_or(&chart.origin, |cell| &cell.origin);
                ask.lacks("a chart that can be read", Lack::OutOfRange, origin, say);
                return None;
            }
        }
    }
    Some(out)
}

fn conclude(case: &Case, mut draft: Draft, name: &str, working: &Working<'_>) -> Aspect {
    let force = RatedForce::from_mass;
    let worst_at = working.worst_at();
    let used = working.used();
    let gross = &working.gross;
    let most = gross.most();
    let reach = Reach {
        proved: used.proved,
        worst: used.worst,
    };
    let verdict = draft.judge(reach);
    let demand = most.unwrap_or(gross.proved());
    let rated = worst_at.and_then(|at| at.rated.least);
    let printer = case.printer;
    if let Some(at) = worst_at {
        draft.state.clone_from(&at.radii.at);
        let stations = case.moves().and_then(|moves| moves.stations.known());
        let row = stations.and_then(|stations| stations.value.0.get(at.radii.station));
        if let Some(row) = row {
            draft.primary = row.origin.clone();
        }
        draft.book.0.push(Step::Method(Method {
            say: format!("the lowest rating over the radii {}", at.radii.at),
            residual: None,
            results: vec![
                ("shortest radius".into(), length(at.radii.low)),
                ("longest radius".into(), length(at.radii.high)),
            ]
            .into_iter()
            .chain(rated.map(|rated| ("rated".into(), Amount::of(rated))))
            .collect(),
            basis: READING,
        }));
    }
    let headline = match (&verdict, worst_at) {
        (Verdict::CannotTell(missing), _) => cannot_tell("what its chart rates", missing),
        (_, Some(at)) => say(name, at, demand, printer),
        _ => name.to_owned(),
    };
    if let (Verdict::Over, Some(at)) = (&verdict, worst_at) {
        draft.mends.push(mend(at, demand, printer));
    }
    let numbers = Numbers::at_most(Some(Amount::of(force(demand))), rated.map(Amount::of));
    draft.finish(verdict, headline, numbers)
}

fn length(metres: f64) -> Amount {
    Amount::of(Length::from_si(metres))
}

fn say(name: &str, at: &At, demand: Mass, printer: Printer) -> String {
    let radius = |metres: f64, round| printer.metric(length(metres), round);
    let place = &at.radii.at;
    let Some(rated) = at.rated.least else {
        return format!(
            "{name} works outside its chart {place}: at a radius of {} to {}",
            radius(at.radii.low, Round::Down),
            radius(at.radii.high, Round::Up)
        );
    };
    let demand = RatedForce::from_mass(demand);
    format!(
        "{name} lifts {} of {} at a radius of up to {} {place} ({})",
        printer.amount(Amount::of(demand), Round::Up),
        printer.amount(Amount::of(rated), Round::Down),
        radius(at.radii.high, Round::Up),
        Printer::utilisation(demand.si() / rated.si()),
    )
}

fn mend(at: &At, demand: Mass, printer: Printer) -> String {
    match at.rated.least {
        Some(rated) => {
            let much = Mass::from_si(demand.si() - rated.mass().si());
            let much = printer.amount(Amount::of(much), Round::Up);
            format!("{much} less below the boom would pass there, or a shorter radius")
        }
        None => {
            "a radius that the chart rates would pass, or the chart of another configuration".into()
        }
    }
}
