//! Closed forms for the legs of a sling: the check on the hanging solver, and the steps a hand calculation shows.

use core::fmt;
use plumbhook_sheet::{Basis, Trail, step};
use plumbhook_units::{Force, HorizontalAngle, Length, Measured};

/// Why a closed form does not apply.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NotThisForm {
    /// An input is not a finite number above zero.
    NotPositive {
        /// Which.
        what: &'static str,
    },
    /// The angle does not lie above 0 and up to 90 degrees from the horizontal.
    Angle {
        /// As given.
        stated: HorizontalAngle,
    },
    /// There are no legs.
    NoLegs,
    /// Length, offset and height of a leg contradict each other.
    Inconsistent {
        /// The leg, counted from zero.
        leg: usize,
        /// Its length as stated.
        stated: Length,
        /// Its length by offset and height.
        by_geometry: Length,
    },
    /// The lists of lengths and offsets differ in length.
    Unequal,
}

impl fmt::Display for NotThisForm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotPositive { what } => write!(f, "{what} must be a finite number above zero"),
            Self::Angle { stated } => write!(
                f,
                "a leg at {:.1} deg from the horizontal carries nothing up; it must lie above 0 and up to 90 deg",
                stated.si().to_degrees()
            ),
            Self::NoLegs => f.write_str("there are no legs"),
            Self::Inconsistent {
                leg,
                stated,
                by_geometry,
            } => write!(
                f,
                "leg {} is stated {:.3} m long, but offset and height make it {:.3} m ({:+.0} %): \
                 give two of the three, or mend one",
                leg + 1,
                stated.si(),
                by_geometry.si(),
                (stated.si() / by_geometry.si() - 1.0) * 100.0
            ),
            Self::Unequal => f.write_str("give one length and one offset for each leg"),
        }
    }
}

impl core::error::Error for NotThisForm {}

fn sin(angle: HorizontalAngle) -> f64 {
    angle.si().sin()
}

fn positive<T: Measured>(what: &'static str, value: T) -> Result<(), NotThisForm> {
    if value.si().is_finite() && value.si() > 0.0 {
        Ok(())
    } else {
        Err(NotThisForm::NotPositive { what })
    }
}

/// Tension of a leg that carries the vertical force `vertical_share` at `horizontal_angle` from the horizontal:
/// `T = V / sin(h)`.
///
/// Valid for angles above 0 and up to 90 degrees. Printed tables of `1 / sin(h)` are cut off after three decimals, on
/// the unsafe side; this is the exact value.
///
/// # Errors
/// [`NotThisForm::NotPositive`] and [`NotThisForm::Angle`].
pub fn sling_tension<T: Trail>(
    vertical_share: Force,
    horizontal_angle: HorizontalAngle,
    trail: &mut T,
) -> Result<Force, NotThisForm> {
    positive("the vertical share", vertical_share)?;
    let a = horizontal_angle.si();
    if !(a > 0.0 && a <= core::f64::consts::FRAC_PI_2 + 1e-12) {
        return Err(NotThisForm::Angle {
            stated: horizontal_angle,
        });
    }
    step!(
        trail,
        Basis::STATICS,
        [vertical_share, horizontal_angle],
        sling_tension = vertical_share / sin(horizontal_angle)
    );
    Ok(sling_tension)
}

/// Tension of each of `legs` equal legs, evenly spread around a centre of gravity that lies plumb below the hook:
/// `T = W / (n sin(h))`.
///
/// Valid for one to three legs. Four or more equal legs of a rigid load do not share equally: that is for
/// [`crate::hanging::worst`] and the rule set's leg count.
///
/// # Errors
/// As for [`sling_tension`]; [`NotThisForm::NoLegs`].
pub fn symmetric_legs_tension<T: Trail>(
    weight: Force,
    legs: u32,
    horizontal_angle: HorizontalAngle,
    trail: &mut T,
) -> Result<Force, NotThisForm> {
    if legs == 0 {
        return Err(NotThisForm::NoLegs);
    }
    let legs = f64::from(legs);
    step!(
        trail,
        Basis::STATICS,
        [weight, legs],
        vertical_share = weight / legs
    );
    sling_tension(vertical_share, horizontal_angle, trail)
}

