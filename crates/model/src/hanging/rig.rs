//! The rig that is solved: bodies, hooks and legs with every band closed, each where it nominally hangs.

use super::legs::LegUse;
use super::things::{Fast, Thing, ThingKind};
use plumbhook_mechanics::hanging::{
    BandedBody, BandedLeg, BandedRig, End, Hook, Interval, Rotation,
};
use plumbhook_units::{Band, Length, Mass, Measured, Stiffness};

/// Length of a hoist where several machines carry: so long that each pulls plumb, as they do while each is kept over its
/// points. That they are kept so is asked elsewhere.
const PLUMB_HOIST: f64 = 1000.0;
/// Stiffness of such a hoist, or of a leg of shackles alone, beside legs that stretch, N/m: none of it is counted as
/// stretch.
const FIRM: f64 = 1e9;

/// How far above the common level a hook stands whose hoist has this length, in metres.
pub(super) fn hook_above_level(hoist_length: f64) -> f64 {
    PLUMB_HOIST - hoist_length
}

/// Where a thing nominally hangs, in the axes of the load.
#[derive(Clone, Copy, Debug)]
struct Placed {
    origin: [f64; 3],
    turn: Rotation,
}

impl Placed {
    fn of(&self, at: [Length; 3]) -> [f64; 3] {
        let mut place = self.origin;
        let turned = self.turn.turn(at.map(Measured::si));
        for (slot, part) in place.iter_mut().zip(turned) {
            *slot += part;
        }
        place
    }
}

/// A leg from below: its point in the upper thing's own frame, where its lower end stands, its length.
type Pair = ([f64; 3], [f64; 3], f64);

/// What the rig is made of.
pub(super) struct Making<'a> {
    /// The load first; each with its place among the bodies.
    pub(super) things: &'a [Thing],
    /// Every leg.
    pub(super) legs: &'a [LegUse],
    /// How the load is turned.
    pub(super) attitude: Rotation,
    /// How far hooks may come out of level.
    pub(super) level: Option<Length>,
}

