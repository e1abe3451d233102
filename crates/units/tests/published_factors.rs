//! The unit table against published conversion factors.

use plumbhook_units::{Factor, Lookup, UNITS, Unit, unit};

fn found(spelling: &str) -> &'static Unit {
    match unit(spelling) {
        Lookup::Unit(unit) => unit,
        other => panic!("{spelling}: {other:?}"),
    }
}

/// Source: NIST Special Publication 811 (2008), Appendix B.8, factors to seven digits as printed
/// there; written down from memory of that table. The uom crate 0.38 carries a copy of it, whose
/// digits agree for the units that it takes from there.
const SP_811: &[(&str, &str)] = &[
    ("lb", "4.535924e-1"),
    ("short_ton", "9.071847e2"),
    ("long_ton", "1.016047e3"),
    ("short_cwt", "4.535924e1"),
    ("long_cwt", "5.080235e1"),
    ("lbf", "4.448222e0"),
    ("kip", "4.448222e3"),
    ("kgf", "9.806650e0"),
    ("short_tonf", "8.896443e3"),
    ("in", "2.540000e-2"),
    ("ft", "3.048000e-1"),
    ("yd", "9.144000e-1"),
    ("mi", "1.609344e3"),
    ("deg", "1.745329e-2"),
    ("bar", "1.000000e5"),
    ("psf", "4.788026e1"),
    ("psi", "6.894757e3"),
    ("ksi", "6.894757e6"),
    ("kg/m2", "9.806650e0"),
    ("kg/cm2", "9.806650e4"),
    ("pcf", "1.601846e1"),
    ("lb/in3", "2.767990e4"),
    ("lb/ft", "1.488164e0"),
    ("lb/yd", "4.960546e-1"),
    ("plf", "1.459390e1"),
    ("lbf/in", "1.751268e2"),
    ("lbf*ft", "1.355818e0"),
    ("lbf*in", "1.129848e-1"),
    ("oz_av", "2.834952e-2"),
    ("us_fl_oz", "2.957353e-5"),
    ("kgf/m", "9.806650e0"),
    ("ft2", "9.290304e-2"),
    ("in2", "6.451600e-4"),
    ("ft3", "2.831685e-2"),
    ("in3", "1.638706e-5"),
    ("yd3", "7.645549e-1"),
    ("in4", "4.162314e-7"),
    ("ft4", "8.630975e-3"),
    ("us_gal", "3.785412e-3"),
    ("imp_gal", "4.546090e-3"),
    ("us_gal/min", "6.309020e-5"),
    ("mph", "4.470400e-1"),
    ("km/h", "2.777778e-1"),
    ("ft/s", "3.048000e-1"),
    ("ft/min", "5.080000e-3"),
    ("knot", "5.144444e-1"),
    ("ft/s2", "3.048000e-1"),
    ("gn", "9.806650e0"),
    ("d", "8.640000e4"),
];

#[test]
fn factors_print_as_the_published_table_prints_them() {
    for (spelling, digits) in SP_811 {
        let si_of_one = found(spelling).to_si(1.0);
        assert_eq!(format!("{si_of_one:.6e}"), *digits, "{spelling}");
    }
}

#[test]
fn exact_definitions_are_exact() {
    // Sources: the international yard and pound agreement of 1959 (yard, pound); NIST Handbook 44,
    // Appendix C (short and long ton, US gallon of 231 cubic inches); Weights and Measures Act 1985
    // (imperial gallon); 3rd CGPM 1901 (standard gravity), which gives the pound-force of
    // 4.448 221 615 260 5 N in NIST SP 811, Appendix B.8.
    let exact = [
        ("yd", Factor::new(9_144, 10_000)),
        ("lb", Factor::new(45_359_237, 100_000_000)),
        ("short_ton", Factor::new(90_718_474, 100_000)),
        ("long_ton", Factor::new(10_160_469_088, 10_000_000)),
        ("us_gal", Factor::new(3_785_411_784, 1_000_000_000_000)),
        ("imp_gal", Factor::new(454_609, 100_000_000)),
        ("lbf", Factor::new(44_482_216_152_605, 10_000_000_000_000)),
        ("kip", Factor::new(44_482_216_152_605, 10_000_000_000)),
        ("gn", Factor::new(980_665, 100_000)),
        ("deg", Factor::new(1, 180).pi()),
    ];
    for (spelling, factor) in exact {
        assert_eq!(found(spelling).factor, factor, "{spelling}");
    }
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the way back shows whether anything was lost"
)]
fn survives_a_double(whole: u128) -> bool {
    whole as f64 as u128 == whole
}

#[test]
fn every_factor_fits_a_double_without_loss() {
    for unit in UNITS {
        for factor in [unit.factor, unit.offset] {
            let (num, den, _) = factor.parts();
            assert!(
                [num, den].map(survives_a_double) == [true, true],
                "{unit:?}"
            );
        }
    }
}

#[test]
fn units_that_practice_calls_the_same_are_the_same() {
    // Source: definitions of the derived SI units; US practice for ksf, ksi, klf (1000 of the pound
    // unit) and tsf (2000 psf), common practice, no source.
    let same = [
        ("1 kN/m2", "kPa"),
        ("1 N/mm2", "MPa"),
        ("1 N/mm", "kN/m"),
        ("1 kN/mm", "MN/m"),
        ("1 kPa/m", "kN/m3"),
        ("1 kg/l", "t/m3"),
        ("1000 psf", "ksf"),
        ("1000 psi", "ksi"),
        ("1000 plf", "klf"),
        ("2000 psf", "tsf"),
        ("2240 psf", "long_tonf/ft2"),
        ("1000 kgf", "tf"),
        ("12 in", "ft"),
        ("12 lbf*in", "lbf*ft"),
        ("144 psf", "psi"),
        ("60 l/min", "l/s"),
        ("1000 l", "m3"),
    ];
    for (many, one) in same {
        let (count, spelling) = many.split_once(' ').unwrap();
        let count = Factor::whole(count.parse().unwrap());
        assert_eq!(
            count.times(found(spelling).factor),
            found(one).factor,
            "{many} {one}"
        );
    }
}

#[test]
fn temperatures_have_a_zero_of_their_own() {
    // Source: NIST SP 811, Appendix B.8: T/K = t/degC + 273.15 and T/K = (t/degF + 459.67)/1.8.
    let close = |a: f64, b: f64| (a - b).abs() < 1e-9;
    assert!(close(found("degC").to_si(0.0), 273.15));
    assert!(close(found("degF").to_si(32.0), 273.15));
    assert!(close(found("degF").to_si(212.0), 373.15));
    assert!(close(
        found("degF").to_si(-40.0),
        found("degC").to_si(-40.0)
    ));
    assert!(close(found("degF").from_si(273.15), 32.0));
    assert!(close(found("degF").interval_to_si(9.0), 5.0));
}
