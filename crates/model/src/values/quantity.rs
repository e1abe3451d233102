//! Quantities: with a band, exact by nature, or a limit.

use super::heading;
use super::number::{amount, nearest_unit};
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::{Item, Node};
use plumbhook_units::{Band, ClaimId, Kind, Measured};

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
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        if line.word("at") {
            return Self::read_bound(line);
        }
        let Some(item) = line.take() else {
            return Err(line.broken(format!("{} is missing here", T::KIND.word()), ""));
        };
        let read = Self::read_item(line, item)?;
        // A word right after a bare zero or a number may be a mistyped unit.
        if let Some(next) = line.peek()
            && let Node::Word(word) = next.node
            && matches!(item.node, Node::Number { .. })
            && let Some(near) = nearest_unit(word, T::KIND)
        {
            return Err(line.broken_at(
                next.place,
                format!("`{word}` is no unit of {}", T::KIND.word()),
                &format!("did you mean `{near}`?"),
            ));
        }
        Ok(read)
    }

    fn read_bound(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let most = line.word("most");
        if !most && !line.word("least") {
            return Err(line.broken("`at` is followed by `most` or `least` here", ""));
        }
        let Some(item) = line.take() else {
            return Err(line.broken(format!("{} is missing here", T::KIND.word()), ""));
        };
        let bound = Some(T::from_si(amount(line, item, T::KIND)?));
        Ok(Self {
            lo: bound.filter(|_| !most),
            hi: bound.filter(|_| most),
            nominal: None,
        })
    }

    fn read_item(line: &Cursor<'_, '_>, item: &Item<'_>) -> Result<Self, Fail> {
        match &item.node {
            Node::Tolerance { of, by } => {
                let nominal = amount(line, of, T::KIND)?;
                let by = tolerance(line, nominal, by, T::KIND)?;
                Ok(Self {
                    lo: Some(T::from_si(nominal - by)),
                    hi: Some(T::from_si(nominal + by)),
                    nominal: Some(T::from_si(nominal)),
                })
            }
            Node::Range { lo, hi } => {
                let high = amount(line, hi, T::KIND)?;
                let low = match (&lo.node, &hi.node) {
                    // `-60 .. 60 mm`: the unit stands once, behind the range.
                    (Node::Number { value, .. }, Node::Quantity { unit, raw, .. }) => {
                        let same = Item {
                            place: lo.place,
                            node: Node::Quantity {
                                value: *value,
                                unit,
                                raw,
                            },
                        };
                        amount(line, &same, T::KIND)?
                    }
                    _ => amount(line, lo, T::KIND)?,
                };
                if low > high {
                    return Err(line.broken_at(item.place, "this range runs backwards", ""));
                }
                Ok(Self {
                    lo: Some(T::from_si(low)),
                    hi: Some(T::from_si(high)),
                    nominal: None,
                })
            }
            _ => Ok(Self {
                lo: None,
                hi: None,
                nominal: Some(T::from_si(amount(line, item, T::KIND)?)),
            }),
        }
    }
}

/// Half the width of the band that `by` gives around `nominal`, in SI.
///
/// A percentage of a position or of zero is refused: a place has no size that could be a share of.
pub(crate) fn tolerance(
    line: &Cursor<'_, '_>,
    nominal: f64,
    by: &Item<'_>,
    kind: Kind,
) -> Result<f64, Fail> {
    let wide = match &by.node {
        Node::Quantity { value, unit, .. } if unit.symbol == "%" => {
            if nominal == 0.0 {
                return Err(line.broken_at(
                    by.place,
                    "a percentage of zero is no tolerance",
                    "write the tolerance as a quantity",
                ));
            }
            nominal.abs() * value / 100.0
        }
        _ => amount(line, by, kind)?,
    };
    if wide.is_finite() && wide >= 0.0 {
        Ok(wide)
    } else {
        Err(line.broken_at(by.place, "a tolerance is not negative", ""))
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
