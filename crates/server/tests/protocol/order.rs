//! "Request, Notification and Response Ordering", "Cancellation Support", and a panic of ours.

use crate::client::{Client, is_report, range, words};
use serde_json::{Value, json};
use std::collections::BTreeMap;

const A: &str = "file:///a.pick";

/// Puts a number in place of the first line's.
fn renumber(number: i64) -> Value {
    json!([{ "range": range((0, 0), (0, (number - 1).to_string().len().try_into().unwrap())), "text": number.to_string() }])
}

#[test]
fn in_a_burst_no_question_sees_another_state_than_that_of_its_place() {
    let mut client = Client::session();
    client.open(A, 0, "0\nslow-hover crash-hover plain");
    let mut asked = BTreeMap::new();
    for version in 1..=500 {
        client.change(A, version, &renumber(version));
        let column = match version {
            250 | 251 => 15,        // crash-hover
            v if v % 25 == 0 => 3,  // slow-hover
            v if v % 10 == 1 => 25, // plain
            _ => continue,
        };
        asked.insert(client.hover(A, 1, column), (version, column));
    }
    let mut counts = [0, 0, 0];
    for (id, (version, column)) in asked {
        let answer = client.answer(id);
        let (kind, word) = match column {
            15 => (0, "crash-hover"),
            3 => (1, "slow-hover"),
            _ => (2, "plain"),
        };
        counts[kind] += 1;
        if kind == 0 {
            assert_eq!(answer["error"]["code"], -32603, "{answer}");
        } else {
            assert_eq!(words(&answer), format!("{version}|{word}"));
        }
    }
    assert_eq!(counts, [2, 19, 49]);
    assert_eq!(client.diagnostics_of(A, 500)["diagnostics"], json!([]));
    let ended = client.shut_down_and_exit();
    assert_eq!(ended.status.code(), Some(0));
    assert!(
        ended.log.contains("asked to fail in a hover"),
        "{}",
        ended.log
    );
    assert!(
        ended.log.contains("fake_server"),
        "no stack in the log: {}",
        ended.log
    );
}

#[test]
fn diagnostics_of_a_burst_never_go_back_and_each_is_that_of_its_version() {
    let mut client = Client::session();
    // Every odd version has the finding, every even one has not, and each check takes a while.
    client.open(A, 0, "fine\nslow\nover a");
    for version in 1..=60 {
        let word = if version % 2 == 1 { "over" } else { "fine" };
        client.change(
            A,
            version,
            &json!([{ "range": range((0, 0), (0, 4)), "text": word }]),
        );
        if version % 20 == 0 {
            client.diagnostics_of(A, version);
        }
    }
    client.change(
        A,
        61,
        &json!([{ "range": range((0, 0), (0, 4)), "text": "over b" }]),
    );
    let mut reports = Vec::new();
    loop {
        let report = client.diagnostics(A);
        let done = report["version"] == 61;
        reports.push(report);
        if done {
            break;
        }
    }
    let versions: Vec<i64> = reports
        .iter()
        .map(|r| r["version"].as_i64().unwrap())
        .collect();
    assert!(versions.is_sorted(), "{versions:?}");
    for report in &reports {
        let found = report["diagnostics"].as_array().unwrap().len();
        let odd = report["version"].as_i64().unwrap() % 2;
        assert_eq!(i64::try_from(found).unwrap(), 1 + odd, "{report}");
    }
    // Coalesced: a check for each edit would have published sixty.
    assert!(versions.len() < 30, "{versions:?}");
}

#[test]
fn a_newer_text_stops_the_check_of_the_older_one() {
    let mut client = Client::session();
    // Ten seconds of checking, seen through only by one that does not stop.
    client.open(A, 1, &"slow\n".repeat(200));
    client.change(A, 2, &json!([{ "text": "over b" }]));
    let first = client.diagnostics(A);
    assert_eq!(first["version"], 2, "{first}");
}

