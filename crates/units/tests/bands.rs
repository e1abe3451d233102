//! Bands and claims. Source of each rule: the project's own page on verdicts, "bands, claims,
//! allowances"; the numbers of its example stand in the first test.

use plumbhook_units::{Band, ClaimId, Lookup, Mass, Measured, Quantity, Side, disagreement, unit};
use proptest::prelude::*;

const DRAWING: ClaimId = ClaimId(0);
const MAIL: ClaimId = ClaimId(1);

fn tonnes(value: f64) -> Quantity {
    match unit("t") {
        Lookup::Unit(unit) => Quantity::new(value, unit),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_drawing_with_tolerance_and_an_upper_bound() {
    let Lookup::Unit(percent) = unit("%") else {
        panic!("% is a unit")
    };
    let nominal = tonnes(31.5);
    let (lo, hi) = nominal.plus_minus(Quantity::new(8.0, percent)).unwrap();
    let mass = |q: Quantity| q.read::<Mass>().unwrap();
    let drawing = Band::within(mass(lo), mass(nominal), mass(hi), DRAWING);
    let mail = Band::at_most(mass(tonnes(34.0)), MAIL);
    let both = drawing.unite(mail);
    let (lo, hi) = both.both().unwrap();
    assert!((lo.si() - 28_980.0).abs() < 1e-6 && (hi.si() - 34_020.0).abs() < 1e-6);
    assert_eq!(both.lo.claim(), Some(DRAWING));
    assert_eq!(both.hi.claim(), Some(DRAWING));
    assert_eq!(disagreement(&[drawing, mail]), None);
}

#[test]
fn a_heavier_claim_moves_the_high_side_and_names_itself() {
    // The flywheel's sister: 18.6 t +/- 12 % from a take-off, at most 24 t from an old crane log.
    let takeoff = Band::within(16.368, 18.6, 20.832, DRAWING);
    let both = takeoff.unite(Band::at_most(24.0, MAIL));
    assert_eq!(both.both(), Some((16.368, 24.0)));
    assert_eq!(both.hi.claim(), Some(MAIL));
    assert_eq!(both.nominal, Some(18.6));
}

#[test]
fn at_most_says_nothing_of_the_low_side() {
    let band = Band::at_most(34.0, MAIL).unite(Band::at_most(30.0, DRAWING));
    assert_eq!((band.lo(), band.hi()), (None, Some(34.0)));
    assert!(!band.is_known());
    assert_eq!(Band::at_least(2.0, MAIL).both(), None);
}

#[test]
fn a_contradiction_in_one_claim_is_unknown() {
    assert_eq!(Band::within(5.0, 4.0, 3.0, MAIL), Band::unknown());
    assert_eq!(Band::exact(f64::NAN, MAIL).hi, Side::Unknown);
    assert_eq!(Band::at_most(f64::NAN, MAIL).hi, Side::Unknown);
    assert_eq!(Band::exact(4.0, MAIL).map(|_| f64::NAN).lo, Side::Unknown);
}

#[test]
fn claims_beyond_their_bands_are_one_disagreement() {
    let claims = [
        Band::within(30.0, 31.0, 32.0, DRAWING),
        Band::at_most(34.0, MAIL),
        Band::within(36.0, 37.0, 38.0, ClaimId(2)),
        Band::within(35.0, 36.0, 37.0, ClaimId(3)),
    ];
    let found = disagreement(&claims).unwrap();
    assert_eq!(found.at_most, (32.0, DRAWING));
    assert_eq!(found.at_least, (36.0, ClaimId(2)));
}

#[test]
fn claims_that_touch_agree() {
    let claims = [
        Band::within(30.0, None, 32.0, DRAWING),
        Band::within(32.0, None, 34.0, MAIL),
    ];
    assert_eq!(disagreement(&claims), None);
}

#[test]
fn a_falling_map_swaps_the_sides() {
    let band = Band::within(20.0, 30.0, 40.0, DRAWING).unite(Band::at_most(50.0, MAIL));
    let from_vertical = band.map_falling(|angle| 90.0 - angle);
    assert_eq!(from_vertical.both(), Some((40.0, 70.0)));
    assert_eq!(from_vertical.lo.claim(), Some(MAIL));
    assert_eq!(from_vertical.nominal, Some(60.0));
}

fn any_band() -> impl Strategy<Value = Band<f64>> {
    let claim = (0_u32..6).prop_map(ClaimId);
    // Whole numbers from a small range, so that sides of two claims often meet.
    let whole = (-4_i32..5).prop_map(f64::from);
    (whole.clone(), whole.clone(), whole, claim, 0_u8..5).prop_map(|(a, b, c, claim, shape)| {
        let mut sides = [a, b, c];
        sides.sort_by(f64::total_cmp);
        let [lo, nominal, hi] = sides;
        match shape {
            0 => Band::unknown(),
            1 => Band::at_most(hi, claim),
            2 => Band::at_least(lo, claim),
            3 => Band::exact(nominal, claim),
            _ => Band::within(lo, nominal, hi, claim),
        }
    })
}

proptest! {
    #[test]
    fn uniting_does_not_depend_on_order_or_repetition(a in any_band(), b in any_band(), c in any_band()) {
        prop_assert_eq!(a.unite(b), b.unite(a));
        prop_assert_eq!(a.unite(b).unite(c), a.unite(b.unite(c)));
        prop_assert_eq!(a.unite(a), a);
        prop_assert_eq!(a.unite(Band::unknown()), a);
    }

    #[test]
    fn uniting_never_narrows_a_known_side_and_never_invents_one(a in any_band(), b in any_band()) {
        let both = a.unite(b);
        for band in [a, b] {
            if let Some(lo) = band.lo() {
                prop_assert!(both.lo().unwrap() <= lo);
            }
            if let Some(hi) = band.hi() {
                prop_assert!(both.hi().unwrap() >= hi);
            }
        }
        prop_assert_eq!(both.lo().is_some(), a.lo().is_some() || b.lo().is_some());
        prop_assert_eq!(both.hi().is_some(), a.hi().is_some() || b.hi().is_some());
    }

    #[test]
    fn a_united_side_names_a_claim_that_states_it(a in any_band(), b in any_band()) {
        let both = a.unite(b);
        prop_assert!(both.lo == Side::Unknown || both.lo == a.lo || both.lo == b.lo);
        prop_assert!(both.hi == Side::Unknown || both.hi == a.hi || both.hi == b.hi);
    }

    #[test]
    fn the_nominal_stays_inside_what_is_known(a in any_band(), b in any_band()) {
        let both = a.unite(b);
        if let (Some(nominal), Some((lo, hi))) = (both.nominal, both.both()) {
            prop_assert!(lo <= nominal && nominal <= hi);
        }
    }

    #[test]
    fn a_rising_map_goes_through_uniting(a in any_band(), b in any_band()) {
        let double = |x: f64| 2.0 * x + 1.0;
        prop_assert_eq!(a.unite(b).map(double), a.map(double).unite(b.map(double)));
    }

    #[test]
    fn claims_disagree_exactly_when_two_of_them_do(claims in prop::collection::vec(any_band(), 0..6)) {
        let apart = |a: &Band<f64>, b: &Band<f64>| {
            a.lo().zip(b.hi()).is_some_and(|(lo, hi)| lo > hi)
        };
        let any_two = claims.iter().any(|a| claims.iter().any(|b| apart(a, b)));
        prop_assert_eq!(disagreement(&claims).is_some(), any_two);
    }
}

#[test]
fn a_sum_lacks_the_side_that_either_lacks() {
    let metre = |value| plumbhook_units::Length::from_si(value);
    let both = Band::within(metre(4.98), Some(metre(5.0)), metre(5.02), ClaimId(0));
    let high = Band::at_most(metre(0.12), ClaimId(1));
    let sum = both.plus(high);
    assert_eq!(sum.lo(), None);
    assert_eq!(sum.hi().map(Measured::si), Some(5.02 + 0.12));
    assert!(both.plus(both).is_known());
    assert!(!both.plus(Band::unknown()).is_known());
}
