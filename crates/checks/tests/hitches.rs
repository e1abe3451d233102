//! What a sling carries that goes round the load: in a choker, in a basket.

mod said;
#[path = "said/sling.rs"]
mod sling_of;

use plumbhook_sheet::{Aspect, Verdict};
use said::{near, of};
use sling_of::*;

const LEGS: &str = "legs       A B C to ring-2, through bow-12, rope-32-long-5, bow-12";
const POINTS: &str = "points     A B C ring radius 0.95 m, z 1.00 m, first +x, anticlockwise";

/// What it is rated at, in kilograms.
fn kilograms(aspect: &Aspect) -> Option<f64> {
    aspect.sheet.capacity.map(|capacity| capacity.si / 9.806_65)
}

// 29 CFR 1915.116 and WAC 296-24-29419(7): slings are padded where they pass over sharp edges of loads.
#[test]
fn a_basket_on_an_edge_that_nobody_names_cannot_be_told() {
    let edge = |edge: &str| {
        let legs = format!(
            "legs       A D to ring-2, through rope-32-long-5 basket {AROUND}{edge}\n  legs       B C to ring-2, through rope-32-long-5 basket {AROUND} edge rounded"
        );
        of(
            "sling-edge",
            "slings round the load",
            &[(LEGS, legs), (POINTS, SQUARE.to_owned())],
        )
    };
    let sharp = edge(" edge sharp");
    assert_eq!(sharp.verdict, Verdict::Over, "{}", sharp.headline);
    assert!(
        sharp.headline.ends_with("lies bare on a sharp edge"),
        "{}",
        sharp.headline
    );
    assert_eq!(edge(" edge rounded").verdict, Verdict::Within);
    for unsaid in ["", " edge unknown"] {
        assert!(is_missing(
            &edge(unsaid),
            "what rope-32-long-5 lies on at the edges of the load"
        ));
    }
    let broken = edge(" edge round");
    assert!(
        is_missing(&broken, "legs of chains-of-three"),
        "{}",
        broken.headline
    );
}

fn choked(how: &str, tag: &str) -> Aspect {
    let legs = format!("legs       A B C to ring-2, through rope-32-long-5 choker {how}, bow-12");
    sling(&[(LEGS, &legs), (TAG, tag)])
}

const BOTH: &str = "rated      vertical 10.0 t  from tag\n  rated      choker 8.0 t  from tag";
const REACH: &str = "reach 4.80 m +/- 20 mm";

// Wire-rope maker's leaflet on basket hitches and bridles (reproduces the wire-rope trade board / B30.9 tables), load factor
// and choker tables: above 120 deg 100 %, 90 to 120 deg 87 % of the choker rating.
#[test]
fn a_choker_is_judged_by_the_choker_rating_of_its_tag_and_its_angle_of_choke() {
    let wide = choked(&format!("{REACH} choke at least 125 deg"), BOTH);
    assert_eq!(wide.verdict, Verdict::Within, "{}", wide.headline);
    near(kilograms(&wide), 8_000.0, 1e-6);
    let tight = choked(&format!("{REACH} choke 110 deg +/- 5 deg"), BOTH);
    near(kilograms(&tight), 6_960.0, 1e-6);
    let band = choked(&format!("{REACH} choke 92 deg +/- 5 deg"), BOTH);
    near(kilograms(&band), 5_920.0, 1e-6);
}

#[test]
fn the_same_sling_twice_in_a_leg_is_judged_in_each_of_its_hitches() {
    // Its tag rates the choker alone: of the straight pull of the other nobody says anything.
    let how = format!("{REACH} choke at least 125 deg");
    let legs = format!(
        "legs       A B C to ring-2, through rope-32-long-5 choker {how}, bow-12, rope-32-long-5, bow-12"
    );
    let choker_alone = "rated      choker 8.0 t  from tag";
    let aspect = sling(&[(LEGS, &legs), (TAG, choker_alone)]);
    assert!(
        is_missing(&aspect, "rated capacity of rope-32-long-5"),
        "{}",
        aspect.headline
    );
    let one = sling(&[
        (LEGS, &legs.replace(", rope-32-long-5, bow-12", "")),
        (TAG, choker_alone),
    ]);
    assert_eq!(one.verdict, Verdict::Within, "{}", one.headline);
}

