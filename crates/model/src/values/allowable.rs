//! What a floor or the ground allows, and for what kind of loading.

use super::number::amount;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_units::{Kind, Measured, Pressure};

/// What an allowable judges. A spread-load rating never judges a point load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AllowableFor {
    /// The contact pressure under one pad.
    Pad,
    /// A load spread over a whole bay.
    Spread,
}

/// `pad 140 kPa`, `spread 500 psf`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allowable {
    /// What it judges.
    pub judges: AllowableFor,
    /// The pressure.
    pub pressure: Pressure,
}

impl Allowable {
    /// Reads it; for use inside other shapes.
    pub fn read_part(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let judges = if line.word("pad") {
            AllowableFor::Pad
        } else if line.word("spread") {
            AllowableFor::Spread
        } else {
            return Err(line.broken(
                "an allowable says what it judges",
                "write `pad 140 kPa` (contact under one pad) or `spread 500 psf` (over a whole bay)",
            ));
        };
        let Some(item) = line.take() else {
            return Err(line.broken("the pressure is missing here", ""));
        };
        let pressure = amount(line, item, Kind::Pressure)?;
        if pressure > 0.0 {
            Ok(Self {
                judges,
                pressure: Pressure::from_si(pressure),
            })
        } else {
            Err(line.broken_at(item.place, "an allowable is above zero", ""))
        }
    }
}

impl Value for Allowable {
    const SHAPE: Shape = Shape {
        say: "an allowable pressure and what it judges, as `pad 140 kPa` or `spread 500 psf`",
        kind: Some(Kind::Pressure),
        words: &["pad", "spread", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        Self::read_part(line)
    }
}
