//! Every place that names the same thing.

use crate::definition::{inner_name, lead_to};
use crate::place::{Spot, links_of, member_of, name_item, name_of};
use plumbhook_model::{Declared, Link, Repeat};
use plumbhook_sheet::Origin;
use plumbhook_syntax::read_entry;
use plumbhook_workspace::{Cancel, Cancelled, Located, Snapshot, SourceFile};
use std::path::Path;
use std::sync::Arc;

/// A place where a thing is named.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Reference {
    /// Where.
    pub at: Located,
    /// Whether it is declared there, not used.
    pub declares: bool,
}

/// Every place in all files that names what the place names, its declaration first, then in the order of files.
/// Empty where the place names nothing, or a name that leads to several things.
///
/// `line` counts from 0, `byte` from the start of the line.
///
/// # Errors
/// [`Cancelled`] between two files.
pub fn references(
    snapshot: &Snapshot,
    path: &Path,
    line: u32,
    byte: u32,
    cancel: &Cancel,
) -> Result<Vec<Reference>, Cancelled> {
    let Some(target) = Target::at(snapshot, path, line, byte) else {
        return Ok(vec![]);
    };
    let mut found: Vec<_> = target.declared(snapshot).into_iter().collect();
    for file in snapshot.files() {
        cancel.check()?;
        found.extend(target.uses_in(snapshot, file));
    }
    Ok(found)
}

/// The same in the file of the place alone.
pub fn highlights(snapshot: &Snapshot, path: &Path, line: u32, byte: u32) -> Vec<Reference> {
    let target = Target::at(snapshot, path, line, byte);
    let (Some(target), Some(file)) = (target, snapshot.file(path)) else {
        return vec![];
    };
    let declared = target.declared(snapshot);
    let mut found: Vec<_> = declared
        .filter(|it| it.at.path == path)
        .into_iter()
        .collect();
    found.extend(target.uses_in(snapshot, file));
    found
}

/// What a name leads to: an entry, or a member of one.
pub(crate) struct Target {
    pub(crate) entry: Arc<Declared>,
    pub(crate) member: Option<String>,
    /// The stretch of the asked place that names it.
    pub(crate) asked: Located,
}

impl Target {
    pub(crate) fn at(snapshot: &Snapshot, path: &Path, line: u32, byte: u32) -> Option<Self> {
        let spot = Spot::at(snapshot, path, line, byte)?;
        if let Some(link) = spot.link() {
            let inner = inner_name(&spot, &link);
            let entries = lead_to(snapshot, spot.file, spot.entry, &link);
            let [entry] = entries.as_slice() else {
                return None;
            };
            return Some(Self {
                entry: Arc::clone(entry),
                asked: part_of(snapshot, &link, inner.is_some())?,
                member: inner.map(str::to_owned),
            });
        }
        let text = read_entry(spot.text);
        let (item, member) = if spot.line == 0 {
            (name_item(&text)?, false)
        } else {
            let statement = text.statements.iter().find(|it| it.line == spot.line)?;
            let key = statement.key.raw(statement.text);
            let mut keys = spot.entry.block?.keys.iter();
            keys.find(|known| known.word == key && known.repeat == Repeat::Members)?;
            (statement.items.first()?, true)
        };
        if !spot.is_on(item.place) {
            return None;
        }
        let asked = spot.located(snapshot, item.place)?;
        let document = snapshot.document(&asked.shown)?;
        let name = item.raw(document.line_text(asked.line)?).to_owned();
        Some(Self {
            entry: Arc::clone(spot.entry),
            member: member.then_some(name),
            asked,
        })
    }

    /// Where it is declared.
    pub(crate) fn declared(&self, snapshot: &Snapshot) -> Option<Reference> {
        let at = match &self.member {
            Some(member) => member_of(snapshot, &self.entry, member),
            None => name_of(snapshot, &self.entry),
        }?;
        Some(Reference { at, declares: true })
    }

    /// Where a file uses it. A name that leads to several things, this one among them, counts: who asks wants to
    /// see it.
    pub(crate) fn uses_in(&self, snapshot: &Snapshot, file: &SourceFile) -> Vec<Reference> {
        let entries = file.entries().iter();
        let named = entries
            .flat_map(|entry| links_of(entry).map(move |link| (entry, link)))
            .filter(|(_, link)| link.head() == self.entry.name())
            .filter(|(_, link)| {
                let inner = link.name.split_once('.').map(|(_, inner)| inner);
                self.member.is_none() || inner == self.member.as_deref()
            });
        let mut places: Vec<_> = named
            .filter(|(from, link)| {
                let entries = lead_to(snapshot, file, from, link);
                entries.iter().any(|entry| entry.key == self.entry.key)
            })
            .filter_map(|(_, link)| part_of(snapshot, &link, self.member.is_some()))
            .collect();
        places.sort();
        places.dedup();
        let uses = places.into_iter();
        uses.map(|at| Reference {
            at,
            declares: false,
        })
        .collect()
    }
}

/// The part of a link's place before its dot, or behind it. `None` where the text there is not the name, so that
/// nothing else is ever marked or renamed.
fn part_of(snapshot: &Snapshot, link: &Link<'_>, inner: bool) -> Option<Located> {
    let origin: &Origin = link.origin;
    let mut at = snapshot.locate(origin)?;
    let document = snapshot.document(&at.shown)?;
    let words = document
        .line_text(at.line)?
        .get(at.start as usize..at.end as usize)?;
    if words != link.name {
        return None;
    }
    let head = u32::try_from(link.head().len()).ok()?;
    if inner {
        at.start += head + 1;
    } else {
        at.end = at.start + head;
    }
    Some(at)
}