/// Checks that stated lengths, level offsets from the hook's plumb line and one height fit each other:
/// `S = sqrt(D^2 + H^2)` within `tolerance`.
///
/// # Errors
/// [`NotThisForm::Inconsistent`] for the leg that is furthest off; [`NotThisForm::Unequal`].
pub fn check_consistent(
    lengths: &[Length],
    offsets: &[Length],
    height: Length,
    tolerance: Length,
) -> Result<(), NotThisForm> {
    if lengths.is_empty() {
        return Err(NotThisForm::NoLegs);
    }
    if lengths.len() != offsets.len() {
        return Err(NotThisForm::Unequal);
    }
    positive("the height", height)?;
    let mut worst: Option<(f64, NotThisForm)> = None;
    for (leg, (stated, offset)) in lengths.iter().zip(offsets).enumerate() {
        positive("a length", *stated)?;
        let by_geometry = Length::from_si(offset.si().hypot(height.si()));
        let apart = (stated.si() - by_geometry.si()).abs();
        let fits = apart <= tolerance.si() + 1e-12 * by_geometry.si();
        if !fits && worst.is_none_or(|(most, _)| apart > most) {
            worst = Some((
                apart,
                NotThisForm::Inconsistent {
                    leg,
                    stated: *stated,
                    by_geometry,
                },
            ));
        }
    }
    worst.map_or(Ok(()), |(_, why)| Err(why))
}

/// The tensions of two legs of unequal length in one plane over a level load, its centre of gravity plumb below
/// the hook: `T1 = W D2 S1 / (H (D1 + D2))`, `T2 = W D1 S2 / (H (D1 + D2))`, with level offsets `D` from the plumb
/// line, leg lengths `S` and height `H` of the hook above the points.
///
/// # Errors
/// [`NotThisForm::Inconsistent`] where the lengths do not fit offsets and height within `tolerance`; else as for
/// [`check_consistent`].
pub fn two_leg_tensions<T: Trail>(
    weight: Force,
    offsets: [Length; 2],
    lengths: [Length; 2],
    height: Length,
    tolerance: Length,
    trail: &mut T,
) -> Result<[Force; 2], NotThisForm> {
    positive("the weight", weight)?;
    for offset in offsets {
        positive("an offset", offset)?;
    }
    check_consistent(&lengths, &offsets, height, tolerance)?;
    Ok(two_leg_formula(weight, offsets, lengths, height, trail))
}

/// The bare arithmetic. It gives numbers for contradictory inputs too, so it is not public.
fn two_leg_formula<T: Trail>(
    weight: Force,
    [offset_1, offset_2]: [Length; 2],
    [length_1, length_2]: [Length; 2],
    height: Length,
    trail: &mut T,
) -> [Force; 2] {
    step!(
        trail,
        Basis::STATICS,
        [weight, offset_1, offset_2, length_1, height],
        tension_1 = weight * offset_2 * length_1 / (height * (offset_1 + offset_2))
    );
    step!(
        trail,
        Basis::STATICS,
        [weight, offset_1, offset_2, length_2, height],
        tension_2 = weight * offset_1 * length_2 / (height * (offset_1 + offset_2))
    );
    [tension_1, tension_2]
}

#[cfg(test)]
mod tests {
    use super::*;
    use plumbhook_sheet::Silent;

    /// lbf in newtons, exact by the 1959 pound and standard gravity.
    const LBF: f64 = 4.448_221_615_260_5;
    const FT: f64 = 0.3048;

    // Rigging course page, US maritime simulation centre, worked example: 4444.44 and 3111.11 lbf. Its lengths
    // (4 and 14 ft) do not fit its offsets (2 and 10 ft) and height (3 ft), so only the bare arithmetic meets
    // these numbers; the public function refuses the inputs.
    #[test]
    fn the_bare_arithmetic_meets_the_printed_example_and_the_public_form_refuses_it() {
        let feet = |v: f64| Length::from_si(v * FT);
        let weight = Force::from_si(4000.0 * LBF);
        let offsets = [feet(2.0), feet(10.0)];
        let lengths = [feet(4.0), feet(14.0)];
        let [a, b] = two_leg_formula(weight, offsets, lengths, feet(3.0), &mut Silent);
        assert!((a.si() / LBF - 4444.44).abs() < 0.01);
        assert!((b.si() / LBF - 3111.11).abs() < 0.01);
        let tolerance = feet(0.1);
        let refused = two_leg_tensions(weight, offsets, lengths, feet(3.0), tolerance, &mut Silent);
        let Err(NotThisForm::Inconsistent { leg: 1, .. }) = refused else {
            panic!("{refused:?}");
        };
    }
}
