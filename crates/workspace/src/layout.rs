//! Which files there are and which root file each belongs to: the nearest one above it.

use crate::config::{Config, ConfigFault};
use crate::files::{EXTENSION, ROOT_FILE, Unreadable};
use crate::paths::{clean, shown};
use crate::texts::Texts;
use plumbhook_syntax::Document;
use rustc_hash::FxHashMap;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A root file and the folders that it gives to the jobs under it.
#[derive(Debug)]
pub(crate) struct Root {
    /// The folder that it stands in.
    pub(crate) folder: PathBuf,
    pub(crate) path: PathBuf,
    pub(crate) shown: Arc<str>,
    /// Its text; `None` where it could not be read.
    pub(crate) document: Option<Arc<Document>>,
    /// What it says, or everything that is wrong in it.
    pub(crate) config: Result<Config, Vec<ConfigFault>>,
}

/// A file that the workspace knows of.
#[derive(Clone, Debug)]
pub(crate) struct Known {
    pub(crate) shown: Arc<str>,
    /// Which of the layout's roots it belongs to; `None` where no root file stands above it.
    pub(crate) root: Option<usize>,
    /// Whether it lies under a folder that was asked for.
    pub(crate) asked: bool,
    /// Whether it was open then.
    pub(crate) open: bool,
}

/// What a root gives: files that may hold yards and plants. Which do is known when they are read.
#[derive(Clone, Debug, Default)]
pub(crate) struct Given {
    pub(crate) yard: Vec<Arc<Path>>,
    pub(crate) plants: Vec<Arc<Path>>,
}

/// Every file and every root file, as last looked up.
#[derive(Debug, Default)]
pub(crate) struct Layout {
    pub(crate) files: BTreeMap<Arc<Path>, Known>,
    pub(crate) roots: Vec<Arc<Root>>,
    /// What each root gives, in the order of `roots`.
    pub(crate) given: Vec<Given>,
    pub(crate) by_shown: FxHashMap<Arc<str>, Arc<Path>>,
    /// What could not be looked into.
    pub(crate) failed: Vec<(PathBuf, Unreadable)>,
}

impl Layout {
    /// Looks everything up: what lies under `folders`, what is open, the root files above all that, and what lies
    /// under those and under the folders that they name.
    pub(crate) fn look_up(texts: &mut Texts, base: &Path, folders: &[PathBuf]) -> Self {
        let mut search = Search {
            texts,
            base,
            layout: Self::default(),
            nearest: FxHashMap::default(),
            listed: BTreeSet::new(),
        };
        for folder in folders {
            search.list(folder, true);
        }
        let open: Vec<PathBuf> = search.texts.all_open().cloned().collect();
        for path in open.iter().filter(|path| is_pick(path)) {
            search.know(path, false);
            if let Some(known) = search.layout.files.get_mut(&**path) {
                known.open = true;
            }
        }
        search.load_roots();
        search.give();
        search.layout
    }
}

pub(crate) fn is_pick(path: &Path) -> bool {
    path.extension().is_some_and(|found| found == EXTENSION)
}

struct Search<'t> {
    texts: &'t mut Texts,
    base: &'t Path,
    layout: Layout,
    /// The nearest folder with a root file, for every folder that was asked about.
    nearest: FxHashMap<PathBuf, Option<usize>>,
    listed: BTreeSet<PathBuf>,
}

