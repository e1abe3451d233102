//! What a case reaches: name by name, from the move and the plant's floors on.

use crate::declare::{Link, Role};
use crate::like;
use crate::mentions::head_of;
use crate::scope::{Declared, Found, Scope};
use plumbhook_sheet::EntryRef;
use rustc_hash::{FxHashMap, FxHashSet};
use std::sync::Arc;

/// What each name looked up has led to.
pub(crate) type Lookups = Vec<(Box<str>, Found)>;

/// Notes what a name has led to, once.
pub(crate) fn note(names: &mut Lookups, name: &str, found: Found) {
    if !names.iter().any(|(known, _)| **known == *name) {
        names.push((name.into(), found));
    }
}

/// What each name leads to. One that several entries have leads to none of them, though each was reached by another
/// way: the floors of the plant are.
pub(crate) fn by_name(
    order: &[Arc<Declared>],
    names: &Lookups,
) -> FxHashMap<Box<str>, Arc<Declared>> {
    let mut reached: FxHashMap<_, _> = order
        .iter()
        .map(|entry| (entry.key.name.clone(), Arc::clone(entry)))
        .collect();
    for (name, _) in several(names) {
        reached.remove(&name);
    }
    reached
}

/// Names that several entries have, with these.
pub(crate) fn several(names: &Lookups) -> Vec<(Box<str>, Vec<EntryRef>)> {
    let several = names.iter().filter_map(|(name, found)| match found {
        Found::Several(all) => Some((
            head_of(name).into(),
            all.iter().map(|entry| Arc::clone(&entry.key)).collect(),
        )),
        Found::Nowhere | Found::One(_) => None,
    });
    several.collect()
}

/// Entries as they are reached, name by name.
pub(crate) struct Reach<'s> {
    scope: &'s Scope,
    /// Those reached so far, each once.
    pub(crate) order: Vec<Arc<Declared>>,
    /// Names of links that were followed; what `like` looked up is not among them.
    followed: FxHashSet<Box<str>>,
    /// Every name looked up on the way.
    pub(crate) names: Lookups,
}

impl<'s> Reach<'s> {
    /// Nothing reached yet; `names` were looked up before.
    pub(crate) fn new(scope: &'s Scope, names: Lookups) -> Self {
        Self {
            scope,
            order: vec![],
            followed: FxHashSet::default(),
            names,
        }
    }

    pub(crate) fn push(&mut self, entry: &Arc<Declared>) {
        if !self
            .order
            .iter()
            .any(|seen| Arc::ptr_eq(&seen.key, &entry.key))
        {
            let names = &mut self.names;
            note(names, entry.name(), self.scope.find(entry.name()));
            let with_geometry = like::with_geometry(self.scope, entry, |name, found| {
                note(names, name, found);
            });
            self.order.push(with_geometry);
        }
    }

    pub(crate) fn follow(&mut self, link: &Link<'_>) {
        // The move before gives its end alone, and that is taken already; an option is no thing.
        let is_no_thing = link.role.is_in_plant() || matches!(link.role, Role::Move | Role::Option);
        if is_no_thing || !self.followed.insert(link.head().into()) {
            return;
        }
        let found = self.scope.find(link.head());
        if let Found::One(one) = &found {
            self.push(one);
        }
        note(&mut self.names, link.head(), found);
    }

    /// Everything that the entries reached so far lead to, and theirs.
    pub(crate) fn all(&mut self) {
        let mut next = 0;
        while let Some(entry) = self.order.get(next).map(Arc::clone) {
            next += 1;
            for link in entry.body.iter().flat_map(|body| body.links()) {
                self.follow(&link);
            }
        }
    }
}
