//! Every text by its path: an open buffer beats the disk, and a file is read once until told changed.

use crate::{Files, Unreadable};
use plumbhook_syntax::Document;
use rayon::prelude::*;
use rustc_hash::FxHashMap;
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A text, or why there is none.
pub(crate) type Text = Result<Arc<Document>, Unreadable>;

pub(crate) struct Texts {
    pub(crate) files: Arc<dyn Files>,
    open: BTreeMap<PathBuf, Arc<Document>>,
    disk: FxHashMap<PathBuf, Text>,
}

impl Texts {
    pub(crate) fn new(files: Arc<dyn Files>) -> Self {
        Self {
            files,
            open: BTreeMap::new(),
            disk: FxHashMap::default(),
        }
    }

    pub(crate) fn open(&mut self, path: &Path, text: &str) {
        self.open
            .insert(path.to_owned(), Arc::new(Document::new(text)));
    }

    pub(crate) fn opened(&self, path: &Path) -> Option<&Arc<Document>> {
        self.open.get(path)
    }

    pub(crate) fn all_open(&self) -> impl Iterator<Item = &PathBuf> {
        self.open.keys()
    }

    pub(crate) fn edit(&mut self, path: &Path, bytes: Range<usize>, new: &str) {
        if let Some(document) = self.open.get_mut(path) {
            *document = Arc::new(document.edit(bytes, new));
        }
    }

    pub(crate) fn close(&mut self, path: &Path) {
        self.open.remove(path);
        self.forget(path);
    }

    /// The disk is asked again when the text is wanted next.
    pub(crate) fn forget(&mut self, path: &Path) {
        self.disk.remove(path);
    }

    /// Keeps the texts of these files only.
    pub(crate) fn keep(&mut self, wanted: impl Fn(&Path) -> bool) {
        self.disk.retain(|path, _| wanted(path));
    }

    pub(crate) fn exists(&self, path: &Path) -> bool {
        self.open.contains_key(path) || self.files.exists(path)
    }

    pub(crate) fn get(&mut self, path: &Path) -> Text {
        if let Some(open) = self.open.get(path) {
            return Ok(Arc::clone(open));
        }
        if let Some(text) = self.disk.get(path) {
            return text.clone();
        }
        let text = read(&*self.files, path);
        self.disk.insert(path.to_owned(), text.clone());
        text
    }

    /// Reads what is not there yet, many at a time.
    pub(crate) fn load(&mut self, paths: &[Arc<Path>]) {
        let missing: Vec<_> = paths
            .iter()
            .filter(|path| !self.open.contains_key(&***path) && !self.disk.contains_key(&***path))
            .collect();
        let files = &*self.files;
        let read: Vec<_> = missing
            .par_iter()
            .map(|path| (path.to_path_buf(), read(files, path)))
            .collect();
        self.disk.extend(read);
    }
}

fn read(files: &dyn Files, path: &Path) -> Text {
    files.read(path).map(|text| Arc::new(Document::new(&text)))
}
