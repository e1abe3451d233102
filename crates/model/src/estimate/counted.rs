//! A take-off: its lines as solids, and what they come to.

use super::Found;
use super::line::Line;
use crate::ask::Ask;
use crate::entries::Takeoff;
use crate::scope::Declared;
use crate::values::{AXES, Copies, PartLine};
use crate::{Datum, Given, Members};
use plumbhook_mechanics::Interval;
use plumbhook_mechanics::takeoff::{NoTakeOff, Part, Parts, TakenOff, take_off};
use plumbhook_sheet::{Basis, Book, Lack, Method, Origin, Step, Trail};
use plumbhook_units::{Amount, Mass, Measured};

pub(super) fn solve<'c>(
    ask: &mut Ask<'c>,
    declared: &Declared,
    takeoff: &'c Takeoff,
    book: &mut Book,
) -> Option<Found> {
    let name = declared.name();
    if takeoff.part.members.is_empty() {
        ask.lacks(
            format!("the parts of {name}"),
            Lack::Absent,
            &takeoff.part.home,
            format!(
                "add lines `part …` to `{name}`: {}",
                takeoff.part.key.shape.say
            ),
        );
    }
    let mut parts = Vec::new();
    let mut origins = Vec::new();
    for (called, given) in known(ask, name, &takeoff.part) {
        let made = part(ask, (name, called), takeoff, given);
        origins.push(given.origin.clone());
        parts.extend(made);
    }
    for (called, given) in known(ask, name, &takeoff.hole) {
        hole(ask, (name, called), given, &mut parts);
    }
    let left_out = left_out(ask, name, takeoff);
    if parts.len() < origins.len() || !ask.asked.missing.is_empty() {
        return None;
    }
    if sticking_out(ask, name, takeoff, &parts) {
        return None;
    }
    let parts = Parts {
        parts,
        left_out: left_out?,
    };
    match take_off(&parts) {
        Ok(found) => {
            show(ask, name, takeoff, &found, book);
            Some(Found {
                mass: (found.mass, found.middle_mass),
                cg: [0, 1, 2].map(|axis| Some((found.cg[axis], found.middle_cg[axis]))),
            })
        }
        Err(why) => {
            refused(ask, name, &why, &parts, &origins, &takeoff.part.home);
            None
        }
    }
}

/// The members that are known; the others are missing.
fn known<'m>(
    ask: &mut Ask<'_>,
    name: &str,
    members: &'m Members<PartLine>,
) -> Vec<(&'m str, &'m Given<PartLine>)> {
    let mut known = Vec::new();
    for (called, datum) in &members.members {
        match datum {
            Datum::Known(given) => known.push((&**called, given)),
            Datum::Lacking(lacking) => ask.lacks(
                format!("{} {called} of {name}", members.key.word),
                lacking.lack,
                &lacking.origin,
                format!("mend the line: {}", members.key.shape.say),
            ),
        }
    }
    known
}

fn part(
    ask: &mut Ask<'_>,
    (name, called): (&str, &str),
    takeoff: &Takeoff,
    given: &Given<PartLine>,
) -> Option<Part> {
    let line = Line {
        what: format!("{called} of {name}"),
        origin: &given.origin,
        pedigree: &given.pedigree,
    };
    let copies = line.pieces(ask, &given.value);
    let by_mass = matches!(given.value.form.word, "section" | "lump");
    let density = if by_mass {
        None
    } else {
        Some(line.density(ask, name, takeoff, &given.value)?)
    };
    if by_mass && let Some((of, origin)) = &given.value.of {
        // What it is made of says nothing here, and may be meant to.
        ask.used(&format!("{} is made of", line.what), &**of, origin);
    }
    Some(Part {
        name: called.to_owned(),
        copies: copies?,
        density,
        holes: vec![],
    })
}

fn hole(
    ask: &mut Ask<'_>,
    (name, called): (&str, &str),
    given: &Given<PartLine>,
    parts: &mut [Part],
) {
    let line = Line {
        what: format!("hole {called} of {name}"),
        origin: &given.origin,
        pedigree: &given.pedigree,
    };
    let pieces = line.pieces(ask, &given.value);
    let Some((host, origin)) = &given.value.host else {
        ask.lacks(
            format!("the part that hole {called} of {name} is cut from"),
            Lack::Absent,
            &given.origin,
            "name it first: `hole … in rim round …`",
        );
        return;
    };
    match parts.iter_mut().find(|part| *part.name == **host) {
        Some(part) => part.holes.extend(pieces.into_iter().flatten()),
        None => ask.lacks(
            format!("part `{host}` of {name}"),
            Lack::NotFound,
            origin,
            "name a part of this take-off that can be read",
        ),
    }
}

