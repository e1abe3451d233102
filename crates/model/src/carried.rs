//! What is carried: the load, its parts, what is inside, each weighed on its own; and how it is turned.
//!
//! The one place that says what hangs. Rules for what carries it, the hanging pose and the set-downs all ask here.

use crate::ask::{Ask, Hurts, words};
use crate::entries::Load;
use crate::scope::Declared;
use crate::values::{Attitude, Axes, Banded, InAttitude, PartOf};
use crate::{Datum, Given, Members};
use plumbhook_mechanics::hanging::Rotation;
use plumbhook_sheet::{Lack, Origin};
use plumbhook_units::{Band, ClaimId, Mass, Measured};

/// One thing that is carried.
#[derive(Clone, Debug)]
pub struct Weight {
    /// What it is.
    pub what: String,
    /// Its own mass.
    pub mass: Band<Mass>,
    /// Where it is declared.
    pub origin: Origin,
}

/// Everything that is carried, the load itself first; what is missing is noted.
pub fn weights(ask: &mut Ask<'_>, declared: &Declared, load: &Load, hurts: Hurts) -> Vec<Weight> {
    let name = declared.name();
    let what = format!("mass of {name}");
    let dropped = ask.dropped(&what, &load.mass, &load.adopt);
    let mass = ask.claims_but(&what, &load.mass, &dropped, hurts);
    let home = load
        .mass
        .lines
        .first()
        .map_or(&load.mass.home, Datum::origin);
    let mut all = vec![Weight {
        what: name.to_owned(),
        mass,
        origin: home.clone(),
    }];
    let on_it = extras(ask, name, load);
    all.extend(on_it.into_iter().map(|extra| extra.weight));
    all
}

/// The sum of the masses.
pub fn total(weights: &[Weight]) -> Band<Mass> {
    let masses = weights.iter().map(|weight| weight.mass);
    masses.reduce(Band::plus).unwrap_or_else(Band::unknown)
}

/// A part or a content, with where its centre of gravity is said to be.
pub(crate) struct Extra<'a> {
    pub(crate) weight: Weight,
    pub(crate) cg: Where<'a>,
}

/// Where the centre of gravity of a part or a content is.
pub(crate) enum Where<'a> {
    /// As stated there.
    At(&'a Axes),
    /// Anywhere inside the load.
    Inside,
    /// Not said, though it has to be.
    NotSaid(Lack),
}

/// Parts that are on, and what is inside.
pub(crate) fn extras<'a>(ask: &mut Ask<'_>, name: &str, load: &'a Load) -> Vec<Extra<'a>> {
    let mut all = Vec::new();
    let off = Off::ask(ask, name, &load.part);
    for (part, datum) in &load.part.members {
        if off.is_off(part) {
            ask.used(&format!("{part} of {name}"), "off", datum.origin());
        } else {
            all.push(one_part(ask, name, part, datum, off.known));
        }
    }
    if let Some(nothing) = load.inside.says_nothing_and_something() {
        ask.lacks(
            format!("what is inside {name}: its lines say nothing and something"),
            Lack::NoAnswer,
            nothing,
            "take `inside nothing` out, or the other lines",
        );
    }
    for line in &load.inside.lines {
        match line {
            Datum::Known(given) => {
                ask.sourced(&given.pedigree);
                for content in &given.value.0 {
                    let what = format!("{} inside {name}", content.name);
                    let mass = extra_mass(ask, &what, content.mass, given, &content.origin);
                    all.push(Extra {
                        weight: Weight {
                            what,
                            mass,
                            origin: content.origin.clone(),
                        },
                        cg: content.cg.as_ref().map_or(Where::Inside, Where::At),
                    });
                }
            }
            Datum::Lacking(lacking) => {
                let what = format!("what is inside {name}");
                ask.lacks(
                    &what,
                    lacking.lack,
                    &lacking.origin,
                    "write `inside nothing`, or what and how much: `inside water 0 .. 300 kg`",
                );
                all.push(Extra {
                    weight: Weight {
                        what,
                        mass: Band::at_least(Mass::from_si(0.0), ClaimId(0)),
                        origin: lacking.origin.clone(),
                    },
                    cg: Where::Inside,
                });
            }
        }
    }
    all
}

/// The mass of a part or a content. No such thing weighs less than nothing: that side is always known.
fn extra_mass<V>(
    ask: &mut Ask<'_>,
    what: &str,
    said: Result<Banded<Mass>, Lack>,
    line: &Given<V>,
    origin: &Origin,
) -> Band<Mass> {
    let what = format!("mass of {what}");
    let band = match said {
        Ok(banded) => ask.part(&what, line, "mass", Some(&banded), Hurts::High),
        Err(lack) => {
            ask.lacks(
                &what,
                lack,
                origin,
                "say how much it may be at the most, as `0 .. 300 kg`",
            );
            Band::unknown()
        }
    };
    let nothing = Band::at_least(Mass::from_si(0.0), ClaimId(0));
    Band {
        lo: if band.lo().is_some() {
            band.lo
        } else {
            nothing.lo
        },
        ..band
    }
}

