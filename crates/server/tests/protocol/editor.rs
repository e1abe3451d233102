//! What an editor asks of the real server, in each way of counting.

use crate::client::{Client, LIFT_SERVER, position, range};
use plumbhook_checks::example::{FILES, ROOT, files};
use serde_json::{Value, json};

use tempfile::TempDir;

/// The clean lift with wide letters in front of what is asked, in a folder of its own.
struct Editor {
    folder: TempDir,
    client: Client,
    text: String,
    encoding: &'static str,
}

const ENCODINGS: [&str; 3] = ["utf-8", "utf-16", "utf-32"];

impl Editor {
    fn new(encoding: &'static str, ending: &str, more: &Value) -> Self {
        let folder = tempfile::tempdir().unwrap();
        for (name, text) in files(&[]).unwrap() {
            std::fs::write(folder.path().join(name), text).unwrap();
        }
        std::fs::write(folder.path().join("plumbhook.toml"), ROOT).unwrap();
        // One letter of four bytes, two units of UTF-16, one of UTF-32, and one of two bytes.
        let text = FILES[2]
            .1
            .replace("load cover \"Pump", "load cover \"\u{1F3D7} Über Pump");
        let text = text.replace('\n', ending);
        let mut client = Client::start_program(LIFT_SERVER);
        let folders =
            json!([{ "uri": format!("file://{}", folder.path().display()), "name": "w" }]);
        let mut capabilities = more.clone();
        capabilities["general"] = json!({ "positionEncodings": [encoding] });
        let params = json!({ "capabilities": capabilities, "workspaceFolders": folders });
        let answer = client.ask("initialize", &params);
        assert_eq!(
            answer["result"]["capabilities"]["positionEncoding"],
            encoding
        );
        client.tell("initialized", &json!({}));
        let mut it = Self {
            folder,
            client,
            text,
            encoding,
        };
        let uri = it.uri("cover.pick");
        let text = it.text.clone();
        it.client.open(&uri, 1, &text);
        it
    }

    fn uri(&self, name: &str) -> String {
        format!("file://{}", self.folder.path().join(name).display())
    }

    /// Line and column of a stretch of the job at `^`, counted by hand in this editor's way.
    fn at(&self, marked: &str) -> (u32, u32) {
        let stretch = marked.replace('^', "");
        let byte = self.text.find(&stretch).unwrap() + marked.find('^').unwrap();
        let before = &self.text[..byte];
        let line = before.matches('\n').count();
        let column = before.rsplit('\n').next().unwrap();
        (u32::try_from(line).unwrap(), self.count(column))
    }

    fn count(&self, text: &str) -> u32 {
        let count = match self.encoding {
            "utf-8" => text.len(),
            "utf-16" => text.encode_utf16().count(),
            _ => text.chars().count(),
        };
        u32::try_from(count).unwrap()
    }

    fn ask(&mut self, method: &str, marked: &str, more: &Value) -> Value {
        let (line, column) = self.at(marked);
        let mut params = position(&self.uri("cover.pick"), line, column);
        for (key, value) in more.as_object().unwrap() {
            params[key] = value.clone();
        }
        let answer = self.client.ask(method, &params);
        assert!(answer.get("error").is_none(), "{answer}");
        answer["result"].clone()
    }

    fn ask_file(&mut self, method: &str, more: &Value) -> Value {
        let mut params = json!({ "textDocument": { "uri": self.uri("cover.pick") } });
        for (key, value) in more.as_object().unwrap() {
            params[key] = value.clone();
        }
        let answer = self.client.ask(method, &params);
        assert!(answer.get("error").is_none(), "{answer}");
        answer["result"].clone()
    }

    fn type_in(&mut self, version: i64, marked: &str, new: &str) {
        let at = self.at(marked);
        let uri = self.uri("cover.pick");
        self.client.change(
            &uri,
            version,
            &json!([{ "range": range(at, at), "text": new }]),
        );
        let stretch = marked.replace('^', "");
        let byte = self.text.find(&stretch).unwrap() + marked.find('^').unwrap();
        self.text.insert_str(byte, new);
    }
}

