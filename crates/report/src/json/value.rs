//! Places and numbers in the JSON.

use plumbhook_sheet::Origin;
use plumbhook_units::{Amount, Kind, Printer, Round};
use plumbhook_workspace::{Located, Snapshot};
use serde::Serialize;

/// A place in a file, counted from 1.
#[derive(Serialize)]
pub(super) struct Place {
    file: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    line: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    column: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    end_column: Option<u32>,
}

impl Place {
    pub(super) fn of(origin: &Origin, snapshot: &Snapshot) -> Self {
        snapshot
            .locate(origin)
            .map_or_else(|| Self::file(&origin.entry.file), |spot| Self::at(&spot))
    }

    pub(super) fn at(spot: &Located) -> Self {
        Self {
            file: spot.shown.to_string(),
            line: Some(spot.line.saturating_add(1)),
            column: Some(spot.start.saturating_add(1)),
            end_column: Some(spot.end.saturating_add(1)),
        }
    }

    pub(super) fn file(shown: &str) -> Self {
        Self {
            file: shown.to_owned(),
            line: None,
            column: None,
            end_column: None,
        }
    }
}

/// A number with its meaning.
#[derive(Serialize)]
pub(super) struct Number {
    kind: Kind,
    si: f64,
    unit: String,
    printed: String,
}

impl Number {
    pub(super) fn of(amount: Amount, round: Round) -> Self {
        Self {
            kind: amount.kind,
            si: amount.si,
            unit: si_unit(amount.kind),
            printed: Printer::default().metric(amount, round),
        }
    }
}

/// The unit of `si`, as the unit table writes it; base units where it has none.
fn si_unit(kind: Kind) -> String {
    kind.units()
        .find(|unit| unit.dimension == kind.dimension() && unit.to_si(1.0).to_bits() == ONE)
        .map_or_else(
            || kind.dimension().to_string(),
            |unit| unit.symbol.to_owned(),
        )
}

const ONE: u64 = 1.0_f64.to_bits();

#[cfg(test)]
mod tests {
    use super::*;

    /// SI brochure, 9th edition (2019), Tables 2 and 4: kilogram, metre, radian, newton, pascal.
    #[test]
    fn si_units_are_those_of_the_brochure() {
        let units = [
            (Kind::Mass, "kg"),
            (Kind::Length, "m"),
            (Kind::Rating, "N"),
            (Kind::Force, "N"),
            (Kind::Pressure, "Pa"),
            (Kind::HorizontalAngle, "rad"),
            (Kind::Stiffness, "N/m"),
            (Kind::Temperature, "K"),
        ];
        for (kind, unit) in units {
            assert_eq!(si_unit(kind), unit, "{kind:?}");
        }
    }
}
