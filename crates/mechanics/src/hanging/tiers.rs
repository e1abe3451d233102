//! The worst of several bodies, or of a body under several hooks, inside its bands.

use super::bodies::{Many, span};
use super::family::{Family, Kind, Way};
use super::gather::gather;
use super::inputs::{check_ends, explain, plain_bands};
use super::many::numbers;
use super::outcome::{Counts, Param};
use super::rig::BandedRig;
use super::search::aims;
use super::several::Several;
use super::sharing::LARGEST_STRETCH;
use super::why::NoPose;
use super::worst::Worst;
use nalgebra::{DMatrix, DVector};
use plumbhook_units::Measured;

/// A corner of all inputs is one number of 64 bits.
const MOST_INPUTS: usize = 60;
/// The most sharings that are searched.
const MOST_SHARINGS: usize = 64;
/// A leg whose pull lies this near to what the other legs can do shares with them by stiffness, not by statics.
const SPANNED: f64 = 1e-2;

/// A checked rig with its middle in plain numbers.
struct Checked {
    many: Many,
    counts: Counts,
    longest: Vec<f64>,
    bands: Vec<(Param, f64, f64)>,
    start: Vec<super::bodies::At>,
}

impl Checked {
    fn family(&self, way: Way) -> Family {
        Family::new(self.counts, way, &self.bands, |way, params| {
            let middle = |param: &Param| {
                let band = self.bands.iter().find(|(p, ..)| p == param);
                band.map_or(0.0, |(_, lo, hi)| f64::midpoint(*lo, *hi))
            };
            let mut many = self.many.clone();
            if !matches!(way, Way::Elastic) {
                for line in &mut many.lines {
                    line.stiffness = None;
                }
            }
            Kind::Several(Box::new(Several::new(
                many,
                self.counts,
                way,
                self.longest.clone(),
                params.clone(),
                (params.iter().map(middle).collect(), self.start.clone()),
            )))
        })
    }

    /// Columns of unit length: what a pull of each leg does to the bodies.
    fn pulls(&self) -> Option<Vec<DVector<f64>>> {
        let mut columns = DMatrix::zeros(self.many.size(), self.counts.legs);
        for (leg, line) in self.many.lines.iter().enumerate() {
            let span = span(line, &self.start)?;
            self.many.direction_into(&mut columns, leg, &span);
        }
        let each = columns.column_iter();
        Some(each.map(|column| column.into_owned().normalize()).collect())
    }

    /// Every largest set of legs whose pulls statics alone can tell.
    fn sharings(&self) -> Result<Vec<Vec<usize>>, NoPose> {
        let pulls = self.pulls().ok_or(NoPose::CannotMeet)?;
        let rank = rank(&pulls);
        let mut sets = Vec::new();
        independent(&pulls, rank, 0, &mut vec![], &mut vec![], &mut sets);
        if sets.len() > MOST_SHARINGS {
            return Err(NoPose::Unsupported {
                what: "so many ways in which these legs can share; fewer legs in a tier would be solved",
            });
        }
        Ok(sets)
    }
}

/// What is left of a column across others that are square to each other.
fn left_of(column: &DVector<f64>, basis: &[DVector<f64>]) -> DVector<f64> {
    let mut left = column.clone();
    // Twice, so that rounding leaves nothing along them.
    for _ in 0..2 {
        for one in basis {
            left -= one * one.dot(&left);
        }
    }
    left
}

/// How many legs statics alone can tell the pulls of at once.
fn rank(pulls: &[DVector<f64>]) -> usize {
    let mut basis: Vec<DVector<f64>> = Vec::new();
    loop {
        let rests = pulls.iter().map(|pull| left_of(pull, &basis));
        match rests.max_by(|a, b| a.norm().total_cmp(&b.norm())) {
            Some(rest) if rest.norm() > SPANNED => basis.push(rest.normalize()),
            _ => return basis.len(),
        }
    }
}

/// Goes through the legs in order and takes or leaves each; stops one past the most that are searched.
fn independent(
    pulls: &[DVector<f64>],
    rank: usize,
    next: usize,
    taken: &mut Vec<usize>,
    basis: &mut Vec<DVector<f64>>,
    sets: &mut Vec<Vec<usize>>,
) {
    if taken.len() == rank {
        sets.push(taken.clone());
        return;
    }
    if sets.len() > MOST_SHARINGS || taken.len() + pulls.len() - next.min(pulls.len()) < rank {
        return;
    }
    let Some(pull) = pulls.get(next) else { return };
    let rest = left_of(pull, basis);
    if rest.norm() > SPANNED {
        taken.push(next);
        basis.push(rest.normalize());
        independent(pulls, rank, next + 1, taken, basis, sets);
        taken.pop();
        basis.pop();
    }
    independent(pulls, rank, next + 1, taken, basis, sets);
}

fn checked(rig: &BandedRig) -> Result<Checked, NoPose> {
    let high = check_ends(rig)?;
    let middle = rig.middle();
    let many = numbers(&middle)?;
    let stretches = many.lines.iter().all(|line| line.stiffness.is_some());
    let bands = plain_bands(rig, stretches);
    if bands.len() > MOST_INPUTS {
        return Err(NoPose::Unsupported {
            what: "more than 60 numbers with a band in one rig",
        });
    }
    let start = many.settle_firm().map_err(|f| explain(&middle, &f))?;
    Ok(Checked {
        counts: Counts {
            legs: rig.legs.len(),
            bodies: rig.bodies.len(),
            hooks: rig.hooks.len(),
        },
        longest: high.legs.iter().map(|l| l.length.si()).collect(),
        bands,
        start: start.at,
        many,
    })
}

/// As [`super::worst`], for several bodies or hooks.
pub(crate) fn worst(rig: &BandedRig) -> Result<Worst, NoPose> {
    let checked = checked(rig)?;
    let turns: Vec<bool> = checked.many.solids.iter().map(|s| !s.particle).collect();
    let aims = aims(checked.counts, &turns);
    let sharings = checked.sharings()?;
    let stretches = checked.many.lines.iter().all(|l| l.stiffness.is_some());
    let elastic = if stretches {
        Some(gather(rig, vec![checked.family(Way::Elastic)], &aims)?)
    } else {
        None
    };
    let determinate = sharings
        .iter()
        .any(|legs| legs.len() == checked.counts.legs);
    let families = if determinate {
        vec![checked.family(Way::Inextensible)]
    } else {
        let chosen = |legs| {
            checked.family(Way::Chosen {
                legs,
                stretch: LARGEST_STRETCH,
            })
        };
        sharings.into_iter().map(chosen).collect()
    };
    Ok(Worst {
        elastic,
        sharing: gather(rig, families, &aims)?,
        indeterminate: !determinate,
    })
}
