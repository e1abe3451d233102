//! A unit, and how its spelling is looked up.

use std::collections::HashMap;
use std::sync::LazyLock;

use crate::table::{ONE_ROW, RISE_ROW};
use crate::{AMBIGUOUS, Ambiguous, Dimension, Factor, Kind, UNITS};

/// Which practice writes a unit.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum System {
    /// Metric practice.
    Metric,
    /// Inch-pound practice.
    Us,
    /// Both, as degrees and seconds.
    Both,
}

/// One row of the unit table.
#[derive(Clone, Copy, Debug)]
pub struct Unit {
    /// How it is written and printed; unique.
    pub symbol: &'static str,
    /// Other spellings that are read as this unit.
    pub aliases: &'static [&'static str],
    /// Its name in words, singular.
    pub name: &'static str,
    /// One line for hover, completion and reference.
    pub help: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// The slots where it may stand.
    pub kinds: &'static [Kind],
    /// SI value of one step of this unit, exact.
    pub factor: Factor,
    /// Added to the typed number before `factor` applies; zero for all but temperatures.
    pub offset: Factor,
    /// Which practice writes it.
    pub system: System,
}

/// Symbols are unique, so they decide.
impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.symbol == other.symbol
    }
}

impl Eq for Unit {}

impl Unit {
    /// The SI value of `value` of this unit, in its own dimension.
    pub fn to_si(&self, value: f64) -> f64 {
        if self.is_affine() {
            self.factor.apply(value + self.offset.apply(1.0))
        } else {
            self.factor.apply(value)
        }
    }

    /// How many of this unit an SI value of its own dimension makes.
    pub fn from_si(&self, si: f64) -> f64 {
        let value = self.factor.undo(si);
        if self.is_affine() {
            value - self.offset.apply(1.0)
        } else {
            value
        }
    }

    /// The SI value of a difference of `value`, as a tolerance states it: 5 degC of tolerance is 5 K.
    pub fn interval_to_si(&self, value: f64) -> f64 {
        self.factor.apply(value)
    }

    /// Whether its zero is not the zero of what it measures, as of degC.
    pub fn is_affine(&self) -> bool {
        self.offset != Factor::ZERO
    }
}

/// The unit of a number that has none; never found by [`unit`].
pub const ONE: &Unit = &ONE_ROW;

/// The unit of a slope written `1:50`, which is 0.02 of it; never found by [`unit`].
pub const RISE: &Unit = &RISE_ROW;

/// What a spelling means.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Lookup {
    /// This unit and no other.
    Unit(&'static Unit),
    /// Several units go by this word; the writer has to choose.
    Ambiguous(&'static Ambiguous),
    /// No unit is spelled so; [`crate::near`] may know what was meant.
    None,
}

static SPELLINGS: LazyLock<HashMap<&'static str, Lookup>> = LazyLock::new(|| {
    let mut all = HashMap::new();
    for unit in UNITS.iter().filter(|u| **u != *ONE && **u != *RISE) {
        for spelling in std::iter::once(&unit.symbol).chain(unit.aliases) {
            all.insert(*spelling, Lookup::Unit(unit));
        }
    }
    for ambiguous in AMBIGUOUS {
        for spelling in ambiguous.spellings {
            all.insert(spelling, Lookup::Ambiguous(ambiguous));
        }
    }
    all
});

/// What unit a spelling names. Capital and small letters differ: `t` is the tonne, `T` is ambiguous.
pub fn unit(spelling: &str) -> Lookup {
    SPELLINGS.get(spelling).copied().unwrap_or(Lookup::None)
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn no_spelling_means_two_things() {
        let mut seen = HashSet::new();
        let of_units = UNITS
            .iter()
            .flat_map(|u| std::iter::once(&u.symbol).chain(u.aliases));
        let of_ambiguous = AMBIGUOUS.iter().flat_map(|a| a.spellings);
        for spelling in of_units.chain(of_ambiguous) {
            assert!(seen.insert(*spelling), "{spelling:?} stands twice");
        }
    }

    #[test]
    fn every_unit_is_found_by_its_symbol_and_each_alias() {
        for row in UNITS.iter().filter(|u| **u != *ONE && **u != *RISE) {
            for spelling in std::iter::once(&row.symbol).chain(row.aliases) {
                assert_eq!(unit(spelling), Lookup::Unit(row), "{spelling}");
                assert!(!spelling.contains([' ', ',', '(', ')']), "{spelling}");
            }
        }
    }

    #[test]
    fn numbers_without_a_unit_have_no_spelling() {
        assert_eq!(unit(""), Lookup::None);
        assert_eq!(unit(RISE.symbol), Lookup::None);
        assert_eq!(unit("furlong"), Lookup::None);
    }

    #[test]
    fn every_row_says_what_it_is() {
        for row in UNITS {
            assert!(!row.name.is_empty() && !row.help.is_empty(), "{row:?}");
            assert!(!row.kinds.is_empty(), "{row:?}");
        }
    }
}
