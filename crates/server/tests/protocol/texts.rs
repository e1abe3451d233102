//! "Text Documents" and "Text Document Synchronization".

use crate::client::{Client, position, range, words};
use serde_json::json;

const A: &str = "file:///a.pick";
/// `²`, `°` and the emoji take 2, 2 and 4 bytes, 1, 1 and 2 units of UTF-16, and one of UTF-32.
const LINE: &str = "p 9 kN/m² at 60° 🏗 end\r\nover x";

fn session(encoding: Option<&str>) -> Client {
    let capabilities = encoding.map_or(
        json!({}),
        |e| json!({ "general": { "positionEncodings": [e] } }),
    );
    let mut client = Client::start();
    let answer = client.ask("initialize", &json!({ "capabilities": capabilities }));
    let said = &answer["result"]["capabilities"]["positionEncoding"];
    assert_eq!(said, encoding.unwrap_or("utf-16"), "{answer}");
    client.tell("initialized", &json!({}));
    client
}

#[test]
fn an_edit_behind_signs_lands_in_its_place_in_every_encoding() {
    for (encoding, end) in [
        (None, 20),
        (Some("utf-16"), 20),
        (Some("utf-8"), 24),
        (Some("utf-32"), 19),
    ] {
        let mut client = session(encoding);
        client.open(A, 1, LINE);
        client.change(
            A,
            2,
            &json!([{ "range": range((0, end), (0, end + 3)), "text": "END²" }]),
        );
        let id = client.hover(A, 0, end + 1);
        let answer = client.answer(id);
        assert_eq!(
            words(&answer),
            "p 9 kN/m² at 60° 🏗 END²|END²",
            "{encoding:?}"
        );
        let wide = if encoding == Some("utf-8") { 5 } else { 4 };
        assert_eq!(
            answer["result"]["range"],
            range((0, end), (0, end + wide)),
            "{encoding:?}"
        );
    }
}

#[test]
fn the_changes_of_one_event_apply_one_after_the_other() {
    let mut client = Client::session();
    client.open(A, 1, "one\ntwo\nthree");
    client.change(
        A,
        2,
        &json!([
            { "range": range((0, 3), (1, 0)), "text": " " },
            { "range": range((0, 4), (0, 7)), "text": "²over" },
            { "range": range((0, 0), (0, 5)), "text": "", "rangeLength": 5 },
        ]),
    );
    assert_eq!(client.hovered(A, 0, 1), "over|over");
    assert_eq!(client.hovered(A, 1, 1), "over|three");
}

#[test]
fn a_change_without_a_range_is_the_whole_text() {
    let mut client = Client::session();
    client.open(A, 1, "one\ntwo");
    client.change(
        A,
        2,
        &json!([
            { "text": "over all" },
            { "range": range((0, 5), (0, 8)), "text": "this" },
        ]),
    );
    assert_eq!(
        client.diagnostics_of(A, 2)["diagnostics"][0]["message"],
        "this is over"
    );
}

#[test]
fn an_edit_past_the_end_goes_to_the_end_and_never_into_a_line_end() {
    let mut client = Client::session();
    client.open(A, 1, "one\r\ntwo");
    client.change(
        A,
        2,
        &json!([{ "range": range((0, 99), (0, 999)), "text": "!" }]),
    );
    assert_eq!(client.hovered(A, 0, 0), "one!|one!");
    assert_eq!(client.hovered(A, 1, 0), "one!|two");
    client.change(
        A,
        3,
        &json!([{ "range": range((77, 1), (88, 2)), "text": "?" }]),
    );
    assert_eq!(client.hovered(A, 1, 0), "one!|two?");
    let id = client.hover(A, 4_000_000_000, 4_000_000_000);
    assert!(client.answer(id).get("error").is_none());
}

#[test]
fn an_empty_text_takes_questions_and_edits() {
    let mut client = Client::session();
    client.open(A, 1, "");
    let id = client.hover(A, 0, 0);
    assert!(client.answer(id).get("error").is_none());
    client.change(
        A,
        2,
        &json!([{ "range": range((0, 0), (0, 0)), "text": "over x" }]),
    );
    assert_eq!(
        client.diagnostics_of(A, 2)["diagnostics"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    client.change(
        A,
        3,
        &json!([{ "range": range((0, 0), (9, 0)), "text": "" }]),
    );
    assert_eq!(client.diagnostics_of(A, 3)["diagnostics"], json!([]));
}

#[test]
fn a_change_of_a_text_that_is_not_open_is_dropped() {
    let mut client = Client::session();
    client.change(A, 2, &json!([{ "text": "over x" }]));
    client.close(A);
    client.open(A, 3, "over y");
    assert_eq!(client.diagnostics(A)["version"], 3);
    let answer = client.ask("textDocument/hover", &position("file:///b.pick", 0, 0));
    assert!(
        answer["result"].is_null() && answer.get("error").is_none(),
        "{answer}"
    );
}

#[test]
fn a_definition_in_another_file_is_given_in_the_clients_spelling() {
    let mut client = Client::session();
    let there = "file:///jobs/Gr%c3%b6%C3%9Fe%2D1.pick";
    client.open(there, 1, "\nname beam°x");
    client.open(A, 1, "beam°x");
    let answer = client.ask("textDocument/definition", &position(A, 0, 2));
    assert_eq!(
        answer["result"],
        json!([{ "uri": there, "range": range((1, 5), (1, 11)) }])
    );
    let answer = client.ask("textDocument/definition", &position(there, 0, 0));
    assert!(answer["result"].is_null(), "{answer}");
}

#[test]
fn one_file_under_two_spellings_is_one_text() {
    let mut client = Client::session();
    client.open("file:///a%2Db.pick", 1, "over one");
    client.diagnostics("file:///a%2Db.pick");
    client.change("file:///a-b.pick", 2, &json!([{ "text": "over two" }]));
    assert_eq!(client.hovered("file:///a%2db.pick", 0, 0), "over two|over");
    assert_eq!(
        client.diagnostics_of("file:///a%2Db.pick", 2)["diagnostics"][0]["message"],
        "two is over"
    );
}

#[test]
fn an_address_with_blanks_and_letters_as_they_are_is_followed_and_given_back_so() {
    let mut client = Client::session();
    let raw = "file:///jobs/Größe 1.pick";
    client.open(raw, 1, "over one");
    assert_eq!(
        client.diagnostics(raw)["diagnostics"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    assert_eq!(client.hovered(raw, 0, 0), "over one|over");
}
