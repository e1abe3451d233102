//! What `crane-chart` says of a lift by a mobile crane, with the numbers worked by hand. The lift is invented; reading
//! a chart by its lower neighbour is common practice, no source.

#![allow(
    clippy::unwrap_used,
    reason = "helpers of tests stand outside test functions"
)]

use plumbhook_checks::{RULES, example};
use plumbhook_sheet::{Aspect, Verdict};

fn says(rule: &str, change: &[(&str, &str)]) -> Aspect {
    let files = example::LAYDOWN.files(change).unwrap();
    let case = example::case_of(&files).unwrap();
    let rule = RULES.iter().find(|known| known.code == rule).unwrap();
    (rule.check)(&case).remove(0)
}

#[test]
fn the_rating_is_that_of_the_next_longer_radius() {
    // At (19.0, 6.0) the load is hypot(9, 4) = 9.85 m from (10, 10); the hook hangs over the centre of gravity, aside by
    // at most 40 mm each way: below 10 m, so 40.2 t hold. 18.9 t + 3 x 28.35 kg + 23.1 kg + 630 kg = 19.64 t.
    let aspect = says("crane-chart", &[]);
    assert_eq!(aspect.verdict, Verdict::Within, "{}", aspect.headline);
    let share = aspect.sheet.utilisation.unwrap();
    assert!((share - 19.638 / 40.2).abs() < 2e-4, "{share}");
    // 150 mm further out it is 10.0 m and more with what is not known: the next longer radius is 12 m.
    let further = says(
        "crane-chart",
        &[("(19.0 m, 6.0 m)  | above", "(19.15 m, 6.0 m) | above")],
    );
    let share = further.sheet.utilisation.unwrap();
    assert!(
        (share - 19.638 / 32.4).abs() < 2e-4,
        "{share}: {}",
        further.headline
    );
}

#[test]
fn out_of_the_chart_at_one_station_is_over_and_says_where() {
    let aspect = says(
        "crane-chart",
        &[("(19.0 m, 6.0 m)  |", "(25.0 m, 6.0 m)  |")],
    );
    assert_eq!(aspect.verdict, Verdict::Over);
    assert!(
        aspect.headline.contains("outside its chart at station 3"),
        "{}",
        aspect.headline
    );
}

#[test]
fn a_chart_of_another_configuration_judges_nothing() {
    for (change, says_so) in [
        (
            "config     boom 36.2 m, counterweight 40 t,",
            "counterweight 54 t, not 40 t",
        ),
        (
            "config     boom 36.2 m, zone rear, counterweight 54 t,",
            "no word of zone",
        ),
    ] {
        let aspect = says(
            "crane-chart",
            &[("config     boom 36.2 m, counterweight 54 t,", change)],
        );
        assert!(
            matches!(aspect.verdict, Verdict::CannotTell(_)),
            "{}",
            aspect.headline
        );
        assert!(
            aspect.mends.iter().any(|mend| mend.contains(says_so)),
            "{:?}",
            aspect.mends
        );
    }
    // The same length in another unit is the same configuration.
    let same = says(
        "crane-chart",
        &[("config     boom 36.2 m,", "config     boom 3620 cm,")],
    );
    assert_eq!(same.verdict, Verdict::Within, "{}", same.headline);
}

#[test]
fn the_way_past_the_crane_counts() {
    // From 9 m on one side to 9 m on the other, 4 m ahead: the way between passes inside the shortest radius of 8 m.
    let past = says(
        "crane-chart",
        &[("(18.0 m, 12.0 m) | above", "(1.0 m, 6.0 m)   | above")],
    );
    assert_eq!(past.verdict, Verdict::Over);
    assert!(
        past.headline.contains("on the way from station"),
        "{}",
        past.headline
    );
}

