//! Places by grid lines, levels by their datum, places by name: each lift here is the clean lift written another way,
//! or with a tolerance whose effect is plain addition.

mod gridded;
mod said;

use gridded::{Change, DATUM, GRIDDED};
use plumbhook_checks::RULES;
use plumbhook_checks::example::{self, HALL};
use plumbhook_model::{Scope, name_notices};
use plumbhook_sheet::{Aspect, Lack, Verdict};
use said::said;
use std::sync::Arc;

fn with(more: &[Change]) -> Vec<Change> {
    let replaced = |from: &str| more.iter().any(|(other, _)| *other == from);
    let kept = GRIDDED.iter().filter(|(from, _)| !replaced(from));
    kept.chain(more).copied().collect()
}

/// What every rule says, with what acts and what may act.
fn answers(change: &[Change]) -> Vec<(String, String, Option<f64>, Option<f64>)> {
    let files = HALL.files(change).unwrap_or_else(|why| panic!("{why}"));
    let case = example::case_of(&files).unwrap_or_else(|why| panic!("{why}"));
    let aspects = RULES.iter().flat_map(|rule| (rule.check)(&case));
    aspects
        .map(|aspect| {
            let sheet = &aspect.sheet;
            let number = |amount: Option<plumbhook_units::Amount>| amount.map(|it| it.si);
            let outcome = format!("{} {}", aspect.subject, aspect.verdict.word());
            (
                outcome,
                aspect.headline.clone(),
                number(sheet.demand),
                number(sheet.capacity),
            )
        })
        .collect()
}

fn missing(aspect: &Aspect) -> Vec<(&str, Lack)> {
    match &aspect.verdict {
        Verdict::CannotTell(missing) => missing
            .iter()
            .map(|missing| (missing.what.as_str(), missing.lack))
            .collect(),
        _ => panic!("{}: {}", aspect.verdict.word(), aspect.headline),
    }
}

/// What is said of the names in the files.
fn names(change: &[Change]) -> Vec<(String, String)> {
    let files = HALL.files(change).unwrap_or_else(|why| panic!("{why}"));
    let scope: Scope = example::scope_of(&files);
    let entries = scope.layers.iter().flat_map(|layer| layer.entries());
    entries
        .flat_map(|entry| name_notices(&scope, &Arc::clone(entry)))
        .map(|notice| (notice.say, notice.mend))
        .collect()
}

#[test]
fn a_lift_placed_by_grid_lines_has_the_answers_of_its_coordinates() {
    let (plain, gridded) = (answers(&[]), answers(&GRIDDED));
    assert_eq!(plain, gridded);
    assert!(names(&GRIDDED).is_empty(), "{:?}", names(&GRIDDED));
}

#[test]
fn a_grid_line_named_in_the_plan_that_nobody_declares_is_told_and_nothing_passes() {
    let stray = with(&[("at         (18.0 m, 5.0 m)", "at         D/2 + (6 m, 0)")]);
    assert_eq!(
        names(&stray),
        [(
            "`D` of `D/2` names no grid line of the plant".to_owned(),
            "the grid lines of the plant are A, B, C, 1, 2, 3".to_owned()
        )]
    );
    for code in ["over-void", "floor-bearing"] {
        let said = said(code, "slab under stool", &stray);
        assert_eq!(missing(&said)[0], ("grid line D", Lack::NotFound), "{code}");
    }
}

#[test]
fn without_a_grid_in_the_plant_no_place_is_known_by_it() {
    let none = with(&[(DATUM, DATUM)]);
    let said = said("over-void", "slab under stool", &none);
    assert!(missing(&said).contains(&("grid line B", Lack::NotFound)));
}

#[test]
fn a_grid_line_that_could_not_be_read_is_missing_where_it_stands() {
    let broken = with(&[(
        DATUM,
        "  datum      EL \"project, 1962\"\n  grid       A .. C at x 0, 12 m\n  grid       1 .. 3 at y 0, 5 m, 10 m\n",
    )]);
    let said = said("over-void", "slab under stool", &broken);
    assert!(missing(&said).contains(&("grid line B", Lack::Broken)));
}

