//! Values that calculate: a meaning, and what is known of the number. Bands go through by interval arithmetic.

use crate::{Dimension, Kind, Meaning, STANDARD_GRAVITY, Unit};

/// What is known of a number, in SI units of its dimension.
///
/// A side that is not known is `None`; `nominal` is for display and never for a verdict.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Known {
    /// Exact by nature: a count, a factor, a share.
    Exact(f64),
    /// Stated without a tolerance: nobody says how far off it may be, and it is never taken for zero.
    Plain(f64),
    /// Stated with sides.
    Banded {
        /// It is this or more.
        lo: Option<f64>,
        /// It is this or less.
        hi: Option<f64>,
        /// What the text calls the value itself.
        nominal: Option<f64>,
    },
}

impl Known {
    /// The number itself, where one is stated.
    pub const fn nominal(self) -> Option<f64> {
        match self {
            Self::Exact(value) | Self::Plain(value) => Some(value),
            Self::Banded { nominal, .. } => nominal,
        }
    }

    /// Its sides; an unknown one is infinite. A plain number has none.
    fn sides(self) -> Sides {
        match self {
            Self::Exact(value) => (value, value),
            Self::Plain(_) => (f64::NEG_INFINITY, f64::INFINITY),
            Self::Banded { lo, hi, .. } => {
                (lo.unwrap_or(f64::NEG_INFINITY), hi.unwrap_or(f64::INFINITY))
            }
        }
    }

    /// Through `f`, which must rise wherever its argument rises.
    fn map(self, f: impl Fn(f64) -> f64) -> Self {
        match self {
            Self::Exact(value) => Self::Exact(f(value)),
            Self::Plain(value) => Self::Plain(f(value)),
            Self::Banded { lo, hi, nominal } => Self::Banded {
                lo: lo.map(&f),
                hi: hi.map(&f),
                nominal: nominal.map(&f),
            },
        }
    }

    fn is_finite(self) -> bool {
        self.nominal().is_none_or(f64::is_finite)
    }
}

/// Low and high side; an unknown one is infinite.
type Sides = (f64, f64);

/// A value in a calculation.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Term {
    /// What it may be.
    pub meaning: Meaning,
    /// What is known of it.
    pub known: Known,
}

/// Why two values cannot be calculated with.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum TermRefused {
    /// A sum of two things that are not the same.
    Unlike {
        /// What stands left.
        left: Meaning,
        /// What stands right.
        right: Meaning,
    },
    /// One side has a tolerance, the other is no exact number and has none.
    OneTolerance {
        /// Whether the right side is the one without.
        right: bool,
    },
    /// The divisor is zero, or its band holds zero.
    ByZero,
    /// A temperature counts from a zero of its own.
    Temperature,
    /// The result is beyond what can be counted.
    OutOfRange,
}

impl Term {
    /// A plain number.
    pub const fn number(value: f64) -> Self {
        Self {
            meaning: Meaning::NUMBER,
            known: Known::Exact(value),
        }
    }

    /// `value` of `unit`, without a tolerance. A share in per cent is as exact as a number.
    pub fn of_unit(value: f64, unit: &Unit) -> Self {
        let si = unit.to_si(value);
        let meaning = Meaning::of_unit(unit);
        let known = if meaning.is_number() {
            Known::Exact(si)
        } else {
            Known::Plain(si)
        };
        Self { meaning, known }
    }

    /// The sum.
    ///
    /// # Errors
    /// If the two are not of one kind, or only one of them has a tolerance.
    pub fn plus(self, other: Self) -> Result<Self, TermRefused> {
        self.sum(other, |a, b| a + b, |a, b| (a.0 + b.0, a.1 + b.1))
    }

    /// The difference.
    ///
    /// # Errors
    /// As for [`Term::plus`].
    pub fn minus(self, other: Self) -> Result<Self, TermRefused> {
        self.sum(other, |a, b| a - b, |a, b| (a.0 - b.1, a.1 - b.0))
    }

    /// The product.
    ///
    /// # Errors
    /// If only one of the two has a tolerance and the other is no exact number, or for temperatures.
    pub fn times(self, other: Self) -> Result<Self, TermRefused> {
        self.refuse_temperature(other)?;
        let meaning = self.meaning.times(other.meaning);
        let known = join(self.known, other.known, |a, b| a * b, product)?;
        done(meaning, known)
    }

