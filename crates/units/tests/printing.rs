//! How numbers read. What an engineer prints is common practice, no source; digits of US values are
//! worked from the exact pound (0.453 592 37 kg) and standard gravity.
#![allow(clippy::unwrap_used, reason = "a helper of tests fails its test")]

use plumbhook_units::{
    Amount, Band, ClaimId, Kind, Length, Lookup, Mass, Measured, Printer, Quantity, RISE, Round,
    unit,
};
use proptest::prelude::*;

const METRIC: Printer = Printer { us_beside: false };
const US: Printer = Printer { us_beside: true };

fn amount(kind: Kind, value: f64, spelling: &str) -> Amount {
    match unit(spelling) {
        Lookup::Unit(unit) => Quantity::new(value, unit).amount(kind).unwrap(),
        other => panic!("{spelling}: {other:?}"),
    }
}

fn mass(value: f64, spelling: &str) -> Amount {
    amount(Kind::Mass, value, spelling)
}

fn metric(amount: Amount, round: Round) -> String {
    METRIC.amount(amount, round)
}

#[test]
fn a_demand_rounds_up_and_a_capacity_down() {
    assert_eq!(metric(mass(14.43, "t"), Round::Up), "14.5 t");
    assert_eq!(metric(mass(14.19, "t"), Round::Down), "14.1 t");
    assert_eq!(metric(mass(34.02, "t"), Round::Up), "34.1 t");
}

#[test]
fn a_number_that_needs_no_rounding_is_printed_as_it_is() {
    assert_eq!(metric(mass(17.0, "t"), Round::Up), "17 t");
    assert_eq!(metric(mass(112.5, "t"), Round::Up), "112.5 t");
    assert_eq!(metric(mass(16.97, "t"), Round::Up), "17.0 t");
    // Through weight and back leaves dust, which is not rounded up.
    assert_eq!(metric(amount(Kind::Rating, 17.0, "t"), Round::Up), "17 t");
    assert_eq!(
        metric(amount(Kind::Rating, 14.1, "t"), Round::Down),
        "14.1 t"
    );
}

#[test]
fn sizes_choose_their_unit() {
    assert_eq!(metric(mass(450.0, "kg"), Round::Up), "450 kg");
    assert_eq!(metric(mass(999.6, "kg"), Round::Up), "1.00 t");
    assert_eq!(metric(mass(9.996, "t"), Round::Up), "10.0 t");
    assert_eq!(
        metric(amount(Kind::Length, 1.9501, "m"), Round::Nearest),
        "1.95 m"
    );
    assert_eq!(
        metric(amount(Kind::Length, 41.0, "m"), Round::Nearest),
        "41.00 m"
    );
    assert_eq!(
        metric(amount(Kind::Length, 0.135, "m"), Round::Down),
        "135 mm"
    );
    assert_eq!(
        metric(amount(Kind::Length, 1.0, "in"), Round::Nearest),
        "25.4 mm"
    );
    assert_eq!(
        metric(amount(Kind::HorizontalAngle, 79.0, "deg"), Round::Down),
        "79.0 deg"
    );
    assert_eq!(
        metric(amount(Kind::Pressure, 140.0, "kPa"), Round::Down),
        "140 kPa"
    );
    assert_eq!(
        metric(amount(Kind::Pressure, 250.0, "MPa"), Round::Down),
        "250 MPa"
    );
    assert_eq!(
        metric(amount(Kind::Force, 142.31, "kN"), Round::Up),
        "142.4 kN"
    );
    assert_eq!(
        metric(amount(Kind::Ratio, 5.0, "%"), Round::Nearest),
        "0.05"
    );
    assert_eq!(metric(amount(Kind::Slope, 1.0, "%"), Round::Nearest), "1 %");
    assert_eq!(
        metric(amount(Kind::Temperature, -5.0, "degC"), Round::Nearest),
        "-5 degC"
    );
    assert_eq!(
        metric(amount(Kind::Time, 90.0, "min"), Round::Nearest),
        "1.5 h"
    );
}

#[test]
fn the_us_unit_stands_beside_rounded_on_its_own() {
    // 14.5 t / 0.453 592 37 = 31 967.03 lb.
    assert_eq!(
        US.amount(mass(14.5, "t"), Round::Nearest),
        "14.5 t (31,967 lb)"
    );
    assert_eq!(US.amount(mass(14.5, "t"), Round::Up), "14.5 t (31,968 lb)");
    // 14.43 t is 31 812.7 lb: the pounds are not those of 14.5 t.
    assert_eq!(US.amount(mass(14.43, "t"), Round::Up), "14.5 t (31,813 lb)");
    assert_eq!(US.metric(mass(14.43, "t"), Round::Up), "14.5 t");
    // 142.31 kN / 4.448 221 615 = 31.9926 kip.
    assert_eq!(
        US.amount(amount(Kind::Force, 142.31, "kN"), Round::Up),
        "142.4 kN (32.0 kip)"
    );
    // 500 psf * 47.880 26 Pa = 23.940 kPa.
    assert_eq!(
        US.amount(amount(Kind::Pressure, 500.0, "psf"), Round::Down),
        "23.9 kPa (500 psf)"
    );
    assert_eq!(
        US.amount(amount(Kind::Length, 1.95, "m"), Round::Up),
        "1.95 m"
    );
}

