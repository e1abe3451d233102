//! What would mend a pose, in numbers: searched on the pose that governs, then proved on the whole rig.

use plumbhook_mechanics::hanging::{
    BandedRig, Corner, Interval, Pose, Rig, Worst, hang, hang_by_legs, worst,
};
use plumbhook_model::Hanging;
use plumbhook_units::{Amount, Length, Measured, Printer, Round};

/// The least change between nothing and `most` with which something passes, to a millionth of `most`; `None`
/// where not even `most` does.
pub(super) fn least_change(most: f64, passes: impl Fn(f64) -> bool) -> Option<f64> {
    if !passes(most) {
        return None;
    }
    let (mut fails, mut passing) = (0.0, most);
    for _ in 0..20 {
        let middle = f64::midpoint(fails, passing);
        if passes(middle) {
            passing = middle;
        } else {
            fails = middle;
        }
    }
    Some(passing)
}

/// The pose at a corner with every leg longer by so much.
pub(super) fn pose_with_longer_legs(
    hanging: &Hanging,
    corner: &Corner,
    extra: Length,
) -> Option<Pose> {
    let mut rig: Rig = hanging.rig()?.at(corner);
    for leg in &mut rig.legs {
        leg.length += extra;
    }
    match &corner.pulling {
        Some(pulling) => hang_by_legs(&rig, pulling).ok(),
        None => hang(&rig).ok(),
    }
}

/// The worst with every leg longer by so much, its tolerance kept.
pub(super) fn worst_with_longer_legs(hanging: &Hanging, extra: Length) -> Option<Worst> {
    let mut rig: BandedRig = hanging.rig()?.clone();
    for leg in &mut rig.legs {
        leg.length = Interval {
            lo: leg.length.lo + extra,
            hi: leg.length.hi + extra,
        };
    }
    worst(&rig).ok()
}

/// Lengthens every leg by whole centimetres from `from` on (shortens where it is below zero) until the whole
/// rig passes; a few steps, since `from` passes at the corner that governs.
pub(super) fn proved_by_steps(
    hanging: &Hanging,
    from: f64,
    passes: impl Fn(&Worst) -> bool,
) -> Option<Length> {
    let outward = from.signum();
    let start = (from.abs() * 100.0).ceil();
    (0..4)
        .map(|step| Length::from_si(outward * (start + f64::from(step)) / 100.0))
        .find(|extra| worst_with_longer_legs(hanging, *extra).is_some_and(|worst| passes(&worst)))
}

/// "legs made up to 4.39 m or shorter"; where the legs are not alike, "every leg 1.90 m shorter".
pub(super) fn legs_made_up(hanging: &Hanging, printer: Printer, extra: Length) -> String {
    let (than, round) = if extra.si() < 0.0 {
        ("shorter", Round::Down)
    } else {
        ("longer", Round::Up)
    };
    let lengths: Vec<_> = hanging.legs.iter().map(|leg| leg.length.both()).collect();
    let alike = lengths.windows(2).all(|pair| pair.first() == pair.last());
    match lengths.first().copied().flatten().filter(|_| alike) {
        Some((lo, hi)) => {
            let made_up = (lo + hi) / 2.0 + extra;
            format!(
                "legs made up to {} or {than} would pass",
                printer.amount(Amount::of(made_up), round)
            )
        }
        None => format!(
            "every leg {} {than} would pass",
            printer.amount(Amount::of(extra.abs()), Round::Up)
        ),
    }
}
