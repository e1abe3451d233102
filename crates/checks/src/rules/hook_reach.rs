//! `hook-reach`: where the hook has to be in plan at each station, against where it reaches.

use super::beyond::{Beyond, End, Way, reduce};
use super::hook::{self, HookUse};
use super::hook_place::{Offset, any_way, aside, aside_of_ring, turned};
use super::pose::{self, Posed};
use crate::draft::{Numbers, cannot_tell};
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::entries::SetUp;
use plumbhook_model::values::{AXES, Station};
use plumbhook_model::{Case, Placed};
use plumbhook_sheet::{Aspect, Basis, Lack, Origin, Step, Verdict};
use plumbhook_units::{Amount, Heading, Length, Measured, Printer, Round};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "hook-reach",
    summary: "At every station the hook stands where its machine can take it.",
    explanation: "\
A station is where the origin of the load's frame is in plan; what its place counts from (a grid line, a named \
place) may carry a tolerance, which is taken at its worse end. The hook stands plumb above the centre of gravity, \
so it stands aside from that origin by as much as the load hangs aside, turned by the heading of the move; each of \
several hooks stands plumb above its own ring instead, wherever the load takes that in all poses its bands allow. Where \
every station lies inside even with that turned any way, no heading is needed. The ends of the reach are taken in \
by the accuracy of their source.\n\n\
Mends: another place for the station, another heading, a machine that reaches.",
    basis: &[Basis::GEOMETRY, Basis::STATICS],
    inputs: &[
        ("centre of gravity", Hurts::Both),
        ("length of each piece", Hurts::Both),
        ("stiffness of each sling", Hurts::Both),
        ("mass of the load", Hurts::Both),
        ("place of the station", Hurts::Both),
        ("heading of the load", Hurts::Both),
        ("reach of the hook", Hurts::Low),
    ],
    may_lack: &[(
        "stiffness",
        "legs of which nobody says how stiff they are, are judged by every way of sharing alone",
    )],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "the last station lies past the end of the runway",
            subject: "bridge.main",
            change: &[("reaches x 2.0 m .. 22.0 m", "reaches x 2.0 m .. 17.5 m")],
        }),
        Outcome::Shown(Example {
            say: "every station lies inside",
            subject: "bridge.main",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "nobody says how exact the ends of the reach are",
            subject: "bridge.main",
            change: &[("  accuracy   15 mm\n", "")],
        }),
        Outcome::Shown(Example {
            say: "the load hangs from nothing and only stands",
            subject: "hook",
            change: &[("by         bridge with chains-of-three", "by         none")],
        }),
    ],
    check,
};

/// One end of the reach at one station, along one axis.
#[derive(Clone, Copy)]
struct Along {
    station: usize,
    axis: usize,
}

type Place = Beyond<Along>;

/// A station, and where it is in the plant's frame; `None` where that is not known.
struct At<'c> {
    row: &'c Station,
    place: Option<Placed>,
}

