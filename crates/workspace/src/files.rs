//! Where texts come from: one trait, the disk behind it, and a twin in memory for tests.

use ignore::WalkBuilder;
use plumbhook_model::LARGEST_CSV;
use std::collections::BTreeMap;
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

    /// Whether a file or folder is there.
    fn exists(&self, path: &Path) -> bool;
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
        let about = std::fs::metadata(path).ok();
        // A pipe would never end, and a large file would fill the memory before anybody could refuse it.
        if is_csv && about.is_some_and(|about| !about.is_file() || about.len() > LARGEST_CSV as u64)
        {
            return Err(Unreadable {
                why: format!("it is no plain file of {LARGEST_CSV} bytes at most"),
                mend: "split it".into(),
            });
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

    fn exists(&self, path: &Path) -> bool {
        path.exists()
    }
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
        let hidden = |file: &Path| {
            file.strip_prefix(path).is_ok_and(|inner| {
                inner
                    .iter()
                    .any(|part| part.to_string_lossy().starts_with('.'))
            })
        };
        let all = self.all();
        let under = all.keys().filter(|file| file.starts_with(path));
        listing.files = under
            .filter(|file| is_pick(file) && !hidden(file))
            .cloned()
            .collect();
        listing
    }

    fn exists(&self, path: &Path) -> bool {
        self.all().keys().any(|file| file.starts_with(path))
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
