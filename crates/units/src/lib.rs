//! Dimensions, kinds, the exact unit table, bands, and how a number is printed.
//!
//! The lowest crate: it knows no text, no job and no rule. A number is read as a
//! [`Quantity`] (value as typed and its [`Unit`]), becomes an [`Amount`] or a typed
//! value when a slot says what [`Kind`] it wants, is carried as a [`Band`] of what
//! is known about it, and is printed by the [`Printer`] and by nothing else.

mod ambiguous;
mod band;
mod digits;
mod dimension;
mod factor;
mod format;
mod kind;
mod ladder;
mod meaning;
mod near;
mod quantity;
mod table;
mod term;
mod tolerance;
mod typed;
mod unit;

pub use ambiguous::{AMBIGUOUS, Ambiguous, Reading};
pub use band::{Band, ClaimId, Disagreement, Side, disagreement};
pub use digits::Round;
pub use dimension::Dimension;
pub use factor::Factor;
pub use format::Printer;
pub use kind::Kind;
pub use meaning::Meaning;
pub use near::near;
pub use quantity::{Amount, Quantity};
pub use table::UNITS;
pub use term::{Known, Term, TermRefused};
pub use tolerance::ToleranceRefused;
pub use typed::{
    Acceleration, Angle, Area, ChokeAngle, Density, Energy, Flow, Force, Heading, HorizontalAngle,
    Length, LineLoad, LinearMass, Mass, Measured, Moment, Power, Pressure, RatedForce, Ratio,
    STANDARD_GRAVITY, SecondMoment, SectionModulus, Slope, Speed, Stiffness, SubgradeModulus,
    Temperature, Time, VerticalAngle, Volume, weight,
};
pub use unit::{Lookup, ONE, RISE, System, Unit, unit};
