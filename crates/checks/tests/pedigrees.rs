//! What a value rests on: a source that nobody declared, evidence that may be read in several ways, a frame that nobody
//! describes, a floor that nobody vouches for. None of them acquits.

mod said;

use plumbhook_sheet::{Lack, Stage, Verdict};
use said::{lacks, said};

fn misses(code: &str, subject: &str, change: &[(&str, &str)], wanted: (&str, Lack)) {
    assert_eq!(
        said(code, subject, &[]).verdict.word(),
        before(code),
        "{code}"
    );
    let after = lacks(&said(code, subject, change));
    assert!(
        after
            .iter()
            .any(|(what, lack, due)| (what.as_str(), *lack) == wanted && *due < Stage::Issue),
        "{code}: {after:?}"
    );
}

/// Only a load that is free makes its rule not apply.
fn before(code: &str) -> &'static str {
    if code == "breaking-free" {
        "does not apply"
    } else {
        "within"
    }
}

#[test]
fn a_source_that_is_declared_nowhere_acquits_nothing() {
    let nowhere = ("source `d-204`", Lack::NotFound);
    let rated = ("from tag quote \"WLL 25 t\"", "from d-204");
    misses("ring-rating", "ring-2", &[rated], nowhere);
    let crane = ("from nameplate \"30 t\"", "from d-204");
    misses("hook-capacity", "bridge", &[crane], nowhere);
    let verified = ("covers pad 380 kPa", "covers pad 380 kPa  from d-204");
    misses("support-verified", "slab under stool", &[verified], nowhere);
    misses("floor-bearing", "slab under stool", &[verified], nowhere);
    let allows = (
        "pad 400 kPa              from measured",
        "pad 400 kPa from d-204",
    );
    misses("floor-bearing", "slab under stool", &[allows], nowhere);
    let mass = (
        "14.0 t +/- 5 %           from drawing",
        "14.0 t +/- 5 % from d-204",
    );
    for (code, subject) in [("mass-known", "cover"), ("sling-rating", "rope-32-long-5")] {
        misses(code, subject, &[mass], nowhere);
    }
    let holds = (
        "held-by    nothing                  from walk-2",
        "held-by    nothing from d-204",
    );
    for (code, subject) in [("breaking-free", "cover"), ("hook-capacity", "bridge")] {
        misses(code, subject, &[holds], nowhere);
    }
    let inside = (
        "inside     nothing                  from walk-2",
        "inside     nothing from d-204",
    );
    misses("mass-known", "cover", &[inside], nowhere);
    let cg = (
        "z 0.50 m +/- 40 mm   from drawing",
        "z 0.50 m +/- 40 mm  from d-204",
    );
    misses("cg-known", "cover", &[cg], nowhere);
}

#[test]
fn a_capacity_from_a_source_that_is_declared_nowhere_can_still_convict() {
    let weak = (
        "25 t                     from tag quote \"WLL 25 t\"",
        "9 t from d-204",
    );
    assert_eq!(
        said("ring-rating", "ring-2", &[weak]).verdict,
        Verdict::Over
    );
}

#[test]
fn a_source_that_is_declared_twice_is_neither_of_them() {
    let twice = (
        "source walk-2 measured 2026-08-11",
        "source walk-2 measured 2025-01-01\n  accuracy 1 mm\n\nsource walk-2 measured 2026-08-11",
    );
    let after = lacks(&said("hook-height", "bridge.main", &[twice]));
    assert!(
        after
            .iter()
            .any(|(what, ..)| what == "source `walk-2` is declared 2 times"),
        "{after:?}"
    );
}

#[test]
fn a_quoted_ton_is_no_rating_until_the_line_says_how_it_is_read() {
    // 12 short tons are 10.9 t, 12 long tons 12.2 t.
    let bare = (" read-as metric because \"maker's sheet 2021\"", "");
    let how = (
        "rated capacity of bow-12: how \"WLL 12T\" is read",
        Lack::Unknown,
    );
    misses("shackle-rating", "bow-12", &[bare], how);
    let mass = (
        "14.0 t +/- 5 %           from drawing",
        "14.0 t +/- 5 % from drawing quote \"14 tons\"",
    );
    let how = ("mass of cover: how \"14 tons\" is read", Lack::Unknown);
    misses("mass-known", "cover", &[mass], how);
}

#[test]
fn a_quotation_that_says_its_unit_itself_needs_no_reading() {
    for quote in ["WLL 25 TONS OF 2000 LBS", "WLL 25 t", "LOT 25"] {
        let text = format!("quote \"{quote}\"");
        let after = said("ring-rating", "ring-2", &[("quote \"WLL 25 t\"", &text)]);
        assert_eq!(
            after.verdict,
            Verdict::Within,
            "{quote}: {}",
            after.headline
        );
    }
}

#[test]
fn nobody_knows_where_numbers_lie_in_a_frame_that_is_not_described() {
    let load = "  frame      origin underside on shaft axis, x along hall as-installed, z up as-installed\n";
    let plant = "  frame      origin column A/1, x toward C, y toward 3, z up\n";
    for (by, lack) in [("", Lack::Absent), ("  frame unknown\n", Lack::Unknown)] {
        misses("cg-known", "cover", &[(load, by)], ("frame of cover", lack));
        misses(
            "hook-height",
            "bridge.main",
            &[(plant, by)],
            ("frame of pump-hall", lack),
        );
    }
}

