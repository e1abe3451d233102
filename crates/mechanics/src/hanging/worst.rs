//! The worst of a rig inside its bands.

use super::family::{Family, LARGEST_STRETCH, Way, subsets};
use super::inputs::{Checked, checked_bands, explain};
use super::numbers::Fault;
use super::outcome::{Param, Point, Said};
use super::pose::CgHeight;
use super::rig::{Axis, BandedRig, Input, Rig};
use super::search::{Aim, Found, aims, search};
use super::why::NoPose;
use core::fmt;
use plumbhook_units::{Force, HorizontalAngle, Length, Measured, STANDARD_GRAVITY, VerticalAngle};

/// Where in its band an input stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BandEnd {
    /// Low side.
    Low,
    /// High side.
    High,
    /// Somewhere between, where a number has its top inside the band.
    Inside,
}

/// One input at the place that governs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornerInput {
    /// Which.
    pub input: Input,
    /// Where in its band.
    pub end: BandEnd,
    /// Its value there, in SI units (kg, m, N/m).
    pub value: f64,
    /// What it moves: change of the number over this input's whole band, to first order, as a share of the
    /// number. Inputs stand in the order of it, so that a message names the first few.
    pub effect: f64,
}

impl fmt::Display for CornerInput {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.end {
            BandEnd::Low => write!(f, "{} at its low side", self.input),
            BandEnd::High => write!(f, "{} at its high side", self.input),
            BandEnd::Inside => write!(f, "{} inside its band", self.input),
        }
    }
}

/// The place inside the bands that gives a number.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// All inputs with a band of some width, the one that moves most first.
    pub inputs: Vec<CornerInput>,
    /// Under a chosen sharing, the legs that pull; `None` where all pull that want to.
    pub pulling: Option<Vec<usize>>,
}

/// A number with the place that gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct Extreme<T> {
    /// The number.
    pub value: T,
    /// Where it is so.
    pub corner: Corner,
}

/// The extremes of one leg.
#[derive(Clone, Debug, PartialEq)]
pub struct LegExtremes {
    /// Largest tension.
    pub max_tension: Extreme<Force>,
    /// Least tension; zero means that it may hang slack.
    pub min_tension: Extreme<Force>,
    /// Flattest angle while it pulls; `None` if it never does.
    pub min_horizontal_angle: Option<Extreme<HorizontalAngle>>,
}

/// The extremes of a rig in one way of counting.
#[derive(Clone, Debug, PartialEq)]
pub struct Extremes {
    /// Each leg, in the order of the rig.
    pub legs: Vec<LegExtremes>,
    /// Largest tilt.
    pub max_tilt: Extreme<VerticalAngle>,
    /// Highest rise of the hook above the body's origin.
    pub max_rise: Extreme<Length>,
    /// Lowest rise of the hook above the body's origin.
    pub min_rise: Extreme<Length>,
    /// The body's origin sideways from the hook along x and y of the hooks' axes, least and largest. The body is
    /// taken not to spin about the plumb line.
    pub aside: [(Extreme<Length>, Extreme<Length>); 2],
    /// The worst height of the centre of gravity against the points that pull.
    pub cg_height: CgHeight,
    /// Poses that were solved to find these.
    pub poses: usize,
}

/// The worst of a rig inside its bands.
///
/// Largest tensions: the caller takes the larger of the two.
#[derive(Clone, Debug, PartialEq)]
pub struct Worst {
    /// With each leg's declared stiffness; `None` if a leg has none.
    pub elastic: Option<Extremes>,
    /// Without stiffness. If the legs are [`Worst::indeterminate`], the worst over all sharings in equilibrium in
    /// which one, two or three legs pull and none pushes; else the one sharing there is.
    pub sharing: Extremes,
    /// Whether statics alone cannot tell the legs' shares.
    pub indeterminate: bool,
}

impl BandedRig {
    /// The definite rig at a place inside the bands. Inputs that the place does not name stand at their high side.
    pub fn at(&self, corner: &Corner) -> Rig {
        self.definite(|input, _, hi| {
            let named = corner.inputs.iter().find(|c| c.input == input);
            named.map_or(hi, |c| c.value)
        })
    }
}