#[test]
fn two_lines_along_one_axis_cross_nowhere() {
    let parallel = with(&[("at         (18.0 m, 5.0 m)", "at         A/B")]);
    let said = said("over-void", "slab under stool", &parallel);
    assert_eq!(
        missing(&said),
        [("`A/B`: both lines stand along one axis", Lack::NoAnswer)]
    );
}

#[test]
fn a_hook_has_to_reach_a_place_at_the_worse_end_of_its_grid_line() {
    // Line B stands within 200 mm: the last stations lie up to x 18.20 m.
    let demand = |lines: &'static str| {
        let said = said("hook-reach", "bridge.main", &with(&[(DATUM, lines)]));
        said.sheet.demand.map_or(0.0, |amount| amount.si)
    };
    let exact = "  datum      EL \"E\"\n  grid       A .. C at x 0, 12 m, 24 m\n  grid       1 .. 3 at y 0, 5 m, 10 m\n";
    let wide = "  datum      EL \"E\"\n  grid       A .. C at x 0, 12 m +/- 200 mm, 24 m\n  grid       1 .. 3 at y 0, 5 m +/- 0.7 m, 10 m\n";
    // The nearest end is y 8.5 m less the 15 mm of the walk: the station's y comes up to 5.70 m.
    assert!((demand(wide) - demand(exact) - 0.7).abs() < 1e-9);
}

#[test]
fn a_load_and_its_stand_that_count_from_one_grid_line_stay_together() {
    // The pads lie 600 mm to each side of the middle: the load would be off them, if the line moved only one of both.
    let line = "  datum      EL \"E\"\n  grid       A .. C at x 0, 12 m +/- 600 mm, 24 m\n  grid       1 .. 3 at y 0, 5 m, 10 m\n";
    let both = said("floor-bearing", "slab under stool", &with(&[(DATUM, line)]));
    let plain = said("floor-bearing", "slab under stool", &[]);
    assert_eq!(both.sheet.utilisation, plain.sheet.utilisation);
    let apart = with(&[
        (DATUM, line),
        ("(18.0 m, 5.0 m) | on", "C/2 + (-6 m, 0) | on"),
    ]);
    let apart = said("floor-bearing", "slab under stool", &apart);
    assert_eq!(apart.verdict, Verdict::Over, "{}", apart.headline);
}

#[test]
fn a_share_is_taken_where_the_place_is_worst() {
    // 100 mm of not knowing counts as 100 mm of standing off: written as such it has the same share.
    let by = |at: &'static str| {
        said(
            "floor-bearing",
            "slab under stool",
            &[("(18.0 m, 5.0 m) | on", at)],
        )
    };
    let unsure = by("(18.0 m, 5.0 m) +/- 100 mm | on");
    let off = by("(18.1 m, 5.1 m) | on");
    assert_eq!(unsure.sheet.demand, off.sheet.demand);
    assert!(unsure.sheet.demand > said("floor-bearing", "slab under stool", &[]).sheet.demand);
}

#[test]
fn a_pad_that_is_clear_only_while_it_stands_where_it_is_drawn_is_not_known_to_be_clear() {
    // The pads' near edge lies 600 + 250 mm before the middle of the stool; the sump ends at x 12.0 m.
    let at = |at: &'static str| {
        let change = [("at         (18.0 m, 5.0 m)", at)];
        said("over-void", "slab under stool", &change)
    };
    let clear = at("at         (12.90 m +/- 49 mm, 5.0 m)");
    assert_eq!(clear.verdict, Verdict::Within, "{}", clear.headline);
    let near = at("at         (12.90 m +/- 51 mm, 5.0 m)");
    assert_eq!(missing(&near).len(), 2, "one a pad on that side");
    assert!(
        missing(&near)
            .iter()
            .all(|(_, lack)| *lack == Lack::OneSided)
    );
    let on_it = at("at         (12.84 m +/- 1 mm, 5.0 m)");
    assert_eq!(on_it.verdict, Verdict::Over, "{}", on_it.headline);
}