fn in_each(test: impl Fn(Editor)) {
    for encoding in ENCODINGS {
        for ending in ["\n", "\r\n"] {
            test(Editor::new(encoding, ending, &json!({})));
        }
    }
}

fn labels(answer: &Value) -> Vec<&str> {
    let items = answer.as_array().unwrap().iter();
    items.map(|it| it["label"].as_str().unwrap()).collect()
}

#[test]
fn completion_replaces_the_word_that_is_typed_behind_wide_letters_too() {
    in_each(|mut editor| {
        editor.type_in(2, "  carries    ^cover", "\"Ü\u{1F3D7}\" ");
        let answer = editor.ask("textDocument/completion", "\u{1F3D7}\" co^ver", &json!({}));
        // A quotation is no load, so nothing but words fits; the stretch is what is looked at.
        for item in answer.as_array().unwrap() {
            let start = editor.at("\u{1F3D7}\" ^cover");
            let end = editor.at("\u{1F3D7}\" cover^");
            assert_eq!(item["textEdit"]["range"], range(start, end));
        }
        assert!(labels(&answer).contains(&"attitude"), "{answer}");
        let answer = editor.ask(
            "textDocument/completion",
            "  by         bri^dge",
            &json!({}),
        );
        assert!(labels(&answer).contains(&"bridge"), "{answer}");
        let (line, column) = editor.at("  by         ^bridge");
        assert_eq!(
            answer[0]["textEdit"]["range"],
            range((line, column), (line, column + 6))
        );
    });
}

#[test]
fn snippets_go_to_those_who_know_them() {
    let can = json!({ "textDocument": { "completion": { "completionItem": { "snippetSupport": true } } } });
    for (capabilities, format, text) in [
        (can, json!(2), "load ${1:name} \"${2:title}\"\n  $0"),
        (json!({}), Value::Null, "load "),
    ] {
        let mut editor = Editor::new("utf-16", "\n", &capabilities);
        let at = "at most 3 deg\n^";
        editor.type_in(2, at, "\n");
        let answer = editor.ask("textDocument/completion", "at most 3 deg\n^", &json!({}));
        let items = answer.as_array().unwrap();
        let load = items.iter().find(|it| it["label"] == "load").unwrap();
        assert_eq!(load["insertTextFormat"], format);
        assert_eq!(load["textEdit"]["newText"], text);
    }
}

#[test]
fn results_stand_at_the_ends_of_their_lines_within_the_range_asked_for() {
    in_each(|mut editor| {
        editor.type_in(
            2,
            "A B C to ring-2, through bow-12, rope-32-long-5, bow-12^",
            "  # Ü\u{1F3D7}",
        );
        let (line, end) = editor.at("# Ü\u{1F3D7}^");
        let asked = json!({ "range": range((line, 0), (line, 3)) });
        let answer = editor.ask_file("textDocument/inlayHint", &asked);
        assert_eq!(answer.as_array().unwrap().len(), 1, "{answer}");
        assert_eq!(
            answer[0]["position"],
            json!({ "line": line, "character": end })
        );
        assert_eq!(answer[0]["paddingLeft"], true);
        let label = answer[0]["label"].as_str().unwrap();
        assert!(
            label.contains("sling-rating") && label.contains(" of 10 t ("),
            "{label}"
        );
    });
}

#[test]
fn references_reach_other_files_with_and_without_the_declaration() {
    in_each(|mut editor| {
        for (declaration, count) in [(true, 3), (false, 2)] {
            let more = json!({ "context": { "includeDeclaration": declaration } });
            let answer = editor.ask("textDocument/references", "through ^bow-12", &more);
            assert_eq!(answer.as_array().unwrap().len(), count, "{answer}");
        }
        let marks = editor.ask(
            "textDocument/documentHighlight",
            "through ^bow-12",
            &json!({}),
        );
        assert_eq!(marks.as_array().unwrap().len(), 2);
        assert_eq!(
            marks[0]["range"]["start"]["character"],
            editor.at("through ^bow-12").1
        );
    });
}