/// The extremes of all that a lift is judged by, over all values inside the bands: tension and angle of each leg,
/// tilt, rise of the hook, sideways shift.
///
/// One body under one hook. With `W` weight, `c` centre of gravity, `L` lengths, `k` stiffnesses, each pose is solved
/// exactly (see [`super::hang`]) together with its derivatives in all banded inputs (implicit function theorem).
/// The search starts in the middle and at all corners of the centre of gravity, jumps to the corner that is worst
/// to first order, repeats while it gains, then tries single inputs at their other end and inside their
/// band. Up to six banded inputs all corners are solved. Sharings are searched one by one.
///
/// # Errors
/// [`NoPose`] as for [`super::hang`]; [`NoPose::InsideBands`] names the place where a pose inside the bands is missing,
/// and [`NoPose::Unsupported`] is said of more than one body or hook.
pub fn worst(rig: &BandedRig) -> Result<Worst, NoPose> {
    let checked = checked_bands(rig)?;
    let aims = aims(checked.one.legs());
    let elastic = if checked.one.stiffness.is_empty() {
        None
    } else {
        let families = [checked.family(Way::Elastic)];
        Some(gather(rig, &checked, &families, &aims)?)
    };
    let determinate = checked.determinate();
    let families = if determinate {
        vec![checked.family(Way::Inextensible)]
    } else {
        sharings(&checked)
    };
    Ok(Worst {
        elastic,
        sharing: gather(rig, &checked, &families, &aims)?,
        indeterminate: !determinate,
    })
}

/// Every set of legs that may carry alone.
///
/// Sets of three come first. They are admitted although another leg is a little short ([`LARGEST_STRETCH`]): without a
/// declared stiffness nobody knows how far that one gives. Smaller sets are admitted so only where no larger one stands
/// (all legs in one plane, or from one point); else only where the other legs really hang slack.
fn sharings(checked: &Checked) -> Vec<Family> {
    let mut families: Vec<Family> = Vec::new();
    let sets = subsets(checked.one.legs());
    for size in [3, 2, 1] {
        let stretch = if families.iter().any(stands_somewhere) {
            0.0
        } else {
            LARGEST_STRETCH
        };
        let of_size = sets.iter().filter(|legs| legs.len() == size);
        let next: Vec<Family> = of_size
            .map(|legs| {
                let legs = legs.clone();
                checked.family(Way::Chosen { legs, stretch })
            })
            .collect();
        families.extend(next);
    }
    families
}

fn stands_somewhere(family: &Family) -> bool {
    family.stands(&family.middle()).is_ok()
        || (0..8).any(|pattern| family.stands(&family.cg_corner(pattern)).is_ok())
}

/// Searches each family and takes for each aim the best of all.
fn gather(
    rig: &BandedRig,
    checked: &Checked,
    families: &[Family],
    aims: &[Aim],
) -> Result<Extremes, NoPose> {
    let mut found: Vec<(&Family, Found)> = Vec::new();
    let mut fault = None;
    for family in families {
        match search(family, aims) {
            Ok(answer) => found.push((family, answer)),
            Err((why, at)) => {
                fault = Some(inside(rig, family, &at, &why));
                if family.must_stand() {
                    break;
                }
            }
        }
    }
    if let Some(fault) = fault.filter(|_| families.iter().any(Family::must_stand)) {
        return Err(fault);
    }
    every_corner_hangs(rig, families)?;
    let picked = Picked {
        found: &found,
        aims,
        legs: checked.one.legs(),
    };
    picked.extremes().ok_or(NoPose::CannotMeet)
}

/// Sharings come and go inside the bands; at each corner of the centre of gravity at least one must be there.
fn every_corner_hangs(rig: &BandedRig, families: &[Family]) -> Result<(), NoPose> {
    if families.iter().any(Family::must_stand) {
        return Ok(());
    }
    for pattern in 0..8_u32 {
        let mut first: Option<(Fault, usize, Vec<f64>)> = None;
        let stands = families.iter().enumerate().any(|(number, family)| {
            let at = family.cg_corner(pattern);
            match family.stands(&at) {
                Ok(()) => true,
                Err(fault) => {
                    first.get_or_insert((fault, number, at));
                    false
                }
            }
        });
        if let (false, Some((fault, number, at))) = (stands, first)
            && let Some(family) = families.get(number)
        {
            return Err(inside(rig, family, &at, &fault));
        }
    }
    Ok(())
}

