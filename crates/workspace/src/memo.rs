//! Results that are kept from check to check, with everything that they were made from.

use crate::checked::CaseOutcome;
use crate::kept_names::NameNotices;
use crate::settled::Loud;
use crate::source::SourceFile;
use crate::view::RootView;
use plumbhook_model::Needs;
use plumbhook_sheet::{EntryRef, Notice};
use rustc_hash::FxHashMap;
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// What was said of one case, and what it was made from.
#[derive(Debug)]
pub(crate) struct KeptCase {
    /// The move, and the option in which it was checked.
    pub(crate) of: CaseKey,
    pub(crate) needs: Needs,
    /// How loud the root file made rules then.
    pub(crate) louds: Arc<[Loud]>,
    pub(crate) outcome: Arc<CaseOutcome>,
}

/// A move and the option in which it is checked.
pub(crate) type CaseKey = (EntryRef, Option<Box<str>>);

/// The cases of one file, by their move and option.
pub(crate) type KeptCases = FxHashMap<CaseKey, Arc<KeptCase>>;

/// What was said of one file.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct FileOutcome {
    pub(crate) cases: Vec<Arc<CaseOutcome>>,
    /// What is wrong in its text and names; some of it may stand in files that it shares names with.
    pub(crate) notices: Vec<Notice>,
}

/// The outcome of a file as a whole, with the very file and view that it was made from.
#[derive(Debug)]
pub(crate) struct Whole {
    pub(crate) file: Arc<SourceFile>,
    pub(crate) view: Arc<RootView>,
    pub(crate) outcome: Arc<FileOutcome>,
    pub(crate) names: NameNotices,
}

#[derive(Debug, Default)]
struct KeptFile {
    whole: Option<Arc<Whole>>,
    cases: Arc<KeptCases>,
}

/// Shared by the workspace and all its snapshots. For each file it holds the cases of one check only, so it cannot
/// grow beyond what the texts hold.
#[derive(Debug, Default)]
pub(crate) struct Memo(Mutex<FxHashMap<Arc<Path>, KeptFile>>);

impl Memo {
    fn files(&self) -> MutexGuard<'_, FxHashMap<Arc<Path>, KeptFile>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// What was last said of a file as a whole; it says itself what it was made from.
    pub(crate) fn whole(&self, path: &Path) -> Option<Arc<Whole>> {
        self.files().get(path)?.whole.as_ref().map(Arc::clone)
    }

    /// The cases last kept for a file; each says itself what it needs to count.
    pub(crate) fn cases(&self, path: &Path) -> Arc<KeptCases> {
        self.files()
            .get(path)
            .map(|kept| Arc::clone(&kept.cases))
            .unwrap_or_default()
    }

    /// Keeps what a completed check of a file says.
    pub(crate) fn keep_whole(&self, whole: Whole, cases: KeptCases) {
        let path = Arc::clone(&whole.file.path);
        let kept = KeptFile {
            whole: Some(Arc::new(whole)),
            cases: Arc::new(cases),
        };
        self.files().insert(path, kept);
    }

    /// Keeps the cases that were complete when the check of their file was dropped, beside those of before.
    pub(crate) fn keep_complete(&self, file: &SourceFile, cases: KeptCases) {
        let mut files = self.files();
        let kept = files.entry(Arc::clone(&file.path)).or_default();
        let all = Arc::make_mut(&mut kept.cases);
        all.extend(cases);
        all.retain(|(entry, _), _| file.block_of(entry).is_some());
    }

    /// Keeps what belongs to these files only.
    pub(crate) fn keep(&self, known: impl Fn(&Path) -> bool) {
        self.files().retain(|path, _| known(path));
    }
}
