//! Densities as printed. None of them has a tolerance in print, so none is a value for a calculation: they help whoever
//! states a density with its range.

use plumbhook_units::{Density, Measured};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
struct Table {
    rows: Vec<Row>,
}

#[derive(Deserialize)]
struct Row {
    material: String,
    density: f64,
    source: String,
}

/// A density in print.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Printed<'t> {
    /// The number, without a tolerance.
    pub density: Density,
    /// Where it is printed.
    pub source: &'t str,
}

/// Pound per cubic foot in kg/m3, exact by the 1959 pound and foot (NIST SP 811, Appendix B).
const PCF: f64 = 0.453_592_37 / (0.3048 * 0.3048 * 0.3048);

static TABLE: LazyLock<Option<Table>> =
    LazyLock::new(|| serde_json::from_str(include_str!("density.json")).ok());

/// What is printed of a material, most trusted source first; nothing for a material that is not in the table.
pub fn in_print(material: &str) -> impl Iterator<Item = Printed<'static>> {
    let rows = TABLE.as_ref().map_or(&[][..], |table| &table.rows);
    let found: Vec<_> = rows.iter().filter(|row| row.material == material).collect();
    found.into_iter().map(|row| Printed {
        density: Density::from_si(row.density * PCF),
        source: &row.source,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Iowa DOT, Instructional Memorandum 452.02: steel 490 lb/ft3 (7850 kg/m3), cast iron 450 lb/ft3 (7210 kg/m3);
    /// its metric numbers are rounded to ten.
    #[test]
    fn both_numbers_of_one_print_agree() {
        for (material, metric) in [("steel", 7850.0), ("cast-iron", 7210.0)] {
            let printed = in_print(material).next().map(|row| row.density.si());
            assert!(
                printed.is_some_and(|si| (si - metric).abs() < 5.0),
                "{printed:?}"
            );
        }
        assert_eq!(in_print("unobtainium").count(), 0);
    }
}
