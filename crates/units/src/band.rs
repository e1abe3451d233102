//! What is known about a value: bounds, and which claim states each.

use std::cmp::Ordering;

/// Names a claim; whoever holds the table of claims knows which line it is.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub struct ClaimId(pub u32);

/// One side of a band.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Side<T> {
    /// The value does not pass `value` on this side, by what `claim` says.
    Known {
        /// The bound.
        value: T,
        /// Who says so.
        claim: ClaimId,
    },
    /// No claim states this side.
    Unknown,
}

impl<T: Copy + PartialOrd> Side<T> {
    /// A known side; a value that is not a number states nothing.
    pub fn known(value: T, claim: ClaimId) -> Self {
        if value.partial_cmp(&value) == Some(Ordering::Equal) {
            Self::Known { value, claim }
        } else {
            Self::Unknown
        }
    }

    /// The bound, if it is known.
    pub fn value(self) -> Option<T> {
        match self {
            Self::Known { value, .. } => Some(value),
            Self::Unknown => None,
        }
    }

    /// Who states it, if it is known.
    pub fn claim(self) -> Option<ClaimId> {
        match self {
            Self::Known { claim, .. } => Some(claim),
            Self::Unknown => None,
        }
    }

    /// Of two claims the one that reaches further towards `outward`; the earlier claim where both
    /// say the same, so that the order of asking does not matter.
    fn worst(self, other: Self, outward: Ordering) -> Self {
        let (Self::Known { value: a, claim: x }, Self::Known { value: b, claim: y }) =
            (self, other)
        else {
            return if self.claim().is_some() { self } else { other };
        };
        match a.partial_cmp(&b) {
            Some(Ordering::Equal) if y < x => other,
            Some(Ordering::Equal) => self,
            Some(order) if order == outward => self,
            Some(_) => other,
            None => Self::Unknown,
        }
    }

    fn map<U: Copy + PartialOrd>(self, f: impl FnOnce(T) -> U) -> Side<U> {
        match self {
            Self::Known { value, claim } => Side::known(f(value), claim),
            Self::Unknown => Side::Unknown,
        }
    }
}

/// What is known about a value. Each side is known by a claim, or is not known.
///
/// A bound is hard: a verdict may rest on it. `nominal` is for display and never for a verdict.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Band<T> {
    /// The value is this or more.
    pub lo: Side<T>,
    /// The value is this or less.
    pub hi: Side<T>,
    /// What the text calls the value itself.
    pub nominal: Option<T>,
}

impl<T: Copy + PartialOrd> Band<T> {
    /// Both sides at one value, for what is exact by declaration.
    pub fn exact(value: T, claim: ClaimId) -> Self {
        Self::within(value, Some(value), value, claim)
    }

    /// Both sides stated by one claim, with or without a nominal value between.
    ///
    /// Sides in the wrong order contradict each other, and then neither is known.
    pub fn within(lo: T, nominal: impl Into<Option<T>>, hi: T, claim: ClaimId) -> Self {
        let in_order = lo <= hi;
        if !in_order {
            return Self::unknown();
        }
        Self {
            lo: Side::known(lo, claim),
            hi: Side::known(hi, claim),
            nominal: nominal.into(),
        }
    }

    /// Only the high side: "at most 34 t" says nothing of how light it may be.
    pub fn at_most(hi: T, claim: ClaimId) -> Self {
        Self {
            hi: Side::known(hi, claim),
            ..Self::unknown()
        }
    }

    /// Only the low side.
    pub fn at_least(lo: T, claim: ClaimId) -> Self {
        Self {
            lo: Side::known(lo, claim),
            ..Self::unknown()
        }
    }

    /// Nothing is known.
    pub const fn unknown() -> Self {
        Self {
            lo: Side::Unknown,
            hi: Side::Unknown,
            nominal: None,
        }
    }

    /// Both bands as claims of one value: each side is the worst of the claims that state it, and a
    /// side that neither states stays unknown. Uniting never narrows a side that was known.
    ///
    /// Of two nominal values the larger is kept, so that the order of lines does not matter.
    #[must_use]
    pub fn unite(self, other: Self) -> Self {
        Self {
            lo: self.lo.worst(other.lo, Ordering::Less),
            hi: self.hi.worst(other.hi, Ordering::Greater),
            nominal: match (self.nominal, other.nominal) {
                (Some(a), Some(b)) => Some(if a < b { b } else { a }),
                (a, b) => a.or(b),
            },
        }
    }

    /// The sum of two values: a side that either lacks is lacking. Each side keeps the claim of `self`.
    #[must_use]
    pub fn plus(self, other: Self) -> Self
    where
        T: std::ops::Add<Output = T>,
    {
        let add = |a: Side<T>, b: Side<T>| match (a, b) {
            (Side::Known { value: a, claim }, Side::Known { value: b, .. }) => {
                Side::known(a + b, claim)
            }
            _ => Side::Unknown,
        };
        Self {
            lo: add(self.lo, other.lo),
            hi: add(self.hi, other.hi),
            nominal: self.nominal.zip(other.nominal).map(|(a, b)| a + b),
        }
    }

    /// Each side through `f`, which must rise (or stay) wherever its argument rises.
    pub fn map<U: Copy + PartialOrd>(self, f: impl Fn(T) -> U) -> Band<U> {
        Band {
            lo: self.lo.map(&f),
            hi: self.hi.map(&f),
            nominal: self.nominal.map(&f),
        }
    }

    /// Each side through `f`, which must fall (or stay) wherever its argument rises: low becomes high.
    pub fn map_falling<U: Copy + PartialOrd>(self, f: impl Fn(T) -> U) -> Band<U> {
        Band {
            lo: self.hi.map(&f),
            hi: self.lo.map(&f),
            nominal: self.nominal.map(&f),
        }
    }

    /// The low bound, if it is known.
    pub fn lo(&self) -> Option<T> {
        self.lo.value()
    }

    /// The high bound, if it is known.
    pub fn hi(&self) -> Option<T> {
        self.hi.value()
    }

    /// Both bounds, if both are known.
    pub fn both(&self) -> Option<(T, T)> {
        self.lo().zip(self.hi())
    }

    /// Whether both sides are known.
    pub fn is_known(&self) -> bool {
        self.both().is_some()
    }
}

/// Two claims of one value that cannot both be true.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Disagreement<T> {
    /// The lowest "at most" of all claims, and who says it.
    pub at_most: (T, ClaimId),
    /// The highest "at least" of all claims, and who says it; it is above `at_most`.
    pub at_least: (T, ClaimId),
}

/// The worst disagreement among claims of one value beyond their bands, one claim a band;
/// `None` where some value satisfies them all.
///
/// On a line, bands that overlap two by two all share a value, so the highest low side and the
/// lowest high side decide for the whole set.
pub fn disagreement<T: Copy + PartialOrd>(claims: &[Band<T>]) -> Option<Disagreement<T>> {
    // Seen from the inside, the worst of the low sides is the highest, and the other way round.
    let highest = claims.iter().fold(Side::Unknown, |side, band| {
        band.lo.worst(side, Ordering::Greater)
    });
    let lowest = claims.iter().fold(Side::Unknown, |side, band| {
        band.hi.worst(side, Ordering::Less)
    });
    let at_least = highest.value().zip(highest.claim())?;
    let at_most = lowest.value().zip(lowest.claim())?;
    (at_least.0 > at_most.0).then_some(Disagreement { at_most, at_least })
}
