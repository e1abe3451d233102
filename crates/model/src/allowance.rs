//! The tolerance of a mass that states none: by the accuracy of its source, else by its basis from the root file.

use crate::entries::{Source, Takeoff};
use crate::values::Banded;
use crate::{Declared, Pedigree, Settings};
use plumbhook_sheet::Origin;
use plumbhook_units::{Mass, Measured};

/// A share of the mass to both sides, and where it comes from.
pub(crate) struct Allowance {
    /// The share.
    pub(crate) share: f64,
    /// In words: "for `drawing`, from the root file".
    pub(crate) from: String,
    /// Its own line, where a file of the language states it.
    pub(crate) origin: Option<Origin>,
}

/// The allowance on a mass that is known so. `source` is the declared source that it names.
pub(crate) fn mass_allowance(
    pedigree: &Pedigree,
    source: Option<&Source>,
    settings: &Settings,
) -> Option<Allowance> {
    let name = pedigree.source.as_ref().map(|(name, _)| &**name);
    let accuracy = source.map(|source| &source.mass_accuracy);
    // One that nobody knows is no reason to take a smaller one from elsewhere.
    if let Some(accuracy) = accuracy.filter(|accuracy| !accuracy.is_absent()) {
        let accuracy = accuracy.known()?;
        return Some(Allowance {
            share: accuracy.value.0.si(),
            from: format!("accuracy of {}", name.unwrap_or("its source")),
            origin: Some(accuracy.origin.clone()),
        });
    }
    let basis = pedigree.basis.map(str::to_owned).or_else(|| {
        let header = source?.header.known()?;
        header.value.0.split(' ').next().map(str::to_owned)
    })?;
    let allowances = settings.mass_allowance.iter();
    let (_, share) = allowances.into_iter().find(|(word, _)| *word == basis)?;
    Some(Allowance {
        share: *share,
        from: format!("for `{basis}`, from the root file"),
        origin: None,
    })
}

/// The band of a claim of a mass as every check takes it: as stated, else with its allowance.
pub fn mass_with_allowance(
    claim: &Banded<Mass>,
    pedigree: &Pedigree,
    source: Option<&Source>,
    settings: &Settings,
) -> Banded<Mass> {
    let nominal = claim.nominal.filter(|_| claim.is_plain());
    match nominal.zip(mass_allowance(pedigree, source, settings)) {
        Some((nominal, allowance)) => claim.within(nominal.si() * allowance.share),
        None => *claim,
    }
}

/// Whether a claim is a weighing, which no adoption drops, or may be one. `named` is the entry that it names as its
/// source: where that is not found, or does not say what it is, nobody knows that it is none.
pub fn is_weighing(pedigree: &Pedigree, named: Option<&Declared>) -> bool {
    let Some(named) = named else {
        return pedigree.source.is_some() || pedigree.basis == Some("weighed");
    };
    match named.of::<Source>() {
        Some(source) => source
            .header
            .known()
            .is_none_or(|header| header.value.0.split(' ').next() == Some("weighed")),
        None => named.of::<Takeoff>().is_none(),
    }
}
