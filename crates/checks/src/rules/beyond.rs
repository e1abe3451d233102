//! Levels and places against their limits, by difference: shared by the rules for where a hook comes.

use plumbhook_sheet::Reach;
use plumbhook_units::{Band, Length, Measured, Round};

/// One end of something in metres: as the known bounds prove it to be possible, and at the worst.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct End {
    /// Possible whatever the unknown turns out to be.
    pub(super) proved: Option<f64>,
    /// The worst; `None` unless the side that hurts is known.
    pub(super) worst: Option<f64>,
}

impl End {
    /// The high end of a band.
    pub(super) fn high(band: Band<Length>) -> Self {
        Self::of(band.hi(), band.lo())
    }

    /// The low end of a band.
    pub(super) fn low(band: Band<Length>) -> Self {
        Self::of(band.lo(), band.hi())
    }

    fn of(hurting: Option<Length>, other: Option<Length>) -> Self {
        Self {
            proved: hurting.or(other).map(Measured::si),
            worst: hurting.map(Measured::si),
        }
    }

    /// Where nothing else is proved, it is at least this.
    pub(super) fn or_proved(self, proved: f64) -> Self {
        Self {
            proved: self.proved.or(Some(proved)),
            ..self
        }
    }

    /// The worst counts only where all that it rests on is known.
    pub(super) fn known_if(self, known: bool) -> Self {
        Self {
            worst: self.worst.filter(|_| known),
            ..self
        }
    }

    fn with(self, other: Self, of: impl Fn(f64, f64) -> f64) -> Self {
        let both = |a: Option<f64>, b: Option<f64>| a.zip(b).map(|(a, b)| of(a, b));
        Self {
            proved: both(self.proved, other.proved),
            worst: both(self.worst, other.worst),
        }
    }

    /// The sum of two ends.
    pub(super) fn plus(self, other: Self) -> Self {
        self.with(other, |a, b| a + b)
    }

    /// What a face shows: the worst, else what is proved.
    pub(super) fn shown(self) -> Option<f64> {
        self.worst.or(self.proved)
    }
}

/// Which way a limit is passed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// By going higher, or further along an axis.
    Up,
    /// By going lower, or less far.
    Down,
}

impl Way {
    /// How what is demanded is rounded.
    pub(super) fn outward(self) -> Round {
        match self {
            Self::Up => Round::Up,
            Self::Down => Round::Down,
        }
    }

    /// How what is allowed is rounded.
    pub(super) fn inward(self) -> Round {
        match self {
            Self::Up => Round::Down,
            Self::Down => Round::Up,
        }
    }
}

/// One comparison, and what it is of.
#[derive(Debug)]
pub(super) struct Beyond<T> {
    /// What it is of.
    pub(super) of: T,
    /// Which way the limit is passed.
    pub(super) way: Way,
    /// Where it comes.
    pub(super) comes: End,
    /// Where it may come.
    pub(super) limit: End,
}

impl<T> Beyond<T> {
    /// How far beyond the limit; below zero where there is room.
    pub(super) fn by(&self) -> End {
        match self.way {
            Way::Up => self.comes.with(self.limit, |comes, limit| comes - limit),
            Way::Down => self.comes.with(self.limit, |comes, limit| limit - comes),
        }
    }
}

/// All comparisons of a check reduced to the worst: its reach, and the one that governs, the first of several alike.
pub(super) fn reduce<T>(all: &[Beyond<T>]) -> (Reach, Option<&Beyond<T>>) {
    let largest = |values: Vec<f64>| values.into_iter().reduce(f64::max);
    let proved = largest(all.iter().filter_map(|one| one.by().proved).collect());
    let worst: Option<Vec<f64>> = all.iter().map(|one| one.by().worst).collect();
    (
        Reach::beyond(proved, worst.and_then(largest)),
        farthest(all),
    )
}

/// The one that goes farthest beyond its limit; of several alike, to a nanometre, the first.
pub(super) fn farthest<'a, T: 'a>(
    all: impl IntoIterator<Item = &'a Beyond<T>>,
) -> Option<&'a Beyond<T>> {
    let mut farthest: Option<(f64, &Beyond<T>)> = None;
    for one in all {
        if let Some(by) = one.by().shown()
            && farthest.is_none_or(|(most, _)| by > most + 1e-9)
        {
            farthest = Some((by, one));
        }
    }
    farthest.map(|(_, one)| one)
}