fn one_part<'a>(
    ask: &mut Ask<'_>,
    name: &str,
    part: &str,
    datum: &'a Datum<PartOf>,
    on: bool,
) -> Extra<'a> {
    let what = format!("{part} of {name}");
    let (mass, cg) = match datum {
        Datum::Known(given) => (
            extra_mass(ask, &what, given.value.mass, given, &given.origin),
            match &given.value.cg {
                Ok(axes) => Where::At(axes),
                Err(lack) => Where::NotSaid(*lack),
            },
        ),
        Datum::Lacking(lacking) => {
            ask.lacks(
                format!("mass of {what}"),
                lacking.lack,
                &lacking.origin,
                format!(
                    "write its mass and its centre of gravity, or `without {part}` in the move"
                ),
            );
            let nothing = Band::at_least(Mass::from_si(0.0), ClaimId(0));
            (nothing, Where::NotSaid(lacking.lack))
        }
    };
    // Where it cannot be read which parts are off, it may be off too.
    let mass = if on {
        mass
    } else {
        mass.unite(Band::within(
            Mass::from_si(0.0),
            None,
            mass.lo().unwrap_or(Mass::from_si(0.0)),
            ClaimId(0),
        ))
    };
    Extra {
        weight: Weight {
            what,
            mass,
            origin: datum.origin().clone(),
        },
        cg,
    }
}

/// Which parts are off.
struct Off {
    names: Vec<Box<str>>,
    known: bool,
}

impl Off {
    fn ask(ask: &mut Ask<'_>, load: &str, parts: &Members<PartOf>) -> Self {
        let mut it = Self {
            names: vec![],
            known: true,
        };
        let Some(moves) = ask.case().moves() else {
            return it;
        };
        for list in [&moves.without, &moves.with] {
            if list.is_absent() {
                continue;
            }
            let word = list.key.word;
            let Some(given) = ask.value(&format!("what {load} is moved {word}"), list, |names| {
                words(&names.0.join(", "))
            }) else {
                it.known = false;
                continue;
            };
            for name in &given.value.0 {
                if parts.get(name).is_none() {
                    it.known = false;
                    ask.lacks(
                        format!("part `{name}` of {load}"),
                        Lack::NotFound,
                        &given.origin,
                        parts_of(load, parts),
                    );
                } else if word == "without" {
                    it.names.push(name.clone());
                } else if it.names.contains(name) {
                    it.known = false;
                    it.names.retain(|off| off != name);
                    ask.lacks(
                        format!("whether {name} is on {load}: the move says `with` and `without`"),
                        Lack::NoAnswer,
                        &given.origin,
                        "take it out of one of the two lines",
                    );
                }
            }
        }
        it
    }

    fn is_off(&self, part: &str) -> bool {
        self.names.iter().any(|name| &**name == part)
    }
}

fn parts_of(load: &str, parts: &Members<PartOf>) -> String {
    let names: Vec<_> = parts.members.iter().map(|(name, _)| &**name).collect();
    if names.is_empty() {
        format!("declare it as a line `part …` of `{load}`")
    } else {
        format!("the parts of {load} are {}", names.join(", "))
    }
}

/// The attitude in which the move carries the load: from its own axes to those of the plant while the heading is zero.
/// Without a word it is as installed; `None` where a word leads nowhere, which is noted.
pub fn attitude(ask: &mut Ask<'_>) -> Option<Rotation> {
    let case = ask.case();
    let carries = case.moves().and_then(|moves| moves.carries.known());
    let (name, origin) = match carries.map(|carries| &carries.value.attitude) {
        None | Some(InAttitude::AsInstalled) => return Some(Rotation::AS_INSTALLED),
        Some(InAttitude::Named(name, origin)) => (name, origin),
        Some(InAttitude::NotKnown(lacking)) => {
            let load = carries.map_or("the load", |carries| &carries.value.load.name);
            ask.lacks(
                format!("attitude of {load} at the end of the move before"),
                lacking.lack,
                &lacking.origin,
                format!("mend what the move follows, or say it: `carries {load} attitude …`"),
            );
            return None;
        }
    };
    let (declared, load) = case.load()?;
    match load.attitude.get(name) {
        Some(Datum::Known(given)) => {
            let Attitude(turn) = given.value;
            ask.used(
                &format!("attitude of {}", declared.name()),
                &**name,
                &given.origin,
            );
            Some(turn)
        }
        Some(Datum::Lacking(lacking)) => {
            ask.lacks(
                format!("attitude {name} of {}", declared.name()),
                lacking.lack,
                &lacking.origin,
                format!("write `attitude {name} up +y, +z toward plant +x`, as it really is"),
            );
            None
        }
        None => {
            let known = load.attitude.members.iter().map(|(name, _)| &**name);
            let known: Vec<_> = known.collect();
            ask.lacks(
                format!("attitude `{name}` of {}", declared.name()),
                Lack::NotFound,
                origin,
                if known.is_empty() {
                    format!("declare it: `attitude {name} up +y, +z toward plant +x`")
                } else {
                    format!("its attitudes are {}", known.join(", "))
                },
            );
            None
        }
    }
}
