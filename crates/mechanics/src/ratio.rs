//! The exact ends of a ratio of two sums that share their inputs, such as a centre of gravity.

use crate::Interval;

/// Shares of a metre (or of whatever the ratio is in) within which an end is found.
const CLOSE: f64 = 1e-11;

/// A ratio `N / D` over a box of inputs, seen through its linear form: `most(l)` is the largest `N - l D` there
/// (or more), `least(l)` the smallest (or less), and `D` lies within `below`, which is above zero.
pub(crate) struct Fraction<M, L> {
    pub(crate) most: M,
    pub(crate) least: L,
    pub(crate) below: (f64, f64),
}

impl<M: Fn(f64) -> f64, L: Fn(f64) -> f64> Fraction<M, L> {
    /// Both ends, from a value `inside`.
    ///
    /// The largest ratio is where `most` is zero (Dinkelbach 1967). `most` falls by at least the least `D` and at
    /// most by the largest for each unit of `l`, so `l + most(l) / D_most` never passes that place and
    /// `l + most(l) / D_least` never falls short of it: what is returned is a bound wherever the loop stops.
    pub(crate) fn ends(&self, inside: f64) -> Interval<f64> {
        Interval {
            lo: -self.climb(-inside, |l| -(self.least)(-l)),
            hi: self.climb(inside, &self.most),
        }
    }

    fn climb(&self, from: f64, most: impl Fn(f64) -> f64) -> f64 {
        let (least_below, most_below) = self.below;
        let mut at = from;
        for _ in 0..400 {
            let left = most(at);
            if left <= 0.0 || left / least_below <= CLOSE * at.abs().max(1e-2) {
                return at + (left / least_below).max(0.0);
            }
            at += left / most_below;
        }
        at + (most(at) / least_below).max(0.0)
    }
}
