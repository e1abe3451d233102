//! What is known of the load, said to a person.

mod said;

use plumbhook_sheet::{Lack, Stage, Verdict};
use said::said;

const MASS: &str = "mass       14.0 t +/- 5 %           from drawing";

fn missing(code: &str, subject: &str, change: &[(&str, &str)]) -> Vec<(String, Lack, Stage)> {
    let said = said(code, subject, change);
    match said.verdict {
        Verdict::CannotTell(missing) => missing
            .into_iter()
            .map(|missing| (missing.what, missing.lack, missing.due))
            .collect(),
        other => panic!("{}: {}", other.word(), said.headline),
    }
}

#[test]
fn a_known_mass_says_its_band_how_wide_it_is_and_where_it_comes_from() {
    assert_eq!(
        said("mass-known", "cover", &[]).headline,
        "mass of cover is 13.3 .. 14.7 t, 29,321 .. 32,408 lb (+/- 5 %), from drawing"
    );
}

#[test]
fn a_mass_of_unsaid_origin_is_not_yet_due_before_issue() {
    let bare = missing(
        "mass-known",
        "cover",
        &[(MASS, "mass       14.0 t +/- 5 %")],
    );
    let what = "mass of cover: where it comes from".to_owned();
    assert_eq!(bare, [(what, Lack::Unverified, Stage::Issue)]);
}

#[test]
fn at_most_leaves_the_low_side_unknown() {
    let change = [(MASS, "mass       at most 14 t           from drawing")];
    let low = missing("mass-known", "cover", &change);
    let what = "mass of cover: how low it may be".to_owned();
    assert_eq!(low, [(what.clone(), Lack::OneSided, Stage::FirstLook)]);
    // Legs stretch less under a lighter load: whatever reads the pose of stretching legs lacks it too.
    for (code, subject) in [("tilt", "cover"), ("hook-height", "bridge.main")] {
        let said = missing(code, subject, &change);
        assert_eq!(said.first().map(|first| &first.0), Some(&what), "{code}");
    }
    // What only gets worse when it is heavy does not.
    let said = said("sling-rating", "rope-32-long-5", &change);
    assert_eq!(said.verdict, Verdict::Within, "{}", said.headline);
}

#[test]
fn claims_that_cannot_both_be_true_bound_nothing() {
    let change = [(
        MASS,
        "mass       at least 20 t  from drawing\n  mass       at most 14 t  from weighed",
    )];
    for (code, subject) in [
        ("mass-known", "cover"),
        ("hook-capacity", "bridge"),
        ("sling-rating", "rope-32-long-5"),
    ] {
        let said = missing(code, subject, &change);
        assert!(
            said.iter()
                .any(|(what, lack, _)| *lack == Lack::NoAnswer && what.contains("at least 20 t")),
            "{code}: {said:?}"
        );
    }
}

#[test]
fn a_mass_below_zero_is_no_mass() {
    let change = [("mass       27 kg +/- 5 %", "mass       -27 kg +/- 5 %")];
    let said = missing("hook-capacity", "bridge", &change);
    assert!(
        said.iter().any(|(what, lack, _)| *lack == Lack::NoAnswer
            && what == "mass of rope-32-long-5 is below zero"),
        "{said:?}"
    );
}

#[test]
fn an_axis_typed_unknown_is_asked_for_as_unknown() {
    let change = [("cg         x 0 +/- 40 mm", "cg         x unknown")];
    let what = "centre of gravity of cover: x".to_owned();
    assert_eq!(
        missing("cg-known", "cover", &change),
        [(what, Lack::Unknown, Stage::FirstLook)]
    );
}

#[test]
fn where_nobody_says_which_rules_govern_no_leg_passes() {
    let change = [("  rules      us\n", "")];
    for (code, subject) in [("leg-angle", "legs"), ("sling-rating", "rope-32-long-5")] {
        let said = missing(code, subject, &change);
        assert_eq!(
            said.first().map(|first| first.0.as_str()),
            Some("which published rule sets govern"),
            "{code}"
        );
    }
    let strange = [("rules      us", "rules      us, of-the-house")];
    let said = missing("leg-angle", "legs", &strange);
    assert_eq!(said.first().map(|first| first.1), Some(Lack::NotFound));
}

#[test]
fn a_leg_that_is_too_flat_says_what_length_would_do_and_that_length_does() {
    let wide = ("ring radius 0.95 m", "ring radius 4.70 m");
    let flat = said("leg-angle", "legs", &[wide]);
    assert_eq!(flat.verdict, Verdict::Over);
    assert_eq!(
        flat.headline,
        "leg C is 24.4 deg from horizontal at the worst, the least is 30.0 deg"
    );
    let long = ("long       5.00 m +/- 15 mm", "long       5.27 m +/- 15 mm");
    assert_eq!(
        said("leg-angle", "legs", &[wide, long]).verdict,
        Verdict::Within,
        "{:?}",
        flat.mends
    );
}

#[test]
fn a_tilt_says_how_well_the_centre_of_gravity_would_have_to_be_known() {
    let wide = (
        "x 0 +/- 40 mm, y 0 +/- 40 mm",
        "x 0 +/- 150 mm, y 0 +/- 150 mm",
    );
    let over = said("tilt", "cover", &[wide]);
    assert_eq!(over.verdict, Verdict::Over, "{}", over.headline);
    let mend = over.mends.first().map_or("", |mend| mend);
    assert!(
        mend.starts_with("a centre of gravity known to +/- "),
        "{mend}"
    );
    let half: f64 = mend
        .split(' ')
        .find_map(|word| word.parse().ok())
        .unwrap_or_else(|| panic!("{mend}"));
    let known = |half: f64| {
        let narrow = format!("x 0 +/- {half} mm, y 0 +/- {half} mm");
        said(
            "tilt",
            "cover",
            &[("x 0 +/- 40 mm, y 0 +/- 40 mm", narrow.as_str())],
        )
        .verdict
    };
    assert_eq!(known(half), Verdict::Within, "{mend}");
    assert_eq!(known(half + 5.0), Verdict::Over, "{mend}");
}

#[test]
fn why_a_load_has_no_pose_is_told_by_its_own_names() {
    // A centre of gravity far above three lifting points: by statics the load rolls over.
    let high = ("z 0.50 m +/- 40 mm", "z 9.00 m +/- 40 mm");
    let all = missing("tilt", "cover", &[high]);
    let (why, ..) = all
        .iter()
        .find(|(what, ..)| what.contains("how the load hangs has no answer"))
        .unwrap();
    assert!(!why.contains("body 1") && !why.contains("leg 1"), "{why}");
    assert!(why.contains("above the lifting points"), "{why}");
}
