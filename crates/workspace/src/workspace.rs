//! The one owner of texts. Everything else works on the snapshots that it gives.

use crate::beside::{self, AllBeside};
use crate::case::Check;
use crate::layout::{Layout, is_pick};
use crate::memo::Memo;
use crate::paths::{clean, shown};
use crate::snapshot::{Snapshot, State};
use crate::source::{FileKind, SourceFile};
use crate::texts::Texts;
use crate::view::RootView;
use crate::{Files, Unreadable};
use plumbhook_checks::{RULES, Rule};
use plumbhook_sheet::Stage;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A file as read, or why it could not be.
pub(crate) type Read = Result<Arc<SourceFile>, Unreadable>;

/// The one owner of texts, root files and kept results.
pub struct Workspace {
    texts: Texts,
    base: PathBuf,
    folders: Vec<PathBuf>,
    layout: Arc<Layout>,
    sources: Arc<BTreeMap<Arc<Path>, Read>>,
    views: Arc<Vec<Option<Arc<RootView>>>>,
    /// Whether files may have come or gone, or a root file may have changed.
    look_up: bool,
    /// The texts beside the files.
    beside: Arc<AllBeside>,
    /// Files whose text may have changed.
    stale: BTreeSet<PathBuf>,
    memo: Arc<Memo>,
    rules: Arc<[Check]>,
    only: Arc<[&'static str]>,
    stage: Option<Stage>,
    recheck: bool,
    newest: Option<Snapshot>,
}

impl Workspace {
    /// Knows nothing yet; texts come from `files`.
    ///
    /// With the environment variable `PLUMBHOOK_RECHECK=1` every kept result is computed again and compared.
    pub fn new(files: Arc<dyn Files>) -> Self {
        let rules = RULES.iter().map(|rule| (rule.code, rule.check));
        Self::with_rules(files, rules.collect())
    }

    pub(crate) fn with_rules(files: Arc<dyn Files>, rules: Arc<[Check]>) -> Self {
        Self {
            texts: Texts::new(files),
            base: PathBuf::new(),
            folders: Vec::new(),
            layout: Arc::default(),
            sources: Arc::default(),
            views: Arc::default(),
            beside: Arc::default(),
            look_up: true,
            stale: BTreeSet::new(),
            memo: Arc::default(),
            rules,
            only: Arc::default(),
            stage: None,
            recheck: std::env::var_os("PLUMBHOOK_RECHECK").is_some_and(|value| value == "1"),
            newest: None,
        }
    }

    /// The folder that the user stands in: relative paths start there, and paths are shown from there. Without it,
    /// paths are shown from the first of [`Workspace::folders`].
    #[must_use]
    pub fn seen_from(mut self, base: &Path) -> Self {
        self.base = clean(base);
        self
    }

