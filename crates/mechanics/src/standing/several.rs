//! What several masses together leave on pads: a machine with its load.

use super::{Given, NoShare, worst_pad_shares};
use crate::Interval;
use crate::hanging::Axis;
use plumbhook_units::{Force, Heading, Length, Mass, Measured, weight};

/// A mass and where its centre of gravity is in plan, in the frame of the pads.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighs {
    /// Its mass, zero or above.
    pub mass: Interval<Mass>,
    /// Its centre of gravity along x and y.
    pub at: [Interval<Length>; 2],
}

/// The largest reaction that each pad can get under several masses, one a pad, in the order of `pads`; a bound, not
/// lower than any that the bands allow: all of the masses at their heavy sides, with the share of
/// [`worst_pad_shares`] for the whole box in which their common centre of gravity can lie.
///
/// `pads`: centres of the pads, 3 to [`super::MOST_PADS`]. Bands that hang together (a load that swings with its boom)
/// are taken as free of each other; the caller keeps them narrow. Valid as [`worst_pad_shares`] is.
///
/// # Errors
/// [`NoShare`]; [`NoShare::Tips`] as soon as any place of that box lies outside the line around the pads.
pub fn worst_reactions(pads: &[[Length; 2]], all: &[Weighs]) -> Result<Vec<Force>, NoShare> {
    let x = common(all, |one| one.at[0]).ok_or(NoShare::NotFinite {
        given: Given::Cg(Axis::X),
    })?;
    let y = common(all, |one| one.at[1]).ok_or(NoShare::NotFinite {
        given: Given::Cg(Axis::Y),
    })?;
    let heavy: f64 = all.iter().map(|one| one.mass.hi.si()).sum();
    let whole = weight(Mass::from_si(heavy));
    let origin = [Length::from_si(0.0); 2];
    let shares = worst_pad_shares(pads, [x, y], Heading::from_si(0.0), origin)?;
    Ok(shares
        .into_iter()
        .map(|share| whole * share.share)
        .collect())
}

