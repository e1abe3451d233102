//! `plumbhook fmt` and `plumbhook reference`.

use crate::folder::Folder;

const UGLY: &str = "job a\n plant q # why\n";
const FAIR: &str = "job a\n  plant      q                        # why\n";

#[test]
fn a_folder_is_formatted_in_place_and_then_left_alone() {
    let folder = Folder::empty();
    folder.write("jobs/a.pick", UGLY.as_bytes());
    let first = folder.run(&["fmt"]);
    assert_eq!(
        (first.code, folder.read("jobs/a.pick").as_str()),
        (0, FAIR),
        "{}",
        first.err
    );
    assert_eq!(first.out, "formatted ./jobs/a.pick\n");
    assert_eq!(folder.run(&["fmt", "--check"]).code, 0);
    assert_eq!(folder.run(&["fmt"]).out, "");
}

#[test]
fn a_check_shows_what_would_change_and_writes_nothing() {
    let folder = Folder::empty();
    folder.write("a.pick", UGLY.as_bytes());
    let said = folder.run(&["fmt", "--check", "a.pick"]);
    assert_eq!(said.code, 1);
    assert!(
        said.out.contains("- plant q # why\n+  plant      q"),
        "{}",
        said.out
    );
    assert_eq!(folder.read("a.pick"), UGLY);
}

#[test]
fn standard_input_goes_to_standard_output() {
    let said = Folder::empty().run_with_input(&["fmt", "-"], UGLY.as_bytes());
    assert_eq!((said.code, said.out.as_str()), (0, FAIR));
    let said = Folder::empty().run_with_input(&["fmt", "-"], b"job \xFF");
    assert_eq!((said.code, said.out.as_str()), (2, ""));
}

#[test]
fn only_the_entries_of_some_lines_are_formatted() {
    let text = "job a\n plant q\n\nload b\n mass 3 t\n";
    let said = Folder::empty().run_with_input(&["fmt", "-", "--lines", "4:4"], text.as_bytes());
    assert_eq!(said.out, "job a\n plant q\n\nload b\n  mass       3 t\n");
    let wrong = Folder::empty().run_with_input(&["fmt", "-", "--lines", "4:2"], b"");
    assert_eq!(wrong.code, 2);
}

#[test]
fn a_file_that_is_no_text_is_told_and_keeps_nobody_else_from_it() {
    let folder = Folder::empty();
    folder.write("a.pick", b"job \xFF\n");
    folder.write("b.pick", UGLY.as_bytes());
    let said = folder.run(&["fmt"]);
    assert_eq!(said.code, 2);
    assert!(
        said.err.contains("a.pick") && said.err.contains("UTF-8"),
        "{}",
        said.err
    );
    assert_eq!(folder.read("b.pick"), FAIR);
    assert_eq!(Folder::empty().run(&["fmt", "no-such"]).code, 2);
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link() {
    let folder = Folder::empty();
    folder.write("real/a.pick", UGLY.as_bytes());
    std::os::unix::fs::symlink("real/a.pick", folder.path().join("b.pick")).unwrap();
    assert_eq!(folder.run(&["fmt", "b.pick"]).code, 0);
    assert!(folder.path().join("b.pick").is_symlink());
    assert_eq!(folder.read("real/a.pick"), FAIR);
}

#[test]
fn the_reference_names_every_entry_key_unit_and_rule() {
    let said = Folder::empty().run(&["reference"]);
    assert_eq!(said.code, 0);
    for wanted in [
        "### `load`",
        "| `mass` | each line a claim |",
        "`short_ton`",
        "`hook-height`",
    ] {
        assert!(said.out.contains(wanted), "{wanted}");
    }
}
