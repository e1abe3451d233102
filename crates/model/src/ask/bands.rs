//! Asking for bands: sides, allowances, and the side that hurts.

use super::{Ask, Hurts};
use crate::adopt::{self, Adoption};
use crate::allowance::{is_weighing, mass_allowance};
use crate::values::Banded;
use crate::{Adoptions, Claims, Datum, Given, Lacking, Once, Pedigree};
use plumbhook_sheet::{InputValue, Lack, Origin};
use plumbhook_units::{Amount, Band, ClaimId, Kind, Measured, Ratio, Round};

/// A line that gives a band, as it was read.
struct Line<'a, T> {
    banded: &'a Banded<T>,
    origin: &'a Origin,
    pedigree: &'a Pedigree,
}

impl<'c> Ask<'c> {
    /// The band of a value that may stand once.
    pub fn band<T: Measured>(
        &mut self,
        what: &str,
        once: &Once<Banded<T>>,
        hurts: Hurts,
    ) -> Band<T> {
        self.once(what, once, |banded| banded, hurts)
    }

    pub(super) fn once<T: Measured, V>(
        &mut self,
        what: &str,
        once: &Once<V>,
        banded: impl Fn(&V) -> &Banded<T>,
        hurts: Hurts,
    ) -> Band<T> {
        match &once.datum {
            Datum::Known(given) => {
                let line = Line {
                    banded: banded(&given.value),
                    origin: &given.origin,
                    pedigree: &given.pedigree,
                };
                self.stated(what, once.key.word, &line, hurts)
            }
            Datum::Lacking(lacking) => {
                self.lacking(what, once.key, lacking);
                Band::unknown()
            }
        }
    }

    /// The band of a part of a line that gives several values, by the label in front of it.
    pub fn part<T: Measured, V>(
        &mut self,
        what: &str,
        given: &Given<V>,
        label: &str,
        part: Option<&Banded<T>>,
        hurts: Hurts,
    ) -> Band<T> {
        let Some(banded) = part else {
            self.lacks(
                what,
                Lack::Absent,
                &given.origin,
                format!("say `{label} …` in this line"),
            );
            return Band::unknown();
        };
        let line = Line {
            banded,
            origin: &given.origin,
            pedigree: &given.pedigree,
        };
        self.stated(what, label, &line, hurts)
    }

    /// A band that one line states, on the sheet and asked for its hurting side.
    fn stated<T: Measured>(
        &mut self,
        what: &str,
        word: &str,
        line: &Line<'_, T>,
        hurts: Hurts,
    ) -> Band<T> {
        let band = self
            .closed(what, line.banded, line.pedigree, line.origin)
            .band(ClaimId(0));
        let band = self.possible(what, band, line.origin);
        self.note_band(what, band, vec![line.origin.clone()], &line.pedigree.words);
        if !line.banded.expected {
            self.demand(what, word, band, hurts, line.origin);
        }
        band
    }

    /// The united band of all claims of a value.
    pub fn claims<T: Measured>(
        &mut self,
        what: &str,
        claims: &Claims<Banded<T>>,
        hurts: Hurts,
    ) -> Band<T> {
        self.claims_but(what, claims, &[], hurts)
    }

