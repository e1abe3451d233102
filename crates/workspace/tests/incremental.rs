//! Incremental equals fresh: after any edits, a workspace that kept what it could says what a new one says.

mod common;

use common::*;
use plumbhook_checks::example::FILES;
use plumbhook_workspace::InMemory;
use proptest::prelude::*;
use std::sync::Arc;

/// One edit of one of the three files, as numbers that any text can take.
#[derive(Clone, Debug)]
enum Edit {
    /// Some bytes are replaced by a few others.
    Bytes(usize, usize, &'static str),
    /// A line is put in.
    Line(usize, &'static str),
    /// A line is taken out.
    Without(usize),
    /// Two entries behind the first change places.
    Swap(usize, usize),
}

const BYTES: &[&str] = &[
    "", "9", "0", " ", "\n", "\n  ", "x", "#", "unknown", "\"", "job ", "|", "é", "\r\n", "-",
];
const LINES: &[&str] = &[
    "  mass 15 t +/- 1 %",
    "  mass unknown",
    "  mass 2 * block",
    "  cg x block, y wall +/- 10 mm, z wall",
    "let block = 7 t +/- 1 %",
    "let block = wall * 2",
    "let block = unknown",
    "let wall = 600 mm",
    "let wall = block / 2",
    "  rated 4 t from tag",
    "shackle bow-12",
    "# a remark",
    "",
    "yard",
    "move M1",
    "move M2 \"again\"\n  carries cover\n  by bridge with chains-of-three",
    "  dynamic 1.30",
    "move M3\n  follows M1\n  by bridge with chains-of-three\n  stations\n    | at | underside |\n    | (8.0 m, 5.0 m) | above slab 2 m |",
    "  follows M3",
    "  follows M1",
    "  start at (8.0 m, 5.0 m), underside EL 51.0 m",
    "  hold H1 at 100 mm cell within expected",
    "  stop any leg above 110 % of expected",
    "  class ordinary",
    "option A",
    "option B",
    "  in option A",
    "  in option B",
    "  in",
    "question Q1 \"weight?\"\n  closes cover.mass\n  blocks M1",
    "  answer \"yes\"",
    "  held-by bolts, free-at H1",
    "load cover",
    "  stations",
    "floor over\n  outline (0, 0) (24 m, 0) (24 m, 10 m) (0, 10 m)\n  top EL 50.5 m from walk-2",
    "stand stool\n  on slab",
    "  grid A .. C at x 0, 12 m, 24 m",
    "  datum MSL at EL 1 m +/- 0 mm",
    "load cover like old-cover",
    "load old-cover like cover",
    "  at B/1 + (6 m, 5 m)",
];

fn edit() -> impl Strategy<Value = (usize, Edit)> {
    let any = any::<usize>;
    let one = prop_oneof![
        4 => (any(), 0..4_usize, proptest::sample::select(BYTES)).prop_map(|(at, n, new)| Edit::Bytes(at, n, new)),
        2 => (any(), proptest::sample::select(LINES)).prop_map(|(at, line)| Edit::Line(at, line)),
        2 => any().prop_map(Edit::Without),
        1 => (any(), any()).prop_map(|(a, b)| Edit::Swap(a, b)),
    ];
    (0..3_usize, one)
}

/// The bytes that an edit replaces and what it puts there.
fn change(text: &str, edit: &Edit) -> (std::ops::Range<usize>, String) {
    let starts: Vec<usize> = std::iter::once(0)
        .chain(text.match_indices('\n').map(|(at, _)| at + 1))
        .collect();
    let line = |nth: usize| {
        let nth = nth % starts.len();
        starts[nth]..starts.get(nth + 1).copied().unwrap_or(text.len())
    };
    match edit {
        Edit::Bytes(at, length, new) => {
            let start = text.floor_char_boundary(at % (text.len() + 1));
            let end = text.ceil_char_boundary((start + length).min(text.len()));
            (start..end, (*new).to_owned())
        }
        Edit::Line(at, new) => {
            let start = line(*at).start;
            (start..start, format!("{new}\n"))
        }
        Edit::Without(at) => (line(*at), String::new()),
        Edit::Swap(a, b) => {
            let document = plumbhook_syntax::Document::new(text);
            let blocks = document.blocks();
            if blocks.len() < 3 {
                return (0..0, String::new());
            }
            let behind = blocks.len() - 1;
            let (a, b) = (1 + a % behind, 1 + b % behind);
            let (a, b) = (a.min(b), a.max(b));
            if a == b {
                return (0..0, String::new());
            }
            let ended = |text: &str| {
                if text.ends_with('\n') {
                    text.to_owned()
                } else {
                    format!("{text}\n")
                }
            };
            let between = &text[blocks[a].end as usize..blocks[b].start as usize];
            let new = format!(
                "{}{between}{}",
                ended(document.block_text(b)),
                document.block_text(a)
            );
            (blocks[a].start as usize..blocks[b].end as usize, new)
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, max_shrink_iters: 200, ..ProptestConfig::default() })]

    #[test]
    fn what_is_kept_is_what_would_be_said_anew(edits in proptest::collection::vec(edit(), 1..8)) {
        let mut kept = workspace(&clean());
        let mut texts: Vec<String> = FILES.iter().map(|(_, text)| (*text).to_owned()).collect();
        for ((name, _), text) in FILES.iter().zip(&texts) {
            kept.open(&at(name), text);
        }
        check(&kept.snapshot());
        for (file, edit) in edits {
            let (bytes, new) = change(&texts[file], &edit);
            kept.edit(&at(FILES[file].0), bytes.clone(), &new);
            texts[file].replace_range(bytes, &new);
            let said = check(&kept.snapshot());
            let disk = Arc::new(InMemory::default());
            disk.put(at("plumbhook.toml"), plumbhook_checks::example::ROOT.as_bytes());
            for ((name, _), text) in FILES.iter().zip(&texts) {
                disk.put(at(name), text.as_bytes());
            }
            prop_assert_eq!(said, fresh(&disk));
        }
    }
}

#[test]
fn the_order_of_entries_and_files_changes_nothing_that_is_found() {
    let files = clean();
    let identities = |files: &Arc<InMemory>| {
        let checked = fresh(files);
        let mut all: Vec<_> = findings(&checked)
            .map(|finding| {
                let aspect = &finding.aspect;
                (
                    finding.identity.clone(),
                    finding.severity,
                    aspect.headline.clone(),
                )
            })
            .collect();
        all.sort();
        all
    };
    let before = identities(&files);
    for (name, text) in FILES {
        let document = plumbhook_syntax::Document::new(text);
        let mut turned: Vec<&str> = (1..document.blocks().len())
            .map(|i| document.block_text(i))
            .collect();
        turned.reverse();
        files.put(
            at(name),
            format!("{}{}", document.block_text(0), turned.concat()).as_bytes(),
        );
    }
    // The yard is read last now instead of first.
    let yard = plumbhook_workspace::Files::read(&*files, &at("yard.pick")).unwrap();
    files.remove(at("yard.pick"));
    files.put(at("a.pick"), yard.as_bytes());
    assert_eq!(identities(&files), before);
}

/// The clean lift with its stool placed by the grid, its heights above another datum and its cover like an old one.
const ELSEWHERE: [(&str, &str); 5] = [
    (
        "  datum      EL \"project, 1962\"\n",
        "  datum      EL \"project, 1962\"\n  datum      MSL at EL 7.00 m +/- 0 mm\n  grid       A .. C at x 0, 12 m, 24 m\n  grid       1 at y 5 m\n",
    ),
    ("at         (18.0 m, 5.0 m)", "at         B/1 + (6 m, 0)"),
    ("bears-up-to EL 59.20 m", "bears-up-to MSL 52.20 m"),
    ("  shape      disc, outside 2.40 m, z 0 .. 1.10 m\n", ""),
    (
        "load cover \"Pump cover, cast steel\"\n",
        "load old-cover like older\n\nload older\n  shape      disc, outside 2.40 m, z 0 .. 1.10 m\n\nload cover like old-cover \"Pump cover, cast steel\"\n",
    ),
];

#[test]
fn what_a_case_takes_from_grid_lines_datums_and_likes_is_not_kept_when_that_changes() {
    let texts = plumbhook_checks::example::files(&ELSEWHERE).unwrap_or_else(|why| panic!("{why}"));
    let mut kept = workspace(&changed(&ELSEWHERE));
    for (name, text) in &texts {
        kept.open(&at(name), text);
    }
    assert_eq!(errors(&check(&kept.snapshot())), [""; 0]);
    for (file, from, to, code) in [
        // The stool comes to stand over the sump at x 10 m to 12 m.
        (
            "hall.plant.pick",
            "0, 12 m, 24 m",
            "0, 6 m, 24 m",
            "over-void",
        ),
        (
            "hall.plant.pick",
            "MSL at EL 7.00 m",
            "MSL at EL 4.00 m",
            "hook-height",
        ),
        ("cover.pick", "load older\n", "load oldest\n", "hook-height"),
        (
            "cover.pick",
            "load old-cover like older",
            "load old-cover like cover",
            "hook-height",
        ),
        ("cover.pick", "0 .. 1.10 m", "-3 m .. 1.10 m", "hook-height"),
    ] {
        let (_, text) = texts
            .iter()
            .find(|(name, _)| *name == file)
            .unwrap_or_else(|| panic!("{file}"));
        let place = text.find(from).unwrap_or_else(|| panic!("{from}"));
        kept.edit(&at(file), place..place + from.len(), to);
        let said = check(&kept.snapshot());
        let found = findings(&said).any(|finding| {
            finding.identity.rule == code && finding.severity == plumbhook_sheet::Severity::Error
        });
        assert!(found, "{to}: {:?}", errors(&said));
        kept.edit(&at(file), place..place + to.len(), from);
        assert_eq!(errors(&check(&kept.snapshot())), [""; 0], "{from} again");
    }
}

/// Two riggings of one name, one in each option, and one more that keeps the second option named.
const TWINS: &str = "\
option A

rigging twin
  in         option A
  hung       ring-2 by bridge.main

rigging twin
  in         option B
  hung       ring-2 by bridge.main
";

#[test]
fn names_that_meet_once_an_option_is_edited_are_told_as_if_read_anew() {
    // With the second, the options that there are stay the same; without it B is gone after the edit.
    for other in ["", "\nrigging third\n  in         option B\n"] {
        let job = FILES[2].1;
        let before = format!("{job}\n{TWINS}{other}");
        let after = before.replacen("in         option B", "in         option A", 1);
        let files = clean();
        let mut kept = workspace(&files);
        let mut say = |text: &str| {
            kept.open(&at(FILES[2].0), text);
            let said = check(&kept.snapshot());
            files.put(at(FILES[2].0), text.as_bytes());
            assert_eq!(said, fresh(&files), "{text}");
            said.notices
                .iter()
                .filter(|notice| notice.code.code == "name-twice")
                .count()
        };
        assert_eq!([&*before, &after, &before].map(&mut say), [0, 2, 0]);
    }
}
