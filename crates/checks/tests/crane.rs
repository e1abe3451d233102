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
