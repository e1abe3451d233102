//! The worst three-point share.

use super::{Given, MOST_PADS, NoShare};
use crate::Interval;
use crate::hanging::Axis;
use crate::plane::{
    Point, TOUCH, add, distance, edges, hull, in_line, keep_left, left_of, nearest_on, sub, turned,
    usable,
};
use plumbhook_sheet::{Basis, Trail, step};
use plumbhook_units::{Force, Heading, Length, Measured, Ratio};

/// Far above what a few products of doubles lose, relative to the lengths in them.
const ROUNDING: f64 = 1e-13;

/// The largest share of the weight that one pad can get.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PadShare {
    /// Share of the weight, 0 to 1.
    pub share: Ratio,
    /// Where the centre of gravity then is, in the frame of the pads.
    pub cg: [Length; 2],
    /// The three pads that then carry, in rising order.
    pub on: [usize; 3],
    /// How far the centre of gravity then is from the line through the other two.
    pub cg_from_line: Length,
    /// How far the pad is from that line.
    pub pad_from_line: Length,
}

impl PadShare {
    /// The pad's reaction `R = W a / b`: `a` from the centre of gravity to the line through the other two pads, `b`
    /// from the pad to that line. Moments about that line; leaves both steps.
    pub fn reaction<T: Trail>(&self, weight: Force, trail: &mut T) -> Force {
        let Self {
            cg_from_line,
            pad_from_line,
            ..
        } = *self;
        step!(
            trail,
            Basis::STATICS,
            [cg_from_line, pad_from_line],
            share = cg_from_line / pad_from_line
        );
        step!(
            trail,
            Basis::STATICS,
            [weight, share],
            pad_reaction = weight * share
        );
        pad_reaction
    }
}

/// The largest share of the weight that each pad can get, over the whole band of the centre of gravity and over all
/// sets of three pads that hold it; one a pad, in the order of `pads`. The shares do not add up to one: each has its
/// own worst case.
///
/// `pads`: centres of the pads in the frame of the plant, 3 to [`MOST_PADS`]; each is taken to push at its centre.
/// `cg`: the centre of gravity in the axes of the load, seen from its `origin`; the box turns with the load.
/// `heading`: from the plant's +x to the load's +x, anticlockwise. `origin`: in the frame of the plant.
///
/// Valid for a rigid body at rest on pads at known places with plumb reactions; no side force, no height of the
/// centre of gravity (a load that leans is given where its centre of gravity then is). A centre of gravity within
/// 1e-9 m of the line around the pads is held. Rounding stays below 1e-9 of the weight where every three pads span
/// more than 1 mm; thinner sets can only overstate.
///
/// # Errors
/// [`NoShare`]; [`NoShare::Tips`] as soon as any place of the band lies outside the line around the pads.
pub fn worst_pad_shares(
    pads: &[[Length; 2]],
    cg: [Interval<Length>; 2],
    heading: Heading,
    origin: [Length; 2],
) -> Result<Vec<PadShare>, NoShare> {
    let given = pads.len();
    if given < 3 {
        return Err(NoShare::FewerThanThree { given });
    }
    if given > MOST_PADS {
        return Err(NoShare::TooMany { given });
    }
    let corners = cg_corners(cg, heading, origin)?;
    let places: Vec<Point> = pads.iter().map(|pad| pad.map(Length::si)).collect();
    if let Some(pad) = places.iter().position(|pad| !usable(*pad)) {
        let given = Given::Pad(pad);
        return Err(NoShare::NotFinite { given });
    }
    // Seen from a pad, so that a plant far from its origin costs no digits in what follows.
    let base = places.first().copied().unwrap_or_default();
    let pads: Vec<Point> = places.iter().map(|pad| sub(*pad, base)).collect();
    let corners = corners.map(|corner| sub(corner, base));
    if in_line(&pads) {
        return Err(NoShare::PadsInLine);
    }
    let corners = held_corners(&hull(&pads), &corners).map_err(|(beyond, cg)| NoShare::Tips {
        beyond: Length::from_si(beyond),
        cg: add(base, cg).map(Length::from_si),
    })?;
    let reach = pads
        .iter()
        .map(|pad| distance([0.0; 2], *pad))
        .fold(0.0, f64::max);
    let stand = Stand {
        base,
        pads,
        corners,
        slack: ROUNDING * reach,
    };
    stand.worst().ok_or(NoShare::PadsInLine)
}

