//! The JSON: one finding whole, and what every document promises.

use crate::lift::Lift;
use plumbhook_report::json::{VERSION, result, write};
use serde_json::Value;

fn document(lift: &Lift) -> Value {
    let mut bytes = Vec::new();
    write(&lift.checked, &lift.snapshot, &mut bytes).unwrap();
    serde_json::from_slice(&bytes).unwrap()
}

/// The ring too weak, and that check alone.
fn one_over() -> Lift {
    let mut lift = Lift::changed(&[("rated      25 t ", "rated      15 t ")]);
    let case = std::sync::Arc::make_mut(&mut lift.checked.cases[0]);
    case.findings.truncate(1);
    lift
}

#[test]
fn the_example_in_the_documentation_is_what_is_written() {
    let lift = one_over();
    let written = serde_json::to_string_pretty(&result(&lift.checked, &lift.snapshot)).unwrap();
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/src/json/example.json");
    if std::env::var("INSTA_UPDATE").is_ok_and(|update| update == "always") {
        std::fs::write(path, format!("{written}\n")).unwrap();
    }
    let example = std::fs::read_to_string(path).unwrap();
    assert_eq!(
        written,
        example.trim_end(),
        "`INSTA_UPDATE=always` writes it anew"
    );
}

#[test]
fn a_check_that_cannot_tell_says_what_is_missing_and_what_waits_for_it() {
    let lift = Lift::changed(&[("cg         x 0 +/- 40 mm", "cg         x unknown")]);
    let lift = lift.only(&["cg-known", "sling-rating"]);
    let document = document(&lift);
    let checks = document["cases"][0]["checks"].as_array().unwrap();
    let check = checks
        .iter()
        .find(|check| check["outcome"] == "cannot-tell")
        .unwrap();
    insta::assert_snapshot!(
        serde_json::to_string_pretty(&serde_json::json!({
            "missing": check["missing"],
            "mends": check["mends"],
            "blocks": check["blocks"],
            "severity": check["severity"],
        }))
        .unwrap()
    );
}

#[test]
fn every_check_of_the_engine_stands_in_it() {
    let lift = Lift::changed(&[]);
    let document = document(&lift);
    assert_eq!(document["version"], VERSION);
    let checks = document["cases"][0]["checks"].as_array().unwrap();
    assert_eq!(checks.len(), lift.checked.cases[0].findings.len());
    let within = checks.iter().filter(|check| check["outcome"] == "within");
    assert_eq!(
        within.count() as u64,
        document["tally"]["within"].as_u64().unwrap()
    );
    for check in checks {
        assert!(check["sheet"]["inputs"].is_array(), "{check}");
        assert!(check["place"]["line"].as_u64() >= Some(1), "{check}");
    }
}

#[test]
fn an_input_that_the_text_calculates_says_how() {
    let lift = Lift::changed(&[
        ("load cover", "let half = 7 t +/- 5 %\n\nload cover"),
        ("mass       14.0 t +/- 5 % ", "mass       2 * half "),
    ]);
    let document = document(&lift);
    let checks = document["cases"][0]["checks"].as_array().unwrap();
    let mut inputs = checks
        .iter()
        .flat_map(|check| check["sheet"]["inputs"].as_array().unwrap());
    let mass = inputs
        .find(|input| input["what"] == "mass of cover")
        .unwrap();
    let way = &mass["calculated"][0];
    assert_eq!(way["text"], "2 * half");
    assert_eq!(way["value"]["si"], 14_000.0);
    assert_eq!(way["names"][0]["name"], "half");
    assert_eq!(way["names"][0]["place"]["line"], 7);
}

#[test]
fn columns_count_bytes_from_one() {
    // "Ø" is two bytes of UTF-8 (The Unicode Standard, table 3-6).
    let change = &[(
        "mass       14.0 t +/- 5 %           from drawing",
        "mass Ø 14.0 t",
    )];
    let document = document(&Lift::changed(change));
    let notices = document["notices"].as_array().unwrap();
    let place = &notices.first().unwrap_or_else(|| panic!("{document}"))["place"];
    assert_eq!(place["line"], 9, "{notices:#?}");
    let (column, end) = (place["column"].as_u64(), place["end_column"].as_u64());
    assert!(column >= Some(3) && end > column, "{place}");
}

#[test]
fn what_was_not_checked_is_told_with_the_files_that_it_cost() {
    let lift = Lift::of(&[
        ("plumbhook.toml", "language = 1\nyards = []\n".into()),
        ("a.pick", "job a\n".into()),
    ]);
    let document = document(&lift);
    let reason = &document["not_checked"][0];
    assert_eq!(reason["place"]["file"], "plumbhook.toml");
    assert_eq!(reason["place"]["line"], 2);
    assert_eq!(reason["files"][0], "a.pick");
}
