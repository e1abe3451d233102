//! Exact ratios between units.

/// An exact positive ratio, times pi where `pi` is set.
///
/// Kept in lowest terms, so that two factors are equal when they are the same number.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Factor {
    num: u128,
    den: u128,
    pi: bool,
}

impl Factor {
    /// 1
    pub const ONE: Self = Self {
        num: 1,
        den: 1,
        pi: false,
    };
    /// 0; only as the offset of a unit whose zero is the zero of its base unit.
    pub const ZERO: Self = Self {
        num: 0,
        den: 1,
        pi: false,
    };

    /// `num / den`, for `den` above 0.
    pub const fn new(num: u128, den: u128) -> Self {
        let common = greatest_common_divisor(num, den);
        Self {
            num: num / common,
            den: den / common,
            pi: false,
        }
    }

    /// A whole number.
    pub const fn whole(num: u128) -> Self {
        Self::new(num, 1)
    }

    /// This factor times pi.
    #[must_use]
    pub const fn pi(self) -> Self {
        Self { pi: true, ..self }
    }

    /// The product. No unit needs the square of pi, so at most one of the two may carry it.
    #[must_use]
    pub const fn times(self, other: Self) -> Self {
        let crossed_a = Self::new(self.num, other.den);
        let crossed_b = Self::new(other.num, self.den);
        Self {
            pi: self.pi || other.pi,
            ..Self::new(crossed_a.num * crossed_b.num, crossed_a.den * crossed_b.den)
        }
    }

    /// The quotient by a factor other than zero and without pi.
    #[must_use]
    pub const fn over(self, other: Self) -> Self {
        self.times(Self {
            num: other.den,
            den: other.num,
            pi: false,
        })
    }

    /// Numerator and denominator in lowest terms, and whether pi multiplies them.
    pub const fn parts(self) -> (u128, u128, bool) {
        (self.num, self.den, self.pi)
    }

    /// `value * self`; multiplies before it divides, so that 600 mm is the double nearest to 0.6 m.
    pub fn apply(self, value: f64) -> f64 {
        let scaled = value * as_f64(self.num) / as_f64(self.den);
        if self.pi {
            scaled * std::f64::consts::PI
        } else {
            scaled
        }
    }

    /// `value / self`, the way back.
    pub fn undo(self, value: f64) -> f64 {
        let plain = if self.pi {
            value / std::f64::consts::PI
        } else {
            value
        };
        plain * as_f64(self.den) / as_f64(self.num)
    }
}

/// Exact below 2^53; a test holds every factor of the unit table under that.
fn as_f64(whole: u128) -> f64 {
    whole as f64
}

const fn greatest_common_divisor(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

#[cfg(test)]
#[allow(clippy::float_cmp, reason = "the exact double is what is claimed")]
mod tests {
    use super::*;

    #[test]
    fn it_is_kept_in_lowest_terms() {
        assert_eq!(Factor::new(254, 10_000), Factor::new(127, 5_000));
        assert_eq!(Factor::new(127, 5_000).parts(), (127, 5_000, false));
    }

    #[test]
    fn product_and_quotient_undo_each_other() {
        let inch = Factor::new(254, 10_000);
        let foot = Factor::whole(12).times(inch);
        assert_eq!(foot, Factor::new(3_048, 10_000));
        assert_eq!(foot.over(inch), Factor::whole(12));
    }

    #[test]
    fn it_multiplies_before_it_divides() {
        assert_eq!(Factor::new(1, 1_000).apply(600.0), 0.6);
        assert_eq!(Factor::new(1, 180).pi().apply(180.0), std::f64::consts::PI);
        assert_eq!(Factor::new(1, 180).pi().undo(std::f64::consts::PI), 180.0);
    }
}