/// The corners of the band in the frame of the plant, anticlockwise; they fall together where it has no width.
fn cg_corners(
    cg: [Interval<Length>; 2],
    heading: Heading,
    origin: [Length; 2],
) -> Result<[Point; 4], NoShare> {
    let [x, y] = cg.map(|band| [band.lo.si(), band.hi.si()]);
    for (axis, [lo, hi]) in [(Axis::X, x), (Axis::Y, y)] {
        if !usable([lo, hi]) {
            let given = Given::Cg(axis);
            return Err(NoShare::NotFinite { given });
        }
        if lo > hi {
            return Err(NoShare::BandReversed { axis });
        }
    }
    let origin = origin.map(Length::si);
    if !usable(origin) {
        let given = Given::Origin;
        return Err(NoShare::NotFinite { given });
    }
    if !heading.si().is_finite() {
        let given = Given::Heading;
        return Err(NoShare::NotFinite { given });
    }
    let ([x_lo, x_hi], [y_lo, y_hi]) = (x, y);
    let corners = [[x_lo, y_lo], [x_hi, y_lo], [x_hi, y_hi], [x_lo, y_hi]];
    Ok(corners.map(|corner| add(origin, turned(corner, heading.si()))))
}

/// The corners, all of them held by the line around the pads; one outside it by no more than [`TOUCH`] is moved onto
/// it. Else how far the farthest lies outside, and where. The distance to a convex shape is greatest at a corner of a
/// box, so the corners stand for all of it.
fn held_corners(around: &[Point], corners: &[Point; 4]) -> Result<[Point; 4], (f64, Point)> {
    let outside = |corner: Point| edges(around).any(|edge| left_of(edge, corner) < 0.0);
    let mut held = *corners;
    let mut farthest: Option<(f64, Point)> = None;
    for corner in held.iter_mut().filter(|corner| outside(**corner)) {
        let nearest = edges(around)
            .map(|edge| nearest_on(edge, *corner))
            .min_by(|a, b| distance(*a, *corner).total_cmp(&distance(*b, *corner)));
        let Some(nearest) = nearest else { continue };
        let beyond = distance(nearest, *corner);
        if beyond > farthest.map_or(TOUCH, |(far, _)| far) {
            farthest = Some((beyond, *corner));
        }
        *corner = nearest;
    }
    farthest.map_or(Ok(held), Err)
}

/// Pads and the corners of the band, m, as seen from `base`.
struct Stand {
    base: Point,
    pads: Vec<Point>,
    corners: [Point; 4],
    /// A centre of gravity on the line between two pads must not fall through it by rounding.
    slack: f64,
}

impl Stand {
    /// None where a pad is in no set of three that spans an area.
    fn worst(&self) -> Option<Vec<PadShare>> {
        let mut worst: Vec<Option<PadShare>> = vec![None; self.pads.len()];
        for (i, a) in self.pads.iter().enumerate() {
            for (j, b) in self.pads.iter().enumerate().skip(i + 1) {
                for (k, c) in self.pads.iter().enumerate().skip(j + 1) {
                    self.on_three([(i, *a), (j, *b), (k, *c)], &mut worst);
                }
            }
        }
        worst.into_iter().collect()
    }

    /// Shares on these three pads alone, kept where they are worse than what is known. A share is linear in the
    /// place of the centre of gravity, so it is greatest at a corner of that part of the band which the three hold.
    fn on_three(&self, three: [(usize, Point); 3], worst: &mut [Option<PadShare>]) {
        let [a, b, c] = three;
        let turns = left_of([a.1, b.1], c.1);
        let [a, b, c] = if turns > 0.0 { [a, b, c] } else { [a, c, b] };
        // Each pad with the line through the other two, on whose left it stands.
        let levers = [(a, [b.1, c.1]), (b, [c.1, a.1]), (c, [a.1, b.1])];
        let heights = levers.map(|((_, pad), line)| left_of(line, pad));
        // Also refuses two pads in one place, whose line has no direction.
        if !heights.iter().all(|height| *height > TOUCH) {
            return;
        }
        let held = levers
            .iter()
            .fold(self.corners.to_vec(), |kept, (_, line)| {
                keep_left(&kept, *line, self.slack)
            });
        for cg in held {
            for (((pad, _), line), height) in levers.iter().zip(heights) {
                // The slack can pass either end by a hair.
                let cg_from_line = left_of(*line, cg).clamp(0.0, height);
                let share = Ratio::from_si(cg_from_line / height);
                if let Some(slot) = worst.get_mut(*pad)
                    && slot.is_none_or(|known| share > known.share)
                {
                    *slot = Some(PadShare {
                        share,
                        cg: add(self.base, cg).map(Length::from_si),
                        on: three.map(|(pad, _)| pad),
                        cg_from_line: Length::from_si(cg_from_line),
                        pad_from_line: Length::from_si(height),
                    });
                }
            }
        }
    }
}
