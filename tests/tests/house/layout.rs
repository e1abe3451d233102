//! Where things lie.

use crate::repository::{files, is_rust, text, top};
use std::collections::BTreeSet;
use std::process::Command;

/// What the top of the repository holds, apart from files whose names start with a dot.
const TOP: [&str; 10] = [
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "README.md",
    "crates",
    "editors",
    "examples",
    "tests",
];

/// A file does one thing; beyond this it most likely does two.
const LONGEST_FILE: usize = 450;

#[test]
fn the_top_of_the_repository_stays_small() {
    let held: BTreeSet<String> = files()
        .iter()
        .filter_map(|file| file.split('/').next())
        .filter(|name| !name.starts_with('.'))
        .map(str::to_owned)
        .collect();
    let wanted: BTreeSet<String> = TOP.into_iter().map(str::to_owned).collect();
    let extra: Vec<_> = held.difference(&wanted).collect();
    let gone: Vec<_> = wanted.difference(&held).collect();
    assert!(
        extra.is_empty() && gone.is_empty(),
        "at the top, not wanted: {extra:?}, missing: {gone:?}"
    );
}

#[test]
fn both_licences_are_there_whole() {
    for (file, words) in [
        (
            "LICENSE-MIT",
            "Permission is hereby granted, free of charge",
        ),
        ("LICENSE-APACHE", "Version 2.0, January 2004"),
    ] {
        assert!(text(file).contains(words), "{file} does not hold its text");
    }
}

#[test]
fn a_source_file_does_one_thing() {
    let long: Vec<_> = files()
        .into_iter()
        .filter(|file| file.starts_with("crates/") && file.contains("/src/"))
        .filter(|file| is_rust(file))
        .map(|file| (text(&file).lines().count(), file))
        .filter(|(lines, _)| *lines > LONGEST_FILE)
        .collect();
    assert!(long.is_empty(), "too long, split them: {long:?}");
}

#[test]
fn every_file_of_a_list_is_in_it() {
    for folder in ["crates/model/src/entries/", "crates/checks/src/rules/"] {
        let list = text(&format!("{folder}mod.rs"));
        for file in files() {
            let Some(name) = file.strip_prefix(folder) else {
                continue;
            };
            let stem = name.split(['/', '.']).next().unwrap_or(name);
            let named = list.lines().any(|line| {
                let line = line.trim();
                line == format!("mod {stem};")
                    || line == format!("{stem},")
                    || line.starts_with(&format!("{stem}::"))
            });
            assert!(
                stem == "mod" || named,
                "{file} is in no line of {folder}mod.rs: it would never be built"
            );
        }
    }
}

#[test]
fn every_rust_file_is_formatted() {
    let rust: Vec<String> = files().into_iter().filter(|file| is_rust(file)).collect();
    let said = Command::new("rustfmt")
        .args(["--check", "--files-with-diff", "--edition", "2024"])
        .args(&rust)
        .current_dir(top())
        .output()
        .expect("rustfmt comes with the toolchain");
    assert!(
        said.status.success(),
        "run `rustfmt --edition 2024 $(git ls-files '*.rs')`; `cargo fmt` does not see modules that a macro \
         declares:\n{}{}",
        String::from_utf8_lossy(&said.stdout),
        String::from_utf8_lossy(&said.stderr)
    );
}

#[test]
fn nothing_tracked_names_a_path_of_one_machine() {
    // Put together here, so that this file does not find itself.
    let marks: Vec<String> = ["home", "Users", "root", "work", "tmp"]
        .iter()
        .map(|folder| format!("/{folder}/"))
        .chain([format!("{}:\\Users", 'C')])
        .collect();
    let mut found = Vec::new();
    for file in files() {
        for (number, line) in text(&file).lines().enumerate() {
            let starts_a_path = |mark: &String| {
                line.match_indices(mark.as_str()).any(|(at, _)| {
                    let before = line.get(..at).and_then(|before| before.chars().next_back());
                    before.is_none_or(|c| !c.is_alphanumeric() && !"._-~})".contains(c))
                })
            };
            if let Some(mark) = marks.iter().find(|mark| starts_a_path(mark)) {
                found.push(format!("{file}:{}: `{mark}`", number + 1));
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}
