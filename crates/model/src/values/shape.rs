//! The outside of a body, in its own frame.

use super::axes::AXES;
use super::quantity::{Banded, one_plain};
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_mechanics::hanging::Rotation;
use plumbhook_units::{Kind, Length, Measured};

/// `disc, outside 3.45 m, z 0 .. 1.62 m` or `box, x -1 m .. 1 m, y -2 m .. 2 m, z 0 .. 1.6 m`.
///
/// The outside is taken as drawn; it has no band of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BodyShape {
    /// Lowest coordinate along x, y, z.
    pub low: [Length; 3],
    /// Highest coordinate along x, y, z.
    pub high: [Length; 3],
    /// Whether it is round about z.
    pub round: bool,
}

/// How a turned body stands: along plumb, and away from the plumb line through its frame's origin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turned {
    /// Its lowest point above the origin of its frame, below zero where it is lower.
    pub low: Length,
    /// Its highest point above the origin of its frame.
    pub high: Length,
    /// The largest distance of any part from the plumb line through the origin.
    pub reach: Length,
}

/// Corners of the outline of a round body: the polygon around the circle, with sides square to the axes, so that
/// quarter turns are exact; elsewhere it is larger than the circle by less than 0.04 %.
const ROUND: u32 = 128;
/// The same on a drawing: larger than the circle by less than 1 %.
const DRAWN: u32 = 24;

impl BodyShape {
    /// How it stands in an attitude.
    pub fn turned(&self, attitude: &Rotation) -> Turned {
        let mut it = Turned {
            low: Length::from_si(f64::INFINITY),
            high: Length::from_si(f64::NEG_INFINITY),
            reach: Length::from_si(0.0),
        };
        let [_, _, [.., plumb]] = attitude.axes();
        let level = (plumb - 1.0).abs() < 1e-12;
        for corner in self.corners(ROUND) {
            let [x, y, z] = attitude.turn(corner);
            it.low = Length::from_si(it.low.si().min(z));
            it.high = Length::from_si(it.high.si().max(z));
            it.reach = Length::from_si(it.reach.si().max(x.hypot(y)));
        }
        if self.round && level {
            it.reach = self.high[0];
        }
        it
    }

    /// Points whose hull looks like the body on a drawing, in metres.
    pub fn drawn(&self) -> Vec<[f64; 3]> {
        self.corners(DRAWN)
    }

    /// Points whose hull holds the body, in metres; a round one has so many sides.
    fn corners(&self, sides: u32) -> Vec<[f64; 3]> {
        let [x, y, z] = [0, 1, 2].map(|axis| [self.low[axis].si(), self.high[axis].si()]);
        let plan: Vec<[f64; 2]> = if self.round {
            let half = std::f64::consts::PI / f64::from(sides);
            let radius = self.high[0].si() / half.cos();
            let angles = (0..sides).map(|side| half * f64::from(2 * side + 1));
            angles
                .map(|angle| [radius * angle.cos(), radius * angle.sin()])
                .collect()
        } else {
            x.iter().flat_map(|x| y.map(|y| [*x, y])).collect()
        };
        plan.iter()
            .flat_map(|[x, y]| z.map(|z| [*x, *y, z]))
            .collect()
    }
}

impl Value for BodyShape {
    const SHAPE: Shape = Shape {
        say: "the outside in its own frame, as `disc, outside 3.45 m, z 0 .. 1.62 m` or `box, x -1 m .. 1 m, y -2 m .. 2 m, z 0 .. 1.6 m`",
        kind: Some(Kind::Length),
        words: &["disc", "box", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let round = line.word("disc");
        if !round && !line.word("box") {
            return Err(line.broken("a shape is a `disc` or a `box`", ""));
        }
        let zero = Length::from_si(0.0);
        let (mut low, mut high) = ([zero; 3], [zero; 3]);
        let mut given = [false; 3];
        while line.comma() {
            if round && line.word("outside") {
                once(line, &mut given, 0..2, "outside")?;
                let say = "the outside is one length without a tolerance";
                let mend = "write the largest that it may be, as `outside 3.50 m`";
                let fits = |outside: Length| outside.si() > 0.0;
                let outside: Length = one_plain(line, fits, (say, mend))?;
                for axis in 0..2 {
                    (low[axis], high[axis]) = (-outside / 2.0, outside / 2.0);
                }
                continue;
            }
            let axis = AXES.iter().position(|axis| line.word(axis));
            let Some(axis) = axis.filter(|axis| *axis == 2 || !round) else {
                return Err(line.broken("this label does not belong to the shape", ""));
            };
            once(line, &mut given, axis..axis + 1, AXES[axis])?;
            let here = line.here();
            let range = Banded::<Length>::read_part(line)?;
            // A value with a tolerance is where one thing may be, not from where to where the body goes.
            let (Some(from), Some(to), None) = (range.lo, range.hi, range.nominal) else {
                let say = "an axis of a shape is a range, as `z 0 .. 1.62 m`";
                return Err(line.broken_at(here, say, ""));
            };
            (low[axis], high[axis]) = (from, to);
        }
        match given.iter().position(|given| !given) {
            None => Ok(Self { low, high, round }),
            Some(axis) => Err(line.broken(
                format!("`{}` of the shape is missing", AXES[axis]),
                "as `disc, outside 3.45 m, z 0 .. 1.62 m`",
            )),
        }
    }
}

/// Marks axes as given; none of them may be so already.
fn once(
    line: &Cursor<'_, '_>,
    given: &mut [bool; 3],
    axes: std::ops::Range<usize>,
    label: &str,
) -> Result<(), Fail> {
    for given in given.iter_mut().skip(axes.start).take(axes.len()) {
        if std::mem::replace(given, true) {
            let say = format!("`{label}` of the shape stands twice");
            return Err(line.broken(say, "keep the one that is right"));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn disc() -> BodyShape {
        let m = Length::from_si;
        BodyShape {
            low: [m(-1.2), m(-1.2), m(0.0)],
            high: [m(1.2), m(1.2), m(0.3)],
            round: true,
        }
    }

    fn near(length: Length, wanted: f64) {
        assert!((length.si() - wanted).abs() < 1e-12, "{length:?}, {wanted}");
    }

    #[test]
    fn a_disc_on_edge_reaches_its_radius_down_and_its_corner_out() {
        // y up, z along x: the disc of 2.40 m and 0.30 m stands on its rim.
        let on_edge = Rotation::from_axes([0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]);
        let stands = disc().turned(&on_edge.unwrap_or_else(|| panic!("no turn")));
        near(stands.low, -1.2);
        near(stands.high, 1.2);
        // Plane geometry: 0.30 m along x, 1.20 m along y; the polygon around the rim is wider by less than 0.04 %.
        let corner = 0.3_f64.hypot(1.2);
        assert!(stands.reach.si() >= corner && stands.reach.si() < corner * 1.0004);
    }

    #[test]
    fn a_body_as_installed_is_what_is_written() {
        let stands = disc().turned(&Rotation::AS_INSTALLED);
        near(stands.low, 0.0);
        near(stands.high, 0.3);
        near(stands.reach, 1.2);
    }
}
