//! A typed tolerance, applied in the unit in which the value was typed.

use std::fmt;

use crate::{Dimension, ONE, Quantity, UNITS, Unit};

/// Why a tolerance cannot be applied to a value.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ToleranceRefused {
    /// It measures something else than the value.
    OtherDimension,
    /// A percentage of zero says nothing.
    PercentOfZero,
    /// A percentage of a temperature depends on where its scale starts.
    PercentOfTemperature,
    /// A tolerance below zero, or not a number.
    Negative,
}

impl fmt::Display for ToleranceRefused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::OtherDimension => "the tolerance measures something else than the value",
            Self::PercentOfZero => "a percentage of zero is zero; write the tolerance in a unit",
            Self::PercentOfTemperature => {
                "a percentage of a temperature depends on its scale; write degrees"
            }
            Self::Negative => "a tolerance is zero or more",
        })
    }
}

impl std::error::Error for ToleranceRefused {}

impl Quantity {
    /// The two ends of `self +/- tolerance`, low end first, in the unit of `self`.
    ///
    /// A tolerance in % is a share of the value, unless the value stands in % as well: then it is
    /// points of per cent. A bare number tolerates a bare number. Working in the typed unit keeps
    /// a slope in degrees and a temperature right, where adding SI values would not.
    ///
    /// # Errors
    /// Where the tolerance means nothing for this value; see [`ToleranceRefused`].
    pub fn plus_minus(&self, tolerance: Quantity) -> Result<(Self, Self), ToleranceRefused> {
        if tolerance.value.is_nan() || tolerance.value < 0.0 {
            return Err(ToleranceRefused::Negative);
        }
        let reach = self.reach(tolerance)?;
        let end = |value| Self { value, ..*self };
        Ok((end(self.value - reach), end(self.value + reach)))
    }

    fn reach(&self, tolerance: Quantity) -> Result<f64, ToleranceRefused> {
        if tolerance.unit == self.unit {
            return Ok(tolerance.value);
        }
        if is_percent(tolerance.unit) {
            return if self.unit.is_affine() || self.unit.dimension == Dimension::TEMPERATURE {
                Err(ToleranceRefused::PercentOfTemperature)
            } else if self.value == 0.0 {
                Err(ToleranceRefused::PercentOfZero)
            } else {
                Ok(self.value.abs() * tolerance.si())
            };
        }
        let same = self.unit.dimension == tolerance.unit.dimension;
        // A bare number could be a share of anything, so it tolerates bare numbers only.
        if !same || tolerance.unit == ONE {
            return Err(ToleranceRefused::OtherDimension);
        }
        let difference = tolerance.unit.interval_to_si(tolerance.value);
        Ok(self.unit.factor.undo(difference))
    }
}

fn is_percent(unit: &Unit) -> bool {
    UNITS.iter().any(|row| row.symbol == "%" && row == unit)
}
