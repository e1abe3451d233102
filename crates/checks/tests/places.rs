//! Where the hook comes, and how the load hangs there, against plain geometry.
//!
//! Three equal legs from a ring of points meet on the axis of the ring. A body on three legs that do not stretch is
//! rigid with its hook, so it hangs with its centre of gravity plumb below that one point: everything follows from a
//! right triangle. The slings here are so stiff that their stretch is below a hundredth of a millimetre.

mod said;

use plumbhook_sheet::{Lack, Verdict};
use said::said;

/// No tolerance anywhere, and no stretch; the centre of gravity 200 mm off along x.
const RIGID: [(&str, &str); 4] = [
    ("long       5.00 m +/- 15 mm", "long       5.00 m +/- 0 mm"),
    ("9 kN/mm +/- 20 %", "90000 kN/mm +/- 1 %"),
    ("115 mm +/- 2 mm", "115 mm +/- 0 mm"),
    (
        "x 0 +/- 40 mm, y 0 +/- 40 mm, z 0.50 m +/- 40 mm",
        "x 200 mm +/- 0 mm, y 0 +/- 0 mm, z 0.50 m +/- 0 mm",
    ),
];

/// Height of the meeting point above the load's origin along the load's own axis: points at 1.00 m on a radius of
/// 0.95 m, legs of 5.00 m and two shackles of 115 mm.
fn apex() -> f64 {
    let leg: f64 = 5.00 + 2.0 * 0.115;
    1.00 + (leg * leg - 0.95 * 0.95).sqrt()
}

/// Tilt that brings a centre of gravity 200 mm off and 0.50 m up plumb below the apex.
fn tilt() -> f64 {
    (0.200 / (apex() - 0.50)).atan()
}

fn with(more: &[(&'static str, &'static str)]) -> Vec<(&'static str, &'static str)> {
    RIGID.iter().chain(more).copied().collect()
}

fn near(value: Option<f64>, wanted: f64, within: f64) {
    let value = value.unwrap_or_else(|| panic!("no value, wanted {wanted}"));
    assert!((value - wanted).abs() <= within, "{value}, wanted {wanted}");
}

fn demand(aspect: &plumbhook_sheet::Aspect) -> Option<f64> {
    aspect.sheet.demand.map(|amount| amount.si)
}

fn missing(aspect: &plumbhook_sheet::Aspect) -> Vec<(&str, Lack)> {
    match &aspect.verdict {
        Verdict::CannotTell(missing) => missing
            .iter()
            .map(|missing| (missing.what.as_str(), missing.lack))
            .collect(),
        _ => panic!("{}: {}", aspect.verdict.word(), aspect.headline),
    }
}

#[test]
fn the_tilt_is_that_of_a_triangle() {
    near(demand(&said("tilt", "cover", &RIGID)), tilt(), 1e-5);
}

#[test]
fn the_flattest_leg_is_the_one_on_the_side_that_rises() {
    // Leg A stands at +x, where the centre of gravity is: that side sinks and its leg comes up steeper.
    // Legs B and C stand at 120 deg: the rise of the leg's vector, turned by the tilt, over its length.
    let leg = (apex() - 1.00).hypot(0.95);
    let rise = (apex() - 1.00) * tilt().cos() - 0.95 * 0.5 * tilt().sin();
    let b = said("leg-angle", "legs", &RIGID);
    near(demand(&b), (rise / leg).asin(), 1e-5);
}

#[test]
fn the_highest_hook_is_floor_and_height_and_dip_and_rise_and_ring() {
    let up = said("hook-height", "bridge.main", &RIGID);
    assert_eq!(up.verdict, Verdict::Within, "{}", up.headline);
    let dip = 1.20 * tilt().sin();
    let level = 50.00 + 0.015 + 1.80 + dip + apex() * tilt().cos() + 0.340 + 0.005;
    near(demand(&up), level, 1e-4);
    near(
        up.sheet.capacity.map(|amount| amount.si),
        59.20 - 0.015,
        1e-9,
    );
    assert_eq!(
        up.sheet.utilisation, None,
        "a share of a level says nothing"
    );
    assert_eq!(up.sheet.state, "station 2", "the first of two alike");
}

#[test]
fn the_lowest_hook_is_that_of_the_level_load_on_its_stand() {
    // The hook bears down to EL 57.00 m: landing on the stool is too low for it.
    let down = said(
        "hook-height",
        "bridge.main",
        &with(&[("bears-down-to EL 51.0 m", "bears-down-to EL 57.00 m")]),
    );
    assert_eq!(down.verdict, Verdict::Over, "{}", down.headline);
    let level = 50.00 - 0.015 + 0.400 + apex() * tilt().cos() + 0.340 - 0.005;
    near(demand(&down), level, 1e-4);
    near(down.sheet.capacity.map(|amount| amount.si), 57.015, 1e-9);
    assert_eq!(down.sheet.state, "station 4");
}