impl Making<'_> {
    /// The rig; `None` where a number is unknown that leaves none. A mass whose low side nobody states stands at its
    /// high side, one whose high side nobody states at its low side.
    pub(super) fn rig(&self) -> Option<BandedRig> {
        let hooks = self.things.iter().filter_map(|thing| thing.hook).count();
        let placed = self.placed();
        let mut bodies = Vec::new();
        for (number, thing) in self.things.iter().enumerate() {
            if thing.body.is_none() {
                continue;
            }
            let mut cg = [Interval::exact(Length::from_si(0.0)); 3];
            for (slot, band) in cg.iter_mut().zip(&thing.cg) {
                *slot = interval(*band)?;
            }
            bodies.push(BandedBody {
                mass: self.mass(number)?,
                cg,
                attitude: placed
                    .get(number)
                    .copied()
                    .flatten()
                    .map_or(Rotation::AS_INSTALLED, |placed| placed.turn),
            });
        }
        let counts_stretch = self.counts_stretch();
        let mut legs = self
            .legs
            .iter()
            .map(|leg| self.leg(leg, counts_stretch))
            .collect::<Option<Vec<_>>>()?;
        if hooks < 2 {
            let position = [Length::from_si(0.0); 3];
            return Some(BandedRig {
                bodies,
                hooks: vec![Hook { position }],
                legs,
            });
        }
        let mut fixed = Vec::new();
        for hook in 0..hooks {
            let thing = self.things.iter().position(|t| t.hook == Some(hook))?;
            let [x, y, z] = placed.get(thing).copied().flatten()?.origin;
            fixed.push(Hook {
                position: [x, y, z + PLUMB_HOIST].map(Length::from_si),
            });
            // Against the first hook the others may stand higher or lower.
            let level = if hook == 0 { 0.0 } else { self.level?.si() };
            legs.push(BandedLeg {
                upper: End::Hook(hook),
                lower: End::Point {
                    body: self.things.get(thing)?.body?,
                    at: [Length::from_si(0.0); 3],
                },
                length: Interval {
                    lo: Length::from_si(PLUMB_HOIST - level),
                    hi: Length::from_si(PLUMB_HOIST + level),
                },
                stiffness: counts_stretch.then(|| Interval::exact(Stiffness::from_si(FIRM))),
            });
        }
        Some(BandedRig {
            bodies,
            hooks: fixed,
            legs,
        })
    }

    /// The mass of a body, with the legs that hang from it: they hang at its ends and are counted at its centre of
    /// gravity, which lies no lower.
    fn mass(&self, number: usize) -> Option<Interval<Mass>> {
        let thing = self.things.get(number)?;
        let mut mass = one_sided(thing.mass)?;
        if number > 0 {
            for leg in self.legs.iter().filter(|leg| leg.upper.thing == number) {
                let nothing = Interval::exact(Mass::from_si(0.0));
                let own = one_sided(leg.mass).unwrap_or(nothing);
                mass = Interval {
                    lo: mass.lo + own.lo,
                    hi: mass.hi + own.hi,
                };
            }
        }
        Some(mass)
    }

    /// Whether it is known how far each leg stretches, and some do.
    fn counts_stretch(&self) -> bool {
        let known = |leg: &LegUse| leg.stiffness.is_some() || leg.firm;
        self.legs.iter().all(known) && self.legs.iter().any(|leg| leg.stiffness.is_some())
    }

    fn leg(&self, leg: &LegUse, counts_stretch: bool) -> Option<BandedLeg> {
        let end = |fast: Fast| {
            let thing = self.things.get(fast.thing)?;
            Some(match thing.body {
                Some(body) => End::Point { body, at: fast.at },
                None => End::Hook(0),
            })
        };
        Some(BandedLeg {
            upper: end(leg.upper)?,
            lower: end(leg.lower)?,
            length: interval(leg.length)?,
            stiffness: if leg.firm && counts_stretch {
                Some(Interval::exact(Stiffness::from_si(FIRM)))
            } else {
                leg.stiffness.map(|(lo, hi)| Interval { lo, hi })
            },
        })
    }

    /// Where each thing nominally hangs, from the load up: turned in plan so that its own points stand as nearly as they can
    /// over what hangs from them.
    fn placed(&self) -> Vec<Option<Placed>> {
        let mut placed: Vec<Option<Placed>> = vec![None; self.things.len()];
        if let Some(load) = placed.first_mut() {
            *load = Some(Placed {
                origin: [0.0; 3],
                turn: self.attitude,
            });
        }
        for _ in 1..self.things.len() {
            for thing in 1..self.things.len() {
                if placed.get(thing).is_some_and(Option::is_none) {
                    let here = self.place(thing, &placed);
                    if let Some(slot) = placed.get_mut(thing) {
                        *slot = here;
                    }
                }
            }
        }
        placed
    }

    fn place(&self, thing: usize, placed: &[Option<Placed>]) -> Option<Placed> {
        let particle = self.things.get(thing)?.kind == ThingKind::Ring;
        let below = self.legs.iter().filter(|leg| leg.upper.thing == thing);
        let mut pairs: Vec<Pair> = Vec::new();
        for leg in below {
            let lower = placed.get(leg.lower.thing).copied().flatten()?;
            let length = leg.length.both().map(|(lo, hi)| (lo + hi).si() / 2.0)?;
            pairs.push((
                leg.upper.at.map(Measured::si),
                lower.of(leg.lower.at),
                length,
            ));
        }
        let count = pairs.len() as f64;
        if pairs.is_empty() {
            return None;
        }
        let mean = |of: fn(&Pair) -> f64| pairs.iter().map(of).sum::<f64>() / count;
        let own = [mean(|p| p.0[0]), mean(|p| p.0[1])];
        let under = [mean(|p| p.1[0]), mean(|p| p.1[1])];
        let (mut sine, mut cosine) = (0.0, 0.0);
        for ([ox, oy, _], [ux, uy, _], _) in &pairs {
            let (o, u) = ([ox - own[0], oy - own[1]], [ux - under[0], uy - under[1]]);
            sine += o[0] * u[1] - o[1] * u[0];
            cosine += o[0] * u[0] + o[1] * u[1];
        }
        let turn = if particle || (sine == 0.0 && cosine == 0.0) {
            0.0
        } else {
            sine.atan2(cosine)
        };
        let (s, c) = turn.sin_cos();
        let turn = Rotation::from_axes([c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0])?;
        let [x, y] = [
            under[0] - (c * own[0] - s * own[1]),
            under[1] - (s * own[0] + c * own[1]),
        ];
        let flat = Placed {
            origin: [x, y, 0.0],
            turn,
        };
        let heights = pairs.iter().map(|(own, under, length)| {
            let here = flat.of(own.map(Length::from_si));
            let aside = (here[0] - under[0]).hypot(here[1] - under[1]);
            under[2] + (length * length - aside * aside).max(0.0).sqrt() - here[2]
        });
        let z = heights.sum::<f64>() / count;
        Some(Placed {
            origin: [x, y, z],
            turn,
        })
    }
}

fn one_sided(band: Band<Mass>) -> Option<Interval<Mass>> {
    match (band.lo(), band.hi()) {
        (Some(lo), Some(hi)) => Some(Interval { lo, hi }),
        (None, Some(one)) | (Some(one), None) => Some(Interval::exact(one)),
        (None, None) => None,
    }
}

fn interval<T: Measured>(band: Band<T>) -> Option<Interval<T>> {
    band.both().map(|(lo, hi)| Interval { lo, hi })
}