/// A fault at a place, in public words.
fn inside(rig: &BandedRig, family: &Family, at: &[f64], fault: &Fault) -> NoPose {
    let inputs = places(family, at, &[], 1.0);
    let corner = Corner {
        inputs: inputs.clone(),
        pulling: None,
    };
    let why = explain(&rig.at(&corner), fault);
    if inputs.is_empty() {
        why
    } else {
        NoPose::InsideBands {
            at: inputs,
            why: Box::new(why),
        }
    }
}

/// The inputs at a place, the one that moves the number most first.
fn places(family: &Family, at: &[f64], slopes: &[f64], value: f64) -> Vec<CornerInput> {
    let ends = family.lo.iter().zip(&family.hi);
    let mut inputs: Vec<CornerInput> = family
        .params
        .iter()
        .zip(at)
        .zip(ends)
        .enumerate()
        .map(|(j, ((param, at), (lo, hi)))| {
            let gravity = STANDARD_GRAVITY.si();
            let (input, scale) = match *param {
                Param::Weight => (Input::Mass { body: 0 }, gravity),
                Param::Cg(i) => {
                    let axis = Axis::ALL.get(i).copied().unwrap_or(Axis::Z);
                    (Input::Cg { body: 0, axis }, 1.0)
                }
                Param::Length(leg) => (Input::Length { leg }, 1.0),
                Param::Stiffness(leg) => (Input::Stiffness { leg }, 1.0),
            };
            let end = if at <= lo {
                BandEnd::Low
            } else if at >= hi {
                BandEnd::High
            } else {
                BandEnd::Inside
            };
            let change = slopes.get(j).map_or(0.0, |s| (s * (hi - lo)).abs());
            CornerInput {
                input,
                end,
                value: at / scale,
                effect: if value.abs() > 0.0 {
                    change / value.abs()
                } else {
                    0.0
                },
            }
        })
        .collect();
    inputs.sort_by(|a, b| b.effect.total_cmp(&a.effect));
    inputs
}

/// The best of all families.
struct Picked<'a> {
    found: &'a [(&'a Family, Found)],
    aims: &'a [Aim],
    legs: usize,
}

impl Picked<'_> {
    fn best(&self, said: Said, largest: bool) -> Option<(&Family, &Point)> {
        let wanted = self
            .aims
            .iter()
            .position(|a| a.said == said && a.largest == largest)?;
        let place = said.place(self.legs);
        let mut best: Option<(f64, &Family, &Point)> = None;
        for (family, found) in self.found {
            let Some(point) = found
                .best
                .get(wanted)
                .copied()
                .flatten()
                .and_then(|i| found.points.get(i))
            else {
                continue;
            };
            let Some(value) = point.values.get(place).copied() else {
                continue;
            };
            let gain = if largest { value } else { -value };
            if best.is_none_or(|(least, ..)| gain > least) {
                best = Some((gain, family, point));
            }
        }
        best.map(|(_, family, point)| (family, point))
    }

    fn extreme<T: Measured>(&self, said: Said, largest: bool) -> Option<Extreme<T>> {
        let (family, point) = self.best(said, largest)?;
        let place = said.place(self.legs);
        let value = *point.values.get(place)?;
        Some(Extreme {
            value: T::from_si(value),
            corner: Corner {
                inputs: places(family, &point.at, point.slopes_of(place), value),
                pulling: family.pulling(),
            },
        })
    }

    fn leg(&self, leg: usize) -> Option<LegExtremes> {
        Some(LegExtremes {
            max_tension: self.extreme(Said::Tension(leg), true)?,
            min_tension: self.extreme(Said::Tension(leg), false)?,
            min_horizontal_angle: self.extreme(Said::Angle(leg), false),
        })
    }

    fn extremes(&self) -> Option<Extremes> {
        let aside = |axis| -> Option<(Extreme<Length>, Extreme<Length>)> {
            Some((
                self.extreme(Said::Aside(axis), false)?,
                self.extreme(Said::Aside(axis), true)?,
            ))
        };
        let points = self.found.iter().flat_map(|(_, f)| &f.points);
        Some(Extremes {
            legs: (0..self.legs)
                .map(|leg| self.leg(leg))
                .collect::<Option<_>>()?,
            max_tilt: self.extreme(Said::Tilt, true)?,
            max_rise: self.extreme(Said::Rise, true)?,
            min_rise: self.extreme(Said::Rise, false)?,
            aside: [aside(0)?, aside(1)?],
            cg_height: points.map(|p| p.cg_height).max()?,
            poses: self.found.iter().map(|(_, f)| f.points.len()).sum(),
        })
    }
}
