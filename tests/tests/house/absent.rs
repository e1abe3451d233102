//! What is deliberately absent, and from where.

use crate::repository::{files, is_rust, sources, text};
use crate::sources::{code, line_of, names, without_tests};

/// Where one of these words stands in the code of some crates, tests left out.
fn found(of: &[&str], words: &[&str]) -> Vec<String> {
    let mut all = Vec::new();
    for (file, text) in sources(|name| of.contains(&name)) {
        let code = without_tests(&file, &code(&text));
        for word in words {
            for (at, _) in code.match_indices(word) {
                if is_whole(&code, at, word) {
                    all.push(format!("{file}:{}: `{word}`", line_of(&code, at)));
                }
            }
        }
    }
    all
}

fn is_whole(code: &str, at: usize, word: &str) -> bool {
    let part_of_a_name = |c: char| c.is_alphanumeric() || c == '_';
    let before = code.get(..at).and_then(|text| text.chars().next_back());
    let after = code
        .get(at + word.len()..)
        .and_then(|text| text.chars().next());
    !before.is_some_and(part_of_a_name) && !after.is_some_and(part_of_a_name)
}

fn none(found: &[String], why: &str) {
    assert!(found.is_empty(), "{why}:\n{}", found.join("\n"));
}

const PURE: [&str; 6] = ["units", "sheet", "mechanics", "syntax", "model", "checks"];

#[test]
fn below_the_workspace_there_is_no_input_or_output() {
    let words = [
        "std::fs",
        "std::io",
        "std::net",
        "std::env",
        "std::process",
        "std::path",
        "println",
        "print",
        "eprintln",
        "eprint",
    ];
    none(
        &found(&PURE, &words),
        "files come through the workspace, words go out through the faces",
    );
}

#[test]
fn below_the_workspace_there_is_no_clock_and_no_thread() {
    let words = [
        "SystemTime",
        "Instant",
        "Zoned::now",
        "Timestamp::now",
        "thread",
        "rayon",
    ];
    none(
        &found(&PURE, &words),
        "the same text gives the same verdict on any day; only the workspace decides what runs beside what",
    );
}

#[test]
fn only_the_server_knows_the_protocol() {
    let others: Vec<&str> = PURE
        .into_iter()
        .chain(["workspace", "ide", "report", "plumbhook"])
        .collect();
    let words = ["tower_lsp", "tower_lsp_server", "lsp_types", "ls_types"];
    none(&found(&others, &words), "a protocol type");
}

#[test]
fn only_the_command_line_ends_the_process() {
    let others: Vec<&str> = PURE
        .into_iter()
        .chain(["workspace", "ide", "report"])
        .collect();
    none(
        &found(&others, &["ExitCode", "exit", "abort"]),
        "the exit code is made in one place",
    );
}

#[test]
fn mechanics_knows_no_text_and_no_job() {
    let words = ["EntryRef", "EntryKey", "Finding", "Notice", "Aspect"];
    none(
        &found(&["mechanics"], &words),
        "a place in a text, or words about it",
    );
}

#[test]
fn rules_make_no_severity() {
    let words = ["Severity", "NotYetDue", "Warning"];
    none(
        &found(&["mechanics", "checks"], &words),
        "a rule returns verdicts; how loud they are is one function of the workspace",
    );
}

#[test]
fn nothing_registers_itself_at_the_start() {
    let all: Vec<&str> = PURE
        .into_iter()
        .chain(["workspace", "ide", "report", "server", "plumbhook"])
        .collect();
    none(
        &found(&all, &["inventory", "linkme", "ctor", "distributed_slice"]),
        "lists are written down",
    );
}

#[test]
fn no_code_is_unsafe() {
    let mut wrong = Vec::new();
    for file in files() {
        if is_rust(&file) && names(&code(&text(&file))).any(|name| name == "unsafe") {
            wrong.push(file);
        }
    }
    none(&wrong, "unsafe code");
}

/// Words of unit names whose factors uom 0.38 rounds to about seven figures (its `mass.rs`: pound 0.4535924;
/// `force.rs`: kip 4448.222; `pressure.rs`: psi 6894.757; `energy.rs`: foot-pound 1.355818; `volume.rs`: cubic
/// inch 1.638706e-5). The exact factors stand in the table of the units crate.
const ROUNDED: [&str; 22] = [
    "pound",
    "poundal",
    "ounce",
    "kip",
    "psi",
    "btu",
    "gallon",
    "quart",
    "pint",
    "acre",
    "grain",
    "hundredweight",
    "fathom",
    "chain",
    "rod",
    "survey",
    "mercury",
    "water",
    "horsepower",
    "cubic_foot",
    "cubic_inch",
    "cubic_yard",
];

fn is_rounded(unit: &str) -> bool {
    let tons = ["ton_short", "ton_long", "ton_force", "ton_assay"];
    ROUNDED
        .iter()
        .chain(&tons)
        .any(|word| format!("_{unit}_").contains(&format!("_{word}_")))
}

#[test]
fn no_rounded_unit_of_the_quantity_library_is_used() {
    let mut wrong = Vec::new();
    let mut paths = 0;
    for (file, text) in sources(|_| true) {
        let code = without_tests(&file, &code(&text));
        for (at, _) in code.match_indices("uom::si::") {
            paths += 1;
            let statement = code.get(at..).unwrap_or_default();
            let statement = statement.split(';').next().unwrap_or(statement);
            for unit in names(statement).filter(|unit| is_rounded(unit)) {
                wrong.push(format!("{file}:{}: `{unit}`", line_of(&code, at)));
            }
        }
    }
    assert!(paths > 0, "no path into the quantity library was seen");
    none(
        &wrong,
        "a rounded factor; read the unit from the exact table",
    );
}

#[test]
fn rounded_units_are_told_from_exact_ones() {
    for unit in [
        "pound",
        "pound_force",
        "kip",
        "psi",
        "foot_pound",
        "ton_short",
        "cubic_inch",
    ] {
        assert!(is_rounded(unit), "{unit}");
    }
    // Exact by definition, and written so in uom: 0.3048 m, 25.4 mm, 1000 kg.
    for unit in ["foot", "inch", "ton", "kilonewton", "radian", "kippur"] {
        assert!(!is_rounded(unit), "{unit}");
    }
}