    /// Runs these rules alone; every check says so ([`crate::Checked::only`]).
    #[must_use]
    pub fn only(mut self, rules: &[&'static Rule]) -> Self {
        self.only = rules.iter().map(|rule| rule.code).collect();
        self.rules = rules.iter().map(|rule| (rule.code, rule.check)).collect();
        self
    }

    /// Takes every job to have come to this stage at least; every check says so ([`crate::Checked::stage`]).
    #[must_use]
    pub fn at_stage(mut self, stage: Stage) -> Self {
        self.stage = Some(stage);
        self
    }

    /// Computes every kept result again and panics if it differs: for tests.
    #[must_use]
    pub fn rechecking(mut self) -> Self {
        self.recheck = true;
        self
    }

    fn absolute(&self, path: &Path) -> PathBuf {
        clean(&self.base.join(path))
    }

    fn shown_from(&self) -> &Path {
        if self.base.as_os_str().is_empty() {
            match self.folders.first() {
                Some(first) if is_pick(first) => first.parent().unwrap_or(first),
                Some(first) => first,
                None => &self.base,
            }
        } else {
            &self.base
        }
    }

    /// The folders, or single files, that [`crate::Targets::All`] means. Each file belongs to the nearest root file
    /// above it, wherever that is.
    pub fn folders(&mut self, folders: &[PathBuf]) {
        self.folders = folders.iter().map(|path| self.absolute(path)).collect();
        self.look_up = true;
        self.newest = None;
    }

    /// An editor holds this file now: its text counts, not the disk's, also where another file sees it.
    pub fn open(&mut self, path: &Path, text: &str) {
        let path = self.absolute(path);
        self.texts.open(&path, text);
        let met = self.layout.files.get(&*path);
        let new = !met.is_some_and(|known| known.asked || known.open);
        self.changed(&path, new);
    }

    /// The present text of an open file, without byte order mark.
    pub fn text(&self, path: &Path) -> Option<&str> {
        self.texts
            .opened(&self.absolute(path))
            .map(|document| document.text())
    }

    /// Replaces some bytes of the text of an open file; a range beyond it is cut to it.
    pub fn edit(&mut self, path: &Path, bytes: Range<usize>, new: &str) {
        let path = self.absolute(path);
        self.texts.edit(&path, bytes, new);
        self.changed(&path, false);
    }

    /// The editor let go of the file: the disk counts again.
    pub fn close(&mut self, path: &Path) {
        let path = self.absolute(path);
        self.texts.close(&path);
        let met = self.layout.files.get(&*path);
        let stays = met.is_some_and(|known| known.asked) && self.texts.exists(&path);
        self.changed(&path, !stays);
    }

    /// A file or a folder was made, changed or deleted outside the editor.
    pub fn disk_changed(&mut self, path: &Path) {
        let path = self.absolute(path);
        self.texts.forget(&path);
        let gone = !self.texts.exists(&path);
        self.changed(&path, gone);
    }

    fn changed(&mut self, path: &Path, came_or_went: bool) {
        self.newest = None;
        if self.beside.is_named(path) && !is_pick(path) {
            self.stale.extend(self.beside.users(path).cloned());
            return;
        }
        // A root file, a folder, or a list of what to ignore.
        self.look_up |= came_or_went || !is_pick(path) || !self.layout.files.contains_key(path);
        self.stale.insert(path.to_owned());
    }

    /// The present state, unchanged for ever. What changed is read; nothing is calculated yet.
    pub fn snapshot(&mut self) -> Snapshot {
        if let Some(newest) = &self.newest {
            return newest.clone();
        }
        let mut views_stale = self.look_up;
        if std::mem::take(&mut self.look_up) {
            self.look_everything_up();
        }
        views_stale |= self.read_stale();
        if views_stale {
            self.views = Arc::new(self.make_views());
        }
        let snapshot = Snapshot(Arc::new(State {
            base: self.base.clone(),
            layout: Arc::clone(&self.layout),
            sources: Arc::clone(&self.sources),
            views: Arc::clone(&self.views),
            beside: Arc::clone(&self.beside),
            memo: Arc::clone(&self.memo),
            rules: Arc::clone(&self.rules),
            only: Arc::clone(&self.only),
            stage: self.stage,
            recheck: self.recheck,
        }));
        self.newest = Some(snapshot.clone());
        snapshot
    }

    /// The files under a folder that are no part of it, as shown, with why; what is known by its own name is.
    pub(crate) fn ignored(&self, folder: &Path) -> Vec<(Arc<str>, String)> {
        let ignored = self.texts.files.ignored(folder).into_iter();
        ignored
            .filter(|(path, _)| !self.layout.files.contains_key(&**path))
            .map(|(path, why)| (shown(&path, self.shown_from()).into(), why))
            .collect()
    }

    fn look_everything_up(&mut self) {
        let base = self.shown_from().to_owned();
        let layout = Layout::look_up(&mut self.texts, &base, &self.folders);
        let known = |path: &Path| layout.files.contains_key(path);
        self.texts
            .keep(|path| known(path) || layout.roots.iter().any(|root| root.path == path));
        // A file that is shown by another name now is read again: its origins hold the name.
        Arc::make_mut(&mut self.sources).retain(|path, read| {
            let known = layout.files.get(path);
            known.is_some_and(|known| read.as_ref().is_ok_and(|file| file.shown == known.shown))
        });
        self.memo.keep(known);
        // Where a text may be read from depends on the root file.
        let named = self.sources.iter();
        let named =
            named.filter(|(_, read)| read.as_ref().is_ok_and(|file| !file.beside.is_empty()));
        self.stale.extend(named.map(|(path, _)| path.to_path_buf()));
        let paths = layout.files.keys();
        let unread = paths.filter(|path| !self.sources.contains_key(&***path));
        self.stale.extend(unread.map(|path| path.to_path_buf()));
        self.layout = Arc::new(layout);
    }

    /// Reads what may have changed. Whether that changes what others see.
    fn read_stale(&mut self) -> bool {
        let stale = std::mem::take(&mut self.stale);
        let known: Vec<_> = stale
            .iter()
            .filter_map(|path| self.layout.files.get_key_value(&**path))
            .map(|(path, known)| (Arc::clone(path), Arc::clone(&known.shown)))
            .collect();
        let paths: Vec<_> = known.iter().map(|(path, _)| Arc::clone(path)).collect();
        self.texts.load(&paths);
        let texts: Vec<_> = paths.iter().map(|path| self.texts.get(path)).collect();
        let base = self.shown_from().to_owned();
        let beside: Vec<_> = paths
            .iter()
            .zip(&texts)
            .map(|(path, text)| match text {
                Ok(text) => beside::look_up(&mut self.texts, &self.layout, &base, path, text),
                Err(_) => vec![],
            })
            .collect();
        let sources = Arc::clone(&self.sources);
        let read: Vec<(Arc<Path>, Read)> = known
            .into_par_iter()
            .zip(texts)
            .zip(beside)
            .map(|(((path, shown), text), beside)| {
                let before = sources.get(&path).and_then(|read| read.as_ref().ok());
                let file = text.map(|document| {
                    Arc::new(SourceFile::read(
                        &path,
                        &shown,
                        document,
                        beside,
                        before.map(|before| &**before),
                    ))
                });
                (path, file)
            })
            .collect();
        drop(sources);
        let (mut seen_by_others, mut texts_named) = (false, false);
        let all = Arc::make_mut(&mut self.sources);
        for (path, file) in read {
            let shared = |read: &Read| {
                read.as_ref()
                    .is_ok_and(|file| matches!(file.kind, Some(FileKind::Plant | FileKind::Yard)))
            };
            let names_texts = |read: &Read| read.as_ref().is_ok_and(|file| !file.beside.is_empty());
            texts_named |= names_texts(&file);
            seen_by_others |= shared(&file);
            let before = all.insert(path, file);
            seen_by_others |= before.as_ref().is_some_and(shared);
            texts_named |= before.as_ref().is_some_and(names_texts);
        }
        if texts_named {
            let files = all.values().filter_map(|read| read.as_ref().ok());
            self.beside = Arc::new(AllBeside::of(files));
        }
        seen_by_others
    }

    /// What each root gives; a view whose files are the same is kept, and with it what was found under it.
    fn make_views(&self) -> Vec<Option<Arc<RootView>>> {
        let source = |path: &Path| self.sources.get(path)?.as_ref().ok().map(Arc::clone);
        self.layout
            .roots
            .iter()
            .zip(&self.layout.given)
            .map(|(root, given)| {
                let new = RootView::new(root, given, self.stage, source)?;
                let old = self.views.iter().flatten().find(|old| old.same(&new));
                Some(old.map_or_else(|| Arc::new(new), Arc::clone))
            })
            .collect()
    }
}
