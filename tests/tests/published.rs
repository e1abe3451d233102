//! Numbers in print that more than one crate has to meet. Each stands with its source; the ledger beside it
//! (`published/ledger.json`) says which value is met where.
#![allow(clippy::expect_used, reason = "a test may fail")]

use plumbhook_mechanics::hanging::{Body, End, Hook, Leg, Rig, Rotation, hang};
use plumbhook_mechanics::leg::sling_tension;
use plumbhook_model::rule_set;
use plumbhook_sheet::Silent;
use plumbhook_units::{
    Force, HorizontalAngle, Length, Lookup, Mass, Measured, Quantity, STANDARD_GRAVITY, Unit, unit,
    weight,
};

/// The factor of the rule set `en` for so many legs at this angle from vertical.
fn factor(legs: usize, from_vertical_deg: f64) -> f64 {
    let set = rule_set("en").expect("the European rule set");
    set.leg_factors
        .iter()
        .find(|row| {
            (row.legs.0..=row.legs.1).contains(&legs) && from_vertical_deg <= row.to_vertical_deg
        })
        .expect("a row for this angle")
        .factor
}

/// Two legs to 45 and to 60 deg, then three and four legs to 45 and to 60 deg, all from vertical.
const BANDS: [(usize, f64); 4] = [(2, 45.0), (2, 60.0), (4, 45.0), (4, 60.0)];

fn table_is_met(rows: &[(f64, [f64; 4])], within: f64) {
    for (one_leg, printed) in rows {
        for ((legs, angle), wanted) in BANDS.into_iter().zip(printed) {
            let found = one_leg * factor(legs, angle);
            assert!(
                (found / wanted - 1.0).abs() <= within,
                "{one_leg} t, {legs} legs to {angle} deg: {found:.2} t, printed {wanted} t"
            );
        }
    }
    assert!(
        (factor(3, 45.0) - factor(4, 45.0)).abs() < 1e-12,
        "one column for three and four"
    );
}

/// EN 13414-1:2003, Table 4: rope of 20, 32 and 60 mm, in tonnes. Rounded in print, both ways, up to 2 %.
#[test]
fn leg_factors_give_the_rounded_table_for_wire_rope_slings() {
    let rows = [
        (4.6, [6.5, 4.6, 9.8, 6.9]),
        (11.8, [16.5, 11.8, 25.0, 17.5]),
        (42.0, [58.0, 42.0, 88.0, 63.0]),
    ];
    table_is_met(&rows, 0.02);
}

/// EN 818-4 (as reproduced in a hardware catalogue), WLL table grade 8, p.148: chain of 6 to 32 mm, in tonnes.
/// Second-hand. The print takes preferred numbers, so products differ up to 5 % both ways.
#[test]
fn leg_factors_give_the_preferred_numbers_for_chain_slings() {
    let rows = [
        (1.12, [1.6, 1.12, 2.36, 1.7]),
        (1.5, [2.12, 1.5, 3.15, 2.24]),
        (2.0, [2.8, 2.0, 4.25, 3.0]),
        (3.15, [4.25, 3.15, 6.7, 4.75]),
        (5.3, [7.5, 5.3, 11.2, 8.0]),
        (8.0, [11.2, 8.0, 17.0, 11.8]),
        (12.5, [17.0, 12.5, 26.5, 19.0]),
        (15.0, [21.2, 15.0, 31.5, 22.4]),
        (21.2, [30.0, 21.2, 45.0, 31.5]),
        (31.5, [45.0, 31.5, 67.0, 47.5]),
    ];
    table_is_met(&rows, 0.05);
}

/// Webbing sling user manual quoting EN 1492-1, mode-factor table: slings of 1, 3, 6 and 10 t. Second-hand.
#[test]
fn mode_factors_are_exact_for_webbing_slings() {
    let rows = [
        (1.0, [1.4, 1.0, 2.1, 1.5]),
        (3.0, [4.2, 3.0, 6.3, 4.5]),
        (6.0, [8.4, 6.0, 12.6, 9.0]),
        (10.0, [14.0, 10.0, 21.0, 15.0]),
    ];
    table_is_met(&rows, 1e-9);
}

/// Sling shop data sheet (values of the chain trade standard), single and double tables: rating of one leg and of two
/// legs at 60 deg from horizontal, in pounds, to the nearest 100 lb.
#[test]
fn two_legs_at_sixty_degrees_carry_what_the_chain_tables_say() {
    let pound = of("lb");
    for (one_leg, two_legs) in [
        (15_000.0, 26_000.0),
        (35_300.0, 61_100.0),
        (34_200.0, 59_200.0),
        (72_300.0, 125_200.0),
    ] {
        let mass: Mass = Quantity::new(two_legs, pound).read().expect("a mass");
        let tension = two_leg_tension(mass);
        let in_pounds = tension / STANDARD_GRAVITY.value / pound.to_si(1.0);
        // Half of 60 lb, the rounding of the print for both legs, along a leg.
        let within = 60.0 / 2.0 / f64::to_radians(60.0).sin();
        assert!(
            (in_pounds - one_leg).abs() <= within,
            "{two_legs} lb pulls each leg by {in_pounds:.0} lb, printed {one_leg} lb"
        );
    }
}

