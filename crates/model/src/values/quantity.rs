//! Quantities: with a band, exact by nature, or a limit.

use super::heading;
use super::stated::{in_slot, stated, stated_line};
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::Item;
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
    /// Whether the line leaves the number to the tool: it has no side until a case has computed it.
    pub expected: bool,
}

impl<T: Measured> Banded<T> {
    /// `expected`: the tool's own number, from what the line names after `from`.
    pub const EXPECTED: Self = Self {
        lo: None,
        hi: None,
        nominal: None,
        expected: true,
    };

    /// Both sides, with a value between.
    pub fn between(lo: T, nominal: T, hi: T) -> Self {
        Self {
            lo: Some(lo),
            hi: Some(hi),
            nominal: Some(nominal),
            expected: false,
        }
    }

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
            ..*self
        }
    }

    /// Reads it from the items at the cursor; stops at a comma or the end.
    pub fn read_part(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if T::KIND == Kind::Mass && line.word("expected") {
            return Ok(Self::EXPECTED);
        }
        let ahead = line.peek();
        let term = stated_line(line, Some(T::KIND))?;
        let known = match ahead {
            Some(item) => in_slot(line, item, term, T::KIND)?,
            None => term.known,
        };
        Ok(Self::of(known))
    }

    /// One item, as it stands.
    pub(crate) fn read_item(line: &Cursor<'_, '_>, item: &Item<'_>) -> Result<Self, Fail> {
        let term = stated(line, item, Some(T::KIND))?;
        in_slot(line, item, term, T::KIND).map(Self::of)
    }

    pub(crate) fn of(known: Known) -> Self {
        let typed = |side: Option<f64>| side.map(T::from_si);
        match known {
            Known::Exact(value) | Known::Plain(value) => Self {
                lo: None,
                hi: None,
                nominal: Some(T::from_si(value)),
                expected: false,
            },
            // With no side left it is no plain number: no allowance may be put on it.
            Known::Banded {
                lo: None, hi: None, ..
            } => Self {
                lo: None,
                hi: None,
                nominal: None,
                expected: false,
            },
            Known::Banded { lo, hi, nominal } => Self {
                lo: typed(lo),
                hi: typed(hi),
                nominal: typed(nominal),
                expected: false,
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
            say: match T::KIND {
                Kind::Length => "one quantity, as `600 mm`",
                Kind::Number => "one number, as `1.10`",
                Kind::Ratio => "one number, as `1.10`, or a share, as `3 %`",
                _ => "one quantity with its unit",
            },
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
    one_plain(
        line,
        |_| true,
        ("one number is wanted here, without a band", ""),
    )
}

/// One number that `fits`, without a tolerance, a range or a bound: what such a place could not honour is refused there,
/// in the words and with the mend that the place gives.
pub(super) fn one_plain<T: Measured + 'static>(
    line: &mut Cursor<'_, '_>,
    fits: impl Fn(T) -> bool,
    (say, mend): (&str, &str),
) -> Result<T, Fail> {
    let place = line.peek().map(|item| item.place);
    let read = Banded::<T>::read_part(line)?;
    let plain = read.nominal.filter(|_| read.is_plain());
    match (plain.filter(|value| fits(*value)), place) {
        (Some(value), _) => Ok(value),
        (None, Some(place)) => Err(line.broken_at(place, say, mend)),
        (None, None) => Err(line.broken(say, mend)),
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

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may fail")]
mod tests {
    use super::*;
    use plumbhook_sheet::{EntryKey, EntryRef};
    use plumbhook_units::{Slope, Temperature};

    fn sides_of<T: Measured>(value: &str) -> Option<(f64, f64)> {
        let text = format!("load cover\n  key {value}");
        let entry = plumbhook_syntax::read_entry(&text);
        let key: EntryRef = EntryKey {
            file: "a.pick".into(),
            word: "load".into(),
            name: "cover".into(),
            nth: 0,
        }
        .into();
        let reading = crate::Reading::alone(&key);
        let mut cursor = Cursor::new(entry.statements.first().unwrap(), 0, &reading);
        let banded = Banded::<T>::read_part(&mut cursor).ok()?;
        Some((banded.lo?.si(), banded.hi?.si()))
    }

    fn near((a, b): (f64, f64), (lo, hi): (f64, f64)) -> bool {
        (a - lo).abs() < 1e-9 && (b - hi).abs() < 1e-9
    }

    /// Source: SI Brochure, 9th edition, 2.3.1: 0 degC is 273.15 K, and a difference of 1 degC is one of 1 K.
    #[test]
    fn a_tolerance_of_a_temperature_is_a_difference() {
        let wanted = (288.15, 298.15);
        for text in [
            "20 degC +/- 5 degC",
            "20 degC +/- 5 K",
            "20 degC +/- 9 degF",
        ] {
            assert!(
                near(sides_of::<Temperature>(text).unwrap(), wanted),
                "{text}"
            );
        }
        assert_eq!(sides_of::<Temperature>("20 degC +/- 10 %"), None);
    }

    /// Source: the definition of the tangent; tan 44 deg and tan 46 deg.
    #[test]
    fn a_slope_in_degrees_has_sides_in_degrees() {
        let wanted = (0.965_688_774_807_074, 1.035_530_313_790_57);
        assert!(near(sides_of::<Slope>("45 deg +/- 1 deg").unwrap(), wanted));
    }

    #[test]
    fn per_cent_of_per_cent_are_points() {
        assert!(near(
            sides_of::<Slope>("5 % +/- 1 %").unwrap(),
            (0.04, 0.06)
        ));
    }
}
