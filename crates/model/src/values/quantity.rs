//! Quantities: with a band, exact by nature, or a limit.

use super::expression::{in_slot, stated_line};
use super::heading;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_units::{Band, ClaimId, Kind, Known, Measured};

/// A quantity as claimed: its sides as far as the line states them.
///
/// A plain number has a nominal value and no side: a tolerance of zero is never assumed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Banded<T> {
    /// Lower side, if stated.
    pub lo: Option<T>,
    /// Upper side, if stated.
    pub hi: Option<T>,
    /// What the line calls the value itself.
    pub nominal: Option<T>,
}

impl<T: Measured> Banded<T> {
    /// As a band whose sides are stated by `claim`.
    pub fn band(&self, claim: ClaimId) -> Band<T> {
        let mut band = match (self.lo, self.hi) {
            (Some(lo), Some(hi)) => Band::within(lo, self.nominal, hi, claim),
            (None, Some(hi)) => Band::at_most(hi, claim),
            (Some(lo), None) => Band::at_least(lo, claim),
            (None, None) => Band::unknown(),
        };
        band.nominal = self.nominal;
        band
    }

    /// Whether the line gives a plain number without a tolerance.
    pub fn is_plain(&self) -> bool {
        self.lo.is_none() && self.hi.is_none()
    }

    /// The same number with `tolerance` on both sides.
    #[must_use]
    pub fn within(&self, tolerance: f64) -> Self {
        let shift = |by: f64| self.nominal.map(|n| T::from_si(n.si() + by));
        Self {
            lo: shift(-tolerance),
            hi: shift(tolerance),
            nominal: self.nominal,
        }
    }

    /// Reads it from the items at the cursor; stops at a comma or the end.
    pub fn read_part(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let ahead = line.peek();
        let term = stated_line(line, Some(T::KIND))?;
        let known = match ahead {
            Some(item) => in_slot(line, item, term, T::KIND)?,
            None => term.known,
        };
        Ok(Self::of(known))
    }

    fn of(known: Known) -> Self {
        let typed = |side: Option<f64>| side.map(T::from_si);
        match known {
            Known::Exact(value) | Known::Plain(value) => Self {
                lo: None,
                hi: None,
                nominal: Some(T::from_si(value)),
            },
            // With no side left it is no plain number: no allowance may be put on it.
            Known::Banded {
                lo: None, hi: None, ..
            } => Self {
                lo: None,
                hi: None,
                nominal: None,
            },
            Known::Banded { lo, hi, nominal } => Self {
                lo: typed(lo),
                hi: typed(hi),
                nominal: typed(nominal),
            },
        }
    }
}

impl<T: Measured + 'static> Value for Banded<T> {
    const SHAPE: Shape = Shape {
        say: "a quantity with its tolerance (`31.5 t +/- 8 %`), a range (`28 t .. 34 t`), a bound (`at most 34 t`) or `unknown`",
        kind: Some(T::KIND),
        words: &["at most", "at least", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        Self::read_part(line)
    }
}

/// A number that is exact by nature: a planned place, a chosen factor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exact<T>(pub T);

impl<T: Measured + 'static> Value for Exact<T> {
    const SHAPE: Shape = match T::KIND {
        Kind::Heading => Shape {
            say: heading::SAY,
            kind: Some(T::KIND),
            words: &["clockwise", "anticlockwise", "zero", "unknown"],
            role: None,
        },
        _ => Shape {
            say: "one quantity, as `600 mm`",
            kind: Some(T::KIND),
            words: &["unknown"],
            role: None,
        },
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if T::KIND == Kind::Heading {
            let angle = |line: &mut Cursor<'_, '_>| one_number::<T>(line).map(Measured::si);
            return heading::read(line, angle).map(|angle| Self(T::from_si(angle)));
        }
        one_number(line).map(Self)
    }
}

fn one_number<T: Measured + 'static>(line: &mut Cursor<'_, '_>) -> Result<T, Fail> {
    let read = Banded::<T>::read_part(line)?;
    match read.nominal {
        Some(value) if read.is_plain() => Ok(value),
        _ => Err(line.broken("one number is wanted here, without a band", "")),
    }
}

/// A limit that must not be passed: `at most 3 deg`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit<T>(pub T);

impl<T: Measured + 'static> Value for Limit<T> {
    const SHAPE: Shape = Shape {
        say: "a limit, as `at most 3 deg`",
        kind: Some(T::KIND),
        words: &["at most", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let read = Banded::<T>::read_part(line)?;
        match (read.lo, read.hi, read.nominal) {
            (None, Some(limit), None) => Ok(Self(limit)),
            _ => Err(line.broken("a limit is written `at most …`", "")),
        }
    }
}