/// Tension in newtons of each of two equal legs at 60 deg from horizontal, by the solver.
fn two_leg_tension(mass: Mass) -> f64 {
    let at = |place: [f64; 3]| place.map(Length::from_si);
    let leg = |x: f64| Leg {
        upper: End::Hook(0),
        lower: End::Point {
            body: 0,
            at: at([x, 0.0, 0.0]),
        },
        length: Length::from_si(2.0),
        stiffness: None,
    };
    let rig = Rig {
        bodies: vec![Body {
            mass,
            cg: at([0.0, 0.0, -0.5]),
            attitude: Rotation::AS_INSTALLED,
        }],
        hooks: vec![Hook {
            position: at([0.0, 0.0, 3.0_f64.sqrt()]),
        }],
        legs: vec![leg(-1.0), leg(1.0)],
    };
    let pose = hang(&rig).expect("it hangs");
    let found: Vec<f64> = pose.legs.iter().map(|leg| leg.tension.si()).collect();
    assert!((found[0] - found[1]).abs() < 1e-6 * found[0], "{found:?}");
    found[0]
}

fn of(spelling: &str) -> &'static Unit {
    match unit(spelling) {
        Lookup::Unit(unit) => unit,
        other => panic!("{spelling}: {other:?}"),
    }
}

/// Statics textbook solution 5-26, first steps: 18 Mg weigh 176.5 kN (with 9.81 m/s2, cut off after one decimal).
#[test]
fn a_mass_weighs_what_the_statics_textbook_says() {
    let newtons = weight(Mass::from_si(18_000.0)).si();
    assert!((newtons / 1000.0 - 176.5).abs() < 0.1, "{newtons} N");
}

/// Civil engineering formulas, earth moving, formula text: 40 and 20 lb per (short) ton are 2 % and 1 % of the weight.
/// Its metric equivalents, 173 and 86.3 N per tonne, are faulty in print; 196.133 and 98.0665 N follow from the exact
/// factors (pound and short ton: NIST SP 811; standard gravity: 3rd General Conference on Weights and Measures, 1901).
#[test]
fn resistances_in_pounds_per_ton_are_shares_of_the_weight() {
    let pound = of("lb").to_si(1.0);
    let short_ton = of("short_ton").to_si(1.0);
    for (pounds, share, newtons, faulty) in
        [(40.0, 0.02, 196.133, 173.0), (20.0, 0.01, 98.0665, 86.3)]
    {
        let found = pounds * pound / short_ton;
        assert!(
            (found - share).abs() < 1e-12,
            "{pounds} lb per ton: {found}"
        );
        let on_a_tonne = found * weight(Mass::from_si(1000.0)).si();
        assert!(
            (on_a_tonne - newtons).abs() < 1e-9,
            "{on_a_tonne} N per tonne"
        );
        assert!((on_a_tonne - faulty).abs() > 10.0, "that is the misprint");
    }
    // The ton of the source is a unit of its own here: the bare word is refused.
    assert!(matches!(unit("ton"), Lookup::Ambiguous(_)));
}

/// Tension of each of some equal legs under a load, at an angle from horizontal in degrees; any unit of force.
fn equal_legs(load: f64, legs: f64, degrees: f64) -> f64 {
    let angle = HorizontalAngle::from_si(degrees.to_radians());
    let share = Force::from_si(load / legs);
    let tension = sling_tension(share, angle, &mut Silent).expect("an angle of a leg");
    tension.si()
}

/// OSHA area office case study, eye and shoulder bolts (2015 conference), 2015: 7,624 lb on four legs at 30 deg, 3,812 lb
/// in each, against 804 lb that the eyebolts were rated at that angle.
#[test]
fn the_eyebolts_of_the_platform_were_pulled_at_almost_five_times_their_rating() {
    let tension = equal_legs(7624.0, 4.0, 30.0);
    assert!((tension - 3812.0).abs() < 0.5, "{tension} lb");
    assert!(
        (tension / 804.0 - 4.741).abs() < 0.001,
        "{}",
        tension / 804.0
    );
}

/// IMCA improper slinging of cargo: slings at 35 deg where 60 deg was called for, 1.51 times the tension.
#[test]
fn a_basket_on_short_slings_was_pulled_half_as_much_again() {
    let ratio = equal_legs(1.0, 2.0, 35.0) / equal_legs(1.0, 2.0, 60.0);
    assert!((ratio - 1.51).abs() < 0.001, "{ratio}");
}