#[test]
fn a_choker_of_which_something_is_not_said_cannot_be_told() {
    for (how, tag, what) in [
        (REACH.to_owned(), BOTH, "angle of choke of rope-32-long-5"),
        (
            format!("{REACH} choke unknown"),
            BOTH,
            "angle of choke of rope-32-long-5",
        ),
        (
            format!("{REACH} choke at most 130 deg"),
            BOTH,
            "how small it may be",
        ),
        (
            format!("{REACH} choke at least 190 deg"),
            BOTH,
            "angle of choke of rope-32-long-5",
        ),
        (
            "choke at least 125 deg".to_owned(),
            BOTH,
            "reach of rope-32-long-5 as a choker",
        ),
        (
            "reach 4.80 m choke at least 125 deg".to_owned(),
            BOTH,
            "reach of rope-32-long-5 as a choker",
        ),
        (
            format!("{REACH} choke at least 125 deg"),
            "rated      vertical 10.0 t  from tag",
            "rated capacity of rope-32-long-5 as a choker",
        ),
    ] {
        let aspect = choked(&how, tag);
        let Verdict::CannotTell(missing) = &aspect.verdict else {
            panic!("{how}: {}", aspect.headline);
        };
        assert!(
            missing.iter().any(|missing| missing.what.contains(what)),
            "{how}: {missing:?}"
        );
    }
    // Over even with all of its rating.
    let over = choked(REACH, "rated      choker 4.0 t  from tag");
    assert_eq!(over.verdict, Verdict::Over, "{}", over.headline);
}

// OSHA, Guidance on Safe Sling Use, Table 3: chain of grade 80, 1/2 in, one leg choked at more than 120 deg 9,600 lb.
#[test]
fn a_choked_chain_is_rated_by_the_table_above_120_deg_alone() {
    let chain = |kind: &str, choke: &str| {
        let legs = format!(
            "legs       A B C to ring-2, through rope-32-long-5 choker {REACH} choke {choke}, bow-12"
        );
        sling(&[
            (LEGS, &legs),
            (KIND, kind),
            (TAG, "rated-by   table"),
            ("14.0 t +/- 5 %", "7.0 t +/- 5 %"),
        ])
    };
    let half = "kind       chain, grade 80, diameter 1/2 in  from tag";
    let within = chain(half, "at least 125 deg");
    assert_eq!(within.verdict, Verdict::Within, "{}", within.headline);
    near(pounds(&within), 9_600.0, 1e-6);
    let tight = chain(half, "at least 100 deg");
    assert!(
        is_missing(
            &tight,
            "what rope-32-long-5 keeps of its rating when choked at 100.0 deg"
        ),
        "{}",
        tight.headline
    );
    let larger = chain(
        "kind       chain, grade 80, diameter 5/8 in  from tag",
        "at least 125 deg",
    );
    assert!(
        is_missing(
            &larger,
            "a row for rope-32-long-5: the table of chain of grade 80 has none of 15.9 mm"
        ),
        "{}",
        larger.headline
    );
}

// Webbing sling user manual quoting EN 1492-1, mode-factor table: choked 0.8. Second-hand.
#[test]
fn a_choked_webbing_sling_keeps_eight_tenths_under_the_european_standard() {
    let legs = format!(
        "legs       A B C to ring-2, through rope-32-long-5 choker {REACH} choke at least 125 deg, bow-12"
    );
    let under = |rules: &str| {
        sling(&[
            (LEGS, &legs),
            (KIND, "kind       webbing, width 300 mm"),
            ("rules      us", rules),
        ])
    };
    near(kilograms(&under("rules      en")), 8_000.0, 1e-6);
    assert!(matches!(
        under("rules      us, en").verdict,
        Verdict::CannotTell(_)
    ));
}

const SQUARE: &str =
    "points     A B C D rectangle x 1.40 m, y 1.40 m, z 1.00 m, first +x+y, anticlockwise";
const AROUND: &str = "reach 3.00 m +/- 15 mm over at least 900 mm fast";

fn basket(lines: &str, how: &str, tag: &str) -> Aspect {
    let legs = lines.split(';').map(|points| {
        format!("legs       {points} to ring-2, through rope-32-long-5 basket {how}")
    });
    let legs = legs.collect::<Vec<_>>().join("\n  ");
    sling(&[(LEGS, &legs), (POINTS, SQUARE), (TAG, tag)])
}

const TWO: &str = "A D;B C";
const BASKET: &str = "rated      basket 20.0 t  from tag\n  bends-over 800 mm  from tag";

// Contractor-safety course lesson, load chart reading: 3/4 in rope, vertical 9,800 lb, basket 19,600 lb plumb, so half of it in
// each part.
#[test]
fn each_part_of_a_basket_carries_half_of_its_rating() {
    let within = basket(TWO, AROUND, BASKET);
    assert_eq!(within.verdict, Verdict::Within, "{}", within.headline);
    near(kilograms(&within), 10_000.0, 1e-6);
    let over = basket(TWO, AROUND, "rated      basket 14.0 t  from tag");
    assert_eq!(over.verdict, Verdict::Over, "{}", over.headline);
}

