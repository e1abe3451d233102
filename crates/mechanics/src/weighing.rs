//! Mass and centre of gravity from what load cells read under or above a load.
//!
//! The sum of the readings is the mass whatever four supports share, so a load that rocks on four cells is weighed as
//! well as one on three, as long as all cells are read in one and the same state.

use crate::Interval;
use crate::ratio::Fraction;
use core::fmt;
use plumbhook_sheet::{Basis, Trail, step};
use plumbhook_units::{Length, Mass, Measured, Slope};

/// What one cell read, and where it carries the load, in the load's own frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CellReading {
    /// Where it carries, along x and y of the load as weighed (both level).
    pub at: [Interval<Length>; 2],
    /// What it read with its accuracy, less what stands on it besides the load. A low end below zero is read as zero.
    pub reading: Interval<Mass>,
}

/// What a weighing comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// Mass: the sum of the readings.
    pub mass: Interval<Mass>,
    /// Centre of gravity along x and y; the exact ends over all readings and places.
    pub cg: [Interval<Length>; 2],
    /// Mass with every reading at its middle.
    pub middle_mass: Mass,
    /// Centre of gravity with every reading and place at its middle.
    pub middle_cg: [Length; 2],
}

/// Why a weighing has no answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoWeighing {
    /// Fewer than two cells.
    TooFew,
    /// A reading or a place is not a number, or a range runs backwards.
    NotFinite {
        /// Index of the cell.
        cell: usize,
    },
    /// A cell read less than nothing: it hung or was not set to zero.
    Negative {
        /// Index of the cell.
        cell: usize,
    },
    /// All cells may have read nothing.
    Nothing,
    /// The tilt is not known to be above zero.
    Level,
}

impl fmt::Display for NoWeighing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFew => f.write_str("a centre of gravity by weighing takes two cells at least"),
            Self::NotFinite { cell } => {
                write!(f, "cell {}: its reading or place is not a number", cell + 1)
            }
            Self::Negative { cell } => write!(
                f,
                "cell {} read less than nothing: set it to zero without the load, and weigh again",
                cell + 1
            ),
            Self::Nothing => f.write_str("the cells may have read nothing at all"),
            Self::Level => f.write_str("the tilt must be above zero at its low end too"),
        }
    }
}

impl core::error::Error for NoWeighing {}

/// Mass and centre of gravity in plan: `m = sum R`, `x = sum R x_i / m`.
///
/// The ends are exact over all readings and places, each free within its own interval. For two cells, or cells in one
/// line, the place across that line is what the cells say of themselves: where they stand.
///
/// # Errors
/// [`NoWeighing`].
pub fn weigh(cells: &[CellReading]) -> Result<Weighed, NoWeighing> {
    if cells.len() < 2 {
        return Err(NoWeighing::TooFew);
    }
    let mut read: Vec<(f64, f64)> = Vec::with_capacity(cells.len());
    for (cell, it) in cells.iter().enumerate() {
        let in_order = |(lo, hi): (f64, f64)| lo <= hi && lo.is_finite() && hi.is_finite();
        if !(in_order(it.reading.ends()) && it.at.iter().all(|at| in_order(at.ends()))) {
            return Err(NoWeighing::NotFinite { cell });
        }
        let (lo, hi) = it.reading.ends();
        if hi < 0.0 {
            return Err(NoWeighing::Negative { cell });
        }
        read.push((lo.max(0.0), hi));
    }
    let sum = |of: fn(&(f64, f64)) -> f64| read.iter().map(of).sum::<f64>();
    let (least, most) = (sum(|r| r.0), sum(|r| r.1));
    if least <= 0.0 {
        return Err(NoWeighing::Nothing);
    }
    let middle_mass = sum(|r| f64::midpoint(r.0, r.1));
    let both = [0, 1].map(|axis| {
        let arms: Vec<_> = cells.iter().map(|cell| cell.at[axis].ends()).collect();
        let pairs = || read.iter().zip(&arms);
        let middle = pairs()
            .map(|(r, at)| f64::midpoint(r.0, r.1) * f64::midpoint(at.0, at.1))
            .sum::<f64>()
            / middle_mass;
        let fraction = Fraction {
            most: |l: f64| {
                let each = pairs().map(|(r, at)| f64::max(r.0 * (at.1 - l), r.1 * (at.1 - l)));
                each.sum()
            },
            least: |l: f64| {
                let each = pairs().map(|(r, at)| f64::min(r.0 * (at.0 - l), r.1 * (at.0 - l)));
                each.sum()
            },
            below: (least, most),
        };
        (fraction.ends(middle), middle)
    });
    Ok(Weighed {
        mass: Interval {
            lo: Mass::from_si(least),
            hi: Mass::from_si(most),
        },
        cg: both.map(|(ends, _)| Interval {
            lo: Length::from_si(ends.lo),
            hi: Length::from_si(ends.hi),
        }),
        middle_mass: Mass::from_si(middle_mass),
        middle_cg: both.map(|(_, middle)| Length::from_si(middle)),
    })
}

/// How high the centre of gravity lies above the plane in which the cells carry: `h = (x_level - x_tilted) / tan(t)`,
/// with the centre of gravity along x as weighed level and as weighed with the side towards +x raised by `tilt`,
/// both by the places of the cells in the load's own frame. The two weighings are taken as independent, so the ends
/// are never too near.
///
/// Valid where the load turned about a level axis along y, the cells read plumb forces, and the load touches the same
/// points in both.
///
/// # Errors
/// [`NoWeighing::Level`].
pub fn height_by_tilting(
    level: Interval<Length>,
    tilted: Interval<Length>,
    tilt: Interval<Slope>,
) -> Result<Interval<Length>, NoWeighing> {
    let (flat, steep) = tilt.ends();
    if !(flat > 0.0 && steep >= flat && steep.is_finite()) {
        return Err(NoWeighing::Level);
    }
    let (least, most) = (
        level.lo.si() - tilted.hi.si(),
        level.hi.si() - tilted.lo.si(),
    );
    Ok(Interval {
        lo: Length::from_si((least / flat).min(least / steep)),
        hi: Length::from_si((most / flat).max(most / steep)),
    })
}

/// How far from the first of two loads on a light bar the pick point lies: `d = L_2 span / (L_1 + L_2)`. No rule uses it yet.
///
/// # Errors
/// [`NoWeighing::Nothing`] where the loads are not above zero together.
pub fn balance_point<T: Trail>(
    load_1: Mass,
    load_2: Mass,
    span: Length,
    trail: &mut T,
) -> Result<Length, NoWeighing> {
    if !((load_1 + load_2).si() > 0.0 && load_1.si() >= 0.0 && load_2.si() >= 0.0) {
        return Err(NoWeighing::Nothing);
    }
    step!(
        trail,
        Basis::STATICS,
        [load_1, load_2, span],
        from_load_1 = load_2 * span / (load_1 + load_2)
    );
    Ok(from_load_1)
}
