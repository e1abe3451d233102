//! Parts with their holes, where they are, and patterns of copies.

use super::solid::Solid;
use crate::Interval;
use crate::hanging::Axis;
use core::f64::consts::TAU;
use plumbhook_units::{Density, Heading, Length, Measured, Ratio};

/// How a solid is turned: where its own axes point in the frame of the load, each a direction of length one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn([[f64; 3]; 3]);

impl Turn {
    /// Its own axes are those of the load.
    pub const AS_DRAWN: Self = Self([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]);

    /// Its own z along an axis of the load, forwards or backwards: by the fewest quarter turns, so that own x stays
    /// along x (for x: goes to minus or plus z) and own y follows.
    pub const fn along(axis: Axis, forwards: bool) -> Self {
        let s = if forwards { 1.0 } else { -1.0 };
        match axis {
            Axis::X => Self([[0.0, 0.0, -s], [0.0, 1.0, 0.0], [s, 0.0, 0.0]]),
            Axis::Y => Self([[1.0, 0.0, 0.0], [0.0, 0.0, -s], [0.0, s, 0.0]]),
            Axis::Z => Self([[1.0, 0.0, 0.0], [0.0, s, 0.0], [0.0, 0.0, s]]),
        }
    }

    /// This, and then turned about the load's z, anticlockwise seen from above.
    #[must_use]
    pub fn about_z(self, heading: Heading) -> Self {
        let (sin, cos) = heading.si().sin_cos();
        Self(
            self.0
                .map(|[x, y, z]| [cos * x - sin * y, sin * x + cos * y, z]),
        )
    }

    /// Where own axis `own` points.
    pub(crate) fn of(&self, own: usize) -> [f64; 3] {
        self.0.get(own).copied().unwrap_or([f64::NAN; 3])
    }
}

/// A solid at its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The solid.
    pub solid: Solid,
    /// Where its own origin is in the frame of the load, axis by axis.
    pub at: [Interval<Length>; 3],
    /// How it is turned.
    pub turn: Turn,
}

/// A part with what is cut out of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its name.
    pub name: String,
    /// The part, once for each copy.
    pub copies: Vec<Piece>,
    /// Density, free within its interval; `None` for a solid that is given by its mass. All copies and holes of one
    /// part share it where there are holes; copies of a part without holes each have their own.
    pub density: Option<Interval<Density>>,
    /// What is cut out of it, once for each copy.
    pub holes: Vec<Piece>,
}

/// What a load is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Parts {
    /// The parts.
    pub parts: Vec<Part>,
    /// What they leave out (welds, bolts, paint), as a share of their mass, zero or more. It may be anywhere within
    /// the outside of the parts.
    pub left_out: Interval<Ratio>,
}

impl Piece {
    /// `count` copies around the place of this one at `radius`, from `first` on, each turned so that its own x points
    /// outwards. Copies beyond ten thousand are not made.
    pub fn ring(
        &self,
        count: u32,
        radius: Interval<Length>,
        first: Heading,
        anticlockwise: bool,
    ) -> Vec<Self> {
        let step = TAU / f64::from(count.max(1)) * if anticlockwise { 1.0 } else { -1.0 };
        (0..count.min(10_000))
            .map(|copy| {
                let heading = first.si() + step * f64::from(copy);
                let (sin, cos) = heading.sin_cos();
                let mut it = self.moved([times(radius, tidy(cos)), times(radius, tidy(sin))]);
                it.turn = self.turn.about_z(Heading::from_si(heading));
                it
            })
            .collect()
    }

    /// Four copies at the corners of a rectangle around the place of this one, none of them turned.
    pub fn rectangle(&self, sides: [Interval<Length>; 2]) -> Vec<Self> {
        [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)]
            .map(|(x, y)| self.moved([times(sides[0], x / 2.0), times(sides[1], y / 2.0)]))
            .into()
    }

    fn moved(&self, by: [Interval<Length>; 2]) -> Self {
        let mut it = self.clone();
        for (at, by) in it.at.iter_mut().zip(by) {
            *at = Interval {
                lo: at.lo + by.lo,
                hi: at.hi + by.hi,
            };
        }
        it
    }
}

/// A quarter turn puts a copy exactly on an axis.
fn tidy(share: f64) -> f64 {
    if share.abs() < 1e-15 { 0.0 } else { share }
}

fn times(length: Interval<Length>, by: f64) -> Interval<Length> {
    let (a, b) = (length.lo * by, length.hi * by);
    if by < 0.0 {
        Interval { lo: b, hi: a }
    } else {
        Interval { lo: a, hi: b }
    }
}
