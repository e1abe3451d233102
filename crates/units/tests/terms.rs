//! Values that calculate: dimensions and bands.
#![allow(
    clippy::unwrap_used,
    clippy::float_cmp,
    reason = "tests; exact doubles where claimed"
)]

use plumbhook_units::{Kind, Known, Lookup, Meaning, Term, TermRefused, unit};
use proptest::prelude::*;

fn of(value: f64, spelling: &str) -> Term {
    match unit(spelling) {
        Lookup::Unit(unit) => Term::of_unit(value, unit),
        other => panic!("{spelling}: {other:?}"),
    }
}

fn banded(lo: Option<f64>, hi: Option<f64>) -> Term {
    Term {
        meaning: Meaning::of_kind(Kind::Mass),
        known: Known::Banded {
            lo,
            hi,
            nominal: None,
        },
    }
}

fn sides(term: Term) -> (Option<f64>, Option<f64>) {
    match term.known {
        Known::Banded { lo, hi, .. } => (lo, hi),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_plate_has_the_mass_of_its_volume() {
    // Density of steel, 7850 kg/m3: common practice, no source. 7850 * 2 * 1 * 0.05 = 785 is arithmetic.
    let mass = of(7850.0, "kg/m3")
        .times(of(2.0, "m"))
        .and_then(|it| it.times(of(1.0, "m")))
        .and_then(|it| it.times(of(50.0, "mm")))
        .unwrap();
    assert_eq!(mass.in_kind(Kind::Mass), Some(Known::Plain(785.0)));
    assert_eq!(mass.in_kind(Kind::Force), None);
}

#[test]
fn a_mass_may_state_a_rated_capacity_and_becomes_its_weight_there() {
    // Source: NIST SP 811, appendix B.8: standard gravity 9.806 65 m/s2, exact.
    let twice = Term::number(2.0).times(of(1.0, "t")).unwrap();
    assert_eq!(twice.in_kind(Kind::Rating), Some(Known::Plain(19_613.3)));
    let both = twice.plus(of(1.0, "kN"));
    let unlike = |it| matches!(it, Err(TermRefused::Unlike { .. }));
    assert!(unlike(both));
    assert!(unlike(of(1.0, "kN*m").plus(of(1.0, "kJ"))));
}

#[test]
fn a_tolerance_on_one_side_only_is_refused_and_a_count_needs_none() {
    let load = banded(Some(9.0), Some(11.0));
    assert_eq!(
        load.plus(of(1.0, "kg")),
        Err(TermRefused::OneTolerance { right: true })
    );
    assert_eq!(
        of(1.0, "kg").minus(load),
        Err(TermRefused::OneTolerance { right: false })
    );
    let twice = Term::number(2.0).times(load).unwrap();
    assert_eq!(sides(twice), (Some(18.0), Some(22.0)));
}

#[test]
fn a_side_that_nobody_knows_stays_unknown() {
    let most = banded(None, Some(34.0));
    assert_eq!(sides(most.plus(most).unwrap()), (None, Some(68.0)));
    assert_eq!(sides(most.minus(most).unwrap()), (None, None));
    assert_eq!(
        sides(Term::number(-1.0).times(most).unwrap()),
        (Some(-34.0), None)
    );
    assert_eq!(sides(most.times(most).unwrap()), (None, None));
    assert_eq!(
        sides(Term::number(0.0).times(most).unwrap()),
        (Some(0.0), Some(0.0))
    );
    let least = banded(Some(2.0), None);
    assert_eq!(
        sides(Term::number(8.0).over(least).unwrap()),
        (Some(0.0), Some(4.0))
    );
    assert_eq!(sides(least.over(least).unwrap()), (Some(0.0), None));
}

#[test]
fn nothing_is_divided_by_what_may_be_zero() {
    let one = of(1.0, "m");
    assert_eq!(one.over(Term::number(0.0)), Err(TermRefused::ByZero));
    for divisor in [
        (Some(-1.0), Some(1.0)),
        (None, Some(5.0)),
        (Some(0.0), None),
        (None, None),
    ] {
        let divisor = banded(divisor.0, divisor.1);
        assert_eq!(
            banded(Some(1.0), Some(1.0)).over(divisor),
            Err(TermRefused::ByZero)
        );
    }
}

#[test]
fn a_temperature_takes_part_in_no_sum() {
    // 20 degC and 5 degC are not 25 degC: each counts from 273.15 K (SI Brochure, 9th edition, 2.3.1).
    let sum = of(20.0, "degC").plus(of(5.0, "degC"));
    assert_eq!(sum, Err(TermRefused::Temperature));
    assert!(of(20.0, "degC").in_kind(Kind::Temperature).is_some());
}

#[test]
fn what_is_beyond_counting_is_refused() {
    let huge = of(1e300, "t");
    assert_eq!(huge.times(huge), Err(TermRefused::OutOfRange));
}

fn side() -> impl Strategy<Value = (f64, f64)> {
    (-1e3..1e3_f64, 0.0..1e3_f64).prop_map(|(lo, wide)| (lo, lo + wide))
}

proptest! {
    /// The inclusion property of interval arithmetic (R. E. Moore, Interval Analysis, 1966; cited from memory).
    #[test]
    fn what_goes_in_within_its_band_comes_out_within_it(
        (a, b) in (side(), side()), (u, v) in (0.0..=1.0_f64, 0.0..=1.0_f64)
    ) {
        let inside = |(lo, hi): (f64, f64), at: f64| (lo + at * (hi - lo)).clamp(lo, hi);
        let (x, y) = (inside(a, u), inside(b, v));
        let (p, q) = (banded(Some(a.0), Some(a.1)), banded(Some(b.0), Some(b.1)));
        let holds = |term: Term, value: f64| {
            let (lo, hi) = sides(term);
            lo.is_none_or(|lo| lo <= value) && hi.is_none_or(|hi| value <= hi)
        };
        prop_assert!(holds(p.plus(q).unwrap(), x + y));
        prop_assert!(holds(p.minus(q).unwrap(), x - y));
        prop_assert!(holds(p.times(q).unwrap(), x * y));
        if let Ok(ratio) = p.over(q) {
            prop_assert!(holds(ratio, x / y));
        }
    }
}
