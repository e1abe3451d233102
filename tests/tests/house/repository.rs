//! The repository as it is tracked: names and texts of its files.

use std::path::{Path, PathBuf};
use std::process::Command;

/// The top of the repository.
pub(crate) fn top() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().expect("tests/ lies in the repository").into()
}

/// Every file that git tracks or would track, by its path from the top.
pub(crate) fn files() -> Vec<String> {
    let listed = Command::new("git")
        .args([
            "ls-files",
            "--cached",
            "--others",
            "--exclude-standard",
            "-z",
        ])
        .current_dir(top())
        .output()
        .expect("these tests ask git which files belong to the repository");
    assert!(listed.status.success(), "git ls-files failed");
    let names = String::from_utf8(listed.stdout).expect("file names are UTF-8");
    let mut files: Vec<String> = names
        .split('\0')
        .filter(|name| !name.is_empty() && top().join(name).is_file())
        .map(str::to_owned)
        .collect();
    files.sort();
    files.dedup();
    assert!(
        files.len() > 100,
        "only {} files: is this the repository?",
        files.len()
    );
    files
}

/// Whether a file is Rust.
pub(crate) fn is_rust(file: &str) -> bool {
    Path::new(file).extension().is_some_and(|is| is == "rs")
}

/// The text of a file.
pub(crate) fn text(file: &str) -> String {
    let bytes = std::fs::read(top().join(file)).unwrap_or_else(|why| panic!("{file}: {why}"));
    String::from_utf8_lossy(&bytes).into_owned()
}

/// The sources of the crates named, in `src` only, as (path, text).
pub(crate) fn sources(of: impl Fn(&str) -> bool) -> Vec<(String, String)> {
    let found: Vec<_> = files()
        .into_iter()
        .filter(|file| is_rust(file))
        .filter(|file| {
            let mut parts = file.split('/');
            parts.next() == Some("crates")
                && parts.next().is_some_and(&of)
                && parts.next() == Some("src")
        })
        .map(|file| {
            let text = text(&file);
            (file, text)
        })
        .collect();
    assert!(!found.is_empty(), "no source of these crates was found");
    found
}

/// Every manifest of a member of the workspace: its folder from the top, and what it says.
pub(crate) fn manifests() -> Vec<(String, toml::Table)> {
    files()
        .into_iter()
        .filter(|file| {
            file == "tests/Cargo.toml"
                || (file.starts_with("crates/") && file.ends_with("/Cargo.toml"))
        })
        .map(|file| {
            let said: toml::Table = text(&file)
                .parse()
                .unwrap_or_else(|why| panic!("{file}: {why}"));
            (file.trim_end_matches("/Cargo.toml").to_owned(), said)
        })
        .collect()
}

/// The root manifest.
pub(crate) fn root_manifest() -> toml::Table {
    text("Cargo.toml")
        .parse()
        .expect("the root manifest is TOML")
}
