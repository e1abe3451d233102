//! Claims of one value: what adopts which, and which of them cannot all be true.

use plumbhook_model::adopt::{comes_from, dropped};
use plumbhook_model::entries::{Load, Source};
use plumbhook_model::{
    Datum, Declared, Found, Given, Pedigree, Scope, Settings, is_weighing, mass_with_allowance,
    notices,
};
use plumbhook_sheet::{Notice, Related};
use plumbhook_units::{Amount, ClaimId, Printer, Round, disagreement};
use std::sync::Arc;

/// What is wrong with the claims of an entry, seen with the sources and allowances that its job sees.
pub(crate) fn notices_of(scope: &Scope, settings: &Settings, entry: &Declared) -> Vec<Notice> {
    let Some(load) = entry.of::<Load>() else {
        return vec![];
    };
    let mut found = adopts_nothing(load);
    found.extend(disagree(scope, settings, load));
    found
}

/// Adoptions that no claim answers.
fn adopts_nothing(load: &Load) -> Vec<Notice> {
    let adoptions = load.adopt.lines.iter();
    let idle = adoptions.filter(|adoption| match &*adoption.value.key {
        "mass" => !claimed(&load.mass.lines, adoption),
        _ => !claimed(&load.cg.lines, adoption),
    });
    idle.map(|adoption| Notice {
        code: &notices::ADOPTS_NOTHING,
        say: format!(
            "no line `{}` comes from `{}`, so nothing is adopted",
            adoption.value.key, adoption.value.from
        ),
        origin: adoption.value.from_origin.clone(),
        related: vec![],
        mend: format!(
            "name the source of a claim that stands here, or add the line `{} … from {}`",
            adoption.value.key, adoption.value.from
        ),
    })
    .collect()
}

fn claimed<T>(lines: &[Datum<T>], adoption: &Given<plumbhook_model::Adoption>) -> bool {
    lines.iter().any(|line| comes_from(line, &adoption.value))
}

fn source(scope: &Scope, pedigree: &Pedigree) -> Option<Arc<Declared>> {
    let (name, _) = pedigree.source.as_ref()?;
    match scope.find(name) {
        Found::One(found) => Some(found),
        Found::Nowhere | Found::Several(_) => None,
    }
}

/// Claims of one mass that cannot all be true, each with its allowance, told once. A claim that an adoption drops
/// is settled.
fn disagree(scope: &Scope, settings: &Settings, load: &Load) -> Vec<Notice> {
    let weighing = |pedigree: &Pedigree| is_weighing(pedigree, source(scope, pedigree).as_deref());
    let gone = dropped(&load.mass.lines, load.adopt.of("mass"), weighing);
    let bands: Vec<_> = (0..)
        .zip(&load.mass.lines)
        .filter(|(index, _)| !gone.iter().any(|(gone, _)| gone == &(*index as usize)))
        .filter_map(|(index, line)| {
            let given = line.known()?;
            let source = source(scope, &given.pedigree);
            let source = source.as_ref().and_then(|found| found.of::<Source>());
            let banded = mass_with_allowance(&given.value, &given.pedigree, source, settings);
            Some(banded.band(ClaimId(index)))
        })
        .collect();
    let Some(apart) = disagreement(&bands) else {
        return vec![];
    };
    let line = |claim: ClaimId| load.mass.lines.get(claim.0 as usize)?.known();
    let (low, high) = (line(apart.at_most.1), line(apart.at_least.1));
    let (Some(low), Some(high)) = (low, high) else {
        return vec![];
    };
    let printer = Printer::default();
    let at_most = printer.amount(Amount::of(apart.at_most.0), Round::Up);
    let at_least = printer.amount(Amount::of(apart.at_least.0), Round::Down);
    let (says_low, says_high) = (format!("at most {at_most}"), format!("at least {at_least}"));
    let low = (apart.at_most.1, low, says_low);
    let high = (apart.at_least.1, high, says_high);
    // Told once, at the later of the two lines: most likely the one just written.
    let (before, here) = if low.0 < high.0 {
        (low, high)
    } else {
        (high, low)
    };
    vec![Notice {
        code: &notices::CLAIMS_DISAGREE,
        say: format!("this says {}, another claim {}", here.2, before.2),
        origin: here.1.origin.clone(),
        related: vec![Related {
            origin: before.1.origin.clone(),
            say: before.2,
        }],
        mend: "find out which of them is wrong; until then the worst side of each counts".into(),
    }]
}
