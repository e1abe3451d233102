//! What the root file settles with a reason, and the stage that a job is checked at.

mod common;

use common::*;
use plumbhook_sheet::{Severity, Verdict};
use plumbhook_workspace::{Checked, Snapshot};

/// The clean lift under a root file with more lines.
fn under(root: &str, change: &[(&str, &str)]) -> (Snapshot, Checked) {
    let files = changed(change);
    let text = format!("{}{root}", plumbhook_checks::example::ROOT);
    files.put(at("plumbhook.toml"), text.as_bytes());
    let snapshot = workspace(&files).snapshot();
    let checked = check(&snapshot);
    (snapshot, checked)
}

#[test]
fn what_the_root_file_settles_counts_where_the_job_says_nothing_and_stands_on_the_sheet() {
    let none = (
        "  dynamic    1.10                     from practice-note\n",
        "",
    );
    let root = "[factor]\ndynamic = { is = \"1.25\", because = \"practice note 4\" }\n";
    let (snapshot, checked) = under(root, &[none]);
    let sling = findings(&checked)
        .find(|found| found.identity.rule == "sling-rating")
        .unwrap();
    let input = sling
        .aspect
        .sheet
        .inputs
        .iter()
        .find(|input| input.what == "dynamic factor");
    let input = input.unwrap();
    assert_eq!(input.pedigree, "the root file: practice note 4");
    let place = snapshot.locate(&input.origins[0]).unwrap();
    assert_eq!((&*place.shown, place.line), ("plumbhook.toml", 4));
    assert_eq!(sling.aspect.verdict, Verdict::Within);
    let (_, said) = under(root, &[]);
    let sling = findings(&said)
        .find(|found| found.identity.rule == "sling-rating")
        .unwrap();
    let own = sling
        .aspect
        .sheet
        .inputs
        .iter()
        .find(|input| input.what == "dynamic factor");
    assert_eq!(own.unwrap().pedigree, "practice-note");
}

#[test]
fn a_root_file_lowers_a_rule_with_a_reason_and_an_over_stays_an_error() {
    let root = "[severity]\nmass-known = { to = \"warning\", because = \"weighed next week\" }\n\
                sling-rating = { to = \"warning\", because = \"x\" }\n";
    let over = ("vertical 10.0 t", "vertical 3.0 t");
    let (_, checked) = under(root, &[over]);
    let sling = findings(&checked)
        .find(|found| found.identity.rule == "sling-rating")
        .unwrap();
    assert_eq!(
        (&sling.aspect.verdict, sling.severity),
        (&Verdict::Over, Severity::Error)
    );
    let (_, checked) = under(root, &[NO_MASS]);
    let mass = findings(&checked)
        .find(|found| found.identity.rule == "mass-known")
        .unwrap();
    assert_eq!(mass.severity, Severity::Warning);
    assert_eq!(checked.louds.len(), 2);
    assert!(
        checked.has_errors(),
        "the checks that need the mass are errors still"
    );
}

#[test]
fn a_workspace_at_a_stage_demands_what_that_stage_needs() {
    let files = changed(&[("  tilt       at most 3 deg\n", "")]);
    let said = |stage| {
        let workspace = workspace(&files);
        let mut workspace = match stage {
            Some(stage) => workspace.at_stage(stage),
            None => workspace,
        };
        let checked = check(&workspace.snapshot());
        let tilt = findings(&checked)
            .find(|found| found.identity.rule == "tilt")
            .unwrap();
        tilt.severity
    };
    assert_eq!(said(None), Severity::NotYetDue);
    assert_eq!(said(Some(plumbhook_sheet::Stage::Issue)), Severity::Error);
}
