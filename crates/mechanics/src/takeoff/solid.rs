//! The solids that a take-off is made of, with volume and moments in their own frame.

use super::polynomial::{Dimensions, Polynomial};
use super::prism::prism;
use super::why::Fault;
use crate::Interval;
use core::f64::consts::PI;
use plumbhook_units::{Length, LinearMass, Mass, Measured};

/// A solid in its own frame. Round ones stand along their own z. The place of one is its middle; of a frustum and of a
/// dome it is the middle of the base, with the body above it; of a prism it is the origin of its corners, in the middle
/// of its thickness. Each dimension is free within its interval, independent of the others.
#[derive(Clone, Debug, PartialEq)]
pub enum Solid {
    /// A plate, block or bar: its sides along its own x, y, z, m.
    Block {
        /// Sides.
        size: [Interval<Length>; 3],
    },
    /// A round bar, disc or cylinder.
    Round {
        /// Diameter.
        outside: Interval<Length>,
        /// Along its axis.
        long: Interval<Length>,
    },
    /// A tube, or a ring of rectangular section.
    Tube {
        /// Outer diameter.
        outside: Interval<Length>,
        /// Inner diameter, below the outer one.
        inside: Interval<Length>,
        /// Along its axis.
        long: Interval<Length>,
    },
    /// A frustum of a cone; a cone where the top is zero.
    Frustum {
        /// Diameter at the base.
        base: Interval<Length>,
        /// Diameter at the top, zero or more.
        top: Interval<Length>,
        /// From base to top.
        high: Interval<Length>,
    },
    /// A ball.
    Sphere {
        /// Diameter.
        outside: Interval<Length>,
    },
    /// A segment of a ball: a hemisphere where it is half as high as it is wide.
    Dome {
        /// Diameter of the base.
        outside: Interval<Length>,
        /// From base to crown.
        high: Interval<Length>,
    },
    /// A plate with straight edges, in its own x and y.
    Prism {
        /// Corners in order, in either sense.
        corners: Vec<[Interval<Length>; 2]>,
        /// Across the plate.
        thick: Interval<Length>,
    },
    /// A rolled section, by its mass per length, straight along its own z through its centroid.
    Section {
        /// Mass per length.
        per_length: Interval<LinearMass>,
        /// Length.
        long: Interval<Length>,
    },
    /// A thing of known mass, at its own centre of gravity.
    Lump {
        /// Its mass.
        mass: Interval<Mass>,
    },
}

/// Volume (or mass, where the solid is given by its mass) and its moments about the solid's own origin.
#[derive(Clone, Debug)]
pub(crate) struct Moments {
    pub(crate) over: Dimensions,
    pub(crate) volume: Polynomial,
    pub(crate) first: [Polynomial; 3],
    /// xx, yy, zz, xy; the others are zero for every solid here.
    pub(crate) second: [Polynomial; 4],
    /// A length by which all of volume and moments are multiplied, 1 where there is none: kept apart because its
    /// tolerance would count at each term.
    pub(crate) factor: (f64, f64),
    /// How far it reaches along its own axes, m.
    pub(crate) reach: [(f64, f64); 3],
    /// How far it reaches at the least, m.
    pub(crate) core: [(f64, f64); 3],
    /// Whether `second` is all of it.
    pub(crate) second_is_known: bool,
}

