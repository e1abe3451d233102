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

#[test]
fn a_calculation_is_shown_with_its_numbers_put_in_its_band_and_where_each_name_is_given() {
    let lets = "let half = 6.5 t +/- 5 %\nlet lid = half + (200 kg +/- 5 %)\n\nload cover";
    let change = [
        ("load cover", lets),
        ("mass       14.0 t +/- 5 % ", "mass       2 * lid "),
    ];
    let lift = Lift::new(&change);
    let (told, at) = said(&lift, "2 * l^id").unwrap();
    assert_eq!(at, "cover.pick:12:2 * lid");
    let first = "`2 * lid` = `2 * ((6.5 t +/- 5 %) + (200 kg +/- 5 %))` = 13.4 t";
    assert!(told.starts_with(first), "{told}");
    let given = "\n- lid: `half + (200 kg +/- 5 %)` (cover.pick:8)\n";
    assert!(told.contains(given), "{told}");
    // 13.4 t less and more 5 %
    assert!(told.contains("mass of cover: 12.73 .. 14.07 t"), "{told}");
    let (told, _) = said(&lift, "let lid = ha^lf").unwrap();
    assert!(
        told.contains("- half: `6.5 t +/- 5 %` (cover.pick:7)"),
        "{told}"
    );
    assert!(told.contains("- lid: 6.365 .. 7.035 t"), "{told}");
}

#[test]
fn a_name_that_each_option_declares_says_both_where_the_asker_belongs_to_all() {
    let two = "option A\n\noption B\n\nload lid\n  in         option A\n\nload lid\n  in         option B\n\n\
               move M0\n  carries    lid\n\nrigging chains";
    let lift = Lift::new(&[("rigging chains", two)]);
    let (told, _) = said(&lift, "carries    li^d").unwrap();
    assert!(told.contains("**lid** load, in option A"), "{told}");
    assert!(told.contains("**lid** load, in option B"), "{told}");
}
