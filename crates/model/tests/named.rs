//! Named values and calculations: what is read, and what is said of one that cannot be.
#![allow(
    clippy::unwrap_used,
    clippy::float_cmp,
    reason = "tests; exact doubles where claimed"
)]

use plumbhook_model::declare::Body;
use plumbhook_model::entries::{Load, Sling};
use plumbhook_model::{Datum, Declared, LetText, read_named};
use plumbhook_sheet::{Lack, Via};
use plumbhook_syntax::Document;
use plumbhook_units::Measured;
use proptest::prelude::*;

/// Every entry of a file, read as the workspace reads it.
fn read(text: &str) -> (Document, Vec<Declared>) {
    let document = Document::new(text);
    let blocks: Vec<&str> = (0..document.blocks().len())
        .map(|at| document.block_text(at))
        .collect();
    let file = "a.pick".into();
    let is_let = |block: &str| block.starts_with("let");
    let lets: Vec<_> = blocks
        .iter()
        .filter(|block| is_let(block))
        .enumerate()
        .map(|(nth, text)| LetText {
            nth: u32::try_from(nth).unwrap(),
            text,
        })
        .collect();
    let (around, named) = read_named(&file, &lets);
    let mut named = named.into_iter();
    let all = blocks.iter().map(|block| {
        if is_let(block) {
            named.next().unwrap()
        } else {
            Declared::read_in(&file, 0, block, &around)
        }
    });
    let all = all.collect();
    (document, all)
}

/// `line:text: what is said; what would mend it` of each notice, in order.
fn told(text: &str) -> Vec<String> {
    let (document, entries) = read(text);
    let mut told = Vec::new();
    for (block, entry) in document.blocks().iter().zip(&entries) {
        for notice in &entry.notices {
            let origin = &notice.origin;
            let line = block.first_line + origin.line;
            let words = document.line_text(line).unwrap();
            let words = words
                .get(origin.start as usize..origin.end as usize)
                .unwrap();
            told.push(format!(
                "{}:{words}: {}; {}",
                line + 1,
                notice.say,
                notice.mend
            ));
        }
    }
    told
}

fn of<T: Body>(entries: &[Declared]) -> &T {
    entries.iter().find_map(|entry| entry.of::<T>()).unwrap()
}

/// Low side, high side and number of the first mass, in kg.
fn mass(text: &str) -> (Option<f64>, Option<f64>, Option<f64>) {
    assert_eq!(told(text), [""; 0]);
    let (_, entries) = read(text);
    let given = of::<Load>(&entries).mass.lines[0].known().unwrap().value;
    let si = |side: Option<plumbhook_units::Mass>| side.map(Measured::si);
    (si(given.lo), si(given.hi), si(given.nominal))
}

#[test]
fn a_calculation_has_units_and_dimensions() {
    // 7850 * 2 * 1 * 0.05 = 785 is arithmetic; the density of steel is common practice, no source.
    let plate = mass("load a\n  mass 7850 kg/m3 * 2 m * 1 m * 50 mm\n");
    assert_eq!(plate, (None, None, Some(785.0)));
    assert_eq!(
        mass("load a\n  mass 2 * 14.5 t + 300 kg\n").2,
        Some(29_300.0)
    );
    assert_eq!(mass("load a\n  mass (10 t - 4 t) / 2\n").2, Some(3_000.0));
    assert_eq!(mass("load a\n  mass 40 kg/m * 3 m\n").2, Some(120.0));
    // 1 lb = 0.453 592 37 kg, exact: NIST SP 811, appendix B.8.
    assert_eq!(mass("load a\n  mass 1 lb * 2\n").2, Some(0.907_184_74));
}

#[test]
fn a_name_stands_for_its_value_in_any_order() {
    let text = "load a\n  mass 2 * plate + 300 kg\nlet plate = density * area * wall\nlet wall = 50 mm\nlet area = 2 m * 1 m\nlet density = 7850 kg/m3\n";
    assert_eq!(mass(text), (None, None, Some(1_870.0)));
}

#[test]
fn a_band_goes_through_a_calculation() {
    assert_eq!(
        mass("let block = 10 t +/- 1 t\nload a\n  mass 2 * block\n"),
        (Some(18_000.0), Some(22_000.0), Some(20_000.0))
    );
    assert_eq!(
        mass("let block = 10 t .. 12 t\nload a\n  mass block - (1 t +/- 100 kg)\n"),
        (Some(8_900.0), Some(11_100.0), None)
    );
    assert_eq!(
        mass("let block = at most 34 t\nload a\n  mass block\n"),
        (None, Some(34_000.0), None)
    );
    assert_eq!(
        mass("let block = at most 34 t\nload a\n  mass (40 t +/- 0 t) - block\n"),
        (Some(6_000.0), None, None)
    );
}

