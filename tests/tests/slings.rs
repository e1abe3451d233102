//! Slings in print: cells of tables by size, and what a basket carries. The ledger says which value is met where.
#![allow(clippy::expect_used, reason = "a test may fail")]

use plumbhook_mechanics::leg::sling_tension;
use plumbhook_mechanics::sling::{Hitch, SlingTable, en_tables, longshoring_tables, us_tables};
use plumbhook_sheet::Silent;
use plumbhook_units::{Force, HorizontalAngle, Length, Measured};

/// One pound-force in newtons, exact by the 1959 pound and standard gravity (NIST SP 811, Appendix B).
const LBF: f64 = 4.448_221_615_260_5;
const INCH: f64 = 0.0254;

/// What one part is rated at, in newtons.
fn rated(
    tables: &'static [SlingTable],
    (kind, grade): (&str, Option<&str>),
    diameter: f64,
    hitch: Hitch,
) -> f64 {
    let marks: Vec<Box<str>> = match kind {
        "fibre-rope" => vec!["eye-and-eye".into(), "natural".into()],
        _ => vec![],
    };
    let diameter = Length::from_si(diameter);
    let cell = SlingTable::rated(tables, (kind, grade, &marks), diameter, hitch);
    cell.expect("a row of that size").rated.si()
}

/// 29 CFR 1918 Appendix II (mandatory tables), Table 2: diameter in inches, vertical, choker, basket at 90, 60, 45 and 30 deg
/// from horizontal, in pounds. Rounded in print, both ways: stored, never computed.
#[test]
fn slings_of_natural_fibre_rope_have_the_cells_of_their_table() {
    let printed = [
        (0.5, [550.0, 250.0], [1100.0, 900.0, 750.0, 550.0]),
        (0.625, [900.0, 450.0], [1800.0, 1500.0, 1200.0, 900.0]),
        (0.75, [1100.0, 550.0], [2200.0, 1900.0, 1500.0, 1100.0]),
        (1.0, [1800.0, 900.0], [3600.0, 3100.0, 2600.0, 1800.0]),
        (1.25, [2700.0, 1400.0], [5400.0, 4700.0, 3800.0, 2700.0]),
        (2.0, [6200.0, 3100.0], [12500.0, 10500.0, 8800.0, 6200.0]),
        (2.5, [9300.0, 4700.0], [18500.0, 16000.0, 13000.0, 9300.0]),
        (
            2.625,
            [10500.0, 5200.0],
            [21000.0, 18000.0, 14500.0, 10500.0],
        ),
    ];
    for (inches, [vertical, choker], basket) in printed {
        let of = |hitch| {
            rated(
                longshoring_tables(),
                ("fibre-rope", None),
                inches * INCH,
                hitch,
            ) / LBF
        };
        assert!((of(Hitch::Vertical) - vertical).abs() < 1e-6, "{inches} in");
        assert!((of(Hitch::Choker) - choker).abs() < 1e-6, "{inches} in");
        // Each part under its rating never carries more than the print allows both, and at one angle just that.
        let both = |degrees: f64| 2.0 * of(Hitch::Basket) * degrees.to_radians().sin();
        let left = [90.0, 60.0, 45.0, 30.0].map(both);
        let room: Vec<f64> = basket
            .iter()
            .zip(left)
            .map(|(printed, both)| printed - both)
            .collect();
        assert!(
            room.iter().all(|room| *room > -1e-6),
            "{inches} in: {room:?}"
        );
        assert!(
            room.iter().any(|room| room.abs() < 1e-6),
            "{inches} in: {room:?}"
        );
    }
}

/// EN 818-4 (as reproduced in a hardware catalogue), WLL table grade 8, p.148: one leg, millimetres and tonnes. Second-hand.
#[test]
fn european_chain_of_grade_8_has_the_cells_of_its_table() {
    for (millimetres, tonnes) in [
        (6.0, 1.12),
        (7.0, 1.5),
        (8.0, 2.0),
        (10.0, 3.15),
        (13.0, 5.3),
        (16.0, 8.0),
        (20.0, 12.5),
        (22.0, 15.0),
        (26.0, 21.2),
        (32.0, 31.5),
    ] {
        let found = rated(
            en_tables(),
            ("chain", Some("8")),
            millimetres / 1000.0,
            Hitch::Vertical,
        );
        assert!((found / 9806.65 - tonnes).abs() < 1e-9, "{millimetres} mm");
    }
}

/// Sling shop data sheet (values of the chain trade standard), single and double tables: one leg, in pounds, of 1/2 and 3/4 in
/// of grade 100, of 7/8 and 1-1/4 in of grade 80. It has the ratings of the guidance that the program reads.
#[test]
fn a_sling_shop_prints_the_same_ratings_for_chain() {
    for (inches, grade, pounds) in [
        (0.5, "100", 15_000.0),
        (0.75, "100", 35_300.0),
        (0.875, "80", 34_200.0),
        (1.25, "80", 72_300.0),
    ] {
        let found = rated(
            us_tables(),
            ("chain", Some(grade)),
            inches * INCH,
            Hitch::Vertical,
        );
        assert!(
            (found / LBF - pounds).abs() < 1e-6,
            "{inches} in of grade {grade}"
        );
    }
}

/// Contractor-safety course lesson, load chart reading: rope of 3/4 in, vertical 9,800 lb; basket 19,600 lb plumb, 16,900 at 60
/// and 9,800 at 30 deg from horizontal, printed in whole hundreds, rounded down.
#[test]
fn each_part_of_a_basket_is_pulled_by_the_vertical_rating_under_the_load_of_the_chart() {
    for (degrees, basket) in [(90.0, 19_600.0), (60.0, 16_900.0), (30.0, 9_800.0)] {
        let angle = HorizontalAngle::from_si(f64::to_radians(degrees));
        let part = sling_tension(Force::from_si(basket / 2.0), angle, &mut Silent)
            .expect("an angle of a leg");
        let short = 9_800.0 - part.si();
        let rounding = 100.0 / (2.0 * angle.si().sin());
        assert!(
            (-1e-6..rounding).contains(&short),
            "{degrees} deg: {} lb",
            part.si()
        );
    }
}
