//! What stands at a place of a text.

use plumbhook_model::declare::header_name;
use plumbhook_model::{Declared, Like, Link, Repeat};
use plumbhook_sheet::Origin;
use plumbhook_syntax::{Entry, Item, Place, read_entry};
use plumbhook_workspace::{Located, Snapshot, SourceFile};
use std::path::Path;
use std::sync::Arc;

/// A place inside an entry.
pub(crate) struct Spot<'s> {
    pub(crate) file: &'s Arc<SourceFile>,
    pub(crate) entry: &'s Arc<Declared>,
    /// The text of the entry's block.
    pub(crate) text: &'s str,
    /// Line in the entry; 0 is its header.
    pub(crate) line: u32,
    pub(crate) byte: u32,
}

impl<'s> Spot<'s> {
    pub(crate) fn at(snapshot: &'s Snapshot, path: &Path, line: u32, byte: u32) -> Option<Self> {
        let file = snapshot.file(path)?;
        let document = file.document();
        let index = document.block_of(line)?;
        let block = document.blocks().get(index)?;
        Some(Self {
            file,
            entry: file.entries().get(index)?,
            text: document.block_text(index),
            line: line.checked_sub(block.first_line)?,
            byte,
        })
    }

    /// The name at the place that leads to another entry.
    pub(crate) fn link(&self) -> Option<Link<'s>> {
        let body = self.entry.body.as_ref()?;
        let links = body.links().into_iter().chain(body.like().map(Like::link));
        links.into_iter().find(|link| self.is_in(link.origin))
    }

    /// Whether the place is inside an origin, its end included: a cursor stands behind what it names.
    pub(crate) fn is_in(&self, origin: &Origin) -> bool {
        origin.entry == self.entry.key
            && origin.line == self.line
            && (origin.start..=origin.end).contains(&self.byte)
    }

    /// Whether the place is inside a stretch of its line, its end included.
    pub(crate) fn is_on(&self, place: Place) -> bool {
        (place.start..=place.end).contains(&self.byte)
    }

    /// A stretch of the line of the place.
    pub(crate) fn located(&self, snapshot: &Snapshot, place: Place) -> Option<Located> {
        let part = plumbhook_sheet::Part::Key;
        let origin = Origin::at(&self.entry.key, self.line, place.start, place.end, part);
        snapshot.locate(&origin)
    }
}

/// Every name in an entry that leads to another, also the one whose geometry it takes over.
pub(crate) fn links_of(entry: &Declared) -> impl Iterator<Item = Link<'_>> {
    let bodies = entry.body.iter();
    bodies.flat_map(|body| body.links().into_iter().chain(body.like().map(Like::link)))
}

/// Where an entry says its name; its word where it has none.
pub(crate) fn name_of(snapshot: &Snapshot, entry: &Declared) -> Option<Located> {
    let mut at = snapshot.locate(&Origin::header(&entry.key))?;
    let place = with_entry(snapshot, entry, |text| {
        let name = name_item(text).map(|item| item.place);
        Some(name.unwrap_or(text.header.key.place))
    })?;
    (at.start, at.end) = (place.start, place.end);
    Some(at)
}

/// The item of a header that is its name.
pub(crate) fn name_item<'e, 'a>(entry: &'e Entry<'a>) -> Option<&'e Item<'a>> {
    let named = !header_name(&entry.header).is_empty();
    entry.header.items.first().filter(|_| named)
}

/// Where a member of an entry says its name: `main` in `hook main …`.
pub(crate) fn member_of(snapshot: &Snapshot, entry: &Declared, name: &str) -> Option<Located> {
    let keys = entry.block?.keys;
    let (line, place) = with_entry(snapshot, entry, |text| {
        text.statements.iter().find_map(|statement| {
            let key = statement.key.raw(statement.text);
            let members = keys
                .iter()
                .any(|known| known.word == key && known.repeat == Repeat::Members);
            let item = statement.items.first().filter(|_| members)?;
            (item.raw(statement.text) == name).then_some((statement.line, item.place))
        })
    })?;
    let part = plumbhook_sheet::Part::Value;
    snapshot.locate(&Origin::at(&entry.key, line, place.start, place.end, part))
}

fn with_entry<T>(
    snapshot: &Snapshot,
    entry: &Declared,
    read: impl FnOnce(&Entry<'_>) -> Option<T>,
) -> Option<T> {
    let file = snapshot.file_shown(&entry.key.file)?;
    let text = file.document().block_text(file.block_of(&entry.key)?);
    read(&read_entry(text))
}
