//! The example jobs, as folders that a test may change.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// The folder of this repository.
pub fn repository() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_owned()
}

/// A fresh copy of `examples/`, gone when the value is.
///
/// # Panics
/// Where the copy cannot be made.
pub fn copy_of_examples() -> TempDir {
    let made = TempDir::new().and_then(|folder| {
        copy(&repository().join("examples"), folder.path())?;
        Ok(folder)
    });
    made.unwrap_or_else(|error| panic!("the examples cannot be copied: {error}"))
}

fn copy(from: &Path, to: &Path) -> io::Result<()> {
    fs::create_dir_all(to)?;
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            copy(&entry.path(), &target)?;
        } else {
            fs::copy(entry.path(), target)?;
        }
    }
    Ok(())
}
