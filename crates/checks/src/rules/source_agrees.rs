//! `source-agrees`: a typed mass that names a take-off or a weighing as its source is not contradicted by it.

use super::carried;
use crate::draft::Numbers;
use crate::example::ROTOR;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_model::ask::{Ask, Hurts};
use plumbhook_model::values::Banded;
use plumbhook_model::{Case, Datum, Declared, Given};
use plumbhook_sheet::{Aspect, Basis, Lack, Origin, Reach};
use plumbhook_units::{Amount, Band, ClaimId, Mass};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "source-agrees",
    summary: "A typed mass that comes from a take-off or a weighing is not contradicted by it.",
    explanation: "\
A line `mass 18.6 t +/- 12 % from takeoff-1` keeps the number that is typed, whatever becomes of the take-off. Where \
a part is added or a reading mended later, the number stays behind. This compares the two: if no mass fits both bands, \
one of them is wrong.\n\n\
Mends: `mass expected from takeoff-1` takes the number of the take-off itself, now and later.",
    basis: &[Basis::STATICS],
    inputs: &[
        ("mass of the load", Hurts::Both),
        ("parts of the take-off", Hurts::Both),
    ],
    may_lack: &[],
    lift: &ROTOR,
    examples: [
        Outcome::Shown(Example {
            say: "the shaft was made longer in the take-off and the typed number stayed",
            subject: "mass of rotor from count-1",
            change: &[("long 3.00 m +/- 3 mm", "long 4.00 m +/- 3 mm")],
        }),
        Outcome::Shown(Example {
            say: "a typed number within the band of its take-off",
            subject: "mass of rotor from count-1",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "a part of the take-off has no length",
            subject: "mass of rotor from count-1",
            change: &[("long 3.00 m +/- 3 mm, ", "")],
        }),
        Outcome::Shown(Example {
            say: "the number of the take-off is taken itself",
            subject: "rotor",
            change: &[(
                "mass       6.50 t +/- 2 %           from",
                "mass       expected from",
            )],
        }),
    ],
    check,
};

fn check(case: &Case) -> Vec<Aspect> {
    let mut ask = Ask::new(case);
    let Some((declared, load)) = carried::load(case, &mut ask) else {
        let home = Origin::header(&case.movement.key);
        let draft = Draft::new("load", home, ask.asked, case.printer);
        return vec![carried::known(draft, "what the load weighs", None)];
    };
    let typed = |given: &&Given<Banded<Mass>>| {
        let source = given.pedigree.source.as_ref();
        let named = source.is_some_and(|(name, _)| case.estimate(name).is_some());
        named && !given.value.expected
    };
    let known = load.mass.lines.iter().filter_map(Datum::known);
    let aspects: Vec<_> = known
        .filter(typed)
        .map(|given| agrees(case, declared, given))
        .collect();
    if !aspects.is_empty() {
        return aspects;
    }
    let mut ask = Ask::new(case);
    carried::ask_sources(case, &mut ask, declared.name(), &load.mass);
    let home = carried::home(&load.mass);
    let draft = Draft::new(declared.name(), home, ask.asked, case.printer);
    vec![if draft.asked.missing.is_empty() {
        draft.does_not_apply("no number of its mass is typed over a take-off or a weighing")
    } else {
        carried::known(draft, "whether its mass is that of its source", None)
    }]
}

fn agrees(case: &Case, declared: &Declared, given: &Given<Banded<Mass>>) -> Aspect {
    let mut ask = Ask::new(case);
    let source = given.pedigree.source.as_ref();
    let source = source.map_or("", |(name, _)| &**name);
    let subject = format!("mass of {} from {source}", declared.name());
    let estimate = case.estimate(source);
    if let Some(estimate) = estimate {
        ask.asked.include(&estimate.asked);
    }
    let typed = given.value;
    let typed = ask.closed(&subject, &typed, &given.pedigree, &given.origin);
    let typed = typed.band(ClaimId(0));
    ask.note_band(
        &subject,
        typed,
        vec![given.origin.clone()],
        &given.pedigree.words,
    );
    let computed = estimate
        .and_then(|estimate| estimate.mass)
        .map_or(Band::unknown(), |mass| mass.band(ClaimId(1)));
    if !typed.is_known() {
        ask.lacks(
            format!("{subject}: how exact it is"),
            Lack::OneSided,
            &given.origin,
            format!("state its tolerance, or write `mass expected from {source}`"),
        );
    }
    let apart =
        |low: Option<Mass>, high: Option<Mass>| low.zip(high).is_some_and(|(low, high)| low > high);
    let disjoint = apart(typed.lo(), computed.hi()) || apart(computed.lo(), typed.hi());
    let mut draft = Draft::new(
        subject.clone(),
        given.origin.clone(),
        ask.asked,
        case.printer,
    );
    draft.basis = RULE.basis.to_vec();
    draft.mends = vec![format!(
        "write `mass expected from {source}`, or mend the number"
    )];
    if let Some(estimate) = estimate {
        draft.book.0.extend(estimate.steps.iter().cloned());
    }
    let printed = |band: Band<Mass>| {
        case.printer
            .band(band.lo().map(Amount::of), band.hi().map(Amount::of))
    };
    let both = format!(
        "{} is typed, {source} comes to {}",
        printed(typed),
        printed(computed)
    );
    let reach = Reach {
        proved: disjoint.then_some(f64::MAX),
        worst: computed
            .is_known()
            .then_some(if disjoint { f64::MAX } else { 0.0 }),
    };
    let verdict = draft.judge(reach);
    let headline = match &verdict {
        plumbhook_sheet::Verdict::CannotTell(missing) => {
            crate::draft::cannot_tell(&subject, missing)
        }
        plumbhook_sheet::Verdict::Over => format!("{subject}: {both}, and no mass fits both"),
        _ => format!("{subject}: {both}"),
    };
    draft.finish(verdict, headline, Numbers::default())
}
