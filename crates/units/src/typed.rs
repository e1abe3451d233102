//! Typed values: uom quantities, and newtypes over them where uom cannot tell two kinds apart.

use std::marker::PhantomData;
use std::ops::{Div, Mul};

use uom::si::angle::radian;
use uom::si::f64::SurfaceTension;
pub use uom::si::f64::{
    Acceleration, Angle, Area, Energy, Force, Length, Mass, Power, Pressure, Ratio, Time, Volume,
};
pub use uom::si::f64::{
    LinearMassDensity as LinearMass, MassDensity as Density,
    ThermodynamicTemperature as Temperature, Torque as Moment, Velocity as Speed,
    VolumeRate as Flow,
};

use crate::Kind;

/// Standard acceleration of free fall, 9.806 65 m/s2, exact.
///
/// Source: 3rd General Conference on Weights and Measures (1901), declaration on the unit of mass
/// and the definition of weight; NIST SP 811, Appendix B.8, "acceleration of free fall, standard".
pub const STANDARD_GRAVITY: Acceleration = Acceleration {
    dimension: PhantomData,
    units: PhantomData,
    value: 9.806_65,
};

/// The weight of a mass under standard gravity: `W = m g`, `m` in kg, `W` in N.
pub fn weight(mass: Mass) -> Force {
    mass * STANDARD_GRAVITY
}

/// A typed value that knows its kind, so that slots and sheets can take any of them.
pub trait Measured: Copy + PartialOrd {
    /// What it means.
    const KIND: Kind;
    /// From a value in SI units, as [`Kind::dimension`] says.
    fn from_si(si: f64) -> Self;
    /// The value in SI units.
    fn si(self) -> f64;
}

impl Measured for f64 {
    const KIND: Kind = Kind::Number;
    fn from_si(si: f64) -> Self {
        si
    }
    fn si(self) -> f64 {
        self
    }
}

macro_rules! measured_uom {
    ($($quantity:ident $kind:ident,)*) => {$(
        impl Measured for $quantity {
            const KIND: Kind = Kind::$kind;
            fn from_si(si: f64) -> Self {
                Self {
                    dimension: PhantomData,
                    units: PhantomData,
                    value: si,
                }
            }
            fn si(self) -> f64 {
                self.value
            }
        }
    )*};
}

measured_uom! {
    Ratio Ratio,
    Mass Mass,
    Force Force,
    Length Length,
    Angle Angle,
    Pressure Pressure,
    Density Density,
    Area Area,
    Volume Volume,
    Time Time,
    Temperature Temperature,
    Speed Speed,
    Acceleration Acceleration,
    Moment Moment,
    Energy Energy,
    Power Power,
    Flow Flow,
    LinearMass LinearMass,
}

macro_rules! newtypes {
    ($($(#[doc = $help:literal])+ $name:ident($inner:ty) $kind:ident,)*) => {$(
        $(#[doc = $help])+
        #[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
        pub struct $name($inner);

        impl $name {
            /// The value with this meaning.
            pub const fn new(value: $inner) -> Self {
                Self(value)
            }

            /// The value without its meaning, for the algebra inside a formula.
            pub const fn get(self) -> $inner {
                self.0
            }
        }

        impl Measured for $name {
            const KIND: Kind = Kind::$kind;
            fn from_si(si: f64) -> Self {
                Self(<$inner>::from_si_value(si))
            }
            fn si(self) -> f64 {
                self.0.value
            }
        }
    )*};
}

/// Makes any uom quantity from its SI value; uom asks for a unit by name instead.
trait FromSiValue {
    fn from_si_value(si: f64) -> Self;
}

impl<D, U> FromSiValue for uom::si::Quantity<D, U, f64>
where
    D: uom::si::Dimension + ?Sized,
    U: uom::si::Units<f64> + ?Sized,
{
    fn from_si_value(si: f64) -> Self {
        Self {
            dimension: PhantomData,
            units: PhantomData,
            value: si,
        }
    }
}

newtypes! {
    /// An angle from horizontal: 90 deg for a vertical leg, 0 deg for a level one.
    HorizontalAngle(Angle) HorizontalAngle,
    /// An angle from vertical: 0 deg for a vertical leg, 90 deg for a level one.
    VerticalAngle(Angle) VerticalAngle,
    /// Angle of choke: between the two parts of a choked sling at the choke; 180 deg where it is drawn straight on.
    ChokeAngle(Angle) ChokeAngle,
    /// A direction in plan: from +x, anticlockwise seen from above.
    Heading(Angle) Heading,
    /// Rise over run, the tangent of the angle from horizontal.
    Slope(Ratio) Slope,
    /// A rated capacity, or a demand to be compared with one, as a force.
    RatedForce(Force) Rating,
    /// Force over the give it causes.
    Stiffness(SurfaceTension) Stiffness,
    /// Force spread along a line.
    LineLoad(SurfaceTension) LineLoad,
    /// Section modulus.
    SectionModulus(Volume) SectionModulus,
    /// Second moment of area.
    SecondMoment(<Area as Mul>::Output) SecondMoment,
    /// Pressure under a mat over the settlement it causes.
    SubgradeModulus(<Pressure as Div<Length>>::Output) SubgradeModulus,
}

fn quarter_turn() -> Angle {
    Angle::new::<radian>(std::f64::consts::FRAC_PI_2)
}

impl HorizontalAngle {
    /// The same leg, measured from vertical: 90 deg less this.
    pub fn to_vertical(self) -> VerticalAngle {
        VerticalAngle(quarter_turn() - self.0)
    }
}

impl VerticalAngle {
    /// The same leg, measured from horizontal: 90 deg less this.
    pub fn to_horizontal(self) -> HorizontalAngle {
        HorizontalAngle(quarter_turn() - self.0)
    }
}

impl Slope {
    /// The slope at `angle` from horizontal; `None` at 90 deg and beyond.
    pub fn at(angle: HorizontalAngle) -> Option<Self> {
        let within = angle.si().abs() < std::f64::consts::FRAC_PI_2;
        within.then(|| Self::from_si(angle.si().tan()))
    }

    /// Its angle from horizontal.
    pub fn angle(self) -> HorizontalAngle {
        HorizontalAngle::from_si(self.si().atan())
    }
}

impl RatedForce {
    /// A capacity stated as a mass: the weight of that mass under standard gravity.
    pub fn from_mass(mass: Mass) -> Self {
        Self(weight(mass))
    }

    /// A capacity stated as a force.
    pub const fn from_force(force: Force) -> Self {
        Self(force)
    }

    /// As a force.
    pub const fn force(self) -> Force {
        self.0
    }

    /// The mass whose weight under standard gravity it is.
    pub fn mass(self) -> Mass {
        self.0 / STANDARD_GRAVITY
    }
}

impl Stiffness {
    /// `k = F / x`, `force` in N over `give` in m.
    pub fn of(force: Force, give: Length) -> Self {
        Self::from_si(force.value / give.value)
    }

    /// The force that `give` calls up: `F = k x`.
    pub fn force(self, give: Length) -> Force {
        Force::from_si(self.si() * give.value)
    }

    /// How far `force` makes it give: `x = F / k`.
    pub fn give(self, force: Force) -> Length {
        Length::from_si(force.value / self.si())
    }
}
