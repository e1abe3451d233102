//! The real server over pipes: what an editor is told is what `check()` says.

use crate::client::{Client, LIFT_SERVER, is_report, words};
use plumbhook_checks::example::{FILES, ROOT};
use plumbhook_workspace::{Cancel, Disk, Targets, Workspace};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

fn write(folder: &Path, change: &[(&str, &str)]) {
    for (name, text) in plumbhook_checks::example::files(change).unwrap() {
        std::fs::write(folder.join(name), text).unwrap();
    }
    std::fs::write(folder.join("plumbhook.toml"), ROOT).unwrap();
}

fn uri(folder: &Path, name: &str) -> String {
    format!("file://{}", folder.join(name).display())
}

fn session(folder: &Path) -> Client {
    let mut client = Client::start_program(LIFT_SERVER);
    let folders = json!([{ "uri": format!("file://{}", folder.display()), "name": "w" }]);
    let params = json!({ "capabilities": {}, "workspaceFolders": folders });
    client.ask("initialize", &params);
    client.tell("initialized", &json!({}));
    client
}

/// Code, severity, line and fact of each mark, by file.
type Marks = BTreeMap<String, Vec<(String, u64, u64, String)>>;

/// What the command line's `check()` has to say aloud, by file, counted from it alone.
fn checked(folder: &Path) -> Marks {
    let mut workspace = Workspace::new(Arc::new(Disk));
    workspace.folders(&[folder.to_owned()]);
    let snapshot = workspace.snapshot();
    let checked = snapshot.check(&Targets::All, &Cancel::default()).unwrap();
    let mut marks = Marks::new();
    let mut mark = |origin, code: &str, severity, fact: &str| {
        let at = snapshot.locate(origin).unwrap();
        let file = uri(
            folder,
            at.path.strip_prefix(folder).unwrap().to_str().unwrap(),
        );
        let one = (
            code.to_owned(),
            severity,
            u64::from(at.line),
            fact.to_owned(),
        );
        marks.entry(file).or_default().push(one);
    };
    let severity = |severity| match severity {
        plumbhook_sheet::Severity::Error => Some(1),
        plumbhook_sheet::Severity::Warning => Some(2),
        plumbhook_sheet::Severity::NotYetDue => Some(3),
        plumbhook_sheet::Severity::Quiet => None,
    };
    for finding in checked.cases.iter().flat_map(|case| &case.findings) {
        if let Some(severity) = severity(finding.severity) {
            let aspect = &finding.aspect;
            mark(
                &aspect.primary,
                finding.identity.rule,
                severity,
                &aspect.headline,
            );
        }
    }
    for notice in &checked.notices {
        let severity = severity(notice.code.severity).unwrap();
        mark(&notice.origin, notice.code.code, severity, &notice.say);
    }
    for list in marks.values_mut() {
        list.sort();
    }
    marks
}

/// What the editor is told, by file.
fn told(client: &mut Client, files: usize) -> Marks {
    let mut marks = Marks::new();
    for _ in 0..files {
        let report = client.wait("a list", |message| {
            message["method"] == "textDocument/publishDiagnostics"
        });
        let params = &report["params"];
        let list = params["diagnostics"]
            .as_array()
            .unwrap()
            .iter()
            .map(|mark| {
                let message = mark["message"].as_str().unwrap();
                let fact = message.lines().next().unwrap_or_default();
                (
                    mark["code"].as_str().unwrap().to_owned(),
                    mark["severity"].as_u64().unwrap(),
                    mark["range"]["start"]["line"].as_u64().unwrap(),
                    fact.trim_start_matches("not yet due: ").to_owned(),
                )
            });
        let mut list: Vec<_> = list.collect();
        list.sort();
        marks.insert(params["uri"].as_str().unwrap().to_owned(), list);
    }
    marks
}

#[test]
fn the_editor_is_told_what_check_says() {
    let folder = tempfile::tempdir().unwrap();
    // Over, cannot tell, a broken line, a wrong name, not yet due: in two files.
    write(
        folder.path(),
        &[
            ("rated      vertical 10.0 t", "rated      vertical 5.0 t"),
            ("          from tag quote \"WLL 25 t\"", ""),
            (
                "revision   A 2026-10-01 stage bid",
                "revision   A 2026-10-01 stage bidd",
            ),
            ("covers pad 380 kPa", "covers pad 380 kPa more"),
        ],
    );
    let expected = checked(folder.path());
    assert!(expected.len() >= 2, "{expected:#?}");
    let mut client = session(folder.path());
    assert_eq!(told(&mut client, expected.len()), expected);
    client.shut_down_and_exit();
}

#[test]
fn an_edit_in_the_yard_is_told_at_the_job_and_taken_back_when_the_yard_is_closed() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), &[]);
    let mut client = session(folder.path());
    let (yard, job) = (
        uri(folder.path(), "yard.pick"),
        uri(folder.path(), "cover.pick"),
    );
    let weak = FILES[0].1.replace("rated      25 t ", "rated      5 t ");
    client.open(&yard, 1, &weak);
    let over = client.wait("an overload", |message| {
        is_report(message, &job) && message["params"]["diagnostics"] != json!([])
    });
    let first = &over["params"]["diagnostics"][0];
    assert_eq!(
        (&first["code"], &first["severity"]),
        (&json!("ring-rating"), &json!(1))
    );
    client.close(&yard);
    client.wait("no overload", |message| {
        is_report(message, &job) && message["params"]["diagnostics"] == json!([])
    });
    client.shut_down_and_exit();
}

#[test]
fn a_name_can_be_hovered_and_followed() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), &[]);
    let mut client = session(folder.path());
    let job = uri(folder.path(), "cover.pick");
    client.open(&job, 1, FILES[2].1);
    let line = FILES[2]
        .1
        .lines()
        .position(|line| line.contains("through bow-12"));
    let line = u32::try_from(line.unwrap()).unwrap();
    let hovered = client.hovered(&job, line, 42);
    assert!(hovered.starts_with("**bow-12** shackle"), "{hovered}");
    let asked = crate::client::position(&job, line, 42);
    let answer = client.ask("textDocument/definition", &asked);
    assert_eq!(
        answer["result"][0]["uri"],
        json!(uri(folder.path(), "yard.pick"))
    );
    let none: Value = client.ask("textDocument/hover", &crate::client::position(&job, 0, 0));
    assert_eq!(none["result"], Value::Null);
    assert!(!words(&client.ask("textDocument/hover", &asked)).is_empty());
    client.shut_down_and_exit();
}
