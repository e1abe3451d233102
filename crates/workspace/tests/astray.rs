//! Lines that do not stand where they count: what they may have said is unknown, and no check passes without it.

mod common;

use common::*;
use plumbhook_workspace::Checked;

/// What each check of some rules came to, with some of the text changed.
fn outcomes(change: &[(&str, &str)], rules: &[&str]) -> Vec<String> {
    let checked = fresh(&changed(change));
    all(&checked)
        .into_iter()
        .filter(|(rule, _)| rules.contains(rule))
        .map(|(rule, verdict)| format!("{rule} {verdict}"))
        .collect()
}

/// Rule and outcome of every check, those folded under another included.
fn all(checked: &Checked) -> Vec<(&'static str, &'static str)> {
    let mut all = Vec::new();
    for finding in findings(checked) {
        let verdict = finding.aspect.verdict.word();
        all.push((finding.identity.rule, verdict));
        all.extend(finding.blocks.iter().map(|id| (id.rule, verdict)));
    }
    all
}

const GROUND: &[&str] = &["floor-bearing", "over-void", "support-verified"];

fn assert_open(change: &[(&str, &str)], rules: &[&str], code: &str) {
    let found = outcomes(change, rules);
    for rule in rules {
        let open = format!("{rule} cannot tell");
        assert!(found.contains(&open), "{change:?}: {found:?}");
        assert!(
            !found.contains(&format!("{rule} within")),
            "{change:?}: {found:?}"
        );
    }
    let told = told_of(change);
    assert!(
        told.iter().any(|told| told.starts_with(code)),
        "{change:?}: {told:?}"
    );
}

#[test]
fn a_key_between_the_rows_of_a_table_leaves_the_table_unknown() {
    let row = "    | (18.0 m, 5.0 m) | on stool          |\n";
    let split = format!("  class      critical\n{row}");
    assert_open(&[(row, &split)], GROUND, "rows-astray");
}

#[test]
fn rows_below_a_key_that_takes_none_leave_that_key_unknown_too() {
    let tilt = "  tilt       at most 3 deg\n";
    let rows = format!("{tilt}    | at | underside |\n");
    assert_open(&[(tilt, &rows)], &["tilt", "hook-height"], "rows-astray");
}

#[test]
fn a_row_in_column_1_leaves_the_table_above_it_unknown() {
    let row = "    | (18.0 m, 5.0 m) | on stool          |\n";
    assert_open(&[(row, row.trim_start())], GROUND, "unknown-entry");
    let bare = row.replace("    | (", "    (");
    assert_open(&[(row, &bare)], GROUND, "unknown-key");
}

#[test]
fn a_mistyped_key_leaves_what_it_nearly_says_unknown() {
    let voids = "  voids      listed\n";
    let cavity = format!("{voids}  cavityx    duct (17.0 m, 4.0 m) to (19.0 m, 6.0 m)\n");
    assert_open(&[(voids, &cavity)], &["over-void"], "unknown-key");
    let rated = "  rated      vertical 10.0 t          from tag quote \"V 10.0 t\"\n";
    let lower = format!("{rated}  ratd       vertical 1.0 t from tag\n");
    assert_open(&[(rated, &lower)], &["sling-rating"], "unknown-key");
}

#[test]
fn a_line_that_slipped_into_column_1_counts_as_unknown_where_it_belongs() {
    let voids = "  voids      listed\n";
    let cavity = format!("{voids}cavity     duct (17.0 m, 4.0 m) to (19.0 m, 6.0 m)\n");
    assert_open(&[(voids, &cavity)], &["over-void"], "unknown-entry");
    // What stands below such a line is lost with it.
    let below = format!("{voids}whatever\n  cavity     duct (17.0 m, 4.0 m) to (19.0 m, 6.0 m)\n");
    assert_open(&[(voids, &below)], &["over-void"], "unknown-entry");
}

#[test]
fn a_mistyped_entry_takes_nothing_from_the_one_above_it() {
    let voids = "  voids      listed\n";
    let next =
        format!("{voids}\nlaod second\n  cavity     duct (17.0 m, 4.0 m) to (19.0 m, 6.0 m)\n");
    let found = outcomes(&[(voids, &next)], &["over-void"]);
    assert!(found.contains(&"over-void within".to_owned()), "{found:?}");
}

#[test]
fn a_line_typed_in_column_1_and_indented_again_is_the_same_as_never_typed() {
    let files = clean();
    let mut workspace = workspace(&files);
    let before = check(&workspace.snapshot());
    let (name, text) = plumbhook_checks::example::FILES[1];
    let slipped = text.replace("  voids      listed\n", "voids      listed\n");
    assert_ne!(slipped, text);
    files.put(at(name), slipped.as_bytes());
    workspace.disk_changed(&at(name));
    let between = check(&workspace.snapshot());
    assert_eq!(all(&between), all(&fresh(&files)));
    assert_ne!(all(&between), all(&before));
    files.put(at(name), text.as_bytes());
    workspace.disk_changed(&at(name));
    assert_eq!(all(&check(&workspace.snapshot())), all(&before));
}
