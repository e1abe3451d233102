//! "Base Protocol": a stream that goes wrong is answered (JSON-RPC -32700 parse error, -32600
//! invalid request) and goes on.

use crate::client::Client;
use serde_json::{Value, json};

const A: &str = "file:///a.pick";

fn parse_error(client: &mut Client) -> Value {
    client.wait("a parse error", |m| {
        m["error"]["code"] == -32700 && m["id"].is_null()
    })
}

#[test]
fn broken_json_is_answered_and_the_session_goes_on() {
    let mut client = Client::session();
    client.open(A, 1, "first word");
    client.raw(b"Content-Length: 9\r\n\r\n{\"jsonrpc");
    parse_error(&mut client);
    assert_eq!(client.hovered(A, 0, 7), "first word|word");
    let ended = client.shut_down_and_exit();
    assert_eq!(ended.status.code(), Some(0));
    assert!(ended.log.contains("no valid JSON"), "{}", ended.log);
}

#[test]
fn a_wrong_content_length_costs_its_own_message_at_most() {
    let mut client = Client::session();
    client.open(A, 1, "first word");
    let hover = json!({
        "jsonrpc": "2.0", "id": "long", "method": "textDocument/hover",
        "params": crate::client::position(A, 0, 7),
    });
    let body = hover.to_string();
    client.raw(format!("Content-Length: {}\r\n\r\n{body}", body.len() + 30).as_bytes());
    client.request("textDocument/hover", &crate::client::position(A, 0, 0));
    let answer = client.wait("the answer to the long one", |m| m["id"] == "long");
    assert_eq!(crate::client::words(&answer), "first word|word");
    client.answer(2);
    client.raw(format!("Content-Length: {}\r\n\r\n{body}", body.len() - 5).as_bytes());
    assert_eq!(client.hovered(A, 0, 0), "first word|first");
    parse_error(&mut client);
    assert_eq!(client.shut_down_and_exit().status.code(), Some(0));
}

#[test]
fn a_header_that_never_ends_or_claims_too_much_is_passed_over() {
    let mut client = Client::session();
    client.open(A, 1, "first word");
    client.raw(&vec![b'x'; 1_000_000]);
    assert_eq!(client.hovered(A, 0, 7), "first word|word");
    parse_error(&mut client);
    client.raw(b"Content-Length: 99999999999999\r\n\r\n");
    client.raw(b"Content-Length: many\r\n\r\n");
    assert_eq!(client.hovered(A, 0, 7), "first word|word");
    parse_error(&mut client);
    parse_error(&mut client);
    assert_eq!(client.shut_down_and_exit().status.code(), Some(0));
}

#[test]
fn json_that_is_no_message_is_an_invalid_request() {
    let mut client = Client::session();
    for body in [
        json!([1, 2]),
        json!({ "id": 5, "method": 7 }),
        json!(3),
        json!({}),
    ] {
        let id = body.get("id").cloned().unwrap_or(Value::Null);
        client.send(&body);
        client.wait(&format!("an answer to {body}"), |m| {
            m["error"]["code"] == -32600 && m["id"] == id
        });
    }
    assert_eq!(client.shut_down_and_exit().status.code(), Some(0));
}

#[test]
fn a_message_nested_beyond_reason_is_answered() {
    let mut client = Client::session();
    let deep = "[".repeat(100_000) + &"]".repeat(100_000);
    client.raw(format!("Content-Length: {}\r\n\r\n{deep}", deep.len()).as_bytes());
    parse_error(&mut client);
    assert_eq!(client.shut_down_and_exit().status.code(), Some(0));
}

#[test]
fn an_edit_that_cannot_be_read_ends_in_words_on_the_text_and_never_in_an_old_fine() {
    for broken in [
        // Not JSON, not the protocol's shape, not a message.
        "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didChange\",\"params\":{",
        "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didChange\",\"params\":{\"textDocument\":{\"uri\":\"file:///a.pick\",\"version\":2},\"contentChanges\":7}}",
        "{\"method\":\"textDocument/didChange\",\"params\":{}}",
    ] {
        let mut client = Client::session();
        client.open(A, 1, "fine");
        assert_eq!(client.diagnostics_of(A, 1)["diagnostics"], json!([]));
        client.raw(format!("Content-Length: {}\r\n\r\n{broken}", broken.len()).as_bytes());
        let lost = client.diagnostics(A);
        let words = lost["diagnostics"][0]["message"].as_str().unwrap();
        assert!(words.contains("was NOT checked"), "{broken}: {words}");
        assert_eq!(lost["diagnostics"][0]["severity"], 1);
        client.change(A, 3, &json!([{ "text": "still not ours" }]));
        assert_eq!(
            client.diagnostics_of(A, 3)["diagnostics"][0]["code"],
            "internal-error"
        );
        client.close(A);
        client.open(A, 4, "fine");
        assert_eq!(
            client.diagnostics_of(A, 4)["diagnostics"],
            json!([]),
            "{broken}"
        );
    }
}
