//! `over-void`: no pad stands over a hole, a cavity, or past the edge of its floor.

use super::ground;
use crate::draft::{Numbers, cannot_tell};
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_mechanics::plan::Polygon;
use plumbhook_model::ask::{Ask, Hurts};
use plumbhook_model::entries::Floor;
use plumbhook_model::values::{Verified, Void};
use plumbhook_model::{Case, Datum, Lacking, Members, PadAt, SetDown};
use plumbhook_sheet::{Aspect, Basis, Lack, Origin, Reach, Trust, Verdict};
use plumbhook_units::{Amount, Length, Measured, Round};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "over-void",
    summary: "No pad stands over a hole, a cavity, or past the edge of its floor.",
    explanation: "\
Each pad's whole face is laid into the plan of the floor it stands on. It may touch no declared hole, and no \
declared cavity unless the floor's verification names that cavity. Past the outline of the floor nothing is \
known to carry. A floor that does not say whether all its holes and cavities are listed is unknown: nothing \
declared does not mean solid.\n\n\
Mends: another place for the stand, a plate or beams to what is solid, a survey of the floor.",
    basis: &[
        Basis {
            publication: "29 CFR 1926.1402, as of January 2025",
            section: "(c)(2): voids under the place are told by whoever knows of them",
            trust: Trust::Published,
        },
        Basis::GEOMETRY,
    ],
    inputs: &[
        ("place and size of the pads", Hurts::Both),
        ("outline of the floor", Hurts::Both),
        ("holes and cavities of the floor", Hurts::Both),
    ],
    may_lack: &[
        (
            "hole",
            "a void that is not there is not there: `voids listed` vouches for the list",
        ),
        ("cavity", "as for `hole`"),
    ],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "the stool stands half over the sump",
            subject: "slab under stool",
            change: &[("at         (18.0 m, 5.0 m)", "at         (12.2 m, 5.0 m)")],
        }),
        Outcome::Shown(Example {
            say: "the stool stands clear of sump and duct",
            subject: "slab under stool",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "nobody knows whether all cavities are marked",
            subject: "slab under stool",
            change: &[("voids      listed", "voids      unknown")],
        }),
        Outcome::Shown(Example {
            say: "the load is never set down",
            subject: "voids under the load",
            change: &[("    | (18.0 m, 5.0 m) | on stool          |\n", "")],
        }),
    ],
    check: |case| ground::check(case, "voids under the load", one),
};

/// A pad over a void: which, over what, where that is declared.
struct Hit {
    pad: Box<str>,
    over: String,
    origin: Origin,
}

fn one(case: &Case, down: &SetDown) -> Aspect {
    let mut ask = Ask::new(case);
    let subject = ground::subject(down);
    let mut hits = Vec::new();
    let mut nearest: Option<(Length, String)> = None;
    if let Some((name, floor)) = down
        .floor
        .as_ref()
        .and_then(|floor| Some((floor.name(), floor.of::<Floor>()?)))
    {
        look(&mut ask, name, floor, down, &mut hits, &mut nearest);
    }
    // Of what the set-down asked for only the pads and the floor matter here.
    ask.asked.include(&down.pads_asked);
    let mut draft = Draft::new(&subject, down.origin.clone(), ask.asked, case.printer);
    draft.basis = vec![Basis::GEOMETRY];
    draft.mends.push(format!(
        "stand {} clear of it, or carry it on beams to what is solid",
        down.stand.name()
    ));
    draft.relate(&down.pads_origin, "pads as declared");
    if let Some(hit) = hits.first() {
        draft.relate(&hit.origin, format!("{} as declared", hit.over));
        let pads: Vec<_> = hits
            .iter()
            .map(|hit| format!("pad {} over {}", hit.pad, hit.over))
            .collect();
        let headline = format!("{} stands with {}", down.stand.name(), pads.join(", "));
        return draft.finish(Verdict::Over, headline, Numbers::default());
    }
    // No distance is compared with a limit: clear is clear, and everything asked for has to be known.
    let verdict = draft.judge(Reach {
        proved: Some(0.0),
        worst: Some(0.0),
    });
    let headline = match (&verdict, nearest) {
        (Verdict::CannotTell(missing), _) => cannot_tell(
            &format!("whether {} stands over a void", down.stand.name()),
            missing,
        ),
        (_, Some((distance, what))) => format!(
            "{} stands clear, {} from {what}",
            down.stand.name(),
            case.printer.metric(Amount::of(distance), Round::Down)
        ),
        (_, None) => format!("{} stands on a floor without voids", down.stand.name()),
    };
    draft.finish(verdict, headline, Numbers::default())
}

fn look<'c>(
    ask: &mut Ask<'c>,
    name: &str,
    floor: &'c Floor,
    down: &SetDown,
    hits: &mut Vec<Hit>,
    nearest: &mut Option<(Length, String)>,
) {
    match &floor.voids.datum {
        Datum::Known(given) => ask.used(
            &format!("holes and cavities of {name}"),
            given.value.word,
            &given.origin,
        ),
        Datum::Lacking(lacking) => ask.lacks(
            format!("whether all holes and cavities of {name} are listed"),
            lacking.lack,
            &lacking.origin,
            "have the floor surveyed, then say `voids none` or `voids listed`",
        ),
    }
    if let Some(none) = floor.says_none_and_lists() {
        ask.lacks(
            format!("whether {name} has holes and cavities: it says `voids none` and lists some"),
            Lack::NoAnswer,
            none,
            "write `voids listed`, or take the holes and cavities out",
        );
    }
    let named: Vec<&str> = match floor.verified.known().map(|given| &given.value) {
        Some(Verified::Yes { over, .. }) => over.iter().map(|name| &**name).collect(),
        _ => vec![],
    };
    let mut voids = Vec::new();
    collect(ask, &floor.hole, "hole", &[], &mut voids);
    collect(ask, &floor.cavity, "cavity", &named, &mut voids);
    for pad in &down.pads {
        edge(ask, name, floor, pad, down);
        for void in &voids {
            if over(pad, &void.outline) {
                hits.push(Hit {
                    pad: pad.name.clone(),
                    over: void.what.clone(),
                    origin: void.origin.clone(),
                });
            }
            let Some(distance) = clear(ask, pad, void, down) else {
                continue;
            };
            if nearest.as_ref().is_none_or(|(least, _)| distance < *least) {
                *nearest = Some((distance, void.what.clone()));
            }
        }
    }
}

