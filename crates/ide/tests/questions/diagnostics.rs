//! Marks in the text.

use crate::lift::Lift;
use plumbhook_ide::{Level, diagnostics};

#[test]
fn a_clean_lift_has_no_marks() {
    assert_eq!(
        diagnostics(&Lift::new(&[]).snapshot, &Lift::new(&[]).checked),
        []
    );
}

#[test]
fn an_overload_is_an_error_with_its_number_its_sum_and_its_mend() {
    let lift = Lift::new(&[("rated      vertical 10.0 t", "rated      vertical 5.0 t")]);
    let marks = lift.marks();
    assert_eq!(marks.len(), 1, "one for the worst of the legs: {marks:?}");
    let mark = marks.first().unwrap();
    assert_eq!((mark.level, mark.code), (Level::Error, "sling-rating"));
    assert_eq!(lift.words(&mark.at), "cover.pick:18:rope-32-long-5");
    let lines: Vec<_> = mark.message.lines().collect();
    assert!(
        lines[0].contains("carries") && lines[0].contains("of 5 t"),
        "{lines:?}"
    );
    assert!(lines[1].starts_with("T_leg = "), "{lines:?}");
    assert!(lines.last().unwrap().ends_with("would pass"), "{lines:?}");
    let mass = mark.related.iter().find(|(_, say)| say.starts_with("mass"));
    assert_eq!(lift.words(&mass.unwrap().0), "cover.pick:9:14.0 t +/- 5 %");
}

#[test]
fn one_missing_datum_is_one_mark_at_the_datum_with_what_it_blocks() {
    let lift = Lift::new(&[("x 0 +/- 40 mm, y 0", "x unknown, y 0")]);
    let marks = lift.marks();
    assert_eq!(marks.len(), 1, "{marks:?}");
    assert!(
        lift.words(&marks[0].at)
            .starts_with("cover.pick:10:x unknown")
    );
    let blocks = marks[0]
        .message
        .lines()
        .find(|line| line.starts_with("blocks "));
    assert!(blocks.unwrap().contains("shackle-rating"), "{blocks:?}");
}

#[test]
fn what_two_moves_lack_alike_is_one_mark_that_names_both() {
    let again = "# again\nmove M2 \"the same\"\n  carries    cover\n  by         bridge with chains-of-three\n  \
                 dynamic    1.10\n  tilt       at most 3 deg\n  heading    0 deg\n\nload cover";
    let lift = Lift::new(&[
        ("x 0 +/- 40 mm, y 0", "x unknown, y 0"),
        ("load cover", again),
    ]);
    let marks = lift.marks();
    let at_cg: Vec<_> = marks
        .iter()
        .filter(|mark| lift.words(&mark.at).contains("x unknown"))
        .collect();
    assert_eq!(at_cg.len(), 1, "{at_cg:?}");
    assert!(
        at_cg[0].message.contains("in cover/M2, cover/M1"),
        "{}",
        at_cg[0].message
    );
}

#[test]
fn what_is_not_yet_due_is_an_information_and_says_so() {
    let lift = Lift::new(&[("          from tag quote \"WLL 25 t\"", "")]);
    let marks = lift.marks();
    assert_eq!(marks.len(), 1, "{marks:?}");
    assert_eq!(marks[0].level, Level::Information);
    assert!(
        marks[0].message.starts_with("not yet due: "),
        "{}",
        marks[0].message
    );
    assert!(lift.words(&marks[0].at).starts_with("yard.pick:"));
}

#[test]
fn a_broken_line_is_marked_where_it_breaks() {
    let lift = Lift::new(&[("heading    0 deg", "heading    0 degg")]);
    let marks = lift.marks();
    assert!(
        marks.iter().any(
            |mark| mark.code == "line-not-read" && lift.words(&mark.at) == "cover.pick:27:degg"
        ),
        "{marks:?}"
    );
}

#[test]
fn a_wrong_root_file_is_marked_in_it_and_in_every_file_under_it() {
    let lift = Lift::with(&[], &[("plumbhook.toml", "language = 1\nyards = []\n")]);
    let files = diagnostics(&lift.snapshot, &lift.checked);
    assert_eq!(files.len(), 4);
    for file in &files {
        assert_eq!(file.list[0].code, "not-checked", "{file:?}");
    }
    let root = &files[2].list[0];
    assert_eq!(lift.words(&root.at), "plumbhook.toml:2:yards");
    let job = &files[0].list[0];
    assert!(
        job.message
            .starts_with("not checked: plumbhook.toml, line 2: "),
        "{}",
        job.message
    );
    assert_eq!(lift.words(&job.related[0].0), "plumbhook.toml:2:yards");
}

#[test]
fn a_file_without_a_root_file_is_marked_with_the_lines_to_write() {
    let lift = Lift::with(&[], &[]);
    let marks = lift.marks();
    assert_eq!(marks.len(), 3);
    assert!(
        marks[0].message.contains("language = 1"),
        "{}",
        marks[0].message
    );
}