    /// The united band of the claims that are not `dropped`.
    pub(crate) fn claims_but<T: Measured>(
        &mut self,
        what: &str,
        claims: &Claims<Banded<T>>,
        dropped: &[usize],
        hurts: Hurts,
    ) -> Band<T> {
        let mut united = Band::unknown();
        let mut origins = Vec::new();
        let mut words = Vec::new();
        if claims.lines.is_empty() {
            self.lacking(
                what,
                claims.key,
                &Lacking::new(Lack::Absent, claims.home.clone()),
            );
            return united;
        }
        let lines = || claims.lines.iter().enumerate();
        for (index, line) in lines().filter(|(index, _)| !dropped.contains(index)) {
            match line {
                Datum::Known(given) => {
                    let claim = ClaimId(u32::try_from(index).unwrap_or(u32::MAX));
                    let band = self
                        .closed(what, &given.value, &given.pedigree, &given.origin)
                        .band(claim);
                    united = united.unite(self.possible(what, band, &given.origin));
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
        united = self.in_order(what, united, &home);
        self.note_band(what, united, origins, &words.join("; "));
        // What keeps an expected number from being known has been said.
        let typed =
            |line: &Datum<Banded<T>>| line.known().is_some_and(|given| !given.value.expected);
        if lines().any(|(index, line)| !dropped.contains(&index) && typed(line)) {
            self.demand(what, claims.key.word, united, hurts, &home);
        }
        united
    }

    /// A low side above the high side: one claim says at least this, another at most less than that. Neither side
    /// counts then, and the contradiction is missing its answer.
    pub(crate) fn in_order<T: Measured>(
        &mut self,
        what: &str,
        band: Band<T>,
        origin: &Origin,
    ) -> Band<T> {
        let Some((lo, hi)) = band.both().filter(|(lo, hi)| lo > hi) else {
            return band;
        };
        let printer = self.case.printer;
        self.lacks(
            format!(
                "{what} has no answer: one claim says at least {}, another at most {}",
                printer.metric(Amount::of(lo), Round::Down),
                printer.metric(Amount::of(hi), Round::Up)
            ),
            Lack::NoAnswer,
            origin,
            "find out which claim is wrong, and take it out",
        );
        Band::unknown()
    }

    /// A mass below zero is no mass: its band is unknown, and that is missing.
    fn possible<T: Measured>(&mut self, what: &str, band: Band<T>, origin: &Origin) -> Band<T> {
        let negative = |side: Option<T>| side.is_some_and(|side| side.si() < 0.0);
        if T::KIND != Kind::Mass || !(negative(band.lo()) || negative(band.hi())) {
            return band;
        }
        self.lacks(
            format!("{what} is below zero"),
            Lack::NoAnswer,
            origin,
            "no side of a mass lies below zero",
        );
        Band::unknown()
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
        word: &str,
        band: Band<T>,
        hurts: Hurts,
        origin: &Origin,
    ) {
        let low = hurts != Hurts::High && band.lo().is_none();
        let high = hurts != Hurts::Low && band.hi().is_none();
        let (side, mend) = match (low, high) {
            (true, true) => (
                "how exact it is",
                format!("state its tolerance, as `{word} … +/- …`, or a range"),
            ),
            (true, false) => (
                "how low it may be",
                format!("state a low side of `{word}` too"),
            ),
            (false, true) => (
                "how high it may be",
                format!("state a high side of `{word}` too"),
            ),
            (false, false) => return,
        };
        self.lacks(format!("{what}: {side}"), Lack::OneSided, origin, mend);
    }

    /// A plain number with the tolerance of its pedigree, which stands on the sheet as its own line: the
    /// accuracy of its source for a length, the root file's allowance by basis for a mass. Where neither is
    /// declared it stays without sides; a stated tolerance is used as it stands.
    pub fn closed<T: Measured>(
        &mut self,
        what: &str,
        banded: &Banded<T>,
        pedigree: &Pedigree,
        origin: &Origin,
    ) -> Banded<T> {
        if banded.expected {
            return self.expected_mass(what, pedigree, origin);
        }
        self.sourced(pedigree);
        if matches!(T::KIND, Kind::Mass | Kind::Force | Kind::Rating) {
            self.evidence(what, pedigree, origin);
        }
        let Some(nominal) = banded.nominal.filter(|_| banded.is_plain()) else {
            return *banded;
        };
        let tolerance = match T::KIND {
            Kind::Length => self.accuracy(what, pedigree),
            Kind::Mass => self
                .mass_allowance(what, pedigree, origin)
                .map(|share| nominal.si() * share),
            _ => None,
        };
        tolerance.map_or(*banded, |tolerance| banded.within(tolerance))
    }

    /// The accuracy of the declared source of a length, on the sheet.
    pub fn accuracy(&mut self, what: &str, pedigree: &Pedigree) -> Option<f64> {
        let (name, _) = pedigree.source.as_ref()?;
        let accuracy = self.case.source(name)?.accuracy.known()?;
        self.got(
            &format!("allowance on {what}"),
            InputValue::Exact(Amount::of(accuracy.value.0)),
            vec![accuracy.origin.clone()],
            format!("accuracy of {name}"),
        );
        Some(accuracy.value.0.si())
    }

    fn mass_allowance(&mut self, what: &str, pedigree: &Pedigree, origin: &Origin) -> Option<f64> {
        let source = self.source_of(pedigree);
        let found = mass_allowance(pedigree, source, &self.case.settings);
        let Some(found) = found else {
            if let Some(accuracy) = source.map(|source| &source.mass_accuracy)
                && let Datum::Lacking(lacking) = &accuracy.datum
                && !accuracy.is_absent()
            {
                self.lacking(&format!("accuracy of {what}"), accuracy.key, lacking);
            }
            return None;
        };
        self.got(
            &format!("allowance on {what}"),
            InputValue::Exact(Amount::of(Ratio::from_si(found.share))),
            vec![found.origin.unwrap_or_else(|| origin.clone())],
            found.from,
        );
        Some(found.share)
    }

    /// The declared source of a value, if it names one that is declared.
    pub(super) fn source_of(&self, pedigree: &Pedigree) -> Option<&'c crate::entries::Source> {
        let (name, _) = pedigree.source.as_ref()?;
        self.case.source(name)
    }

    /// Which claims of a key its adoptions drop; each stands on the sheet as dropped, with who and why.
    pub fn dropped<T>(
        &mut self,
        what: &str,
        claims: &Claims<T>,
        adoptions: &Adoptions,
    ) -> Vec<usize> {
        let of = adoptions.of(claims.key.word);
        let dropped = adopt::dropped(&claims.lines, of, |pedigree| {
            let named = pedigree.source.as_ref();
            is_weighing(pedigree, named.and_then(|(name, _)| self.case.named(name)))
        });
        for (index, adoption) in &dropped {
            let Some(line) = claims.lines.get(*index) else {
                continue;
            };
            let from = adopt::pedigree_of(line).map_or("", |pedigree| &pedigree.words);
            let Adoption {
                from: kept,
                role,
                day,
                because,
                ..
            } = &adoption.value;
            let on = if day.is_empty() {
                String::new()
            } else {
                format!(" on {day}")
            };
            self.got(
                &format!("{what}, dropped: {from}"),
                InputValue::Words(format!("{kept} adopted by {role}{on}: {because}")),
                vec![line.origin().clone(), adoption.origin.clone()],
                from.to_owned(),
            );
        }
        dropped.into_iter().map(|(index, _)| index).collect()
    }
}
