//! What `check()` says of whole workspaces.

mod common;

use common::*;
use plumbhook_sheet::{Severity, Stage, Verdict};
use plumbhook_workspace::{Cancel, Cancelled, Files, InMemory, Targets, Workspace};
use std::path::PathBuf;
use std::sync::Arc;

#[test]
fn the_clean_lift_is_checked_and_nothing_is_said_against_it() {
    let checked = fresh(&clean());
    assert_eq!(errors(&checked), Vec::<String>::new());
    assert_eq!(checked.notices, []);
    assert_eq!(checked.not_checked, []);
    assert!(checked.is_complete());
    assert_eq!((checked.jobs, checked.cases.len()), (1, 1));
    assert!(checked.tally().within > 4, "{:?}", checked.tally());
}

#[test]
fn an_overload_is_an_error_with_its_place_in_another_file() {
    let files = changed(&[("rated      25 t ", "rated      5 t ")]);
    let snapshot = workspace(&files).snapshot();
    let checked = check(&snapshot);
    let over = findings(&checked)
        .find(|finding| finding.aspect.verdict == Verdict::Over)
        .unwrap();
    assert_eq!(over.severity, Severity::Error);
    assert_eq!(&*over.identity.case, "cover/M1");
    assert!(snapshot.locate(&over.aspect.primary).is_some());
    assert!(checked.has_errors());
}

#[test]
fn an_open_buffer_beats_the_disk_also_where_another_file_sees_it() {
    let files = clean();
    let mut workspace = workspace(&files);
    assert!(!check(&workspace.snapshot()).has_errors());
    let yard = String::from_utf8(files.read(&at("yard.pick")).unwrap().into_bytes()).unwrap();
    workspace.open(
        &at("yard.pick"),
        &yard.replace("rated      25 t ", "rated      5 t "),
    );
    assert!(check(&workspace.snapshot()).has_errors());
    workspace.close(&at("yard.pick"));
    assert!(!check(&workspace.snapshot()).has_errors());
}

#[test]
fn an_edit_in_the_yard_changes_what_is_said_of_the_job() {
    let files = clean();
    let mut workspace = workspace(&files);
    let text = files.read(&at("yard.pick")).unwrap();
    workspace.open(&at("yard.pick"), &text);
    let before = workspace.snapshot();
    let place = text.find("25 t ").unwrap();
    workspace.edit(&at("yard.pick"), place..place + 1, "");
    let after = workspace.snapshot();
    assert!(check(&after).has_errors());
    assert!(!check(&before).has_errors(), "a snapshot never changes");
    assert_eq!(
        workspace.text(&at("yard.pick")).unwrap().len(),
        text.len() - 1
    );
}

#[test]
fn a_file_is_read_once_until_its_change_is_told() {
    let files = clean();
    let mut workspace = workspace(&files);
    check(&workspace.snapshot());
    let text = files.read(&at("yard.pick")).unwrap();
    files.put(
        at("yard.pick"),
        text.replace("rated      25 t ", "rated      5 t ")
            .as_bytes(),
    );
    assert!(!check(&workspace.snapshot()).has_errors());
    workspace.disk_changed(&at("yard.pick"));
    assert!(check(&workspace.snapshot()).has_errors());
    files.remove(at("yard.pick"));
    workspace.disk_changed(&at("yard.pick"));
    let gone = check(&workspace.snapshot());
    assert!(gone.notices.iter().any(|n| n.code.code == "name-not-found"));
    files.put(at("new.pick"), text.as_bytes());
    workspace.disk_changed(&at("new.pick"));
    assert!(!check(&workspace.snapshot()).has_errors());
}

#[test]
fn a_file_without_a_root_file_above_it_is_not_checked_and_says_what_to_write() {
    let files = clean();
    files.remove(at("plumbhook.toml"));
    let checked = fresh(&files);
    assert_eq!((checked.jobs, checked.cases.len()), (0, 0));
    assert_eq!(checked.not_checked.len(), 3);
    let job = &checked.not_checked[0];
    assert_eq!(&*job.shown, "cover.pick");
    assert!(job.mend.contains("language = 1\nyard = "), "{}", job.mend);
    assert!(!checked.is_complete());
}

