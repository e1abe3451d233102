//! A mobile crane where it is set up, as something that stands on pads: shared by the rules for what carries it.

use super::chart_radius::boxes;
use super::crane_statics::{Machine, Worst, turned};
use super::crane_work::{deductions, hook_places};
use super::{gross, tiers};
use plumbhook_mechanics::Interval;
use plumbhook_mechanics::standing::{NoShare, Weighs};
use plumbhook_model::ask::{Ask, Asked, Hurts, words};
use plumbhook_model::entries::{Crane, Floor, SetUp};
use plumbhook_model::values::{Pads, PartWeighs};
use plumbhook_model::{
    Case, Datum, Declared, Given, Members, Pressed, Pushes, SetDown, pad_size, place_pads,
};
use plumbhook_sheet::{Basis, InputValue, Lack, Method, Stage, Step};
use plumbhook_units::{Amount, Band, Force, Heading, Length, Measured};
use std::sync::Arc;

/// Every mobile crane of the move, where it stands, and what keeps from knowing whether there are more.
pub(super) fn cranes(case: &Case) -> (Vec<SetDown>, Asked) {
    let mut ask = Ask::new(case);
    let by = case.moves().and_then(|moves| {
        ask.value("what the move is done by", &moves.by, |by| {
            words(&by.words())
        })
    });
    let mut cranes = Vec::new();
    for hung in by.map_or(&[][..], |by| &by.value.0) {
        if let Some((declared, set_up)) = case.find::<SetUp, _>(&hung.machine) {
            cranes.push(stands(case, declared, set_up));
        } else if case.entry(&hung.machine).is_none() {
            let _ = ask.entry::<SetUp, _>(&hung.machine);
        }
    }
    (cranes, ask.asked)
}

fn stands(case: &Case, declared: &Arc<Declared>, set_up: &SetUp) -> SetDown {
    let mut ask = Ask::new(case);
    ask.due = Stage::Bid;
    let name = declared.name();
    let floor = ask
        .value(&format!("the ground under {name}"), &set_up.on, |on| {
            words(&on.name)
        })
        .and_then(|on| ask.entry::<Floor, _>(&on.value))
        .map(|(floor, _)| Arc::clone(floor));
    let at = ask.place_once(&format!("place of {name}"), &set_up.at);
    let heading = ask.exact::<Heading>(&format!("heading of {name}"), &set_up.heading);
    let pads = ask.value(&format!("pads of {name}"), &set_up.pads, |pads| {
        words(&format!("{} pads", pads.points.len()))
    });
    let size = pad_size(&mut ask, name, pads);
    let pads_asked = ask.asked.clone();
    let standing = at
        .as_ref()
        .zip(heading)
        .zip(pads)
        .map(|((at, heading), pads)| place_pads(pads, at, heading));
    let mat = if set_up.presses.is_absent() {
        ask.band(
            &format!("mass of the mat under each pad of {name}"),
            &set_up.mat,
            Hurts::High,
        )
    } else {
        Band::unknown()
    };
    let pressed = pressed(case, &mut ask, name, set_up, heading.zip(pads), mat);
    SetDown {
        pressed: Some(pressed),
        stand: Arc::clone(declared),
        floor,
        origin: set_up.on.datum.origin().clone(),
        pads_asked,
        pads: standing.unwrap_or_default(),
        pads_origin: set_up.pads.datum.origin().clone(),
        size,
        load: Band::unknown(),
        own: mat,
        dynamic: None,
        shares: None,
        asked: ask.asked,
    }
}

fn pressed<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    name: &str,
    set_up: &'c SetUp,
    standing: Option<(Heading, &'c Given<Pads>)>,
    mat: Band<plumbhook_units::Mass>,
) -> Pressed {
    let mut it = Pressed {
        proved: None,
        worst: None,
        tips: None,
        state: "as its maker gives it".into(),
        steps: vec![],
    };
    if !set_up.presses.is_absent() {
        let what = format!("what {name} presses by its maker");
        let given = ask.value(&what, &set_up.presses, |limit| {
            InputValue::Exact(Amount::of(limit.0))
        });
        if let Some(given) = given {
            ask.verified(&what, &given.pedigree, &given.origin);
            it.proved = Some(Pushes::Pressure(given.value.0));
            it.worst = it.proved;
        }
        return it;
    }
    let known = mat.hi().is_some();
    if !set_up.pad_reaction.is_absent() {
        let what = format!("the largest reaction of a pad of {name} by its maker");
        let given = ask.value(&what, &set_up.pad_reaction, |limit| {
            InputValue::Exact(Amount::of(limit.0))
        });
        if let Some(given) = given {
            ask.verified(&what, &given.pedigree, &given.origin);
            let force = Force::from_si(given.value.0.si());
            it.proved = Some(Pushes::Force(force));
            it.worst = it.proved.filter(|_| known);
        }
        return it;
    }
    if set_up.fixed.members.is_empty() && set_up.slewing.members.is_empty() {
        ask.lacks(
            format!("what {name} leaves on its pads"),
            Lack::Absent,
            set_up.pad_reaction.datum.origin(),
            "write `pad-reaction at most … t` or `presses at most … kPa` from the maker's documents for this \
             configuration, or each part of it under `fixed` and `slewing`, and `parts-listed yes`",
        );
        return it;
    }
    let machine = machine(case, ask, name, set_up, standing);
    let Some((machine, hooks, complete)) = machine else {
        return it;
    };
    by_statics(&mut it, ask, &machine, &hooks, standing);
    if !complete {
        // What is not listed may weigh on either side.
        (it.proved, it.tips) = (None, None);
    }
    it.worst = it.worst.filter(|_| complete && known);
    it
}