    /// The quotient.
    ///
    /// # Errors
    /// As for [`Term::times`], and where the divisor is or may be zero.
    pub fn over(self, other: Self) -> Result<Self, TermRefused> {
        self.refuse_temperature(other)?;
        let zero = match other.known {
            Known::Exact(value) | Known::Plain(value) => value == 0.0,
            banded @ Known::Banded { nominal, .. } => {
                let (lo, hi) = banded.sides();
                (lo <= 0.0 && hi >= 0.0) || nominal == Some(0.0)
            }
        };
        if zero {
            return Err(TermRefused::ByZero);
        }
        let meaning = self.meaning.over(other.meaning);
        let known = join(self.known, other.known, |a, b| a / b, quotient)?;
        done(meaning, known)
    }

    /// What is known of it in a slot of `kind`, converted as the kind asks: a mass in a rated capacity becomes its
    /// weight under standard gravity, an angle in a slope its tangent. `None` where it may not stand there.
    pub fn in_kind(self, kind: Kind) -> Option<Known> {
        if !self.meaning.may_be(kind) {
            return None;
        }
        let known = match (kind, self.meaning.dimension()) {
            (Kind::Rating, Dimension::MASS) => self.known.map(|mass| mass * STANDARD_GRAVITY.value),
            (Kind::Slope, Dimension::ANGLE) => {
                let steep = |side: f64| side.is_nan() || side.abs() >= std::f64::consts::FRAC_PI_2;
                let (lo, hi) = match self.known {
                    Known::Banded { lo, hi, .. } => (lo, hi),
                    Known::Exact(_) | Known::Plain(_) => (None, None),
                };
                if [self.known.nominal(), lo, hi]
                    .into_iter()
                    .flatten()
                    .any(steep)
                {
                    return None;
                }
                self.known.map(f64::tan)
            }
            _ => self.known,
        };
        known.is_finite().then_some(known)
    }

    fn sum(
        self,
        other: Self,
        nominal: fn(f64, f64) -> f64,
        sides: fn(Sides, Sides) -> Sides,
    ) -> Result<Self, TermRefused> {
        self.refuse_temperature(other)?;
        let Some(meaning) = self.meaning.shared(other.meaning) else {
            return Err(TermRefused::Unlike {
                left: self.meaning,
                right: other.meaning,
            });
        };
        let known = join(self.known, other.known, nominal, sides)?;
        done(Some(meaning), known)
    }

    fn refuse_temperature(self, other: Self) -> Result<(), TermRefused> {
        let is = |term: Self| term.meaning.dimension().temperature != 0;
        if is(self) || is(other) {
            Err(TermRefused::Temperature)
        } else {
            Ok(())
        }
    }
}

fn done(meaning: Option<Meaning>, known: Known) -> Result<Term, TermRefused> {
    match meaning {
        Some(meaning) if known.is_finite() => Ok(Term { meaning, known }),
        _ => Err(TermRefused::OutOfRange),
    }
}

fn join(
    a: Known,
    b: Known,
    nominal: fn(f64, f64) -> f64,
    sides: fn(Sides, Sides) -> Sides,
) -> Result<Known, TermRefused> {
    let alone = |a: f64, b: f64| nominal(a, b);
    Ok(match (a, b) {
        (Known::Exact(a), Known::Exact(b)) => Known::Exact(alone(a, b)),
        (Known::Exact(a) | Known::Plain(a), Known::Exact(b) | Known::Plain(b)) => {
            Known::Plain(alone(a, b))
        }
        (Known::Plain(_), Known::Banded { .. }) => {
            return Err(TermRefused::OneTolerance { right: false });
        }
        (Known::Banded { .. }, Known::Plain(_)) => {
            return Err(TermRefused::OneTolerance { right: true });
        }
        (a, b) => {
            let (lo, hi) = sides(a.sides(), b.sides());
            let known = |side: f64| side.is_finite().then_some(side);
            Known::Banded {
                lo: known(lo),
                hi: known(hi),
                nominal: a.nominal().zip(b.nominal()).map(|(a, b)| alone(a, b)),
            }
        }
    })
}

/// The least and the greatest of some corners; what is no number (infinity over infinity) lies between the others.
fn span(corners: [f64; 4]) -> Sides {
    corners
        .into_iter()
        .filter(|corner| !corner.is_nan())
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), corner| {
            (lo.min(corner), hi.max(corner))
        })
}

/// Zero times a side that nobody knows is zero: the side is some number.
fn product(a: Sides, b: Sides) -> Sides {
    let times = |a: f64, b: f64| if a == 0.0 || b == 0.0 { 0.0 } else { a * b };
    span([
        times(a.0, b.0),
        times(a.0, b.1),
        times(a.1, b.0),
        times(a.1, b.1),
    ])
}

/// `b` does not hold zero.
fn quotient(a: Sides, b: Sides) -> Sides {
    span([a.0 / b.0, a.0 / b.1, a.1 / b.0, a.1 / b.1])
}
