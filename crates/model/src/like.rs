//! `like NAME`: an entry with the geometry of another where it gives none of its own.

use crate::declare::{Block, Link, Role};
use crate::notices;
use crate::scope::{Declared, Found, Scope};
use plumbhook_sheet::{EntryRef, Notice, Origin, Part, Related};
use plumbhook_syntax::Statement;
use std::sync::Arc;

/// `like runner` in a header: the geometry of another entry of the same kind holds where this one gives none. Nothing
/// else does: no mass, no centre of gravity, no rating, no verification.
#[derive(Clone, Debug)]
pub struct Like {
    /// The name of the other entry.
    pub name: Box<str>,
    /// What the other has to be.
    pub role: Role,
    /// Where the name stands.
    pub origin: Origin,
}

impl Like {
    /// As a link.
    pub fn link(&self) -> Link<'_> {
        Link {
            name: &self.name,
            role: self.role,
            origin: &self.origin,
        }
    }
}

/// Takes `like NAME` out of what follows the name in a header, where the kind of entry has geometry to take over.
pub fn header_like(block: &Block, rest: &mut Statement<'_>, entry: &EntryRef) -> Option<Like> {
    let role = *block.roles.first()?;
    if !block.keys.iter().any(|key| key.geometry) {
        return None;
    }
    let at = rest
        .items
        .iter()
        .position(|item| item.word() == Some("like"))?;
    let named = rest.items.get(at + 1)?;
    let name = named.word()?;
    let like = Like {
        name: name.into(),
        role,
        origin: Origin::at(
            entry,
            rest.line,
            named.place.start,
            named.place.end,
            Part::Header,
        ),
    };
    rest.items.drain(at..=at + 1);
    Some(like)
}

/// Where a chain of `like` ends.
enum End {
    /// At an entry that is like no other, or like one that does not count.
    Somewhere,
    /// Back at an entry that it came through.
    Circle,
}

/// The entry that counts for a `like`, if there is one: one alone of that name, of the same kind.
fn other(scope: &Scope, entry: &Declared, like: &Like) -> (Found, Option<Arc<Declared>>) {
    let found = scope.find(&like.name);
    let one = match &found {
        Found::One(one) if one.key.word == entry.key.word => Some(Arc::clone(one)),
        _ => None,
    };
    (found, one)
}

/// The entries that an entry is like, one after the other; each name looked up goes to `names`.
fn chain(
    scope: &Scope,
    entry: &Arc<Declared>,
    mut looked_up: impl FnMut(&str, Found),
) -> (Vec<Arc<Declared>>, End) {
    let mut chain = vec![Arc::clone(entry)];
    while let Some(last) = chain.last().map(Arc::clone) {
        let Some(like) = last.body.as_ref().and_then(|body| body.like()) else {
            break;
        };
        let (found, one) = other(scope, &last, like);
        looked_up(&like.name, found);
        let Some(one) = one else { break };
        if chain.iter().any(|seen| Arc::ptr_eq(&seen.key, &one.key)) {
            return (chain, End::Circle);
        }
        chain.push(one);
    }
    (chain, End::Somewhere)
}

/// The entry as a case sees it. In a circle nobody gives the geometry, and it stays away.
pub(crate) fn with_geometry(
    scope: &Scope,
    entry: &Arc<Declared>,
    looked_up: impl FnMut(&str, Found),
) -> Arc<Declared> {
    if entry.body.as_ref().is_none_or(|body| body.like().is_none()) {
        return Arc::clone(entry);
    }
    let (chain, end) = chain(scope, entry, looked_up);
    if matches!(end, End::Circle) {
        return Arc::clone(entry);
    }
    // From the far end on, so that each takes over what the one behind it gives or has taken over.
    let mut links = chain.into_iter().rev();
    let first = links.next().unwrap_or_else(|| Arc::clone(entry));
    links.fold(first, |behind, entry| {
        let body = entry.body.as_ref().zip(behind.body.as_ref());
        let filled = body.and_then(|(own, other)| own.with_geometry_of(&**other));
        match filled {
            Some(body) => Arc::new(Declared {
                key: Arc::clone(&entry.key),
                block: entry.block,
                title: entry.title.clone(),
                body: Some(body),
                notices: vec![],
                behind: entry.behind.clone(),
                looked_up: entry.looked_up.clone(),
                mentions: entry.mentions,
            }),
            None => entry,
        }
    })
}

/// What is wrong with the `like` of an entry beyond a name that leads nowhere.
pub(crate) fn notice(scope: &Scope, entry: &Declared) -> Option<Notice> {
    let like = entry.body.as_ref()?.like()?;
    let Found::One(one) = scope.find(&like.name) else {
        return None;
    };
    let here = Related {
        origin: Origin::header(&one.key),
        say: format!("`{}` is declared here", one.name()),
    };
    if one.key.word != entry.key.word {
        // One of another role is told with the names.
        return one.is(like.role).then(|| Notice {
            code: &notices::NAME_OF_ANOTHER_KIND,
            say: format!(
                "`{}` is a {}; a {} can be like a {} only",
                like.name, one.key.word, entry.key.word, entry.key.word
            ),
            origin: like.origin.clone(),
            related: vec![here],
            mend: String::new(),
        });
    }
    let own = match scope.find(entry.name()) {
        Found::One(own) if Arc::ptr_eq(&own.key, &entry.key) => own,
        _ => return None,
    };
    let (chain, End::Circle) = chain(scope, &own, |_, _| {}) else {
        return None;
    };
    let names: Vec<_> = chain.iter().map(|entry| entry.name()).collect();
    Some(Notice {
        code: &notices::LIKE_IN_A_CIRCLE,
        say: format!(
            "{} are like each other: none gives the geometry",
            names.join(", ")
        ),
        origin: like.origin.clone(),
        related: vec![here],
        mend: "give it in one of them, and take `like` out there".into(),
    })
}