#[test]
fn a_sum_of_one_with_a_tolerance_and_one_without_is_refused() {
    assert_eq!(
        told("let block = 10 t +/- 1 t\nload a\n  mass block + 300 kg\n"),
        [
            "3:300 kg: `300 kg` has no tolerance and `block` has one, so nobody knows that of both together; give it one too, in brackets: `(300 kg +/- …)`"
        ]
    );
}

#[test]
fn unlike_things_make_no_sum() {
    assert_eq!(
        told("load a\n  mass 3 t + 2 kN\n"),
        [
            "2:2 kN: `2 kN` is force (kg m s-2) and `3 t` is mass (kg): they make no sum; a sum is of one kind"
        ]
    );
    assert_eq!(
        told("load a\n  mass 2 m * 1 m\n"),
        [
            "2:2 m * 1 m: `2 m * 1 m` is area (m2); mass (kg) is wanted here; `mass` takes a quantity with its tolerance (`31.5 t +/- 8 %`), a range (`28 t .. 34 t`), a bound (`at most 34 t`) or `unknown`"
        ]
    );
    assert_eq!(
        told("let lever = 5 kN*m + 5 kJ\n"),
        [
            "1:5 kJ: `5 kJ` is energy (kg m2 s-2) and `5 kN*m` is moment (kg m2 s-2): they make no sum; a sum is of one kind"
        ]
    );
    assert_eq!(
        told("let much = 5 t / (3 m - 3 m)\n"),
        [
            "1:(3 m - 3 m): `(3 m - 3 m)` is or may be zero, and nothing is divided by that; write `=` and a quantity or a calculation, as `let wall = 600 mm`"
        ]
    );
}

#[test]
fn a_name_without_a_value_is_told_once_and_what_uses_it_is_unknown() {
    let text = "let block = unknown\nlet both = 2 * block\nload a\n  mass both\n";
    assert_eq!(told(text), [""; 0]);
    let (_, entries) = read(text);
    let Datum::Lacking(lacking) = &of::<Load>(&entries).mass.lines[0] else {
        panic!("known");
    };
    assert_eq!(lacking.lack, Lack::Unknown);
    assert_eq!(
        &*lacking.origin.entry.name, "block",
        "where the answer goes"
    );

    let text = "let block = 3 t + 2 m\nload a\n  mass block\n";
    assert_eq!(told(text).len(), 1);
    let (_, entries) = read(text);
    assert!(of::<Load>(&entries).mass.lines[0].known().is_none());
}

#[test]
fn names_that_need_themselves_have_no_value_whichever_is_read_first() {
    let text = "let a1 = b1 + 1 m\nlet b1 = c1\nlet c1 = 2 * a1\nlet d1 = c1\nload a\n  cg x d1, y 0 m, z 0 m\n";
    assert_eq!(
        told(text),
        [
            "1:let a1: `a1` needs `b1`, which needs `c1`, which needs `a1`: a name that needs itself has no value; write one of them as a number",
            "2:let b1: `b1` needs `c1`, which needs `a1`, which needs `b1`: a name that needs itself has no value; write one of them as a number",
            "3:let c1: `c1` needs `a1`, which needs `b1`, which needs `c1`: a name that needs itself has no value; write one of them as a number",
        ]
    );
    let (_, entries) = read(text);
    assert!(of::<Load>(&entries).cg.lines[0].known().is_none());
    assert_eq!(told("let own = own * 2\n").len(), 1);
}

#[test]
fn a_name_that_nobody_gives_is_told_where_it_is_used() {
    assert_eq!(
        told("let wall = 600 mm\nload a\n  cg x wal, y 0 m, z 0 m\n"),
        ["3:wal: `wal` is no length, and no `let` of this file names it; did you mean `wall`?"]
    );
    assert_eq!(told("let wall = 600 mm + gap\n").len(), 1);
}

#[test]
fn a_name_that_is_given_twice_has_no_value() {
    let text = "let wall = 600 mm\nlet wall = 600 mm\nload a\n  cg x wall, y 0 m, z 0 m\n";
    assert_eq!(
        told(text),
        [
            "1:let wall: `wall` is given more than once, so it has no value; keep the line that is right, or give one of them another name",
            "2:let wall: `wall` is given more than once, so it has no value; keep the line that is right, or give one of them another name",
        ]
    );
    let (_, entries) = read(text);
    assert!(of::<Load>(&entries).cg.lines[0].known().is_none());
}

#[test]
fn a_broken_let_is_told_and_gives_no_value() {
    for (text, said) in [
        ("let\n", "let: this `let` gives no value"),
        ("let = 5 m\n", "let = 5 m: a `let` begins with a name"),
        ("let wall\n", "let wall: this `let` gives no value"),
        ("let wall 600 mm\n", "600 mm: `=` is missing here"),
        ("let wall = \"600 mm\"\n", "=: quantity is missing here"),
        ("let wall = 600 mm 3\n", "3: `3` is left over"),
        ("let t = 600 mm\n", "t: `t` means something else"),
        ("let at = 600 mm\n", "at: `at` means something else"),
        ("let wall = 5 ton\n", "5 ton: `5 ton` can be read in 3 ways"),
        ("let wall = 2 -3 m\n", ""),
    ] {
        let told = told(text);
        assert_eq!(told.len(), 1, "{text}: {told:?}");
        assert!(told[0].contains(said), "{text}: {told:?}");
    }
}

