//! Lifts in tiers and by two machines, as small texts.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may fail")]

#[path = "said/by_two.rs"]
mod by_two;

use by_two::BY_TWO;
use plumbhook_checks::{RULES, example};
use plumbhook_sheet::{Aspect, Verdict};

fn aspects(code: &str, change: &[(&str, &str)]) -> Vec<Aspect> {
    let files = example::SPREADER.files(change).unwrap();
    let case = example::case_of(&files).unwrap();
    let rule = RULES.iter().find(|rule| rule.code == code).unwrap();
    (rule.check)(&case)
}

/// Code, subject, change of the lift under a spreader, word of the verdict, part of what is said.
fn said(code: &str, subject: &str, change: &[(&str, &str)], word: &str, part: &str) {
    let all = aspects(code, change);
    let one = all.iter().find(|aspect| aspect.subject == subject);
    let one = one.unwrap_or_else(|| panic!("{code}: nothing is said of {subject}: {all:?}"));
    let mut says = one.headline.clone();
    if let Verdict::CannotTell(missing) = &one.verdict {
        for missing in missing {
            says.extend(["\n", &missing.what, "; ", &missing.mend]);
        }
    }
    assert_eq!(one.verdict.word(), word, "{says}");
    assert!(says.contains(part), "{says}");
}

#[test]
fn each_piece_is_judged_in_its_own_tier() {
    // Statics: the load at its heavy end is 9.45 t, the bar with legs 0.7 t, each upper leg at 61 degrees.
    said(
        "sling-rating",
        "rope-26-long-3",
        &[],
        "within",
        "in leg B carries 5.36 t",
    );
    said(
        "sling-rating",
        "rope-32-long-4",
        &[],
        "within",
        "in leg bar-4.TL carries 6.49 t",
    );
    let weak = [("vertical 10.0 t", "vertical 6.0 t")];
    said(
        "sling-rating",
        "rope-32-long-4",
        &weak,
        "over",
        "in leg bar-4.TL carries 6.49 t",
    );
    said("sling-rating", "rope-26-long-3", &weak, "within", "5.36 t");
}

#[test]
fn the_gross_load_names_the_beam_and_both_tiers() {
    let all = aspects("hook-capacity", &[]);
    let sums = all[0].sums.join("\n");
    for part in [
        "tank 9.45 t",
        "bar-4 630 kg",
        "8 bow-12",
        "2 rope-26-long-3",
        "2 rope-32-long-4",
    ] {
        assert!(sums.contains(part), "{sums}");
    }
}

#[test]
fn the_hook_stands_above_both_tiers() {
    // Geometry, common practice: 1.20 m under the load, 1.60 m to its points, 3.23 m of lower legs, 0.30 m of bar, upper
    // legs of 4.23 m over a half span of 2 m (3.73 m), 0.34 m of ring, on a floor at 50.00 m: 60.40 m; with tolerances,
    // stretch and tilt a little more.
    said(
        "hook-height",
        "bridge.main",
        &[],
        "within",
        "comes up to EL 60.5",
    );
}

#[test]
fn a_beam_without_a_rating_is_not_told_to_carry() {
    let none = [(
        "  rated        12 t                   from nameplate quote \"WLL 12 t, 4 m, 55 deg\"\n",
        "",
    )];
    said(
        "beam-rating",
        "bar-4",
        &none,
        "cannot tell",
        "rated capacity of bar-4 is not given",
    );
}

#[test]
fn a_beam_under_flatter_legs_than_its_plate_says_is_not_told_to_carry() {
    let flat = [("at least 55 deg", "at least 65 deg")];
    said(
        "beam-rating",
        "bar-4",
        &flat,
        "cannot tell",
        "for legs above as flat as 61.0 deg",
    );
}

#[test]
fn a_lifting_beam_bends_and_has_no_angle_to_keep() {
    let bends = [
        ("kind         spreader", "kind         lifting-beam"),
        ("  rated-angle  at least 55 deg        from nameplate\n", ""),
    ];
    said("beam-rating", "bar-4", &bends, "within", "carries 10.5 t");
}

#[test]
fn a_beam_that_nothing_carries_is_told() {
    let loose = [(
        "  legs       bar-4.tops to ring-2, through bow-12, rope-32-long-4, bow-12\n",
        "",
    )];
    said(
        "sling-rating",
        "rope-26-long-3",
        &loose,
        "cannot tell",
        "what bar-4 hangs from",
    );
    said(
        "hook-capacity",
        "bridge",
        &loose,
        "cannot tell",
        "what bar-4 hangs from",
    );
}

