//! What stands at a place.

use crate::lift::Lift;
use plumbhook_ide::hover;

fn said(lift: &Lift, marked: &str) -> Option<(String, String)> {
    let (path, line, byte) = lift.at(marked);
    let hover = hover(&lift.snapshot, &lift.checked, &path, line, byte)?;
    Some((hover.markdown, lift.words(&hover.at)))
}

#[test]
fn a_name_says_what_it_is_and_what_it_carries_here() {
    let lift = Lift::new(&[]);
    let (said, at) = said(&lift, "rope-32-lo^ng-5, bow-12").unwrap();
    assert_eq!(at, "cover.pick:18:rope-32-long-5");
    assert!(
        said.starts_with("**rope-32-long-5** sling (yard.pick:4)"),
        "{said}"
    );
    for part in [
        "- **within** `sling-rating` rope-32-long-5: ",
        " of 10 t",
        " %)",
        "  at cg ",
        "`T_leg = ",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
    assert!(
        said.contains("rated capacity of rope-32-long-5: 10 t"),
        "{said}"
    );
    assert!(said.contains("tag quote \"V 10.0 t\""), "{said}");
}

#[test]
fn a_key_says_its_help_and_what_it_takes() {
    let lift = Lift::new(&[]);
    let (said, at) = said(&lift, "  dyn^amic    1.10").unwrap();
    assert_eq!(at, "cover.pick:24:dynamic");
    assert!(
        said.starts_with("**dynamic**: Factor on what hangs"),
        "{said}"
    );
    assert!(said.contains("It stands once."), "{said}");
}

#[test]
fn the_word_of_an_entry_says_its_help() {
    let lift = Lift::new(&[]);
    let (text, _) = said(&lift, "riggi^ng chains").unwrap();
    assert_eq!(text, "**rigging**: The legs between a load and a hook.");
    let (text, _) = said(&lift, "load co^ver").unwrap();
    assert!(
        text.starts_with("**cover** load, Pump cover, cast steel (cover.pick:7)"),
        "{text}"
    );
}

#[test]
fn a_value_says_what_was_read_and_what_it_went_into() {
    let lift = Lift::new(&[]);
    let (text, at) = said(&lift, "mass       14.^0 t").unwrap();
    assert_eq!(at, "cover.pick:9:14.0 t +/- 5 %");
    assert!(text.contains("mass of cover: 13.3 .. 14.7 t"), "{text}");
    assert!(
        text.contains("- **within** `support-verified` slab under stool: "),
        "{text}"
    );
}

#[test]
fn a_missing_value_says_what_waits_for_it() {
    let lift = Lift::new(&[("mass       14.0 t +/- 5 % ", "mass       unknown ")]);
    let (text, _) = said(&lift, "mass       unk^nown").unwrap();
    assert!(text.contains("**cannot tell** `"), "{text}");
}

#[test]
fn a_name_that_leads_nowhere_says_so() {
    let lift = Lift::new(&[("carries    cover", "carries    cower")]);
    let (text, _) = said(&lift, "carries    cow^er").unwrap();
    assert_eq!(text, "`cower` is declared nowhere that this file sees");
}

#[test]
fn a_comment_and_the_end_of_the_file_say_nothing() {
    let lift = Lift::new(&[]);
    assert_eq!(said(&lift, "# Inv^ented.\njob"), None);
}

#[test]
fn a_basis_and_a_rule_set_say_what_they_are() {
    let lift = Lift::new(&[]);
    let (text, at) = said(&lift, "from practice^-note").unwrap();
    assert_eq!(at, "cover.pick:24:practice-note");
    assert!(text.starts_with("**practice-note**: "), "{text}");
    let (text, at) = said(&lift, "rules      u^s").unwrap();
    assert_eq!(at, "cover.pick:4:us");
    assert!(text.starts_with("**us**: US federal rules"), "{text}");
}