fn check(case: &Case) -> Vec<Aspect> {
    let home = hook::home(case);
    if case.only_stands() {
        let draft = Draft::new("hook", home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let hooks = case.all_hung_from().len().max(1);
    (0..hooks)
        .map(|number| one(case, home.clone(), number))
        .collect()
}

/// The mobile crane that one of the hooks is of, by name.
fn mobile_crane(case: &Case, number: usize) -> Option<&str> {
    match case.all_hung_from() {
        // Of several machines each speaks for its own hook alone.
        all @ [_, _, ..] => {
            let found = case.find::<SetUp, _>(&all.get(number)?.machine);
            found.map(|(declared, _)| declared.name())
        }
        _ => hook::mobile_crane(case),
    }
}

fn one(case: &Case, home: Origin, number: usize) -> Aspect {
    if let Some(name) = mobile_crane(case, number) {
        let of_one = case.all_hung_from().len() < 2;
        let subject = if of_one {
            "hook".to_owned()
        } else {
            format!("hook of {name}")
        };
        let draft = Draft::new(subject, home, Asked::default(), case.printer);
        return draft.does_not_apply(&format!("how far {name} reaches, its chart says"));
    }
    let mut ask = Ask::new(case);
    let posed = pose::ask(case, &mut ask);
    posed.ask_least_mass(case, &mut ask);
    let hook = hook::hook(case, &mut ask, number);
    let stations: Vec<_> = hook::stations(case, &mut ask)
        .iter()
        .enumerate()
        .map(|(index, row)| At {
            row,
            place: ask.place(&format!("place of station {}", index + 1), &row.at),
        })
        .collect();
    let stations = &stations[..];
    let ends = reach_of(&mut ask, hook.as_ref());
    let aside = posed.worst.and_then(|worst| {
        if case.all_hung_from().len() < 2 {
            return aside(worst);
        }
        aside_of_ring(worst, hook.as_ref()?.body?)
    });
    let known = posed.hanging.complete;
    let any_way = places(stations, ends, aside.map(any_way), known);
    // Where every station lies inside whichever way the load is turned, its heading is no input.
    let (reach, _) = reduce(&any_way);
    let settled = reach.worst.is_some_and(|worst| worst <= 1.0);
    let places = if settled {
        any_way
    } else {
        match heading(case, &mut ask) {
            Some(heading) => places(stations, ends, aside.map(|a| turned(a, heading)), known),
            None => any_way,
        }
    };
    let name = hook.as_ref().map_or("hook", |hook| hook.name);
    let mut draft = Draft::new(name, home, ask.asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    conclude(draft, &posed, hook.as_ref(), stations, &places)
}

fn heading<'c>(case: &'c Case, ask: &mut Ask<'c>) -> Option<Heading> {
    ask.exact::<Heading>("heading of the load", &case.moves()?.heading)
}

/// The ends of the reach along x and y, low and high; each `None` where it is not known how far it really is.
fn reach_of(ask: &mut Ask<'_>, hook: Option<&HookUse<'_>>) -> [[Option<f64>; 2]; 2] {
    let Some(hook) = hook else {
        return [[None; 2]; 2];
    };
    [0, 1].map(|axis| {
        let letter = AXES.get(axis).copied().unwrap_or_default();
        let what = format!("reach of {} along {letter}", hook.name);
        let label = format!("reaches {letter}");
        let range = hook.given.value.reach.get(axis).copied().flatten();
        let range = range.filter(|range| range.nominal.is_none());
        // On the sheet as stated; its ends are no bounds until it is known how exact they are.
        let stated = ask.part(&what, hook.given, &label, range.as_ref(), Hurts::Both);
        if range.is_none() {
            return [None; 2];
        }
        match ask.accuracy(&what, &hook.given.pedigree) {
            Some(accuracy) if accuracy >= 0.0 => [
                stated.lo().map(|low| low.si() + accuracy),
                stated.hi().map(|high| high.si() - accuracy),
            ],
            _ => {
                ask.lacks(
                    format!("{what}: how exact its ends are"),
                    Lack::OneSided,
                    &hook.given.origin,
                    "say `from` a source that states its `accuracy`",
                );
                [None; 2]
            }
        }
    })
}

/// Every end of the reach at every station.
fn places(
    stations: &[At<'_>],
    ends: [[Option<f64>; 2]; 2],
    offset: Option<[Offset; 2]>,
    known: bool,
) -> Vec<Place> {
    let mut places = Vec::new();
    for (station, at) in stations.iter().enumerate() {
        for (axis, [low, high]) in ends.into_iter().enumerate() {
            let at = at.place.as_ref().and_then(|place| place.get(axis));
            let at = at.map(|at| (at.ends().0.si(), at.ends().1.si()));
            let offset = offset.and_then(|offset| offset.get(axis).copied());
            // Some place of the station's own band is as much proved as the ends of it are the worst.
            let sum =
                |of: fn((f64, f64)) -> f64,
                 offset: fn(Offset) -> (f64, f64),
                 by: Option<Offset>| { Some(of(at?) + of(offset(by?))) };
            let comes = |of: fn((f64, f64)) -> f64| End {
                proved: sum(of, |offset| offset.proved, offset),
                worst: sum(of, |offset| offset.worst, offset).filter(|_| known),
            };
            let limit = |end: Option<f64>| End {
                proved: end,
                worst: end,
            };
            let of = Along { station, axis };
            places.push(Beyond {
                of,
                way: Way::Up,
                comes: comes(|(_, high)| high),
                limit: limit(high),
            });
            places.push(Beyond {
                of,
                way: Way::Down,
                comes: comes(|(low, _)| low),
                limit: limit(low),
            });
        }
    }
    places
}

fn conclude(
    mut draft: Draft,
    posed: &Posed<'_>,
    hook: Option<&HookUse<'_>>,
    stations: &[At<'_>],
    places: &[Place],
) -> Aspect {
    let (reach, governing) = reduce(places);
    let verdict = draft.judge(reach);
    let name = hook.map_or("hook", |hook| hook.name);
    let at = governing.and_then(|place| stations.get(place.of.station));
    let length = |value: f64| Amount::of(Length::from_si(value));
    if let (Some(place), Some(at), Some(hook)) = (governing, at, hook) {
        draft.primary = at.row.origin.clone();
        draft.state = format!("station {}", place.of.station + 1);
        draft.relate(&hook.given.origin, "where the hook reaches");
        let extremes = posed.worst.and_then(|worst| match hook.body {
            Some(ring) => pose::beside(worst, ring),
            None => pose::aside(worst),
        });
        if let Some(aside) = extremes {
            let (least, most) = if place.of.axis == 0 {
                aside[0]
            } else {
                aside[1]
            };
            let larger = if least.value.si().abs() > most.value.si().abs() {
                least
            } else {
                most
            };
            draft.corner = posed.hanging.corner(larger);
            draft.relate_corner();
        }
        let along = at.place.as_ref().and_then(|at| at.get(place.of.axis));
        if let Some((comes, along)) = place.comes.shown().zip(along) {
            let (low, high) = along.ends();
            let at = if place.way == Way::Up { high } else { low };
            draft.book.0.push(Step::Sum {
                say: format!("the hook at station {}", place.of.station + 1),
                parts: vec![
                    ("the load's origin".into(), Amount::of(at)),
                    ("the hook aside from it".into(), length(comes - at.si())),
                ],
                total: length(comes),
            });
        }
        draft.mends = mend(place);
    }
    let headline = match (&verdict, governing) {
        (Verdict::CannotTell(missing), _) => {
            cannot_tell(&format!("whether {name} reaches every station"), missing)
        }
        (_, Some(place)) => say(&verdict, name, place),
        _ => name.to_owned(),
    };
    let shown = |end: fn(&Place) -> End| governing.and_then(|place| end(place).shown()).map(length);
    let numbers = Numbers {
        demand: shown(|place| place.comes),
        capacity: shown(|place| place.limit),
        utilisation: None,
    };
    draft.finish(verdict, headline, numbers)
}

/// "at station 3 the hook would have to be at x 22.31 m; bridge.main reaches x 21.98 m: 330 mm short".
fn say(verdict: &Verdict, name: &str, place: &Place) -> String {
    let (outward, inward) = (place.way.outward(), place.way.inward());
    let axis = AXES.get(place.of.axis).copied().unwrap_or_default();
    let offset_text = |end: End, round| {
        let end = end.shown().unwrap_or_default();
        let metric = Printer::default().metric(Amount::of(Length::from_si(end)), round);
        format!("{axis} {metric}")
    };
    let (comes, reaches) = (
        offset_text(place.comes, outward),
        offset_text(place.limit, inward),
    );
    let number = place.of.station + 1;
    if *verdict == Verdict::Over {
        format!(
            "at station {number} the hook would have to be at {comes}; {name} reaches {reaches}: {} short",
            by(place)
        )
    } else {
        format!(
            "{name} reaches every station; nearest to its end is station {number}, {comes} where it reaches to {reaches}"
        )
    }
}

fn by(place: &Place) -> String {
    let by = place.by().shown().unwrap_or_default().abs();
    Printer::default().metric(Amount::of(Length::from_si(by)), Round::Up)
}

fn mend(place: &Place) -> Vec<String> {
    let axis = AXES.get(place.of.axis).copied().unwrap_or_default();
    let toward = if place.way == Way::Up { '-' } else { '+' };
    vec![format!(
        "station {} moved {} toward {toward}{axis} would pass there",
        place.of.station + 1,
        by(place)
    )]
}
