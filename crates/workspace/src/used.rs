//! What is wrong in the texts that a job uses and that are not themselves checked: in its plant, and in what it reaches
//! of the yard. A line that is not read there is missing in the job.

use crate::Cancel;
use crate::cancel::Cancelled;
use crate::snapshot::State;
use crate::source::{FileKind, SourceFile};
use crate::view::RootView;
use plumbhook_model::entries::OPENERS;
use plumbhook_model::{Declared, Found, Like, Scope};
use plumbhook_sheet::{EntryRef, Notice};
use rustc_hash::FxHashSet;
use std::sync::Arc;

/// The files that checked jobs use beside them, and what is wrong in these as far as it is used.
#[derive(Default)]
pub(crate) struct Used {
    pub(crate) files: Vec<Arc<SourceFile>>,
    pub(crate) notices: Vec<Notice>,
}

impl Used {
    /// By the jobs among `checked`.
    pub(crate) fn by(
        state: &State,
        checked: &[Arc<SourceFile>],
        cancel: &Cancel,
    ) -> Result<Self, Cancelled> {
        let paths: FxHashSet<_> = checked.iter().map(|file| &*file.path).collect();
        let mut files: Vec<(&Arc<SourceFile>, &Arc<RootView>)> = Vec::new();
        let mut reached: FxHashSet<EntryRef> = FxHashSet::default();
        let is_job = |file: &&Arc<SourceFile>| file.kind == Some(FileKind::Job);
        for job in checked.iter().filter(is_job) {
            let Some(view) = state.view_of(&job.path) else {
                continue;
            };
            let both = view.plants_of(job).iter().chain(&view.yards);
            let beside: Vec<_> = both.filter(|file| !paths.contains(&*file.path)).collect();
            if beside.is_empty() {
                continue;
            }
            cancel.check()?;
            reach(&view.scope(job), job, &mut reached);
            for file in beside {
                if !files.iter().any(|(known, _)| Arc::ptr_eq(known, file)) {
                    files.push((file, state.view_of(&file.path).unwrap_or(view)));
                }
            }
        }
        let mut it = Self::default();
        for (file, view) in files {
            let outcome = state.check_file(file, view, cancel)?;
            let counts = |notice: &&Notice| is_used(file, notice, &reached);
            it.notices
                .extend(outcome.notices.iter().filter(counts).cloned());
            it.files.push(Arc::clone(file));
        }
        Ok(it)
    }
}

/// Whether a job cannot do without the lines that a notice is about. Those of a plant all count, and so does what is no
/// entry, or none that anybody could name: it may have been meant for anything.
fn is_used(file: &SourceFile, notice: &Notice, reached: &FxHashSet<EntryRef>) -> bool {
    let entry = &notice.origin.entry;
    if file.kind == Some(FileKind::Plant) || entry.word.is_empty() {
        return true;
    }
    let declared = file.entries().iter().find(|other| other.key == *entry);
    reached.contains(entry)
        || OPENERS.contains(&&*entry.word)
        || declared.is_none_or(|declared| declared.block.is_none())
}

/// Every entry that the names in a job lead to, and theirs; where a name is given more than once, each of them.
fn reach(scope: &Scope, job: &SourceFile, reached: &mut FxHashSet<EntryRef>) {
    let own = job.entries().iter().map(Arc::clone);
    let plants = scope.layers.get(1).filter(|_| scope.layers.len() > 2);
    let plants = plants.into_iter().flat_map(|layer| layer.entries());
    let mut next: Vec<Arc<Declared>> = own.chain(plants.map(Arc::clone)).collect();
    let mut seen: FxHashSet<EntryRef> = next.iter().map(|entry| Arc::clone(&entry.key)).collect();
    while let Some(entry) = next.pop() {
        let body = entry.body.iter();
        let links =
            body.flat_map(|body| body.links().into_iter().chain(body.like().map(Like::link)));
        for link in links.filter(|link| !link.role.is_in_plant()) {
            let found = match scope.find(link.head()) {
                Found::Nowhere => vec![],
                Found::One(one) => vec![one],
                Found::Several(all) => all,
            };
            for one in found {
                if seen.insert(Arc::clone(&one.key)) {
                    next.push(one);
                }
            }
        }
        reached.insert(Arc::clone(&entry.key));
    }
}
