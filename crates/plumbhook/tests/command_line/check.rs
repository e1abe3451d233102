//! `plumbhook check`.

use crate::folder::Folder;
use std::process::Stdio;

const WEAK_SLING: (&str, &str) = ("rated      vertical 10.0 t", "rated      vertical 5.0 t");
const NO_MASS: (&str, &str) = ("mass       14.0 t +/- 5 %  ", "mass       unknown         ");
/// Two claims of one mass that cannot both be true: a warning, and both count.
const APART: (&str, &str) = (
    "  cg         x 0",
    "  mass       at most 10 t             from estimate\n  cg         x 0",
);

#[test]
fn a_clean_lift_ends_with_0_and_says_what_was_checked() {
    let said = Folder::lift(&[]).run(&["check"]);
    assert_eq!((said.code, &*said.err), (0, ""), "{}", said.out);
    assert!(
        said.out.contains("nothing over, nothing unknown"),
        "{}",
        said.out
    );
    let last = said.out.lines().last();
    assert_eq!(
        last,
        Some("Decision support only: a qualified person and the local rules decide.")
    );
}

#[test]
fn over_and_cannot_tell_end_with_1() {
    for (change, word) in [
        (WEAK_SLING, "over  sling-rating"),
        (NO_MASS, "cannot tell  "),
    ] {
        let said = Folder::lift(&[change]).run(&["check", "cover.pick"]);
        assert_eq!((said.code, &*said.err), (1, ""), "{}", said.out);
        assert!(said.out.starts_with(word), "{}", said.out);
    }
}

#[test]
fn a_warning_ends_with_1_only_where_warnings_are_denied() {
    let folder = Folder::lift(&[APART]);
    let said = folder.run(&["check"]);
    assert_eq!(said.code, 0, "{}", said.out);
    assert!(
        said.out.contains("warning  claims-disagree"),
        "{}",
        said.out
    );
    assert!(said.out.contains("1 warning in the text."), "{}", said.out);
    assert_eq!(folder.run(&["check", "--deny", "warnings"]).code, 1);
    assert_eq!(
        Folder::lift(&[]).run(&["check", "--deny", "warnings"]).code,
        0
    );
}

#[test]
fn nothing_to_check_is_a_failure() {
    let empty = Folder::empty();
    let said = empty.run(&["check"]);
    assert_eq!(said.code, 2, "{}", said.out);
    assert!(
        said.err.contains("no `.pick` file is there"),
        "{}",
        said.err
    );
    assert!(said.out.contains("Nothing was checked."), "{}", said.out);

    let said = empty.run(&["check", "none.pick"]);
    assert_eq!(said.code, 2, "{}", said.out);
    assert!(said.err.contains("there is no such file"), "{}", said.err);
}

#[test]
fn a_job_without_a_move_is_a_failure_and_hides_no_other() {
    let folder = Folder::lift(&[WEAK_SLING]);
    let job =
        "job idle\n  plant pump-hall\n  rules us\n  revision A 2026-10-01 stage bid \"first\"\n";
    folder.write("idle.pick", job.as_bytes());
    let said = folder.run(&["check"]);
    assert_eq!(said.code, 2, "{}", said.out);
    assert!(said.err.contains("the job has no move"), "{}", said.err);
    assert!(said.out.contains("over  sling-rating"), "{}", said.out);
}

#[test]
fn a_wrong_root_file_is_told_at_its_place() {
    let folder = Folder::lift(&[]);
    folder.write("plumbhook.toml", b"language = 1\nyards = [\".\"]\n");
    let said = folder.run(&["check"]);
    assert_eq!(said.code, 2, "{}", said.out);
    assert!(said.err.contains("plumbhook.toml:2"), "{}", said.err);
    assert!(said.err.contains("unknown field `yards`"), "{}", said.err);
    assert!(said.err.contains("^^^^^"), "{}", said.err);
}

#[test]
fn one_unreadable_file_hides_no_other_and_outranks_them() {
    let folder = Folder::lift(&[WEAK_SLING]);
    folder.write("latin.pick", b"job caf\xE9\n");
    let said = folder.run(&["check"]);
    assert_eq!(said.code, 2, "{}", said.out);
    assert!(said.err.contains("latin.pick"), "{}", said.err);
    assert!(said.err.contains("not UTF-8 text: byte 7"), "{}", said.err);
    assert!(said.out.contains("over  sling-rating"), "{}", said.out);
    assert!(
        said.out.contains("Not everything was checked"),
        "{}",
        said.out
    );
}

