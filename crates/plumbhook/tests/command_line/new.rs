//! `plumbhook new`: what it writes is read, and a check of it says what is missing.

use crate::folder::Folder;
use serde_json::Value;
use std::collections::BTreeSet;

fn checked(folder: &Folder, arguments: &[&str]) -> Value {
    let arguments = [&["check", "--format", "json"], arguments].concat();
    let said = folder.run(&arguments);
    assert_eq!((said.code, &*said.err), (1, ""), "{}", said.out);
    serde_json::from_str(&said.out).unwrap()
}

fn each(list: &Value) -> impl Iterator<Item = &Value> {
    list.as_array().into_iter().flatten()
}

/// What is missing in the checks of all cases, with the way it is missing.
fn missing(document: &Value) -> BTreeSet<(String, String)> {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    each(&document["cases"])
        .flat_map(|case| each(&case["checks"]))
        .flat_map(|check| each(&check["missing"]))
        .map(|missing| (text(&missing["what"]), text(&missing["why"])))
        .collect()
}

#[test]
fn a_first_job_is_read_and_says_what_it_needs() {
    let folder = Folder::empty();
    let said = folder.run(&["new"]);
    assert_eq!((said.code, &*said.err), (0, ""));
    for name in [
        "plumbhook.toml",
        "yard/gear.pick",
        "plants/site.plant.pick",
        "jobs/first-job.pick",
    ] {
        assert!(
            said.out.contains(&format!("wrote {name}\n")),
            "{}",
            said.out
        );
    }
    let document = checked(&folder, &[]);
    assert_eq!(
        document["notices"].as_array().unwrap().len(),
        0,
        "{:#}",
        document["notices"]
    );
    assert_eq!(
        (&document["tally"]["over"], &document["tally"]["within"]),
        (&0.into(), &0.into())
    );
    let missing = missing(&document);
    for wanted in [
        "mass of load-1",
        "centre of gravity of load-1",
        "what holds load-1",
        "what the move is done by",
        "stations",
        "what floor-1 carries",
        "pads of stand-1",
    ] {
        assert!(
            missing.iter().any(|(what, _)| what == wanted),
            "{wanted}: {missing:?}"
        );
    }
}

#[test]
fn whatever_a_check_misses_in_a_first_job_stands_there_as_unknown() {
    let folder = Folder::empty();
    folder.run(&["new"]);
    let missing = missing(&checked(&folder, &[]));
    let absent: Vec<&str> = missing
        .iter()
        .filter(|(_, why)| why != "unknown")
        .map(|(what, _)| &**what)
        .collect();
    // Consequences of what stands there as unknown, and no lines of their own.
    assert_eq!(
        absent,
        [
            "cg of what is inside load-1: it may be anywhere in load-1, whose shape is not known",
            "what floor-1 allows under a pad"
        ]
    );
}

#[test]
fn what_is_written_is_formatted() {
    let folder = Folder::empty();
    folder.run(&["new", "lift"]);
    let said = folder.run(&["fmt", "--check"]);
    assert_eq!(said.code, 0, "{}", said.out);
}

#[test]
fn nothing_is_overwritten() {
    let folder = Folder::empty();
    folder.write("lift/jobs/first-job.pick", b"job mine\n");
    let said = folder.run(&["new", "lift"]);
    assert_eq!((said.code, &*said.out), (2, ""));
    assert!(
        said.err.contains("first-job.pick is there already"),
        "{}",
        said.err
    );
    assert_eq!(folder.read("lift/jobs/first-job.pick"), "job mine\n");
    assert!(!folder.path().join("lift/plumbhook.toml").exists());

    folder.write("notes.txt", b"lift it gently\n");
    assert_eq!(folder.run(&["new", "notes.txt"]).code, 2);
}

#[test]
fn under_a_root_file_the_job_alone_is_written_and_names_the_only_plant() {
    let folder = Folder::lift(&[]);
    let said = folder.run(&["new", "jobs/Unit 4.pick"]);
    assert_eq!((said.code, &*said.err), (0, ""));
    assert_eq!(said.out.matches("wrote ").count(), 1, "{}", said.out);
    let text = folder.read("jobs/Unit 4.pick");
    assert!(text.contains("job unit-4 "), "{text}");
    assert!(text.contains("plant      pump-hall"), "{text}");
    let document = checked(&folder, &["jobs/Unit 4.pick"]);
    assert_eq!(
        document["notices"].as_array().unwrap().len(),
        0,
        "{:#}",
        document["notices"]
    );
}