#[test]
fn a_wrong_root_file_is_told_at_its_place_and_nothing_under_it_is_checked() {
    let files = clean();
    files.put(at("plumbhook.toml"), b"language = 1\nyards = [\".\"]\n");
    let snapshot = workspace(&files).snapshot();
    let checked = check(&snapshot);
    let [wrong] = checked.not_checked.as_slice() else {
        panic!("{:?}", checked.not_checked)
    };
    let place = wrong.at.as_ref().unwrap();
    assert_eq!(
        (&*place.shown, place.line, place.start, place.end),
        ("plumbhook.toml", 1, 0, 5)
    );
    assert_eq!(wrong.files.len(), 3);
    assert_eq!((checked.jobs, checked.cases.len()), (0, 0));
    assert!(snapshot.document("plumbhook.toml").is_some());
}

#[test]
fn a_root_file_that_names_no_folder_is_wrong() {
    let files = clean();
    files.put(
        at("plumbhook.toml"),
        b"language = 1\nyard = [\"gear\"]\nplants = [\".\"]\n",
    );
    let checked = fresh(&files);
    assert!(checked.not_checked[0].why.contains("no folder `gear`"));
    assert_eq!(checked.jobs, 0);
}

#[test]
fn a_mended_root_file_counts_at_once_also_when_it_is_only_open() {
    let files = clean();
    files.put(at("plumbhook.toml"), b"language = 2\n");
    let mut workspace = workspace(&files);
    assert_eq!(check(&workspace.snapshot()).jobs, 0);
    workspace.open(&at("plumbhook.toml"), plumbhook_checks::example::ROOT);
    assert_eq!(check(&workspace.snapshot()).jobs, 1);
    workspace.close(&at("plumbhook.toml"));
    assert_eq!(check(&workspace.snapshot()).jobs, 0);
}

#[test]
fn a_file_belongs_to_the_innermost_root() {
    let files = clean();
    files.put(
        at("other/plumbhook.toml"),
        b"language = 1\nyard = [\".\"]\nplants = [\".\"]\n",
    );
    files.put(
        at("other/yard.pick"),
        b"yard\n\nring ring-2\n  rated 99 t from tag\n",
    );
    let job = files.read(&at("cover.pick")).unwrap();
    files.put(at("third/plumbhook.toml"), b"language = 1\n");
    files.put(at("third/cover.pick"), job.as_bytes());
    let checked = fresh(&files);
    // The other yard's ring-2 is not seen by the job outside: no name is there twice.
    let of = |file: &str| {
        checked
            .cases
            .iter()
            .filter(|case| &*case.file == file)
            .flat_map(|case| &case.findings)
            .any(|finding| finding.severity == Severity::Error)
    };
    assert!(!of("cover.pick"));
    assert!(of("third/cover.pick"), "its root gives it no yard");
    assert_eq!(checked.jobs, 2);
}

#[test]
fn the_root_file_is_found_above_the_folder_that_is_open() {
    let files = clean();
    for name in ["cover.pick", "yard.pick", "hall.plant.pick"] {
        let text = files.read(&at(name)).unwrap();
        files.remove(at(name));
        let folder = if name == "cover.pick" {
            "jobs"
        } else {
            "house"
        };
        files.put(at(folder).join(name), text.as_bytes());
    }
    files.put(
        at("plumbhook.toml"),
        b"language = 1\nyard = [\"house\"]\nplants = [\"house\"]\n",
    );
    let mut workspace = Workspace::new(Arc::clone(&files) as _);
    workspace.folders(&[at("jobs")]);
    let checked = check(&workspace.snapshot());
    assert!(checked.is_complete() && !checked.has_errors());
    // A plant alone, asked for by path, checks the job that uses it.
    let plant = Targets::Paths(vec![at("house/hall.plant.pick")]);
    let checked = workspace
        .snapshot()
        .check(&plant, &Cancel::default())
        .unwrap();
    assert_eq!(checked.jobs, 1);
}

#[test]
fn a_file_that_is_no_text_or_not_there_is_not_checked() {
    let files = clean();
    files.put(at("broken.pick"), b"job \xFF\n");
    let checked = fresh(&files);
    assert_eq!(&*checked.not_checked[0].shown, "broken.pick");
    assert!(checked.not_checked[0].why.contains("UTF-8"));
    let none = Targets::Paths(vec![at("none.pick")]);
    let checked = workspace(&files)
        .snapshot()
        .check(&none, &Cancel::default())
        .unwrap();
    assert_eq!((checked.not_checked.len(), checked.jobs), (1, 0));
}

#[test]
fn an_unreadable_yard_is_told_with_the_job_that_needs_it() {
    let files = clean();
    files.put(at("yard.pick"), b"yard \xFF\n");
    let job = Targets::Paths(vec![at("cover.pick")]);
    let checked = workspace(&files)
        .snapshot()
        .check(&job, &Cancel::default())
        .unwrap();
    assert_eq!(&*checked.not_checked[0].shown, "yard.pick");
    assert!(checked.has_errors());
}

