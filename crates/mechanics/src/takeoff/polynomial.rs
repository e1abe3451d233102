//! Volumes and their moments as polynomials of the dimensions, and bounds of them over a box of dimensions.

/// A factor and the powers of the dimensions, by their number.
#[derive(Clone, Debug, PartialEq)]
struct Term {
    factor: f64,
    powers: Vec<(usize, i32)>,
}

/// A polynomial of dimensions that are not below zero.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Polynomial(Vec<Term>);

/// The low and high end of each dimension; low ends are not below zero.
pub(crate) type Dimensions = Vec<(f64, f64)>;

/// How often a box is halved before the bound is taken as it is.
const HALVINGS: usize = 300;
/// A bound this near to a value that is reached, as a share of it, is taken as it is.
const NEAR: f64 = 1e-9;

impl Polynomial {
    /// `factor` times powers of dimensions.
    pub(crate) fn term(factor: f64, powers: &[(usize, i32)]) -> Self {
        Self(vec![Term {
            factor,
            powers: powers.to_vec(),
        }])
    }

    /// One dimension.
    pub(crate) fn dimension(index: usize) -> Self {
        Self::term(1.0, &[(index, 1)])
    }

    /// The sum.
    pub(crate) fn plus(mut self, other: &Self) -> Self {
        self.0.extend_from_slice(&other.0);
        self
    }

    /// Every factor times `by`.
    pub(crate) fn scaled(mut self, by: f64) -> Self {
        for term in &mut self.0 {
            term.factor *= by;
        }
        self
    }

    /// The product.
    pub(crate) fn times(&self, other: &Self) -> Self {
        let pairs = self
            .0
            .iter()
            .flat_map(|a| other.0.iter().map(move |b| a.times(b)));
        Self(pairs.collect())
    }

    /// Adds `by` times `other`.
    pub(crate) fn add(&mut self, other: &Self, by: f64) {
        if by != 0.0 {
            self.0.extend(other.0.iter().map(|term| Term {
                factor: term.factor * by,
                powers: term.powers.clone(),
            }));
        }
    }

    /// Its value.
    pub(crate) fn value(&self, at: &[f64]) -> f64 {
        self.0.iter().map(|term| term.value(at)).sum()
    }

    /// A bound from above: the better of each term at its own end, and of the slopes from the middle on.
    fn bound(&self, over: &Dimensions) -> f64 {
        let by_terms: f64 = self.0.iter().map(|term| term.ends(over, None).1).sum();
        let rise: f64 = over
            .iter()
            .enumerate()
            .filter(|(_, (lo, hi))| lo < hi)
            .map(|(along, (lo, hi))| {
                let (least, most) = self.slope_ends(over, along);
                least.abs().max(most.abs()) * (hi - lo) / 2.0
            })
            .sum();
        by_terms.min(self.value(&middle(over)) + rise)
    }

    fn slope_ends(&self, over: &Dimensions, along: usize) -> (f64, f64) {
        self.0.iter().fold((0.0, 0.0), |(lo, hi), term| {
            let (a, b) = term.ends(over, Some(along));
            (lo + a, hi + b)
        })
    }

    /// The box without the dimensions in which the polynomial only rises or only falls: its largest value lies at
    /// their ends.
    fn narrowed(&self, mut over: Dimensions) -> Dimensions {
        let mut moved = true;
        while std::mem::take(&mut moved) {
            for along in 0..over.len() {
                let Some((lo, hi)) = over.get(along).copied().filter(|(lo, hi)| lo < hi) else {
                    continue;
                };
                let (least, most) = self.slope_ends(&over, along);
                let end = if least >= 0.0 {
                    hi
                } else if most <= 0.0 {
                    lo
                } else {
                    continue;
                };
                if let Some(side) = over.get_mut(along) {
                    *side = (end, end);
                    moved = true;
                }
            }
        }
        over
    }

