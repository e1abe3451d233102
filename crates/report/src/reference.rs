//! The reference of the language, as Markdown: written from the declarations, so it cannot say anything else than
//! what is read.

use plumbhook_checks::RULES;
use plumbhook_model::entries::KINDS;
use plumbhook_model::{BASES, Block, Key, RULE_SETS, Repeat};
use plumbhook_sheet::Stage;
use plumbhook_units::{AMBIGUOUS, Kind, ONE, RISE, UNITS, Unit};
use plumbhook_workspace::{LANGUAGE, ROOT_FILE};
use std::fmt::Write;

/// How a text is read, for someone who writes his first one.
const TEXT: &str = "\
A file opens with `job`, `plant` or `yard`. An entry starts with a word in column 1, its lines are indented, one \
statement a line: a key, its value, and behind `from` how the value is known. `#` starts a comment. Rows of a table \
stand as `|` lines below their key. A line that cannot be read makes its own datum unknown and no other.";

/// The whole reference.
pub fn markdown() -> String {
    let mut out = String::new();
    let page = &mut out;
    heading(page, 1, "The language");
    let _ = writeln!(page, "Version {LANGUAGE}. {TEXT}\n");
    heading(page, 2, "Entries");
    for kind in KINDS {
        entry(page, kind.block);
    }
    provenance(page);
    units(page);
    words(page);
    rules(page);
    let _ = writeln!(
        page,
        "The root file `{ROOT_FILE}` stands in the folder of the project; every file below it belongs to it.\n\n{}",
        crate::DECISION_SUPPORT
    );
    out
}

fn heading(page: &mut String, level: usize, text: &str) {
    let _ = writeln!(page, "{} {text}\n", "#".repeat(level));
}

fn entry(page: &mut String, block: &Block) {
    heading(page, 3, &format!("`{}`", block.word));
    let _ = writeln!(page, "{}\n", block.help.trim());
    if block.keys.is_empty() {
        return;
    }
    table(page, &["key", "how often", "what it says", "value"]);
    for key in block.keys {
        let word = match key.word {
            "" => "behind the name".to_owned(),
            word => format!("`{word}`"),
        };
        row(
            page,
            &[
                word,
                often(key).to_owned(),
                key.help.trim().to_owned(),
                value(key),
            ],
        );
    }
    page.push('\n');
}

fn often(key: &Key) -> &'static str {
    match key.repeat {
        Repeat::Once => "once",
        Repeat::Claims => "each line a claim",
        Repeat::Members => "each line a member, by its name",
    }
}

fn value(key: &Key) -> String {
    let shape = &key.shape;
    let mut say = shape.say.to_owned();
    if let Some(kind) = shape.kind {
        let units: Vec<&str> = kind.units().map(|unit| unit.symbol).take(4).collect();
        let _ = write!(say, "; {}", kind.word());
        if !units.is_empty() {
            let _ = write!(say, " in {}", units.join(", "));
        }
    }
    if !shape.words.is_empty() {
        let _ = write!(say, "; words: {}", shape.words.join(", "));
    }
    if let Some(role) = shape.role {
        let _ = write!(say, "; names a {}", role.say());
    }
    say
}

fn provenance(page: &mut String) {
    heading(page, 2, "How a value is known");
    let _ = writeln!(
        page,
        "Behind `from` stands the name of a declared `source`, or one of these words:\n"
    );
    table(page, &["word", "meaning"]);
    for (word, help) in BASES {
        row(page, &[format!("`{word}`"), (*help).to_owned()]);
    }
    page.push('\n');
}

fn units(page: &mut String) {
    heading(page, 2, "Kinds of quantities and their units");
    table(page, &["kind", "meaning", "units"]);
    for kind in Kind::ALL {
        let units: Vec<String> = kind
            .units()
            .filter(|unit| **unit != *ONE && **unit != *RISE)
            .map(|unit| format!("`{}`", unit.symbol))
            .collect();
        row(
            page,
            &[
                kind.word().to_owned(),
                kind.help().to_owned(),
                units.join(" "),
            ],
        );
    }
    page.push('\n');
    table(page, &["unit", "also written", "name", "what it is"]);
    for unit in UNITS
        .iter()
        .filter(|unit| **unit != *ONE && **unit != *RISE)
    {
        row(
            page,
            &[
                format!("`{}`", unit.symbol),
                spellings(unit),
                unit.name.to_owned(),
                unit.help.to_owned(),
            ],
        );
    }
    page.push('\n');
    let _ = writeln!(
        page,
        "Spellings that are refused, because they are read in several ways:\n"
    );
    table(page, &["spelling", "may be"]);
    for ambiguous in AMBIGUOUS {
        let readings: Vec<String> = ambiguous
            .readings
            .iter()
            .map(|reading| format!("`{}`: {}", reading.unit, reading.words))
            .collect();
        row(page, &[code_list(ambiguous.spellings), readings.join("; ")]);
    }
    page.push('\n');
}

fn spellings(unit: &Unit) -> String {
    code_list(unit.aliases)
}

fn code_list(all: &[&str]) -> String {
    let all: Vec<String> = all.iter().map(|one| format!("`{one}`")).collect();
    all.join(" ")
}

fn words(page: &mut String) {
    heading(page, 2, "Rule sets and stages");
    table(page, &["rule set", "edition here", "what it is"]);
    for set in RULE_SETS {
        row(
            page,
            &[
                format!("`{}`", set.word),
                set.edition.to_string(),
                set.help.to_owned(),
            ],
        );
    }
    let stages: Vec<String> = Stage::ALL
        .iter()
        .map(|(_, word)| format!("`{word}`"))
        .collect();
    let _ = writeln!(
        page,
        "\nStages, each demanding more: {}.\n",
        stages.join(", ")
    );
}

fn rules(page: &mut String) {
    heading(page, 2, "Rules");
    table(page, &["rule", "what it checks", "follows"]);
    for rule in RULES {
        let basis: Vec<String> = rule.basis.iter().map(plumbhook_sheet::Basis::say).collect();
        row(
            page,
            &[
                format!("`{}`", rule.code),
                rule.summary.to_owned(),
                basis.join("; "),
            ],
        );
    }
    page.push('\n');
}

fn table(page: &mut String, heads: &[&str]) {
    let _ = writeln!(page, "| {} |", heads.join(" | "));
    let _ = writeln!(page, "|{}", "---|".repeat(heads.len()));
}

/// A bar inside a cell would part it.
fn row(page: &mut String, cells: &[String]) {
    let cells: Vec<String> = cells.iter().map(|cell| cell.replace('|', "\\|")).collect();
    let _ = writeln!(page, "| {} |", cells.join(" | "));
}
