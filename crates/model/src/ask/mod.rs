//! Asking for data: what was found goes to the sheet, what was not goes to the verdict.
//!
//! A rule never looks at a datum past this: so what it used and what it lacks are always both told.

mod bands;
mod expected;
mod heights;
mod kept_inputs;
mod levels;
mod places;
mod ratings;
mod rule_sets;
mod sling_tables;
mod slings;
mod sources;

pub use kept_inputs::KeptInputs;
pub(crate) use levels::mend_of_datum;
pub(crate) use places::mend_of_grid;
pub use slings::SlingRated;

use crate::case::Case;
use crate::declare::Key;
use crate::scope::Declared;
use crate::values::{NameOf, Target};
use crate::{Datum, Given, Lacking, Members, Once};
use plumbhook_sheet::{Input, InputValue, Lack, Missing, Origin, Stage};
use plumbhook_units::{Amount, Angle, Kind, Measured};
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

/// How an unknown datum is settled: by its quotation, once it is said how that is read; else by asking.
fn unknown(what: &str, key: &Key, lacking: &Lacking) -> String {
    let pedigree = lacking.pedigree.as_deref();
    let quote = pedigree.and_then(|pedigree| pedigree.quote.as_deref());
    match quote.map(|quote| (quote, crate::quoted::readings(quote))) {
        Some((quote, Some(readings))) => format!(
            "\"{quote}\" may be {readings}: settle it: `read-as metric|short|long because \"…\"` behind the \
             quotation and no `unknown`, or the value in place of `unknown`"
        ),
        Some((quote, None)) => format!(
            "\"{quote}\" is evidence and no value: ask {} and write it in place of `unknown`",
            asked_for(what)
        ),
        None if key.shape.words.first() == Some(&"yes") => {
            format!("ask \"{what}: yes or no?\" and write the answer in place of `unknown`")
        }
        None => format!("ask {} and write it in place of `unknown`", asked_for(what)),
    }
}

/// "for the mass of runner", "what holds runner".
fn asked_for(what: &str) -> String {
    let clause = ["what ", "whether ", "which ", "how ", "where ", "who "];
    if clause.iter().any(|word| what.starts_with(word)) {
        what.to_owned()
    } else {
        format!("for the {what}")
    }
}

/// What one check asked for.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// What it got.
    pub inputs: Vec<Arc<Input>>,
    /// What it lacks.
    pub missing: Vec<Missing>,
}