#[test]
fn what_nobody_says_to_hold_the_load_may_hold_it_at_every_stage() {
    let line = "  held-by    nothing                  from walk-2\n";
    for (by, lack) in [("", Lack::Absent), ("  held-by unknown\n", Lack::Unknown)] {
        for (code, subject) in [
            ("breaking-free", "cover"),
            ("sling-rating", "rope-32-long-5"),
            ("shackle-rating", "bow-12"),
            ("ring-rating", "ring-2"),
            ("hook-capacity", "bridge"),
        ] {
            misses(code, subject, &[(line, by)], ("what holds cover", lack));
        }
    }
}

#[test]
fn a_floor_allowable_that_is_only_estimated_acquits_nothing() {
    let estimate = (
        "pad 400 kPa              from measured",
        "pad 9000 kPa from estimate",
    );
    let what = "what slab allows under a pad (only estimated)";
    misses(
        "floor-bearing",
        "slab under stool",
        &[estimate],
        (what, Lack::Unverified),
    );
    let after = said("floor-bearing", "slab under stool", &[estimate]);
    assert!(
        after.headline.contains("(only estimated) is not verified"),
        "{}",
        after.headline
    );
    let silent = ("pad 400 kPa              from measured", "pad 400 kPa");
    let after = said("floor-bearing", "slab under stool", &[silent]);
    assert_eq!(after.verdict.word(), "cannot tell", "{}", after.headline);
}

#[test]
fn a_floor_carries_no_more_than_its_verification_covers() {
    // Under the worst pad stand some 340 kPa of the 400 kPa that the floor allows.
    let little = ("covers pad 380 kPa", "covers pad 100 kPa");
    let after = said("floor-bearing", "slab under stool", &[little]);
    assert_eq!(after.verdict, Verdict::Over, "{}", after.headline);
    assert!(after.headline.contains("of 100 kPa"), "{}", after.headline);
}

#[test]
fn a_stiffness_typed_unknown_is_judged_as_an_absent_one() {
    let line = "  stiffness  9 kN/mm +/- 20 %\n";
    for (code, subject) in [
        ("sling-rating", "rope-32-long-5"),
        ("leg-angle", "legs A B C"),
        ("hook-height", "bridge.main"),
    ] {
        let Some(rule) = plumbhook_checks::rule(code) else {
            panic!("no rule {code}")
        };
        let says = |by: &str| {
            let files = plumbhook_checks::example::files(&[(line, by)]).unwrap();
            let case = plumbhook_checks::example::case_of(&files).unwrap();
            let aspects = (rule.check)(&case).into_iter();
            aspects
                .map(|aspect| {
                    (
                        aspect.subject.clone(),
                        aspect.verdict.word(),
                        aspect.sheet.utilisation,
                    )
                })
                .collect::<Vec<_>>()
        };
        assert_eq!(
            says(""),
            says("  stiffness  unknown\n"),
            "{code} on {subject}"
        );
    }
}

#[test]
fn two_adoptions_of_one_key_drop_nothing() {
    let both = (
        "14.0 t +/- 5 %           from drawing",
        "14.0 t +/- 5 % from drawing\n  mass at most 20 t from stated\n  adopt mass from drawing by role \"lead\" because \"so\"\n  adopt mass from stated by role \"lead\" because \"so\"",
    );
    let after = said("mass-known", "cover", &[both]);
    let dropped = after
        .sheet
        .inputs
        .iter()
        .any(|input| input.what.contains("dropped"));
    assert!(
        !dropped && after.headline.contains("20.0 t"),
        "{}",
        after.headline
    );
    let one = (
        both.0,
        &*both.1.replace(
            "\n  adopt mass from stated by role \"lead\" because \"so\"",
            "",
        ),
    );
    assert!(
        said("mass-known", "cover", &[one])
            .headline
            .contains("14.7 t")
    );
}

#[test]
fn something_inside_beside_nothing_inside_is_no_answer() {
    let both = (
        "  inside     nothing                  from walk-2\n",
        "  inside     nothing                  from walk-2\n  inside     water 900 kg +/- 10 % cg x 0 +/- 1 mm, y 0 +/- 1 mm, z 0.5 m +/- 1 mm from walk-2\n",
    );
    let what = "what is inside cover: its lines say nothing and something";
    misses("mass-known", "cover", &[both], (what, Lack::NoAnswer));
}

#[test]
fn no_voids_beside_a_hole_is_no_answer() {
    let none = ("voids      listed", "voids      none");
    let what = "whether slab has holes and cavities: it says `voids none` and lists some";
    misses(
        "over-void",
        "slab under stool",
        &[none],
        (what, Lack::NoAnswer),
    );
}

#[test]
fn an_axis_without_a_tolerance_is_asked_how_exact_it_is() {
    let plain = ("cg         x 0 +/- 40 mm, ", "cg         x 0, ");
    let what = "centre of gravity of cover: the tolerance of x";
    misses("cg-known", "cover", &[plain], (what, Lack::OneSided));
}