#[test]
fn a_cancelled_check_says_nothing() {
    let cancel = Cancel::default();
    cancel.cancel();
    let snapshot = workspace(&clean()).snapshot();
    assert_eq!(snapshot.check(&Targets::All, &cancel), Err(Cancelled));
}

#[test]
fn the_root_file_raises_the_stage_and_never_lowers_it() {
    let untagged = ("          from tag quote \"WLL 25 t\"", "");
    let unverified = |root: &str| {
        let files = changed(&[untagged]);
        files.put(
            at("plumbhook.toml"),
            format!("{}{root}", plumbhook_checks::example::ROOT).as_bytes(),
        );
        let checked = fresh(&files);
        findings(&checked)
            .filter(|f| f.identity.rule == "ring-rating")
            .map(|f| f.severity)
            .max()
            .unwrap()
    };
    let raise = format!("[stage]\nleast = \"{}\"\n", Stage::Issue.word());
    assert_eq!(unverified(""), Severity::NotYetDue);
    assert_eq!(
        unverified("[stage]\nleast = \"first-look\"\n"),
        Severity::NotYetDue
    );
    assert_eq!(unverified(&raise), Severity::Error);
}

#[test]
fn a_mass_without_tolerance_takes_the_allowance_of_its_basis() {
    let plain = [(
        "14.0 t +/- 5 %           from drawing",
        "14.0 t from weighed",
    )];
    let files = changed(&plain);
    assert!(fresh(&files).has_errors(), "nobody says how exact it is");
    let root = format!(
        "{}[allowance.mass]\nweighed = \"3 %\"\n",
        plumbhook_checks::example::ROOT
    );
    files.put(at("plumbhook.toml"), root.as_bytes());
    assert_eq!(errors(&fresh(&files)), Vec::<String>::new());
}

#[test]
fn a_hidden_or_unasked_folder_is_not_checked_and_an_open_file_is() {
    let files = clean();
    let mut workspace = workspace(&files);
    let job = files.read(&at("cover.pick")).unwrap();
    workspace.open(&at(".scratch/new.pick"), &job);
    assert_eq!(check(&workspace.snapshot()).jobs, 2);
    workspace.close(&at(".scratch/new.pick"));
    assert_eq!(check(&workspace.snapshot()).jobs, 1);
}

#[test]
fn a_job_without_a_move_is_not_checked_and_says_so() {
    let files = clean();
    files.put(at("bare.pick"), b"job bare\n  revision A stage bid\n");
    let checked = fresh(&files);
    let [bare] = checked.not_checked.as_slice() else {
        panic!("{:?}", checked.not_checked)
    };
    assert!(bare.why.contains("no move"), "{}", bare.why);
    assert_eq!(
        bare.at.as_ref().map(|place| (place.line, place.end)),
        Some((0, 8))
    );
    assert_eq!(checked.jobs, 1);
}

#[test]
fn nothing_at_all_is_not_complete() {
    let files = Arc::new(InMemory::new([("/w/notes.txt", "nothing")]));
    let checked = fresh(&files);
    assert!(!checked.is_complete());
    let mut nowhere = Workspace::new(files as _);
    nowhere.folders(&[PathBuf::from("/nowhere")]);
    assert_eq!(check(&nowhere.snapshot()).not_checked.len(), 1);
}

#[test]
fn paths_may_be_relative_to_where_the_user_stands_and_are_shown_from_there() {
    let files = clean();
    let mut workspace = Workspace::new(Arc::clone(&files) as _).seen_from(&at("jobs"));
    workspace.folders(&[PathBuf::from("../cover.pick")]);
    let job = Targets::Paths(vec![PathBuf::from("../cover.pick")]);
    let checked = workspace
        .snapshot()
        .check(&job, &Cancel::default())
        .unwrap();
    assert!(checked.is_complete());
    assert_eq!(&*checked.cases[0].file, "../cover.pick");
}

#[test]
fn a_path_that_is_not_there_is_told_once() {
    let mut workspace = Workspace::new(clean() as _);
    workspace.folders(&[at("none.pick")]);
    let none = Targets::Paths(vec![at("none.pick")]);
    for targets in [Targets::All, none] {
        let checked = workspace
            .snapshot()
            .check(&targets, &Cancel::default())
            .unwrap();
        assert_eq!(checked.not_checked.len(), 1, "{:?}", checked.not_checked);
    }
}
