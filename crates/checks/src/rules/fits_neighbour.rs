//! `fits-neighbour`: the shackle at a lug goes into it: its pin through the hole, the plate between its ears.

use super::lugs;
use crate::draft::{Numbers, cannot_tell};
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::entries::{Load, Lug, Shackle};
use plumbhook_model::values::{Exact, LugName, PieceUse};
use plumbhook_model::{Case, Declared, LegUse, Once};
use plumbhook_sheet::{Aspect, Basis, Lack, Origin, Reach, Stage, Verdict};
use plumbhook_units::{Amount, Length, Measured, Round};

const LUG: (&str, &str) = (
    "covers 8 t\n",
    "covers 8 t\n  thick      40 mm\n  hole       40 mm\n",
);
const SHACKLE: (&str, &str) = (
    "kind       bow, screw pin, alloy\n",
    "kind       bow, screw pin, alloy\n  pin        35 mm\n  jaw        51 mm\n",
);
const SITS: (&str, &str) = ("through bow-12, rope", "through bow-12 pin-at-lug, rope");

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "fits-neighbour",
    summary: "The pin of the shackle at a lug goes through its hole, and the plate between the ears.",
    explanation: "\
Where the shackle next to the load sits with its pin in a lug (`pin-at-lug`), the pin has to be no thicker than the hole \
(`pin` against `hole`), and the plate no thicker than the shackle is wide between its ears (`thick` against `jaw`). What \
neither of the two declares is not compared; where one does, the other is asked for, from issue on.\n\n\
It says nothing of a pin that is much thinner than its hole: that lowers what the lug carries, and is the business of \
whoever rates it.\n\n\
Mends: another shackle, cheeks off or on, a bushed hole.",
    basis: &[Basis::GEOMETRY],
    inputs: &[
        ("pin of the shackle", Hurts::High),
        ("hole of the lug", Hurts::Low),
        ("thickness of the lug", Hurts::High),
        ("jaw of the shackle", Hurts::Low),
    ],
    may_lack: &[],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "a pin of 35 mm and a hole of 34 mm",
            subject: "pin of bow-12 in the hole of eye-20",
            change: &[
                (
                    "covers 8 t\n",
                    "covers 8 t\n  thick      40 mm\n  hole       34 mm\n",
                ),
                SHACKLE,
                SITS,
            ],
        }),
        Outcome::Shown(Example {
            say: "a pin of 35 mm and a hole of 40 mm, a plate of 40 mm and a jaw of 51 mm",
            subject: "",
            change: &[LUG, SHACKLE, SITS],
        }),
        Outcome::Shown(Example {
            say: "nobody measured the hole",
            subject: "pin of bow-12 in the hole of eye-20",
            change: &[SHACKLE, SITS],
        }),
        Outcome::Shown(Example {
            say: "neither the shackle nor the lug says how large it is there",
            subject: "shackles in the lugs",
            change: &[],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let home = Origin::header(&case.movement.key);
    let say = |asked: Asked| Draft::new("shackles in the lugs", home.clone(), asked, case.printer);
    if case.only_stands() {
        return vec![say(Asked::default()).does_not_apply("the load hangs from nothing")];
    }
    let hanging = case.hanging();
    let known = hanging.all_legs() && !hanging.legs.is_empty();
    let Some((load, body)) = case.load().filter(|_| known) else {
        let draft = say(hanging.asked.clone());
        let verdict = draft.judge(Reach::at_least(None));
        let headline = "nobody can tell which shackle sits in which lug".to_owned();
        return vec![draft.finish(verdict, headline, Numbers::default())];
    };
    let mut all: Vec<Aspect> = Vec::new();
    for (_, leg) in lugs::legs_at_load(case) {
        for aspect in at(case, (load, body), leg) {
            if all.iter().all(|other| other.subject != aspect.subject) {
                all.push(aspect);
            }
        }
    }
    if all.is_empty() {
        let draft = say(Asked::default());
        return vec![draft.does_not_apply("no shackle or lug says how large it is there")];
    }
    all
}

/// The shackle that is next to the load in a leg.
fn shackle(leg: &LegUse) -> Option<(&PieceUse, &Declared, &Shackle)> {
    let (piece, found) = leg.pieces.first()?;
    let found = found.as_ref()?;
    Some((piece, found, found.of::<Shackle>()?))
}

/// One that has to go through, or between, the other.
struct Pair<'c> {
    subject: String,
    inner: (String, &'c Once<Exact<Length>>),
    outer: (String, &'c Once<Exact<Length>>),
}

fn at(case: &Case, (load, body): (&Declared, &Load), leg: &LegUse) -> Vec<Aspect> {
    let Some((piece, declared, shackle)) = shackle(leg) else {
        return vec![];
    };
    let Some(name) = lugs::lug_at(body, &leg.point.name) else {
        if shackle.pin.is_absent() && shackle.jaw.is_absent() {
            return vec![];
        }
        return vec![no_lug(case, (load, body), declared.name())];
    };
    let mut ask = Ask::new(case);
    let Some((_, lug)) = ask.entry::<Lug, _>(name) else {
        let subject = format!("{} in {}", declared.name(), name.name);
        let draft = Draft::new(subject, name.origin.clone(), ask.asked, case.printer);
        return vec![say(draft, None)];
    };
    let (of, at) = (declared.name(), &*name.name);
    let pairs = [
        Pair {
            subject: format!("pin of {of} in the hole of {at}"),
            inner: (format!("pin of {of}"), &shackle.pin),
            outer: (format!("hole of {at}"), &lug.hole),
        },
        Pair {
            subject: format!("{at} between the ears of {of}"),
            inner: (format!("thickness of {at}"), &lug.thick),
            outer: (format!("jaw of {of}"), &shackle.jaw),
        },
    ];
    let told = |pair: &Pair<'_>| !(pair.inner.1.is_absent() && pair.outer.1.is_absent());
    let pairs = pairs.into_iter().filter(told);
    pairs.map(|pair| one(case, pair, piece, name)).collect()
}

/// Nobody says which lug the shackle sits in: the same is missing as of what the lug carries.
fn no_lug(case: &Case, (load, body): (&Declared, &Load), shackle: &str) -> Aspect {
    let mut ask = Ask::new(case);
    lugs::lacks(&mut ask, load, body, &lugs::without(case, body));
    let subject = format!("{shackle} in the lugs of {}", load.name());
    let home = body.lug.home.clone();
    say(Draft::new(subject, home, ask.asked, case.printer), None)
}

fn one(case: &Case, pair: Pair<'_>, piece: &PieceUse, name: &LugName) -> Aspect {
    let mut ask = Ask::new(case);
    ask.due = Stage::Issue;
    let inner = ask.exact(&pair.inner.0, pair.inner.1);
    let outer = ask.exact(&pair.outer.0, pair.outer.1);
    if piece.sits.as_deref() != Some("pin-at-lug") {
        ask.lacks(
            format!("how {} sits in {}", piece.gear.head(), name.name),
            Lack::Absent,
            &piece.gear.origin,
            format!(
                "write `{} pin-at-lug` if its pin goes through the hole",
                piece.gear.head()
            ),
        );
    }
    let origin = pair.inner.1.datum.origin().clone();
    let mut draft = Draft::new(pair.subject, origin, ask.asked, case.printer);
    draft.stage = case.stage;
    draft.relate(&piece.gear.origin, "sits here");
    draft.relate(pair.outer.1.datum.origin(), "has to take it");
    say(draft, inner.zip(outer))
}

/// The outcome of a draft, from what has to go into what; `None` where that is not known.
fn say(mut draft: Draft, widths: Option<(Length, Length)>) -> Aspect {
    draft.basis = RULE.basis.to_vec();
    // Which end of the shackle sits there has to be known before it can be too thick.
    let sits = !draft
        .asked
        .missing
        .iter()
        .any(|missing| missing.lack == Lack::Absent);
    let beyond = widths.map(|(inner, outer)| inner.si() - outer.si());
    let verdict = draft.judge(Reach::beyond(beyond.filter(|_| sits), beyond));
    let printed = |length: Length, round| draft.printer.metric(Amount::of(length), round);
    let headline = match (&verdict, widths) {
        (Verdict::CannotTell(missing), _) => {
            cannot_tell(&format!("whether {} fits", draft.subject), missing)
        }
        (_, Some((inner, outer))) => format!(
            "{} measures {} of {}",
            draft.subject,
            printed(inner, Round::Up),
            printed(outer, Round::Down)
        ),
        _ => draft.subject.clone(),
    };
    if let Some((inner, _)) = widths {
        let least = printed(inner, Round::Up);
        draft
            .mends
            .push(format!("one of {least} or more would take it"));
    }
    let numbers = Numbers {
        demand: widths.map(|(inner, _)| Amount::of(inner)),
        capacity: widths.map(|(_, outer)| Amount::of(outer)),
        utilisation: None,
    };
    draft.finish(verdict, headline, numbers)
}
