//! Weighing against published numbers, statics done forwards, and a search over all inputs.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test may fail")]

use plumbhook_mechanics::Interval;
use plumbhook_mechanics::weighing::{
    CellReading, NoWeighing, balance_point, height_by_tilting, weigh,
};
use plumbhook_sheet::Silent;
use plumbhook_units::{Length, Mass, Measured, Slope};
use proptest::prelude::*;

fn around<T: Measured>(value: f64, by: f64) -> Interval<T> {
    Interval {
        lo: T::from_si(value - by),
        hi: T::from_si(value + by),
    }
}

fn cell(x: f64, y: f64, reading: f64, accuracy: f64) -> CellReading {
    CellReading {
        at: [around(x, 0.002), around(y, 0.002)],
        reading: around(reading, accuracy),
    }
}

const FT: f64 = 0.3048;
const LB: f64 = 0.453_592_37;

/// Rigging-mathematics primer lesson 7, example: 150 and 100 lb on a bar of 10 ft balance 4 ft from the heavy one.
#[test]
fn two_loads_on_a_bar_balance_where_the_primer_says() {
    let pounds = |lb: f64| Mass::from_si(lb * LB);
    let span = Length::from_si(10.0 * FT);
    let from = balance_point(pounds(150.0), pounds(100.0), span, &mut Silent).unwrap();
    assert!((from.si() / FT - 4.0).abs() < 1e-9);
    assert!(((span - from).si() / FT - 6.0).abs() < 1e-9);
    let cells = [
        CellReading {
            at: [around(0.0, 0.0), around(0.0, 0.0)],
            reading: around(150.0 * LB, 0.0),
        },
        CellReading {
            at: [around(10.0 * FT, 0.0), around(0.0, 0.0)],
            reading: around(100.0 * LB, 0.0),
        },
    ];
    let weighed = weigh(&cells).unwrap();
    assert!((weighed.middle_cg[0].si() / FT - 4.0).abs() < 1e-9);
    assert!((weighed.cg[0].hi - weighed.cg[0].lo).si() < 1e-9);
}

/// A load that rocks on four cells: statics leaves one number free, and the sum and its moments do not depend on it.
#[test]
fn four_cells_weigh_the_same_however_they_share() {
    // 10 t at (0.3, -0.2) on a square of 4 m: the level share of each corner, plus and minus along the diagonals.
    let shares = |rock: f64| {
        [(2.0, 2.0), (-2.0, 2.0), (-2.0, -2.0), (2.0, -2.0)]
            .into_iter()
            .enumerate()
            .map(|(index, (x, y))| {
                let level =
                    2500.0 * (1.0 + 0.3 / 2.0 * f64::signum(x)) * (1.0 - 0.1 * f64::signum(y));
                let sign = if index % 2 == 0 { 1.0 } else { -1.0 };
                cell(x, y, level + sign * rock, 0.0)
            })
            .collect::<Vec<_>>()
    };
    for rock in [0.0, 900.0, -1500.0] {
        let found = weigh(&shares(rock)).unwrap();
        assert!((found.middle_mass.si() - 10_000.0).abs() < 1e-6);
        assert!((found.middle_cg[0].si() - 0.3).abs() < 1e-9);
        assert!((found.middle_cg[1].si() + 0.2).abs() < 1e-9);
    }
}

/// Forwards by statics: the load turned by `t` about y, moments about the low support in the tilted state.
#[test]
fn the_height_that_was_put_in_comes_out_of_two_weighings() {
    let (mass, span, x, height) = (8000.0, 3.0, 1.2, 0.9);
    let tilt = 0.1_f64;
    let level = mass * x / span;
    let tilted = mass * (x * tilt.cos() - height * tilt.sin()) / (span * tilt.cos());
    let by = |raised: f64| {
        let cells = [
            cell(0.0, 0.0, mass - raised, mass * 1e-4),
            cell(span, 0.0, raised, mass * 1e-4),
        ];
        weigh(&cells).unwrap().cg[0]
    };
    let slope = around::<Slope>(tilt.tan(), 0.001);
    let found = height_by_tilting(by(level), by(tilted), slope).unwrap();
    assert!(
        found.lo.si() < height && height < found.hi.si(),
        "{found:?}"
    );
    assert!(
        (found.lo + found.hi).si() / 2.0 - height < 0.02,
        "{found:?}"
    );
    let level_both = height_by_tilting(by(level), by(tilted), around::<Slope>(0.0, 0.001));
    assert_eq!(level_both, Err(NoWeighing::Level));
}

#[test]
fn what_cannot_be_weighed_is_refused() {
    assert_eq!(weigh(&[cell(0.0, 0.0, 1.0, 0.0)]), Err(NoWeighing::TooFew));
    let hung = [cell(0.0, 0.0, -5.0, 1.0), cell(1.0, 0.0, 100.0, 1.0)];
    assert_eq!(weigh(&hung), Err(NoWeighing::Negative { cell: 0 }));
    let nothing = [cell(0.0, 0.0, 1.0, 2.0), cell(1.0, 0.0, 1.0, 2.0)];
    assert_eq!(weigh(&nothing), Err(NoWeighing::Nothing));
    let bad = [cell(f64::NAN, 0.0, 1.0, 0.0), cell(1.0, 0.0, 1.0, 0.0)];
    assert_eq!(weigh(&bad), Err(NoWeighing::NotFinite { cell: 0 }));
}

proptest! {
    /// The ends lie at corners of the readings with every place at its end: all of them are tried.
    #[test]
    fn the_band_of_a_weighing_is_the_exact_one(
        places in prop::array::uniform4(-3.0..3.0_f64),
        readings in prop::array::uniform4(500.0..5000.0_f64),
        off in 1.0..200.0_f64,
    ) {
        let cells: Vec<_> = places.iter().zip(readings).map(|(x, r)| cell(*x, 0.0, r, off)).collect();
        let found = weigh(&cells).unwrap();
        let corner = |bits: u32, by: f64| {
            let reading = |i: usize| readings[i] + if bits >> i & 1 == 1 { off } else { -off };
            let sum: f64 = (0..4).map(reading).sum();
            (0..4).map(|i| reading(i) * (places[i] + by)).sum::<f64>() / sum
        };
        let most = (0..16).map(|bits| corner(bits, 0.002)).fold(f64::NEG_INFINITY, f64::max);
        let least = (0..16).map(|bits| corner(bits, -0.002)).fold(f64::INFINITY, f64::min);
        prop_assert!((found.cg[0].hi.si() - most).abs() < 1e-8);
        prop_assert!((found.cg[0].lo.si() - least).abs() < 1e-8);
    }
}
