//! "Pull Diagnostics": a client that asks is sent nothing, and what it gets is what others are sent.

use crate::client::{Client, is_report};
use serde_json::{Value, json};

const A: &str = "file:///jobs/a.pick";
const B: &str = "file:///jobs/b.pick";

fn capabilities() -> Value {
    json!({
        "textDocument": { "diagnostic": { "relatedDocumentSupport": true } },
        "workspace": { "diagnostics": { "refreshSupport": true } },
    })
}

fn pulling() -> Client {
    Client::session_with(&json!({ "capabilities": capabilities() }))
}

fn pull(client: &mut Client, uri: &str, before: Option<&str>) -> Value {
    let mut params = json!({ "textDocument": { "uri": uri } });
    if let Some(before) = before {
        params["previousResultId"] = json!(before);
    }
    client.ask("textDocument/diagnostic", &params)["result"].clone()
}

fn pull_all(client: &mut Client, before: &Value) -> Value {
    let params = json!({ "previousResultIds": before });
    client.ask("workspace/diagnostic", &params)["result"]["items"].clone()
}

fn asked_again(client: &mut Client) {
    client.wait("a refresh", |message| {
        message["method"] == "workspace/diagnostic/refresh"
    });
}

#[test]
fn pulling_is_offered_to_who_can_pull_alone() {
    let offer = |capabilities: Value| {
        let mut client = Client::start();
        let answer = client.ask("initialize", &json!({ "capabilities": capabilities }));
        answer["result"]["capabilities"]["diagnosticProvider"].clone()
    };
    assert_eq!(
        offer(capabilities()),
        json!({
            "identifier": "plumbhook",
            "interFileDependencies": true,
            "workspaceDiagnostics": true,
        })
    );
    assert_eq!(offer(json!({})), Value::Null);
}

#[test]
fn who_can_pull_but_cannot_be_told_to_ask_again_is_sent_everything() {
    let mut capabilities = capabilities();
    capabilities["workspace"] = json!({});
    let mut client = Client::session_with(&json!({ "capabilities": capabilities }));
    client.open(B, 1, "over b");
    client.open(A, 1, "uses b.pick");
    assert_ne!(client.diagnostics_of(A, 1)["diagnostics"], json!([]));
    client.change(B, 2, &json!([{ "text": "fine" }]));
    assert_eq!(client.diagnostics(A)["diagnostics"], json!([]));
}

#[test]
fn what_is_pulled_is_what_is_pushed() {
    let texts = [(B, "\n°\nover the °beam"), (A, "uses b.pick")];
    let mut pushed = Client::session();
    let mut pulled = pulling();
    for (uri, text) in texts {
        pushed.open(uri, 1, text);
        pulled.open(uri, 1, text);
    }
    let of = |all: &Value, uri: &str| {
        let mut items = all.as_array().unwrap().iter();
        items.find(|it| it["uri"] == uri).unwrap()["items"].clone()
    };
    let all = pull_all(&mut pulled, &json!([]));
    for (uri, _) in texts {
        // B was opened first, so its own first list may be followed by none.
        let expected = pushed.diagnostics_of(uri, 1)["diagnostics"].clone();
        assert_ne!(expected, json!([]));
        let report = pull(&mut pulled, uri, None);
        assert_eq!(report["kind"], "full");
        assert_eq!(report["items"], expected, "{uri}");
        assert_eq!(of(&all, uri), expected, "{uri}");
    }
    let said = pulled.everything_so_far();
    let sent = said.iter().any(|it| is_report(it, A) || is_report(it, B));
    assert!(!sent, "{said:#?}");
}

