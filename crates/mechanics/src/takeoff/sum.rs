//! The sums over all parts, with their exact ends.

use super::inertia::{Inertia, inertia};
use super::part::{Part, Parts, Piece};
use super::polynomial::Polynomial;
use super::solid::Moments;
use super::why::{Fault, NoTakeOff};
use crate::Interval;
use crate::ratio::Fraction;
use plumbhook_units::{Length, Mass, Measured};

/// What one part comes to, all copies together, less its holes.
#[derive(Clone, Debug, PartialEq)]
pub struct PartSum {
    /// Its name.
    pub name: String,
    /// How many copies.
    pub count: usize,
    /// Its mass; both ends above zero.
    pub mass: Interval<Mass>,
    /// Its centre of gravity with every input at its middle.
    pub cg: [Length; 3],
}

/// What a take-off comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenOff {
    /// Mass, with what is left out.
    pub mass: Interval<Mass>,
    /// Centre of gravity, axis by axis.
    pub cg: [Interval<Length>; 3],
    /// Mass with every input at its middle.
    pub middle_mass: Mass,
    /// Centre of gravity with every input at its middle.
    pub middle_cg: [Length; 3],
    /// Inertia; `None` where a part is given by its mass, for its own is not known.
    pub inertia: Option<Inertia>,
    /// The outside of the parts, axis by axis.
    pub outside: [Interval<Length>; 3],
    /// Part by part.
    pub parts: Vec<PartSum>,
}

/// A piece with its moments.
pub(super) struct Measure<'p> {
    pub(super) piece: &'p Piece,
    pub(super) moments: Moments,
    pub(super) sign: f64,
}

/// Pieces that share one density (1 where they are given by their mass).
pub(super) struct Group<'p> {
    pub(super) density: (f64, f64),
    pub(super) pieces: Vec<Measure<'p>>,
}

/// Mass, centre of gravity and inertia of `parts`, each with the exact ends (inertia: bounds) over all inputs.
///
/// `m = sum rho V`, `x = sum rho V x_i / m`; holes count negative. Valid for up to some thousand pieces.
///
/// # Errors
/// [`NoTakeOff`] with the part to blame: a size that is not above zero, no wall, an outline that crosses itself, a part
/// that its holes may take away whole, no part.
pub fn take_off(parts: &Parts) -> Result<TakenOff, NoTakeOff> {
    if parts.parts.is_empty() {
        return Err(none_of(Fault::Empty));
    }
    let (least_left, most_left) = parts.left_out.ends();
    if !(least_left >= 0.0 && most_left >= least_left && most_left.is_finite()) {
        return Err(none_of(Fault::LeftOut));
    }
    let mut all: Vec<Group<'_>> = Vec::new();
    let mut sums = Vec::new();
    for (index, part) in parts.parts.iter().enumerate() {
        let groups = groups(part).map_err(|(hole, fault)| NoTakeOff {
            part: Some(index),
            hole,
            fault,
        })?;
        let mass = mass(&groups);
        if groups
            .iter()
            .any(|group| group.amount().0 <= 0.0 && !part.holes.is_empty())
        {
            return Err(NoTakeOff {
                part: Some(index),
                hole: None,
                fault: Fault::OnlyHoles,
            });
        }
        sums.push(PartSum {
            name: part.name.clone(),
            count: part.copies.len(),
            mass: Interval {
                lo: Mass::from_si(mass.0),
                hi: Mass::from_si(mass.1),
            },
            cg: middle(&groups).1.map(Length::from_si),
        });
        all.extend(groups);
    }
    let (least, most) = mass(&all);
    if least <= 0.0 {
        return Err(none_of(Fault::Empty));
    }
    let (middle_mass, middle_cg) = middle(&all);
    let outside = [0, 1, 2].map(|axis| outside(&all, axis));
    let ends = [0, 1, 2].map(|axis| {
        let fraction = Fraction {
            most: |l| all.iter().map(|group| group.moment(axis, l).1).sum(),
            least: |l| all.iter().map(|group| group.moment(axis, l).0).sum(),
            below: (least, most),
        };
        let exact = fraction.ends(middle_cg[axis]);
        // What is left out pulls towards wherever it is: most where it is most, at an end of the outside.
        let pulled = |at: f64, to: f64| (at + most_left * to) / (1.0 + most_left);
        Interval {
            lo: exact.lo.min(pulled(exact.lo, outside[axis].lo)),
            hi: exact.hi.max(pulled(exact.hi, outside[axis].hi)),
        }
    });
    let left = f64::midpoint(least_left, most_left);
    Ok(TakenOff {
        mass: Interval {
            lo: Mass::from_si(least * (1.0 + least_left)),
            hi: Mass::from_si(most * (1.0 + most_left)),
        },
        cg: ends.map(lengths),
        middle_mass: Mass::from_si(middle_mass * (1.0 + left)),
        middle_cg: middle_cg.map(Length::from_si),
        inertia: inertia(&all, middle_cg, ends, (most * most_left, outside)),
        outside: outside.map(lengths),
        parts: sums,
    })
}

