//! *Over* needs proof: a leg or a piece that cannot be read never makes the others look overloaded.

use plumbhook_checks::{example, rule};

fn said(change: &[(&str, &str)]) -> Vec<String> {
    let files = example::files(change).unwrap_or_else(|why| panic!("{why}"));
    let case = example::case_of(&files).unwrap_or_else(|why| panic!("{why}"));
    let rule = rule("sling-rating").unwrap_or_else(|| panic!("the rule is gone"));
    (rule.check)(&case)
        .iter()
        .map(|aspect| aspect.verdict.word().to_owned())
        .collect()
}

#[test]
fn a_leg_whose_point_is_not_declared_convicts_nobody() {
    // Two legs of the three would carry over 7.5 t each.
    let tight = ("rated      vertical 10.0 t", "rated      vertical 6.6 t");
    let all = said(&[tight]);
    assert!(all.iter().all(|word| word == "within"), "{all:?}");
    let one_gone = said(&[tight, ("legs       A B C to", "legs       A B X to")]);
    assert!(
        one_gone.iter().all(|word| word == "cannot tell"),
        "{one_gone:?}"
    );
}

#[test]
fn a_piece_that_is_declared_nowhere_convicts_nobody() {
    // Without the sling the legs would be 230 mm long and far too flat.
    let gone = said(&[(
        "through bow-12, rope-32-long-5, bow-12",
        "through bow-12, rope-99, rope-32-long-5, bow-12",
    )]);
    assert!(gone.iter().all(|word| word == "cannot tell"), "{gone:?}");
}

#[test]
fn a_light_end_that_is_over_convicts_whatever_the_heavy_end_is() {
    let heavy = said(&[("mass       14.0 t +/- 5 % ", "mass       at least 40 t ")]);
    assert!(heavy.iter().all(|word| word == "over"), "{heavy:?}");
    let light = said(&[("mass       14.0 t +/- 5 % ", "mass       at least 1 t ")]);
    assert!(light.iter().all(|word| word == "cannot tell"), "{light:?}");
}
