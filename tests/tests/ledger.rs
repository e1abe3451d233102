//! The ledger of published values: every value and accident that we know of has one row, and a row that claims a
//! test has one.
#![allow(clippy::expect_used, reason = "a test may fail")]

use serde_json::Value;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

const LEDGER: &str = include_str!("../published/ledger.json");

/// Every value and accident that was found in print; the ledger may know more, never less.
const IDS: &str = include_str!("../published/ids.json");

/// How good a check a row can be, best first. The last three prove nothing about the program: a rule with numbers of
/// our own, arithmetic in one step, a number that nobody looked up.
const GRADES: [&str; 11] = [
    "worked number",
    "table row",
    "rounded table",
    "second-hand",
    "faulty",
    "all published",
    "partly assumed",
    "no numbers",
    "rule only",
    "weak",
    "from memory",
];
const NO_PROOF: [&str; 3] = ["rule only", "weak", "from memory"];

struct Row {
    id: String,
    grade: String,
    state: String,
    tests: Vec<String>,
    texts: [String; 4],
}

fn rows() -> Vec<Row> {
    let ledger: Value = serde_json::from_str(LEDGER).expect("the ledger is JSON");
    let text = |row: &Value, key: &str| row[key].as_str().unwrap_or_default().to_owned();
    ledger["rows"]
        .as_array()
        .expect("the ledger has rows")
        .iter()
        .map(|row| Row {
            id: text(row, "id"),
            grade: text(row, "grade"),
            state: text(row, "state"),
            tests: row["tests"]
                .as_array()
                .into_iter()
                .flatten()
                .filter_map(|test| test.as_str().map(str::to_owned))
                .collect(),
            texts: ["family", "topic", "cite", "say"].map(|key| text(row, key)),
        })
        .collect()
}

fn top() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().expect("tests/ lies in the repository").into()
}

#[test]
fn every_value_has_one_row() {
    let rows = rows();
    let ids: BTreeSet<&str> = rows.iter().map(|row| row.id.as_str()).collect();
    assert_eq!(ids.len(), rows.len(), "an id stands twice");
    let known: Value = serde_json::from_str(IDS).expect("the list is JSON");
    let (values, accidents) = (known["values"].as_array(), known["accidents"].as_array());
    assert_eq!(
        (values.map(Vec::len), accidents.map(Vec::len)),
        (Some(137), Some(37)),
        "the list of what was found was cut"
    );
    let lost: Vec<&str> = [values, accidents]
        .into_iter()
        .flatten()
        .flatten()
        .map(|id| id.as_str().expect("an identifier"))
        .filter(|id| !ids.contains(id))
        .collect();
    assert!(lost.is_empty(), "not in the ledger: {lost:?}");
}

#[test]
fn a_weak_check_never_counts_as_proof() {
    for row in rows() {
        let Row {
            id, grade, state, ..
        } = &row;
        assert!(
            GRADES.contains(&grade.as_str()),
            "{id}: `{grade}` is no grade"
        );
        assert_eq!(
            grade == "faulty",
            state == "faulty",
            "{id}: graded {grade}, state {state}"
        );
        assert!(
            state != "met" || !NO_PROOF.contains(&grade.as_str()),
            "{id}: {grade}, and counted as met"
        );
    }
}

#[test]
fn every_row_says_what_meets_it_or_why_nothing_does() {
    for row in rows() {
        for text in &row.texts {
            assert!(!text.trim().is_empty(), "{}: a field is empty", row.id);
        }
        let [_, _, cite, say] = &row.texts;
        assert!(
            cite.len() > 8,
            "{}: `{cite}` finds nobody a publication",
            row.id
        );
        assert!(
            say.split_whitespace().count() >= 5,
            "{}: `{say}` is no statement",
            row.id
        );
        let wanted = match row.state.as_str() {
            "met" => !row.tests.is_empty(),
            "later" => row.tests.is_empty() && say.contains("Later:"),
            // A test may keep to a rule that proves nothing.
            "not" => {
                say.starts_with("Not") && (row.tests.is_empty() || say.starts_with("Not as proof"))
            }
            "faulty" => !row.tests.is_empty() && say.starts_with("Faulty"),
            other => panic!("{}: `{other}` is no state", row.id),
        };
        assert!(
            wanted,
            "{}: state {}, but {:?}: {say}",
            row.id, row.state, row.tests
        );
    }
}

#[test]
fn every_test_that_a_row_names_exists() {
    let mut missing = Vec::new();
    for row in rows() {
        for named in &row.tests {
            let Some((file, name)) = named.split_once("::") else {
                missing.push(format!("{}: `{named}` names no file", row.id));
                continue;
            };
            let text = std::fs::read_to_string(top().join(file)).unwrap_or_default();
            let stands = text
                .split("#[test]")
                .skip(1)
                .any(|test| test.trim_start().starts_with(&format!("fn {name}()")));
            if !stands {
                missing.push(format!("{}: {file} has no test `{name}`", row.id));
            }
        }
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}

#[test]
fn no_row_holds_an_address() {
    let marks = [
        "://", "www.", ".com", ".org", ".gov", ".net", ".html", ".pdf",
    ];
    for row in rows() {
        for text in &row.texts {
            let small = text.to_lowercase();
            let found = marks.iter().find(|mark| small.contains(**mark));
            assert!(found.is_none(), "{}: {text}", row.id);
        }
    }
}
