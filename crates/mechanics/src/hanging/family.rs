//! One way in which a rig inside its bands can hang, as a function of the banded inputs.

use super::numbers::Fault;
use super::one::One;
use super::outcome::{Counts, Param, Point, Said, Slopes};
use super::several::Several;
use super::sharing::subsets;
use super::slide::Border;

/// Which legs pull.
#[derive(Clone, Debug)]
pub(crate) enum Way {
    /// All that want to, by their stiffness.
    Elastic,
    /// All that want to, inextensible; as many legs at most as the geometry can tell apart.
    Inextensible,
    /// Just these, inextensible; the others must reach, with this much stretch.
    Chosen {
        /// Indices of the legs.
        legs: Vec<usize>,
        /// Share of its length by which another leg may stretch.
        stretch: f64,
    },
}

/// What hangs.
#[derive(Clone, Debug)]
pub(crate) enum Kind {
    /// One body under one hook.
    One(Box<One>),
    /// Several bodies or hooks.
    Several(Box<Several>),
}

/// A rig, its banded inputs and a way to hang.
#[derive(Clone, Debug)]
pub(crate) struct Family {
    kind: Kind,
    way: Way,
    counts: Counts,
    pub(crate) params: Vec<Param>,
    pub(crate) lo: Vec<f64>,
    pub(crate) hi: Vec<f64>,
}

/// Legs of which a few are tried as the only ones that carry, and the others beside them.
pub(crate) struct Few {
    /// These carry.
    pub(crate) few: Vec<usize>,
    /// These do not.
    pub(crate) others: Vec<usize>,
}

impl Family {
    /// A family over the banded inputs that matter to its way; `kind` makes what hangs, given these inputs.
    pub(crate) fn new(
        counts: Counts,
        way: Way,
        bands: &[(Param, f64, f64)],
        kind: impl FnOnce(Way, Vec<Param>) -> Kind,
    ) -> Self {
        let matters = |param: Param| match (&way, param) {
            (Way::Elastic, _) => true,
            (_, Param::Stiffness(_)) => false,
            (Way::Chosen { legs, .. }, Param::Length(i)) => legs.contains(&i),
            _ => true,
        };
        let kept: Vec<_> = bands.iter().filter(|b| matters(b.0)).collect();
        let params: Vec<Param> = kept.iter().map(|b| b.0).collect();
        Self {
            lo: kept.iter().map(|b| b.1).collect(),
            hi: kept.iter().map(|b| b.2).collect(),
            kind: kind(way.clone(), params.clone()),
            params,
            way,
            counts,
        }
    }

    /// How many legs, bodies and hooks.
    pub(crate) const fn counts(&self) -> Counts {
        self.counts
    }

    /// Whether stretch is counted.
    pub(crate) fn stretches(&self) -> bool {
        matches!(self.way, Way::Elastic)
    }

    /// Whether every place in the bands must hang in this way.
    pub(crate) fn must_stand(&self) -> bool {
        !matches!(self.way, Way::Chosen { .. })
    }

    /// The legs of a chosen sharing.
    pub(crate) fn chosen(&self) -> Option<Vec<usize>> {
        match &self.way {
            Way::Chosen { legs, .. } => Some(legs.clone()),
            _ => None,
        }
    }

    /// The legs that carry a pose, where none stretches; none where stiffness says it.
    pub(crate) fn pulling(&self, point: &Point) -> Option<Vec<usize>> {
        match &self.way {
            Way::Elastic => None,
            Way::Inextensible => Some(pulls(point)),
            Way::Chosen { legs, .. } => Some(legs.clone()),
        }
    }

