//! A number with its unit, and a number with its meaning.

use std::cmp::Ordering;

use serde::Serialize;

use crate::{Dimension, Kind, Measured, STANDARD_GRAVITY, Unit};

/// A number as it was typed, with its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// The number as typed.
    pub value: f64,
    /// Its unit; [`crate::ONE`] where none was written.
    pub unit: &'static Unit,
}

impl Quantity {
    /// `value` of `unit`.
    pub const fn new(value: f64, unit: &'static Unit) -> Self {
        Self { value, unit }
    }

    /// The SI value in the unit's own dimension; a mass stays a mass.
    pub fn si(&self) -> f64 {
        self.unit.to_si(self.value)
    }

    /// What its unit measures.
    pub fn dimension(&self) -> Dimension {
        self.unit.dimension
    }

    /// The number in a slot of `kind`, converted as the kind asks: a mass in a rating becomes its
    /// weight under standard gravity, an angle in a slope its tangent.
    ///
    /// `None` where the unit may not stand in that slot, and for a slope of 90 degrees or more.
    pub fn amount(&self, kind: Kind) -> Option<Amount> {
        if !kind.accepts(self.unit) {
            return None;
        }
        let si = match kind {
            Kind::Rating if self.dimension() == Dimension::MASS => {
                self.si() * STANDARD_GRAVITY.value
            }
            Kind::Slope if self.dimension() == Dimension::ANGLE => {
                let angle = self.si();
                if angle.is_nan() || angle.abs() >= std::f64::consts::FRAC_PI_2 {
                    return None;
                }
                angle.tan()
            }
            _ => self.si(),
        };
        Some(Amount { kind, si })
    }

    /// The same as [`Quantity::amount`], as the typed value that the mechanics take.
    pub fn read<M: Measured>(&self) -> Option<M> {
        self.amount(M::KIND).map(|amount| M::from_si(amount.si))
    }
}

/// A number with its meaning, in SI units; what sheets hold.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Amount {
    /// What it means.
    pub kind: Kind,
    /// Its SI value: kg, N, m, rad, Pa and so on as [`Kind::dimension`] says.
    pub si: f64,
}

impl Amount {
    /// `si` in SI units, as `kind`.
    pub const fn new(kind: Kind, si: f64) -> Self {
        Self { kind, si }
    }

    /// A typed value.
    pub fn of<M: Measured>(value: M) -> Self {
        Self {
            kind: M::KIND,
            si: value.si(),
        }
    }

    /// Back to a typed value; `None` where it is of another kind.
    pub fn read<M: Measured>(&self) -> Option<M> {
        (self.kind == M::KIND).then(|| M::from_si(self.si))
    }

    /// How many of `unit` it is, converted as the kind asks (see [`Quantity::amount`]);
    /// `None` where the unit may not state this kind.
    pub fn in_unit(&self, unit: &Unit) -> Option<f64> {
        if !self.kind.accepts(unit) {
            return None;
        }
        Some(match self.kind {
            Kind::Rating if unit.dimension == Dimension::MASS => {
                unit.from_si(self.si / STANDARD_GRAVITY.value)
            }
            Kind::Slope if unit.dimension == Dimension::ANGLE => unit.from_si(self.si.atan()),
            _ => unit.from_si(self.si),
        })
    }
}

impl<M: Measured> From<M> for Amount {
    fn from(value: M) -> Self {
        Self::of(value)
    }
}

/// Amounts of one kind compare; amounts of two kinds never do.
impl PartialOrd for Amount {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        if self.kind == other.kind {
            self.si.partial_cmp(&other.si)
        } else {
            None
        }
    }
}