fn none_of(fault: Fault) -> NoTakeOff {
    NoTakeOff {
        part: None,
        hole: None,
        fault,
    }
}

fn lengths(of: Interval<f64>) -> Interval<Length> {
    Interval {
        lo: Length::from_si(of.lo),
        hi: Length::from_si(of.hi),
    }
}

type Blamed = (Option<usize>, Fault);

fn groups(part: &Part) -> Result<Vec<Group<'_>>, Blamed> {
    let measured = |piece, sign, hole| {
        measure(piece, sign, part.density.is_some()).map_err(|fault| (hole, fault))
    };
    let copies: Vec<_> = part
        .copies
        .iter()
        .map(|piece| measured(piece, 1.0, None))
        .collect::<Result<_, _>>()?;
    let holes: Vec<_> = part
        .holes
        .iter()
        .enumerate()
        .map(|(hole, piece)| match part.density {
            Some(_) => measured(piece, -1.0, Some(hole)),
            None => Err((Some(hole), Fault::HoleInLump)),
        })
        .collect::<Result<_, _>>()?;
    if copies.is_empty() {
        return Err((None, Fault::Empty));
    }
    let density = part.density.map_or((1.0, 1.0), Interval::ends);
    if !(density.0 > 0.0 && density.1 >= density.0 && density.1.is_finite()) {
        return Err((
            None,
            Fault::NotPositive {
                what: "the density",
            },
        ));
    }
    if holes.is_empty() {
        let alone = |piece| Group {
            density,
            pieces: vec![piece],
        };
        return Ok(copies.into_iter().map(alone).collect());
    }
    Ok(vec![Group {
        density,
        pieces: copies.into_iter().chain(holes).collect(),
    }])
}

fn measure(piece: &Piece, sign: f64, has_density: bool) -> Result<Measure<'_>, Fault> {
    if piece.solid.takes_density() != has_density {
        return Err(Fault::Density);
    }
    let finite = |at: &Interval<Length>| {
        let (lo, hi) = at.ends();
        lo <= hi && lo.is_finite() && hi.is_finite()
    };
    if !piece.at.iter().all(finite) {
        return Err(Fault::NoPlace);
    }
    Ok(Measure {
        piece,
        moments: piece.solid.moments()?,
        sign,
    })
}

impl Measure<'_> {
    /// The first moment about the place `at` minus `from` along an axis of the load, as a polynomial.
    pub(super) fn about(&self, axis: usize, arm: f64) -> Polynomial {
        let mut sum = self.moments.volume.clone().scaled(arm);
        for (own, first) in self.moments.first.iter().enumerate() {
            sum.add(first, self.piece.turn.of(own)[axis]);
        }
        sum
    }

    /// The least and the most of `sum of V (x - l)`, with its sign.
    fn moment(&self, axis: usize, l: f64) -> (f64, f64) {
        let (lo, hi) = self.piece.at[axis].ends();
        let low = self.ends(&self.about(axis, lo - l)).0;
        let high = self.ends(&self.about(axis, hi - l)).1;
        self.signed(low, high)
    }

    fn volume(&self) -> (f64, f64) {
        let (low, high) = self.ends(&self.moments.volume);
        self.signed(low, high)
    }

    /// The least and the most of a polynomial of its dimensions.
    pub(super) fn ends(&self, of: &Polynomial) -> (f64, f64) {
        let (over, (short, long)) = (&self.moments.over, self.moments.factor);
        let (low, high) = (of.lowest(over), of.highest(over));
        (
            (low * short).min(low * long),
            (high * short).max(high * long),
        )
    }

    /// A polynomial of its dimensions with each of them at its middle.
    pub(super) fn at_middle(&self, of: &Polynomial) -> f64 {
        let sides = self.moments.over.iter();
        let at: Vec<f64> = sides.map(|(lo, hi)| f64::midpoint(*lo, *hi)).collect();
        of.value(&at) * f64::midpoint(self.moments.factor.0, self.moments.factor.1)
    }

    pub(super) fn signed(&self, low: f64, high: f64) -> (f64, f64) {
        if self.sign < 0.0 {
            (-high, -low)
        } else {
            (low, high)
        }
    }

    pub(super) fn place(&self, axis: usize) -> f64 {
        let (lo, hi) = self.piece.at[axis].ends();
        f64::midpoint(lo, hi)
    }
}

