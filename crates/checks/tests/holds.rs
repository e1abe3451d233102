//! Holds and stops: what the cell is expected to read, and the class of a lift.

#![allow(clippy::unwrap_used, reason = "a test")]

use plumbhook_checks::{example, rule};
use plumbhook_sheet::{Aspect, Verdict};

/// What a rule says of the clean lift with a few lines more in its move.
fn says(code: &str, lines: &str, change: &[(&str, &str)]) -> Vec<Aspect> {
    let more = format!("{lines}  tilt       at most");
    let mut all = vec![("  tilt       at most", &*more)];
    all.extend(change);
    let files = example::files(&all).unwrap();
    (rule(code).unwrap().check)(&example::case_of(&files).unwrap())
}

fn one(code: &str, lines: &str, change: &[(&str, &str)]) -> (&'static str, String) {
    let aspects = says(code, lines, change);
    let [aspect] = &aspects[..] else {
        panic!("{aspects:#?}")
    };
    (aspect.verdict.word(), aspect.headline.clone())
}

#[test]
fn the_expected_reading_is_the_load_and_its_rigging_at_both_ends() {
    // 14.0 t +/- 5 % with 3 slings of 27 kg, 6 shackles of 6.4 kg and a ring of 22 kg, each +/- 5 %:
    // 0.95 x 14,141.4 kg = 13,434 kg and 1.05 x 14,141.4 kg = 14,848 kg, by hand.
    let (verdict, headline) = one(
        "hold-window",
        "  hold       H1 at 50 mm cell within expected\n",
        &[],
    );
    assert_eq!(verdict, "within");
    assert!(
        headline.contains("13.4 t") && headline.contains("14.9 t"),
        "{headline}"
    );
}

#[test]
fn a_hold_in_the_cell_of_a_station_is_the_same() {
    let station = [
        (
            "    | at              | underside         |",
            "    | at              | underside         | hold |",
        ),
        (
            "(8.0 m, 5.0 m)  | above slab 1.80 m |",
            "(8.0 m, 5.0 m)  | above slab 1.80 m | H1 cell 13 t .. 14 t |",
        ),
        (
            "(8.0 m, 5.0 m)  | EL 51.20 m        |",
            "(8.0 m, 5.0 m)  | EL 51.20 m        |  |",
        ),
        (
            "(18.0 m, 5.0 m) | above slab 1.80 m |",
            "(18.0 m, 5.0 m) | above slab 1.80 m |  |",
        ),
        (
            "(18.0 m, 5.0 m) | on stool          |",
            "(18.0 m, 5.0 m) | on stool          |  |",
        ),
    ];
    let (verdict, headline) = one("hold-window", "", &station);
    assert_eq!(verdict, "over", "{headline}");
    let on_the_stool = [
        station[0],
        (
            "(18.0 m, 5.0 m) | on stool          |",
            "(18.0 m, 5.0 m) | on stool          | H1 cell within expected |",
        ),
        station[2],
        station[3],
        (
            "(8.0 m, 5.0 m)  | above slab 1.80 m |",
            "(8.0 m, 5.0 m)  | above slab 1.80 m |  |",
        ),
    ];
    let (verdict, headline) = one("hold-window", "", &on_the_stool);
    assert_eq!(verdict, "cannot tell", "{headline}");
    assert!(headline.contains("where the load stands"), "{headline}");
}

#[test]
fn a_window_that_goes_further_than_what_was_checked_says_how_far() {
    let (verdict, headline) = one(
        "hold-window",
        "  hold       H1 at 50 mm cell 12 t .. 20 t\n",
        &[],
    );
    assert_eq!(verdict, "within");
    assert!(
        headline.contains("above 14.9 t") && headline.contains("nothing was checked"),
        "{headline}"
    );
}

#[test]
fn while_the_load_is_held_no_reading_is_expected_but_where_it_is_proved_free() {
    let line = "  limit      20 t                     from cell\n  hold       H1 at 50 mm cell within expected\n";
    let held = |by: &'static str| [("held-by    nothing                  from walk-2", by)];
    let (verdict, headline) = one("hold-window", line, &held("held-by    bolts 24"));
    assert_eq!(verdict, "cannot tell");
    assert!(
        headline.contains("whether cover is free at hold H1"),
        "{headline}"
    );
    let (verdict, _) = one(
        "hold-window",
        line,
        &held("held-by    bolts 24, free-at H1"),
    );
    assert_eq!(verdict, "within");
}

#[test]
fn a_hold_that_is_nowhere_tells_nothing() {
    let (verdict, headline) = one("hold-window", "  hold       H1 cell within expected\n", &[]);
    assert_eq!(verdict, "cannot tell");
    assert!(headline.contains("where hold H1 is"), "{headline}");
}

