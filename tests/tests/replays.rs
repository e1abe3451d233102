//! Published accidents as small jobs: the program has to say what would have stopped each, at the line that shows it,
//! with the number of the report; and the same job with that one thing mended has to pass the same rule.
//!
//! `replays/replays.json` says for each what is expected. Places and people are invented; from the reports come the
//! numbers that stand in the `#` lines of each job. `assumed`: the report does not give every number that the finding
//! rests on.
#![allow(clippy::expect_used, reason = "a test may fail")]

use plumbhook_tests::examples::repository;
use plumbhook_tests::programs;
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

const REPLAYS: &str = include_str!("../replays/replays.json");
const LEDGER: &str = include_str!("../published/ledger.json");

fn rows(text: &str) -> Vec<Value> {
    let read: Value = serde_json::from_str(text).expect("it is JSON");
    read["rows"].as_array().cloned().expect("it has rows")
}

fn text<'a>(row: &'a Value, key: &str) -> &'a str {
    row[key]
        .as_str()
        .unwrap_or_else(|| panic!("`{key}` is missing in {row}"))
}

/// The job of one accident, with some of its text changed.
fn job(id: &str, changes: &[&Value]) -> TempDir {
    let folder = TempDir::new().expect("a folder");
    let from = repository().join("tests/replays").join(id);
    for entry in fs::read_dir(&from).unwrap_or_else(|why| panic!("{id}: {why}")) {
        let entry = entry.expect("an entry");
        fs::copy(entry.path(), folder.path().join(entry.file_name())).expect("copied");
    }
    for change in changes.iter().filter_map(|all| all.as_array()).flatten() {
        let file = folder.path().join(text(change, "file"));
        let old = fs::read_to_string(&file).expect("a file of the job");
        let from = text(change, "from");
        assert_eq!(old.matches(from).count(), 1, "{id}: `{from}` in {old}");
        fs::write(&file, old.replace(from, text(change, "to"))).expect("written");
    }
    folder
}

/// Every check of one rule, as the built program says it, in full; nothing else is folded away under another rule.
fn checks(folder: &Path, rule: &str) -> Vec<Value> {
    let output = Command::new(programs::plumbhook())
        .args(["check", "--format", "json", "--only", rule, "."])
        .current_dir(folder)
        .output()
        .expect("the program starts");
    let said: Value = serde_json::from_slice(&output.stdout).unwrap_or_else(|why| {
        panic!("{why}: {}", String::from_utf8_lossy(&output.stderr));
    });
    assert_eq!(said["not_checked"], serde_json::json!([]), "{said}");
    let unread: Vec<&Value> = said["notices"]
        .as_array()
        .into_iter()
        .flatten()
        .filter(|notice| notice["severity"] == "error")
        .collect();
    assert!(unread.is_empty(), "the job is read whole: {unread:?}");
    let cases = said["cases"].as_array().expect("cases");
    assert_eq!(cases.len(), 1, "one move");
    cases[0]["checks"].as_array().cloned().expect("checks")
}

/// Whether one of the places that the check shows a person is on a line with that text: `file: text on that line`.
fn shows(check: &Value, folder: &Path, datum: &str) -> bool {
    let (file, on_line) = datum.split_once(": ").expect("`file: text on that line`");
    let whole = fs::read_to_string(folder.join(file)).expect("a file of the job");
    let lists = ["related", "missing"].map(|key| check[key].as_array());
    let places = lists.into_iter().flatten().flatten();
    places
        .map(|said| &said["place"])
        .chain([&check["place"]])
        .filter(|place| place["file"] == file)
        .filter_map(|place| usize::try_from(place["line"].as_u64()?).ok())
        .any(|line| {
            let there = whole.lines().nth(line.saturating_sub(1));
            there.is_some_and(|there| there.contains(on_line))
        })
}

/// What the report says must come out, within what its rounding and our gear of a kilogram leave.
fn meets_the_report(what: &str, check: &Value, published: &Value) {
    let of = text(published, "of");
    let key = if of == "utilisation" { "value" } else { "si" };
    let number = |value: &Value| value.as_f64().unwrap_or(f64::NAN);
    let found = number(&check["sheet"][of][key]);
    let (wanted, within) = (number(&published["value"]), number(&published["within"]));
    assert!(
        (found - wanted).abs() <= within,
        "{what}: {of} {found}, {wanted} in the report"
    );
}

#[test]
fn each_accident_is_found_where_it_shows_and_its_twin_passes() {
    for row in rows(REPLAYS) {
        let (id, rule, outcome) = (text(&row, "id"), text(&row, "rule"), text(&row, "outcome"));
        let what = format!("{id} {rule}");
        let folder = job(id, &[&row["change"]]);
        let found = checks(folder.path(), rule);
        let check = found
            .iter()
            .find(|check| check["outcome"] == outcome)
            .unwrap_or_else(|| panic!("{what}: not {outcome}: {found:?}"));
        let datum = text(&row, "datum");
        assert!(
            shows(check, folder.path(), datum),
            "{what}: `{datum}` is not shown: {check}"
        );
        if let Some(number) = row["number"].as_str() {
            assert!(
                check.to_string().contains(number),
                "{what}: no `{number}` in {check}"
            );
        }
        if !row["published"].is_null() {
            meets_the_report(&what, check, &row["published"]);
        }
        let twin = checks(job(id, &[&row["twin"]]).path(), rule);
        assert!(
            !twin.is_empty() && twin.iter().all(|check| check["outcome"] == "within"),
            "{what}: the twin is not within: {twin:?}"
        );
    }
}

#[test]
fn a_replay_says_its_report_and_what_of_it_is_assumed_as_the_ledger_does() {
    let ledger = rows(LEDGER);
    let mut replayed = BTreeSet::new();
    for row in rows(REPLAYS) {
        let id = text(&row, "id").to_owned();
        let known = ledger
            .iter()
            .find(|known| known["id"] == row["id"])
            .unwrap_or_else(|| panic!("{id} is not in the ledger"));
        assert_eq!(row["cite"], known["cite"], "{id}");
        let assumed = row["assumed"].as_bool().expect("yes or no");
        assert_eq!(assumed, known["grade"] != "all published", "{id}");
        assert_eq!(known["state"], "met", "{id} is replayed");
        let job = fs::read_to_string(repository().join(format!("tests/replays/{id}/job.pick")));
        let job = job.expect("its job");
        for said in [
            "After a published accident report; names invented.",
            "# From the report:",
        ] {
            assert!(job.contains(said), "{id}: `{said}` is not said");
        }
        replayed.insert(id);
    }
    let folders = fs::read_dir(repository().join("tests/replays")).expect("the replays");
    let folders: BTreeSet<String> = folders
        .map(|entry| entry.expect("an entry"))
        .filter(|entry| entry.path().is_dir())
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    assert_eq!(folders, replayed, "every folder has its row");
}