/// The motor is held, and the limit device stops at so much.
fn held(limit: &str, by: &str) -> [(&'static str, String); 2] {
    [
        (
            "held-by    nothing                  from measured",
            format!("held-by    {by}"),
        ),
        (
            "  tilt       at most",
            format!("{limit}  tilt       at most"),
        ),
    ]
}

fn says_held(rule: &str, limit: &str, by: &str, more: &[(&str, &str)]) -> Aspect {
    let change = held(limit, by);
    let mut change: Vec<(&str, &str)> = change.iter().map(|(a, b)| (*a, &**b)).collect();
    change.extend(more);
    says(rule, &change)
}

#[test]
fn a_load_that_is_held_pulls_the_crane_up_to_the_limit() {
    // At (18, 12) from (10, 10): hypot(8, 2) = 8.25 m, so the rating at 10 m holds, 40.2 t. That the limit device alone
    // bounds the pull is common practice, no source.
    let bolted = "bolts 24, seal";
    let over = says_held("crane-chart", "  limit      60 t from cell\n", bolted, &[]);
    assert_eq!(over.verdict, Verdict::Over, "{}", over.headline);
    assert!(
        over.headline.contains("may pull 60 t ")
            && over.headline.contains("while the load is held"),
        "{}",
        over.headline
    );
    let mend = over.mends.join("; ");
    // By hand, below the boom beside the load: three ropes of 28.35 kg, the ring of 23.1 kg and the block of 630 kg, 0.74 t.
    assert!(mend.contains("limit of the pull of 39.4 t"), "{mend}");
    // The limit alone is carried, with what hangs above its device it is not.
    let near = says_held("crane-chart", "  limit      40 t from cell\n", bolted, &[]);
    assert_eq!(near.verdict.word(), "cannot tell", "{}", near.headline);
    assert!(
        near.headline
            .contains("whether the limit of the pull counts"),
        "{}",
        near.headline
    );
    let below = says_held("crane-chart", "  limit      30 t from cell\n", bolted, &[]);
    assert_eq!(below.verdict, Verdict::Within, "{}", below.headline);
    let share = below.sheet.utilisation.unwrap();
    assert!((share - 30.0 / 40.2).abs() < 1e-4, "{share}");
    let none = says_held("crane-chart", "", bolted, &[]);
    assert!(
        none.headline
            .contains("limit of the pull while motor is held is not given"),
        "{}",
        none.headline
    );
}

#[test]
fn further_on_the_limit_counts_until_the_load_is_proved_free() {
    // (23, 6) is hypot(13, 4) = 13.6 m away: 26.1 t at 14 m, less than the limit of 35 t and more than the 19.6 t that hang.
    let limit = "  limit      35 t from cell\n";
    let further = ("| (19.0 m, 6.0 m)  |", "| (23.0 m, 6.0 m)  |");
    let unsaid = says_held("crane-chart", limit, "bolts 24, seal", &[further]);
    assert_eq!(unsaid.verdict.word(), "cannot tell", "{}", unsaid.headline);
    assert!(
        unsaid.headline.contains("whether motor is free"),
        "{}",
        unsaid.headline
    );
    let limit_and_hold =
        "  limit      35 t from cell\n  hold       H1 at 50 mm cell within expected\n";
    let free = says_held(
        "crane-chart",
        limit_and_hold,
        "bolts 24, seal, free-at H1",
        &[further],
    );
    assert_eq!(free.verdict, Verdict::Within, "{}", free.headline);
}

#[test]
fn a_pull_beyond_the_share_of_the_trigger_makes_the_lift_critical() {
    // 30.0 t of 40.2 t are 74.6 %, 19.6 t are 48.9 %: the trigger is at 75 %, so 31 t (77 %) are more.
    let class = |limit| says_held("lift-class", limit, "bolts 24, seal", &[]).headline;
    assert!(class("  limit      30 t from cell\n").contains("ordinary"));
    let critical = class("  limit      31 t from cell\n");
    assert!(critical.contains("critical: C1 lifts 31 t"), "{critical}");
}

#[test]
fn a_radius_that_only_the_corners_of_the_bands_reach_convicts_nobody() {
    // The chart ends at 14 m. With the tilt that 40 mm bring the origin hangs aside of the hook by up to 64 mm each way:
    // from (13.35, 4) the corner of that box is hypot(13.414, 4.064) = 14.016 m away, but of its far side only
    // hypot(13.414, 3.936) = 13.980 m is sure to be reached. From (13.40, 4) that is hypot(13.464, 3.936) = 14.027 m.
    let at = |place| says("crane-chart", &[("| (19.0 m, 6.0 m)  |", place)]);
    let open = at("| (23.35 m, 6.0 m) |");
    assert_eq!(open.verdict.word(), "cannot tell", "{}", open.headline);
    assert!(
        open.headline.contains("the radius at station 3"),
        "{}",
        open.headline
    );
    let beyond = at("| (23.40 m, 6.0 m) |");
    assert_eq!(beyond.verdict, Verdict::Over, "{}", beyond.headline);
}

#[test]
fn what_is_deducted_has_to_be_said() {
    let aspect = says(
        "crane-chart",
        &[("  deducts    hook-block 600 kg +/- 5 %\n", "")],
    );
    assert!(
        aspect.headline.contains("deducts is not given"),
        "{}",
        aspect.headline
    );
    let nothing = says("crane-chart", &[("hook-block 600 kg +/- 5 %", "nothing")]);
    assert_eq!(nothing.verdict, Verdict::Within);
}

#[test]
fn a_lift_by_a_mobile_crane_is_clean_in_every_other_rule() {
    let files = example::LAYDOWN.files(&[]).unwrap();
    let case = example::case_of(&files).unwrap();
    let bad: Vec<String> = RULES
        .iter()
        .flat_map(|rule| (rule.check)(&case))
        .filter(|aspect| matches!(aspect.verdict, Verdict::Over | Verdict::CannotTell(_)))
        .map(|aspect| aspect.headline)
        .collect();
    assert!(bad.is_empty(), "{bad:#?}");
}
