//! A rigid body on pads that can push and not pull.
//!
//! Three pads share the weight by statics. Four or more never stand level to a hair, so statics cannot tell which
//! carry: each pad is given the largest share that any three of them could leave it ("worst three-point share").
//! Neither an even share nor the elastic plane formula is a bound for rigid pads. That three are enough: every
//! sharing in balance is a mix of sharings on three pads, so no mix gives a pad more than the worst of these.

use crate::Interval;
use crate::hanging::Axis;
use crate::plane::{
    FARTHEST, Point, TOUCH, add, distance_to_edge, edges, hull, in_line, keep_left, left_of,
    turned, usable,
};
use core::fmt;
use plumbhook_sheet::{Basis, Trail, step};
use plumbhook_units::{Amount, Angle, Force, Length, Measured, Pressure, Printer, Ratio, Round};

/// The most pads that are judged; the sets of three grow with the third power.
pub const MOST_PADS: usize = 64;

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

/// Something that shares are computed from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Given {
    /// A pad, by its place in the list.
    Pad(usize),
    /// The band of the centre of gravity along one axis.
    Cg(Axis),
    /// The heading of the load.
    Heading,
    /// The origin of the load.
    Origin,
}

impl fmt::Display for Given {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Pad(pad) => write!(f, "the place of pad {}", pad + 1),
            Self::Cg(axis) => write!(f, "the centre of gravity along {axis:?}"),
            Self::Heading => f.write_str("the heading of the load"),
            Self::Origin => f.write_str("the place of the load"),
        }
    }
}

/// Why the pads have no shares. Pads count from zero here and from one in the words.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoShare {
    /// Fewer than three pads.
    FewerThanThree {
        /// How many.
        given: usize,
    },
    /// More than [`MOST_PADS`].
    TooMany {
        /// How many.
        given: usize,
    },
    /// The pads stand in one line.
    PadsInLine,
    /// The centre of gravity may lie outside the line around the pads.
    Tips {
        /// How far, at the worst corner of its band.
        beyond: Length,
        /// That corner, in the frame of the pads.
        cg: [Length; 2],
    },
    /// A number is none, or a place lies more than 1,000 km from the origin.
    NotFinite {
        /// Which.
        given: Given,
    },
    /// A band has its low side above its high side.
    BandReversed {
        /// Of which coordinate of the centre of gravity.
        axis: Axis,
    },
}

impl fmt::Display for NoShare {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FewerThanThree { given } => {
                write!(f, "a load stands on three pads or more, and there are {given}")
            }
            Self::TooMany { given } => write!(
                f,
                "{given} pads are more than the {MOST_PADS} that are judged; group them"
            ),
            Self::PadsInLine => f.write_str(
                "the pads stand in one line, so the load can tip across it; set one pad aside of the line",
            ),
            Self::Tips { beyond, cg } => {
                let printer = Printer::default();
                let metric = |length, round| printer.metric(Amount::of(length), round);
                let [x, y] = cg.map(|c| metric(c, Round::Nearest));
                write!(
                    f,
                    "the load tips: its centre of gravity may be at ({x}, {y}), {} outside the line around \
                     the pads; set the pads further out, or know the centre of gravity better",
                    metric(*beyond, Round::Up)
                )
            }
            Self::NotFinite { given } => write!(
                f,
                "{given} is not a finite number within {:.0} km of the origin",
                FARTHEST / 1e3
            ),
            Self::BandReversed { axis } => write!(
                f,
                "{} has its low side above its high side",
                Given::Cg(*axis)
            ),
        }
    }
}

impl core::error::Error for NoShare {}

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
/// 1e-9 m of the line around the pads is held.
///
/// # Errors
/// [`NoShare`]; [`NoShare::Tips`] as soon as any place of the band lies outside the line around the pads.
pub fn worst_pad_shares(
    pads: &[[Length; 2]],
    cg: [Interval<Length>; 2],
    heading: Angle,
    origin: [Length; 2],
) -> Result<Vec<PadShare>, NoShare> {
    let given = pads.len();
    if given < 3 {
        return Err(NoShare::FewerThanThree { given });
    }
    if given > MOST_PADS {
        return Err(NoShare::TooMany { given });
    }
    let places: Vec<Point> = pads.iter().map(|pad| pad.map(Length::si)).collect();
    let corners = cg_corners(cg, heading, origin)?;
    if let Some(pad) = places.iter().position(|pad| !usable(*pad)) {
        let given = Given::Pad(pad);
        return Err(NoShare::NotFinite { given });
    }
    if in_line(&places) {
        return Err(NoShare::PadsInLine);
    }
    if let Some((beyond, cg)) = farthest_outside(&hull(&places), &corners) {
        return Err(NoShare::Tips {
            beyond: Length::from_si(beyond),
            cg: cg.map(Length::from_si),
        });
    }
    let mut worst: Vec<Option<PadShare>> = vec![None; given];
    for (i, a) in places.iter().enumerate() {
        for (j, b) in places.iter().enumerate().skip(i + 1) {
            for (k, c) in places.iter().enumerate().skip(j + 1) {
                on_three([(i, *a), (j, *b), (k, *c)], &corners, &mut worst);
            }
        }
    }
    // A pad without a share stands within a hair of a line with all the others.
    worst
        .into_iter()
        .collect::<Option<Vec<PadShare>>>()
        .ok_or(NoShare::PadsInLine)
}