/// What statics says of it; that it may tip at the worst, and not in the middle, is noted as no answer.
fn by_statics(
    it: &mut Pressed,
    ask: &mut Ask<'_>,
    machine: &Machine,
    hooks: &[super::chart_radius::Seen],
    standing: Option<(Heading, &Given<Pads>)>,
) {
    let pad = |worst: &Worst| {
        let pads = standing.map(|(_, pads)| &pads.value.points);
        let point = pads.and_then(|points| points.get(worst.pad));
        point.map_or_else(String::new, |point| point.name.to_string())
    };
    match machine.in_the_middle(hooks) {
        Ok(worst) => it.proved = worst.map(|worst| Pushes::Force(worst.force)),
        Err((state, why @ NoShare::Tips { .. })) => {
            it.state.clone_from(&state);
            it.tips = Some(format!("{state}, with everything at its middle, {why}"));
            return;
        }
        Err(_) => {}
    }
    match machine.worst(hooks) {
        Ok(Some(worst)) => {
            it.state = format!("pad {}, {}", pad(&worst), worst.state);
            it.steps.push(Step::Method(Method {
                say: format!(
                    "the largest reaction of one pad over the whole move and turned all round without a load: the \
                     worst share that any three pads could leave, {}",
                    worst.state
                ),
                residual: None,
                results: vec![("pad_reaction".into(), Amount::of(worst.force))],
                basis: Basis::STATICS,
            }));
            it.worst = Some(Pushes::Force(worst.force));
        }
        Ok(None) => {}
        Err((state, why)) => {
            let origin = standing.map_or_else(|| ask.case().hanging_home(), |s| s.1.origin.clone());
            ask.lacks(
                format!("what its pads carry {state}: at the worst side of every band {why}"),
                Lack::NoAnswer,
                &origin,
                "set the pads further out, or know the masses and their places better",
            );
        }
    }
}

/// The crane with all that weighs, where its hook comes, and whether all of it is known.
fn machine<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    name: &str,
    set_up: &'c SetUp,
    standing: Option<(Heading, &'c Given<Pads>)>,
) -> Option<(Machine, Vec<super::chart_radius::Seen>, bool)> {
    tiers::refuse_several(
        case,
        ask,
        "the place of the hook, and so what the pads carry,",
    );
    let listed = ask.value(
        &format!("whether the parts of {name} are the whole of it"),
        &set_up.parts_listed,
        |fact| words(if fact.0 { "yes" } else { "no" }),
    );
    let listed = listed.is_some_and(|given| {
        if !given.value.0 {
            ask.lacks(
                format!("the parts of {name} that are not listed"),
                Lack::Unknown,
                &given.origin,
                "list every part of it, then say `parts-listed yes`",
            );
        }
        given.value.0
    });
    let fixed = parts(ask, name, &set_up.fixed);
    let slewing = parts(ask, name, &set_up.slewing);
    let mut hangs = gross::load_and_legs(case, ask);
    gross::ring(case, ask, &mut hangs);
    let crane = ask
        .value("which crane it is", &set_up.crane, |crane| {
            words(&crane.name)
        })
        .and_then(|crane| ask.entry::<Crane, _>(&crane.value));
    let load = hangs.most();
    let crane = crane.map(|(declared, crane)| deductions(ask, declared.name(), crane, &mut hangs));
    let dynamic = ask.dynamic_factor();
    let places = hook_places(case, ask, name, set_up);
    let (heading, pads) = standing?;
    let places = places?;
    let back = Heading::from_si(-heading.si());
    let hooks = boxes(&places.stations, &places.centre, places.offset)?;
    let all = hangs.most()?;
    let factor = dynamic?;
    crane?;
    let machine = Machine {
        pads: pads
            .value
            .points
            .iter()
            .map(|p| [p.at[0], p.at[1]])
            .collect(),
        fixed: fixed?,
        slewing: slewing?,
        hangs: factor * all.si(),
        block: factor * (all.si() - load?.si()).max(0.0),
    };
    let hooks = hooks.into_iter().map(|hook| turned(hook, back)).collect();
    let one = case.all_hung_from().len() < 2;
    Some((machine, hooks, listed && one))
}

/// Every part with both sides known; `None` where one is not, which is noted.
fn parts<'c>(
    ask: &mut Ask<'c>,
    name: &str,
    members: &'c Members<PartWeighs>,
) -> Option<Vec<Weighs>> {
    let mut all = Some(Vec::new());
    for (part, datum) in &members.members {
        let given = match datum {
            Datum::Known(given) => given,
            Datum::Lacking(lacking) => {
                ask.lacks(
                    format!("what {part} of {name} weighs, and where"),
                    lacking.lack,
                    &lacking.origin,
                    "as `20 t +/- 2 %, x -3.50 m +/- 50 mm, y 0 +/- 20 mm`",
                );
                all = None;
                continue;
            }
        };
        let value = &given.value;
        let what = format!("mass of {part} of {name}");
        let mass = ask.part(&what, given, "mass", Some(&value.mass), Hurts::Both);
        let [x, y] = ["x", "y"].map(|axis| {
            let band = if axis == "x" {
                value.at[0]
            } else {
                value.at[1]
            };
            let what = format!("{part} of {name} along {axis}");
            closed(ask.part::<Length, _>(&what, given, axis, Some(&band), Hurts::Both))
        });
        let (Some(mass), Some(x), Some(y)) = (closed(mass), x, y) else {
            all = None;
            continue;
        };
        if let Some(all) = &mut all {
            all.push(Weighs { mass, at: [x, y] });
        }
    }
    all
}

fn closed<T: Measured>(band: Band<T>) -> Option<Interval<T>> {
    band.both().map(|(lo, hi)| Interval { lo, hi })
}
