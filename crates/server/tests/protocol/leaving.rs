//! "Exit Notification": code 0 after `shutdown`, else 1. "Shutdown Request". And a server whose
//! client is gone leaves.

use crate::client::{Client, FAKE_SERVER, LONG};
use serde_json::{Value, json};
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// "Within a second" with room for a loaded machine.
const SOON: Duration = Duration::from_secs(5);

#[test]
fn after_shutdown_and_exit_the_code_is_0_though_the_input_stays_open() {
    let ended = Client::session().shut_down_and_exit();
    assert_eq!(ended.status.code(), Some(0), "{}", ended.log);
    assert!(ended.took < SOON);
}

#[test]
fn exit_without_shutdown_is_1() {
    let mut client = Client::session();
    client.tell("exit", &Value::Null);
    assert_eq!(client.end().status.code(), Some(1));
    let mut client = Client::start();
    client.tell("exit", &Value::Null);
    assert_eq!(client.end().status.code(), Some(1), "before initialize");
}

#[test]
fn shutdown_with_null_parameters_and_exit_sent_in_one_go_are_answered_before_leaving() {
    let mut client = Client::session();
    client.send(&json!({ "jsonrpc": "2.0", "id": 77, "method": "shutdown", "params": null }));
    client.tell("exit", &Value::Null);
    let ended = client.end();
    assert_eq!(ended.status.code(), Some(0));
    assert!(
        ended
            .rest
            .iter()
            .any(|m| m["id"] == 77 && m.get("error").is_none())
    );
}

#[test]
fn the_end_of_input_is_the_end_though_a_request_runs() {
    let mut client = Client::session();
    client.open("file:///a.pick", 1, "hang-hover");
    client.hover("file:///a.pick", 0, 1);
    client.logged("a hover hangs");
    client.close_input();
    let ended = client.end();
    assert_eq!(ended.status.code(), Some(1), "without shutdown");
    assert!(ended.took < SOON, "{:?}", ended.took);
}

#[test]
fn the_end_of_input_after_shutdown_is_0_and_without_a_word_1() {
    let mut client = Client::session();
    client.ask("shutdown", &Value::Null);
    client.close_input();
    assert_eq!(client.end().status.code(), Some(0));
    let mut client = Client::start();
    client.close_input();
    assert_eq!(client.end().status.code(), Some(1));
}

#[test]
fn a_client_that_reads_no_more_is_gone_though_the_input_stays_open() {
    let mut process = Command::new(FAKE_SERVER)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    drop(process.stdout.take());
    let mut input = process.stdin.take().unwrap();
    let body = r#"{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}"#;
    write!(input, "Content-Length: {}\r\n\r\n{body}", body.len()).unwrap();
    input.flush().unwrap();
    let start = Instant::now();
    while process.try_wait().unwrap().is_none() {
        assert!(start.elapsed() < LONG, "it writes to nobody and stays");
        std::thread::sleep(Duration::from_millis(5));
    }
    assert_eq!(process.wait().unwrap().code(), Some(1));
}

#[test]
fn what_is_on_its_way_when_the_input_ends_is_still_answered() {
    let mut client = Client::session();
    client.open("file:///a.pick", 1, "over a");
    let id = client.hover("file:///a.pick", 0, 1);
    client.close_input();
    let ended = client.end();
    assert!(ended.rest.iter().any(|m| m["id"] == id), "{:?}", ended.rest);
    assert!(
        ended.rest.iter().any(|m| m["params"]["version"] == 1),
        "{:?}",
        ended.rest
    );
}

#[test]
fn nothing_but_exit_is_served_after_shutdown() {
    let mut client = Client::session();
    client.open("file:///a.pick", 1, "a");
    client.diagnostics("file:///a.pick");
    client.ask("shutdown", &Value::Null);
    client.open("file:///a.pick", 2, "over a");
    let refused = client.ask(
        "textDocument/hover",
        &crate::client::position("file:///a.pick", 0, 0),
    );
    // "If a server receives requests after a shutdown request those requests should error with
    // InvalidRequest."
    assert_eq!(refused["error"]["code"], -32600, "{refused}");
    client.tell("exit", &Value::Null);
    let ended = client.end();
    assert_eq!(ended.status.code(), Some(0));
    assert!(ended.took < LONG);
    assert!(
        !ended.rest.iter().any(|m| m["params"]["version"] == 2),
        "{:?}",
        ended.rest
    );
}
