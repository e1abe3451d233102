//! What was said of the names of a file, and for which entries it still holds after an edit.

use crate::memo::Whole;
use crate::source::{FileKind, SourceFile};
use crate::view::RootView;
use plumbhook_model::{Declared, Names, Role, Scope};
use plumbhook_sheet::Notice;
use std::sync::Arc;

/// What is wrong with the names of one file.
#[derive(Debug, PartialEq)]
pub(crate) struct NameNotices {
    /// In its entries, by the entry's place in the file.
    pub(crate) of_entries: Vec<(usize, Notice)>,
    /// In the file as a whole.
    pub(crate) of_file: Vec<Notice>,
}

impl NameNotices {
    pub(crate) fn all(&self) -> impl Iterator<Item = &Notice> {
        let of_entries = self.of_entries.iter().map(|(_, notice)| notice);
        of_entries.chain(&self.of_file)
    }
}

/// The entries of a job of which everything holds that was said before: the very same names are declared, and neither
/// they nor anything that their names lead to was read anew.
pub(crate) struct Same<'w> {
    before: &'w Whole,
    holds: Vec<bool>,
}

impl<'w> Same<'w> {
    /// `None` where other names are declared, or other files are seen.
    pub(crate) fn find(
        before: &'w Whole,
        file: &SourceFile,
        view: &Arc<RootView>,
        scope: &Scope,
    ) -> Option<Self> {
        let (old, new) = (before.file.entries(), file.entries());
        let others = |scope: &Scope| -> Vec<_> {
            let others = scope.layers.iter().skip(1);
            others.map(Arc::as_ptr).collect()
        };
        let scope_before = view.scope(&before.file);
        let seen_alike = file.kind == Some(FileKind::Job)
            && before.file.kind == file.kind
            && Arc::ptr_eq(&before.view, view)
            && others(&scope_before) == others(scope)
            // Which names meet goes by the options that there are.
            && scope_before.options() == scope.options();
        if !seen_alike || old.len() != new.len() {
            return None;
        }
        let mut holds = Vec::with_capacity(new.len());
        let mut changed = Names::default();
        for (old, new) in old.iter().zip(new) {
            let same = Arc::ptr_eq(old, new);
            // What a plant holds is reached by other ways than its name.
            if !same && (old.key != new.key || new.is(Role::Plant)) {
                return None;
            }
            if !same {
                changed.insert(new.name());
            }
            holds.push(same);
        }
        // What has the name of one that changed may have met it, or may meet it now.
        let twins = new.iter().zip(&mut holds);
        for (entry, holds) in twins.filter(|(entry, _)| changed.holds(entry.name())) {
            *holds &= entry.name().is_empty();
        }
        spread(new, changed, &mut holds);
        Some(Self { before, holds })
    }

    pub(crate) fn holds(&self, nth: usize) -> bool {
        self.holds.get(nth).copied().unwrap_or(false)
    }

    /// What was said of the entries for which it holds.
    pub(crate) fn notices(&self) -> impl Iterator<Item = (usize, Notice)> {
        let kept = self.before.names.of_entries.iter();
        kept.filter(|(nth, _)| self.holds(*nth)).cloned()
    }
}

/// What mentions something that changed may be said of otherwise, and so what mentions that.
fn spread<'n>(entries: &'n [Arc<Declared>], mut changed: Names<'n>, holds: &mut [bool]) {
    let mut more = true;
    while std::mem::take(&mut more) {
        for (entry, holds) in entries.iter().zip(&mut *holds) {
            if *holds && entry.mentions_any(&changed) {
                *holds = false;
                changed.insert(entry.name());
                more = true;
            }
        }
    }
}