#[test]
fn the_same_list_is_not_sent_twice_and_another_one_is() {
    let mut client = pulling();
    client.open(A, 1, "over a");
    let first = pull(&mut client, A, None);
    let id = first["resultId"].as_str().unwrap().to_owned();
    client.change(A, 2, &json!([{ "text": "over a\nfine" }]));
    let same = pull(&mut client, A, Some(&id));
    assert_eq!(same, json!({ "kind": "unchanged", "resultId": id }));
    client.change(A, 3, &json!([{ "text": "over b" }]));
    let other = pull(&mut client, A, Some(&id));
    assert_eq!(other["kind"], "full");
    assert_ne!(other["resultId"], json!(id));
    let all = pull_all(
        &mut client,
        &json!([{ "uri": A, "value": other["resultId"] }]),
    );
    assert_eq!(all[0]["kind"], "unchanged");
    // A result that the client has of a file that has no findings any more is taken back.
    client.change(A, 4, &json!([{ "text": "fine" }]));
    let all = pull_all(
        &mut client,
        &json!([{ "uri": A, "value": other["resultId"] }]),
    );
    assert_eq!(
        (&all[0]["kind"], &all[0]["items"]),
        (&json!("full"), &json!([]))
    );
    assert_eq!(all[0]["version"], 4);
}

#[test]
fn a_client_is_told_to_ask_again_where_another_file_has_another_list() {
    let mut client = pulling();
    client.open(B, 1, "fine");
    client.open(A, 1, "uses b.pick");
    assert_eq!(pull(&mut client, A, None)["items"], json!([]));
    client.change(B, 2, &json!([{ "text": "over b" }]));
    asked_again(&mut client);
    assert_eq!(
        pull(&mut client, A, None)["items"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
}

#[test]
fn an_edit_that_changes_nothing_elsewhere_tells_nobody_to_ask_again() {
    let mut client = pulling();
    client.open(A, 1, "fine");
    client.change(A, 2, &json!([{ "text": "over a" }]));
    assert_eq!(
        pull(&mut client, A, None)["items"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    std::thread::sleep(std::time::Duration::from_millis(200));
    let said = client.everything_so_far();
    assert!(
        said.iter().all(|it| it.get("method").is_none()),
        "{said:#?}"
    );
}

#[test]
fn findings_of_closed_files_come_with_the_file_that_they_are_about_and_are_taken_back() {
    let folder = tempfile::tempdir().unwrap();
    let uri = |name: &str| format!("file://{}", folder.path().join(name).display());
    std::fs::write(folder.path().join("a.pick"), "uses b.pick").unwrap();
    std::fs::write(folder.path().join("b.pick"), "fine").unwrap();
    let folders = json!([{ "uri": format!("file://{}", folder.path().display()), "name": "w" }]);
    let params = json!({ "capabilities": capabilities(), "workspaceFolders": folders });
    let mut client = Client::session_with(&params);
    client.open(&uri("b.pick"), 1, "over b");
    let report = pull(&mut client, &uri("b.pick"), None);
    let related = &report["relatedDocuments"][uri("a.pick")];
    assert_eq!(related["items"][0]["code"], "uses", "{report:#}");
    client.change(&uri("b.pick"), 2, &json!([{ "text": "fine" }]));
    let report = pull(&mut client, &uri("b.pick"), None);
    assert_eq!(
        report["relatedDocuments"][uri("a.pick")]["items"],
        json!([])
    );
}

#[test]
fn a_check_that_fails_and_a_text_that_is_lost_are_never_an_empty_list() {
    let mut client = pulling();
    client.open(A, 1, "crash-check");
    let report = pull(&mut client, A, None);
    assert_eq!(report["items"][0]["code"], "internal-error");
    let elsewhere = pull(&mut client, B, None);
    assert_eq!(elsewhere["items"][0]["code"], "internal-error");
    client.change(A, 2, &json!([{ "text": "fine" }]));
    assert_eq!(pull(&mut client, A, None)["items"], json!([]));
    client.change(A, 3, &json!([{ "range": "nonsense", "text": "" }]));
    assert_eq!(
        pull(&mut client, A, None)["items"][0]["code"],
        "internal-error"
    );
}
