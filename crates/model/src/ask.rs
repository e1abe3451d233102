//! Asking for data: what was found goes to the sheet, what was not goes to the verdict.
//!
//! A rule never looks at a datum past this: so what it used and what it lacks are always both told.

use crate::case::Case;
use crate::declare::Key;
use crate::scope::Declared;
use crate::values::{Banded, NameOf, Rated, Target};
use crate::{Claims, Datum, Given, Lacking, Once, Pedigree};
use plumbhook_sheet::{Input, InputValue, Lack, Missing, Origin, Stage};
use plumbhook_units::{Amount, Band, ClaimId, Length, Mass, Measured, RatedForce};
use std::sync::Arc;

/// A name or words, for the sheet.
pub fn words(text: &str) -> InputValue {
    InputValue::Words(text.to_owned())
}

/// On which side an input hurts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hurts {
    /// More is worse.
    High,
    /// Less is worse.
    Low,
    /// Either may be worse.
    Both,
}

/// What one check asked for.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// What it got.
    pub inputs: Vec<Input>,
    /// What it lacks.
    pub missing: Vec<Missing>,
}

impl Asked {
    /// Takes over what another part of the same check asked for.
    pub fn include(&mut self, other: &Self) {
        for input in &other.inputs {
            if !self.inputs.contains(input) {
                self.inputs.push(input.clone());
            }
        }
        for missing in &other.missing {
            if !self.missing.contains(missing) {
                self.missing.push(missing.clone());
            }
        }
    }
}

/// Asks for the data of one check.
#[derive(Debug)]
pub struct Ask<'c> {
    case: &'c Case,
    /// What it got and what it lacks so far.
    pub asked: Asked,
    /// From which stage on what is missing is demanded.
    pub due: Stage,
}

impl<'c> Ask<'c> {
    /// Nothing asked yet; what is missing is demanded from the first look on.
    pub fn new(case: &'c Case) -> Self {
        Self {
            case,
            asked: Asked::default(),
            due: Stage::FirstLook,
        }
    }

    /// Notes that something is missing.
    pub fn lacks(
        &mut self,
        what: impl Into<String>,
        lack: Lack,
        origin: &Origin,
        mend: impl Into<String>,
    ) {
        let missing = Missing {
            what: what.into(),
            lack,
            origin: origin.clone(),
            mend: mend.into(),
            due: self.due,
        };
        if !self.asked.missing.contains(&missing) {
            self.asked.missing.push(missing);
        }
    }

    fn lacking(&mut self, what: &str, key: &Key, lacking: &Lacking) {
        let mend = match lacking.lack {
            Lack::Absent => format!(
                "add a line `{} …` to `{}`: {}",
                key.word, lacking.origin.entry.name, key.shape.say
            ),
            Lack::Unknown => format!("get the answer for `{}`: {}", key.word, key.help.trim()),
            _ => format!("mend the line `{}`: it takes {}", key.word, key.shape.say),
        };
        self.lacks(what, lacking.lack, &lacking.origin, mend);
    }

    fn got(&mut self, what: &str, value: InputValue, origins: Vec<Origin>, pedigree: String) {
        let input = Input {
            what: what.to_owned(),
            value,
            origins,
            pedigree,
        };
        if !self.asked.inputs.contains(&input) {
            self.asked.inputs.push(input);
        }
    }

    /// Notes a value that was used, in words.
    pub fn used(&mut self, what: &str, words: impl Into<String>, origin: &Origin) {
        self.got(
            what,
            InputValue::Words(words.into()),
            vec![origin.clone()],
            String::new(),
        );
    }

