//! What a calculated value can mean: a dimension, and the kinds that it may still be.

use std::fmt;

use crate::{Dimension, Kind, Unit};

/// A dimension and the kinds that a value of it may stand for.
///
/// A number with a unit may be what its unit may state: `5 t` a mass or a rated capacity, `5 kN*m` a moment and never
/// an energy. A sum may be what both sides may be; a product what its dimension allows, except that a plain number
/// changes nothing: `2 * 5 t` is what `5 t` is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Meaning {
    dimension: Dimension,
    /// One bit for each kind.
    kinds: u64,
}

const _: () = assert!(Kind::ALL.len() <= 64, "a set of kinds is 64 bits");

const fn bit(kind: Kind) -> u64 {
    1 << kind as u32
}

impl Meaning {
    /// A plain number: a count, a share or a coefficient.
    pub const NUMBER: Self = Self {
        dimension: Dimension::NONE,
        kinds: bit(Kind::Number) | bit(Kind::Ratio),
    };

    /// What a number with this unit may be.
    pub fn of_unit(unit: &Unit) -> Self {
        Self {
            dimension: unit.dimension,
            kinds: unit.kinds.iter().fold(0, |set, kind| set | bit(*kind)),
        }
    }

    /// A value that can be nothing but `kind`, in the dimension of its SI value.
    pub const fn of_kind(kind: Kind) -> Self {
        Self {
            dimension: kind.dimension(),
            kinds: bit(kind),
        }
    }

    /// Whatever has this dimension.
    fn of_dimension(dimension: Dimension) -> Self {
        let kinds = Kind::ALL
            .iter()
            .filter(|kind| kind.dimension() == dimension);
        Self {
            dimension,
            kinds: kinds.fold(0, |set, kind| set | bit(*kind)),
        }
    }

    /// What it measures.
    pub const fn dimension(self) -> Dimension {
        self.dimension
    }

    /// Whether it may stand in a slot of `kind`.
    pub const fn may_be(self, kind: Kind) -> bool {
        self.kinds & bit(kind) != 0
    }

    /// Whether it is a plain number, a share or a coefficient.
    pub const fn is_number(self) -> bool {
        self.may_be(Kind::Number) || self.may_be(Kind::Ratio)
    }

    /// The same with only those kinds left that it shares with `other`: what a sum may be. `None` where there is none.
    pub fn shared(self, other: Self) -> Option<Self> {
        let kinds = self.kinds & other.kinds;
        (self.dimension == other.dimension && kinds != 0).then_some(Self { kinds, ..self })
    }

    /// What a product is; `None` where a power leaves the range of what is counted.
    pub fn times(self, other: Self) -> Option<Self> {
        if self.is_number() {
            return Some(other);
        }
        if other.is_number() {
            return Some(self);
        }
        self.dimension
            .times(other.dimension)
            .map(Self::of_dimension)
    }

    /// What a quotient is; `None` where a power leaves the range of what is counted.
    pub fn over(self, other: Self) -> Option<Self> {
        if other.is_number() {
            return Some(self);
        }
        self.dimension.over(other.dimension).map(Self::of_dimension)
    }
}

/// For messages: `mass (kg)`, `moment or energy (kg m2 s-2)`, `of the dimension kg m2`.
impl fmt::Display for Meaning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // What says nothing beside another of the set.
        let beside = |kind: Kind| match kind {
            Kind::Rating => self.may_be(Kind::Mass) || self.may_be(Kind::Force),
            Kind::Ratio => self.may_be(Kind::Number),
            Kind::Slope => self.is_number() || self.may_be(Kind::Angle),
            Kind::HorizontalAngle | Kind::VerticalAngle | Kind::ChokeAngle | Kind::Heading => {
                self.may_be(Kind::Angle)
            }
            Kind::SectionModulus => self.may_be(Kind::Volume),
            _ => false,
        };
        let kinds = Kind::ALL.iter().filter(|kind| self.may_be(**kind));
        let words: Vec<_> = kinds
            .filter(|kind| !beside(**kind))
            .map(|kind| kind.word())
            .collect();
        match (&words[..], self.dimension) {
            ([], dimension) => write!(f, "of the dimension {dimension}"),
            (words, Dimension::NONE) => f.write_str(&words.join(" or ")),
            (words, dimension) => write!(f, "{} ({dimension})", words.join(" or ")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Lookup, unit};

    fn of(spelling: &str) -> Meaning {
        match unit(spelling) {
            Lookup::Unit(unit) => Meaning::of_unit(unit),
            other => panic!("{spelling}: {other:?}"),
        }
    }

    #[test]
    fn products_mean_what_their_dimension_allows() {
        // Source: definitions of the derived SI units (SI Brochure, 9th edition, table 4).
        let volume = of("m").times(of("m")).unwrap().times(of("mm")).unwrap();
        assert!(volume.may_be(Kind::Volume));
        let mass = of("kg/m3").times(volume).unwrap();
        assert!(mass.may_be(Kind::Mass) && !mass.may_be(Kind::Rating));
        let lever = of("kN").times(of("m")).unwrap();
        assert!(lever.may_be(Kind::Moment) && lever.may_be(Kind::Energy));
        assert!(of("kN").over(of("m2")).unwrap().may_be(Kind::Pressure));
        assert!(of("m").over(of("m")).unwrap().may_be(Kind::Slope));
    }

    #[test]
    fn a_plain_number_changes_nothing() {
        assert_eq!(Meaning::NUMBER.times(of("t")), Some(of("t")));
        assert_eq!(of("kJ").over(Meaning::NUMBER), Some(of("kJ")));
        assert!(!of("t").times(Meaning::NUMBER).unwrap().may_be(Kind::Force));
    }

    #[test]
    fn a_sum_is_of_one_kind() {
        assert!(of("t").shared(of("lb")).unwrap().may_be(Kind::Rating));
        assert_eq!(of("t").shared(of("kN")), None);
        assert_eq!(of("kN*m").shared(of("kJ")), None);
        let (steep, flat) = (Kind::VerticalAngle, Kind::HorizontalAngle);
        assert_eq!(Meaning::of_kind(steep).shared(Meaning::of_kind(flat)), None);
    }

    #[test]
    fn it_is_said_with_its_dimension() {
        assert_eq!(of("t").to_string(), "mass (kg)");
        assert_eq!(of("kN").to_string(), "force (kg m s-2)");
        let lever = of("kN").times(of("m")).unwrap();
        assert_eq!(lever.to_string(), "moment or energy (kg m2 s-2)");
        assert_eq!(Meaning::NUMBER.to_string(), "number");
        assert_eq!(of("deg").to_string(), "angle (rad)");
        let strange = of("t").times(of("t")).unwrap();
        assert_eq!(strange.to_string(), "of the dimension kg2");
    }
}
