//! The worst of a rig inside its bands.

use super::family::Way;
use super::gather::{gather, sharings};
use super::inputs::checked_bands;
use super::pose::CgHeight;
use super::rig::{BandedRig, Input, Rig};
use super::search::aims;
use super::why::{Names, NoPose};
use plumbhook_units::{Force, HorizontalAngle, Length, VerticalAngle};

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

impl CornerInput {
    /// Which input at which side of its band, by these names.
    pub fn told(&self, names: &dyn Names) -> String {
        let side = match self.end {
            BandEnd::Low => "at its low side",
            BandEnd::High => "at its high side",
            BandEnd::Inside => "inside its band",
        };
        format!("{} {side}", self.input.told(names))
    }
}

/// The place inside the bands that gives a number.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// All inputs with a band of some width, the one that moves most first.
    pub inputs: Vec<CornerInput>,
    /// Where stretch is left out, the legs that pull there, for [`super::hang_by_legs`]; `None` where stiffness was counted, for
    /// [`super::hang`].
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
    pub aside: [Both<Length>; 2],
    /// The worst height of the centre of gravity against the points that pull.
    pub cg_height: CgHeight,
    /// The bodies above the load, in the order of the rig; empty for one body.
    pub others: Vec<BodyExtremes>,
    /// What hangs from each hook: the plumb part of the pulls of its legs. Empty for one body under one hook, where
    /// it is the weight.
    pub hooks: Vec<Both<Force>>,
    /// Poses that were solved to find these.
    pub poses: usize,
}

/// The least and the largest of a number.
pub type Both<T> = (Extreme<T>, Extreme<T>);

/// The extremes of a body above the load: a spreader, a lifting beam, a ring.
#[derive(Clone, Debug, PartialEq)]
pub struct BodyExtremes {
    /// Largest tilt; `None` for a ring, in whose one point legs gather.
    pub max_tilt: Option<Extreme<VerticalAngle>>,
    /// What hangs below it: the plumb part of the pulls of its lower legs.
    pub below: Both<Force>,
    /// Height of its origin above the load's.
    pub above: Both<Length>,
    /// Its origin sideways from the load's, along x and y of the axes of the hooks. The load is taken not to
    /// spin about the plumb line.
    pub beside: [Both<Length>; 2],
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
/// One body under one hook: up to 24 legs. With `W` weight, `c` centre of gravity, `L` lengths, `k` stiffnesses, each pose is solved
/// exactly (see [`super::hang`]); its derivatives in all banded inputs come from the implicit function theorem.
///
/// - The search starts in the middle, at all corners of the centre of gravity, at the corners that lean furthest in each of
///   twelve directions, and where any two or three legs are short and stiff and the rest long and soft. Up to six banded inputs all
///   corners are solved.
/// - From each it jumps to the corner that is worst to first order, and on while it gains.
/// - Where a leg can go slack, the largest tensions and the tilt stand also inside bands, at the kinks where another leg is about to
///   pull: each input is turned to its other end and marched back event by event, and the search slides along the kinks.
/// - Sharings are searched one set of legs at a time, up to the border where one of them would push.
///
/// No search proves a maximum. Against an independent global search over 50 rigs with three to eight legs the largest tensions came
/// out at most 0.03 % of the weight too low; the tests allow 0.5 %. Tilt is found to about 0.03 degrees, rise to half a
/// millimetre, sideways shift to 3 mm.
///
/// Several bodies or hooks: any arrangement with up to 60 banded inputs. The same search, over poses of all bodies at once (six
/// freedoms each, Newton's method on the energy or on legs of fixed length, started from a solved pose near by; spins about the
/// plumb line are held). Sharings are the largest sets of legs whose pulls statics alone can tell, up to 64 of them. Below a body
/// and on a hook the plumb part of the pulls is searched too.
///
/// Without stiffness the poses are those of unstretched legs. Where tilt makes much of a little stretch (centre of gravity
/// high above the points), declare the stiffness.
///
/// # Errors
/// [`NoPose`] as for [`super::hang`]; [`NoPose::InsideBands`] names the place where a pose inside the bands is missing,
/// and [`NoPose::Unsupported`] is said of more legs, inputs or sharings than that.
pub fn worst(rig: &BandedRig) -> Result<Worst, NoPose> {
    if rig.bodies.len() > 1 || rig.hooks.len() > 1 {
        return super::tiers::worst(rig);
    }
    let checked = checked_bands(rig)?;
    let aims = aims(checked.counts(), &[true]);
    let elastic = if checked.one.stiffness.is_empty() {
        None
    } else {
        Some(gather(rig, vec![checked.family(Way::Elastic)], &aims)?)
    };
    let determinate = checked.determinate();
    let families = if determinate {
        vec![checked.family(Way::Inextensible)]
    } else {
        sharings(&checked)
    };
    Ok(Worst {
        elastic,
        sharing: gather(rig, families, &aims)?,
        indeterminate: !determinate,
    })
}
