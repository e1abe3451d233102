//! Texts beside the files: the `.csv` that a line names. They are looked for next to the file that names them, and
//! never outside the folder of its root file.

use crate::Files;
use crate::layout::Layout;
use crate::paths::{clean, shown};
use crate::source::SourceFile;
use crate::texts::Texts;
use plumbhook_model::{Beside, wanted_texts};
use plumbhook_syntax::Document;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What belongs to a name: its path, where it may be read, and what was found there.
#[derive(Clone, Debug)]
pub(crate) struct Found {
    pub(crate) name: Box<str>,
    pub(crate) path: PathBuf,
    pub(crate) beside: Beside,
}

/// Every text that a document names.
pub(crate) fn look_up(
    texts: &mut Texts,
    layout: &Layout,
    base: &Path,
    path: &Path,
    document: &Document,
) -> Vec<Found> {
    if memchr::memmem::find(document.text().as_bytes(), b".csv").is_none() {
        return vec![];
    }
    let folder = path.parent().unwrap_or(path);
    let root = layout.files.get(path).and_then(|known| known.root);
    let root = root.and_then(|root| layout.roots.get(root));
    let within = root.map_or(folder, |root| &root.folder);
    let blocks = (0..document.blocks().len()).map(|at| document.block_text(at));
    let names: BTreeSet<Box<str>> = blocks
        .filter(|block| block.contains(".csv"))
        .flat_map(wanted_texts)
        .collect();
    let find = |name: Box<str>| {
        let path = clean(&folder.join(&*name));
        let text = match outside(&*texts.files, &path, within) {
            None => texts.get(&path).map_err(|why| (why.why, why.mend)),
            Some(why) => Err((
                why.to_owned(),
                "put it beside the file that names it".to_owned(),
            )),
        };
        Found {
            beside: Beside {
                shown: shown(&path, base).into(),
                text,
            },
            name,
            path,
        }
    };
    names.into_iter().map(find).collect()
}

/// Whether a path leads out of a folder, by its text or by a link: what is not in the repository is not what others
/// check.
fn outside(files: &dyn Files, path: &Path, folder: &Path) -> Option<&'static str> {
    if !path.starts_with(folder) {
        return Some("it lies outside the folder of the root file");
    }
    let (real, folder) = (files.real(path)?, files.real(folder)?);
    (!real.starts_with(folder))
        .then_some("it is a link that leads outside the folder of the root file")
}

/// The texts of all files, and who names them.
#[derive(Debug, Default)]
pub(crate) struct AllBeside {
    /// Path and text, by the name as shown.
    pub(crate) by_shown: BTreeMap<Arc<str>, (PathBuf, Arc<Document>)>,
    /// The files that name a path, whether something is there or not.
    users: BTreeMap<PathBuf, BTreeSet<PathBuf>>,
}

impl AllBeside {
    pub(crate) fn of<'f>(files: impl Iterator<Item = &'f Arc<SourceFile>>) -> Self {
        let mut all = Self::default();
        for file in files {
            for found in &file.beside {
                let users = all.users.entry(found.path.clone()).or_default();
                users.insert(file.path.to_path_buf());
                if let Ok(document) = &found.beside.text {
                    let there = (found.path.clone(), Arc::clone(document));
                    all.by_shown.insert(Arc::clone(&found.beside.shown), there);
                }
            }
        }
        all
    }

    /// The files that name this path.
    pub(crate) fn users(&self, path: &Path) -> impl Iterator<Item = &PathBuf> {
        self.users.get(path).into_iter().flatten()
    }

    pub(crate) fn is_named(&self, path: &Path) -> bool {
        self.users.contains_key(path)
    }
}
