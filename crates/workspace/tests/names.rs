//! A name leads only where it is unique.

#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod common;

use common::*;
use plumbhook_sheet::Verdict;
use plumbhook_workspace::{Cancel, Files as _, Targets};

/// A floor that would carry more and has no hole.
const SECOND: &str = "\
floor slab
  outline    (0, 0) (24 m, 0) (24 m, 10 m) (0, 10 m)
  top        EL 49.00 m               from walk-2
  allows     pad 900 kPa              from measured
  voids      listed
  verified   by role \"owner's engineer\" on 2026-09-01, covers pad 900 kPa
";

/// What the rules that ask for the floor say where the job's file alone is checked, with what they miss.
fn of_the_floor(snapshot: &plumbhook_workspace::Snapshot) -> Vec<(&'static str, Verdict)> {
    let job = Targets::Paths(vec![at("cover.pick")]);
    let checked = snapshot.check(&job, &Cancel::default()).unwrap();
    let of_floor = ["floor-bearing", "over-void", "hook-height"];
    findings(&checked)
        .filter(|finding| of_floor.contains(&finding.identity.rule))
        .map(|finding| (finding.identity.rule, finding.aspect.verdict.clone()))
        .collect()
}

fn says_that_it_is_declared_twice(found: &[(&'static str, Verdict)]) {
    // What misses the very same as another rule on the same subject is folded under it.
    assert!(found.len() >= 2, "{found:?}");
    for (rule, verdict) in found {
        let Verdict::CannotTell(missing) = verdict else {
            panic!("{rule}: {verdict:?}");
        };
        let floor = missing
            .iter()
            .find(|missing| missing.what == "floor or ground `slab` is declared 2 times")
            .unwrap_or_else(|| panic!("{rule}: {missing:?}"));
        assert!(
            floor
                .mend
                .starts_with("give all but one of them another name: ")
                && floor.mend.contains("`floor slab` in hall.plant.pick"),
            "{rule}: {}",
            floor.mend
        );
    }
}

#[test]
fn a_floor_declared_twice_in_one_file_or_in_two_is_neither_of_them() {
    let (snapshot, _) = with(SECOND, &[]);
    says_that_it_is_declared_twice(&of_the_floor(&snapshot));
    for behind in ["floor slab\n", "overhead-crane bridge\n"] {
        // Before the first and behind it: which stands last settles nothing.
        let both = format!("{SECOND}\n{behind}");
        let snapshot = workspace(&changed(&[(behind, &both)])).snapshot();
        says_that_it_is_declared_twice(&of_the_floor(&snapshot));
    }
}

#[test]
fn a_floor_and_something_of_another_role_with_one_name_are_neither() {
    for other in [
        "shackle slab\n  rated 30 t\n",
        "place slab\n  at (1 m, 1 m)\n",
    ] {
        let (snapshot, _) = with(other, &[]);
        says_that_it_is_declared_twice(&of_the_floor(&snapshot));
    }
}

#[test]
fn a_name_that_is_declared_once_more_and_taken_out_again_counts_again() {
    let files = clean();
    let text = files.read(&at("hall.plant.pick")).unwrap();
    let mut workspace = workspace(&files);
    let within = |workspace: &mut plumbhook_workspace::Workspace| {
        of_the_floor(&workspace.snapshot())
            .iter()
            .all(|(_, verdict)| matches!(verdict, Verdict::Within))
    };
    assert!(within(&mut workspace));
    workspace.open(&at("hall.plant.pick"), &format!("{text}\n{SECOND}"));
    assert!(!within(&mut workspace));
    workspace.open(&at("hall.plant.pick"), &text);
    assert!(within(&mut workspace));
}
