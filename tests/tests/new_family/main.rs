//! A new family needs four files and one list line in each crate that it touches, and every face shows it. A unit, a
//! key and a published value need a row.
#![allow(clippy::expect_used, reason = "a test may fail")]

mod copy;
mod session;

use copy::{PATCH, ROWS, binary, cargo, done};
use plumbhook_checks::example;
use serde_json::{Value, json};
use session::Session;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

/// A tag line of 29 to 31 m: by the invented table it has to be 20 mm thick.
const TAG_LINE: &str =
    "tag-line tail\n  of         M1\n  long       30 m +/- 1 m\n  diameter   16 mm\n\n";

/// The same line in the new unit: 31.48 m, and 1 m more at the most.
const IN_NEW_UNIT: &str =
    "tag-line tail\n  of         M1\n  long       0.017 nmi +/- 1 m\n  diameter   16 mm\n\n";

/// The clean lift of the rules' examples with a tag line that is too thin.
fn lift() -> TempDir {
    lift_with(&[("move M1 ", &format!("{TAG_LINE}move M1 "))])
}

/// The clean lift of the rules' examples with these changes.
fn lift_with(changes: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().expect("a folder");
    let write = |name: &str, text: &str| {
        std::fs::write(folder.path().join(name), text).expect("a file");
    };
    write("plumbhook.toml", example::ROOT);
    for (name, text) in example::files(changes).expect("the clean lift") {
        write(name, &text);
    }
    folder
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(binary())
        .args(arguments)
        .current_dir(folder)
        .env("COLUMNS", "100")
        .output()
        .expect("the program runs")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// What one file's part of the patch does.
#[derive(Default)]
struct Part {
    new: bool,
    added: usize,
    taken: usize,
}

fn parts(patch: &str) -> BTreeMap<String, Part> {
    let mut parts: BTreeMap<String, Part> = BTreeMap::new();
    for chunk in patch.split("diff --git ").skip(1) {
        let file = chunk
            .lines()
            .find_map(|line| line.strip_prefix("+++ b/"))
            .expect("no file is taken away");
        let part = parts.entry(file.to_owned()).or_default();
        for line in chunk.lines().skip_while(|line| !line.starts_with("@@")) {
            part.added += usize::from(line.starts_with('+'));
            part.taken += usize::from(line.starts_with('-'));
        }
        part.new = chunk.contains("new file mode");
    }
    parts
}

/// The files that were there before, with the lines that each gains and loses.
fn touched(parts: &BTreeMap<String, Part>) -> Vec<(&str, usize, usize)> {
    parts
        .iter()
        .filter(|(_, part)| !part.new)
        .map(|(file, part)| (file.as_str(), part.added, part.taken))
        .collect()
}

#[test]
fn a_family_is_four_new_files_and_one_list_line_a_crate() {
    let parts = parts(PATCH);
    let new: Vec<&str> = parts
        .iter()
        .filter(|(_, part)| part.new)
        .map(|(file, _)| file.as_str())
        .collect();
    assert_eq!(
        new,
        [
            "crates/checks/src/rules/tag_line.rs",
            "crates/mechanics/src/tag_line.json",
            "crates/mechanics/src/tag_line.rs",
            "crates/model/src/entries/tag_line.rs",
        ]
    );
    assert_eq!(
        touched(&parts),
        [
            ("crates/checks/src/rules/mod.rs", 1, 0),
            ("crates/mechanics/src/lib.rs", 1, 0),
            ("crates/model/src/entries/mod.rs", 1, 0),
        ]
    );
}

#[test]
fn the_terminal_shows_its_finding_at_its_line() {
    let folder = lift();
    let said = run(folder.path(), &["check"]);
    let shown = text(&said.stdout);
    assert_eq!(said.status.code(), Some(1), "{shown}{}", text(&said.stderr));
    for wanted in [
        "tag-line-diameter",
        "tail needs 20 mm of 16 mm (125 %)",
        "diameter   16 mm",
        "a line of 20 mm or more would pass",
    ] {
        assert!(shown.contains(wanted), "`{wanted}` is not in:\n{shown}");
    }
}

#[test]
fn json_holds_its_whole_sheet() {
    let folder = lift();
    let said = run(folder.path(), &["check", "--format", "json"]);
    let told: Value = serde_json::from_slice(&said.stdout).expect("JSON");
    let checks = told["cases"][0]["checks"].as_array().expect("checks");
    let check = checks
        .iter()
        .find(|check| check["rule"] == "tag-line-diameter")
        .unwrap_or_else(|| panic!("no such check in {told}"));
    assert_eq!(check["outcome"], "over");
    assert_eq!(check["subject"], "tail");
    assert_eq!(check["case"], "cover/M1");
    let sheet = &check["sheet"];
    assert_eq!(sheet["demand"]["printed"], "20 mm");
    assert_eq!(sheet["capacity"]["printed"], "16 mm");
    let inputs = sheet["inputs"].as_array().map_or(0, Vec::len);
    assert_eq!(inputs, 2, "its length and its diameter: {sheet}");
    assert!(
        sheet["steps"].to_string().contains("invented"),
        "the table says where it comes from: {sheet}"
    );
}

#[test]
fn an_editor_marks_it_and_tells_it_under_the_pointer() {
    let folder = lift();
    let path = folder.path().join("cover.pick");
    let job = std::fs::read_to_string(&path).expect("the job");
    let line = |start: &str| {
        job.lines()
            .position(|line| line.trim_start().starts_with(start))
            .expect("a line")
    };
    let uri = format!("file://{}", path.display());
    let mut editor = Session::start(binary(), folder.path());
    editor.open(&uri, &job);
    let marks = editor.diagnostics(&uri);
    let mark = marks
        .iter()
        .find(|mark| mark["code"] == "tag-line-diameter")
        .unwrap_or_else(|| panic!("no such mark among {marks:?}"));
    assert_eq!(mark["range"]["start"]["line"], json!(line("diameter")));
    assert!(
        mark["message"].to_string().contains("20 mm of 16 mm"),
        "{mark}"
    );
    let on_word = editor.hover(&uri, line("tag-line"), 2);
    assert!(
        on_word.contains("steer a hanging load"),
        "hover on the entry: {on_word}"
    );
    let on_key = editor.hover(&uri, line("diameter"), 4);
    assert!(
        on_key.contains("Diameter of the line"),
        "hover on the key: {on_key}"
    );
    let text_of = |number: usize| job.lines().nth(number).unwrap_or_default();
    let name = line("tag-line");
    let on_name = editor.hover(&uri, name, text_of(name).find(' ').unwrap_or_default() + 1);
    assert!(
        on_name.contains("**over**") && on_name.contains("20 mm of 16 mm"),
        "hover on the name tells the finding: {on_name}"
    );
    let value = line("diameter");
    let on_value = editor.hover(
        &uri,
        value,
        text_of(value).find("16 mm").unwrap_or_default(),
    );
    assert!(
        on_value.contains("20 mm of 16 mm"),
        "hover on the value tells the finding: {on_value}"
    );
    editor.end();
}

#[test]
fn explain_tells_what_it_is_from_its_own_words() {
    let folder = lift();
    let said = run(folder.path(), &["explain", "tag-line-diameter"]);
    let shown = text(&said.stdout);
    assert_eq!(said.status.code(), Some(0), "{shown}");
    for wanted in [
        "A tag line is thick enough for its length to be held.",
        "Least diameter of a tag line (invented)",
        "a line of 30 m that is 16 mm thick",
    ] {
        assert!(shown.contains(wanted), "`{wanted}` is not in:\n{shown}");
    }
    let listed = text(&run(folder.path(), &["explain"]).stdout);
    assert!(listed.contains("tag-line-diameter"), "{listed}");
}

#[test]
fn a_unit_a_key_and_a_published_value_are_a_row_each() {
    let parts = parts(ROWS);
    assert_eq!(
        touched(&parts),
        [
            // A field and its help.
            ("crates/model/src/entries/load.rs", 2, 0),
            ("crates/units/src/table.rs", 1, 0),
            ("tests/published/ledger.json", 1, 0),
            // The test that the row of the ledger names.
            ("tests/tests/published.rs", 7, 0),
        ]
    );
    assert!(parts.values().all(|part| !part.new), "no file is new");
}

#[test]
fn the_new_unit_is_read() {
    let folder = lift_with(&[("move M1 ", &format!("{IN_NEW_UNIT}move M1 "))]);
    let shown = text(&run(folder.path(), &["check"]).stdout);
    let wanted = "tail needs 20 mm of 16 mm (125 %)";
    assert!(shown.contains(wanted), "`{wanted}` is not in:\n{shown}");
    let told = text(&run(folder.path(), &["check", "--format", "json"]).stdout);
    assert!(told.contains("32.4"), "its length at the most: {told}");
}

#[test]
fn the_new_key_has_its_help_and_mends_a_misspelling() {
    let folder = lift_with(&[(
        "load cover ",
        "load spare\n  paint \"red lead\"\n\nload cover ",
    )]);
    let path = folder.path().join("cover.pick");
    let job = std::fs::read_to_string(&path).expect("the job");
    let line = job
        .lines()
        .position(|line| line.contains("paint"))
        .expect("the new line");
    let uri = format!("file://{}", path.display());
    let mut editor = Session::start(binary(), folder.path());
    editor.open(&uri, &job);
    let help = editor.hover(&uri, line, 4);
    assert!(help.contains("What it is painted with"), "hover: {help}");
    editor.end();
    std::fs::write(&path, job.replace("  paint ", "  pant ")).expect("the job");
    let shown = text(&run(folder.path(), &["check"]).stdout);
    assert!(shown.contains("did you mean `paint`?"), "{shown}");
}

#[test]
fn the_ledger_holds_the_new_value_and_its_test_meets_it() {
    let mut command = vec!["test", "--package", "plumbhook-tests"];
    command.extend(["--test", "ledger", "--test", "published"]);
    let tested = cargo(&command);
    done("the tests of the copy fail", &tested);
    let wanted = "a_nautical_mile_is_as_long_as_the_guide_to_the_si_says ... ok";
    let shown = text(&tested.stdout);
    assert!(shown.contains(wanted), "`{wanted}` is not in:\n{shown}");
}
