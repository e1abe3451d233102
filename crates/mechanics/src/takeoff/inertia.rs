//! Moments of inertia of a take-off.

use super::polynomial::Polynomial;
use super::sum::{Group, Measure};
use crate::Interval;

/// Moments of inertia about axes through the centre of gravity, parallel to those of the load, kg m2, with the products
/// `integral of i j dm` beside the diagonal. Bounds, not the exact ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inertia {
    /// Low ends.
    pub lo: [[f64; 3]; 3],
    /// With every input at its middle.
    pub middle: [[f64; 3]; 3],
    /// High ends.
    pub hi: [[f64; 3]; 3],
}

/// Inertia about the centre of gravity: each piece by interval arithmetic, the distances from the whole band of the
/// centre of gravity; what is left out anywhere in the outside.
pub(super) fn inertia(
    groups: &[Group<'_>],
    cg: [f64; 3],
    ends: [Interval<f64>; 3],
    (left_out, outside): (f64, [Interval<f64>; 3]),
) -> Option<Inertia> {
    let pieces = || {
        let of = |group: &'_ Group<'_>| group.density;
        groups
            .iter()
            .flat_map(move |group| group.pieces.iter().map(move |piece| (of(group), piece)))
    };
    if pieces().any(|(_, piece)| !piece.moments.second_is_known) {
        return None;
    }
    let zero = [[0.0; 3]; 3];
    let mut integrals = [zero; 3];
    for (density, piece) in pieces() {
        for i in 0..3 {
            for j in 0..3 {
                let (lo, hi) = piece.second(i, j, [ends[i], ends[j]]);
                let (lo, hi) = piece.signed(lo, hi);
                let (light, heavy) = density;
                integrals[0][i][j] += (lo * light).min(lo * heavy);
                integrals[2][i][j] += (hi * light).max(hi * heavy);
                let middle = piece.second_at_middle(i, j, [cg[i], cg[j]]);
                integrals[1][i][j] += piece.sign * f64::midpoint(light, heavy) * middle;
            }
        }
    }
    let wide = outside.map(|side| side.hi - side.lo);
    for i in 0..3 {
        for j in 0..3 {
            let more = left_out * wide[i] * wide[j];
            integrals[0][i][j] -= if i == j { 0.0 } else { more };
            integrals[2][i][j] += more;
        }
    }
    let of = |integral: [[f64; 3]; 3]| {
        let mut out = integral;
        for (axis, row) in out.iter_mut().enumerate() {
            row[axis] = (0..3)
                .filter(|other| *other != axis)
                .map(|o| integral[o][o])
                .sum();
        }
        out
    };
    let [lo, middle, hi] = integrals;
    Some(Inertia {
        lo: of(lo),
        middle: of(middle),
        hi: of(hi),
    })
}

impl Measure<'_> {
    /// The second moment of its own about its own origin, along two axes of the load.
    fn own_second(&self, i: usize, j: usize) -> Polynomial {
        let [xx, yy, zz, xy] = &self.moments.second;
        let [x, y, z] = [0, 1, 2].map(|own| self.piece.turn.of(own));
        let mut sum = Polynomial::default();
        sum.add(xx, x[i] * x[j]);
        sum.add(yy, y[i] * y[j]);
        sum.add(zz, z[i] * z[j]);
        sum.add(xy, x[i] * y[j] + y[i] * x[j]);
        sum
    }

    /// Bounds of the integral of `(x_i - from_i) (x_j - from_j)` over its volume.
    fn second(&self, i: usize, j: usize, from: [Interval<f64>; 2]) -> (f64, f64) {
        let arm = |axis: usize, from: Interval<f64>| {
            let (lo, hi) = self.piece.at[axis].ends();
            (lo - from.hi, hi - from.lo)
        };
        let (a, b) = (arm(i, from[0]), arm(j, from[1]));
        let ends = |poly: Polynomial| self.ends(&poly);
        let volume = self.ends(&self.moments.volume);
        let square = if i == j { squared(a) } else { product(a, b) };
        [
            ends(self.own_second(i, j)),
            product(a, ends(self.about(j, 0.0))),
            product(b, ends(self.about(i, 0.0))),
            product(square, volume),
        ]
        .into_iter()
        .fold((0.0, 0.0), |(lo, hi), (a, b)| (lo + a, hi + b))
    }

    fn second_at_middle(&self, i: usize, j: usize, from: [f64; 2]) -> f64 {
        let (a, b) = (self.place(i) - from[0], self.place(j) - from[1]);
        self.at_middle(&self.own_second(i, j))
            + a * self.at_middle(&self.about(j, 0.0))
            + b * self.at_middle(&self.about(i, 0.0))
            + a * b * self.at_middle(&self.moments.volume)
    }
}

fn product((a, b): (f64, f64), (c, d): (f64, f64)) -> (f64, f64) {
    let all = [a * c, a * d, b * c, b * d];
    (
        all.into_iter().fold(f64::INFINITY, f64::min),
        all.into_iter().fold(f64::NEG_INFINITY, f64::max),
    )
}

fn squared((a, b): (f64, f64)) -> (f64, f64) {
    let most = (a * a).max(b * b);
    if a <= 0.0 && b >= 0.0 {
        (0.0, most)
    } else {
        ((a * a).min(b * b), most)
    }
}