#[test]
fn a_value_is_known_as_its_name_says_and_the_line_does_not_say_it_again() {
    let text = "let wll = 17 t from tag\nsling a\n  rated vertical wll\n";
    assert_eq!(told(text), [""; 0]);
    let (_, entries) = read(text);
    let rated = of::<Sling>(&entries).rated.lines[0].known().unwrap();
    assert_eq!(rated.pedigree.basis, Some("tag"));

    let text = "let wll = 17 t from tag\nsling a\n  rated vertical wll + 1 t\n";
    let (_, entries) = read(text);
    let rated = of::<Sling>(&entries).rated.lines[0].known().unwrap();
    assert_eq!(
        rated.pedigree.basis, None,
        "one part of it nobody vouches for"
    );

    assert_eq!(
        told("let block = 14 t from estimate\nload a\n  mass block from weighed\n"),
        [
            "3:from weighed: `block` says itself how it is known; take `from` out here, or at the `let`"
        ]
    );
}

#[test]
fn the_way_of_a_value_is_kept() {
    let text = "let block = 14.5 t\nload a\n  mass 2 * block + 300 kg\n";
    let (_, entries) = read(text);
    let given = of::<Load>(&entries).mass.lines[0].known().unwrap();
    let [Via::Expression(way)] = &given.origin.via[..] else {
        panic!("{:?}", given.origin.via);
    };
    assert_eq!(&*way.text, "2 * block + 300 kg");
    assert_eq!(way.value.unwrap().amount().si, 29_300.0);
    let [(name, origin)] = &way.names[..] else {
        panic!("{:?}", way.names);
    };
    assert_eq!((&**name, &*origin.entry.word), ("block", "let"));
}

#[test]
fn a_capacity_is_no_band_and_a_place_no_tolerance() {
    assert_eq!(
        told("let wll = 17 t +/- 1 t\nsling a\n  rated vertical wll\n")[0],
        "3:wll: `wll` has a tolerance; one number is wanted here; `rated` takes a rated capacity as a mass or a force, for a sling with its hitch: `vertical 14.1 t`"
    );
}

/// Terms of several kinds, with and without tolerance, and calculations of them.
fn calculation() -> impl Strategy<Value = String> {
    let leaf = proptest::sample::select(
        &[
            "2",
            "0.5",
            "0",
            "3 t",
            "250 kg",
            "(3 t +/- 100 kg)",
            "(1 t +/- 5 %)",
            "2 m",
            "50 mm",
            "(2 m +/- 10 mm)",
            "7850 kg/m3",
            "40 kg/m",
            "2 kN",
            "5 %",
            "20 degC",
            "30 deg",
            "4 ton",
            "nobody",
        ][..],
    )
    .prop_map(str::to_owned);
    leaf.prop_recursive(4, 24, 2, |inner| {
        (
            inner.clone(),
            proptest::sample::select(&["+", "-", "*", "/"][..]),
            inner,
        )
            .prop_map(|(a, op, b)| format!("({a} {op} {b})"))
    })
}

/// Sides of the mass, or nothing where it has none.
fn sides(text: &str) -> Option<[Option<f64>; 3]> {
    let (_, entries) = read(text);
    let given = of::<Load>(&entries).mass.lines[0].known()?.value;
    Some([given.lo, given.hi, given.nominal].map(|side| side.map(Measured::si)))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn a_name_means_what_its_calculation_means(part in calculation()) {
        for whole in ["PART * 1", "2 * PART", "PART - 1 t", "PART * 3 m * 1 m"] {
            let typed = format!("load a\n  mass {}\n", whole.replace("PART", &part));
            let named = format!("load a\n  mass {}\nlet part = {part}\n", whole.replace("PART", "part"));
            prop_assert_eq!(sides(&typed), sides(&named), "{} / {}", typed, named);
        }
    }
}

#[test]
fn per_cent_of_a_named_share_may_be_two_things_and_is_refused_with_both() {
    let text = "let paint = 5 %\n\ntakeoff it\n  left-out paint +/- 2 %\n";
    assert_eq!(
        told(text),
        [
            "4:2 %: `paint` is 5 % itself: within 2 % of that it is 4.9 % .. 5.1 %, within 2 points 3 % .. 7 %; \
             write the range that is meant: `3 % .. 7 %`, or `4.9 % .. 5.1 %`"
        ]
    );
    // Typed, it shows that points are meant; of a mass there is one reading only.
    assert_eq!(told("takeoff it\n  left-out 5 % +/- 2 %\n"), [""; 0]);
    assert_eq!(
        told("let block = 5 t\n\nload it\n  mass block +/- 2 %\n"),
        [""; 0]
    );
}