#[test]
fn a_pad_near_the_edge_may_lie_past_it() {
    let at = |at: &'static str| {
        let change = [("at         (18.0 m, 5.0 m)", at)];
        said("over-void", "slab under stool", &change).verdict
    };
    assert_eq!(at("at         (23.14 m +/- 9 mm, 5.0 m)"), Verdict::Within);
    assert!(matches!(
        at("at         (23.14 m +/- 11 mm, 5.0 m)"),
        Verdict::CannotTell(_)
    ));
}

#[test]
fn a_level_above_another_datum_counts_above_the_plants_own() {
    // 52.20 m above a datum 2.00 m above EL is EL 54.20 m, known to 10 mm less well.
    let two: Change = (
        DATUM,
        "  datum      EL \"E\"\n  datum      MSL at EL 7.00 m +/- 10 mm \"mean sea level\"\n",
    );
    let bears = ("bears-up-to EL 59.20 m", "bears-up-to MSL 52.20 m");
    let own = said("hook-height", "bridge.main", &[]);
    let other = said("hook-height", "bridge.main", &[two, bears]);
    let capacity = |aspect: &Aspect| aspect.sheet.capacity.map_or(0.0, |amount| amount.si);
    assert!((capacity(&own) - capacity(&other) - 0.010).abs() < 1e-9);
    assert!(names(&[two, bears]).is_empty());
}

#[test]
fn a_datum_that_nobody_declares_is_told_with_the_one_that_was_meant() {
    let mistyped = [("bears-up-to EL 59.20 m", "bears-up-to E 59.20 m")];
    assert_eq!(
        names(&mistyped),
        [(
            "`E` names no level datum of the plant".to_owned(),
            "did you mean `EL`?".to_owned()
        )]
    );
    let said = said("hook-height", "bridge.main", &mistyped);
    assert_eq!(missing(&said), [("level datum E", Lack::NotFound)]);
}

#[test]
fn datums_that_nobody_joins_or_that_count_from_each_other_tell_no_level() {
    let bears = ("bears-up-to EL 59.20 m", "bears-up-to MSL 59.20 m");
    let why = |datums: &'static str| {
        let said = said("hook-height", "bridge.main", &[(DATUM, datums), bears]);
        missing(&said)[0].1
    };
    assert_eq!(why("  datum EL \"E\"\n  datum MSL \"M\"\n"), Lack::Absent);
    assert_eq!(
        why("  datum EL at MSL 1 m +/- 0 mm\n  datum MSL at EL 1 m +/- 0 mm\n"),
        Lack::NoAnswer
    );
    assert_eq!(
        why("  datum EL \"E\"\n  datum MSL at EL unknown\n"),
        Lack::Unknown
    );
    // How exactly two datums are joined is not taken for granted.
    assert_eq!(
        why("  datum EL \"E\"\n  datum MSL at EL 1 m\n"),
        Lack::OneSided
    );
}

#[test]
fn a_place_may_be_a_named_one_with_a_level_a_spot_in_it_or_the_middle_of_a_hole() {
    let declared: Change = (
        "stand stool\n",
        "place unit-1\n  at         (8.0 m, 5.0 m)\n  spot shaft (0.5 m, 5.0 m) +/- 10 mm, EL 51.20 m\n\nstand stool\n",
    );
    let at = |place: &'static str| [declared, ("(8.0 m, 5.0 m)  | EL 51.20 m", place)];
    for place in [
        "unit-1 | EL 51.20 m",
        "unit-1 + (0, 0) | EL 51.20 m",
        "slab.sump + (-3 m, 0) | EL 51.20 m",
    ] {
        let said = said("hook-reach", "bridge.main", &at(place));
        assert_eq!(said.verdict, Verdict::Within, "{place}: {}", said.headline);
        assert!(names(&at(place)).is_empty());
    }
    // The shaft lies outside what the hook reaches from x 2.0 m on.
    let shaft = said(
        "hook-reach",
        "bridge.main",
        &at("unit-1.shaft | EL 51.20 m"),
    );
    assert_eq!(shaft.verdict, Verdict::Over, "{}", shaft.headline);
    for (place, lacks) in [
        ("unit-1.pit | EL 51.20 m", "place unit-1.pit"),
        ("slab | EL 51.20 m", "place `slab`"),
        ("unit-2 | EL 51.20 m", "place `unit-2`"),
    ] {
        let said = said("hook-reach", "bridge.main", &at(place));
        assert_eq!(missing(&said), [(lacks, Lack::NotFound)], "{place}");
    }
}

