//! Where texts come from: one trait, the disk behind it, and a twin in memory for tests.

use ignore::gitignore::Gitignore;
use ignore::{DirEntry, Match, WalkBuilder};
use plumbhook_model::LARGEST_CSV;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// Name of the root file.
pub const ROOT_FILE: &str = "plumbhook.toml";

/// Extension of the files that are checked.
pub const EXTENSION: &str = "pick";

/// Why a file could not be read, in words that follow its name and "could not be read".
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unreadable {
    /// What is wrong.
    pub why: String,
    /// What would mend it; empty where nothing is known.
    pub mend: String,
}

impl Unreadable {
    fn no_such() -> Self {
        Self {
            why: "there is no such file or folder".into(),
            mend: String::new(),
        }
    }
}

/// What lies under a folder.
#[derive(Clone, Debug, Default)]
pub struct Listing {
    /// Every `.pick` file, in the order of paths. Hidden and ignored ones are left out.
    pub files: Vec<PathBuf>,
    /// What could not be looked into, with why.
    pub failed: Vec<(PathBuf, Unreadable)>,
}

/// Where texts come from. Nothing else in this crate reads a disk.
pub trait Files: Send + Sync {
    /// The whole text of a file, byte order mark included.
    ///
    /// # Errors
    /// If the file is not there, cannot be read, or is not UTF-8.
    fn read(&self, path: &Path) -> Result<String, Unreadable>;

    /// Every `.pick` file under a folder; the file itself where the path is one, hidden or not.
    fn list(&self, path: &Path) -> Listing;

    /// Every `.pick` file under a folder that [`Files::list`] leaves out, with why.
    fn ignored(&self, path: &Path) -> Vec<(PathBuf, String)>;

    /// Whether a file or folder is there.
    fn exists(&self, path: &Path) -> bool;

    /// Where a file really lies, links followed; `None` where nothing is there.
    fn real(&self, path: &Path) -> Option<PathBuf>;
}

fn is_pick(path: &Path) -> bool {
    path.extension().is_some_and(|found| found == EXTENSION)
}

fn as_text(bytes: Vec<u8>) -> Result<String, Unreadable> {
    String::from_utf8(bytes).map_err(|error| Unreadable {
        why: format!(
            "it is not UTF-8 text: byte {} belongs to no character",
            error.utf8_error().valid_up_to()
        ),
        mend: "save it as UTF-8".into(),
    })
}

/// The disk.
#[derive(Clone, Copy, Debug, Default)]
pub struct Disk;

impl Files for Disk {
    fn read(&self, path: &Path) -> Result<String, Unreadable> {
        let is_csv = path.extension().is_some_and(|found| found == "csv");
        if let Ok(about) = std::fs::metadata(path) {
            // A pipe would never end, and a large table would fill the memory before anybody could refuse it.
            if !about.is_file() {
                return Err(Unreadable {
                    why: "it is no plain file".into(),
                    mend: String::new(),
                });
            }
            if is_csv && about.len() > LARGEST_CSV as u64 {
                return Err(Unreadable {
                    why: format!("it is larger than {LARGEST_CSV} bytes"),
                    mend: "split it".into(),
                });
            }
        }
        let bytes = std::fs::read(path).map_err(|error| match error.kind() {
            std::io::ErrorKind::NotFound => Unreadable::no_such(),
            _ => Unreadable {
                why: error.to_string(),
                mend: String::new(),
            },
        })?;
        as_text(bytes)
    }

    fn list(&self, path: &Path) -> Listing {
        let mut listing = Listing::default();
        if !path.exists() {
            listing
                .failed
                .push((path.to_owned(), Unreadable::no_such()));
            return listing;
        }
        // The rules that travel with the folder count, in a repository or not; those of one machine alone
        // do not, or two machines would check different jobs.
        let walk = WalkBuilder::new(path)
            .require_git(false)
            .git_global(false)
            .git_exclude(false)
            .build();
        for found in walk {
            match found {
                Ok(entry) => {
                    let file = entry.file_type().is_some_and(|kind| !kind.is_dir());
                    if file && is_pick(entry.path()) {
                        listing.files.push(entry.into_path());
                    }
                }
                Err(error) => listing.failed.push((
                    path.to_owned(),
                    Unreadable {
                        why: error.to_string(),
                        mend: String::new(),
                    },
                )),
            }
        }
        listing.files.sort_unstable();
        listing
    }

    fn ignored(&self, path: &Path) -> Vec<(PathBuf, String)> {
        let listed: BTreeSet<PathBuf> = self.list(path).files.into_iter().collect();
        let walk = WalkBuilder::new(path)
            .standard_filters(false)
            .filter_entry(|entry| entry.file_name() != ".git")
            .build();
        let mut ignored: Vec<_> = walk
            .filter_map(Result::ok)
            .filter(|entry| entry.file_type().is_some_and(|kind| !kind.is_dir()))
            .map(DirEntry::into_path)
            .filter(|file| is_pick(file) && !listed.contains(file))
            .map(|file| {
                let why = why_ignored(&file, path);
                (file, why)
            })
            .collect();
        ignored.sort_unstable();
        ignored
    }

