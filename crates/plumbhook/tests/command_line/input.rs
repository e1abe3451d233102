//! `plumbhook check -`: an unsaved text stands for its path.

use crate::folder::Folder;

const AS_COVER: [&str; 4] = ["check", "-", "--stdin-name", "cover.pick"];

#[test]
fn the_text_stands_for_its_path_with_the_yard_found_from_there() {
    let folder = Folder::lift(&[]);
    let heavy = folder.read("cover.pick").replace("14.0 t", "40.0 t");
    let said = folder.run_with_input(&AS_COVER, heavy.as_bytes());
    assert_eq!((said.code, &*said.err), (1, ""), "{}", said.out);
    assert!(said.out.contains("40.0 t"), "{}", said.out);
    assert_eq!(folder.run(&["check", "cover.pick"]).code, 0);
}

#[test]
fn the_file_itself_need_not_be_there_yet() {
    let folder = Folder::lift(&[]);
    let text = folder.read("cover.pick");
    std::fs::remove_file(folder.path().join("cover.pick")).unwrap();
    let said = folder.run_with_input(
        &["check", "-", "--stdin-name", "new/cover.pick"],
        text.as_bytes(),
    );
    assert_eq!((said.code, &*said.err), (0, ""), "{}", said.out);
}

#[test]
fn a_text_without_a_path_or_a_path_without_a_text_is_refused() {
    let folder = Folder::lift(&[]);
    for arguments in [
        &["check", "-"][..],
        &["check", "--stdin-name", "cover.pick"],
        &["check", "-", "--stdin-name", "cover.txt"],
    ] {
        let said = folder.run_with_input(arguments, b"job a\n");
        assert_eq!((said.code, &*said.out), (2, ""), "{arguments:?}");
        assert!(said.err.contains("--stdin-name"), "{}", said.err);
    }
}

#[test]
fn bytes_that_are_no_text_are_refused() {
    let said = Folder::lift(&[]).run_with_input(&AS_COVER, b"job \xFF\n");
    assert_eq!((said.code, &*said.out), (2, ""));
    assert!(said.err.contains("not UTF-8 text: byte 4"), "{}", said.err);
}
