//! Lines that cannot all be true, and lines that say what would mend them.

mod common;

use common::*;

/// What is told of the clean lift with some of its text replaced, in words with their mends.
fn said(change: &[(&str, &str)]) -> Vec<String> {
    let checked = fresh(&changed(change));
    let notices = checked.notices.iter();
    notices
        .map(|notice| format!("{}: {}; {}", notice.code.code, notice.say, notice.mend))
        .collect()
}

#[test]
fn two_adoptions_of_one_key_are_told() {
    let both = said(&[(
        "14.0 t +/- 5 %           from drawing",
        "14.0 t +/- 5 % from drawing\n  mass at most 20 t from stated\n  adopt mass from drawing by role \"lead\" because \"so\"\n  adopt mass from stated by role \"lead\" because \"so\"",
    )]);
    says(&both, "said-twice", "a claim of `mass` is adopted twice");
}

#[test]
fn something_inside_beside_nothing_inside_is_told() {
    let both = said(&[(
        "  inside     nothing                  from walk-2\n",
        "  inside     nothing                  from walk-2\n  inside     water 900 kg +/- 10 %\n",
    )]);
    says(
        &both,
        "said-twice",
        "`inside` says nothing here and something elsewhere",
    );
}

#[test]
fn no_voids_beside_a_hole_is_told() {
    let both = said(&[("voids      listed", "voids      none")]);
    says(
        &both,
        "said-twice",
        "`voids none` stands beside holes or cavities",
    );
}

#[test]
fn a_point_that_stands_twice_in_a_line_of_legs_is_told() {
    let twice = said(&[("legs       A B C to", "legs       A A B C to")]);
    says(&twice, "line-not-read", "`A` stands twice");
}

#[test]
fn a_reading_without_a_quotation_is_told() {
    let bare = said(&[(
        "from tag quote \"WLL 25 t\"",
        "from tag read-as metric because \"sheet\"",
    )]);
    says(
        &bare,
        "line-not-read",
        "`read-as` says how a quotation is read, and none stands here",
    );
}

#[test]
fn a_reading_that_contradicts_the_typed_number_is_told() {
    // 12 short tons of 2000 lb are 10,886 kg.
    let short = said(&[(
        "quote \"WLL 12T\" read-as metric",
        "quote \"WLL 12T\" read-as short",
    )]);
    says(
        &short,
        "quote-differs",
        "\"WLL 12T\" read as short is 10,886 kg, the line says 12,000 kg",
    );
}

#[test]
fn a_day_in_another_form_is_told_with_the_days_that_it_may_mean() {
    let day = said(&[(
        "from drawing\n  cg",
        "from weighed on 30.09.2026 with \"cell\"\n  cg",
    )]);
    says(&day, "line-not-read", "2026-09-30");
    let verified = said(&[("on 2026-09-01, covers pad", "on 01/09/2026, covers pad")]);
    says(&verified, "line-not-read", "2026-01-09");
    says(&verified, "line-not-read", "2026-09-01");
}

#[test]
fn a_share_in_place_of_a_plain_number_is_told_without_units_that_it_has_not() {
    let share = said(&[("dynamic    1.10 ", "dynamic    10 % ")]);
    says(
        &share,
        "line-not-read",
        "write a number without a unit, as `1.10`",
    );
}
