//! Results that are kept from check to check, with everything that they were made from.

use crate::checked::CaseOutcome;
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

#[derive(Debug, Default)]
struct KeptFile {
    /// The outcome of the file as a whole, with the very file and view that it was made from.
    whole: Option<(Arc<SourceFile>, Arc<RootView>, Arc<FileOutcome>)>,
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

    /// The outcome of this very file, seen with this very view.
    pub(crate) fn whole(
        &self,
        file: &Arc<SourceFile>,
        view: &Arc<RootView>,
    ) -> Option<Arc<FileOutcome>> {
        let files = self.files();
        let (of, with, outcome) = files.get(&file.path)?.whole.as_ref()?;
        (Arc::ptr_eq(of, file) && Arc::ptr_eq(with, view)).then(|| Arc::clone(outcome))
    }

    /// The cases last kept for a file; each says itself what it needs to count.
    pub(crate) fn cases(&self, path: &Path) -> Arc<KeptCases> {
        self.files()
            .get(path)
            .map(|kept| Arc::clone(&kept.cases))
            .unwrap_or_default()
    }

    /// Keeps what a completed check of a file says.
    pub(crate) fn keep_whole(
        &self,
        file: &Arc<SourceFile>,
        view: &Arc<RootView>,
        outcome: &Arc<FileOutcome>,
        cases: KeptCases,
    ) {
        let kept = KeptFile {
            whole: Some((Arc::clone(file), Arc::clone(view), Arc::clone(outcome))),
            cases: Arc::new(cases),
        };
        self.files().insert(Arc::clone(&file.path), kept);
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
