//! Published tables that the program leans on, kept as data beside its mechanics, against what the program computes.
#![allow(clippy::expect_used, reason = "a test may fail")]

use plumbhook_mechanics::leg::sling_tension;
use plumbhook_model::rule_set;
use plumbhook_sheet::Silent;
use plumbhook_units::{Force, HorizontalAngle, Measured};
use serde_json::Value;

/// OSHA, Guidance on Safe Sling Use, Tables 1 and 2: chain slings of grade 80 and 100, in pounds to the nearest 100.
const CHAIN: [&str; 2] = [
    include_str!("../../crates/mechanics/src/sling/chain_grade_80.json"),
    include_str!("../../crates/mechanics/src/sling/chain_grade_100.json"),
];

fn tables() -> impl Iterator<Item = Value> {
    CHAIN
        .iter()
        .map(|text| serde_json::from_str(text).expect("a table is JSON"))
}

fn numbers(list: &Value) -> Vec<Option<f64>> {
    let list = list.as_array().expect("a list of numbers");
    list.iter().map(Value::as_f64).collect()
}

#[test]
fn the_least_angle_of_the_us_rule_set_is_the_last_column_of_its_tables() {
    let set = rule_set("us").expect("the US rule set");
    for table in tables() {
        let angles = numbers(&table["angles"]).into_iter().flatten();
        let least = angles.fold(f64::INFINITY, f64::min);
        assert!((set.least_horizontal_deg - least).abs() < 1e-12, "{least}");
        let text = |key: &str| table[key].as_str().expect("a publication and a table");
        let (publication, section) = (text("source"), text("section"));
        let numbered = section.strip_prefix("Table ").expect("a numbered table");
        let basis = &set.least_horizontal_basis;
        assert_eq!(basis.publication, publication);
        assert!(basis.section.contains(numbered), "{}", basis.section);
    }
}

#[test]
fn legs_under_the_load_of_the_table_are_pulled_by_the_rating_of_one_leg() {
    let mut cells = 0;
    for table in tables() {
        for row in table["rows"].as_array().expect("rows") {
            let one_leg = row[2].as_f64().expect("a rating");
            // Three legs carry what three or four are rated at: the table counts no fourth.
            for (legs, column) in [(2.0, 3), (3.0, 4)] {
                for (angle, rated) in numbers(&table["angles"])
                    .into_iter()
                    .zip(numbers(&row[column]))
                {
                    let (Some(degrees), Some(rated)) = (angle, rated) else {
                        continue;
                    };
                    let angle = HorizontalAngle::from_si(degrees.to_radians());
                    let share = Force::from_si(rated / legs);
                    let tension = sling_tension(share, angle, &mut Silent)
                        .expect("a leg")
                        .si();
                    // Both numbers are rounded to 100 lb, so each is up to 50 lb off, the load shared along a leg.
                    let rounding = 50.0 + 50.0 / (legs * degrees.to_radians().sin());
                    assert!(
                        (tension - one_leg).abs() <= rounding,
                        "{row}: {rated} lb on {legs} legs at {degrees} deg pull {tension:.0} lb"
                    );
                    cells += 1;
                }
            }
        }
    }
    assert_eq!(
        cells, 102,
        "ten and eight sizes, less six cells that nobody could read"
    );
}