#[test]
fn a_rename_edits_all_files_with_their_versions_and_a_clash_is_told_in_words() {
    let can = json!({ "workspace": { "workspaceEdit": { "documentChanges": true } } });
    let mut editor = Editor::new("utf-16", "\r\n", &can);
    let name = editor.ask("textDocument/prepareRename", "through ^bow-12", &json!({}));
    assert_eq!(name["placeholder"], "bow-12");
    let more = json!({ "newName": "bow-13" });
    let answer = editor.ask("textDocument/rename", "through ^bow-12", &more);
    let files = answer["documentChanges"].as_array().unwrap();
    let of = |uri: &str| {
        files
            .iter()
            .find(|it| it["textDocument"]["uri"] == uri)
            .unwrap()
    };
    let job = of(&editor.uri("cover.pick"));
    assert_eq!(job["textDocument"]["version"], 1);
    assert_eq!(job["edits"].as_array().unwrap().len(), 2);
    let yard = of(&editor.uri("yard.pick"));
    assert_eq!(yard["textDocument"]["version"], Value::Null);
    assert_eq!(yard["edits"][0]["newText"], "bow-13");

    let (line, column) = editor.at("through ^bow-12");
    let mut params = position(&editor.uri("cover.pick"), line, column);
    params["newName"] = json!("cover");
    let answer = editor.client.ask("textDocument/rename", &params);
    assert_eq!(answer["error"]["code"], -32803);
    let why = answer["error"]["message"].as_str().unwrap();
    assert!(why.contains("the name of a load in"), "{why}");
}

#[test]
fn a_rename_for_a_client_without_versions_is_a_list_for_each_file() {
    let mut editor = Editor::new("utf-8", "\n", &json!({}));
    let more = json!({ "newName": "bow-13" });
    let answer = editor.ask("textDocument/rename", "through ^bow-12", &more);
    let yard = editor.uri("yard.pick");
    assert_eq!(answer["changes"][yard].as_array().unwrap().len(), 1);
}

#[test]
fn symbols_folds_and_selections_count_as_the_client_does() {
    let tree = json!({ "textDocument": { "documentSymbol": { "hierarchicalDocumentSymbolSupport": true } } });
    for encoding in ENCODINGS {
        let mut editor = Editor::new(encoding, "\r\n", &tree);
        let answer = editor.ask_file("textDocument/documentSymbol", &json!({}));
        let load = &answer[1];
        assert_eq!(
            (&load["name"], &load["detail"]),
            (
                &json!("cover"),
                &json!("load, \u{1F3D7} Über Pump cover, cast steel")
            )
        );
        let start = editor.at("load ^cover");
        assert_eq!(load["selectionRange"], range(start, (start.0, start.1 + 5)));
        let last = editor.at("eye-20 at A B C^");
        assert_eq!(load["range"], range((start.0, 0), last));

        let folds = editor.ask_file("textDocument/foldingRange", &json!({}));
        assert_eq!(folds[0]["startLine"], 1);

        let (line, column) = editor.at("Über ^Pump");
        let asked = json!({ "positions": [{ "line": line, "character": column }] });
        let answer = editor.ask_file("textDocument/selectionRange", &asked);
        let (from, to) = (editor.at("cover ^\"\u{1F3D7}"), editor.at("cast steel\"^"));
        assert_eq!(answer[0]["range"], range(from, to));
        assert!(answer[0]["parent"]["range"].is_object());
    }
}

#[test]
fn symbols_of_the_workspace_are_found_by_some_letters() {
    let mut editor = Editor::new("utf-16", "\n", &json!({}));
    let answer = editor
        .client
        .ask("workspace/symbol", &json!({ "query": "bw12" }));
    let found = &answer["result"][0];
    assert_eq!(found["name"], "bow-12");
    assert_eq!(found["location"]["uri"], json!(editor.uri("yard.pick")));
}

