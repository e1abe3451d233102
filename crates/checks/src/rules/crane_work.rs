//! What hangs below the boom of a mobile crane and what its chart rates at each radius of the move: shared by the rules
//! for its chart and for the class of the lift.

use super::chart_radius::{Radii, radii};
use super::gross::{self, Gross};
use super::held;
use super::hook;
use super::hook_place::{Offset, Side, any_way, aside, sides, turned};
use super::pose;
use plumbhook_mechanics::load_chart::{NoChart, Rated, rated_between};
use plumbhook_model::ask::{Ask, Hurts, words};
use plumbhook_model::entries::{Crane, SetUp};
use plumbhook_model::values::{Chart, Configuration};
use plumbhook_model::{Case, Datum, Given, Holding, Placed, Pull};
use plumbhook_sheet::Lack;
use plumbhook_units::{Heading, Length, Measured, RatedForce};

/// A range of radii with what is rated there.
pub(super) struct At {
    /// The radii.
    pub(super) radii: Radii,
    /// What is rated over them.
    pub(super) rated: Rated,
    /// What is rated over those that are proved to be reached, where some are.
    reached: Option<Rated>,
}

/// What hangs below the boom, what may be pulled there, and what the chart rates at each radius of the move.
pub(super) struct Working<'c> {
    pub(super) gross: Gross,
    pub(super) chart: Option<&'c Given<Chart>>,
    pub(super) pull: Pull,
    /// The last station at which the load may be held; `None` where nobody says.
    held_to: Option<usize>,
    at: Option<Vec<At>>,
}

/// What is lifted, of what it is rated for, as far as that is known.
pub(super) struct Used {
    /// The share that is proved.
    pub(super) proved: Option<f64>,
    /// The share at the worst; `None` where that is not known.
    pub(super) worst: Option<f64>,
    /// What is lifted, or pulled while the load is held.
    pub(super) lifts: RatedForce,
    /// The rating at the worst; `None` where nothing is rated there.
    pub(super) rated: Option<RatedForce>,
}

impl Working<'_> {
    /// What hangs at the most, or as far as it is known.
    pub(super) fn hangs(&self) -> RatedForce {
        RatedForce::from_mass(self.gross.most().unwrap_or(self.gross.proved()))
    }

    /// The limit of the pull, where the load may still be held at those radii and more hangs at no time.
    pub(super) fn held(&self, at: &At) -> Option<RatedForce> {
        let held = self.held_to.is_none_or(|last| at.radii.station <= last);
        let limit = self.pull.while_held().filter(|_| held)?;
        (limit > self.hangs()).then_some(limit)
    }

    /// The lowest rating over the radii at which the load may still be held.
    pub(super) fn least_while_held(&self) -> Option<RatedForce> {
        let held = self
            .at
            .iter()
            .flatten()
            .filter(|at| self.held(at).is_some());
        held.filter_map(|at| at.rated.least)
            .min_by(|a, b| a.si().total_cmp(&b.si()))
    }

    /// What acts at those radii at the worst.
    pub(super) fn acts(&self, at: &At) -> RatedForce {
        self.held(at).unwrap_or(self.hangs())
    }

    /// What is proved to act there: a load is held where it begins, further on only as long as it may be.
    fn proved(&self, at: &At) -> RatedForce {
        let hangs = RatedForce::from_mass(self.gross.proved());
        if self.pull.holding == Holding::Held && at.radii.station == 0 {
            held::acts(self.pull, hangs)
        } else {
            hangs
        }
    }

    /// The share that is proved there: over all radii that are reached, or, where none is told, over some of the range.
    fn proved_share(&self, at: &At) -> f64 {
        let rated = at.reached.map_or(at.rated.most, |reached| reached.least);
        share(self.proved(at), rated)
    }

    /// Where the most of its rating is used; of places alike, where more is proved.
    pub(super) fn worst_at(&self) -> Option<&At> {
        let of = |at: &At| share(self.acts(at), at.rated.least);
        let proved = |at: &At| self.proved_share(at);
        self.at.as_ref()?.iter().max_by(|a, b| {
            let worse = of(a).total_cmp(&of(b));
            worse.then(proved(a).total_cmp(&proved(b)))
        })
    }

    /// The shares over all radii.
    pub(super) fn used(&self) -> Used {
        let worst_at = self.worst_at();
        Used {
            proved: self.at.as_ref().map(|at| {
                let shares = at.iter().map(|at| self.proved_share(at));
                shares.fold(0.0, f64::max)
            }),
            worst: worst_at
                .filter(|_| self.gross.most().is_some())
                .map(|at| share(self.acts(at), at.rated.least)),
            lifts: worst_at.map_or(self.hangs(), |at| self.acts(at)),
            rated: worst_at.and_then(|at| at.rated.least),
        }
    }
}

fn share(acts: RatedForce, rated: Option<RatedForce>) -> f64 {
    rated.map_or(f64::MAX, |rated| acts.si() / rated.si())
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
    Working {
        gross,
        chart,
        pull: ask.pull(),
        held_to: held::last_station(case),
        at,
    }
}

/// Adds what a chart deducts: it hangs below the boom or stands on the crane.
pub(super) fn deductions<'c>(ask: &mut Ask<'c>, name: &str, crane: &'c Crane, gross: &mut Gross) {
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
    let places = hook_places(case, ask, name, set_up)?;
    radii(
        &places.stations,
        &places.centre,
        places.offset,
        &places.sides,
    )
    .filter(|radii| !radii.is_empty())
}

/// Where the stations are, the centre of slewing, and how far the hook stands aside.
pub(super) struct HookPlaces {
    pub(super) stations: Vec<Option<Placed>>,
    pub(super) centre: Placed,
    pub(super) offset: [Offset; 2],
    /// The places aside of the origin, on each of which it stands somewhere for sure.
    sides: Vec<Side>,
}

/// Asks for where the hook comes; `None` where that is not known.
pub(super) fn hook_places<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    name: &str,
    set_up: &'c SetUp,
) -> Option<HookPlaces> {
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
    Some(HookPlaces {
        stations,
        centre: centre?,
        offset,
        sides: sides(aside, heading),
    })
}

/// What the chart rates at each of the radii.
fn rated(ask: &mut Ask<'_>, chart: &Given<Chart>, all: Vec<Radii>) -> Option<Vec<At>> {
    let cells: Vec<_> = chart.value.cells.iter().map(|cell| cell.cell).collect();
    let mut out = Vec::with_capacity(all.len());
    for radii in all {
        let (low, high) = (Length::from_si(radii.low), Length::from_si(radii.high));
        match rated_between(&cells, low, high) {
            Ok(rated) => {
                let reached = radii.reached.map(|(low, high)| {
                    rated_between(&cells, Length::from_si(low), Length::from_si(high))
                });
                out.push(At {
                    radii,
                    rated,
                    reached: reached.and_then(Result::ok),
                });
            }
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