#[test]
fn a_band_rounds_outward_with_the_digits_of_its_wider_side() {
    let claim = ClaimId(0);
    let tonnes = |value: f64| Mass::from_si(value * 1000.0);
    let band = Band::within(tonnes(28.98), tonnes(31.5), tonnes(34.02), claim);
    assert_eq!(METRIC.band_of(&band), "28.98 .. 34.02 t");
    // 28 980 kg is 63 889.96 lb, 34 020 kg is 75 001.26 lb.
    assert_eq!(US.band_of(&band), "28.98 .. 34.02 t, 63,889 .. 75,002 lb");
    let rough = Band::within(tonnes(28.989), None, tonnes(34.011), claim);
    assert_eq!(METRIC.band_of(&rough), "28.98 .. 34.02 t");
    assert_eq!(METRIC.band_of(&Band::exact(tonnes(17.0), claim)), "17 t");
    let small = Band::within(tonnes(0.3), None, tonnes(1.7), claim);
    assert_eq!(METRIC.band_of(&small), "0.3 .. 1.7 t");
}

#[test]
fn a_side_that_is_not_known_is_said_in_words() {
    let claim = ClaimId(0);
    let tonnes = |value: f64| Mass::from_si(value * 1000.0);
    let at_most = Band::at_most(tonnes(34.0), claim);
    assert_eq!(METRIC.band_of(&at_most), "at most 34 t, low side unknown");
    let at_least = Band::at_least(tonnes(28.98), claim);
    assert_eq!(
        US.band_of(&at_least),
        "at least 28.98 t (63,889 lb), high side unknown"
    );
    assert_eq!(METRIC.band_of(&Band::<Mass>::unknown()), "unknown");
}

#[test]
fn utilisation_rounds_up_and_tells_over_from_full() {
    assert_eq!(Printer::utilisation(1.024), "103 %");
    assert_eq!(Printer::utilisation(0.85), "85 %");
    assert_eq!(Printer::utilisation(0.9999), "100 %");
    assert_eq!(Printer::utilisation(1.0), "100 %");
    assert_eq!(Printer::utilisation(1.0 + f64::EPSILON), "101 %");
    assert_eq!(Printer::utilisation(1.03), "103 %");
    assert_eq!(Printer::utilisation(0.0), "0 %");
    assert_eq!(Printer::utilisation(-0.0), "0 %");
    assert_eq!(Printer::utilisation(f64::INFINITY), "infinite");
    assert_eq!(Printer::utilisation(f64::NAN), "not a number");
}

#[test]
fn levels_name_their_datum_and_corners_their_sign() {
    let metres = Length::from_si;
    assert_eq!(Printer::level(metres(118.95)), "EL 118.95 m");
    assert_eq!(
        Printer::level_rounded(metres(120.894), Round::Up),
        "EL 120.90 m"
    );
    assert_eq!(Printer::level(metres(-0.001)), "EL 0.00 m");
    assert_eq!(Printer::signed(Amount::of(metres(-0.06))), "-60 mm");
    assert_eq!(Printer::signed(Amount::of(metres(0.06))), "+60 mm");
    assert_eq!(Printer::signed(Amount::of(metres(0.0))), "0 mm");
    assert_eq!(
        Printer::signed(amount(Kind::Density, 0.0, "kg/m3")),
        "0 kg/m3"
    );
}

#[test]
fn a_gauge_reads_in_its_own_unit() {
    let Lookup::Unit(psi) = unit("psi") else {
        panic!("psi is a unit")
    };
    let pressure = amount(Kind::Pressure, 70.0, "MPa");
    // 70 MPa / 6 894.757 Pa = 10 152.6 psi.
    assert_eq!(
        METRIC.in_unit(pressure, psi, Round::Down).as_deref(),
        Some("10,152 psi")
    );
    assert_eq!(METRIC.in_unit(mass(1.0, "t"), psi, Round::Down), None);
}