#[test]
fn a_stop_below_what_is_expected_is_over() {
    let stop = |line: &str| one("hold-window", &format!("  stop       {line}\n"), &[]);
    assert_eq!(stop("cell above 14 t").0, "over");
    assert_eq!(stop("cell above 16 t").0, "within");
    assert_eq!(stop("cell above 90 % of expected").0, "over");
    assert_eq!(stop("cell above 110 % of expected").0, "within");
    assert_eq!(stop("any leg above 110 % of expected").0, "within");
    assert_eq!(stop("any leg above 2 t").0, "over");
    assert_eq!(stop("unknown").0, "cannot tell");
    assert_eq!(stop("cell above 110 %").0, "cannot tell");
    assert_eq!(stop("below 3 t").0, "cannot tell");
}

#[test]
fn a_stop_by_the_expected_reading_waits_for_the_weight() {
    let unknown = [(
        "mass       14.0 t +/- 5 %           from drawing",
        "mass       unknown",
    )];
    let (verdict, headline) = one(
        "hold-window",
        "  stop       cell above 110 % of expected\n",
        &unknown,
    );
    assert_eq!(verdict, "cannot tell", "{headline}");
    let (verdict, _) = one(
        "hold-window",
        "  stop       cell above 90 % of expected\n",
        &unknown,
    );
    assert_eq!(
        verdict, "over",
        "below what is expected, whatever that turns out to be"
    );
}

#[test]
fn a_person_raises_the_class_of_a_lift_and_never_lowers_it() {
    let class = |line: &str, change: &[(&str, &str)]| one("lift-class", line, change);
    let heavy = ("rated      30 t ", "rated      18 t ");
    assert_eq!(class("", &[]).1, "M1 is ordinary: no trigger is met");
    let (verdict, critical) = class("", &[heavy]);
    assert_eq!(verdict, "within");
    assert!(
        critical.starts_with("M1 is critical: bridge lifts") && critical.contains("more than 75 %"),
        "{critical}"
    );
    assert_eq!(
        class("  class      critical\n", &[]).1,
        "M1 is critical: a person says so"
    );
    assert_eq!(class("  class      ordinary\n", &[]).0, "within");
    let (verdict, lowered) = class("  class      ordinary\n", &[heavy]);
    assert_eq!(verdict, "over");
    assert!(
        lowered.starts_with("M1 is called ordinary, but it is critical"),
        "{lowered}"
    );
    let unknown = [(
        "mass       14.0 t +/- 5 %           from drawing",
        "mass       unknown",
    )];
    assert_eq!(class("", &unknown).0, "cannot tell");
    assert_eq!(
        class("  class      critical\n", &unknown).0,
        "within",
        "no class is higher"
    );
    assert_eq!(class("  class      critical ?\n", &[]).0, "cannot tell");
}

#[test]
fn a_share_of_exactly_three_quarters_meets_no_trigger() {
    // "Exceeds 75 %": the form's own words. A block of exactly nothing and a load of exactly three quarters.
    let exactly = [
        (
            "mass       14.0 t +/- 5 %           from drawing",
            "mass       22.35 t +/- 0 t from drawing",
        ),
        ("mass       27 kg +/- 5 %", "mass       27 kg +/- 0 kg"),
        ("mass       6.4 kg +/- 5 %", "mass       7.5 kg +/- 0 kg"),
        ("mass       22 kg +/- 5 %", "mass       24 kg +/- 0 kg"),
    ];
    let aspects = says("lift-class", "", &exactly);
    assert_eq!(aspects[0].verdict, Verdict::Within);
    assert!(
        aspects[0].headline.contains("ordinary"),
        "{}",
        aspects[0].headline
    );
}

#[test]
fn the_class_of_a_lift_by_a_mobile_crane_counts_its_chart_at_the_worst_radius() {
    let class = |change: &[(&str, &str)]| {
        let files = example::LAYDOWN.files(change).unwrap();
        let aspects = (rule("lift-class").unwrap().check)(&example::case_of(&files).unwrap());
        (aspects[0].verdict.word(), aspects[0].headline.clone())
    };
    let chart = rule("crane-chart").unwrap();
    let files = example::LAYDOWN.files(&[]).unwrap();
    let used = (chart.check)(&example::case_of(&files).unwrap())[0]
        .sheet
        .utilisation
        .unwrap();
    let (verdict, headline) = class(&[]);
    assert_eq!(verdict, "within");
    let says = if used > 0.75 {
        "is critical: C1 lifts"
    } else {
        "is ordinary"
    };
    assert!(headline.contains(says), "{used}: {headline}");
    let (verdict, headline) = class(&[("config     boom 36.2 m,", "config     boom 30.0 m,")]);
    assert_eq!(verdict, "cannot tell", "{headline}");
}