#[test]
fn an_end_that_a_beam_does_not_have_is_told() {
    let wrong = [("bar-4.ends, through", "bar-4.M, through")];
    said("leg-angle", "legs", &wrong, "cannot tell", "M of bar-4");
}

#[test]
fn a_beam_of_unknown_weight_stops_what_hangs_above_it() {
    let unknown = [("mass         600 kg +/- 5 %", "mass         unknown")];
    for (code, subject) in [
        ("sling-rating", "rope-32-long-4"),
        ("ring-rating", "ring-2"),
        ("hook-capacity", "bridge"),
        ("beam-rating", "bar-4"),
    ] {
        said(
            code,
            subject,
            &unknown,
            "cannot tell",
            "mass of bar-4 is unknown",
        );
    }
}

#[test]
fn a_hold_waits_for_the_low_side_of_the_beam() {
    let hold = "  hold       H1 at 50 mm cell within expected\n  tilt       at most";
    let change = [
        ("mass         600 kg +/- 5 %", "mass         at most 630 kg"),
        ("  tilt       at most", hold),
    ];
    said(
        "hold-window",
        "hold H1",
        &change,
        "cannot tell",
        "mass of bar-4",
    );
}

#[test]
fn legs_that_gather_in_another_ring_than_the_hook_carries_are_told() {
    let other = [("hung       ring-2 by", "hung       bow-12 by")];
    said(
        "leg-angle",
        "legs",
        &other,
        "cannot tell",
        "gather in bow-12",
    );
}

#[test]
fn two_machines_share_by_statics_at_the_worst_of_everything() {
    // Moments about the far point, 4 m apart, centre of gravity 40 mm off and 0.9 m below points that come 100 mm plus the
    // legs' 38 mm out of level, at the heavy end: 9.45 t (2 + 0.04 + 0.94 x 0.138 / 4) / 4 = 4.90 t, and the rigging of one
    // end 0.06 t.
    said("hook-capacity", "second", BY_TWO, "within", "lifts 4.9");
    said("hook-capacity", "bridge", BY_TWO, "within", "lifts 4.9");
    said(
        "ring-rating",
        "ring-2 of tail",
        BY_TWO,
        "within",
        "carries 5.4",
    );
    let mut files = example::SPREADER.files(BY_TWO).unwrap();
    for (_, file) in &mut files {
        *file = file.replace("rated      5 t  ", "rated      4 t  ");
    }
    let case = example::case_of(&files).unwrap();
    let rule = RULES
        .iter()
        .find(|rule| rule.code == "hook-capacity")
        .unwrap();
    let all = (rule.check)(&case);
    let second = all
        .iter()
        .find(|aspect| aspect.subject == "second")
        .unwrap();
    assert_eq!(second.verdict, Verdict::Over, "{}", second.headline);
}

#[test]
fn each_of_two_hooks_has_its_own_height() {
    // 1.20 m under the load, 1.60 m to its points, 4.23 m of leg, 0.34 m of ring, on a floor at 50.00 m: 57.37 m, 0.10 m of
    // it for the level of the hooks.
    said(
        "hook-height",
        "bridge.main",
        BY_TWO,
        "within",
        "comes up to EL 57.",
    );
    said(
        "hook-height",
        "second.main",
        BY_TWO,
        "within",
        "comes up to EL 57.",
    );
}

#[test]
fn two_hooks_whose_level_nobody_bounds_are_not_told_to_carry() {
    let mut change = BY_TWO.to_vec();
    change[1].1 = "by         bridge with head, second with tail";
    said(
        "hook-capacity",
        "second",
        &change,
        "cannot tell",
        "how far the hooks may come out of level",
    );
}

#[test]
fn a_beam_hangs_by_the_same_limit_as_the_load_below_it() {
    // Geometry: the bar hangs from legs of 4.23 m that may differ by 38 mm, and takes a load that may lie 40 mm off its
    // middle: it tilts of its own, whatever the load below does.
    said(
        "tilt",
        "bar-4",
        &[],
        "within",
        "bar-4 hangs out of level by",
    );
    let tight = [("tilt       at most 3 deg", "tilt       at most 0.2 deg")];
    said(
        "tilt",
        "bar-4",
        &tight,
        "over",
        "bar-4 hangs out of level by",
    );
    let none = [("  tilt       at most 3 deg\n", "")];
    said("tilt", "bar-4", &none, "cannot tell", "tilt limit");
}

