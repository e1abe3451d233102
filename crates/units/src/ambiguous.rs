//! Spellings that the trade uses for more than one unit.

/// One thing that an ambiguous spelling can mean.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Reading {
    /// Symbol of the unit to write instead.
    pub unit: &'static str,
    /// What that is, with its size in SI units.
    pub words: &'static str,
}

/// Spellings that must not be guessed, and what each may mean.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Ambiguous {
    /// The spellings.
    pub spellings: &'static [&'static str],
    /// What they may mean, smallest first.
    pub readings: &'static [Reading],
}

const fn reading(unit: &'static str, words: &'static str) -> Reading {
    Reading { unit, words }
}

/// Every ambiguous spelling.
pub static AMBIGUOUS: &[Ambiguous] = &[
    Ambiguous {
        spellings: &["ton", "tons", "T", "Ton", "Tons", "TON", "TONS"],
        readings: &[
            reading("short_ton", "short ton of 2000 lb, 907.18474 kg"),
            reading("t", "tonne (metric ton), 1000 kg"),
            reading("long_ton", "long ton of 2240 lb, 1016.0469088 kg"),
        ],
    },
    Ambiguous {
        spellings: &["tonf", "tonsf", "ton-force", "tons-force"],
        readings: &[
            reading(
                "short_tonf",
                "short ton-force of 2000 lbf, weight of 907.18474 kg",
            ),
            reading("tf", "tonne-force, weight of 1000 kg"),
            reading(
                "long_tonf",
                "long ton-force of 2240 lbf, weight of 1016.0469088 kg",
            ),
        ],
    },
    Ambiguous {
        spellings: &["ton/ft2", "tons/ft2", "ton/ft²", "tons/ft²"],
        readings: &[
            reading("tsf", "short tons of 2000 lbf on a square foot, 95.76 kPa"),
            reading(
                "long_tonf/ft2",
                "long tons of 2240 lbf on a square foot, 107.25 kPa",
            ),
        ],
    },
    Ambiguous {
        spellings: &["cwt"],
        readings: &[
            reading("short_cwt", "short hundredweight of 100 lb, 45.359237 kg"),
            reading("long_cwt", "long hundredweight of 112 lb, 50.80234544 kg"),
        ],
    },
    Ambiguous {
        spellings: &["gal", "gals", "gallon", "gallons"],
        readings: &[
            reading("us_gal", "US gallon, 3.785411784 l"),
            reading("imp_gal", "imperial gallon, 4.54609 l"),
        ],
    },
    Ambiguous {
        spellings: &["oz", "ounce", "ounces"],
        readings: &[
            reading("oz_av", "avoirdupois ounce of 1/16 lb, 0.028349523125 kg"),
            reading("us_fl_oz", "US fluid ounce, a volume of 0.0295735295625 l"),
        ],
    },
    Ambiguous {
        spellings: &["gpm", "gal/min"],
        readings: &[
            reading("us_gal/min", "US gallons in a minute, 3.785411784 l/min"),
            reading("imp_gal/min", "imperial gallons in a minute, 4.54609 l/min"),
        ],
    },
];

#[cfg(test)]
#[allow(clippy::float_cmp, reason = "the exact double is what is claimed")]
mod tests {
    use super::*;
    use crate::{Lookup, unit};

    #[test]
    fn every_reading_names_a_unit() {
        for reading in AMBIGUOUS.iter().flat_map(|a| a.readings) {
            assert!(matches!(unit(reading.unit), Lookup::Unit(_)), "{reading:?}");
        }
    }

    #[test]
    fn a_bare_ton_is_one_of_three_with_its_kilograms() {
        for spelling in ["ton", "tons", "T", "Ton", "TONS"] {
            let Lookup::Ambiguous(found) = unit(spelling) else {
                panic!("{spelling} must be ambiguous");
            };
            let sizes: Vec<f64> = found
                .readings
                .iter()
                .map(|r| match unit(r.unit) {
                    Lookup::Unit(unit) => unit.to_si(1.0),
                    other => panic!("{other:?}"),
                })
                .collect();
            // Source: NIST Handbook 44, Appendix C, "Units of Mass": short ton 0.907 184 74 t,
            // long ton 1.016 046 908 8 t, both exact.
            assert_eq!(sizes, [907.184_74, 1000.0, 1_016.046_908_8]);
            for (reading, size) in found.readings.iter().zip(sizes) {
                assert!(reading.words.contains(&format!("{size} kg")), "{reading:?}");
            }
        }
    }

    #[test]
    fn a_small_t_is_always_the_tonne() {
        let Lookup::Unit(t) = unit("t") else {
            panic!("t is a unit")
        };
        assert_eq!(t.name, "tonne");
    }
}