    fn exists(&self, path: &Path) -> bool {
        path.exists()
    }

    fn real(&self, path: &Path) -> Option<PathBuf> {
        path.canonicalize().ok()
    }
}

/// The pattern that a file, or a folder that it lies in, falls under.
fn why_ignored(file: &Path, top: &Path) -> String {
    if is_hidden(file, top) {
        return "its name, or that of a folder of it, starts with a dot".into();
    }
    for folder in file.ancestors().skip(1) {
        for name in [".ignore", ".gitignore"] {
            let rules = folder.join(name);
            if !rules.is_file() {
                continue;
            }
            // A line that is no pattern ignores nothing.
            let (rules, _) = Gitignore::new(&rules);
            if let Match::Ignore(pattern) = rules.matched_path_or_any_parents(file, false) {
                let from = pattern.from().unwrap_or(folder);
                return format!("`{}` in {}", pattern.original(), from.display());
            }
        }
    }
    "a list of what to ignore names it".into()
}

fn is_hidden(file: &Path, top: &Path) -> bool {
    file.strip_prefix(top).is_ok_and(|inner| {
        inner
            .iter()
            .any(|part| part.to_string_lossy().starts_with('.'))
    })
}

/// Files in memory. Nothing is ignored in it, but names that start with a dot are hidden.
#[derive(Debug, Default)]
pub struct InMemory(Mutex<BTreeMap<PathBuf, Vec<u8>>>);

impl InMemory {
    /// With these files.
    pub fn new<'a>(files: impl IntoIterator<Item = (&'a str, &'a str)>) -> Self {
        let it = Self::default();
        for (path, text) in files {
            it.put(path, text.as_bytes());
        }
        it
    }

    fn all(&self) -> MutexGuard<'_, BTreeMap<PathBuf, Vec<u8>>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Writes a file.
    pub fn put(&self, path: impl Into<PathBuf>, bytes: &[u8]) {
        self.all().insert(path.into(), bytes.to_vec());
    }

    /// Deletes a file.
    pub fn remove(&self, path: impl AsRef<Path>) {
        self.all().remove(path.as_ref());
    }
}

impl Files for InMemory {
    fn read(&self, path: &Path) -> Result<String, Unreadable> {
        let bytes = self.all().get(path).cloned();
        as_text(bytes.ok_or_else(Unreadable::no_such)?)
    }

    fn list(&self, path: &Path) -> Listing {
        let mut listing = Listing::default();
        if !self.exists(path) {
            listing
                .failed
                .push((path.to_owned(), Unreadable::no_such()));
            return listing;
        }
        let all = self.all();
        let under = all.keys().filter(|file| file.starts_with(path));
        listing.files = under
            .filter(|file| is_pick(file) && !is_hidden(file, path))
            .cloned()
            .collect();
        listing
    }

    fn ignored(&self, path: &Path) -> Vec<(PathBuf, String)> {
        let all = self.all();
        let under = all.keys().filter(|file| file.starts_with(path));
        under
            .filter(|file| is_pick(file) && is_hidden(file, path))
            .map(|file| (file.clone(), "it is hidden".to_owned()))
            .collect()
    }

    fn exists(&self, path: &Path) -> bool {
        self.all().keys().any(|file| file.starts_with(path))
    }

    fn real(&self, path: &Path) -> Option<PathBuf> {
        self.exists(path).then(|| path.to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_disk_lists_what_is_neither_hidden_nor_ignored() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        for name in ["b.pick", "a.pick", ".hidden.pick", "old.pick", "notes.txt"] {
            std::fs::write(at(name), "job a\n").unwrap();
        }
        std::fs::create_dir(at("jobs")).unwrap();
        std::fs::write(at("jobs/c.pick"), "job c\n").unwrap();
        std::fs::write(at(".gitignore"), "old.pick\n").unwrap();
        let listing = Disk.list(folder.path());
        assert_eq!(
            listing.files,
            [at("a.pick"), at("b.pick"), at("jobs/c.pick")]
        );
        assert!(listing.failed.is_empty());
        let ignored = Disk.ignored(folder.path());
        let names: Vec<_> = ignored.iter().map(|(path, _)| path.clone()).collect();
        assert_eq!(names, [at(".hidden.pick"), at("old.pick")]);
        assert!(ignored[0].1.contains("starts with a dot"), "{ignored:?}");
        assert!(ignored[1].1.contains("`old.pick` in "), "{ignored:?}");
        assert_eq!(Disk.list(&at("old.pick")).files, [at("old.pick")]);
        assert_eq!(Disk.list(&at("none")).failed.len(), 1);
    }

    #[test]
    fn bytes_that_are_no_text_are_refused_with_their_place() {
        let files = InMemory::default();
        files.put("/a.pick", b"job \xFFx\n");
        let why = files.read(Path::new("/a.pick")).unwrap_err().why;
        assert!(why.contains("byte 4"), "{why}");
    }
}
