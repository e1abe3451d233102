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
    // Of what the set-down asked for only the pads and the floor matter here.
    let about_pads = |origin: &Origin| origin.entry == down.pads_origin.entry;
    let mut asked = down.asked.clone();
    asked
        .missing
        .retain(|missing| about_pads(&missing.origin) && !missing.what.starts_with("mass of"));
    asked
        .inputs
        .retain(|input| input.origins.iter().any(about_pads) && !input.what.starts_with("mass of"));
    let mut hits = Vec::new();
    let mut nearest: Option<(Length, String)> = None;
    if let Some((name, floor)) = down
        .floor
        .as_ref()
        .and_then(|floor| Some((floor.name(), floor.of::<Floor>()?)))
    {
        look(&mut ask, name, floor, down, &mut hits, &mut nearest);
    }
    ask.asked.include(&asked);
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

fn look(
    ask: &mut Ask<'_>,
    name: &str,
    floor: &Floor,
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
    let named: Vec<&str> = match floor.verified.known().map(|given| &given.value) {
        Some(Verified::Yes { over, .. }) => over.iter().map(|name| &**name).collect(),
        _ => vec![],
    };
    let mut voids = Vec::new();
    collect(ask, &floor.hole, "hole", &[], &mut voids);
    collect(ask, &floor.cavity, "cavity", &named, &mut voids);
    for pad in &down.pads {
        edge(ask, name, floor, pad, down);
        for (what, outline, origin) in &voids {
            if over(pad, outline) {
                hits.push(Hit {
                    pad: pad.name.clone(),
                    over: what.clone(),
                    origin: origin.clone(),
                });
            }
            if let Some(distance) = pad.outline.as_ref().map(|pad| pad.distance_to(outline))
                && nearest.as_ref().is_none_or(|(least, _)| distance < *least)
            {
                *nearest = Some((distance, what.clone()));
            }
        }
    }
}

type Placed = (String, Polygon, Origin);

fn collect(
    ask: &mut Ask<'_>,
    members: &Members<Void>,
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
                let corners = given
                    .value
                    .metres()
                    .map(|corner| corner.map(Length::from_si));
                match Polygon::new(&corners) {
                    Ok(outline) if !named.contains(&&**name) => {
                        ask.used(&what, "as declared", &given.origin);
                        voids.push((what, outline, given.origin.clone()));
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

/// Past the outline nothing is known to carry.
fn edge(ask: &mut Ask<'_>, name: &str, floor: &Floor, pad: &PadAt, down: &SetDown) {
    let outline = match &floor.outline.datum {
        Datum::Known(given) => {
            ask.used(
                &format!("outline of {name}"),
                format!("{} corners", given.value.0.len()),
                &given.origin,
            );
            let corners: Vec<_> = given
                .value
                .metres()
                .into_iter()
                .map(|corner| corner.map(Length::from_si))
                .collect();
            Polygon::new(&corners)
                .map_err(|why| (why.to_string(), Lack::Broken, given.origin.clone()))
        }
        Datum::Lacking(lacking) => Err((String::new(), lacking.lack, lacking.origin.clone())),
    };
    let inside = match &outline {
        Ok(outline) => match &pad.outline {
            Some(face) => outline.covers(face),
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
