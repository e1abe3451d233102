//! What hangs, from what, by which legs: the public inputs, definite and banded.

use plumbhook_units::{Length, Mass, Measured, Stiffness};

/// A turn, as the images of the three body axes in the axes of the hooks (z plumb up).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rotation {
    axes: [[f64; 3]; 3],
}

impl Rotation {
    /// Body axes along the axes of the hooks: the attitude as installed.
    pub const AS_INSTALLED: Self = Self {
        axes: [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
    };

    /// From the directions in which the body's x, y and z point; `None` unless they are of length one, square to
    /// each other and right-handed (each to 1e-9).
    pub fn from_axes(x: [f64; 3], y: [f64; 3], z: [f64; 3]) -> Option<Self> {
        let dot = |a: [f64; 3], b: [f64; 3]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        let [x0, x1, x2] = x;
        let [y0, y1, y2] = y;
        let third = [x1 * y2 - x2 * y1, x2 * y0 - x0 * y2, x0 * y1 - x1 * y0];
        let near = |value: f64, wanted: f64| (value - wanted).abs() <= 1e-9;
        let square = near(dot(x, x), 1.0)
            && near(dot(y, y), 1.0)
            && near(dot(z, z), 1.0)
            && near(dot(x, y), 0.0)
            && near(dot(third, z), 1.0);
        square.then_some(Self { axes: [x, y, z] })
    }

    pub(crate) const fn from_turn(axes: [[f64; 3]; 3]) -> Self {
        Self { axes }
    }

    /// Directions in which the body's x, y and z point.
    pub const fn axes(&self) -> [[f64; 3]; 3] {
        self.axes
    }

    /// A vector of the body's frame in the axes of the hooks.
    pub fn turn(&self, of_body: [f64; 3]) -> [f64; 3] {
        let mut out = [0.0; 3];
        for (part, axis) in of_body.iter().zip(self.axes) {
            for (slot, direction) in out.iter_mut().zip(axis) {
                *slot += part * direction;
            }
        }
        out
    }
}

/// A rigid body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Body<M = Mass, L = Length> {
    /// Mass, above zero.
    pub mass: M,
    /// Centre of gravity in the body's own frame.
    pub cg: [L; 3],
    /// Attitude in which it starts, and from which its tilt counts.
    pub attitude: Rotation,
}

/// A point that does not move.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hook {
    /// Where it is; z is plumb up.
    pub position: [Length; 3],
}

/// What a leg is made fast to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum End {
    /// A hook, by its place in the list.
    Hook(usize),
    /// A point of a body.
    Point {
        /// The body, by its place in the list.
        body: usize,
        /// The point in that body's own frame.
        at: [Length; 3],
    },
}

/// A straight leg that pulls and cannot push.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg<L = Length, K = Stiffness> {
    /// The end above.
    pub upper: End,
    /// The end below.
    pub lower: End,
    /// Length without load, above zero.
    pub length: L,
    /// Force over stretch, above zero; `None` where it is not declared.
    pub stiffness: Option<K>,
}

/// One definite rig.
#[derive(Clone, Debug, PartialEq)]
pub struct Rig {
    /// What hangs.
    pub bodies: Vec<Body>,
    /// What it hangs from.
    pub hooks: Vec<Hook>,
    /// The legs between.
    pub legs: Vec<Leg>,
}

/// Both sides of a band, each known. A band with an unknown side cannot be made into one of these, so an
/// unknown never becomes a number here.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval<T> {
    /// Low side.
    pub lo: T,
    /// High side, not below the low one.
    pub hi: T,
}

impl<T: Copy> Interval<T> {
    /// Both sides at one value.
    pub const fn exact(value: T) -> Self {
        Self {
            lo: value,
            hi: value,
        }
    }
}

impl<T: Measured> Interval<T> {
    pub(crate) fn ends(self) -> (f64, f64) {
        (self.lo.si(), self.hi.si())
    }
}

/// A body whose mass and centre of gravity have bands, per axis of its own frame.
pub type BandedBody = Body<Interval<Mass>, Interval<Length>>;

/// A leg whose length and stiffness have bands.
pub type BandedLeg = Leg<Interval<Length>, Interval<Stiffness>>;

/// A rig inside its bands.
#[derive(Clone, Debug, PartialEq)]
pub struct BandedRig {
    /// What hangs.
    pub bodies: Vec<BandedBody>,
    /// What it hangs from.
    pub hooks: Vec<Hook>,
    /// The legs between.
    pub legs: Vec<BandedLeg>,
}

/// An axis of a body's own frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Axis {
    /// x.
    X,
    /// y.
    Y,
    /// z.
    Z,
}

impl Axis {
    /// All three in order.
    pub const ALL: [Self; 3] = [Self::X, Self::Y, Self::Z];

    pub(crate) const fn index(self) -> usize {
        self as usize
    }
}

/// A number of a rig that can have a band.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Input {
    /// Mass of a body.
    Mass {
        /// Place of the body in the list.
        body: usize,
    },
    /// One coordinate of a body's centre of gravity.
    Cg {
        /// Place of the body in the list.
        body: usize,
        /// The coordinate.
        axis: Axis,
    },
    /// Length of a leg.
    Length {
        /// Place of the leg in the list.
        leg: usize,
    },
    /// Stiffness of a leg.
    Stiffness {
        /// Place of the leg in the list.
        leg: usize,
    },
}

impl BandedRig {
    /// All inputs with their bands in SI units, those of no width too.
    pub(crate) fn bands(&self) -> Vec<(Input, f64, f64)> {
        let mut bands = Vec::new();
        let mut add = |input, (lo, hi): (f64, f64)| bands.push((input, lo, hi));
        for (i, body) in self.bodies.iter().enumerate() {
            add(Input::Mass { body: i }, body.mass.ends());
            for (axis, band) in Axis::ALL.into_iter().zip(body.cg) {
                add(Input::Cg { body: i, axis }, band.ends());
            }
        }
        for (leg, l) in self.legs.iter().enumerate() {
            add(Input::Length { leg }, l.length.ends());
            if let Some(k) = l.stiffness {
                add(Input::Stiffness { leg }, k.ends());
            }
        }
        bands
    }

    /// The definite rig with each input at the value that `value` picks between its sides, in SI units.
    pub(crate) fn definite(&self, value: impl Fn(Input, f64, f64) -> f64) -> Rig {
        let pick = |input, (lo, hi): (f64, f64)| value(input, lo, hi);
        let bodies = self.bodies.iter().enumerate().map(|(i, b)| {
            let [x, y, z] = b.cg;
            let axis = |axis, band: Interval<Length>| {
                Length::from_si(pick(Input::Cg { body: i, axis }, band.ends()))
            };
            Body {
                mass: Mass::from_si(pick(Input::Mass { body: i }, b.mass.ends())),
                cg: [axis(Axis::X, x), axis(Axis::Y, y), axis(Axis::Z, z)],
                attitude: b.attitude,
            }
        });
        let legs = self.legs.iter().enumerate().map(|(leg, l)| Leg {
            upper: l.upper,
            lower: l.lower,
            length: Length::from_si(pick(Input::Length { leg }, l.length.ends())),
            stiffness: l
                .stiffness
                .map(|k| Stiffness::from_si(pick(Input::Stiffness { leg }, k.ends()))),
        });
        Rig {
            bodies: bodies.collect(),
            hooks: self.hooks.clone(),
            legs: legs.collect(),
        }
    }

    /// The definite rig in the middle of all bands.
    pub fn middle(&self) -> Rig {
        self.definite(|_, lo, hi| f64::midpoint(lo, hi))
    }
}
