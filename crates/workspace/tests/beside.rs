//! What an entry looks up beside its own lines: named values of its file, and tables in `.csv` files.
#![allow(clippy::unwrap_used, reason = "tests")]

mod common;

use common::*;
use plumbhook_workspace::{InMemory, Workspace};
use std::sync::Arc;

const ROWS: &str = "    | at              | underside         |
    | (8.0 m, 5.0 m)  | EL 51.20 m        |
    | (8.0 m, 5.0 m)  | above slab 1.80 m |
    | (18.0 m, 5.0 m) | above slab 1.80 m |
    | (18.0 m, 5.0 m) | on stool          |
";
const CSV: &str = "at,underside\n\"(8.0 m, 5.0 m)\",EL 51.20 m\n\"(8.0 m, 5.0 m)\",above slab 1.80 m\n\"(18.0 m, 5.0 m)\",above slab 1.80 m\n\"(18.0 m, 5.0 m)\",on stool\n";

/// The clean lift with its stations in a file of their own.
fn in_csv(csv: &str, name: &str) -> Arc<InMemory> {
    let line = format!("  stations in {name}\n");
    let files = changed(&[(&format!("  stations\n{ROWS}"), &line)]);
    files.put(at("path.csv"), csv.as_bytes());
    files
}

fn told_in(files: &Arc<InMemory>) -> Vec<String> {
    let snapshot = workspace(files).snapshot();
    let checked = check(&snapshot);
    checked
        .notices
        .iter()
        .map(|notice| {
            let related = notice.related.iter().map(|related| {
                let place = snapshot.locate(&related.origin).unwrap();
                format!(" [{}:{}]", place.shown, place.line + 1)
            });
            let related: String = related.collect();
            format!("{}{related}; {}", notice.say, notice.mend)
        })
        .collect()
}

/// Identity and headline of every finding.
fn found(files: &Arc<InMemory>) -> Vec<String> {
    let checked = fresh(files);
    let mut all: Vec<_> = findings(&checked)
        .map(|finding| format!("{:?} {}", finding.identity, finding.aspect.headline))
        .collect();
    all.sort();
    all
}

#[test]
fn a_table_means_the_same_in_a_csv() {
    let files = in_csv(CSV, "path.csv");
    assert_eq!(told_in(&files), told_in(&clean()));
    assert_eq!(found(&files), found(&clean()));
    let quoted = in_csv(CSV, "\"path.csv\"");
    assert_eq!(found(&quoted), found(&clean()));
}

#[test]
fn a_csv_that_cannot_be_read_is_told_at_its_name_with_its_line() {
    let first = |files: &Arc<InMemory>| told_in(files).remove(0);
    let bad = CSV.replace("EL 51.20 m", "EL 51.20");
    assert_eq!(
        first(&in_csv(&bad, "path.csv")),
        "`path.csv`, line 2: `51.20` has no unit; length is wanted here [path.csv:2]; write its unit: m, mm, cm, km, ft, in"
    );
    assert_eq!(
        first(&in_csv("at;underside\n1,5;2\n", "path.csv")),
        "`path.csv`, line 1: the fields are parted by `;`, so a comma may stand for the decimal point [path.csv:1]; save the file with a comma between fields and a point in decimals"
    );
    assert_eq!(
        first(&in_csv(&CSV.replace("on stool", "#N/A"), "path.csv")),
        "`path.csv`, line 5: `#N/A` is no value [path.csv:5]; a cell holds a value or `unknown`"
    );
    let gone = in_csv(CSV, "path.csv");
    gone.remove(at("path.csv"));
    assert_eq!(
        first(&gone),
        "`path.csv` could not be read: there is no such file or folder; put the file where this one is, or mend its name"
    );
    assert_eq!(
        first(&in_csv(CSV, "\"../path.csv\"")),
        "`../path.csv` could not be read: it lies outside the folder of the root file; put it beside the file that names it"
    );
    let binary = in_csv(CSV, "path.csv");
    binary.put(at("path.csv"), b"at\0\xff");
    assert!(first(&binary).contains("it is not UTF-8 text"));
    let large = in_csv(&"x".repeat(plumbhook_model::LARGEST_CSV + 1), "path.csv");
    assert!(first(&large).contains("bytes"), "{}", first(&large));
}

#[test]
fn nothing_is_within_where_the_table_cannot_be_read() {
    let files = in_csv(&CSV.replace("EL 51.20 m", "EL"), "path.csv");
    let checked = fresh(&files);
    assert!(!errors(&checked).is_empty());
    assert_ne!(found(&files), found(&clean()));
}

/// What is kept and what is read anew say the same.
fn agree(kept: &mut Workspace, files: &Arc<InMemory>) {
    assert_eq!(check(&kept.snapshot()), fresh(files));
}

#[test]
fn a_changed_csv_is_checked_again() {
    let files = in_csv(CSV, "path.csv");
    let mut kept = workspace(&files);
    check(&kept.snapshot());
    for text in [
        CSV.replace("1.80 m", "20.0 m"),
        CSV.replace("on stool", "on stol"),
        String::new(),
        CSV.to_owned(),
    ] {
        files.put(at("path.csv"), text.as_bytes());
        kept.disk_changed(&at("path.csv"));
        agree(&mut kept, &files);
    }
    files.remove(at("path.csv"));
    kept.disk_changed(&at("path.csv"));
    agree(&mut kept, &files);
    files.put(at("path.csv"), CSV.as_bytes());
    kept.disk_changed(&at("path.csv"));
    agree(&mut kept, &files);
    assert_eq!(found(&files), found(&clean()));
}

#[test]
fn a_changed_let_changes_the_verdict_and_is_seen_in_its_own_file_only() {
    let mass = "  mass       14.0 t +/- 5 %           from drawing";
    let files = changed(&[(mass, "  mass       2 * half")]);
    let job = String::from_utf8(
        plumbhook_workspace::Files::read(&*files, &at("cover.pick"))
            .unwrap()
            .into(),
    )
    .unwrap();
    let with = |half: &str| format!("{job}\nlet half = {half}\n");
    let mut kept = workspace(&files);
    let mut said = Vec::new();
    for half in [
        "7.0 t +/- 5 % from drawing",
        "70 t +/- 5 %",
        "unknown",
        "half",
    ] {
        files.put(at("cover.pick"), with(half).as_bytes());
        kept.disk_changed(&at("cover.pick"));
        agree(&mut kept, &files);
        said.push(errors(&check(&kept.snapshot())));
    }
    assert_eq!(said[0], errors(&fresh(&clean())));
    assert!(said[1].len() > said[0].len(), "{said:?}");
    assert!(said[2].len() > said[0].len(), "{said:?}");

    // The same name in the yard is not this file's.
    files.put(at("cover.pick"), job.as_bytes());
    let yard = plumbhook_workspace::Files::read(&*files, &at("yard.pick")).unwrap();
    files.put(
        at("yard.pick"),
        format!("{yard}\nlet half = 7 t\n").as_bytes(),
    );
    assert!(
        told_in(&files)
            .iter()
            .any(|said| said
                .starts_with("`half` is no quantity, and no `let` of this file names it"))
    );
}
