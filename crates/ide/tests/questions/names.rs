//! Where names are used, and how they are changed.

use crate::lift::Lift;
use plumbhook_ide::{highlights, references, renamable, rename};
use plumbhook_workspace::{Cancel, Located};
use std::path::Path;

fn named(lift: &Lift, marked: &str) -> Vec<String> {
    let (path, line, byte) = lift.at(marked);
    let found = references(&lift.snapshot, &path, line, byte, &Cancel::default()).unwrap();
    let words = found.iter().map(|it| {
        let mark = if it.declares { " declared" } else { "" };
        format!("{}{mark}", lift.words(&it.at))
    });
    words.collect()
}

fn renamed(lift: &Lift, marked: &str, new: &str, roots: &[&Path]) -> Result<Vec<Located>, String> {
    let (path, line, byte) = lift.at(marked);
    rename(
        &lift.snapshot,
        (&path, line, byte),
        new,
        roots,
        &Cancel::default(),
    )
    .unwrap()
}

fn refused(lift: &Lift, marked: &str, new: &str, words: &str) {
    let why = renamed(lift, marked, new, &[]).unwrap_err();
    assert!(why.contains(words), "{why}");
}

#[test]
fn a_thing_is_found_wherever_it_is_named_also_from_another_file() {
    let lift = Lift::new(&[]);
    let bow = [
        "yard.pick:11:bow-12 declared",
        "cover.pick:18:bow-12",
        "cover.pick:18:bow-12",
    ];
    assert_eq!(named(&lift, "shackle bow^-12"), bow);
    assert_eq!(named(&lift, "through ^bow-12, rope"), bow);
    assert_eq!(
        named(&lift, "source wa^lk-2"),
        [
            "hall.plant.pick:6:walk-2 declared",
            "cover.pick:11:walk-2",
            "cover.pick:12:walk-2",
            "hall.plant.pick:11:walk-2",
            "hall.plant.pick:22:walk-2",
        ]
    );
    assert_eq!(
        named(&lift, "plant pump^-hall"),
        [
            "hall.plant.pick:2:pump-hall declared",
            "cover.pick:3:pump-hall"
        ]
    );
}

#[test]
fn the_part_behind_a_dot_is_a_thing_of_its_own() {
    let lift = Lift::new(&[]);
    let hook = ["hall.plant.pick:22:main declared", "cover.pick:19:main"];
    assert_eq!(named(&lift, "hook ma^in"), hook);
    assert_eq!(named(&lift, "ring-2 by bridge.ma^in"), hook);
    assert_eq!(
        named(&lift, "ring-2 by bri^dge.main"),
        [
            "hall.plant.pick:18:bridge declared",
            "cover.pick:19:bridge",
            "cover.pick:23:bridge",
        ]
    );
}

#[test]
fn words_that_name_nothing_have_no_references() {
    let lift = Lift::new(&[]);
    assert_eq!(named(&lift, "Pump co^ver to the stool"), [""; 0]);
    assert_eq!(named(&lift, "  ti^lt       at most"), [""; 0]);
}

#[test]
fn highlights_stay_in_the_file() {
    let lift = Lift::new(&[]);
    let (path, line, byte) = lift.at("through ^bow-12, rope");
    let found = highlights(&lift.snapshot, &path, line, byte);
    let words: Vec<_> = found.iter().map(|it| lift.words(&it.at)).collect();
    assert_eq!(words, ["cover.pick:18:bow-12", "cover.pick:18:bow-12"]);
}

#[test]
fn a_new_name_reaches_every_place_and_a_dotted_name_keeps_its_end() {
    let lift = Lift::new(&[]);
    let places = renamed(&lift, "ring-2 by bri^dge.main", "crane-1", &[]).unwrap();
    let words: Vec<_> = places.iter().map(|at| lift.words(at)).collect();
    assert_eq!(
        words,
        [
            "hall.plant.pick:18:bridge",
            "cover.pick:19:bridge",
            "cover.pick:23:bridge",
        ]
    );
}

#[test]
fn what_can_be_renamed_is_the_name_of_an_entry() {
    let lift = Lift::new(&[]);
    let asked = |marked: &str| {
        let (path, line, byte) = lift.at(marked);
        renamable(&lift.snapshot, &path, line, byte).map(|it| (lift.words(&it.at), it.name))
    };
    assert_eq!(
        asked("ring-2 by bri^dge.main"),
        Some(("cover.pick:19:bridge".to_owned(), "bridge".to_owned()))
    );
    assert_eq!(asked("ring-2 by bridge.ma^in"), None);
    assert_eq!(asked("  ti^lt       at most"), None);
}

#[test]
fn a_name_that_is_taken_anywhere_in_sight_is_refused() {
    let lift = Lift::new(&[]);
    // In the yard, seen by the job that sees the load too.
    refused(
        &lift,
        "load co^ver",
        "ring-2",
        "the name of a ring in yard.pick already",
    );
    // In a job that sees the yard.
    refused(
        &lift,
        "shackle bow^-12",
        "cover",
        "the name of a load in cover.pick already",
    );
}

#[test]
fn a_word_that_could_not_stand_as_a_name_is_refused() {
    let lift = Lift::new(&[]);
    for new in [
        "",
        "two words",
        "with",
        "unknown",
        "a.b",
        "\"q\"",
        "12 t",
        "# c",
        "a\nb",
        "a|b",
    ] {
        refused(
            &lift,
            "shackle bow^-12",
            new,
            "cannot stand where a name stands",
        );
    }
    assert!(renamed(&lift, "shackle bow^-12", "0412", &[]).is_ok());
}

#[test]
fn a_name_in_a_line_that_could_not_be_read_is_not_left_behind() {
    let lift = Lift::new(&[(
        "through bow-12, rope-32-long-5, bow-12",
        "through bow-12,, rope-32-long-5 5 5",
    )]);
    refused(
        &lift,
        "shackle bow^-12",
        "bow-13",
        "cover.pick, line 18, could not be read and holds `bow-12`",
    );
}

#[test]
fn a_file_outside_the_open_folders_is_not_changed() {
    let lift = Lift::new(&[]);
    let why = renamed(
        &lift,
        "shackle bow^-12",
        "bow-13",
        &[Path::new("/elsewhere")],
    )
    .unwrap_err();
    assert!(why.contains("outside the folders"), "{why}");
    assert!(renamed(&lift, "shackle bow^-12", "bow-13", &[Path::new("/w")]).is_ok());
}

#[test]
fn the_entry_whose_geometry_is_taken_over_is_named_too() {
    let lift = Lift::new(&[("rigging chains", "load twin like cover\n\nrigging chains")]);
    let places = renamed(&lift, "load co^ver \"", "lid", &[]).unwrap();
    let words: Vec<_> = places.iter().map(|at| lift.words(at)).collect();
    assert_eq!(
        words,
        [
            "cover.pick:7:cover",
            "cover.pick:17:cover",
            "cover.pick:24:cover",
        ]
    );
    assert_eq!(named(&lift, "twin like cov^er").len(), 3);
}

#[test]
fn a_let_whose_uses_are_no_links_is_not_renamed() {
    let lift = Lift::new(&[("load cover", "let wide = 2.40 m\n\nload cover")]);
    refused(&lift, "let wi^de", "broad", "no `let`");
}
