//! Which names an entry mentions, in so few bits that all entries of a long file can be asked at every keystroke.

use crate::declare::Body;
use crate::{Declared, Like};
use rustc_hash::{FxHashSet, FxHasher};
use std::hash::{Hash, Hasher};

/// The names that lead from an entry elsewhere, a bit each; two names may share one.
#[derive(Clone, Copy, Debug, Default)]
pub struct Mentions(u64);

impl Mentions {
    pub(crate) fn of(body: &dyn Body) -> Self {
        heads(body).fold(Self::default(), |all, head| Self(all.0 | bit(head)))
    }
}

/// Some names that entries are asked for.
#[derive(Debug, Default)]
pub struct Names<'n> {
    all: FxHashSet<&'n str>,
    bits: u64,
}

impl<'n> Names<'n> {
    /// One name more.
    pub fn insert(&mut self, name: &'n str) {
        self.all.insert(name);
        self.bits |= bit(name);
    }

    /// Whether it is one of them.
    pub fn holds(&self, name: &str) -> bool {
        self.all.contains(name)
    }
}

impl Declared {
    /// Whether any of these names leads from this entry elsewhere.
    pub fn mentions_any(&self, names: &Names<'_>) -> bool {
        self.mentions.0 & names.bits != 0
            && self
                .body
                .iter()
                .any(|body| heads(&**body).any(|head| names.all.contains(head)))
    }
}

fn heads(body: &dyn Body) -> impl Iterator<Item = &str> {
    let like = body.like().map(Like::link);
    body.links().into_iter().chain(like).map(|link| link.head())
}

fn bit(name: &str) -> u64 {
    let mut hasher = FxHasher::default();
    name.hash(&mut hasher);
    1 << (hasher.finish() >> 58)
}

/// The part of a name before the dot. Asked of every name at every keystroke.
pub(crate) fn head_of(name: &str) -> &str {
    let dot = name.bytes().position(|byte| byte == b'.');
    dot.and_then(|dot| name.get(..dot)).unwrap_or(name)
}
