//! A number in a slot: what is converted, what is refused, and what a tolerance does.
#![allow(clippy::unwrap_used, reason = "a helper of tests fails its test")]

use plumbhook_units::{
    Amount, Force, HorizontalAngle, Kind, Length, Lookup, Mass, Measured, Quantity, RISE,
    RatedForce, Slope, Stiffness, Temperature, ToleranceRefused, UNITS, VerticalAngle, unit,
    weight,
};
use proptest::prelude::*;

fn quantity(value: f64, spelling: &str) -> Quantity {
    match unit(spelling) {
        Lookup::Unit(unit) => Quantity::new(value, unit),
        other => panic!("{spelling}: {other:?}"),
    }
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-12 * a.abs().max(b.abs())
}

#[test]
fn a_rating_in_tonnes_is_held_as_its_weight() {
    // 1 t under standard gravity is 9.806 65 kN. Source: NIST SP 811, B.8, "ton-force (metric)".
    let rated: RatedForce = quantity(17.0, "t").read().unwrap();
    assert!(near(rated.force().si(), 17.0 * 9_806.65));
    assert!(near(rated.mass().si(), 17_000.0));
    let in_force: RatedForce = quantity(17.0 * 9.806_65, "kN").read().unwrap();
    assert!(near(in_force.si(), rated.si()));
}

#[test]
fn a_load_in_kilonewtons_is_refused() {
    assert_eq!(quantity(300.0, "kN").read::<Mass>(), None);
    assert_eq!(quantity(40.0, "kip").amount(Kind::Mass), None);
    assert_eq!(quantity(40.0, "t").read::<Force>(), None);
}

#[test]
fn a_kip_of_rating_carries_a_thousand_pounds() {
    let rated: RatedForce = quantity(1.0, "kip").read().unwrap();
    let load: Mass = quantity(1000.0, "lb").read().unwrap();
    assert!(near(rated.si(), weight(load).si()));
}

#[test]
fn a_slope_is_a_tangent_however_it_is_written() {
    // tan 45 deg = 1; 1:50 = 2 %. Source: definition of slope as rise over run.
    let of = |q: Quantity| q.read::<Slope>().unwrap().si();
    assert!(near(of(quantity(45.0, "deg")), 1.0));
    assert!(near(
        of(quantity(2.0, "%")),
        of(Quantity::new(1.0 / 50.0, RISE))
    ));
    assert!(near(of(quantity(1.0, "in/ft")), 1.0 / 12.0));
    let back = Amount::new(Kind::Slope, 1.0);
    assert!(near(back.in_unit(quantity(0.0, "deg").unit).unwrap(), 45.0));
    assert_eq!(quantity(90.0, "deg").amount(Kind::Slope), None);
    assert_eq!(quantity(f64::NAN, "deg").amount(Kind::Slope), None);
    assert_eq!(Slope::at(HorizontalAngle::from_si(1.6)), None);
}

#[test]
fn an_angle_from_vertical_is_the_complement_of_one_from_horizontal() {
    let steep: HorizontalAngle = quantity(60.0, "deg").read().unwrap();
    let same: VerticalAngle = quantity(30.0, "deg").read().unwrap();
    assert!(near(steep.to_vertical().si(), same.si()));
    assert!(near(same.to_horizontal().si(), steep.si()));
    assert_eq!(Amount::of(steep).read::<VerticalAngle>(), None);
}

#[test]
fn amounts_of_two_kinds_do_not_compare() {
    let moment = Amount::new(Kind::Moment, 1.0);
    let energy = Amount::new(Kind::Energy, 2.0);
    assert_eq!(moment.partial_cmp(&energy), None);
    assert!(moment < Amount::new(Kind::Moment, 2.0));
}

#[test]
fn stiffness_is_force_over_give() {
    let give: Length = quantity(5.0, "mm").read().unwrap();
    let force: Force = quantity(10.0, "kN").read().unwrap();
    let stiffness = Stiffness::of(force, give);
    assert!(near(stiffness.si(), 2e6));
    assert!(near(stiffness.force(give).si(), force.si()));
    assert!(near(stiffness.give(force).si(), give.si()));
}