#[test]
fn what_a_check_found_in_an_older_text_is_not_shown_though_it_did_not_stop() {
    let mut client = Client::session();
    client.open(A, 1, "over a\ndeaf");
    client.logged("a check hears nothing");
    client.change(A, 2, &json!([{ "text": "over b" }]));
    let first = client.diagnostics(A);
    assert_eq!(first["version"], 2, "{first}");
}

#[test]
fn a_cancelled_request_is_answered_as_cancelled_and_its_work_stops() {
    let mut client = Client::session();
    client.open(A, 1, "first hang-hover");
    let id = client.hover(A, 0, 8);
    client.logged("a hover hangs");
    client.tell("$/cancelRequest", &json!({ "id": id }));
    let answer = client.answer(id);
    assert_eq!(answer["error"]["code"], -32800, "{answer}");
    assert_eq!(client.hovered(A, 0, 0), "first hang-hover|first");
    client.logged("the hanging hover was cancelled");
    let ended = client.shut_down_and_exit();
    assert!(!ended.log.contains("internal error"), "{}", ended.log);
}

#[test]
fn cancelling_what_is_not_there_does_nothing() {
    let mut client = Client::session();
    client.tell("$/cancelRequest", &json!({ "id": 4711 }));
    client.tell("$/cancelRequest", &json!({ "id": "none" }));
    client.open(A, 1, "first");
    assert_eq!(client.hovered(A, 0, 0), "first|first");
}

#[test]
fn too_many_requests_are_told_to_ask_again_and_edits_get_through() {
    let mut client = Client::session();
    client.open(A, 1, "0\nhang-hover");
    let asked: Vec<i64> = (0..400).map(|_| client.hover(A, 1, 1)).collect();
    client.change(A, 2, &json!([{ "text": "over a" }]));
    let found = client.diagnostics_of(A, 2);
    assert_eq!(found["diagnostics"].as_array().unwrap().len(), 1);
    // The protocol's ServerCancelled.
    let (hanging, busy) = asked.split_at(128);
    for id in busy {
        assert_eq!(client.answer(*id)["error"]["code"], -32802);
    }
    for id in hanging {
        client.tell("$/cancelRequest", &json!({ "id": id }));
    }
    for id in hanging {
        assert_eq!(client.answer(*id)["error"]["code"], -32800);
    }
    assert_eq!(client.hovered(A, 0, 0), "over a|over");
    assert_eq!(client.shut_down_and_exit().status.code(), Some(0));
}

#[test]
fn a_panic_in_a_check_is_said_on_the_text_and_the_next_check_is_whole() {
    let mut client = Client::session();
    client.open(A, 1, "over a");
    client.diagnostics_of(A, 1);
    client.change(A, 2, &json!([{ "text": "crash-check" }]));
    let failed = client.diagnostics_of(A, 2);
    assert_eq!(failed["diagnostics"][0]["code"], "internal-error");
    assert_eq!(failed["diagnostics"].as_array().unwrap().len(), 1);
    client.change(A, 3, &json!([{ "text": "over b" }]));
    assert_eq!(
        client.diagnostics_of(A, 3)["diagnostics"][0]["message"],
        "b is over"
    );
    assert_eq!(client.shut_down_and_exit().status.code(), Some(0));
}

#[test]
fn a_panic_in_an_edit_is_said_until_the_text_is_opened_again() {
    let mut client = Client::session();
    client.open(A, 1, "fine");
    client.diagnostics_of(A, 1);
    client.change(A, 2, &json!([{ "text": "crash-edit" }]));
    assert_eq!(
        client.diagnostics_of(A, 2)["diagnostics"][0]["code"],
        "internal-error"
    );
    client.change(A, 3, &json!([{ "text": "fine" }]));
    assert_eq!(
        client.diagnostics_of(A, 3)["diagnostics"][0]["code"],
        "internal-error"
    );
    client.close(A);
    assert_eq!(client.diagnostics(A)["diagnostics"], json!([]));
    client.open(A, 4, "over c");
    assert_eq!(
        client.diagnostics_of(A, 4)["diagnostics"][0]["message"],
        "c is over"
    );
    assert!(!client.everything_so_far().iter().any(|m| is_report(m, A)));
}