#[test]
fn legs_that_would_pass_are_named_and_do_pass() {
    let low = ("bears-up-to EL 59.20 m", "bears-up-to EL 57.00 m");
    let short = said("hook-height", "bridge.main", &[low]);
    assert_eq!(short.verdict, Verdict::Over);
    let mend = short.mends.first().map_or("", |mend| mend);
    // Slings of that length less two shackles, to the tolerance of the longer ones.
    assert_eq!(mend, "legs made up to 3.86 m or shorter would pass");
    let made_up = |sling: &'static str| {
        let sling = ("long       5.00 m +/- 15 mm", sling);
        said("hook-height", "bridge.main", &[low, sling]).verdict
    };
    assert_eq!(made_up("long       3.63 m +/- 15 mm"), Verdict::Within);
    assert_eq!(made_up("long       3.66 m +/- 15 mm"), Verdict::Over);
}

#[test]
fn a_ring_of_unknown_length_cannot_acquit_and_does_not_keep_from_convicting() {
    let ring = ("inside     340 mm +/- 5 mm", "inside     unknown");
    let unknown = said("hook-height", "bridge.main", &[ring]);
    assert_eq!(missing(&unknown), [("length of ring-2", Lack::Unknown)]);
    let low = ("bears-up-to EL 59.20 m", "bears-up-to EL 57.00 m");
    let over = said("hook-height", "bridge.main", &[ring, low]);
    assert_eq!(over.verdict, Verdict::Over, "{}", over.headline);
}

#[test]
fn a_sling_that_does_not_say_how_far_it_stretches_leaves_the_height_unknown() {
    let change = [("  stiffness  9 kN/mm +/- 20 %\n", "")];
    for (code, subject) in [("hook-height", "bridge.main"), ("tilt", "cover")] {
        let unknown = said(code, subject, &change);
        assert_eq!(
            missing(&unknown),
            [("stiffness of rope-32-long-5", Lack::Absent)],
            "{code}"
        );
    }
}

#[test]
fn a_rigging_that_hangs_by_another_machine_than_the_move_is_done_by_is_no_pass() {
    let other = [
        (
            "hung       ring-2 by bridge.main",
            "hung       ring-2 by other.main",
        ),
        (
            "overhead-crane bridge\n",
            "overhead-crane other\n  hook main  bears-up-to EL 59.20 m, bears-down-to EL 51.0 m, reaches x 2.0 m .. 22.0 m, y 1.5 m .. 8.5 m  from walk-2\n\noverhead-crane bridge\n",
        ),
    ];
    for code in ["hook-height", "hook-reach"] {
        let said = said(code, "other.main", &other);
        let lacks = missing(&said);
        assert!(
            lacks.iter().all(|(_, lack)| *lack == Lack::NoAnswer),
            "{lacks:?}"
        );
    }
}

/// A crane that ends a little past the station on the stool, with the heading of the load.
fn at_the_end(heading: &'static str, reach: &'static str) -> plumbhook_sheet::Aspect {
    let change = with(&[
        ("reaches x 2.0 m .. 22.0 m", reach),
        ("  heading    0 deg\n", heading),
    ]);
    said("hook-reach", "bridge.main", &change)
}

#[test]
fn the_hook_stands_over_the_centre_of_gravity_turned_by_the_heading() {
    let aside = apex() * tilt().sin();
    let reach = "reaches x 2.0 m .. 18.10 m";
    let over = at_the_end("  heading    0 deg\n", reach);
    assert_eq!(over.verdict, Verdict::Over, "{}", over.headline);
    near(demand(&over), 18.0 + aside, 1e-4);
    let turned = at_the_end("  heading    180 deg\n", reach);
    assert_eq!(turned.verdict, Verdict::Within, "{}", turned.headline);
    // Across the runway it moves nothing along it.
    let across = at_the_end("  heading    90 deg\n", "reaches x 2.0 m .. 18.02 m");
    assert_eq!(across.verdict, Verdict::Within, "{}", across.headline);
    // Anticlockwise seen from above: +x of the load then points along +y of the plant.
    let change = with(&[
        ("y 1.5 m .. 8.5 m", "y 1.5 m .. 5.10 m"),
        ("heading    0 deg", "heading    90 deg"),
    ]);
    let north = said("hook-reach", "bridge.main", &change);
    assert_eq!(north.verdict, Verdict::Over, "{}", north.headline);
    near(demand(&north), 5.0 + aside, 1e-4);
}

#[test]
fn without_a_heading_the_hook_may_stand_on_any_side() {
    let inside = at_the_end("", "reaches x 2.0 m .. 22.0 m");
    assert_eq!(inside.verdict, Verdict::Within, "{}", inside.headline);
    let near_the_end = at_the_end("", "reaches x 2.0 m .. 18.10 m");
    assert_eq!(
        missing(&near_the_end),
        [("heading of the load", Lack::Absent)]
    );
    let past_any = at_the_end("", "reaches x 2.0 m .. 17.70 m");
    assert_eq!(past_any.verdict, Verdict::Over, "{}", past_any.headline);
}