#[test]
fn places_that_count_from_each_other_are_nowhere() {
    let circle = [
        (
            "stand stool\n",
            "place here\n  at         stool\n\nstand stool\n",
        ),
        ("at         (18.0 m, 5.0 m)", "at         here + (1 m, 0)"),
    ];
    let said = said("over-void", "slab under stool", &circle);
    assert!(
        missing(&said)
            .iter()
            .any(|(what, lack)| { what.contains("counts from itself") && *lack == Lack::NoAnswer })
    );
}

#[test]
fn a_stand_is_turned_by_its_heading_and_nobody_takes_it_to_stand_square() {
    // Pads 3.0 m by 1.2 m apart: along y they lie over the duct's end no longer, but past the edge at y 10 m.
    let pads = ("x 1.20 m, y 1.20 m", "x 3.00 m, y 1.20 m");
    let said_of = |heading: &'static str, at: &'static str| {
        said(
            "over-void",
            "slab under stool",
            &[
                pads,
                ("  heading    +x\n", heading),
                ("at         (18.0 m, 5.0 m)", at),
            ],
        )
    };
    let along = said_of("  heading    +x\n", "at         (13.0 m, 5.0 m)");
    assert_eq!(along.verdict, Verdict::Over, "{}", along.headline);
    for turned in [
        "+y",
        "-y",
        "90 deg",
        "90 deg clockwise",
        "0 deg clockwise, zero +y",
    ] {
        let heading = Box::leak(format!("  heading    {turned}\n").into_boxed_str());
        let across = said_of(heading, "at         (13.0 m, 5.0 m)");
        assert_eq!(
            across.verdict,
            Verdict::Within,
            "{turned}: {}",
            across.headline
        );
    }
    let absent = said_of("", "at         (18.0 m, 5.0 m)");
    assert_eq!(missing(&absent), [("heading of stool", Lack::Absent)]);
    let both = said_of("  heading    +x+y\n", "at         (18.0 m, 5.0 m)");
    assert_eq!(missing(&both), [("heading of stool", Lack::Broken)]);
}

#[test]
fn an_outline_that_crosses_itself_is_refused_where_it_stands_or_where_its_grid_is_known() {
    let crossed = [(
        "(0, 0) (24 m, 0) (24 m, 10 m) (0, 10 m)",
        "(0, 0) (24 m, 10 m) (24 m, 0) (0, 10 m)",
    )];
    let by_points = said("over-void", "slab under stool", &crossed);
    assert_eq!(missing(&by_points), [("outline of slab", Lack::Broken)]);
    let by_grid = with(&[("(0, 0) (24 m, 0) (24 m, 10 m) (0, 10 m)", "A/1 C/3 C/1 A/3")]);
    let by_grid = said("over-void", "slab under stool", &by_grid);
    let missing = missing(&by_grid);
    assert!(missing[0].0.contains("cross or touch") && missing[0].1 == Lack::Broken);
}

#[test]
fn a_floor_with_a_notch_carries_on_both_sides_of_it_and_not_in_it() {
    let notched = |at: &'static str| {
        said(
            "over-void",
            "slab under stool",
            &[
                (
                    "(24 m, 10 m) (0, 10 m)",
                    "(24 m, 10 m) (20 m, 10 m) (20 m, 3 m) (16 m, 3 m) (16 m, 10 m) (0, 10 m)",
                ),
                ("at         (18.0 m, 5.0 m)", at),
            ],
        )
        .verdict
    };
    assert_eq!(notched("at         (22.0 m, 5.0 m)"), Verdict::Within);
    assert_eq!(notched("at         (18.0 m, 1.5 m)"), Verdict::Within);
    assert!(matches!(
        notched("at         (18.0 m, 5.0 m)"),
        Verdict::CannotTell(_)
    ));
}
