//! What can stand at a place.

use crate::lift::Lift;
use plumbhook_checks::example::{FILES, ROOT, files};
use plumbhook_ide::{Completion, OfferKind, completion};
use plumbhook_workspace::{Cancel, InMemory, Snapshot, Workspace};
use proptest::prelude::*;
use std::path::Path;
use std::sync::Arc;

/// The offers where `^` stands in a stretch of the clean lift that stands once.
fn at(marked: &str) -> Completion {
    let lift = Lift::new(&[]);
    let (path, line, byte) = lift.at(marked);
    completion(&lift.snapshot, &path, line, byte).unwrap()
}

/// The labels of the offers at `^` in the job, after a change of it.
fn typed(old: &str, new: &str) -> Vec<String> {
    let whole = new.replace('^', "");
    let lift = Lift::new(&[(old, &whole)]);
    let (path, line, byte) = lift.at(new);
    let found = completion(&lift.snapshot, &path, line, byte);
    labels(&found.map_or_else(Vec::new, |found| found.offers))
}

fn labels(offers: &[plumbhook_ide::Offer]) -> Vec<String> {
    offers.iter().map(|offer| offer.label.clone()).collect()
}

fn has(offers: &[String], wanted: &[&str], unwanted: &[&str]) {
    for word in wanted {
        assert!(offers.iter().any(|it| it == word), "{word} in {offers:?}");
    }
    for word in unwanted {
        assert!(offers.iter().all(|it| it != word), "{word} in {offers:?}");
    }
}

#[test]
fn in_column_1_stand_the_words_of_entries_and_no_second_opener() {
    let found = typed("move M1", "^\nmove M1");
    has(
        &found,
        &["load", "move", "sling", "floor"],
        &["job", "plant", "mass"],
    );
    let half = at("loa^d cover");
    assert_eq!((half.replaces.start, half.replaces.end), (0, 4));
}

#[test]
fn an_empty_file_is_opened_first() {
    let disk = InMemory::default();
    disk.put(Path::new("/w/new.pick"), b"");
    let mut workspace = Workspace::new(Arc::new(disk));
    workspace.folders(&["/w".into()]);
    let found = completion(&workspace.snapshot(), Path::new("/w/new.pick"), 0, 0).unwrap();
    assert_eq!(labels(&found.offers), ["job", "plant", "yard"]);
}

#[test]
fn after_indentation_stand_the_keys_that_are_not_given_yet() {
    let found = typed("  tilt ", "  ^\n  tilt ");
    has(
        &found,
        &["without", "limit"],
        &["carries", "by", "heading", ""],
    );
    let claims = typed("  points ", "  ^\n  points ");
    has(&claims, &["mass", "cg", "material"], &["points", "frame"]);
    // The key under the pointer itself may be chosen again.
    let own = at("  carr^ies    cover");
    has(&labels(&own.offers), &["carries"], &["by"]);
}

#[test]
fn a_key_comes_with_its_help_and_the_blanks_of_its_neighbours() {
    let lift = Lift::new(&[("  tilt ", "  \n  tilt ")]);
    let (path, line, byte) = lift.at("  ^\n  tilt ");
    let found = completion(&lift.snapshot, &path, line, byte).unwrap();
    let limit = found.offers.iter().find(|it| it.label == "limit").unwrap();
    assert_eq!(limit.insert, "limit      ");
    assert!(limit.help.contains("limit device"), "{}", limit.help);
    assert!(limit.help.contains("Takes one quantity"), "{}", limit.help);
}