    /// A value that may stand once; `show` puts it on the sheet.
    pub fn value<V>(
        &mut self,
        what: &str,
        once: &'c Once<V>,
        show: impl Fn(&V) -> InputValue,
    ) -> Option<&'c Given<V>> {
        match &once.datum {
            Datum::Known(given) => {
                self.got(
                    what,
                    show(&given.value),
                    vec![given.origin.clone()],
                    given.pedigree.words.clone(),
                );
                Some(given)
            }
            Datum::Lacking(lacking) => {
                self.lacking(what, once.key, lacking);
                None
            }
        }
    }

    /// A single exact quantity.
    pub fn exact<T: Measured>(
        &mut self,
        what: &str,
        once: &'c Once<crate::values::Exact<T>>,
    ) -> Option<T> {
        self.value(what, once, |exact| InputValue::Exact(Amount::of(exact.0)))
            .map(|given| given.value.0)
    }

    /// What a name leads to, as one kind of entry.
    pub fn entry<K: 'static, T: Target>(
        &mut self,
        name: &NameOf<T>,
    ) -> Option<(&'c Arc<Declared>, &'c K)> {
        let found = self.case.find::<K, T>(name);
        if found.is_none() {
            self.lacks(
                format!("{} `{}`", T::ROLE.say(), name.head()),
                Lack::NotFound,
                &name.origin,
                "declare it, or name one that is declared",
            );
        }
        found
    }

    /// The band of a value that may stand once.
    pub fn band<T: Measured>(
        &mut self,
        what: &str,
        once: &Once<Banded<T>>,
        hurts: Hurts,
    ) -> Band<T> {
        match &once.datum {
            Datum::Known(given) => {
                let banded = self.with_allowance(given);
                let band = banded.band(ClaimId(0));
                self.note_band(
                    what,
                    band,
                    vec![given.origin.clone()],
                    &given.pedigree.words,
                );
                self.demand(what, once.key, band, hurts, &given.origin);
                band
            }
            Datum::Lacking(lacking) => {
                self.lacking(what, once.key, lacking);
                Band::unknown()
            }
        }
    }

    /// The united band of all claims of a value.
    pub fn claims<T: Measured>(
        &mut self,
        what: &str,
        claims: &Claims<Banded<T>>,
        hurts: Hurts,
    ) -> Band<T> {
        let mut united = Band::unknown();
        let mut origins = Vec::new();
        let mut words = Vec::new();
        if claims.lines.is_empty() {
            self.lacking(
                what,
                claims.key,
                &Lacking {
                    lack: Lack::Absent,
                    origin: claims.home.clone(),
                },
            );
            return united;
        }
        for (index, line) in claims.lines.iter().enumerate() {
            match line {
                Datum::Known(given) => {
                    let claim = ClaimId(u32::try_from(index).unwrap_or(u32::MAX));
                    united = united.unite(self.with_allowance(given).band(claim));
                    origins.push(given.origin.clone());
                    words.push(given.pedigree.words.clone());
                }
                Datum::Lacking(lacking) => self.lacking(what, claims.key, lacking),
            }
        }
        words.retain(|word| !word.is_empty());
        let home = origins
            .first()
            .cloned()
            .unwrap_or_else(|| claims.home.clone());
        self.note_band(what, united, origins, &words.join("; "));
        if claims.lines.iter().any(|line| line.known().is_some()) {
            self.demand(what, claims.key, united, hurts, &home);
        }
        united
    }

    /// Puts a band on the sheet.
    pub fn note_band<T: Measured>(
        &mut self,
        what: &str,
        band: Band<T>,
        origins: Vec<Origin>,
        pedigree: &str,
    ) {
        let value = match band.both() {
            Some((lo, hi)) if lo == hi => InputValue::Exact(Amount::of(lo)),
            _ => InputValue::Band {
                lo: band.lo().map(Amount::of),
                hi: band.hi().map(Amount::of),
            },
        };
        self.got(what, value, origins, pedigree.to_owned());
    }

    /// Notes a side that hurts and that nobody states.
    fn demand<T: Measured>(
        &mut self,
        what: &str,
        key: &Key,
        band: Band<T>,
        hurts: Hurts,
        origin: &Origin,
    ) {
        let low = hurts != Hurts::High && band.lo().is_none();
        let high = hurts != Hurts::Low && band.hi().is_none();
        let (side, mend) = match (low, high) {
            (true, true) => (
                "how exact it is",
                format!("state its tolerance, as `{} … +/- …`, or a range", key.word),
            ),
            (true, false) => (
                "how low it may be",
                format!("state a low side of `{}` too", key.word),
            ),
            (false, true) => (
                "how high it may be",
                format!("state a high side of `{}` too", key.word),
            ),
            (false, false) => return,
        };
        self.lacks(format!("{what}: {side}"), Lack::OneSided, origin, mend);
    }

    /// A plain number takes the tolerance of its pedigree: the accuracy of its source for a length, the
    /// root file's allowance by basis for a mass. Where neither is declared it stays without sides.
    fn with_allowance<T: Measured>(&self, given: &Given<Banded<T>>) -> Banded<T> {
        if !given.value.is_plain() {
            return given.value;
        }
        let tolerance = match T::KIND {
            kind if kind == <Length as Measured>::KIND => self.accuracy(&given.pedigree),
            kind if kind == <Mass as Measured>::KIND => self
                .mass_share(&given.pedigree)
                .zip(given.value.nominal)
                .map(|(share, nominal)| nominal.si() * share),
            _ => None,
        };
        tolerance.map_or(given.value, |tolerance| given.value.within(tolerance))
    }

    /// The accuracy of the declared source of a length.
    pub fn accuracy(&self, pedigree: &Pedigree) -> Option<f64> {
        let (name, _) = pedigree.source.as_ref()?;
        Some(self.case.source(name)?.accuracy.known()?.value.0.si())
    }

    fn mass_share(&self, pedigree: &Pedigree) -> Option<f64> {
        let declared = pedigree
            .source
            .as_ref()
            .and_then(|(name, _)| self.case.source(name))
            .and_then(|source| source.header.known())
            .and_then(|header| header.value.0.split(' ').next().map(str::to_owned));
        let basis = pedigree.basis.map(str::to_owned).or(declared)?;
        self.case
            .settings
            .mass_allowance
            .iter()
            .find(|(word, _)| *word == basis)
            .map(|(_, share)| *share)
    }

    /// The lowest of the ratings that count. One without evidence, or only estimated or stated, can convict
    /// and not acquit.
    pub fn rating(
        &mut self,
        what: &str,
        claims: &Claims<Rated>,
        counts: impl Fn(&Rated) -> bool,
    ) -> Option<RatedForce> {
        let mut lowest: Option<(RatedForce, &Given<Rated>)> = None;
        for line in &claims.lines {
            match line {
                Datum::Known(given) if counts(&given.value) => {
                    if lowest.is_none_or(|(value, _)| given.value.capacity < value) {
                        lowest = Some((given.value.capacity, given));
                    }
                }
                Datum::Known(_) => {}
                Datum::Lacking(lacking) => self.lacking(what, claims.key, lacking),
            }
        }
        let Some((capacity, given)) = lowest else {
            if claims.lines.iter().all(|line| line.known().is_some()) {
                self.lacking(
                    what,
                    claims.key,
                    &Lacking {
                        lack: Lack::Absent,
                        origin: claims.home.clone(),
                    },
                );
            }
            return None;
        };
        self.got(
            what,
            InputValue::Exact(Amount::of(capacity)),
            vec![given.origin.clone()],
            given.pedigree.words.clone(),
        );
        self.verified(what, &given.pedigree, &given.origin);
        Some(capacity)
    }

    fn verified(&mut self, what: &str, pedigree: &Pedigree, origin: &Origin) {
        let due = self.due;
        if matches!(pedigree.basis, Some("estimate" | "stated")) {
            self.lacks(
                format!(
                    "{what}: it is only {}",
                    if pedigree.basis == Some("stated") {
                        "stated"
                    } else {
                        "estimated"
                    }
                ),
                Lack::Unverified,
                origin,
                "read it from the tag or the nameplate",
            );
        } else if pedigree.words.is_empty() {
            self.due = due.max(Stage::Issue);
            self.lacks(
                format!("{what}: where it comes from"),
                Lack::Unverified,
                origin,
                "add `from tag` or `from nameplate` with what stands there",
            );
            self.due = due;
        }
    }

    /// An amount on the sheet as an exact input, found elsewhere.
    pub fn note(&mut self, what: &str, amount: Amount, origin: &Origin) {
        self.got(
            what,
            InputValue::Exact(amount),
            vec![origin.clone()],
            String::new(),
        );
    }
}
