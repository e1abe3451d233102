//! What a number means where it stands.

use serde::{Serialize, Serializer};

use crate::{Dimension, UNITS, Unit};

macro_rules! kinds {
    ($($(#[doc = $help:literal])+ $kind:ident $word:literal $dimension:ident,)*) => {
        /// What a slot means. Kinds may share a dimension and are still different: an angle
        /// from horizontal is not an angle from vertical, a moment is not an energy.
        #[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
        pub enum Kind {
            $($(#[doc = $help])+ $kind,)*
        }

        impl Kind {
            /// Every kind, in the order of the reference.
            pub const ALL: &'static [Kind] = &[$(Kind::$kind,)*];

            /// The dimension of its SI value ([`crate::Amount::si`]).
            pub const fn dimension(self) -> Dimension {
                match self {
                    $(Kind::$kind => Dimension::$dimension,)*
                }
            }

            /// Its name in messages: "mass", "angle from horizontal".
            pub const fn word(self) -> &'static str {
                match self {
                    $(Kind::$kind => $word,)*
                }
            }

            /// One or two sentences for hover and reference.
            pub const fn help(self) -> &'static str {
                match self {
                    $(Kind::$kind => concat!($($help),+).trim_ascii(),)*
                }
            }
        }
    };
}

kinds! {
    /// A plain number without a unit.
    Number "number" NONE,
    /// A share or a coefficient, as 0.05 or 5 %.
    Ratio "ratio" NONE,
    /// What a thing weighs on a scale, in kilograms.
    Mass "mass" MASS,
    /// A push or a pull, in newtons.
    Force "force" FORCE,
    /// A rated capacity. Written as mass or as force; held as force in newtons, by standard
    /// gravity 9.80665 m/s2.
    Rating "rated capacity" FORCE,
    /// A distance, in metres.
    Length "length" LENGTH,
    /// A plane angle whose datum is named beside it, in radians.
    Angle "angle" ANGLE,
    /// An angle measured from horizontal, in radians.
    HorizontalAngle "angle from horizontal" ANGLE,
    /// An angle measured from vertical, in radians.
    VerticalAngle "angle from vertical" ANGLE,
    /// The angle of choke of a sling: between its two parts at the choke, in radians.
    ChokeAngle "angle of choke" ANGLE,
    /// A direction in plan: an angle from +x, anticlockwise seen from above, in radians.
    Heading "heading" ANGLE,
    /// Rise over run. Written 1:50, in % or in deg; held as the tangent.
    Slope "slope" NONE,
    /// Force over area, pressure or stress, in pascals.
    Pressure "pressure" PRESSURE,
    /// Mass of a volume, in kilograms per cubic metre.
    Density "density" DENSITY,
    /// An area, in square metres.
    Area "area" AREA,
    /// A volume, in cubic metres.
    Volume "volume" VOLUME,
    /// A section modulus, in cubic metres.
    SectionModulus "section modulus" VOLUME,
    /// A second moment of area, in metres to the fourth.
    SecondMoment "second moment of area" SECOND_MOMENT,
    /// A length of time, in seconds.
    Time "time" TIME,
    /// A temperature, in kelvins above absolute zero.
    Temperature "temperature" TEMPERATURE,
    /// A speed, of travel, hoisting or wind, in metres per second.
    Speed "speed" SPEED,
    /// An acceleration, in metres per second squared.
    Acceleration "acceleration" ACCELERATION,
    /// Force over the give it causes, in newtons per metre.
    Stiffness "stiffness" FORCE_PER_LENGTH,
    /// Force spread along a line, in newtons per metre.
    LineLoad "load per length" FORCE_PER_LENGTH,
    /// Pressure under a mat over the settlement it causes, in newtons per cubic metre.
    SubgradeModulus "subgrade modulus" PRESSURE_PER_LENGTH,
    /// Force times lever arm, in newton metres.
    Moment "moment" MOMENT,
    /// Work or stored energy, in joules.
    Energy "energy" MOMENT,
    /// Work in a time, as of a winch or a pump, in watts.
    Power "power" POWER,
    /// Volume in a time, as a pump moves it, in cubic metres per second.
    Flow "flow" FLOW,
    /// Mass of a length, as of rope or rail, in kilograms per metre.
    LinearMass "mass per length" LINEAR_MASS,
}

impl Kind {
    /// Whether a number with this unit may stand in a slot of this kind.
    pub fn accepts(self, unit: &Unit) -> bool {
        unit.kinds.contains(&self)
    }

    /// The units that may stand here, in the order of the unit table (most usual first).
    pub fn units(self) -> impl Iterator<Item = &'static Unit> {
        UNITS.iter().filter(move |unit| self.accepts(unit))
    }
}

/// As its word, so that a report reads "rated capacity".
impl Serialize for Kind {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.word())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Lookup, unit};

    fn accepts(kind: Kind, spelling: &str) -> bool {
        match unit(spelling) {
            Lookup::Unit(unit) => kind.accepts(unit),
            other => panic!("{spelling}: {other:?}"),
        }
    }

    #[test]
    fn every_kind_has_a_unit_and_a_word_of_its_own() {
        for kind in Kind::ALL {
            assert!(kind.units().next().is_some(), "{kind:?} has no unit");
            assert!(!kind.help().is_empty());
            let same = Kind::ALL.iter().filter(|k| k.word() == kind.word());
            assert_eq!(same.count(), 1, "{}", kind.word());
        }
    }

    #[test]
    fn a_load_is_a_mass_and_a_rating_is_either() {
        assert!(accepts(Kind::Mass, "t") && accepts(Kind::Mass, "lb"));
        assert!(!accepts(Kind::Mass, "kN") && !accepts(Kind::Mass, "kip"));
        assert!(!accepts(Kind::Mass, "lbf") && !accepts(Kind::Mass, "tf"));
        for spelling in ["t", "lb", "short_ton", "kN", "kip", "lbf", "tf"] {
            assert!(accepts(Kind::Rating, spelling), "{spelling}");
        }
        assert!(!accepts(Kind::Force, "t"));
    }

    #[test]
    fn a_moment_is_not_an_energy_and_a_stiffness_shares_units_with_a_line_load() {
        assert!(accepts(Kind::Moment, "kN*m") && !accepts(Kind::Energy, "kN*m"));
        assert!(accepts(Kind::Energy, "kJ") && !accepts(Kind::Moment, "kJ"));
        assert!(accepts(Kind::Stiffness, "kN/m") && accepts(Kind::LineLoad, "kN/m"));
    }

    #[test]
    fn a_slope_takes_percent_and_degrees_but_no_bare_number() {
        assert!(accepts(Kind::Slope, "%") && accepts(Kind::Slope, "deg"));
        assert!(!Kind::Slope.accepts(crate::ONE));
        assert!(Kind::Slope.accepts(crate::RISE));
    }
}
