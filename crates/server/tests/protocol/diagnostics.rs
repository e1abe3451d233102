//! "`PublishDiagnostics` Notification": the whole list each time, with its version; the server owns it.

use crate::client::{Client, is_report, range};
use serde_json::json;

const A: &str = "file:///jobs/a.pick";
const B: &str = "file:///jobs/b.pick";
const C: &str = "file:///jobs/c.pick";

#[test]
fn a_finding_has_all_that_the_protocol_can_carry() {
    let mut client = Client::session();
    client.open(B, 4, "\n°\nover the °beam");
    client.open(A, 9, "uses b.pick");
    let report = client.diagnostics_of(A, 9);
    assert_eq!(
        report["diagnostics"],
        json!([{
            "range": range((0, 0), (0, 4)),
            "severity": 2,
            "code": "uses",
            "codeDescription": { "href": "https://rules.example/uses" },
            "source": "plumbhook",
            "message": "what it uses is over",
            "relatedInformation": [{
                "location": { "uri": B, "range": range((2, 5), (2, 14)) },
                "message": "here",
            }],
        }])
    );
}

#[test]
fn an_edit_tells_its_own_file_always_and_others_only_if_their_list_changed() {
    let mut client = Client::session();
    client.open(B, 1, "fine");
    client.diagnostics_of(B, 1);
    client.open(A, 1, "uses b.pick");
    client.diagnostics_of(A, 1);

    client.change(B, 2, &json!([{ "text": "fine too" }]));
    assert_eq!(client.diagnostics_of(B, 2)["diagnostics"], json!([]));
    client.change(B, 3, &json!([{ "text": "over b" }]));
    assert_eq!(
        client.diagnostics_of(B, 3)["diagnostics"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    let other = client.diagnostics(A);
    assert_eq!(other["version"], 1);
    assert_eq!(
        other["diagnostics"].as_array().unwrap().len(),
        1,
        "version 2 of b must not tell a"
    );

    client.change(B, 4, &json!([{ "text": "fine" }]));
    client.diagnostics_of(B, 4);
    assert_eq!(client.diagnostics(A)["diagnostics"], json!([]));
}

#[test]
fn every_file_edited_while_a_check_runs_is_told_though_its_own_check_was_passed_over() {
    let mut client = Client::session();
    client.open(A, 1, &"slow\n".repeat(20));
    for (uri, text) in [(B, "fine"), (C, "fine"), (A, "fine")] {
        // Apart, so that each is an order of its own while the first check sleeps.
        std::thread::sleep(std::time::Duration::from_millis(15));
        client.open(uri, 2, text);
    }
    for uri in [A, B, C] {
        assert_eq!(
            client.diagnostics_of(uri, 2)["diagnostics"],
            json!([]),
            "{uri}"
        );
    }
}

#[test]
fn closing_a_text_that_is_on_no_disk_clears_its_list() {
    let mut client = Client::session();
    client.open(A, 1, "over a");
    assert_eq!(
        client.diagnostics(A)["diagnostics"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    client.close(A);
    let cleared = client.diagnostics(A);
    assert_eq!(cleared["diagnostics"], json!([]));
    assert!(cleared.get("version").is_none());
}

#[test]
fn the_open_text_beats_the_disk_and_after_closing_the_disk_counts() {
    // The protocol: where a language has a project system, diagnostics are not cleared when a file
    // closes; the list must be that of the disk, though, not that of the buffer thrown away.
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.pick");
    std::fs::write(&path, "over disk").unwrap();
    let root = format!("file://{}", folder.path().display());
    let uri = format!("{root}/a.pick");
    let mut client = Client::session_with(&json!({ "capabilities": {}, "rootUri": root }));
    assert_eq!(
        client.diagnostics(&uri)["diagnostics"][0]["message"],
        "disk is over"
    );
    client.open(&uri, 1, "over buffer");
    assert_eq!(
        client.diagnostics_of(&uri, 1)["diagnostics"][0]["message"],
        "buffer is over"
    );
    client.close(&uri);
    let after = client.diagnostics(&uri);
    assert_eq!(after["diagnostics"][0]["message"], "disk is over");
    assert!(after.get("version").is_none(), "{after}");
}

#[test]
fn a_watched_file_that_changes_or_goes_refreshes_those_that_use_it() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("b.pick");
    std::fs::write(&path, "fine").unwrap();
    let root = format!("file://{}", folder.path().display());
    let (a, b) = (format!("{root}/a.pick"), format!("{root}/b.pick"));
    let mut client = Client::session_with(&json!({ "capabilities": {}, "rootUri": root }));
    client.open(&a, 1, "uses b.pick");
    assert_eq!(client.diagnostics_of(&a, 1)["diagnostics"], json!([]));

    std::fs::write(&path, "over b").unwrap();
    let changed = |kind: u8| json!({ "changes": [{ "uri": b, "type": kind }] });
    client.tell("workspace/didChangeWatchedFiles", &changed(2));
    assert_eq!(
        client.diagnostics(&b)["diagnostics"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    assert_eq!(
        client.diagnostics(&a)["diagnostics"]
            .as_array()
            .unwrap()
            .len(),
        1
    );

    std::fs::remove_file(&path).unwrap();
    client.tell("workspace/didChangeWatchedFiles", &changed(3));
    assert_eq!(client.diagnostics(&b)["diagnostics"], json!([]));
    assert_eq!(client.diagnostics(&a)["diagnostics"], json!([]));
}

#[test]
fn a_text_of_another_scheme_is_not_followed_and_one_never_saved_is() {
    let mut client = Client::session();
    client.open("git:/jobs/a.pick?HEAD", 1, "over old");
    client.open("untitled:Untitled-1", 1, "over new");
    assert_eq!(
        client.diagnostics("untitled:Untitled-1")["diagnostics"][0]["message"],
        "new is over"
    );
    assert!(
        !client
            .everything_so_far()
            .iter()
            .any(|m| is_report(m, "git:/jobs/a.pick?HEAD"))
    );
}
