//! A state of all texts, unchanged for ever, and the questions about it that need no calculation.

use crate::beside::AllBeside;
use crate::case::Check;
use crate::layout::Layout;
use crate::memo::Memo;
use crate::source::SourceFile;
use crate::view::RootView;
use crate::workspace::Read;
use plumbhook_model::Scope;
use plumbhook_model::declare::header_name;
use plumbhook_sheet::{Origin, Stage};
use plumbhook_syntax::{Document, read_entry};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

pub(crate) struct State {
    /// Relative paths start here.
    pub(crate) base: PathBuf,
    pub(crate) layout: Arc<Layout>,
    pub(crate) sources: Arc<BTreeMap<Arc<Path>, Read>>,
    /// For each root of the layout, what it gives; `None` where the root file is wrong.
    pub(crate) views: Arc<Vec<Option<Arc<RootView>>>>,
    /// The texts beside the files.
    pub(crate) beside: Arc<AllBeside>,
    pub(crate) memo: Arc<Memo>,
    pub(crate) rules: Arc<[Check]>,
    /// The rules that alone are run; empty where all are.
    pub(crate) only: Arc<[&'static str]>,
    /// The stage that every job is taken to have come to at least.
    pub(crate) stage: Option<Stage>,
    pub(crate) recheck: bool,
}

/// A state of all texts, unchanged for ever. Cheap to clone and to send.
#[derive(Clone)]
pub struct Snapshot(pub(crate) Arc<State>);

/// A place in a file, as a face needs it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Located {
    /// The file.
    pub path: PathBuf,
    /// The file as the user would write it.
    pub shown: Arc<str>,
    /// The line, from 0.
    pub line: u32,
    /// First byte in the line.
    pub start: u32,
    /// One past the last byte in the line.
    pub end: u32,
}

impl Snapshot {
    /// Every file that was read, in the order of paths.
    pub fn files(&self) -> impl Iterator<Item = &Arc<SourceFile>> {
        self.0
            .sources
            .values()
            .filter_map(|read| read.as_ref().ok())
    }

    /// The file at a path.
    pub fn file(&self, path: &Path) -> Option<&Arc<SourceFile>> {
        self.0.sources.get(path)?.as_ref().ok()
    }

    /// The file of a name as shown.
    pub fn file_shown(&self, shown: &str) -> Option<&Arc<SourceFile>> {
        self.file(self.0.layout.by_shown.get(shown)?)
    }

    /// Where a file of a name as shown is; root files too.
    pub fn path_of(&self, shown: &str) -> Option<&Path> {
        let file = self.0.layout.by_shown.get(shown).map(|path| &**path);
        file.or_else(|| Some(&*self.0.beside.by_shown.get(shown)?.0))
            .or_else(|| Some(&*self.root_shown(shown)?.path))
    }

    /// The text, lines and blocks of a file of a name as shown; of a root file too.
    pub fn document(&self, shown: &str) -> Option<&Document> {
        if let Some((_, document)) = self.0.beside.by_shown.get(shown) {
            return Some(document);
        }
        match self.file_shown(shown) {
            Some(file) => Some(file.document()),
            None => self.root_shown(shown)?.document.as_deref(),
        }
    }

    fn root_shown(&self, shown: &str) -> Option<&crate::layout::Root> {
        let mut roots = self.0.layout.roots.iter();
        roots.find(|root| &*root.shown == shown).map(|root| &**root)
    }

    /// The text of a file as this state has it, whether open or read from disk; of a root file too.
    pub fn text(&self, path: &Path) -> Option<&str> {
        if let Some(file) = self.file(path) {
            return Some(file.document().text());
        }
        let mut beside = self.0.beside.by_shown.values();
        if let Some((_, document)) = beside.find(|(beside, _)| beside == path) {
            return Some(document.text());
        }
        let root = self.0.layout.roots.iter().find(|root| root.path == path)?;
        root.document.as_ref().map(|document| document.text())
    }

    /// What a file sees: its own entries, its plant's and its yard's. Only its own where no root file gives more.
    pub fn scope(&self, file: &SourceFile) -> Scope {
        match self.0.view_of(&file.path) {
            Some(view) => view.scope(file),
            None => Scope::new(vec![Arc::clone(&file.layer)]),
        }
    }

    /// The plant files that a job file can name, with those it does name by `name`.
    pub fn plants_named(&self, file: &SourceFile, name: &str) -> Vec<Arc<SourceFile>> {
        self.0
            .view_of(&file.path)
            .map_or_else(Vec::new, |view| view.plants_named(name).to_vec())
    }

    /// Where an origin of this state stands. `None` if its entry is not there.
    pub fn locate(&self, origin: &Origin) -> Option<Located> {
        let file = self.file_shown(&origin.entry.file);
        let (path, shown, document, line) = if let Some(file) = file {
            let line = file.line_of(origin)?;
            (&*file.path, &file.shown, file.document(), line)
        } else {
            let beside = &self.0.beside.by_shown;
            let Some((shown, (path, document))) = beside.get_key_value(&origin.entry.file) else {
                return self.locate_in_root(origin);
            };
            (&**path, shown, &**document, origin.line)
        };
        let text = document.line_text(line).unwrap_or("");
        let end = if whole_header(origin) {
            header_end(text)
        } else {
            origin.end.max(origin.start)
        };
        Some(Located {
            path: path.to_path_buf(),
            shown: Arc::clone(shown),
            line,
            start: narrow(text.floor_char_boundary(origin.start as usize)),
            end: narrow(text.ceil_char_boundary(end as usize)),
        })
    }
}

impl Snapshot {
    /// Where an origin in a root file stands.
    fn locate_in_root(&self, origin: &Origin) -> Option<Located> {
        let root = self.root_shown(&origin.entry.file)?;
        Some(Located {
            path: root.path.clone(),
            shown: Arc::clone(&root.shown),
            line: origin.line,
            start: origin.start,
            end: origin.end,
        })
    }
}

fn narrow(byte: usize) -> u32 {
    u32::try_from(byte).unwrap_or(u32::MAX)
}

/// Whether an origin means a header as a whole. It holds no text, so its end only fits one blank before the name.
fn whole_header(origin: &Origin) -> bool {
    let header = Origin::header(&origin.entry);
    let named = !origin.entry.word.is_empty();
    named
        && (origin.line, origin.start, origin.end, origin.part)
            == (header.line, header.start, header.end, header.part)
}

/// Where the name in a header line ends, or its word where it has no name.
fn header_end(line: &str) -> u32 {
    let header = read_entry(line).header;
    let name = header
        .items
        .first()
        .filter(|_| !header_name(&header).is_empty());
    name.map_or(header.key.place.end, |name| name.place.end)
}

impl State {
    /// What the root file of a path gives to it.
    pub(crate) fn view_of(&self, path: &Path) -> Option<&Arc<RootView>> {
        let root = self.layout.files.get(path)?.root?;
        self.views.get(root)?.as_ref()
    }
}
