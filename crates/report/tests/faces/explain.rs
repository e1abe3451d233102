//! The words of rules and notices.

use plumbhook_report::explain::{Code, list};

#[test]
fn a_rule_says_what_it_asks_and_shows_its_four_outcomes() {
    insta::assert_snapshot!(Code::find("ring-rating").unwrap().explain(100));
}

#[test]
fn a_notice_says_how_loud_it_is() {
    insta::assert_snapshot!(Code::find("claims-disagree").unwrap().explain(60));
}

#[test]
fn every_code_is_listed_once_and_explained() {
    let all = list(100);
    for code in Code::all() {
        let lines = all.lines().filter(|line| {
            let mut words = line.split_whitespace();
            words.next() == Some(code.code())
        });
        assert_eq!(lines.count(), 1, "{}", code.code());
        let text = code.explain(60);
        // A word alone may be longer than the screen.
        let long = |line: &&str| line.len() > 60 && line.trim().contains(' ');
        let long: Vec<_> = text.lines().filter(long).collect();
        assert!(text.contains(code.code()) && text.lines().count() > 3);
        let tables = text.lines().filter(|line| line.starts_with("  ")).count();
        assert!(long.len() <= tables, "{}: {long:#?}", code.code());
    }
}

#[test]
fn an_unknown_code_brings_the_near_ones() {
    let said = Code::find("ring-ratng").unwrap_err();
    assert!(said.contains("did you mean `ring-rating`"), "{said}");
    let said = Code::find("quaternion").unwrap_err();
    assert!(
        said.contains("`plumbhook explain` lists them all"),
        "{said}"
    );
}