#[test]
fn a_basket_of_which_something_is_not_said_cannot_be_told() {
    for (lines, how, tag, what) in [
        (
            TWO,
            "reach 3.00 m +/- 15 mm over at least 900 mm",
            BASKET,
            "kept from sliding",
        ),
        (
            TWO,
            "reach 3.00 m +/- 15 mm fast",
            BASKET,
            "diameter that rope-32-long-5 goes round",
        ),
        (
            TWO,
            "reach 3.00 m +/- 15 mm over at least 700 mm fast",
            BASKET,
            "round so small a diameter: its own holds from 800 mm",
        ),
        (
            TWO,
            "over at least 900 mm fast",
            BASKET,
            "reach of rope-32-long-5 as a basket",
        ),
        (
            TWO,
            AROUND,
            "rated      basket 20.0 t  from tag",
            "diameter that rope-32-long-5 may go round",
        ),
        (
            TWO,
            AROUND,
            "rated      vertical 10.0 t  from tag\n  bends-over 800 mm  from tag",
            "its tag rates a straight pull",
        ),
        ("A B C D", AROUND, BASKET, "this line gives it 4"),
        ("A;D;B C", AROUND, BASKET, "this line gives it 1"),
    ] {
        let aspect = basket(lines, how, tag);
        let Verdict::CannotTell(missing) = &aspect.verdict else {
            panic!("{lines} {how} {tag}: {}", aspect.headline);
        };
        assert!(
            missing.iter().any(|missing| missing.what.contains(what)),
            "{what}: {missing:?}"
        );
    }
}

#[test]
fn a_shackle_goes_round_nothing() {
    let legs = format!(
        "legs       A B C to ring-2, through bow-12 choker {REACH}, rope-32-long-5, bow-12"
    );
    let aspect = sling(&[(LEGS, &legs)]);
    assert!(
        is_missing(&aspect, "bow-12 as a choker: it is no sling"),
        "{}",
        aspect.headline
    );
}

// Webbing sling user manual quoting EN 1492-1, mode-factor table: two parts of a basket that hang plumb carry twice the working
// load. Second-hand.
#[test]
fn each_part_of_a_webbing_basket_carries_the_whole_rating_under_the_european_standard() {
    let legs = format!(
        "legs       A D to ring-2, through rope-32-long-5 basket {AROUND}\n  legs       B C to ring-2, through rope-32-long-5 basket {AROUND}"
    );
    let aspect = sling(&[
        (LEGS, &legs),
        (POINTS, SQUARE),
        (KIND, "kind       webbing, width 300 mm"),
        (
            TAG,
            "rated      vertical 10.0 t  from tag\n  bends-over 800 mm  from tag",
        ),
        ("rules      us", "rules      en"),
    ]);
    near(kilograms(&aspect), 10_000.0, 1e-6);
}

// 29 CFR 1918 Appendix II, Table 2: natural fibre rope of 2 in, choker 3,100 lb; basket 12,500 lb plumb, 10,500, 8,800 and
// 6,200 lb at 60, 45 and 30 deg from horizontal: each part carries 6,062 lb at the least (10,500 / (2 sin 60 deg)).
#[test]
fn natural_fibre_rope_is_rated_by_its_table_in_longshoring_alone() {
    let kind = "kind       fibre-rope, natural, eye-and-eye, diameter 2 in  from measured";
    let choker = format!(
        "legs       A B C to ring-2, through rope-32-long-5 choker {REACH} choke at least 125 deg, bow-12"
    );
    let around = format!(
        "legs       A D to ring-2, through rope-32-long-5 basket {AROUND}\n  legs       B C to ring-2, through rope-32-long-5 basket {AROUND}"
    );
    let by_table = "rated-by   table\n  bends-over 800 mm  from manual";
    let under = |rules: &str, legs: &str| {
        sling(&[
            (LEGS, legs),
            (POINTS, SQUARE),
            (KIND, kind),
            (TAG, by_table),
            ("rules      us", rules),
        ])
    };
    near(
        pounds(&under(
            "rules      us-longshoring",
            &choker.replace("A B C", "A B C D"),
        )),
        3_100.0,
        1e-6,
    );
    let each = 10_500.0 / (2.0 * f64::to_radians(60.0).sin());
    near(
        pounds(&under("rules      us-longshoring", &around)),
        each,
        1e-6,
    );
    assert!(is_missing(
        &under("rules      us", &around),
        "of fibre-rope none is kept (rule set `us`)"
    ));
}
