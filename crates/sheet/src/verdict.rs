//! What a check may say. `judge` is the one place where numbers become an outcome.

use crate::Origin;
use serde::Serialize;

/// How far the job has come; it decides what is demanded by now.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// A first look at a request.
    #[default]
    FirstLook,
    /// A bid that will be priced.
    Bid,
    /// Issued for work.
    Issue,
    /// As carried out.
    AsBuilt,
}

impl Stage {
    /// Every stage in order, with the word that stands in a job file.
    pub const ALL: &'static [(Self, &'static str)] = &[
        (Self::FirstLook, "first-look"),
        (Self::Bid, "bid"),
        (Self::Issue, "issue"),
        (Self::AsBuilt, "as-built"),
    ];

    /// The word of the job file.
    pub fn word(self) -> &'static str {
        Self::ALL
            .iter()
            .find(|(stage, _)| *stage == self)
            .map_or("first-look", |(_, word)| word)
    }
}

/// Why a datum does not count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lack {
    /// No line gives it.
    Absent,
    /// The line says `unknown`.
    Unknown,
    /// The line could not be read.
    Broken,
    /// It is given, but the side that hurts is not.
    OneSided,
    /// It is given, but nobody has verified it.
    Unverified,
    /// A name leads nowhere.
    NotFound,
    /// The calculation's source does not cover this.
    OutOfRange,
    /// The calculation has no answer for these data.
    NoAnswer,
}

/// One thing that a check would need.
#[derive(Clone, Debug, PartialEq)]
pub struct Missing {
    /// What is missing, in words that fit "… is missing".
    pub what: String,
    /// Why it does not count.
    pub lack: Lack,
    /// The key that would answer it, where it is the value of a key as a whole.
    pub key: Option<&'static str>,
    /// Where the answer would stand.
    pub origin: Origin,
    /// What would mend it.
    pub mend: String,
    /// From which stage on it is demanded.
    pub due: Stage,
}

/// The outcome of one check.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// Every hurting side is known, every capacity verified, and the worst point passes.
    Within,
    /// The known bounds alone prove that the limit is passed.
    Over,
    /// Neither can be said, for want of these.
    CannotTell(Vec<Missing>),
    /// The rule's subject or condition is not there, and that is known.
    DoesNotApply(String),
}

impl Verdict {
    /// The word of the outcome, as every face prints it.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Within => "within",
            Self::Over => "over",
            Self::CannotTell(_) => "cannot tell",
            Self::DoesNotApply(_) => "does not apply",
        }
    }

    fn rank(&self) -> u8 {
        match self {
            Self::DoesNotApply(_) => 0,
            Self::Within => 1,
            Self::CannotTell(_) => 2,
            Self::Over => 3,
        }
    }

    /// The worse of two outcomes: stations, states and corners of one check are reduced with it.
    /// Two *cannot tell* keep what either lacks.
    #[must_use]
    pub fn worse(self, other: Self) -> Self {
        match (self, other) {
            (Self::CannotTell(mut a), Self::CannotTell(b)) => {
                for missing in b {
                    if !a.contains(&missing) {
                        a.push(missing);
                    }
                }
                Self::CannotTell(a)
            }
            (a, b) if b.rank() > a.rank() => b,
            (a, _) => a,
        }
    }
}

/// How far a demand reaches against its capacity, as far as the declared bounds tell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// Demand over capacity at the worst point that the *known* bounds prove to be possible whatever
    /// the unknown turns out to be. `None` where nothing is proved.
    pub proved: Option<f64>,
    /// Demand over capacity at the worst point of all bands; `None` unless every hurting side is known.
    pub worst: Option<f64>,
}

impl Reach {
    /// Everything is known: the worst point is also the proved one.
    pub fn known(utilisation: f64) -> Self {
        Self {
            proved: Some(utilisation),
            worst: Some(utilisation),
        }
    }