#[test]
fn what_is_no_number_is_printed_honestly() {
    for (si, words) in [
        (f64::NAN, "not a number"),
        (f64::INFINITY, "infinite"),
        (f64::NEG_INFINITY, "minus infinite"),
    ] {
        for kind in Kind::ALL {
            assert_eq!(US.amount(Amount::new(*kind, si), Round::Up), words);
        }
    }
    let finite = mass(1.0, "t");
    let broken = Amount::new(Kind::Mass, f64::NAN);
    assert_eq!(
        US.band(Some(finite), Some(broken)),
        "1 t (2,204 lb) .. not a number"
    );
    assert_eq!(
        US.band(None, Some(broken)),
        "at most not a number, low side unknown"
    );
    assert_eq!(
        Printer::level(Length::from_si(f64::INFINITY)),
        "EL infinite"
    );
}

#[test]
fn a_quantity_is_shown_as_typed() {
    let typed = |value, spelling| match unit(spelling) {
        Lookup::Unit(unit) => Quantity::new(value, unit).to_string(),
        other => panic!("{other:?}"),
    };
    assert_eq!(typed(31.5, "t"), "31.5 t");
    assert_eq!(typed(8.0, "%"), "8 %");
    assert_eq!(
        Quantity::new(0.05, plumbhook_units::ONE).to_string(),
        "0.05"
    );
    assert_eq!(Quantity::new(1.0 / 50.0, RISE).to_string(), "1:50");
}

/// The number in front of a printed unit.
fn printed(text: &str) -> f64 {
    let number = text.split(' ').next().unwrap();
    number.replace(',', "").parse().unwrap()
}

fn any_kind() -> impl Strategy<Value = Kind> {
    prop::sample::select(Kind::ALL)
}

proptest! {
    #[test]
    fn up_never_prints_less_and_down_never_more(kind in any_kind(), exponent in -6_f64..9.0, negative: bool) {
        let si = 10_f64.powf(exponent) * if negative { -1.0 } else { 1.0 };
        let amount = Amount::new(kind, si);
        for (round, sign) in [(Round::Up, 1.0), (Round::Down, -1.0)] {
            let text = METRIC.amount(amount, round);
            let symbol = text.split(' ').nth(1).unwrap_or("");
            let shown_unit = match unit(symbol) {
                Lookup::Unit(unit) => unit,
                _ => plumbhook_units::ONE,
            };
            let exact = amount.in_unit(shown_unit).unwrap();
            let dust = 1e-9 * exact.abs().max(1.0);
            prop_assert!(sign * (printed(&text) - exact) >= -dust, "{text} of {exact}");
            prop_assert!(!text.starts_with("-0 ") && text != "-0", "{text}");
        }
    }

    #[test]
    fn a_result_is_printed_to_half_a_per_cent_or_half_a_tenth(kind in any_kind(), exponent in 0_f64..6.0) {
        let si = 10_f64.powf(exponent);
        // Angles have fixed decimals: many turns are not what they are printed for.
        prop_assume!(kind.dimension() != plumbhook_units::Dimension::ANGLE);
        let text = METRIC.amount(Amount::new(kind, si), Round::Nearest);
        let symbol = text.split(' ').nth(1).unwrap_or("");
        let shown_unit = match unit(symbol) {
            Lookup::Unit(unit) => unit,
            _ => plumbhook_units::ONE,
        };
        let exact = Amount::new(kind, si).in_unit(shown_unit).unwrap();
        prop_assert!((printed(&text) - exact).abs() <= (0.005 * exact.abs()).max(0.05) + 1e-9 * exact.abs(), "{text} of {exact}");
    }

    #[test]
    fn above_one_is_never_a_hundred_per_cent(over in 1e-16_f64..1e-2) {
        let share = 1.0 + over;
        prop_assume!(share > 1.0);
        prop_assert!(printed(&Printer::utilisation(share)) > 100.0);
    }

    #[test]
    fn a_utilisation_never_prints_less_than_it_is(share in 0.0_f64..10.0) {
        let shown = printed(&Printer::utilisation(share));
        prop_assert!(shown >= share * 100.0 - 1e-6);
        prop_assert!(shown < share * 100.0 + 1.0 + 1e-6);
    }

    #[test]
    fn a_band_never_prints_narrower(lo in 1.0_f64..1e6, width in 0.0_f64..1e6) {
        let text = METRIC.band(
            Some(Amount::new(Kind::Mass, lo)),
            Some(Amount::new(Kind::Mass, lo + width)),
        );
        let scale = if text.ends_with(" t") { 1000.0 } else { 1.0 };
        let low = printed(&text) * scale;
        let high = text.split(" .. ").nth(1).map_or(low, |high| printed(high) * scale);
        prop_assert!(low <= lo * (1.0 + 1e-9) && high >= (lo + width) * (1.0 - 1e-9), "{text}");
    }
}