/// A void in the plant's frame: its middle outline, and how far that may lie off to either side.
struct Placed {
    what: String,
    outline: Polygon,
    within: [Length; 2],
    origin: Origin,
}

fn collect<'c>(
    ask: &mut Ask<'c>,
    members: &'c Members<Void>,
    kind: &str,
    named: &[&str],
    voids: &mut Vec<Placed>,
) {
    for (name, datum) in &members.members {
        let what = format!("{kind} {name}");
        let lacking = |ask: &mut Ask<'_>, lacking: &Lacking| {
            ask.lacks(
                format!("where {what} lies"),
                lacking.lack,
                &lacking.origin,
                "give two opposite corners",
            );
        };
        match datum {
            Datum::Known(given) => {
                let Some(region) = ask.rectangle(&what, &given.value) else {
                    continue;
                };
                match Polygon::new(&region.corners) {
                    Ok(outline) if !named.contains(&&**name) => {
                        ask.used(&what, "as declared", &given.origin);
                        voids.push(Placed {
                            what,
                            outline,
                            within: region.within,
                            origin: given.origin.clone(),
                        });
                    }
                    Ok(_) => ask.used(&what, "named by the verification", &given.origin),
                    Err(why) => ask.lacks(
                        format!("where {what} lies ({why})"),
                        Lack::Broken,
                        &given.origin,
                        "give two opposite corners",
                    ),
                }
            }
            Datum::Lacking(why) => lacking(ask, why),
        }
    }
}

/// Whether any of a pad's face lies over a void; of a pad without a size its middle is all that is known.
fn over(pad: &PadAt, void: &Polygon) -> bool {
    match &pad.outline {
        Some(face) => void.common_area(face).si() > 0.0,
        None => void.contains(pad.centre),
    }
}

/// How far a pad's face stays from a void wherever both may lie; `None` where the pad has no size. A pad that is clear
/// only while both lie where they are drawn is not known to be clear.
fn clear(ask: &mut Ask<'_>, pad: &PadAt, void: &Placed, down: &SetDown) -> Option<Length> {
    let face = pad.outline.as_ref()?;
    let [x, y] = pad.within;
    let [void_x, void_y] = void.within;
    if over(pad, &void.outline) {
        return None;
    }
    let wide = grown(face, [x + void_x, y + void_y]);
    if let Some(wide) = wide.filter(|wide| void.outline.common_area(wide).si() == 0.0) {
        return Some(void.outline.distance_to(&wide));
    }
    ask.lacks(
        format!(
            "whether pad {} of {} stands clear of {}: no further from it than their places are exact",
            pad.name,
            down.stand.name(),
            void.what
        ),
        Lack::OneSided,
        &down.pads_origin,
        "measure where both lie, or stand it further off",
    );
    None
}

/// A face wherever it may lie, itself where it lies exactly; `None` where that reaches beyond every plant.
fn grown(face: &Polygon, by: [Length; 2]) -> Option<Polygon> {
    if by.iter().all(|by| by.si() == 0.0) {
        return Some(face.clone());
    }
    face.grown(by).ok()
}

/// Past the outline nothing is known to carry.
fn edge<'c>(ask: &mut Ask<'c>, name: &str, floor: &'c Floor, pad: &PadAt, down: &SetDown) {
    let outline = match &floor.outline.datum {
        Datum::Known(given) => {
            ask.used(
                &format!("outline of {name}"),
                format!("{} corners", given.value.0.len()),
                &given.origin,
            );
            let Some(region) = ask.region(&format!("the outline of {name}"), &given.value.0) else {
                return;
            };
            Polygon::new(&region.corners)
                .map(|outline| (outline, region.within))
                .map_err(|why| (why.to_string(), Lack::Broken, given.origin.clone()))
        }
        Datum::Lacking(lacking) => Err((String::new(), lacking.lack, lacking.origin.clone())),
    };
    let inside = match &outline {
        Ok((outline, [x, y])) => match &pad.outline {
            Some(face) => {
                let [pad_x, pad_y] = pad.within;
                grown(face, [pad_x + *x, pad_y + *y]).is_some_and(|wide| outline.covers(&wide))
            }
            None => outline.contains(pad.centre),
        },
        Err((why, lack, origin)) => {
            let why = if why.is_empty() {
                String::new()
            } else {
                format!(" ({why})")
            };
            ask.lacks(
                format!("outline of {name}{why}"),
                *lack,
                origin,
                "give its corners in order: `outline (0, 0) (46 m, 0) …`",
            );
            return;
        }
    };
    if !inside {
        ask.lacks(
            format!(
                "what carries pad {} of {} past the edge of {name}",
                pad.name,
                down.stand.name()
            ),
            Lack::Absent,
            &down.pads_origin,
            format!("stand it whole on {name}, or declare the floor beside it"),
        );
    }
}