#[test]
fn a_name_stands_where_its_reader_wants_it_and_of_the_role_that_it_wants() {
    has(
        &typed("carries    cover", "carries    ^"),
        &["cover"],
        &["bow-12", "bridge"],
    );
    has(
        &typed("by         bridge with", "by         ^ with"),
        &["bridge"],
        &["cover"],
    );
    has(
        &typed("with chains-of-three", "with ch^"),
        &["chains-of-three"],
        &["bridge", "cover"],
    );
    has(
        &typed("through bow-12, rope", "through ^"),
        &["bow-12", "ring-2"],
        &["cover", "bridge"],
    );
    has(
        &typed("hung       ring-2 by bridge.main", "hung       ^"),
        &["ring-2", "bow-12"],
        &["bridge"],
    );
    has(
        &typed("hung       ring-2 by bridge.main", "hung       ring-2 by ^"),
        &["bridge"],
        &["ring-2"],
    );
    assert_eq!(
        typed(
            "hung       ring-2 by bridge.main",
            "hung       ring-2 by bridge.^"
        ),
        ["bridge.main"]
    );
    has(
        &typed("plant      pump-hall", "plant      ^"),
        &["pump-hall"],
        &["walk-2"],
    );
    has(&typed("rules      us", "rules      ^"), &["us"], &["cover"]);
}

#[test]
fn a_name_says_what_it_is_and_where_it_stands() {
    let found = at("through bow^-12, rope");
    assert_eq!(found.offers[0].kind, OfferKind::Name);
    let bow = found.offers.iter().find(|it| it.label == "bow-12").unwrap();
    assert!(bow.detail.starts_with("shackle") && bow.detail.ends_with("(yard.pick)"));
}

#[test]
fn behind_a_number_stand_the_units_that_its_reader_takes() {
    for new in [
        "dynamic    1.10\n  limit 40 ^",
        "dynamic    1.10\n  limit 40^",
        "dynamic    1.10\n  limit 40 t^",
    ] {
        has(
            &typed("dynamic    1.10", new),
            &["t", "kN", "kip"],
            &["m", "deg", "from"],
        );
    }
    has(
        &typed("at most 3 deg", "at most 3 ^"),
        &["deg", "rad"],
        &["t", "mm"],
    );
    let tolerance = typed("cg         x 0 +/- 40 mm", "cg         x 0 +/- 40 ^");
    has(&tolerance, &["mm", "ft"], &["kg", "%"]);
    let share = typed("mass       14.0 t +/- 5 %", "mass       14.0 t +/- 5 ^");
    has(&share, &["%", "kg"], &["kN", "mm"]);
}

#[test]
fn a_value_that_the_file_names_stands_where_numbers_do() {
    let named = "let part-of-it = 600 mm\n\nload cover";
    let lift = Lift::new(&[
        ("load cover", named),
        ("mass       14.0 t", "mass       14.0 t + "),
    ]);
    let (path, line, byte) = lift.at("mass       14.0 t + ^");
    let found = completion(&lift.snapshot, &path, line, byte).unwrap();
    has(&labels(&found.offers), &["part-of-it"], &["cover"]);
}

#[test]
fn behind_from_stand_declared_sources_and_the_closed_list() {
    let found = typed("dynamic    1.10", "dynamic    1.10 from ^");
    has(
        &found,
        &["walk-2", "practice-note", "weighed"],
        &["cover", "from"],
    );
    has(
        &typed("dynamic    1.10", "dynamic    1.10 ^"),
        &["from"],
        &["t"],
    );
    assert_eq!(
        typed("dynamic    1.10", "dynamic    1.10 from walk-2 ^"),
        [""; 0]
    );
    // What an angle is measured from is no source yet.
    let angle = "rated-angle at least 45 deg from horizontal";
    let found = typed(angle, &format!("{angle} ^"));
    has(&found, &["from"], &["walk-2"]);
    let found = typed(angle, &format!("{angle} from ^"));
    has(&found, &["walk-2"], &["from"]);
}

#[test]
fn a_table_offers_its_columns_and_in_its_cells_what_they_take() {
    let cell = |typed_there: &str| {
        let last = "| (18.0 m, 5.0 m) | on stool          |";
        typed(last, &format!("| (18.0 m, 5.0 m) | {typed_there}"))
    };
    has(&cell("^"), &["on", "above", "EL"], &["stool"]);
    has(&cell("on ^"), &["stool"], &["cover", "slab"]);
    has(&cell("above sl^"), &["slab"], &["stool"]);
    let names = "| at              | underside         |\n";
    has(
        &typed(names, "| at              | ^\n"),
        &["underside", "hold"],
        &["at", "on"],
    );
}