/// The same by two machines whose hooks are kept so far apart, of which so much out of plumb is allowed.
fn apart(kept: &str) -> Vec<(&'static str, String)> {
    let mut files = example::SPREADER.files(BY_TWO).unwrap();
    for (_, file) in &mut files {
        *file = file.replace(
            "hooks-level at most 100 mm",
            &format!("hooks-level at most 100 mm\n{kept}  out-of-plumb at most 200 mm"),
        );
    }
    files
}

#[test]
fn two_hooks_are_as_far_apart_as_what_they_carry_hangs() {
    // The points are 4.00 m apart, each leg hangs plumb below its hook. Common practice, no source, that they are kept so.
    let all = |kept: &str| {
        let case = example::case_of(&apart(kept)).unwrap();
        let rule = plumbhook_checks::rule("hoist-plumb").unwrap();
        let all = (rule.check)(&case);
        assert_eq!(all.len(), 2);
        all.into_iter()
            .map(|aspect| (aspect.verdict.word().to_owned(), aspect.headline))
            .collect::<Vec<_>>()
    };
    for (kept, word) in [
        ("  hooks-apart 4.00 m +/- 50 mm\n", "within"),
        ("  hooks-apart 4.50 m +/- 50 mm\n", "over"),
        ("  hooks-apart 3.60 m +/- 50 mm\n", "over"),
        ("  hooks-apart at most 4.05 m\n", "cannot tell"),
        ("  hooks-apart unknown\n", "cannot tell"),
        ("", "cannot tell"),
    ] {
        for (said, headline) in all(kept) {
            assert_eq!(said, word, "{kept}: {headline}");
        }
    }
}

/// No sling says how far it stretches, and the beam is heavier at one end.
const OFF_CENTRE: [(&str, &str); 3] = [
    ("  stiffness  11 kN/mm +/- 20 %\n", ""),
    ("  stiffness  9 kN/mm +/- 20 %\n", ""),
    (
        "cg           x 0 +/- 20 mm",
        "cg           x 300 mm +/- 20 mm",
    ),
];

#[test]
fn a_load_that_may_be_light_is_asked_how_light_under_a_beam() {
    let mass = "mass       9.0 t +/- 5 %            from drawing";
    let light = |line| [&OFF_CENTRE[..], &[(mass, line)]].concat();
    let least = "mass of tank: how low it may be";
    for (code, subject) in [
        ("tilt", "tank"),
        ("beam-rating", "bar-4"),
        ("sling-rating", "rope-32-long-4"),
        ("shackle-rating", "bow-12"),
    ] {
        let one_sided = light("mass       at most 9.45 t           from drawing");
        said(code, subject, &one_sided, "cannot tell", least);
        let both = aspects(
            code,
            &light("mass       2 t .. 9.45 t           from drawing"),
        );
        let lacks = |aspect: &Aspect| matches!(&aspect.verdict, Verdict::CannotTell(missing) if missing.iter().any(|missing| missing.what == least));
        assert!(!both.iter().any(lacks), "{code}: {both:?}");
    }
}

#[test]
fn what_slings_stretch_counts_beside_legs_of_shackles_alone() {
    // The tank hangs from the bar by one shackle at each end.
    let short = (
        "bar-4.ends, through bow-12, rope-26-long-3, bow-12",
        "bar-4.ends, through bow-12",
    );
    let high = |stiffness: &str| {
        let change = [short, ("11 kN/mm +/- 20 %", stiffness)];
        let all = aspects("hook-height", &change);
        let one = all.first().unwrap();
        assert_eq!(one.verdict.word(), "within", "{}", one.headline);
        one.sheet.demand.unwrap().si
    };
    // Hooke and geometry, by hand: 10.1 t in two legs at 61 degrees are 57 kN in each; over 0.2 kN/mm that is 285 mm along
    // the leg, and over the same half span a leg of 4.23 m that is 285 mm longer stands 4.04 m high instead of 3.73 m.
    let rise = high("0.2 kN/mm +/- 1 %") - high("11 kN/mm +/- 1 %");
    assert!((0.29..0.33).contains(&rise), "{rise}");
}
