//! What a unit measures, as powers of the base quantities.

use std::fmt;

/// Powers of the base quantities.
///
/// Angle is kept as a base of its own although SI calls it dimensionless, so that a
/// degree cannot stand where a ratio is wanted.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Dimension {
    /// Power of mass (kg).
    pub mass: i8,
    /// Power of length (m).
    pub length: i8,
    /// Power of time (s).
    pub time: i8,
    /// Power of temperature (K).
    pub temperature: i8,
    /// Power of plane angle (rad).
    pub angle: i8,
}

impl Dimension {
    /// A pure number.
    pub const NONE: Self = Self::of(0, 0, 0);
    /// kg
    pub const MASS: Self = Self::of(1, 0, 0);
    /// m
    pub const LENGTH: Self = Self::of(0, 1, 0);
    /// s
    pub const TIME: Self = Self::of(0, 0, 1);
    /// K
    pub const TEMPERATURE: Self = Self {
        temperature: 1,
        ..Self::NONE
    };
    /// rad
    pub const ANGLE: Self = Self {
        angle: 1,
        ..Self::NONE
    };
    /// m2
    pub const AREA: Self = Self::of(0, 2, 0);
    /// m3
    pub const VOLUME: Self = Self::of(0, 3, 0);
    /// m4, second moment of area
    pub const SECOND_MOMENT: Self = Self::of(0, 4, 0);
    /// m/s
    pub const SPEED: Self = Self::of(0, 1, -1);
    /// m/s2
    pub const ACCELERATION: Self = Self::of(0, 1, -2);
    /// m3/s
    pub const FLOW: Self = Self::of(0, 3, -1);
    /// N
    pub const FORCE: Self = Self::of(1, 1, -2);
    /// N m; also the joule
    pub const MOMENT: Self = Self::of(1, 2, -2);
    /// W
    pub const POWER: Self = Self::of(1, 2, -3);
    /// Pa
    pub const PRESSURE: Self = Self::of(1, -1, -2);
    /// kg/m3
    pub const DENSITY: Self = Self::of(1, -3, 0);
    /// kg/m
    pub const LINEAR_MASS: Self = Self::of(1, -1, 0);
    /// N/m; stiffness and load per length
    pub const FORCE_PER_LENGTH: Self = Self::of(1, 0, -2);
    /// N/m3, pressure per settlement
    pub const PRESSURE_PER_LENGTH: Self = Self::of(1, -2, -2);

    const fn of(mass: i8, length: i8, time: i8) -> Self {
        Self {
            mass,
            length,
            time,
            temperature: 0,
            angle: 0,
        }
    }

    /// The dimension of a product, or `None` if a power leaves the range of `i8`.
    pub fn times(self, other: Self) -> Option<Self> {
        self.combine(other, i8::checked_add)
    }

    /// The dimension of a quotient, or `None` if a power leaves the range of `i8`.
    pub fn over(self, other: Self) -> Option<Self> {
        self.combine(other, i8::checked_sub)
    }

    fn combine(self, other: Self, join: impl Fn(i8, i8) -> Option<i8>) -> Option<Self> {
        Some(Self {
            mass: join(self.mass, other.mass)?,
            length: join(self.length, other.length)?,
            time: join(self.time, other.time)?,
            temperature: join(self.temperature, other.temperature)?,
            angle: join(self.angle, other.angle)?,
        })
    }
}

/// In base units, as `kg m s-2`; a pure number is `1`.
impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let powers = [
            ("kg", self.mass),
            ("m", self.length),
            ("s", self.time),
            ("K", self.temperature),
            ("rad", self.angle),
        ];
        let mut first = true;
        for (symbol, power) in powers.into_iter().filter(|(_, power)| *power != 0) {
            if !first {
                f.write_str(" ")?;
            }
            first = false;
            f.write_str(symbol)?;
            if power != 1 {
                write!(f, "{power}")?;
            }
        }
        if first { f.write_str("1") } else { Ok(()) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn products_and_quotients_add_and_subtract_powers() {
        // Source: definitions of the derived SI units (SI Brochure, 9th edition, table 4).
        let newton = Dimension::MASS.times(Dimension::ACCELERATION);
        assert_eq!(newton, Some(Dimension::FORCE));
        assert_eq!(
            Dimension::FORCE.over(Dimension::AREA),
            Some(Dimension::PRESSURE)
        );
        assert_eq!(
            Dimension::FORCE.times(Dimension::LENGTH),
            Some(Dimension::MOMENT)
        );
        assert_eq!(
            Dimension::PRESSURE.over(Dimension::LENGTH),
            Some(Dimension::PRESSURE_PER_LENGTH)
        );
    }

    #[test]
    fn a_power_out_of_range_is_refused() {
        let deep = Dimension {
            length: i8::MAX,
            ..Dimension::NONE
        };
        assert_eq!(deep.times(Dimension::LENGTH), None);
    }

    #[test]
    fn it_is_written_in_base_units() {
        assert_eq!(Dimension::FORCE.to_string(), "kg m s-2");
        assert_eq!(Dimension::NONE.to_string(), "1");
    }
}
