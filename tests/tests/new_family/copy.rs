//! The repository with the family and the rows in it: a copy, patched and built once a run.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::LazyLock;
use tempfile::TempDir;

/// The family.
pub(crate) const PATCH: &str = include_str!("../../new_family/family.patch");

/// A row each: a unit, a key, a published value.
pub(crate) const ROWS: &str = include_str!("../../new_family/rows.patch");

/// The program with the family and the rows in it.
pub(crate) fn binary() -> &'static Path {
    static BUILT: LazyLock<PathBuf> = LazyLock::new(|| {
        let built = cargo(&["build", "--package", "plumbhook"]);
        done("the copy does not build", &built);
        let name = format!("plumbhook{}", std::env::consts::EXE_SUFFIX);
        home().join("target/debug").join(name)
    });
    &BUILT
}

/// Runs a command of cargo in the copy.
pub(crate) fn cargo(command: &[&str]) -> Output {
    static COPIED: LazyLock<PathBuf> = LazyLock::new(copied);
    Command::new(env!("CARGO"))
        .args(command)
        .args(["--offline", "--locked"])
        .current_dir(&*COPIED)
        .env("CARGO_TARGET_DIR", home().join("target"))
        .output()
        .expect("cargo")
}

fn top() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().expect("tests/ lies in the repository").into()
}

pub(crate) fn done(what: &str, output: &Output) {
    assert!(
        output.status.success(),
        "{what}:\n{}{}",
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr)
    );
}

/// Files of the repository that the program is built from.
fn tracked() -> Vec<String> {
    let listed = Command::new("git")
        .args(["ls-files", "-z", "--cached", "--others"])
        .args(["--exclude-standard", "--", "Cargo.*", "crates", "tests"])
        .current_dir(top())
        .output()
        .expect("git");
    done("git ls-files", &listed);
    String::from_utf8_lossy(&listed.stdout)
        .split('\0')
        .filter(|file| !file.is_empty() && top().join(file).is_file())
        .map(str::to_owned)
        .collect()
}

/// A fresh copy with both patches applied, outside the repository: inside, git would look for its files there.
fn patched() -> TempDir {
    let fresh = TempDir::new().expect("a folder");
    for file in tracked() {
        put(&top().join(&file), &fresh.path().join(&file));
    }
    let patches =
        ["family.patch", "rows.patch"].map(|name| top().join("tests/new_family").join(name));
    let applied = Command::new("git")
        .args(["apply", "--unidiff-zero"])
        .args(patches)
        .current_dir(fresh.path())
        .env("GIT_CEILING_DIRECTORIES", fresh.path())
        .output()
        .expect("git");
    done("git apply", &applied);
    fresh
}

/// Copies a file where it differs, so that what did not change is not built again.
fn put(from: &Path, to: &Path) {
    let bytes = std::fs::read(from).unwrap_or_else(|why| panic!("{}: {why}", from.display()));
    if std::fs::read(to).is_ok_and(|old| old == bytes) {
        return;
    }
    let folder = to.parent().expect("a folder above a file");
    std::fs::create_dir_all(folder).expect("a folder");
    std::fs::write(to, bytes).expect("a file");
}

fn files_under(folder: &Path) -> BTreeSet<PathBuf> {
    let mut found = BTreeSet::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for entry in std::fs::read_dir(&next).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
            } else if let Ok(inner) = path.strip_prefix(folder) {
                found.insert(inner.to_owned());
            }
        }
    }
    found
}

/// The folder that stays from run to run, beside what is built from it.
fn home() -> PathBuf {
    let target = Path::new(env!("CARGO_TARGET_TMPDIR")).parent();
    target.expect("the target folder").join("new_family")
}

/// The patched copy in its lasting place.
fn copied() -> PathBuf {
    let place = home().join("repository");
    let fresh = patched();
    let wanted = files_under(fresh.path());
    for gone in files_under(&place).difference(&wanted) {
        std::fs::remove_file(place.join(gone)).expect("a file of an older copy");
    }
    for file in &wanted {
        put(&fresh.path().join(file), &place.join(file));
    }
    place
}