impl Search<'_> {
    fn list(&mut self, folder: &Path, asked: bool) {
        if !self.listed.insert(folder.to_owned()) {
            return;
        }
        let listing = self.texts.files.list(folder);
        for file in &listing.files {
            self.know(file, asked);
        }
        self.layout.failed.extend(listing.failed);
    }

    fn know(&mut self, path: &Path, asked: bool) {
        if let Some(known) = self.layout.files.get_mut(path) {
            known.asked |= asked;
            return;
        }
        if path.to_str().is_none() {
            let why = Unreadable {
                why: "its name is not UTF-8, so no place in it could be named".into(),
                mend: "give it another name".into(),
            };
            self.layout.failed.push((path.to_owned(), why));
            return;
        }
        let root = path.parent().and_then(|folder| self.root_above(folder));
        let path: Arc<Path> = path.into();
        let shown: Arc<str> = shown(&path, self.base).into();
        self.layout
            .by_shown
            .insert(Arc::clone(&shown), Arc::clone(&path));
        let known = Known {
            shown,
            root,
            asked,
            open: false,
        };
        self.layout.files.insert(path, known);
    }

    /// The nearest root file at or above a folder.
    fn root_above(&mut self, folder: &Path) -> Option<usize> {
        if let Some(found) = self.nearest.get(folder) {
            return *found;
        }
        let found = if self.texts.exists(&folder.join(ROOT_FILE)) {
            Some(self.root(folder))
        } else {
            folder.parent().and_then(|above| self.root_above(above))
        };
        self.nearest.insert(folder.to_owned(), found);
        found
    }

    fn root(&mut self, folder: &Path) -> usize {
        let path = folder.join(ROOT_FILE);
        let (document, config) = match self.texts.get(&path) {
            Ok(document) => {
                let config = Config::read(&shown(&path, self.base).into(), document.text());
                (Some(document), config)
            }
            Err(unreadable) => (
                None,
                Err(vec![ConfigFault {
                    say: format!("it could not be read: {}", unreadable.why),
                    mend: unreadable.mend,
                    at: 0..0,
                }]),
            ),
        };
        let config = config.and_then(|config| self.folders_exist(folder, config));
        self.layout.roots.push(Arc::new(Root {
            folder: folder.to_owned(),
            shown: shown(&path, self.base).into(),
            path,
            document,
            config,
        }));
        self.layout.roots.len() - 1
    }

    fn folders_exist(&self, folder: &Path, config: Config) -> Result<Config, Vec<ConfigFault>> {
        let named = config.yard.iter().chain(&config.plants);
        let missing: Vec<_> = named
            .filter(|(name, _)| !self.texts.files.exists(&clean(&folder.join(name))))
            .map(|(name, at)| ConfigFault {
                say: format!("there is no folder `{name}` beside this file"),
                mend: "make it, or name one that is there".into(),
                at: at.clone(),
            })
            .collect();
        if missing.is_empty() {
            Ok(config)
        } else {
            Err(missing)
        }
    }

    /// Looks under every root and every folder that it names. That may bring further roots.
    fn load_roots(&mut self) {
        let mut next = 0;
        while let Some(root) = self.layout.roots.get(next).map(Arc::clone) {
            next += 1;
            self.list(&root.folder, false);
            let Ok(config) = &root.config else { continue };
            for (name, _) in config.yard.iter().chain(&config.plants) {
                let folder = clean(&root.folder.join(name));
                self.list(&folder, false);
                // A named folder may stand under a root of its own that holds no file that was met yet.
                self.root_above(&folder);
            }
        }
    }

    /// What each root gives. A root file below a named folder keeps its own files to itself.
    fn give(&mut self) {
        for root in self.layout.roots.clone() {
            let mut given = Given::default();
            if let Ok(config) = &root.config {
                given.yard = self.under(&root, &config.yard);
                given.plants = self.under(&root, &config.plants);
            }
            self.layout.given.push(given);
        }
    }

    fn under<T>(&mut self, root: &Root, folders: &[(String, T)]) -> Vec<Arc<Path>> {
        let mut found = BTreeSet::new();
        for (name, _) in folders {
            let folder = clean(&root.folder.join(name));
            let home = self.root_above(&folder);
            let from: Arc<Path> = folder.as_path().into();
            let below = self.layout.files.range(from..);
            found.extend(
                below
                    .take_while(|(path, _)| path.starts_with(&folder))
                    .filter(|(_, known)| known.root == home)
                    .map(|(path, _)| Arc::clone(path)),
            );
        }
        found.into_iter().collect()
    }
}
