//! `plumbhook explain`.

use crate::folder::Folder;

#[test]
fn a_rule_is_explained_and_all_are_listed() {
    let folder = Folder::empty();
    let one = folder.run(&["explain", "sling-rating"]);
    assert_eq!((one.code, &*one.err), (0, ""));
    assert!(one.out.starts_with("rule sling-rating\n"), "{}", one.out);
    let all = folder.run(&["explain"]);
    assert_eq!((all.code, &*all.err), (0, ""));
    assert!(all.out.contains("  sling-rating"), "{}", all.out);
    assert!(all.out.contains("  line-not-read"), "{}", all.out);
}

#[test]
fn a_misspelt_code_brings_the_near_one() {
    let said = Folder::empty().run(&["explain", "sling-rateing"]);
    assert_eq!((said.code, &*said.out), (2, ""));
    assert!(
        said.err.contains("did you mean `sling-rating`"),
        "{}",
        said.err
    );
}