    /// Its largest value over the box, or a little more: never less.
    pub(crate) fn highest(&self, over: &Dimensions) -> f64 {
        let first = self.narrowed(over.clone());
        let mut reached = self.value(&middle(&first));
        let mut open = vec![(self.bound(&first), first)];
        for _ in 0..HALVINGS {
            let Some(worst) = (0..open.len()).max_by(|a, b| open[*a].0.total_cmp(&open[*b].0))
            else {
                return reached;
            };
            let (most, over) = open.swap_remove(worst);
            let wide = over
                .iter()
                .enumerate()
                .max_by(|(_, a), (_, b)| share(**a).total_cmp(&share(**b)))
                .filter(|(_, side)| side.0 < side.1);
            if most - reached <= NEAR * most.abs().max(reached.abs()) || wide.is_none() {
                return most.max(reached);
            }
            let Some((along, &(lo, hi))) = wide else {
                return most;
            };
            let half = f64::midpoint(lo, hi);
            for side in [(lo, half), (half, hi)] {
                let mut part = over.clone();
                if let Some(along) = part.get_mut(along) {
                    *along = side;
                }
                let part = self.narrowed(part);
                reached = reached.max(self.value(&middle(&part)));
                open.push((self.bound(&part), part));
            }
        }
        open.iter()
            .fold(reached, |most, (bound, _)| most.max(*bound))
    }

    /// Its smallest value over the box, or a little less: never more.
    pub(crate) fn lowest(&self, over: &Dimensions) -> f64 {
        -self.clone().scaled(-1.0).highest(over)
    }
}

impl Term {
    fn times(&self, other: &Self) -> Self {
        let mut powers = self.powers.clone();
        for (index, power) in &other.powers {
            match powers.iter_mut().find(|(of, _)| of == index) {
                Some((_, sum)) => *sum += power,
                None => powers.push((*index, *power)),
            }
        }
        Self {
            factor: self.factor * other.factor,
            powers,
        }
    }

    fn value(&self, at: &[f64]) -> f64 {
        self.powers
            .iter()
            .fold(self.factor, |value, (index, power)| {
                value * at.get(*index).map_or(f64::NAN, |side| side.powi(*power))
            })
    }

    /// The ends of the term, or of its slope along one dimension.
    fn ends(&self, over: &Dimensions, along: Option<usize>) -> (f64, f64) {
        let mut ends = (self.factor, self.factor);
        let mut found = along.is_none();
        for (index, power) in &self.powers {
            let mut power = *power;
            if along == Some(*index) {
                found = true;
                ends = (ends.0 * f64::from(power), ends.1 * f64::from(power));
                power -= 1;
            }
            let (lo, hi) = over.get(*index).copied().unwrap_or((f64::NAN, f64::NAN));
            ends = (ends.0 * lo.powi(power), ends.1 * hi.powi(power));
        }
        match (found, self.factor < 0.0) {
            (false, _) => (0.0, 0.0),
            (true, true) => (ends.1, ends.0),
            (true, false) => ends,
        }
    }
}

fn middle(over: &Dimensions) -> Vec<f64> {
    over.iter()
        .map(|(lo, hi)| f64::midpoint(*lo, *hi))
        .collect()
}

fn share((lo, hi): (f64, f64)) -> f64 {
    if hi > 0.0 { (hi - lo) / hi } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Against the values on a fine grid, which needs no cleverness.
        #[test]
        fn the_bound_is_never_passed_and_never_far_away(
            factors in prop::array::uniform4(-2.0..2.0_f64),
            low in prop::array::uniform2(0.0..1.0_f64),
            wide in prop::array::uniform2(0.0..1.0_f64),
        ) {
            let [a, b, c, d] = factors;
            let poly = Polynomial::term(a, &[(0, 2), (1, 1)])
                .plus(&Polynomial::term(b, &[(0, 1)]))
                .plus(&Polynomial::term(c, &[(1, 3)]))
                .plus(&Polynomial::term(d, &[(0, 1), (1, 1)]));
            let over: Dimensions = low.iter().zip(wide).map(|(lo, wide)| (*lo, lo + wide)).collect();
            let mut most = f64::NEG_INFINITY;
            for i in 0..=40 {
                for j in 0..=40 {
                    let at = [low[0] + wide[0] * f64::from(i) / 40.0, low[1] + wide[1] * f64::from(j) / 40.0];
                    most = most.max(poly.value(&at));
                }
            }
            let bound = poly.highest(&over);
            prop_assert!(bound >= most - 1e-12, "{bound} {most}");
            prop_assert!(bound <= most + 0.02, "{bound} {most}");
        }
    }
}
