//! Where the name at a place is declared.

use crate::calculation::let_at;
use crate::place::{Spot, member_of, name_item, name_of};
use plumbhook_model::{Declared, Found, Link, Role};
use plumbhook_syntax::read_entry;
use plumbhook_workspace::{Located, Snapshot, SourceFile};
use std::path::Path;
use std::sync::Arc;

/// Where the name at a place is declared: nowhere, once, or everywhere that it is declared too often.
///
/// `line` counts from 0, `byte` from the start of the line. On a name with a dot the part under the place counts:
/// `hall-crane.main` leads to the crane or to its hook. An entry's own name leads to itself.
pub fn definition(snapshot: &Snapshot, path: &Path, line: u32, byte: u32) -> Vec<Located> {
    let Some(spot) = Spot::at(snapshot, path, line, byte) else {
        return vec![];
    };
    if let Some(link) = spot.link() {
        let inner = inner_name(&spot, &link);
        let entries = lead_to(snapshot, spot.file, spot.entry, &link);
        return entries
            .iter()
            .filter_map(|entry| {
                inner
                    .and_then(|inner| member_of(snapshot, entry, inner))
                    .or_else(|| name_of(snapshot, entry))
            })
            .collect();
    }
    let text = read_entry(spot.text);
    let own = spot.line == 0 && name_item(&text).is_some_and(|item| spot.is_on(item.place));
    let named = if own { Some(spot.entry) } else { let_at(&spot) };
    named
        .and_then(|entry| name_of(snapshot, entry))
        .into_iter()
        .collect()
}

/// The part behind the dot, if the place is in it.
pub(crate) fn inner_name<'a>(spot: &Spot<'_>, link: &Link<'a>) -> Option<&'a str> {
    let (head, inner) = link.name.split_once('.')?;
    let dot = link.origin.start + u32::try_from(head.len()).ok()?;
    (spot.byte > dot).then_some(inner)
}

/// The entries that a name in the entry `from` leads to; more than one where it is declared too often, or once in each
/// of several options while `from` belongs to all of them.
pub(crate) fn lead_to(
    snapshot: &Snapshot,
    file: &SourceFile,
    from: &Declared,
    link: &Link<'_>,
) -> Vec<Arc<Declared>> {
    if link.role == Role::Plant {
        let files = snapshot.plants_named(file, link.name);
        return files
            .iter()
            .filter_map(|file| file.opener.clone())
            .collect();
    }
    match snapshot.scope(file).lead(link) {
        Found::Nowhere => vec![],
        Found::One(entry) => vec![entry],
        Found::Several(mut entries) => {
            if entries
                .iter()
                .any(|entry| entry.option().meets(from.option()))
            {
                entries.retain(|entry| entry.option().meets(from.option()));
            }
            entries
        }
    }
}
