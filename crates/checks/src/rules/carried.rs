//! The load as the rules for what is known of it see it: shared by the rules for mass and centre of gravity.

use crate::Draft;
use crate::draft::{Numbers, cannot_tell};
use plumbhook_model::ask::{Ask, words};
use plumbhook_model::entries::Load;
use plumbhook_model::{Adoptions, Case, Claims, Datum, Declared, Given, Pedigree};
use plumbhook_sheet::{Aspect, Book, Lack, Origin, Reach, Stage, Verdict};

/// The load that the move carries; what keeps from knowing it is noted.
pub(super) fn load<'c>(case: &'c Case, ask: &mut Ask<'c>) -> Option<(&'c Declared, &'c Load)> {
    let moves = case.moves()?;
    let name = ask.value("what the move carries", &moves.carries, |carries| {
        words(&carries.words())
    })?;
    let (declared, load) = ask.entry::<Load, _>(&name.value.load)?;
    Some((declared, load))
}

/// Notes each claim that does not say how it is known, and a weighing that does not say when and by what; an issued
/// job says so.
pub(super) fn ask_pedigrees<T>(
    ask: &mut Ask<'_>,
    what: &str,
    claims: &Claims<T>,
    adopt: &Adoptions,
) {
    let dropped = ask.dropped(what, claims, adopt);
    let due = std::mem::replace(&mut ask.due, Stage::Issue);
    for line in counting(claims, &dropped) {
        if line.pedigree.words.is_empty() {
            ask.lacks(
                format!("{what}: where it comes from"),
                Lack::Unverified,
                &line.origin,
                format!(
                    "end the line `{}` with `from weighed`, `from drawing` or the name of a source",
                    claims.key.word
                ),
            );
        }
        if line.pedigree.basis == Some("weighed")
            && (line.pedigree.on.is_none() || line.pedigree.instrument.is_none())
        {
            ask.lacks(
                format!("{what}: the day and the instrument of the weighing"),
                Lack::Unverified,
                &line.origin,
                "write `from weighed on 2026-08-11 with \"load cell 3\"`",
            );
        }
    }
    ask.due = due;
}

/// Notes where nobody says what is inside the load; an issued job says it, if only that there is nothing.
pub(super) fn ask_inside(ask: &mut Ask<'_>, declared: &Declared, load: &Load) {
    for given in load.inside.lines.iter().filter_map(Datum::known) {
        if given.value.0.is_empty() {
            ask.used(
                &format!("inside {}", declared.name()),
                "nothing",
                &given.origin,
            );
        }
    }
    if !load.inside.lines.is_empty() {
        return;
    }
    let due = std::mem::replace(&mut ask.due, Stage::Issue);
    ask.lacks(
        format!("what is inside {}", declared.name()),
        Lack::Absent,
        &load.inside.home,
        "add `inside nothing` from whoever looked, or what and how much: `inside water 0 .. 300 kg`",
    );
    ask.due = due;
}

/// The known claims that no adoption drops.
fn counting<'l, T>(claims: &'l Claims<T>, dropped: &[usize]) -> impl Iterator<Item = &'l Given<T>> {
    let lines = claims.lines.iter().enumerate();
    lines
        .filter(|(index, _)| !dropped.contains(index))
        .filter_map(|(_, line)| line.known())
}

/// How the claims that count are known, each once: "drawing; weighed".
pub(super) fn pedigrees<T>(
    ask: &mut Ask<'_>,
    what: &str,
    claims: &Claims<T>,
    adopt: &Adoptions,
) -> String {
    let mut said: Vec<&str> = Vec::new();
    let dropped = ask.dropped(what, claims, adopt);
    for line in counting(claims, &dropped) {
        let pedigree = line.pedigree.words.trim_start_matches("from").trim();
        if !pedigree.is_empty() && !said.contains(&pedigree) {
            said.push(pedigree);
        }
    }
    if said.is_empty() {
        String::new()
    } else {
        format!(", from {}", said.join(" and "))
    }
}

/// The outcome of a rule that only asks: *within* where it `is` something and nothing is missing, else *cannot
/// tell*.
pub(super) fn known(draft: Draft, what: &str, is: Option<String>) -> Aspect {
    let nothing_to_pass = Reach {
        proved: None,
        worst: is.as_ref().map(|_| 0.0),
    };
    let verdict = draft.judge(nothing_to_pass);
    let headline = match &verdict {
        Verdict::CannotTell(missing) => cannot_tell(what, missing),
        _ => is.unwrap_or_else(|| what.to_owned()),
    };
    draft.finish(verdict, headline, Numbers::default())
}

/// Where a claim stands first, or would.
pub(super) fn home<T>(claims: &Claims<T>) -> Origin {
    claims
        .lines
        .first()
        .map_or(&claims.home, Datum::origin)
        .clone()
}

/// Whether a claim comes from the entry of that name.
pub(super) fn comes_from(pedigree: &Pedigree, name: &str) -> bool {
    pedigree
        .source
        .as_ref()
        .is_some_and(|(of, _)| **of == *name)
}

/// Notes each claim that is not known and might come from a take-off or a weighing: one that names another source
/// does not.
pub(super) fn ask_sources<T>(case: &Case, ask: &mut Ask<'_>, name: &str, claims: &Claims<T>) {
    for line in &claims.lines {
        let Datum::Lacking(lacking) = line else {
            continue;
        };
        let said = lacking
            .pedigree
            .as_ref()
            .filter(|said| !said.words.is_empty());
        let computed = said.map(|said| {
            let source = said.source.as_ref();
            source.is_some_and(|(name, _)| case.estimate(name).is_some())
        });
        if computed == Some(false) {
            continue;
        }
        ask.lacks(
            format!("{} of {name}", claims.key.word),
            lacking.lack,
            &lacking.origin,
            format!("a claim of it is not known: {}", claims.key.shape.say),
        );
    }
}

/// How the claims that are left to the tool were computed: the table of parts, the sums of a weighing.
pub(super) fn show_expected<T>(
    case: &Case,
    claims: &Claims<T>,
    is_expected: impl Fn(&T) -> bool,
    book: &mut Book,
) {
    let known = claims.lines.iter().filter_map(Datum::known);
    for given in known.filter(|given| is_expected(&given.value)) {
        let source = given.pedigree.source.as_ref();
        if let Some(estimate) = source.and_then(|(name, _)| case.estimate(name)) {
            book.0.extend(estimate.steps.iter().cloned());
        }
    }
}
