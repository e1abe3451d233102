//! "Initialize Request", "Initialized Notification", "Register Capability", workspace folders.

use crate::client::{Client, is_report, position};
use serde_json::{Value, json};
use std::path::Path;

const A: &str = "file:///a.pick";

#[test]
fn before_initialize_requests_are_refused_and_notifications_dropped() {
    let mut client = Client::start();
    client.open(A, 1, "over early");
    client.change(A, 2, &json!([{ "text": "over earlier" }]));
    let refused = client.ask("textDocument/hover", &position(A, 0, 0));
    assert_eq!(refused["error"]["code"], -32002, "{refused}");
    client.ask("initialize", &json!({ "capabilities": {} }));
    client.tell("initialized", &json!({}));
    let answer = client.ask("textDocument/hover", &position(A, 0, 0));
    assert!(answer["result"].is_null(), "{answer}");
    client.open(A, 7, "over late");
    let report = client.diagnostics(A);
    assert_eq!(
        (
            &report["version"],
            report["diagnostics"].as_array().unwrap().len()
        ),
        (&json!(7), 1)
    );
    assert!(!client.everything_so_far().iter().any(|m| is_report(m, A)));
}

#[test]
fn a_client_that_does_not_wait_for_answers_is_served() {
    let mut client = Client::start();
    client.request("initialize", &json!({ "capabilities": {} }));
    client.tell("initialized", &json!({}));
    client.open(A, 1, "over a");
    let id = client.hover(A, 0, 0);
    client.request("shutdown", &Value::Null);
    client.answer(1);
    let answer = client.answer(id);
    assert_eq!(crate::client::words(&answer), "over a|over");
    assert!(client.answer(3).get("error").is_none());
    client.tell("exit", &Value::Null);
    assert_eq!(client.end().status.code(), Some(0));
}

#[test]
fn a_second_initialize_is_refused_and_changes_nothing() {
    let mut client = Client::session();
    client.open(A, 1, "°over");
    let params = json!({ "capabilities": { "general": { "positionEncodings": ["utf-8"] } } });
    assert_eq!(client.ask("initialize", &params)["error"]["code"], -32600);
    client.change(
        A,
        2,
        &json!([{ "range": crate::client::range((0, 0), (0, 1)), "text": "" }]),
    );
    assert_eq!(client.hovered(A, 0, 0), "over|over");
}

#[test]
fn what_the_server_can_do_is_told() {
    let mut client = Client::start();
    let answer = client.ask(
        "initialize",
        &json!({ "capabilities": {}, "processId": null, "rootUri": null }),
    );
    let can = &answer["result"]["capabilities"];
    assert_eq!(
        can["textDocumentSync"],
        json!({ "openClose": true, "change": 2 })
    );
    assert_eq!(can["hoverProvider"], true);
    assert_eq!(can["definitionProvider"], true);
    assert_eq!(
        can["workspace"]["workspaceFolders"],
        json!({ "supported": true, "changeNotifications": true })
    );
    assert_eq!(answer["result"]["serverInfo"]["name"], "plumbhook");
}

#[test]
fn an_unknown_request_is_refused_and_an_unknown_notification_ignored() {
    let mut client = Client::session();
    assert_eq!(
        client.ask("plumbhook/nothing", &json!({}))["error"]["code"],
        -32601
    );
    client.tell("$/nothing", &json!({}));
    client.tell("plumbhook/nothing", &json!({}));
    client.tell("$/setTrace", &json!({ "value": "off" }));
    client.tell(
        "workspace/didChangeConfiguration",
        &json!({ "settings": null }),
    );
    client.open(A, 1, "first");
    assert_eq!(client.hovered(A, 0, 0), "first|first");
}

#[test]
fn files_are_watched_if_and_only_if_the_client_offers_it() {
    let offer =
        json!({ "workspace": { "didChangeWatchedFiles": { "dynamicRegistration": true } } });
    let mut client = Client::session_with(&json!({ "capabilities": offer }));
    let asked = client.wait("a registration", |m| {
        m["method"] == "client/registerCapability"
    });
    let registration = &asked["params"]["registrations"][0];
    assert_eq!(registration["method"], "workspace/didChangeWatchedFiles");
    assert_eq!(
        registration["registerOptions"]["watchers"],
        json!([{ "globPattern": "**/*.pick" }])
    );
    client.send(&json!({ "jsonrpc": "2.0", "id": asked["id"], "result": null }));
    assert_eq!(client.shut_down_and_exit().status.code(), Some(0));

    let mut client = Client::session();
    let seen = client.everything_so_far();
    assert!(
        !seen
            .iter()
            .any(|m| m["method"] == "client/registerCapability"),
        "{seen:?}"
    );
}

fn address(path: &Path) -> String {
    format!("file://{}", path.display())
}

#[test]
fn a_root_is_read_whichever_way_the_client_names_it() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("b.pick"), "over b").unwrap();
    let (path, uri) = (folder.path().display().to_string(), address(folder.path()));
    for params in [
        json!({ "capabilities": {}, "workspaceFolders": [{ "uri": uri, "name": "x" }] }),
        json!({ "capabilities": {}, "rootUri": uri, "workspaceFolders": null }),
        json!({ "capabilities": {}, "rootPath": path, "rootUri": null }),
    ] {
        let mut client = Client::session_with(&params);
        let report = client.diagnostics(&format!("{uri}/b.pick"));
        assert_eq!(report["diagnostics"][0]["message"], "b is over", "{params}");
        assert!(
            report.get("version").is_none(),
            "no one has it open: {report}"
        );
    }
}

#[test]
fn folders_come_and_go() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("b.pick"), "over b").unwrap();
    let uri = address(folder.path());
    let mut client = Client::session();
    let change =
        |added: Value, removed: Value| json!({ "event": { "added": added, "removed": removed } });
    let named = json!([{ "uri": uri, "name": "x" }]);
    client.tell(
        "workspace/didChangeWorkspaceFolders",
        &change(named.clone(), json!([])),
    );
    let file = format!("{uri}/b.pick");
    assert_eq!(
        client.diagnostics(&file)["diagnostics"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    client.tell(
        "workspace/didChangeWorkspaceFolders",
        &change(json!([]), named),
    );
    assert_eq!(client.diagnostics(&file)["diagnostics"], json!([]));
}
