//! What of the load a station gives the height of: the way to the hook is that of plain geometry.
//!
//! The body is rigid with its hook (see `places.rs`), so the hook stands plumb above the centre of gravity.

mod said;

use plumbhook_sheet::{Aspect, Lack, Verdict};
use said::said;

type Change = (&'static str, &'static str);

/// No tolerance anywhere, and no stretch; the centre of gravity 200 mm off along x.
const RIGID: [Change; 5] = [
    ("long       5.00 m +/- 15 mm", "long       5.00 m +/- 0 mm"),
    ("9 kN/mm +/- 20 %", "90000 kN/mm +/- 1 %"),
    ("115 mm +/- 2 mm", "115 mm +/- 0 mm"),
    ("340 mm +/- 5 mm", "340 mm +/- 0 mm"),
    (
        "x 0 +/- 40 mm, y 0 +/- 40 mm, z 0.50 m +/- 40 mm",
        "x 200 mm +/- 0 mm, y 0 +/- 0 mm, z 0.50 m +/- 0 mm",
    ),
];

const TABLE: &str = "    | at              | underside         |
    | (8.0 m, 5.0 m)  | EL 51.20 m        |
    | (8.0 m, 5.0 m)  | above slab 1.80 m |
    | (18.0 m, 5.0 m) | above slab 1.80 m |
    | (18.0 m, 5.0 m) | on stool          |
";

fn height(table: &'static str, more: &[Change]) -> Aspect {
    let change: Vec<_> = RIGID
        .iter()
        .chain(&[(TABLE, table)])
        .chain(more)
        .copied()
        .collect();
    said("hook-height", "bridge.main", &change)
}

fn comes_to(said: &Aspect, wanted: f64) {
    assert_eq!(said.verdict, Verdict::Within, "{}", said.headline);
    let comes = said.sheet.demand.map_or(f64::NAN, |comes| comes.si);
    assert!((comes - wanted).abs() < 1e-4, "{comes}, wanted {wanted}");
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

#[test]
fn the_hook_stands_plumb_above_a_centre_of_gravity_of_given_height() {
    let table = "    | at | cg |\n    | (8.0 m, 5.0 m) | EL 53.00 m |\n";
    let leg: f64 = 5.00 + 2.0 * 0.115;
    let apex = 1.00 + (leg * leg - 0.95 * 0.95).sqrt();
    comes_to(
        &height(table, &[]),
        53.00 + (apex - 0.50).hypot(0.20) + 0.340,
    );
}

#[test]
fn a_hook_of_given_height_needs_no_shape_of_the_load() {
    let table = "    | at | hook |\n    | (8.0 m, 5.0 m) | EL 58.70 m |\n";
    let no_shape = ("  shape      disc, outside 2.40 m, z 0 .. 1.10 m\n", "");
    comes_to(&height(table, &[no_shape]), 58.70);
    let higher = "    | at | hook |\n    | (8.0 m, 5.0 m) | EL 59.25 m |\n";
    assert_eq!(height(higher, &[]).verdict, Verdict::Over);
}

#[test]
fn the_lowest_part_is_that_of_the_load_as_it_hangs() {
    let under = "    | at | underside |\n    | (8.0 m, 5.0 m) | EL 51.20 m |\n";
    let lowest = "    | at | lowest |\n    | (8.0 m, 5.0 m) | EL 51.20 m |\n";
    let under = height(under, &[]).sheet.demand;
    assert_eq!(under, height(lowest, &[]).sheet.demand);
    let no_shape = ("  shape      disc, outside 2.40 m, z 0 .. 1.10 m\n", "");
    let unknown = height(
        "    | at | lowest |\n    | (8.0 m, 5.0 m) | EL 51.20 m |\n",
        &[no_shape],
    );
    assert_eq!(missing(&unknown), [("shape of cover", Lack::Absent)]);
}

#[test]
fn each_station_may_give_another_height() {
    let table = "    | at | underside | hook |\n    | (8.0 m, 5.0 m) | EL 51.20 m | |\n    | (8.0 m, 5.0 m) | | EL 58.90 m |\n    | (18.0 m, 5.0 m) | on stool | |\n";
    comes_to(&height(table, &[]), 58.90);
}

#[test]
fn a_height_may_be_the_level_of_a_named_place() {
    let table = "    | at | hook |\n    | pit | at pit |\n    | pit.rim | at pit.rim |\n";
    let place: Change = (
        "stand stool\n",
        "place pit\n  at         (8.0 m, 5.0 m)\n  level      EL 57.00 m +/- 0 mm\n  spot rim   (8.0 m, 6.0 m), EL 58.80 m +/- 30 mm   from measured\n\nstand stool\n",
    );
    comes_to(&height(table, &[place]), 58.83);
    let plain = "    | at | hook |\n    | pit | at stool |\n";
    assert_eq!(
        missing(&height(plain, &[place])),
        [("level of stool", Lack::NotFound)]
    );
}

#[test]
fn a_row_with_two_heights_or_none_or_a_hook_that_stands_tells_nothing() {
    for table in [
        "    | at | underside | hook |\n    | (8.0 m, 5.0 m) | EL 51.20 m | EL 58 m |\n",
        "    | at | underside | hook |\n    | (8.0 m, 5.0 m) | | |\n",
        "    | at | hook |\n    | (18.0 m, 5.0 m) | on stool |\n",
        "    | at | middle |\n    | (18.0 m, 5.0 m) | EL 51 m |\n",
        "    | at |\n    | (18.0 m, 5.0 m) |\n",
    ] {
        let unread = height(table, &[]);
        assert!(
            missing(&unread).contains(&("stations", Lack::Broken)),
            "{table}"
        );
    }
}

#[test]
fn a_hook_of_given_height_needs_not_know_how_the_load_hangs_below_it() {
    let table = "    | at | hook |\n    | (8.0 m, 5.0 m) | EL 56.00 m |\n    | (18.0 m, 5.0 m) | EL 55.00 m |\n";
    let given = height(
        table,
        &[("  mass       14.0 t +/- 5 %           from drawing\n", "")],
    );
    comes_to(&given, 56.0);
    // One row that gives the underside needs all of it.
    let mixed = "    | at | hook | underside |\n    | (8.0 m, 5.0 m) | EL 56.00 m | |\n    | (8.0 m, 5.0 m) | | EL 51.20 m |\n";
    let given = height(mixed, &[("340 mm +/- 0 mm", "unknown")]);
    let all = missing(&given);
    assert!(
        all.iter()
            .any(|(what, _)| what.contains("length of ring-2")),
        "{all:?}"
    );
}