    /// The few legs that may carry alone: of all legs, or of those that run between the same two things.
    pub(crate) fn few(&self) -> Vec<Few> {
        let tiers = match &self.kind {
            Kind::One(_) => vec![(0..self.counts.legs).collect::<Vec<_>>()],
            Kind::Several(several) => several.tiers(),
        };
        let whole = !self.counts.several();
        let of_tier = |tier: Vec<usize>| {
            let sets = subsets(tier.len()).into_iter();
            let wanted = sets.filter(move |set| set.len() > 1);
            let tiers = wanted.map(move |set| {
                let (few, others) = (0..tier.len()).partition::<Vec<_>, _>(|i| set.contains(i));
                let named = |places: Vec<usize>| {
                    let legs = places.iter().filter_map(|place| tier.get(*place));
                    legs.copied().collect::<Vec<_>>()
                };
                Few {
                    few: named(few),
                    others: named(others),
                }
            });
            tiers.filter(move |few| whole || !few.others.is_empty())
        };
        tiers.into_iter().flat_map(of_tier).collect()
    }

    /// The most legs that run between the same two things.
    pub(crate) fn largest_tier(&self) -> usize {
        match &self.kind {
            Kind::One(_) => self.counts.legs,
            Kind::Several(several) => several.tiers().iter().map(Vec::len).max().unwrap_or(0),
        }
    }

    /// The middle of all bands.
    pub(crate) fn middle(&self) -> Vec<f64> {
        let ends = self.lo.iter().zip(&self.hi);
        ends.map(|(lo, hi)| f64::midpoint(*lo, *hi)).collect()
    }

    /// The middle of all bands, but with the load's centre of gravity at a corner: bit `axis` of `pattern` set is high.
    pub(crate) fn cg_corner(&self, pattern: u32) -> Vec<f64> {
        let mut at = self.middle();
        let ends = self.lo.iter().zip(&self.hi).zip(&self.params);
        for (slot, ((lo, hi), param)) in at.iter_mut().zip(ends) {
            if let Param::Cg(0, axis) = param {
                *slot = if pattern >> axis & 1 == 1 { *hi } else { *lo };
            }
        }
        at
    }

    /// Hangs the rig at a place in the bands; `near` is a pose to start from.
    ///
    /// # Errors
    /// Why it does not hang in this way there.
    pub(crate) fn evaluate(&mut self, at: &[f64], near: Option<&Point>) -> Result<Point, Fault> {
        match &mut self.kind {
            Kind::One(one) => one.evaluate(at, near),
            Kind::Several(several) => several.evaluate(at, near),
        }
    }

    /// Whether it hangs in this way at a place; `near` is a pose to start from.
    ///
    /// # Errors
    /// Why it does not.
    pub(crate) fn stands(&mut self, at: &[f64], near: Option<&Point>) -> Result<(), Fault> {
        match &mut self.kind {
            Kind::One(one) => one.stands(at),
            Kind::Several(several) => several.evaluate(at, near).map(|_| ()),
        }
    }

    /// How a pose moves with the inputs.
    pub(crate) fn slopes(&mut self, point: &Point) -> Option<Slopes> {
        match &mut self.kind {
            Kind::One(one) => one.slopes(point),
            Kind::Several(several) => several.slopes(point),
        }
    }

    /// Slopes of one number of a pose in all inputs.
    pub(crate) fn slopes_of(&mut self, point: &Point, said: Said) -> Option<Vec<f64>> {
        match &mut self.kind {
            Kind::One(one) => one.slopes_of(point, said),
            Kind::Several(several) => several.slopes_of(point, said),
        }
    }

    /// Stretch of each leg of an elastic pose (negative when slack) and its slope along one input.
    pub(crate) fn stretches_along(&mut self, point: &Point, j: usize) -> Option<Vec<(f64, f64)>> {
        match &mut self.kind {
            Kind::One(one) => one.stretches_along(point, j),
            Kind::Several(several) => several.stretches_along(point, j),
        }
    }

    /// What may change sides on the way from a pose: with stiffness, every leg's stretch; in a chosen sharing, the pull of its
    /// legs and the reach of the others.
    pub(crate) fn borders(&mut self, point: &Point) -> Option<Vec<Border>> {
        match &mut self.kind {
            Kind::One(one) => one.borders(point),
            Kind::Several(several) => several.borders(point),
        }
    }
}

/// The legs with tension.
pub(crate) fn pulls(point: &Point) -> Vec<usize> {
    let all = point.tension.iter().enumerate();
    all.filter(|(_, t)| **t > 0.0).map(|(leg, _)| leg).collect()
}
