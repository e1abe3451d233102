//! `like` takes over geometry and nothing else: each lift here is the clean lift with a part of it given elsewhere.

mod said;

use plumbhook_checks::example::{self, HALL};
use plumbhook_model::name_notices;
use plumbhook_sheet::{Aspect, Lack, Verdict};
use said::said;

type Change = (&'static str, &'static str);

const HEADER: &str = "load cover \"Pump cover, cast steel\"\n";
const SHAPE: &str = "  shape      disc, outside 2.40 m, z 0 .. 1.10 m\n";
const POINTS: &str = "  points     A B C ring radius 0.95 m, z 1.00 m, first +x, anticlockwise\n";
const OLD: &str = "load old-cover\n  mass       9 t +/- 1 %\n  cg         x 0 +/- 1 mm, y 0 +/- 1 mm, z 0.50 m +/- 1 mm\n  shape      disc, outside 2.40 m, z 0 .. 1.10 m\n  points     A B C ring radius 0.95 m, z 1.00 m, first +x, anticlockwise\n\nload cover like old-cover \"Pump cover, cast steel\"\n";

/// The cover with its shape and its points taken over from an old one.
const TAKEN_OVER: [Change; 3] = [(SHAPE, ""), (POINTS, ""), (HEADER, OLD)];

fn with(more: &[Change]) -> Vec<Change> {
    TAKEN_OVER.iter().chain(more).copied().collect()
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

/// What is said of the names in the files, and under which code.
fn names(change: &[Change]) -> Vec<(&'static str, String)> {
    let files = HALL.files(change).unwrap_or_else(|why| panic!("{why}"));
    let scope = example::scope_of(&files);
    let entries = scope.layers.iter().flat_map(|layer| layer.entries());
    entries
        .flat_map(|entry| name_notices(&scope, entry))
        .map(|notice| (notice.code.code, notice.say))
        .collect()
}

#[test]
fn geometry_that_is_taken_over_counts_as_if_it_stood_here() {
    for code in ["hook-height", "hook-reach"] {
        let own = said(code, "bridge.main", &[]);
        let taken = said(code, "bridge.main", &TAKEN_OVER);
        assert_eq!(
            (own.headline, own.sheet.demand),
            (taken.headline, taken.sheet.demand)
        );
    }
    assert!(names(&TAKEN_OVER).is_empty());
}

#[test]
fn what_is_taken_over_is_told_at_both_places() {
    let taken = said("hook-height", "bridge.main", &TAKEN_OVER);
    let shape = taken
        .sheet
        .inputs
        .iter()
        .find(|input| input.what == "shape of cover");
    let places: Vec<_> = shape
        .map(|shape| {
            shape
                .origins
                .iter()
                .map(|origin| (&*origin.entry.name, origin.line))
        })
        .into_iter()
        .flatten()
        .collect();
    assert_eq!(places, [("old-cover", 3), ("cover", 0)]);
    let related: Vec<_> = taken
        .related
        .iter()
        .map(|related| related.say.as_str())
        .collect();
    assert!(
        related.contains(&"geometry of cover is taken over here"),
        "{related:?}"
    );
}

#[test]
fn neither_mass_nor_centre_of_gravity_is_taken_over() {
    let mass = ("  mass       14.0 t +/- 5 %           from drawing\n", "");
    let cg = (
        "  cg         x 0 +/- 40 mm, y 0 +/- 40 mm, z 0.50 m +/- 40 mm   from drawing\n",
        "",
    );
    let no_mass = said("mass-known", "cover", &with(&[mass]));
    assert_eq!(missing(&no_mass), [("mass of cover", Lack::Absent)]);
    let no_cg = said("hook-reach", "bridge.main", &with(&[cg]));
    assert!(
        missing(&no_cg)
            .iter()
            .all(|(what, lack)| { what.contains("centre of gravity") && *lack == Lack::Absent }),
        "{:?}",
        missing(&no_cg)
    );
}

#[test]
fn a_line_of_its_own_counts_before_the_one_taken_over_even_if_it_is_unknown() {
    let own = [
        (SHAPE, "  shape      unknown\n"),
        (POINTS, ""),
        (HEADER, OLD),
    ];
    let own = said("hook-height", "bridge.main", &own);
    assert_eq!(missing(&own), [("shape of cover", Lack::Unknown)]);
    assert_eq!(&*own.primary.entry.name, "cover");
}

#[test]
fn what_is_broken_in_the_other_is_told_there_and_at_the_name() {
    // Of the two shapes only the old cover's has this place in its entry.
    let old = OLD.replace("outside 2.40 m,", "outside 2.40 km x,");
    let old: &'static str = Box::leak(old.into_boxed_str());
    let said = said(
        "hook-height",
        "bridge.main",
        &[(SHAPE, ""), (POINTS, ""), (HEADER, old)],
    );
    assert_eq!(missing(&said), [("shape of cover", Lack::Broken)]);
    assert_eq!(&*said.primary.entry.name, "old-cover");
    assert_eq!(&*said.related[0].origin.entry.name, "cover");
}

#[test]
fn a_chain_of_likes_is_followed_to_its_end() {
    let chain = OLD.replace(
        "load cover like old-cover",
        "load between like old-cover\n\nload cover like between",
    );
    let chain: &'static str = Box::leak(chain.into_boxed_str());
    let taken = said(
        "hook-height",
        "bridge.main",
        &[(SHAPE, ""), (POINTS, ""), (HEADER, chain)],
    );
    assert_eq!(taken.verdict, Verdict::Within, "{}", taken.headline);
}

#[test]
fn entries_that_are_like_each_other_give_nothing_and_it_is_told() {
    let circle = "load old-cover like cover\n\nload cover like old-cover \"Pump cover\"\n";
    let circle = [(HEADER, circle), (SHAPE, ""), (POINTS, "")];
    let codes: Vec<_> = names(&circle).into_iter().map(|(code, _)| code).collect();
    assert_eq!(codes, ["like-in-a-circle"; 2]);
    let said = said("hook-height", "bridge.main", &circle);
    assert!(missing(&said).contains(&("shape of cover", Lack::Absent)));
    let itself = [
        (HEADER, "load cover like cover\n"),
        (SHAPE, ""),
        (POINTS, ""),
    ];
    assert_eq!(names(&itself)[0].0, "like-in-a-circle");
}

#[test]
fn a_like_of_nothing_or_of_another_kind_gives_nothing_and_it_is_told() {
    for (name, code) in [
        ("old-covr", "name-not-found"),
        ("stool", "name-of-another-kind"),
    ] {
        let header = format!("load cover like {name} \"Pump cover\"\n");
        let header: &'static str = Box::leak(header.into_boxed_str());
        let change = [(SHAPE, ""), (POINTS, ""), (HEADER, header)];
        assert_eq!(names(&change)[0].0, code);
        assert_eq!(names(&change).len(), 1);
        let said = said("hook-height", "bridge.main", &change);
        assert!(missing(&said).contains(&("shape of cover", Lack::Absent)));
    }
    // A ring and a shackle are both gear, and not alike.
    let other = [("shackle bow-12\n", "shackle bow-12 like ring-2\n")];
    let told = names(&other);
    assert_eq!(
        told,
        [(
            "name-of-another-kind",
            "`ring-2` is a ring; a shackle can be like a shackle only".to_owned()
        )]
    );
}

#[test]
fn ratings_and_verifications_are_taken_over_by_no_entry() {
    // By the declarations themselves, so that a new family is held to it.
    let never = [
        "mass", "cg", "rated", "allows", "verified", "block", "tested",
    ];
    for kind in plumbhook_model::entries::KINDS {
        for key in kind.block.keys.iter().filter(|key| key.geometry) {
            assert!(
                !never.contains(&key.word),
                "{}.{}",
                kind.block.word,
                key.word
            );
        }
    }
}