fn ends(value: Quantity, tolerance: Quantity) -> (f64, f64) {
    let (lo, hi) = value.plus_minus(tolerance).unwrap();
    assert_eq!((lo.unit, hi.unit), (value.unit, value.unit));
    (lo.value, hi.value)
}

#[test]
fn a_tolerance_in_per_cent_is_a_share_of_the_value() {
    let (lo, hi) = ends(quantity(31.5, "t"), quantity(8.0, "%"));
    assert!(near(lo, 28.98) && near(hi, 34.02));
    let (lo, hi) = ends(quantity(-200.0, "mm"), quantity(10.0, "%"));
    assert!(near(lo, -220.0) && near(hi, -180.0));
}

#[test]
fn a_tolerance_in_per_cent_on_a_slope_in_per_cent_is_points() {
    let (lo, hi) = ends(quantity(2.0, "%"), quantity(0.5, "%"));
    assert!(near(lo, 1.5) && near(hi, 2.5));
}

#[test]
fn a_tolerance_in_another_unit_is_converted() {
    let (lo, hi) = ends(quantity(18.0, "in"), quantity(25.4, "mm"));
    assert!(near(lo, 17.0) && near(hi, 19.0));
    let (lo, hi) = ends(quantity(20.0, "degC"), quantity(9.0, "degF"));
    assert!(near(lo, 15.0) && near(hi, 25.0));
    let cold: Temperature = quantity(lo, "degC").read().unwrap();
    assert!(near(cold.si(), 288.15));
}

#[test]
fn a_tolerance_that_means_nothing_is_refused() {
    let refused = |value: Quantity, tolerance| value.plus_minus(tolerance).unwrap_err();
    let percent = quantity(5.0, "%");
    assert_eq!(
        refused(quantity(0.0, "mm"), percent),
        ToleranceRefused::PercentOfZero
    );
    assert_eq!(
        refused(quantity(20.0, "degC"), percent),
        ToleranceRefused::PercentOfTemperature
    );
    assert_eq!(
        refused(quantity(20.0, "t"), quantity(5.0, "mm")),
        ToleranceRefused::OtherDimension
    );
    let bare = Quantity::new(2.0, plumbhook_units::ONE);
    assert_eq!(
        refused(quantity(20.0, "t"), bare),
        ToleranceRefused::OtherDimension
    );
    assert_eq!(
        refused(percent, bare),
        ToleranceRefused::OtherDimension,
        "two per cent of what?"
    );
    for negative in [-1.0, f64::NAN] {
        assert_eq!(
            refused(quantity(20.0, "t"), quantity(negative, "t")),
            ToleranceRefused::Negative
        );
    }
}

proptest! {
    #[test]
    fn every_unit_converts_there_and_back(value in -1e6_f64..1e6, pick in any::<prop::sample::Index>()) {
        let unit = pick.get(UNITS);
        let back = unit.from_si(unit.to_si(value));
        // A temperature loses the digits that its offset swallows.
        let scale = value.abs().max(unit.offset.apply(1.0));
        prop_assert!((back - value).abs() <= 1e-14 * scale.max(1e-300) * 8.0, "{unit:?} {back}");
    }

    #[test]
    fn every_kind_reads_back_what_it_read(value in 0.001_f64..1e3, pick in any::<prop::sample::Index>()) {
        let kind = *pick.get(Kind::ALL);
        for unit in kind.units() {
            let Some(amount) = Quantity::new(value, unit).amount(kind) else {
                prop_assert_eq!(kind, Kind::Slope);
                continue;
            };
            let back = amount.in_unit(unit).unwrap();
            prop_assert!((back - value).abs() <= 1e-9 * value.max(1.0), "{:?} {}", unit, back);
        }
    }
}