pub(super) type Lengths<'a> = &'a [(&'static str, Interval<Length>)];

/// Each dimension with its ends, all of them finite and above zero.
pub(super) fn positive(lengths: Lengths<'_>) -> Result<Dimensions, Fault> {
    lengths
        .iter()
        .map(|(what, side)| {
            let (lo, hi) = side.ends();
            if lo > 0.0 && hi >= lo && hi.is_finite() {
                Ok((lo, hi))
            } else {
                Err(Fault::NotPositive { what })
            }
        })
        .collect()
}

fn half(side: f64) -> (f64, f64) {
    (-side / 2.0, side / 2.0)
}

fn none() -> Polynomial {
    Polynomial::default()
}

impl Moments {
    fn centred(over: Dimensions, volume: Polynomial, second: [Polynomial; 3]) -> Self {
        let [xx, yy, zz] = second;
        Self {
            over,
            volume,
            first: [none(), none(), none()],
            second: [xx, yy, zz, none()],
            factor: (1.0, 1.0),
            reach: [(0.0, 0.0); 3],
            core: [(0.0, 0.0); 3],
            second_is_known: true,
        }
    }

    /// From the largest and the smallest sides: `reach` of each at its high and at its low ends.
    fn reaching(mut self, reach: impl Fn(fn(Interval<Length>) -> f64) -> [(f64, f64); 3]) -> Self {
        self.reach = reach(|side| side.hi.si());
        self.core = reach(|side| side.lo.si());
        self
    }
}

impl Solid {
    pub(crate) fn moments(&self) -> Result<Moments, Fault> {
        match self {
            Self::Block { size } => block(size),
            Self::Round { outside, long } => round(*outside, None, *long),
            Self::Tube {
                outside,
                inside,
                long,
            } => round(*outside, Some(*inside), *long),
            Self::Frustum { base, top, high } => frustum(*base, *top, *high),
            Self::Sphere { outside } => sphere(*outside),
            Self::Dome { outside, high } => dome(*outside, *high),
            Self::Prism { corners, thick } => prism(corners, *thick),
            Self::Section { per_length, long } => section(*per_length, *long),
            Self::Lump { mass } => lump(*mass),
        }
    }

    /// Whether it takes a density; the others are given by their mass.
    pub fn takes_density(&self) -> bool {
        !matches!(self, Self::Section { .. } | Self::Lump { .. })
    }
}

fn block(size: &[Interval<Length>; 3]) -> Result<Moments, Fault> {
    let [x, y, z] = *size;
    let over = positive(&[("a side", x), ("a side", y), ("a side", z)])?;
    let second = |along: usize| {
        let power = |axis: usize| (axis, if axis == along { 3 } else { 1 });
        Polynomial::term(1.0 / 12.0, &[power(0), power(1), power(2)])
    };
    let volume = Polynomial::term(1.0, &[(0, 1), (1, 1), (2, 1)]);
    let moments = Moments::centred(over, volume, [second(0), second(1), second(2)]);
    Ok(moments.reaching(|end| [x, y, z].map(|side| half(end(side)))))
}

/// A cylinder, less a bore of its own length.
fn round(
    outside: Interval<Length>,
    inside: Option<Interval<Length>>,
    long: Interval<Length>,
) -> Result<Moments, Fault> {
    let mut over = positive(&[("the outside diameter", outside), ("the length", long)])?;
    let of = |sign: f64, diameter: usize| {
        let volume = Polynomial::term(sign * PI / 4.0, &[(diameter, 2), (1, 1)]);
        let across = Polynomial::term(sign * PI / 64.0, &[(diameter, 4), (1, 1)]);
        let along = Polynomial::term(sign * PI / 48.0, &[(diameter, 2), (1, 3)]);
        (volume, across, along)
    };
    let (mut volume, mut across, mut along) = of(1.0, 0);
    if let Some(inside) = inside {
        over.extend(positive(&[("the inside diameter", inside)])?);
        if inside.hi >= outside.lo {
            return Err(Fault::NoWall);
        }
        let bore = of(-1.0, 2);
        volume = volume.plus(&bore.0);
        across = across.plus(&bore.1);
        along = along.plus(&bore.2);
    }
    let moments = Moments::centred(over, volume, [across.clone(), across, along]);
    Ok(moments.reaching(|end| [outside, outside, long].map(|side| half(end(side)))))
}

/// With radii `R` and `r`: `V = pi h (R^2 + R r + r^2) / 3`, first moment about the base
/// `pi h^2 (R^2 + 2 R r + 3 r^2) / 12`.
fn frustum(
    base: Interval<Length>,
    top: Interval<Length>,
    high: Interval<Length>,
) -> Result<Moments, Fault> {
    let mut over = positive(&[("the diameter of the base", base), ("the height", high)])?;
    let (lo, hi) = top.ends();
    if !(lo >= 0.0 && hi >= lo && hi.is_finite()) {
        return Err(Fault::NotPositive {
            what: "the diameter of the top",
        });
    }
    over.push((lo, hi));
    // Diameters 0 (base) and 2 (top), height 1: a sum over powers of both with these factors.
    let sum = |factor: f64, power: i32, factors: &[f64]| {
        let degree = i32::try_from(factors.len()).unwrap_or(1) - 1;
        (0..).zip(factors).fold(none(), |sum, (of_top, by)| {
            let powers = [(0, degree - of_top), (2, of_top), (1, power)];
            let powers: Vec<_> = powers.into_iter().filter(|(_, power)| *power > 0).collect();
            sum.plus(&Polynomial::term(factor * by, &powers))
        })
    };
    let across = sum(PI / 320.0, 1, &[1.0; 5]);
    let mut moments = Moments::centred(
        over,
        sum(PI / 12.0, 1, &[1.0, 1.0, 1.0]),
        [across.clone(), across, sum(PI / 120.0, 3, &[1.0, 3.0, 6.0])],
    );
    moments.first[2] = sum(PI / 48.0, 2, &[1.0, 2.0, 3.0]);
    Ok(moments.reaching(|end| {
        let wide = half(end(base).max(end(top)));
        [wide, wide, (0.0, end(high))]
    }))
}

fn sphere(outside: Interval<Length>) -> Result<Moments, Fault> {
    let over = positive(&[("the diameter", outside)])?;
    let second = Polynomial::term(PI / 120.0, &[(0, 5)]);
    let volume = Polynomial::term(PI / 6.0, &[(0, 3)]);
    let moments = Moments::centred(over, volume, [second.clone(), second.clone(), second]);
    Ok(moments.reaching(|end| [half(end(outside)); 3]))
}

/// With the radius `a` of the base: `V = pi h (3 a^2 + h^2) / 6`, first moment about the base
/// `pi (2 a^2 h^2 + h^4) / 12`; from `r(z)^2 = a^2 (1 - u) + h^2 (u - u^2)`, `u = z / h`.
fn dome(outside: Interval<Length>, high: Interval<Length>) -> Result<Moments, Fault> {
    let over = positive(&[("the diameter of the base", outside), ("the height", high)])?;
    let sum = |terms: &[(f64, i32, i32)]| {
        terms
            .iter()
            .fold(none(), |sum, (factor, of_base, of_height)| {
                let powers = [(0, *of_base), (1, *of_height)];
                let powers: Vec<_> = powers.into_iter().filter(|(_, power)| *power > 0).collect();
                sum.plus(&Polynomial::term(PI * factor, &powers))
            })
    };
    let across = sum(&[(1.0 / 192.0, 4, 1), (1.0 / 96.0, 2, 3), (1.0 / 120.0, 0, 5)]);
    let along = sum(&[(1.0 / 48.0, 2, 3), (1.0 / 20.0, 0, 5)]);
    let volume = sum(&[(1.0 / 8.0, 2, 1), (1.0 / 6.0, 0, 3)]);
    let mut moments = Moments::centred(over, volume, [across.clone(), across, along]);
    moments.first[2] = sum(&[(1.0 / 24.0, 2, 2), (1.0 / 12.0, 0, 4)]);
    // More than half a ball bulges over its base, to its radius (a^2 + h^2) / (2 h).
    let bulges = high.hi > outside.lo / 2.0;
    let (a, h) = (outside.hi.si() / 2.0, high.hi.si());
    let ball = (a * a + h * h) / (2.0 * high.lo.si());
    let mut moments = moments.reaching(|end| {
        let wide = half(end(outside));
        [wide, wide, (0.0, end(high))]
    });
    if bulges {
        moments.reach[0] = (-ball, ball);
        moments.reach[1] = (-ball, ball);
    }
    Ok(moments)
}

fn section(per_length: Interval<LinearMass>, long: Interval<Length>) -> Result<Moments, Fault> {
    let mut over = positive(&[("the length", long)])?;
    let (lo, hi) = per_length.ends();
    if !(lo > 0.0 && hi >= lo && hi.is_finite()) {
        return Err(Fault::NotPositive {
            what: "the mass per length",
        });
    }
    over.push((lo, hi));
    let mass = Polynomial::term(1.0, &[(0, 1), (1, 1)]);
    let moments = Moments::centred(over, mass, [none(), none(), none()]);
    Ok(Moments {
        second_is_known: false,
        ..moments.reaching(|end| [(0.0, 0.0), (0.0, 0.0), half(end(long))])
    })
}

fn lump(mass: Interval<Mass>) -> Result<Moments, Fault> {
    let (lo, hi) = mass.ends();
    if !(lo >= 0.0 && hi >= lo && hi.is_finite()) {
        return Err(Fault::NotPositive { what: "the mass" });
    }
    let one = Polynomial::dimension(0);
    let moments = Moments::centred(vec![(lo, hi)], one, [none(), none(), none()]);
    Ok(Moments {
        second_is_known: false,
        ..moments
    })
}