/// The corners of the band in the frame of the plant, anticlockwise; they fall together where it has no width.
fn cg_corners(
    cg: [Interval<Length>; 2],
    heading: Angle,
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

/// The place that lies farthest outside the line around the pads, and how far; none where all are held. The distance
/// to a convex shape is greatest at a corner of a box, so the corners stand for all of it.
fn farthest_outside(around: &[Point], corners: &[Point]) -> Option<(f64, Point)> {
    corners
        .iter()
        .filter(|corner| edges(around).any(|edge| left_of(edge, **corner) < -TOUCH))
        .map(|corner| {
            let nearest = edges(around).map(|edge| distance_to_edge(edge, *corner));
            (nearest.fold(f64::INFINITY, f64::min), *corner)
        })
        .max_by(|(one, _), (other, _)| one.total_cmp(other))
}

/// Shares on these three pads alone, kept where they are worse than what is known. A share is linear in the place of
/// the centre of gravity, so it is greatest at a corner of that part of the band which the three hold.
fn on_three(three: [(usize, Point); 3], corners: &[Point], worst: &mut [Option<PadShare>]) {
    let [a, b, c] = three;
    let on = three.map(|(pad, _)| pad);
    let turns = left_of([a.1, b.1], c.1);
    let [a, b, c] = if turns > 0.0 { [a, b, c] } else { [a, c, b] };
    // Each pad with the line through the other two, on whose left it stands.
    let levers = [(a, [b.1, c.1]), (b, [c.1, a.1]), (c, [a.1, b.1])];
    let heights = levers.map(|((_, pad), line)| left_of(line, pad));
    // Also refuses two pads in one place, whose line has no direction.
    if !heights.iter().all(|height| *height > TOUCH) {
        return;
    }
    let held = levers.iter().fold(corners.to_vec(), |kept, (_, line)| {
        keep_left(&kept, *line, TOUCH)
    });
    for cg in held {
        for (((pad, _), line), height) in levers.iter().zip(heights) {
            // The slack of the cut can pass either end by a hair.
            let cg_from_line = left_of(*line, cg).clamp(0.0, height);
            let share = Ratio::from_si(cg_from_line / height);
            if let Some(slot) = worst.get_mut(*pad)
                && slot.is_none_or(|known| share > known.share)
            {
                *slot = Some(PadShare {
                    share,
                    cg: cg.map(Length::from_si),
                    on,
                    cg_from_line: Length::from_si(cg_from_line),
                    pad_from_line: Length::from_si(height),
                });
            }
        }
    }
}

/// Why a pad has no contact pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoPressure {
    /// A side is not a finite length above zero.
    NoSize {
        /// The size as given.
        size: [Length; 2],
    },
    /// The force is not finite, or pulls.
    NoPush {
        /// The force as given.
        force: Force,
    },
}

impl fmt::Display for NoPressure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let metric = |amount| Printer::default().metric(amount, Round::Nearest);
        match self {
            Self::NoSize { size } => {
                let [along, across] = size.map(|side| metric(Amount::of(side)));
                write!(
                    f,
                    "a pad of {along} by {across} has no area to stand on; give both sides above zero"
                )
            }
            Self::NoPush { force } => write!(
                f,
                "a force of {} does not push on the pad; give it as zero or above",
                metric(Amount::of(*force))
            ),
        }
    }
}

impl core::error::Error for NoPressure {}

/// Pressure under a rectangular pad, uniform over the whole of it: `p = F / (b l)`.
///
/// `force`: all that the pad presses down with, its own weight and what lies on it included. `size`: the sides `l`
/// and `b` of the face that bears.
///
/// Holds where the force passes through the middle of the pad (a swivelling foot, or a foot set centred), where the
/// pad is stiff enough not to bend beyond what stands on it, where the whole face bears (no overhang, edge or hollow)
/// and where what is below gives evenly. Elsewhere the peak is higher, and this is no bound for it.
///
/// # Errors
/// [`NoPressure`].
pub fn contact_pressure<T: Trail>(
    force: Force,
    size: [Length; 2],
    trail: &mut T,
) -> Result<Pressure, NoPressure> {
    if !size
        .iter()
        .all(|side| side.si().is_finite() && side.si() > 0.0)
    {
        return Err(NoPressure::NoSize { size });
    }
    if !(force.si().is_finite() && force.si() >= 0.0) {
        return Err(NoPressure::NoPush { force });
    }
    let [pad_length, pad_width] = size;
    step!(
        trail,
        Basis::STATICS,
        [force, pad_length, pad_width],
        contact_pressure = force / (pad_length * pad_width)
    );
    Ok(contact_pressure)
}
