//! The example jobs, as a person reads what is said of them. Each screen was read before it was kept.

use insta::assert_snapshot;
use plumbhook_tests::examples::repository;
use plumbhook_tests::programs;
use std::process::Command;

/// What `check` prints of one example job, and its exit code.
fn screen(job: &str) -> (String, Option<i32>) {
    let output = Command::new(programs::plumbhook())
        .args(["check", "--color", "never", &format!("jobs/{job}.pick")])
        .current_dir(repository().join("examples"))
        .output();
    let output = output.unwrap_or_else(|why| panic!("it cannot be started: {why}"));
    assert!(
        output.stderr.is_empty(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    (
        String::from_utf8_lossy(&output.stdout).into_owned(),
        output.status.code(),
    )
}

#[test]
fn the_clean_job_is_clean() {
    let (said, code) = screen("servomotor");
    assert_eq!(code, Some(0));
    assert_snapshot!(said);
}

#[test]
fn the_faulty_job_fails_in_more_than_four_ways_each_with_its_number() {
    let (said, code) = screen("unit-3-runner");
    assert_eq!(code, Some(1));
    for rule in [
        "sling-rating",
        "shackle-rating",
        "leg-angle",
        "hook-height",
        "over-void",
    ] {
        assert!(said.contains(&format!("over  {rule}")), "{rule}: {said}");
    }
    assert_snapshot!(said);
}

#[test]
fn the_job_with_gaps_is_told_what_is_missing_and_never_that_it_is_fine() {
    let (said, code) = screen("exciter");
    assert_eq!(code, Some(1));
    assert!(said.contains("mass of exciter is unknown"), "{said}");
    assert!(!said.contains("over  "), "{said}");
    assert_snapshot!(said);
}

/// A job that is clean prints its summary and nothing else.
fn clean(job: &str) -> String {
    let (said, code) = screen(job);
    assert_eq!(code, Some(0), "{said}");
    assert!(said.contains("nothing over, nothing unknown"), "{said}");
    said
}

#[test]
fn the_clean_jobs_of_the_second_plant_are_clean() {
    assert_snapshot!("valve", clean("valve"));
    assert_snapshot!("pump_rotor", clean("pump-rotor"));
    assert_snapshot!("stoplog", clean("stoplog"));
}

#[test]
fn the_gate_leaf_leaves_its_chart_at_one_station_and_stands_half_beside_the_slab() {
    let (said, code) = screen("gate-leaf");
    assert_eq!(code, Some(1));
    for words in [
        "over  shackle-rating  gate-leaf M1",
        "over  crane-chart  gate-leaf M1",
        "C1 works outside its chart at station 5",
        "cannot tell  crane-chart  gate-leaf M2",
        "main-24 is for boom 24.0 m, not 30.1 m",
        "past the edge of yard-slab is not given",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert_snapshot!(said);
}

#[test]
fn the_flywheel_lacks_an_inch_and_its_two_weights_do_not_agree() {
    let (said, code) = screen("flywheel");
    assert_eq!(code, Some(1));
    for words in [
        "over  hook-height  flywheel M1",
        "28.8 mm short",
        "over  over-void  flywheel M1",
        "warning  claims-disagree",
        "cannot tell  mass-known  flywheel M2",
        "cannot tell  cg-known  flywheel M2",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert_snapshot!(said);
}