    /// Compared by difference, for levels and places whose ratio would mean nothing: how far the demand lies
    /// beyond its limit in SI units, below zero where there is room. Zero passes.
    pub fn beyond(proved: Option<f64>, worst: Option<f64>) -> Self {
        let share = |beyond: f64| 1.0 + beyond;
        Self {
            proved: proved.map(share),
            worst: worst.map(share),
        }
    }

    /// Something is missing; at least `proved` is reached (if anything is).
    pub fn at_least(proved: Option<f64>) -> Self {
        Self {
            proved,
            worst: None,
        }
    }
}

/// The verdict algebra: *over* needs proof, *within* needs everything, all else is *cannot tell*.
///
/// `missing` holds whatever the check lacks, an unverified capacity included: it can convict (the
/// proved reach is over) but never acquit. A utilisation of exactly 1 passes. A number that is not
/// finite proves nothing and acquits nothing.
pub fn judge(reach: Reach, missing: Vec<Missing>, no_answer: impl FnOnce() -> Missing) -> Verdict {
    if reach
        .proved
        .is_some_and(|u| u.is_finite() && u > 1.0 + 1e-12)
    {
        return Verdict::Over;
    }
    if !missing.is_empty() {
        return Verdict::CannotTell(missing);
    }
    match reach.worst {
        Some(u) if u.is_finite() && u <= 1.0 + 1e-12 => Verdict::Within,
        Some(u) if u.is_finite() => Verdict::Over,
        _ => Verdict::CannotTell(vec![no_answer()]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::EntryKey;
    use std::sync::Arc;

    fn lack() -> Missing {
        let entry = Arc::new(EntryKey {
            file: "a.pick".into(),
            word: "load".into(),
            name: "runner".into(),
            nth: 0,
        });
        Missing {
            what: "mass of runner".into(),
            lack: Lack::Absent,
            key: None,
            origin: Origin::header(&entry),
            mend: "add a line `mass …`".into(),
            due: Stage::FirstLook,
        }
    }

    #[test]
    fn an_unverified_capacity_can_convict_but_not_acquit() {
        let acquit = judge(Reach::known(0.4), vec![lack()], lack);
        assert!(matches!(acquit, Verdict::CannotTell(_)));
        assert_eq!(judge(Reach::known(1.2), vec![lack()], lack), Verdict::Over);
    }

    #[test]
    fn nothing_proved_and_nothing_missing_is_still_not_within() {
        let said = judge(Reach::at_least(None), vec![], lack);
        assert!(matches!(said, Verdict::CannotTell(_)));
    }

    #[test]
    fn a_number_that_is_no_number_acquits_nothing() {
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let said = judge(Reach::known(bad), vec![], lack);
            assert!(matches!(said, Verdict::CannotTell(_)), "{bad}");
        }
    }

    #[test]
    fn a_place_on_its_limit_passes_and_one_beyond_it_does_not() {
        let said = |beyond| judge(Reach::beyond(Some(beyond), Some(beyond)), vec![], lack);
        assert_eq!(said(-0.2), Verdict::Within);
        assert_eq!(said(0.0), Verdict::Within);
        assert_eq!(said(1e-6), Verdict::Over);
        let unproved = judge(Reach::beyond(Some(-0.2), None), vec![], lack);
        assert!(matches!(unproved, Verdict::CannotTell(_)));
    }

    #[test]
    fn the_worst_of_all_stations_stands() {
        let cannot = Verdict::CannotTell(vec![lack()]);
        let none = Verdict::DoesNotApply(String::new());
        assert_eq!(Verdict::Within.worse(Verdict::Over), Verdict::Over);
        assert_eq!(cannot.clone().worse(Verdict::Within), cannot);
        assert_eq!(cannot.clone().worse(Verdict::Over), Verdict::Over);
        assert_eq!(none.worse(Verdict::Within), Verdict::Within);
        assert_eq!(cannot.clone().worse(cannot.clone()), cannot);
    }
}
