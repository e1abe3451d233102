//! What unit a misspelling may have meant.

use crate::{AMBIGUOUS, Kind, Lookup, ONE, RISE, UNITS, Unit, unit};

/// Habits of hand-written notes that no counting of letters would find: as written, and the units
/// that may be meant. (Common practice, no source.)
const HABITS: &[(&str, &[&str])] = &[
    ("K", &["kip"]),
    ("g", &["gn"]),
    ("kn", &["kN", "knot"]),
    ("kt", &["knot", "t"]),
    ("MT", &["t"]),
    ("mt", &["t"]),
    ("mT", &["t"]),
    ("#", &["lb", "lbf"]),
    ("kps", &["kip"]),
    ("kgs/m2", &["kg/m2"]),
    ("ton/m2", &["t/m2"]),
    ("tons/m2", &["t/m2"]),
    ("T/m2", &["t/m2"]),
    ("lb/f", &["lb/ft", "plf"]),
    ("C", &["degC"]),
    ("F", &["degF"]),
];

/// The units that `spelling` may have meant, likeliest first, at most five: readings of an ambiguous
/// word, habits of the trade, other capitals, a letter or two wrong.
///
/// With a `kind`, only units that may stand in such a slot. A spelling that is itself a unit is not
/// returned.
pub fn near(spelling: &str, kind: Option<Kind>) -> Vec<&'static Unit> {
    let mut found: Vec<&'static Unit> = Vec::new();
    let mut add = |candidate: &'static Unit| {
        let fits = kind.is_none_or(|kind| kind.accepts(candidate));
        let itself = unit(spelling) == Lookup::Unit(candidate);
        if fits && !itself && !found.contains(&candidate) {
            found.push(candidate);
        }
    };
    let readings = AMBIGUOUS
        .iter()
        .filter(|a| a.spellings.contains(&spelling))
        .flat_map(|a| a.readings.iter().map(|reading| reading.unit));
    let habits = HABITS
        .iter()
        .filter(|(written, _)| *written == spelling)
        .flat_map(|(_, meant)| meant.iter().copied());
    for symbol in readings.chain(habits) {
        if let Lookup::Unit(unit) = unit(symbol) {
            add(unit);
        }
    }
    let mut by_distance: Vec<(usize, &'static Unit)> = UNITS
        .iter()
        .filter(|candidate| **candidate != *ONE && **candidate != *RISE)
        .filter_map(|candidate| Some((distance(spelling, candidate)?, candidate)))
        .collect();
    by_distance.sort_by_key(|(distance, _)| *distance);
    for (_, candidate) in by_distance {
        add(candidate);
    }
    found.truncate(5);
    found
}

/// How far the nearest spelling of `candidate` is, where it is near enough to be meant. Other
/// capitals are the nearest of all; a short spelling may miss one letter, a longer one two, and one
/// letter alone none, since every letter is near every other.
fn distance(spelling: &str, candidate: &Unit) -> Option<usize> {
    let folded = spelling.to_lowercase();
    let allowed = match spelling.chars().count() {
        0 | 1 => 0,
        2..=4 => 1,
        _ => 2,
    };
    std::iter::once(&candidate.symbol)
        .chain(candidate.aliases)
        .filter(|known| known.chars().count() > 1 || spelling.chars().count() == 1)
        .map(|known| strsim::osa_distance(&folded, &known.to_lowercase()))
        .min()
        .filter(|distance| *distance <= allowed)
}
