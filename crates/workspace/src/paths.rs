//! Paths as text: made clean without asking the disk, and shown as a person would write them.

use std::path::{Component, Path, PathBuf};

/// Without `.` and `..`, as far as the text of the path tells.
pub(crate) fn clean(path: &Path) -> PathBuf {
    let mut out = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir if out.file_name().is_some() => {
                out.pop();
            }
            other => out.push(other),
        }
    }
    out
}

/// As a person in `base` would write it, with `/` between folders; as it is where nothing is shared.
pub(crate) fn shown(path: &Path, base: &Path) -> String {
    let shared = path
        .components()
        .zip(base.components())
        .take_while(|(a, b)| a == b)
        .count();
    // A root alone is nothing to share.
    let related = shared > 1 || base.components().count() <= 1 && path.starts_with(base);
    if !related {
        return with_slashes(path.components());
    }
    let ups = base.components().count() - shared;
    let up = std::iter::repeat_n(Component::ParentDir, ups);
    with_slashes(up.chain(path.components().skip(shared)))
}

fn with_slashes<'a>(parts: impl Iterator<Item = Component<'a>>) -> String {
    let mut out = String::new();
    for part in parts {
        if !(out.is_empty() || out.ends_with('/')) {
            out.push('/');
        }
        match part {
            Component::RootDir => out.push('/'),
            other => out.push_str(&other.as_os_str().to_string_lossy()),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_shown_as_one_would_write_it() {
        let see = |path: &str, base: &str| shown(Path::new(path), Path::new(base));
        assert_eq!(see("/site/jobs/a.pick", "/site"), "jobs/a.pick");
        assert_eq!(
            see("/site/yard/y.pick", "/site/jobs/x"),
            "../../yard/y.pick"
        );
        assert_eq!(see("/other/a.pick", "/site"), "/other/a.pick");
        assert_eq!(see("/a.pick", "/"), "a.pick");
        assert_eq!(see("a.pick", ""), "a.pick");
    }

    #[test]
    fn a_path_is_cleaned_by_its_text() {
        let see = |path: &str| clean(Path::new(path)).display().to_string();
        assert_eq!(see("/site/./jobs/../a.pick"), "/site/a.pick");
        assert_eq!(see("../a.pick"), "../a.pick");
    }
}