#[test]
fn colours_are_told_by_distance_in_the_clients_units() {
    in_each(|mut editor| {
        let (line, _) = editor.at("load ^cover");
        let asked = json!({ "range": range((line, 0), (line, 9)) });
        let answer = editor.ask_file("textDocument/semanticTokens/range", &asked);
        let title = editor.count("\"\u{1F3D7} Über Pump cover, cast steel\"");
        // Word, name that is declared here, quotation: each as line and column from the last, length, class.
        let expected = json!([line, 0, 4, 0, 0, 0, 5, 5, 2, 1, 0, 6, title, 7, 0]);
        assert_eq!(answer["data"], expected);
        let all = editor.ask_file("textDocument/semanticTokens/full", &json!({}));
        assert!(all["data"].as_array().unwrap().len() > 400);
    });
}

#[test]
fn formatting_writes_what_the_formatter_writes() {
    in_each(|mut editor| {
        editor.type_in(2, "  tilt       at^ most", "   ");
        let options = json!({ "options": { "tabSize": 2, "insertSpaces": true } });
        let answer = editor.ask_file("textDocument/formatting", &options);
        let edit = &answer[0];
        let from = u32::try_from(edit["range"]["start"]["line"].as_u64().unwrap()).unwrap();
        assert!(from <= editor.at("  tilt       at^").0);
        let new = edit["newText"].as_str().unwrap();
        assert!(new.contains("  tilt       at most 3 deg"), "{new}");
        let (line, _) = editor.at("  tilt       at^");
        let mut asked = options.clone();
        asked["range"] = range((line, 0), (line + 1, 0));
        let answer = editor.ask_file("textDocument/rangeFormatting", &asked);
        assert_eq!(answer.as_array().unwrap().len(), 1, "{answer}");
        assert!(
            answer[0]["newText"]
                .as_str()
                .unwrap()
                .starts_with("move M1")
        );
    });
}

#[test]
fn a_client_is_told_to_ask_for_results_again_when_the_yard_changes_under_an_open_job() {
    let can = json!({ "workspace": { "inlayHint": { "refreshSupport": true } } });
    let mut editor = Editor::new("utf-16", "\n", &can);
    let yard = editor.uri("yard.pick");
    editor.client.open(&yard, 1, FILES[0].1);
    editor.client.wait("a refresh", |message| {
        message["method"] == "workspace/inlayHint/refresh"
    });
}

#[test]
fn a_pulled_job_brings_what_its_checks_say_in_the_closed_plant_and_yard() {
    let can = json!({
        "textDocument": { "diagnostic": { "relatedDocumentSupport": true } },
        "workspace": { "diagnostics": { "refreshSupport": true } },
    });
    let mut editor = Editor::new("utf-16", "\n", &can);
    let plant = editor.folder.path().join("hall.plant.pick");
    let text = FILES[1]
        .1
        .replace("covers pad 380 kPa", "covers pad 380 kPa more");
    std::fs::write(&plant, text).unwrap();
    let changed = json!({ "changes": [{ "uri": editor.uri("hall.plant.pick"), "type": 2 }] });
    editor
        .client
        .tell("workspace/didChangeWatchedFiles", &changed);
    let report = editor.ask_file("textDocument/diagnostic", &json!({}));
    let related = &report["relatedDocuments"][editor.uri("hall.plant.pick")];
    let mut items = related["items"].as_array().unwrap().iter();
    assert!(items.any(|it| it["code"] == "line-not-read"), "{report:#}");
}

#[test]
fn questions_about_what_is_no_file_of_ours_are_answered_with_nothing() {
    let mut editor = Editor::new("utf-16", "\n", &json!({}));
    let none = position("file:///nowhere/else.pick", 3, 3);
    for method in [
        "textDocument/completion",
        "textDocument/documentHighlight",
        "textDocument/prepareRename",
        "textDocument/documentSymbol",
        "textDocument/foldingRange",
        "textDocument/semanticTokens/full",
    ] {
        let answer = editor.client.ask(method, &none);
        assert_eq!(answer["result"], Value::Null, "{method}: {answer}");
        assert!(answer.get("error").is_none(), "{method}: {answer}");
    }
}
