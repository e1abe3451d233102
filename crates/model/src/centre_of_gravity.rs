//! The centre of gravity of a load with what is on it and in it, asked for axis by axis.

use crate::ask::{Ask, Hurts};
use crate::carried::{Extra, Where, extras};
use crate::entries::Load;
use crate::scope::Declared;
use crate::values::{AXES, Axes};
use crate::{Datum, Given};
use plumbhook_mechanics::Interval;
use plumbhook_mechanics::together::centre_together;
use plumbhook_sheet::{Lack, Origin};
use plumbhook_units::{Band, ClaimId, Length, Mass, Measured};

/// The centre of gravity of all that is carried, axis by axis, in the load's own frame. A tolerance is per axis: the
/// three bands are a box. Contents that do not say where they are may be anywhere in the load's outside.
pub fn centre_of_gravity(ask: &mut Ask<'_>, declared: &Declared, load: &Load) -> [Band<Length>; 3] {
    let own = of_claims(ask, declared, load);
    let name = declared.name();
    let extras: Vec<_> = extras(ask, name, load)
        .into_iter()
        .filter(|extra| extra.weight.mass.hi().is_none_or(|most| most.si() > 0.0))
        .collect();
    if extras.is_empty() {
        return own;
    }
    let dropped = ask.dropped(&format!("mass of {name}"), &load.mass, &load.adopt);
    let what = format!("mass of {name}");
    let mass = ask.claims_but(&what, &load.mass, &dropped, Hurts::High);
    let mut places = vec![(mass, own)];
    for extra in &extras {
        places.push((extra.weight.mass, place_of(ask, name, load, extra)));
    }
    let mut bands = [Band::unknown(); 3];
    for (axis, (band, letter)) in bands.iter_mut().zip(AXES).enumerate() {
        *band = together(&places, axis);
        let what = format!("cg {letter} of {name} with all that is on it and in it");
        ask.note_band(&what, *band, vec![], "");
    }
    bands
}

/// The range along one axis; unknown where any place or heavy end is. A light end that nobody states is not below
/// nothing.
fn together(places: &[(Band<Mass>, [Band<Length>; 3])], axis: usize) -> Band<Length> {
    let of = |(mass, place): &(Band<Mass>, [Band<Length>; 3])| {
        let (lo, hi) = place.get(axis)?.both()?;
        let mass = Interval {
            lo: mass.lo().unwrap_or(Mass::from_si(0.0)),
            hi: mass.hi()?,
        };
        Some((mass, Interval { lo, hi }))
    };
    let things: Option<Vec<_>> = places.iter().map(of).collect();
    things
        .and_then(|things| centre_together(&things))
        .map_or_else(Band::unknown, |found| {
            Band::within(found.lo, None, found.hi, ClaimId(0))
        })
}

/// Where a part or a content has its own centre of gravity.
fn place_of(ask: &mut Ask<'_>, name: &str, load: &Load, extra: &Extra<'_>) -> [Band<Length>; 3] {
    let what = format!("cg of {}", extra.weight.what);
    let axes = match &extra.cg {
        Where::At(axes) => axes,
        Where::Inside => return anywhere_inside(ask, name, load, &what),
        Where::NotSaid(lack) => {
            ask.lacks(
                what,
                *lack,
                &extra.weight.origin,
                "add `cg x 0 +/- 50 mm, y …, z …` in the load's frame",
            );
            return [Band::unknown(); 3];
        }
    };
    let mut bands = [Band::unknown(); 3];
    for ((band, axis), letter) in bands.iter_mut().zip(axes.0).zip(AXES) {
        *band = axis.map_or_else(Band::unknown, |axis| axis.band(ClaimId(0)));
        ask.note_band(
            &format!("{what}: {letter}"),
            *band,
            vec![extra.weight.origin.clone()],
            "",
        );
        if !band.is_known() {
            ask.lacks(
                format!("{what}: {letter}"),
                Lack::OneSided,
                &extra.weight.origin,
                format!("state both sides, as `{letter} 0 +/- 60 mm`"),
            );
        }
    }
    bands
}

