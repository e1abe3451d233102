//! Where the centre of gravity of several things together may lie.

use crate::Interval;
use plumbhook_units::{Length, Mass, Measured};

/// The exact range of `x = sum(m_i x_i) / sum(m_i)` along one axis, each mass `m_i` and each place `x_i` free inside its
/// own band.
///
/// The places stand at their high ends for the high end of the sum, at their low ends for the low one. With the places
/// fixed the sum is a weighted mean, whose extreme has every thing beyond some place at its heaviest and every other at
/// its lightest (a linear fractional function is extreme in a corner, and the corners that can be extreme are in the
/// order of the places): each such place is tried.
///
/// Masses in kg, not negative, with at least one above zero; places in m, in one frame. `None` where nothing weighs
/// anything or a number is not finite.
pub fn centre_together(things: &[(Interval<Mass>, Interval<Length>)]) -> Option<Interval<Length>> {
    let high = |sign: f64| -> Option<f64> {
        let mut of: Vec<(f64, f64, f64)> = things
            .iter()
            .map(|(mass, place)| {
                let end = if sign > 0.0 { place.hi } else { place.lo };
                (sign * end.si(), mass.lo.si().max(0.0), mass.hi.si())
            })
            .collect();
        if of
            .iter()
            .any(|(x, lo, hi)| !(x.is_finite() && lo.is_finite() && hi.is_finite()))
        {
            return None;
        }
        of.sort_by(|a, b| b.0.total_cmp(&a.0));
        let mean = |heavy: usize| {
            let (mut moment, mut mass) = (0.0, 0.0);
            for (index, (x, lo, hi)) in of.iter().enumerate() {
                let m = if index < heavy { *hi } else { *lo };
                moment += m * x;
                mass += m;
            }
            (mass > 0.0).then(|| moment / mass)
        };
        let means = (0..=of.len()).filter_map(mean);
        means.reduce(f64::max).map(|most| sign * most)
    };
    Some(Interval {
        lo: Length::from_si(high(-1.0)?),
        hi: Length::from_si(high(1.0)?),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thing(mass: [f64; 2], place: [f64; 2]) -> (Interval<Mass>, Interval<Length>) {
        let [a, b] = mass;
        let [x, y] = place;
        (
            Interval {
                lo: Mass::from_si(a),
                hi: Mass::from_si(b),
            },
            Interval {
                lo: Length::from_si(x),
                hi: Length::from_si(y),
            },
        )
    }

    fn found(things: &[(Interval<Mass>, Interval<Length>)]) -> Interval<Length> {
        centre_together(things).unwrap_or_else(|| panic!("{things:?}"))
    }

    /// Rigging-mathematics primer lesson 7, example: 150 and 100 lb at the ends of a bar of 10 ft, its own weight left out.
    #[test]
    fn a_bar_with_two_loads_is_picked_where_the_primer_says() {
        let (pound, foot) = (0.453_592_37, 0.3048);
        let at = |mass: f64, place: f64| thing([mass * pound; 2], [place * foot; 2]);
        let found = found(&[at(150.0, 0.0), at(100.0, 10.0)]);
        for end in [found.lo, found.hi] {
            assert!((end.si() / foot - 4.0).abs() < 1e-9, "{end:?}");
        }
    }

    #[test]
    fn one_thing_is_where_it_is() {
        let alone = found(&[thing([5.0, 9.0], [-0.1, 0.2])]);
        assert!((alone.lo.si() + 0.1).abs() < 1e-12 && (alone.hi.si() - 0.2).abs() < 1e-12);
    }

    #[test]
    fn water_that_may_be_there_draws_the_middle_to_its_side() {
        // Two masses on a bar balance where their moments are equal (the lever, Archimedes): 300 kg at 1 m beside
        // 900 kg at 0 is at 0.25 m; without water it is at 0.
        let both = found(&[
            thing([900.0, 1000.0], [0.0, 0.0]),
            thing([0.0, 300.0], [1.0, 1.0]),
        ]);
        assert!(both.lo.si().abs() < 1e-12, "{both:?}");
        assert!((both.hi.si() - 0.25).abs() < 1e-12, "{both:?}");
    }

    #[test]
    fn no_corner_of_the_bands_lies_outside_and_the_ends_are_met() {
        // Second method: every corner of masses and places tried one by one.
        let things = [
            thing([10.0, 14.0], [-0.2, 0.1]),
            thing([0.0, 3.0], [-1.0, 1.5]),
            thing([1.0, 6.0], [0.4, 0.6]),
            thing([2.0, 2.0], [-0.7, -0.6]),
        ];
        let found = found(&things);
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        for corner in 0..256_u32 {
            let (mut moment, mut mass) = (0.0, 0.0);
            for (index, (m, x)) in things.iter().enumerate() {
                let m = if corner >> (2 * index) & 1 == 0 {
                    m.lo
                } else {
                    m.hi
                };
                let x = if corner >> (2 * index + 1) & 1 == 0 {
                    x.lo
                } else {
                    x.hi
                };
                moment += m.si() * x.si();
                mass += m.si();
            }
            least = least.min(moment / mass);
            most = most.max(moment / mass);
        }
        assert!((found.lo.si() - least).abs() < 1e-12, "{found:?} {least}");
        assert!((found.hi.si() - most).abs() < 1e-12, "{found:?} {most}");
    }

    #[test]
    fn nothing_that_weighs_is_nowhere() {
        assert!(centre_together(&[thing([0.0, 0.0], [0.0, 1.0])]).is_none());
        assert!(centre_together(&[]).is_none());
    }
}