#[test]
fn a_named_file_of_another_kind_is_not_passed_over() {
    let folder = Folder::lift(&[]);
    folder.write("notes.txt", b"lift it gently\n");
    let said = folder.run(&["check", "cover.pick", "notes.txt"]);
    assert_eq!(said.code, 2, "{}", said.out);
    assert!(said.err.contains("notes.txt"), "{}", said.err);
}

#[test]
fn an_unknown_option_ends_with_2() {
    let said = Folder::lift(&[]).run(&["check", "--formta", "json"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("--format"), "{}", said.err);
}

#[test]
fn a_path_inside_another_is_checked_once() {
    let said = Folder::lift(&[]).run(&["check", "cover.pick", ".", "./cover.pick"]);
    assert_eq!((said.code, &*said.err), (0, ""), "{}", said.out);
}

#[test]
fn a_yard_stands_for_the_jobs_that_use_it() {
    let said = Folder::lift(&[WEAK_SLING]).run(&["check", "yard.pick"]);
    assert_eq!(said.code, 1, "{}", said.out);
    assert!(said.out.contains("cover.pick"), "{}", said.out);
}

#[test]
fn json_stands_alone_on_standard_output() {
    let folder = Folder::lift(&[WEAK_SLING]);
    folder.write("latin.pick", b"job caf\xE9\n");
    let said = folder.run(&["check", "--format", "json"]);
    assert_eq!(said.code, 2);
    let document: serde_json::Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(document["version"], 1);
    assert_eq!(document["severity"], "error");
    assert_eq!(document["not_checked"][0]["place"]["file"], "latin.pick");
}

#[test]
fn colour_is_for_terminals_unless_asked_for() {
    let folder = Folder::lift(&[WEAK_SLING]);
    let escape = '\u{1b}';
    assert!(!folder.run(&["check"]).out.contains(escape));
    assert!(
        folder
            .run(&["check", "--color", "always"])
            .out
            .contains(escape)
    );
    assert!(
        !folder
            .run(&["check", "--color", "never"])
            .out
            .contains(escape)
    );
}

#[test]
fn whoever_stops_reading_sees_no_panic() {
    let folder = Folder::lift(&[WEAK_SLING]);
    let mut child = folder
        .command(&["check"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    let err = String::from_utf8(output.stderr).unwrap();
    assert_eq!(err, "");
    assert_ne!(output.status.code(), Some(101));
}

#[test]
fn help_says_every_exit_code() {
    let said = Folder::empty().run(&["check", "--help"]);
    assert_eq!(said.code, 0);
    insta::assert_snapshot!(said.out);
}

#[test]
fn rules_can_be_run_alone_and_the_summary_says_so() {
    let folder = Folder::lift(&[WEAK_SLING]);
    let said = folder.run(&["check", "--only", "hook-height,tilt"]);
    assert_eq!(said.code, 0, "{}", said.out);
    let line = "Only hook-height, tilt were checked, no other rule.";
    assert!(said.out.contains(line), "{}", said.out);
    assert_eq!(folder.run(&["check", "--only", "sling-rating"]).code, 1);
    let json = folder.run(&["check", "--only", "tilt", "--format", "json"]);
    assert!(json.out.contains("\"only\":[\"tilt\"]"), "{}", json.out);
    let wrong = folder.run(&["check", "--only", "hook-hight"]);
    assert_eq!(wrong.code, 2);
    assert!(
        wrong.err.contains("did you mean `hook-height`?"),
        "{}",
        wrong.err
    );
}

#[test]
fn a_quiet_check_prints_errors_and_the_summary() {
    let folder = Folder::lift(&[WEAK_SLING, APART]);
    let (loud, quiet) = (folder.run(&["check"]), folder.run(&["check", "--quiet"]));
    let warning = "claims-disagree";
    assert!(loud.out.contains(warning), "{}", loud.out);
    assert!(!quiet.out.contains(warning), "{}", quiet.out);
    assert!(quiet.out.contains("over  sling-rating"), "{}", quiet.out);
    assert!(
        quiet.out.contains("1 warning in the text."),
        "{}",
        quiet.out
    );
    assert_eq!(loud.code, quiet.code);
}
