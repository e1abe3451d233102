//! Of which option an entry is a part, and what is wrong with its names in each that it is a part of.

use crate::declare::Role;
use crate::notices;
use crate::scope::{Declared, Scope, names_in};
use plumbhook_sheet::Notice;
use rustc_hash::FxHashSet;
use std::sync::Arc;

/// Of which option an entry is a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OptionOf<'a> {
    /// Of every one.
    Each,
    /// Of that one.
    One(&'a str),
    /// It says so, and it cannot be read which: of none, so that nothing passes by it.
    NotKnown,
}

impl OptionOf<'_> {
    /// Whether one case could see both.
    pub fn meets(self, other: Self) -> bool {
        match (self, other) {
            (Self::NotKnown, _) | (_, Self::NotKnown) => false,
            (Self::One(a), Self::One(b)) => a == b,
            _ => true,
        }
    }
}

/// The options that entries declare, in order, then those that they name and nobody declares.
pub(crate) fn declared_options(entries: &[Arc<Declared>]) -> Vec<Box<str>> {
    let declared = entries.iter().filter(|entry| entry.is(Role::Option));
    let declared = declared.map(|entry| entry.key.name.clone());
    let named = entries.iter().filter_map(|entry| match entry.option() {
        OptionOf::One(name) => Some(name.into()),
        OptionOf::Each | OptionOf::NotKnown => None,
    });
    let mut seen = FxHashSet::default();
    let mut names: Vec<Box<str>> = declared.chain(named).collect();
    names.retain(|name| !name.is_empty() && seen.insert(name.clone()));
    names
}

/// What is wrong with the names in an entry, seen from a scope: of each option that the entry is a part of, once.
pub fn name_notices(scope: &Scope, entry: &Declared) -> Vec<Notice> {
    match entry.option() {
        OptionOf::One(option) => names_in(&scope.of_option(Some(option)), entry),
        OptionOf::NotKnown => {
            let line = entry.body.as_ref().and_then(|body| body.option());
            let mut found = names_in(scope, entry);
            found.extend(line.map(|line| Notice {
                code: &notices::OPTION_NOT_KNOWN,
                say: format!(
                    "of which option `{}` is a part is not known: no move sees it",
                    entry.name()
                ),
                origin: line.datum.origin().clone(),
                related: vec![],
                mend: "write `in option A`, or take the line out".into(),
            }));
            found
        }
        OptionOf::Each => {
            let options = scope.options();
            if options.is_empty() {
                return names_in(scope, entry);
            }
            let mut found: Vec<Notice> = Vec::new();
            for option in options {
                for notice in names_in(&scope.of_option(Some(option)), entry) {
                    let told = found
                        .iter()
                        .any(|told| (told.code, &told.origin) == (notice.code, &notice.origin));
                    if !told {
                        found.push(notice);
                    }
                }
            }
            found
        }
    }
}