impl Asked {
    /// Takes over what another part of the same check asked for.
    pub fn include(&mut self, other: &Self) {
        for input in &other.inputs {
            if !self.inputs.contains(input) {
                self.inputs.push(Arc::clone(input));
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
    pub(crate) case: &'c Case,
    /// What it got and what it lacks so far.
    pub asked: Asked,
    /// From which stage on what is missing is demanded.
    pub due: Stage,
    /// Whether it asks for an estimate, which no number of its own can wait for.
    estimating: bool,
}

impl<'c> Ask<'c> {
    /// Nothing asked yet; what is missing is demanded from the first look on.
    pub fn new(case: &'c Case) -> Self {
        Self {
            case,
            asked: Asked::default(),
            due: Stage::FirstLook,
            estimating: false,
        }
    }

    /// Nothing asked yet, on behalf of an estimate.
    pub(crate) fn for_estimate(case: &'c Case) -> Self {
        Self {
            estimating: true,
            ..Self::new(case)
        }
    }

    /// The case that is asked.
    pub fn case(&self) -> &'c Case {
        self.case
    }

    /// Notes that something is missing.
    pub fn lacks(
        &mut self,
        what: impl Into<String>,
        lack: Lack,
        origin: &Origin,
        mend: impl Into<String>,
    ) {
        self.lacks_of(None, what, lack, origin, mend);
    }

    /// The same of a key's whole value.
    fn lacks_of(
        &mut self,
        key: Option<&'static str>,
        what: impl Into<String>,
        lack: Lack,
        origin: &Origin,
        mend: impl Into<String>,
    ) {
        let missing = Missing {
            key,
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

    fn lacking(&mut self, what: &str, key: &'static Key, lacking: &Lacking) {
        let mend = match lacking.lack {
            _ if self.is_of_follows(&lacking.origin) && key.word != "follows" => format!(
                "mend what the move follows, or say `{} …` in `{}` itself: {}",
                key.word,
                self.case.movement.name(),
                key.shape.say
            ),
            Lack::Absent => format!(
                "add a line `{} …` to `{}`: {}",
                key.word, lacking.origin.entry.name, key.shape.say
            ),
            Lack::Unknown => unknown(what, key, lacking),
            _ => format!("mend the line `{}`: it takes {}", key.word, key.shape.say),
        };
        self.lacks_of(Some(key.word), what, lacking.lack, &lacking.origin, mend);
    }

    /// Whether a datum lacks because it is not known which move comes before.
    fn is_of_follows(&self, origin: &Origin) -> bool {
        let follows = self.case.own_move().map(|own| &own.follows);
        follows.is_some_and(|follows| !follows.is_absent() && follows.datum.origin() == origin)
    }

    fn got(&mut self, what: &str, value: InputValue, origins: Vec<Origin>, pedigree: String) {
        // What was taken over is known from both places: where it is written, and where `like` is.
        let likes: Vec<_> = origins.iter().flat_map(Origin::likes).cloned().collect();
        let origins = origins.into_iter().chain(likes).collect();
        let input = self.case.inputs.share(Input {
            what: what.to_owned(),
            value,
            origins,
            pedigree,
        });
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
                self.sourced(&given.pedigree);
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

    /// The member of that name, of a key whose lines are told apart by a name. Its parts are asked for one by
    /// one ([`Ask::part`]), and so stand on the sheet one by one.
    pub fn member<V>(
        &mut self,
        what: &str,
        members: &'c Members<V>,
        name: &str,
    ) -> Option<&'c Given<V>> {
        match members.get(name) {
            Some(Datum::Known(given)) => {
                self.sourced(&given.pedigree);
                Some(given)
            }
            Some(Datum::Lacking(lacking)) => {
                self.lacking(what, members.key, lacking);
                None
            }
            None => {
                self.lacks(
                    what,
                    Lack::NotFound,
                    &members.home,
                    format!(
                        "add a line `{} {name} …` to `{}`: {}",
                        members.key.word, members.home.entry.name, members.key.shape.say
                    ),
                );
                None
            }
        }
    }

    /// The dynamic factor of the move. One below 1 is missing: it would make what hangs lighter than it is.
    pub fn dynamic_factor(&mut self) -> Option<f64> {
        let moves = self.case.moves()?;
        if let Some(settled) = &self.case.settings.dynamic
            && moves.dynamic.is_absent()
        {
            let value = Amount::new(Kind::Ratio, settled.value);
            self.settled("dynamic factor", value, &settled.because, &settled.origin);
            return Some(settled.value);
        }
        let factor = self.exact("dynamic factor", &moves.dynamic)?;
        if factor.is_finite() && factor >= 1.0 {
            return Some(factor);
        }
        self.lacks(
            "the dynamic factor is below 1",
            Lack::NoAnswer,
            moves.dynamic.datum.origin(),
            "a dynamic factor is not below 1",
        );
        None
    }

    /// How far the load may hang out of level, as the move says or else the root file.
    pub fn tilt_limit(&mut self) -> Option<Angle> {
        let moves = self.case.moves()?;
        let shown = |limit: Angle| Amount::new(Kind::VerticalAngle, limit.si());
        if let Some(settled) = &self.case.settings.tilt
            && moves.tilt.is_absent()
        {
            let value = shown(settled.value);
            self.settled("tilt limit", value, &settled.because, &settled.origin);
            return Some(settled.value);
        }
        let limit = self.value("tilt limit", &moves.tilt, |limit| {
            InputValue::Exact(shown(limit.0))
        });
        limit.map(|limit| limit.value.0)
    }

    /// Notes what the root file gives where the move gives nothing.
    fn settled(&mut self, what: &str, value: Amount, because: &str, origin: &Origin) {
        self.got(
            what,
            InputValue::Exact(value),
            vec![origin.clone()],
            format!("the root file: {because}"),
        );
    }

    /// What a name leads to, as one kind of entry.
    pub fn entry<K: 'static, T: Target>(
        &mut self,
        name: &NameOf<T>,
    ) -> Option<(&'c Arc<Declared>, &'c K)> {
        let found = self.case.find::<K, T>(name);
        if found.is_none() {
            self.leads_nowhere(
                T::ROLE.say(),
                name,
                "declare it, or name one that is declared",
            );
        }
        found
    }

    /// Notes that a name leads to nothing that counts: it is declared nowhere, as another kind, or several times.
    pub(crate) fn leads_nowhere<T: Target>(&mut self, kind: &str, name: &NameOf<T>, mend: &str) {
        self.name_leads_nowhere(kind, (name.head(), &name.origin), mend);
    }

    fn name_leads_nowhere(&mut self, kind: &str, (name, origin): (&str, &Origin), mend: &str) {
        let what = format!("{kind} `{name}`");
        let Some(all) = self.case.several(name) else {
            self.lacks(what, Lack::NotFound, origin, mend);
            return;
        };
        let each: Vec<_> = all
            .iter()
            .map(|entry| format!("`{} {}` in {}", entry.word, entry.name, entry.file))
            .collect();
        self.lacks(
            format!("{what} is declared {} times", all.len()),
            Lack::NoAnswer,
            origin,
            format!("give all but one of them another name: {}", each.join(", ")),
        );
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