/// Where the common centre of gravity can lie along one axis; `None` where nothing weighs anything or a number is none.
/// It lies farthest with everything beyond it heavy and everything short of it light.
fn common(all: &[Weighs], along: impl Fn(&Weighs) -> Interval<Length>) -> Option<Interval<Length>> {
    let finite = |one: &Weighs| {
        let (mass, at) = (one.mass, along(one));
        let ordered = 0.0 <= mass.lo.si() && mass.lo <= mass.hi && at.lo <= at.hi;
        ordered && mass.hi.si().is_finite() && at.lo.si().is_finite() && at.hi.si().is_finite()
    };
    if !all.iter().all(finite) {
        return None;
    }
    let farthest = |sign: f64| {
        let mut parts: Vec<(f64, f64, f64)> = all
            .iter()
            .map(|one| {
                let at = along(one);
                let at = if sign > 0.0 { at.hi } else { at.lo };
                (sign * at.si(), one.mass.lo.si(), one.mass.hi.si())
            })
            .collect();
        parts.sort_by(|a, b| b.0.total_cmp(&a.0));
        (0..=parts.len())
            .filter_map(|heavy| {
                let weighed = parts.iter().enumerate();
                let (moment, mass) = weighed.fold((0.0, 0.0), |(moment, mass), (place, part)| {
                    let own = if place < heavy { part.2 } else { part.1 };
                    (moment + own * part.0, mass + own)
                });
                (mass > 0.0).then(|| moment / mass)
            })
            .reduce(f64::max)
            .map(|far| Length::from_si(sign * far))
    };
    // Of exact numbers the two may cross by what rounding loses.
    let (low, high) = (farthest(-1.0)?, farthest(1.0)?);
    let crossed = low > high;
    Some(Interval {
        lo: if crossed { high } else { low },
        hi: if crossed { low } else { high },
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may fail")]
    use super::*;

    fn length(value: f64) -> Length {
        Length::from_si(value)
    }

    fn band(lo: f64, hi: f64) -> Interval<Length> {
        Interval {
            lo: length(lo),
            hi: length(hi),
        }
    }

    fn weighs(mass: (f64, f64), x: (f64, f64), y: f64) -> Weighs {
        Weighs {
            mass: Interval {
                lo: Mass::from_si(mass.0),
                hi: Mass::from_si(mass.1),
            },
            at: [band(x.0, x.1), band(y, y)],
        }
    }

    const PADS: [[f64; 2]; 4] = [[3.0, 3.0], [-3.0, 3.0], [-3.0, -3.0], [3.0, -3.0]];

    fn reactions(all: &[Weighs]) -> Result<Vec<f64>, NoShare> {
        let pads = PADS.map(|pad| pad.map(length));
        let all = worst_reactions(&pads, all)?;
        Ok(all.into_iter().map(|force| force.si() / 9.806_65).collect())
    }

    /// By hand: 40 t in the middle of pads 6 m apart and 10 t at 6 m over one side make 50 t at 1.2 m ahead. That place
    /// lies inside three pads where one of those behind is left out. Moments about the side through the other two: the
    /// pad ahead that is alone on its side carries 50 t x 3.0 / 6 = 25 t, the one behind 50 t x (3.0 - 1.2) / 6 = 15 t.
    #[test]
    fn a_load_over_the_side_leaves_half_of_the_pair_and_more_on_one_pad() {
        let all = reactions(&[
            weighs((40e3, 40e3), (0.0, 0.0), 0.0),
            weighs((10e3, 10e3), (6.0, 6.0), 0.0),
        ])
        .unwrap();
        for (pad, ahead) in [(0, true), (1, false), (2, false), (3, true)] {
            let wanted = if ahead { 25e3 } else { 15e3 };
            assert!((all[pad] - wanted).abs() < 1.0, "{pad}: {all:?}");
        }
    }

    #[test]
    fn a_wider_band_is_never_less() {
        let narrow = reactions(&[
            weighs((40e3, 40e3), (0.0, 0.0), 0.0),
            weighs((9e3, 10e3), (5.9, 6.0), 0.2),
        ])
        .unwrap();
        let wide = reactions(&[
            weighs((38e3, 41e3), (-0.1, 0.1), 0.0),
            weighs((5e3, 10e3), (5.0, 6.2), 0.2),
        ])
        .unwrap();
        for (narrow, wide) in narrow.iter().zip(&wide) {
            assert!(wide >= narrow, "{narrow} {wide}");
        }
    }

    #[test]
    fn a_machine_whose_centre_may_leave_its_pads_tips() {
        // 40 t x 3 m hold 60 t at 2 m beyond the side to a hair: with 61 t it goes over.
        let holds = reactions(&[
            weighs((40e3, 40e3), (0.0, 0.0), 0.0),
            weighs((60e3, 60e3), (5.0, 5.0), 0.0),
        ]);
        assert!(holds.is_ok(), "{holds:?}");
        let tips = reactions(&[
            weighs((40e3, 40e3), (0.0, 0.0), 0.0),
            weighs((60e3, 61e3), (5.0, 5.0), 0.0),
        ]);
        assert!(matches!(tips, Err(NoShare::Tips { .. })), "{tips:?}");
    }

    /// Places and masses that are no round numbers in binary: the two ends of an exact place come out in either order.
    #[test]
    fn exact_masses_have_an_answer_whatever_rounding_does() {
        for turn in 0..200 {
            let (sin, cos) = (f64::from(turn) * 0.1).sin_cos();
            let at = |reach: f64, kilograms: f64| Weighs {
                mass: Interval::exact(Mass::from_si(kilograms)),
                at: [reach * cos, reach * sin].map(|at| Interval::exact(length(at))),
            };
            let all = [
                at(-4.0, 20e3),
                at(5.0, 12e3),
                at(9.85, 21.6e3),
                weighs((36e3, 36e3), (-0.5, -0.5), 0.0),
            ];
            assert!(reactions(&all).is_ok(), "{turn}: {:?}", reactions(&all));
        }
    }

    #[test]
    fn nothing_that_weighs_has_no_place() {
        let none = reactions(&[weighs((0.0, 0.0), (0.0, 0.0), 0.0)]);
        assert!(matches!(none, Err(NoShare::NotFinite { .. })));
    }
}