#[test]
fn words_of_people_numbers_and_comments_are_left_alone() {
    assert!(typed("dynamic    1.10", "dynamic    1.10 # fr^om").is_empty());
    assert!(typed("stage bid", "stage bid \"a ca^").is_empty());
    assert!(typed("dynamic    1.10", "dynamic    1^.10").is_empty());
    assert!(typed("move M1", "move ^M1").is_empty());
}

#[test]
fn nothing_offered_holds_a_number() {
    let lift = Lift::new(&[]);
    for file in lift.snapshot.files() {
        for line in 0..file.document().line_count() {
            let length = file.document().line_text(line).unwrap().len();
            for byte in (0..=u32::try_from(length).unwrap()).step_by(4) {
                let found = completion(&lift.snapshot, &file.path, line, byte);
                for offer in found.into_iter().flat_map(|it| it.offers) {
                    let mut words = offer.insert.split_whitespace();
                    let number = words.any(|word| word.starts_with(|c: char| c.is_ascii_digit()));
                    assert!(offer.kind == OfferKind::Name || !number, "{offer:?}");
                }
            }
        }
    }
}

fn of_text(text: &str) -> Snapshot {
    let disk = InMemory::default();
    for (name, content) in files(&[]).unwrap() {
        disk.put(Path::new("/w").join(name), content.as_bytes());
    }
    disk.put(Path::new("/w/plumbhook.toml"), ROOT.as_bytes());
    disk.put(Path::new("/w/cover.pick"), text.as_bytes());
    let mut workspace = Workspace::new(Arc::new(disk));
    workspace.folders(&["/w".into()]);
    workspace.snapshot()
}

/// A cut in the text, something put there, another line ending.
fn broken() -> impl Strategy<Value = String> {
    let junk = prop_oneof![
        Just(""),
        Just("\""),
        Just("("),
        Just("|"),
        Just("| "),
        Just("\u{1F3D7}"),
        Just("Ü "),
        Just(" from "),
        Just("+/- "),
        Just("\n"),
        Just("\r"),
        Just("\n  "),
        Just("\0"),
        Just("12"),
    ];
    let endings = prop_oneof![Just("\n"), Just("\r\n"), Just("\r")];
    (
        any::<prop::sample::Index>(),
        0..60_usize,
        junk,
        endings,
        any::<bool>(),
    )
        .prop_map(|(at, gone, junk, ending, all_gone)| {
            let text = FILES[2].1;
            let start = text.floor_char_boundary(at.index(text.len() + 1));
            let end = if all_gone {
                text.len()
            } else {
                (start + gone).min(text.len())
            };
            let end = text.ceil_char_boundary(end);
            format!("{}{junk}{}", &text[..start], &text[end..]).replace('\n', ending)
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn every_place_of_every_broken_text_is_answered_with_a_stretch_of_its_line_that_holds_it(text in broken()) {
        let snapshot = of_text(&text);
        let path = Path::new("/w/cover.pick");
        let document = snapshot.file(path).unwrap().document();
        for line in 0..=document.line_count() {
            let line_text = document.line_text(line).unwrap_or("");
            let length = u32::try_from(line_text.len()).unwrap();
            for byte in (0..length + 2).step_by(5) {
                if let Some(found) = completion(&snapshot, path, line, byte) {
                    let place = found.replaces;
                    prop_assert!(place.start <= byte.min(length) && place.end >= byte.min(length).saturating_sub(3));
                    let range = place.start as usize..place.end as usize;
                    prop_assert!(line_text.get(range).is_some(), "{line_text:?} {place:?}");
                }
                prop_assert!(plumbhook_ide::selections(&snapshot, path, line, byte).len() < 9);
                let _ = plumbhook_ide::references(&snapshot, path, line, byte, &Cancel::default());
                let _ = plumbhook_ide::renamable(&snapshot, path, line, byte);
            }
        }
        let _ = plumbhook_ide::document_symbols(&snapshot, path);
        let _ = plumbhook_ide::folds(&snapshot, path);
        let _ = plumbhook_ide::semantic_tokens(&snapshot, path, &(0..=u32::MAX), &Cancel::default());
        let _ = plumbhook_ide::formatting(&snapshot, path);
    }
}
