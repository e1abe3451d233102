//! Addresses as in RFC 8089 (the `file` scheme, with drive letters in its appendix E) and RFC 3986.

use super::*;

#[test]
fn two_spellings_of_one_file_are_one_path() {
    let path = Some(PathBuf::from("/jobs/Größe 1.pick"));
    assert_eq!(path_of("file:///jobs/Gr%C3%B6%C3%9Fe%201.pick"), path);
    assert_eq!(path_of("file:///jobs/Gr%c3%b6%c3%9fe%201.pick"), path);
    assert_eq!(path_of("FILE://localhost/jobs/Größe 1.pick"), path);
    assert_eq!(path_of("file:/jobs/Größe 1.pick"), path);
}

#[test]
fn a_percent_sign_that_escapes_nothing_stays() {
    assert_eq!(path_of("file:///a%zz%4"), Some(PathBuf::from("/a%zz%4")));
    assert_eq!(path_of("file:///8%25"), Some(PathBuf::from("/8%")));
}

#[test]
fn drive_letters_are_one_in_either_case_and_escaped_or_not() {
    let path = Some("C:\\Jobs\\a.pick".to_owned());
    assert_eq!(windows_path("", "/c:/Jobs/a.pick"), path);
    assert_eq!(windows_path("", "/C:/Jobs/a.pick"), path);
    assert_eq!(decode("/c%3A/Jobs"), b"/c:/Jobs");
    assert_eq!(
        windows_path("store", "/jobs/a"),
        Some("\\\\store\\jobs\\a".to_owned())
    );
    assert_eq!(windows_path("", "/jobs/a"), None);
}

#[test]
fn a_text_never_saved_is_followed_and_a_comparison_view_is_not() {
    assert_eq!(
        path_of("untitled:Untitled-1"),
        Some(PathBuf::from("untitled:Untitled-1"))
    );
    assert_eq!(path_of("git:/jobs/a.pick?HEAD"), None);
    assert_eq!(path_of("no address"), None);
}

#[test]
fn an_answer_uses_the_clients_spelling() {
    let mut spelling = Spelling::default();
    let path = spelling.learn("file:///jobs/a%2Db.pick").unwrap();
    assert_eq!(spelling.of(&path), "file:///jobs/a%2Db.pick");
}

#[test]
fn a_file_below_a_folder_starts_with_the_folders_spelling() {
    let mut spelling = Spelling::default();
    spelling.set_folders(vec![
        (PathBuf::from("/jobs"), "file:///%6Aobs/".to_owned()),
        (PathBuf::from("/jobs/in"), "file:///jobs/%69n".to_owned()),
    ]);
    assert_eq!(
        spelling.of(Path::new("/jobs/x/8 °.pick")),
        "file:///%6Aobs/x/8%20%C2%B0.pick"
    );
    assert_eq!(
        spelling.of(Path::new("/jobs/in/a.pick")),
        "file:///jobs/%69n/a.pick"
    );
    assert_eq!(
        spelling.of(Path::new("/else/a.pick")),
        "file:///else/a.pick"
    );
}

#[test]
fn what_is_no_valid_address_is_escaped_and_the_rest_stays() {
    assert_eq!(
        repaired("file:///a/8 °%20%.pick"),
        "file:///a/8%20%C2%B0%20%25.pick"
    );
    assert_eq!(repaired("file:///a%2Fb"), "file:///a%2Fb");
    let mut spelling = Spelling::default();
    let path = spelling.learn("file:///a/8 °.pick").unwrap();
    assert_eq!(spelling.of(&path), "file:///a/8 °.pick");
    assert_eq!(
        spelling.uri(&path).unwrap().as_str(),
        "file:///a/8%20%C2%B0.pick"
    );
}