/// Notes each part whose hole cannot lie inside it; whether there is one.
fn sticking_out(ask: &mut Ask<'_>, name: &str, takeoff: &Takeoff, parts: &[Part]) -> bool {
    let mut found = false;
    for part in parts {
        let Some(hole) = part.hole_that_sticks_out() else {
            continue;
        };
        found = true;
        // Holes of the part in order, each once for each of its copies.
        let of_part = takeoff.hole.members.iter().filter_map(|(called, datum)| {
            let given = datum.known()?;
            let (host, _) = given.value.host.as_ref()?;
            let copies = given.value.times.as_ref().map_or(1, Copies::count);
            (**host == *part.name).then_some((called, given, copies))
        });
        let mut pieces = of_part
            .flat_map(|(called, given, copies)| std::iter::repeat_n((called, given), copies));
        if let Some((called, given)) = pieces.nth(hole) {
            ask.lacks(
                format!(
                    "{name} has no answer: hole {called} sticks out of {}, and would take off more than there is",
                    part.name
                ),
                Lack::NoAnswer,
                &given.origin,
                "give the hole as it lies inside its part",
            );
        }
    }
    found
}

fn left_out<'c>(
    ask: &mut Ask<'c>,
    name: &str,
    takeoff: &'c Takeoff,
) -> Option<Interval<plumbhook_units::Ratio>> {
    let what = format!("what {name} leaves out");
    let given = ask.value(&what, &takeoff.left_out, |left| {
        match (left.0.lo, left.0.hi) {
            (Some(lo), Some(hi)) if lo < hi => plumbhook_sheet::InputValue::Band {
                lo: Some(Amount::of(lo)),
                hi: Some(Amount::of(hi)),
            },
            (_, Some(hi)) => plumbhook_sheet::InputValue::Exact(Amount::of(hi)),
            _ => plumbhook_sheet::InputValue::Words("at least something".into()),
        }
    });
    let given = given?;
    if let (Some(lo), Some(hi)) = (given.value.0.lo, given.value.0.hi) {
        return Some(Interval { lo, hi });
    }
    ask.lacks(
        format!("{what}: how much at the most"),
        Lack::OneSided,
        &given.origin,
        "write `left-out 0 .. 3 %`, or `none`",
    );
    None
}

fn refused(
    ask: &mut Ask<'_>,
    name: &str,
    why: &NoTakeOff,
    parts: &Parts,
    origins: &[Origin],
    home: &Origin,
) {
    let part = why.part.and_then(|part| parts.parts.get(part));
    let called = part.map_or(String::new(), |part| format!("{} of ", part.name));
    let origin = why.part.and_then(|part| origins.get(part)).unwrap_or(home);
    ask.lacks(
        format!("{called}{name} has no answer: {}", why.fault),
        Lack::NoAnswer,
        origin,
        "mend the sizes of the part",
    );
}

/// The table of parts, and where its sums lie.
fn show(ask: &mut Ask<'_>, name: &str, takeoff: &Takeoff, found: &TakenOff, book: &mut Book) {
    for (part, (called, datum)) in found.parts.iter().zip(&takeoff.part.members) {
        let band = plumbhook_units::Band::within(
            part.mass.lo,
            None,
            part.mass.hi,
            plumbhook_units::ClaimId(0),
        );
        let pedigree = datum.known().map_or("", |given| &given.pedigree.words);
        let what = format!("{called} of {name}");
        ask.note_band(&what, band, vec![datum.origin().clone()], pedigree);
    }
    let counted: Mass = Mass::from_si(found.parts.iter().map(|part| part.mass.hi.si()).sum());
    let mut rows: Vec<(String, Amount)> = found
        .parts
        .iter()
        .map(|part| {
            let often = if part.count > 1 {
                format!("{} x {}", part.count, part.name)
            } else {
                part.name.clone()
            };
            (often, Amount::of(part.mass.hi))
        })
        .collect();
    if found.mass.hi > counted {
        rows.push((
            "left out at the most".into(),
            Amount::of(found.mass.hi - counted),
        ));
    }
    book.add(Step::Sum {
        say: format!("parts of {name}, holes taken off, at their heaviest"),
        parts: rows,
        total: Amount::of(found.mass.hi),
    });
    let mut results = vec![
        ("at the lightest".to_owned(), Amount::of(found.mass.lo)),
        ("at the heaviest".to_owned(), Amount::of(found.mass.hi)),
    ];
    for (axis, letter) in AXES.iter().enumerate() {
        results.push((format!("cg {letter} from"), Amount::of(found.cg[axis].lo)));
        results.push((format!("cg {letter} to"), Amount::of(found.cg[axis].hi)));
    }
    book.add(Step::Method(Method {
        say: format!(
            "mass and centre of gravity of {name} as sums over its parts; the ends are the exact ones over all sizes, places and densities, each free within its own tolerance"
        ),
        residual: None,
        results,
        basis: Basis::STATICS,
    }));
}
