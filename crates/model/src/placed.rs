//! Places as they came out in the plant's frame, with what is not known of them.

use plumbhook_sheet::Origin;
use plumbhook_units::{Length, Measured};

/// Where something is along one axis of the plant: a middle, and how far it may lie to each side.
///
/// What it owes its width to is kept apart by where that is written, so that two places that count from the same grid
/// line are not moved against each other by what is not known of the line.
#[derive(Clone, Debug, PartialEq)]
pub struct Coordinate {
    /// The middle of where it may be.
    pub middle: Length,
    parts: Vec<(Origin, f64)>,
}

impl Coordinate {
    /// Known exactly.
    pub fn exact(at: Length) -> Self {
        Self {
            middle: at,
            parts: vec![],
        }
    }

    /// Shifted by `by`, which is known to `within` either way, as `origin` says.
    #[must_use]
    pub fn plus(mut self, by: Length, within: Length, origin: &Origin) -> Self {
        self.middle += by;
        if within.si() > 0.0 {
            self.parts.push((origin.clone(), within.si()));
        }
        self
    }

    /// How far it may lie to each side of its middle.
    pub fn within(&self) -> Length {
        Length::from_si(self.parts.iter().map(|(_, within)| within).sum())
    }

    /// Its lowest and its highest.
    pub fn ends(&self) -> (Length, Length) {
        (self.middle - self.within(), self.middle + self.within())
    }

    /// How far from `other` it lies, lowest and highest. What both owe their width to moves both alike.
    pub fn seen_from(&self, other: &Self) -> (Length, Length) {
        let mut left = other.parts.clone();
        let mut within = 0.0;
        for part in &self.parts {
            match left.iter().position(|other| other == part) {
                Some(same) => {
                    left.swap_remove(same);
                }
                None => within += part.1,
            }
        }
        within += left.iter().map(|(_, within)| within).sum::<f64>();
        let (middle, within) = (self.middle - other.middle, Length::from_si(within));
        (middle - within, middle + within)
    }

    /// The middle between two, known as well as `origin` says.
    pub(crate) fn between(a: &Self, b: &Self, origin: &Origin) -> Self {
        let within = (a.within() + b.within()) / 2.0;
        Self::exact((a.middle + b.middle) / 2.0).plus(Length::from_si(0.0), within, origin)
    }
}

/// A place in plan, along x and y.
pub type Placed = [Coordinate; 2];

/// The middles of a place.
pub fn middle(place: &Placed) -> [Length; 2] {
    let [x, y] = place;
    [x.middle, y.middle]
}

/// Corners in plan, and how far each may lie to either side along x and y.
#[derive(Clone, Debug, PartialEq)]
pub struct Region {
    /// Their middles, in order.
    pub corners: Vec<[Length; 2]>,
    /// The widest of all corners.
    pub within: [Length; 2],
}

impl Region {
    pub(crate) fn of(places: &[Placed]) -> Self {
        let widest = |axis: usize| {
            let all = places.iter().filter_map(|place| place.get(axis));
            all.map(|at| at.within().si()).fold(0.0, f64::max)
        };
        Self {
            corners: places.iter().map(middle).collect(),
            within: [0, 1].map(|axis| Length::from_si(widest(axis))),
        }
    }
}