fn anywhere_inside(ask: &mut Ask<'_>, name: &str, load: &Load, what: &str) -> [Band<Length>; 3] {
    let Some(shape) = load.shape.known() else {
        ask.lacks(
            format!("{what}: it may be anywhere in {name}, whose shape is not known"),
            Lack::Absent,
            load.shape.datum.origin(),
            "add `shape …` to the load, or say where its contents lie: `water 0 .. 300 kg cg x …, y …, z …`",
        );
        return [Band::unknown(); 3];
    };
    ask.used(what, format!("anywhere in {name}"), &shape.origin);
    let sides = shape.value.low.into_iter().zip(shape.value.high);
    let mut bands = [Band::unknown(); 3];
    for (band, (low, high)) in bands.iter_mut().zip(sides) {
        *band = Band::within(low, None, high, ClaimId(0));
    }
    bands
}

/// The united centre of gravity, axis by axis, of all claims of the load itself that no adoption drops.
fn of_claims(ask: &mut Ask<'_>, declared: &Declared, load: &Load) -> [Band<Length>; 3] {
    let name = declared.name();
    let mut bands = [Band::unknown(); 3];
    let mut origins = Vec::new();
    let mut pedigrees = Vec::new();
    if load.cg.lines.is_empty() {
        ask.lacks(
            format!("centre of gravity of {name}"),
            Lack::Absent,
            &load.cg.home,
            format!("add a line `cg …` to `{name}`: {}", load.cg.key.shape.say),
        );
        return bands;
    }
    let dropped = ask.dropped(
        &format!("centre of gravity of {name}"),
        &load.cg,
        &load.adopt,
    );
    let kept = || {
        let lines = load.cg.lines.iter().enumerate();
        lines.filter(|(index, _)| !dropped.contains(index))
    };
    for (index, line) in kept() {
        let claim = ClaimId(u32::try_from(index).unwrap_or(u32::MAX));
        match line {
            Datum::Known(given) => {
                origins.push(given.origin.clone());
                pedigrees.push(given.pedigree.words.clone());
                let axes = given.value.0.iter().zip(AXES);
                for (index, (band, (axis, letter))) in bands.iter_mut().zip(axes).enumerate() {
                    if let Some(axis) = axis {
                        let what = format!("cg {letter} of {name}");
                        let known = (&*given.pedigree, &given.origin);
                        let axis = if axis.expected {
                            ask.expected_cg(&what, index, known)
                        } else {
                            ask.closed(&what, axis, known.0, known.1)
                        };
                        *band = band.unite(axis.band(claim));
                    }
                }
            }
            Datum::Lacking(lacking) => ask.lacks(
                format!("centre of gravity of {name}"),
                lacking.lack,
                &lacking.origin,
                format!("a claim of it is not known: {}", load.cg.key.shape.say),
            ),
        }
    }
    pedigrees.retain(|words| !words.is_empty());
    let known = kept().filter_map(|(_, line)| line.known());
    note(
        ask,
        (name, known),
        &mut bands,
        &origins,
        &pedigrees.join("; "),
    );
    bands
}

fn note<'l>(
    ask: &mut Ask<'_>,
    (name, known): (&str, impl Iterator<Item = &'l Given<Axes>> + Clone),
    bands: &mut [Band<Length>; 3],
    origins: &[Origin],
    pedigree: &str,
) {
    for (band, axis) in bands.iter_mut().zip(AXES) {
        let what = format!("cg {axis} of {name}");
        if let Some(origin) = origins.first() {
            *band = ask.in_order(&what, *band, origin);
        }
        ask.note_band(&what, *band, origins.to_vec(), pedigree);
        let typed_unknown = known.clone().find(|given| {
            let mut axes = given.value.1.into_iter().zip(AXES);
            axes.any(|(unknown, of)| unknown && of == axis)
        });
        let what = format!("centre of gravity of {name}: {axis}");
        let typed = known.clone().any(|given| {
            let mut axes = given.value.0.iter().zip(AXES);
            axes.any(|(typed, of)| typed.is_some() && of == axis)
        });
        let (what, lack, origin) = match (typed_unknown, band.is_known(), origins.first()) {
            (Some(given), ..) => (what, Lack::Unknown, &given.origin),
            (None, false, Some(origin)) if typed => {
                let what = format!("centre of gravity of {name}: the tolerance of {axis}");
                (what, Lack::OneSided, origin)
            }
            (None, false, Some(origin)) => (what, Lack::OneSided, origin),
            (None, ..) => continue,
        };
        ask.lacks(
            what,
            lack,
            origin,
            format!("state both sides, as `{axis} 0 +/- 60 mm`"),
        );
    }
}
