//! One job checked alone still tells what is wrong in the texts that it uses.

#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod common;

use common::*;
use plumbhook_workspace::{Cancel, Checked, Snapshot, Targets};

fn job_alone(snapshot: &Snapshot) -> Checked {
    let job = Targets::Paths(vec![at("cover.pick")]);
    snapshot.check(&job, &Cancel::default()).unwrap()
}

fn told_of_job(change: &[(&str, &str)]) -> Vec<String> {
    let snapshot = workspace(&changed(change)).snapshot();
    let checked = job_alone(&snapshot);
    assert_eq!(
        checked.has_errors(),
        !checked.notices.is_empty(),
        "a notice of what the job uses counts"
    );
    told(&snapshot, &checked.notices)
}

#[test]
fn a_misspelt_rating_of_gear_that_the_job_uses_is_told_with_the_job() {
    let lower = "  rated      25 t                     from tag quote \"WLL 25 t\"\n";
    let misspelt = format!("  ratd       1 t from tag\n{lower}");
    assert_eq!(
        told_of_job(&[(lower, &misspelt)]),
        ["unknown-key at yard.pick:18:ratd"]
    );
}

#[test]
fn a_misspelt_allowable_of_the_plant_of_the_job_is_told_with_the_job() {
    let allows = "  allows     pad 400 kPa              from measured\n";
    let misspelt = format!("  alows      pad 10 kPa from walk-2\n{allows}");
    assert_eq!(
        told_of_job(&[(allows, &misspelt)]),
        ["unknown-key at hall.plant.pick:12:alows"]
    );
}

#[test]
fn a_source_that_no_gear_of_the_job_finds_is_told_with_the_job() {
    assert_eq!(
        told_of_job(&[(
            "30 t                     from nameplate \"30 t\"",
            "30 t from nowhere-9"
        )]),
        ["name-not-found at hall.plant.pick:19:nowhere-9"]
    );
}

#[test]
fn an_entry_of_the_yard_that_is_none_is_told_with_every_job() {
    assert_eq!(
        told_of_job(&[(
            "ring ring-2",
            "rung ring-9\n  rated 1 t from tag\n\nring ring-2"
        )]),
        ["unknown-entry at yard.pick:17:rung"]
    );
}

#[test]
fn gear_that_the_job_does_not_use_is_left_out_and_told_with_the_yard() {
    let other = [(
        "ring ring-2",
        "ring ring-9\n  ratd 1 t from tag\n\nring ring-2",
    )];
    assert_eq!(told_of_job(&other), Vec::<String>::new());
    assert_eq!(told_of(&other), ["unknown-key at yard.pick:18:ratd"]);
}

#[test]
fn a_job_checked_with_its_yard_and_plant_tells_each_notice_once() {
    let twice = [(
        "pad 400 kPa              from measured",
        "pad 400 kPa from nowhere-9",
    )];
    assert_eq!(told_of_job(&twice), told_of(&twice));
    assert_eq!(told_of(&twice).len(), 1);
}
