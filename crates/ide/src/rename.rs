//! A new name for an entry, wherever it is named. What cannot be done whole is not done at all.

use crate::references::{Reference, Target};
use plumbhook_model::entries::{Load, Move};
use plumbhook_model::{Declared, Found, Role, notices};
use plumbhook_syntax::tokens;
use plumbhook_workspace::{Cancel, Cancelled, Located, Snapshot, SourceFile};
use std::path::Path;
use std::sync::Arc;

/// A name that can be changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Renamable {
    /// The stretch of the asked place that names it.
    pub at: Located,
    /// The name.
    pub name: String,
}

/// The name at a place, if it is the name of an entry and leads to that one alone.
pub fn renamable(snapshot: &Snapshot, path: &Path, line: u32, byte: u32) -> Option<Renamable> {
    let target = Target::at(snapshot, path, line, byte).filter(can_be_renamed)?;
    let name = target.entry.name().to_owned();
    Some(Renamable {
        at: target.asked,
        name,
    })
}

/// The uses of a `let` are words in calculations and no links, so a new name would leave them behind.
fn can_be_renamed(target: &Target) -> bool {
    target.member.is_none() && !target.entry.name().is_empty() && !target.entry.is_let()
}

/// Every place that gets the new name; or why none does, in words for a person.
pub type Renamed = Result<Vec<Located>, String>;

/// Gives the entry that is named at a place a new name.
///
/// Refused: a name that could not stand where names stand; one that something in sight of the entry, or of a file
/// that uses it, has already; one that would be changed in a file outside `roots` (none given: anywhere); and one
/// that stands in a line that could not be read, since nobody knows whether it is meant there.
///
/// # Errors
/// [`Cancelled`] between two files.
pub fn rename(
    snapshot: &Snapshot,
    at: (&Path, u32, u32),
    new: &str,
    roots: &[&Path],
    cancel: &Cancel,
) -> Result<Renamed, Cancelled> {
    let (path, line, byte) = at;
    let target = Target::at(snapshot, path, line, byte).filter(can_be_renamed);
    let Some(target) = target else {
        return Ok(Err(
            "there is no name here that can be changed: it has to be that of an entry, and no `let`"
                .to_owned(),
        ));
    };
    if !is_a_name(new) {
        return Ok(Err(format!(
            "`{new}` cannot stand where a name stands: a name is one word of letters, digits and hyphens, without a \
             dot, and none of the words that the language uses between names"
        )));
    }
    let mut places = Vec::new();
    let declared = target.declared(snapshot).into_iter();
    places.extend(declared.map(|it| it.at));
    for file in snapshot.files() {
        cancel.check()?;
        match in_file(snapshot, &target.entry, &target, file, new) {
            Ok(found) => places.extend(found.into_iter().map(|it| it.at)),
            Err(why) => return Ok(Err(why)),
        }
    }
    let outside = places
        .iter()
        .find(|at| !roots.is_empty() && !roots.iter().any(|root| at.path.starts_with(root)));
    Ok(match outside {
        Some(at) => Err(format!(
            "{}, line {}, names it too and lies outside the folders that are open here",
            at.shown,
            at.line + 1
        )),
        None => Ok(places),
    })
}

/// The uses in one file, or why the name cannot be changed there.
fn in_file(
    snapshot: &Snapshot,
    entry: &Declared,
    target: &Target,
    file: &SourceFile,
    new: &str,
) -> Result<Vec<Reference>, String> {
    if !sees(snapshot, file, entry) {
        return Ok(vec![]);
    }
    if let Some(taken) = taken(snapshot, file, entry, new) {
        return Err(format!(
            "`{new}` is the name of a {} in {} already, and {} sees both",
            taken.key.word, taken.key.file, file.shown
        ));
    }
    if let Some(line) = unread_line_with(file, entry.name()) {
        return Err(format!(
            "{}, line {}, could not be read and holds `{}`: mend that line first",
            file.shown,
            line + 1,
            entry.name()
        ));
    }
    Ok(target.uses_in(snapshot, file))
}

/// Whether a name in the file can lead to the entry.
fn sees(snapshot: &Snapshot, file: &SourceFile, entry: &Declared) -> bool {
    let same = |it: &Arc<Declared>| it.key == entry.key;
    if entry.is(Role::Plant) {
        let plants = snapshot.plants_named(file, entry.name());
        let mut openers = plants.iter().filter_map(|plant| plant.opener.as_ref());
        return openers.any(same) || file.entries().iter().any(same);
    }
    let layers = snapshot.scope(file).layers;
    layers.iter().flat_map(|layer| layer.entries()).any(same)
}

/// What has the new name already where the file looks names up.
fn taken(
    snapshot: &Snapshot,
    file: &SourceFile,
    entry: &Declared,
    new: &str,
) -> Option<Arc<Declared>> {
    if entry.is(Role::Plant) {
        let plants = snapshot.plants_named(file, new);
        return plants.iter().find_map(|plant| plant.opener.clone());
    }
    match snapshot.scope(file).find(new) {
        Found::Nowhere => None,
        Found::One(found) => Some(found).filter(|found| found.key != entry.key),
        Found::Several(found) => found.into_iter().find(|found| found.key != entry.key),
    }
}

/// The first line that could not be read and holds the name as a word.
fn unread_line_with(file: &SourceFile, name: &str) -> Option<u32> {
    let document = file.document();
    let mut buffer = Vec::new();
    let wrong = file.entries().iter().zip(document.blocks());
    for (entry, block) in wrong {
        let unread = entry.notices.iter().filter(|notice| {
            [
                &notices::NOT_READ,
                &notices::UNKNOWN_KEY,
                &notices::LEFT_OVER,
            ]
            .contains(&notice.code)
        });
        for notice in unread {
            let line = block.first_line.saturating_add(notice.origin.line);
            let text = document.line_text(line).unwrap_or("");
            tokens(text, &mut buffer);
            let held = buffer.iter().any(|token| {
                let word = text.get(token.start as usize..token.end as usize);
                word.is_some_and(|word| word.split('.').next() == Some(name))
            });
            if held {
                return Some(line);
            }
        }
    }
    None
}

/// Whether the reader of names takes it, in a header and in a line: asked of the reader itself.
fn is_a_name(new: &str) -> bool {
    let file: Arc<str> = "".into();
    let text = format!("move {new}\n  carries {new}\n");
    let read = Declared::read(&file, 0, &text);
    let link = read.of::<Move>().and_then(|it| it.carries.known());
    let load = Declared::read(&file, 0, &format!("load {new}"));
    !new.contains('.')
        && load.of::<Load>().is_some()
        && load.notices.is_empty()
        && read.notices.is_empty()
        && read.name() == new
        && link.is_some_and(|link| link.value.load.name.as_ref() == new)
}
