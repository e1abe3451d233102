//! The ledger of published values: every value and accident that we know of has one row, and a row that claims a
//! test has one.
#![allow(clippy::expect_used, reason = "a test may fail")]

use serde_json::Value;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

const LEDGER: &str = include_str!("../published/ledger.json");

/// Numbers and accidents in the list that the ledger was made from. It may grow, never shrink.
const ROWS: usize = 137 + 37;

struct Row {
    id: String,
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
    assert!(rows.len() >= ROWS, "{} rows; some were lost", rows.len());
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
            "not" => row.tests.is_empty() && (say.starts_with("Not") || say.starts_with("Faulty")),
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

#[test]
fn what_is_faulty_in_print_is_never_claimed_as_printed() {
    let faulty: Vec<Row> = rows()
        .into_iter()
        .filter(|row| row.texts[3].contains("Faulty"))
        .collect();
    assert!(faulty.len() >= 10, "{} faulty values", faulty.len());
    for row in faulty.iter().filter(|row| row.state == "met") {
        assert!(
            row.texts[3].contains("as printed"),
            "{}: say what the test does with a faulty print",
            row.id
        );
    }
}