impl Group<'_> {
    fn amount(&self) -> (f64, f64) {
        self.pieces.iter().fold((0.0, 0.0), |(lo, hi), piece| {
            let (a, b) = piece.volume();
            (lo + a, hi + b)
        })
    }

    /// The least and the most of `sum of m (x - l)`.
    fn moment(&self, axis: usize, l: f64) -> (f64, f64) {
        let (lo, hi) = self.pieces.iter().fold((0.0, 0.0), |(lo, hi), piece| {
            let (a, b) = piece.moment(axis, l);
            (lo + a, hi + b)
        });
        let (light, heavy) = self.density;
        ((lo * light).min(lo * heavy), (hi * light).max(hi * heavy))
    }

    fn middle_density(&self) -> f64 {
        f64::midpoint(self.density.0, self.density.1)
    }
}

fn mass(groups: &[Group<'_>]) -> (f64, f64) {
    groups.iter().fold((0.0, 0.0), |(lo, hi), group| {
        let (a, b) = group.amount();
        (lo + a * group.density.0, hi + b * group.density.1)
    })
}

/// Mass and centre of gravity with every input at its middle.
fn middle(groups: &[Group<'_>]) -> (f64, [f64; 3]) {
    let (mut mass, mut moments) = (0.0, [0.0; 3]);
    for group in groups {
        for piece in &group.pieces {
            let by = piece.sign * group.middle_density();
            mass += by * piece.at_middle(&piece.moments.volume);
            for (axis, moment) in moments.iter_mut().enumerate() {
                *moment += by * piece.at_middle(&piece.about(axis, piece.place(axis)));
            }
        }
    }
    (mass, moments.map(|moment| moment / mass))
}

/// The outside of all pieces that are there, along one axis.
fn outside(groups: &[Group<'_>], axis: usize) -> Interval<f64> {
    let pieces = groups.iter().flat_map(|group| &group.pieces);
    let there = pieces.filter(|piece| piece.sign > 0.0);
    hull(there.map(|measure| spread(measure.piece, &measure.moments.reach, axis)))
}

/// The smallest interval around all of them.
fn hull(all: impl Iterator<Item = Interval<f64>>) -> Interval<f64> {
    let none = Interval {
        lo: f64::INFINITY,
        hi: f64::NEG_INFINITY,
    };
    all.fold(none, |whole, one| Interval {
        lo: whole.lo.min(one.lo),
        hi: whole.hi.max(one.hi),
    })
}

/// From where to where a piece may reach along an axis of the load.
fn spread(piece: &Piece, reach: &[(f64, f64); 3], axis: usize) -> Interval<f64> {
    let (lo, hi) = piece.at[axis].ends();
    let mut all = Interval { lo, hi };
    for (own, (from, to)) in reach.iter().enumerate() {
        let share = piece.turn.of(own)[axis];
        all.lo += (share * from).min(share * to);
        all.hi += (share * from).max(share * to);
    }
    all
}

impl Part {
    /// The first hole that cannot lie inside the part, along some axis of the load, whatever its tolerances: it would take
    /// off more than there is. Holes that stand askew are not judged, and neither is a solid that has no answer.
    pub fn hole_that_sticks_out(&self) -> Option<usize> {
        let copies: Vec<_> = self
            .copies
            .iter()
            .map(|copy| copy.solid.moments().map(|moments| (copy, moments.reach)))
            .collect::<Result<_, _>>()
            .ok()?;
        self.holes.iter().position(|hole| {
            let Ok(moments) = hole.solid.moments() else {
                return false;
            };
            let square =
                (0..3).all(|own| hole.turn.of(own).iter().filter(|s| s.abs() > 1e-9).count() == 1);
            square
                && (0..3).any(|axis| {
                    let part = hull(copies.iter().map(|(copy, reach)| spread(copy, reach, axis)));
                    let at = Interval::exact(Length::from_si(0.0));
                    let still = Piece {
                        at: [at; 3],
                        ..hole.clone()
                    };
                    let core = spread(&still, &moments.core, axis);
                    let (lo, hi) = hole.at[axis].ends();
                    // Each side at its place that is nearest to the middle of the part.
                    hi + core.lo < part.lo - 1e-9 || lo + core.hi > part.hi + 1e-9
                })
        })
    }
}
