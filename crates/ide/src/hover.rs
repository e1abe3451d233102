//! What stands at a place: a name and what it carries, a key and its shape, a value and what it is used for.

use crate::calculation::{calculations, of_let};
use crate::definition::lead_to;
use crate::place::{Spot, name_item, name_of};
use crate::results::{inputs, results, say};
use plumbhook_model::{BASES, Declared, Key, OptionOf, Repeat, rule_set};
use plumbhook_sheet::{Origin, Severity};
use plumbhook_syntax::{Entry, Item, Place, Statement, read_entry};
use plumbhook_units::Printer;
use plumbhook_workspace::{Checked, Located, Snapshot};
use std::path::Path;
use std::sync::Arc;

/// What is shown at a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hover {
    /// The words, in Markdown.
    pub markdown: String,
    /// The stretch they speak of.
    pub at: Located,
}

/// What stands at a place; `None` where nothing is known of it.
///
/// `line` counts from 0, `byte` from the start of the line. Results come from `checked`, which is of this snapshot.
pub fn hover(
    snapshot: &Snapshot,
    checked: &Checked,
    path: &Path,
    line: u32,
    byte: u32,
) -> Option<Hover> {
    let spot = Spot::at(snapshot, path, line, byte)?;
    let entry = read_entry(spot.text);
    let (markdown, place) = on_name(snapshot, checked, &spot)
        .or_else(|| on_header(snapshot, checked, &spot, &entry))
        .or_else(|| on_key(&spot, &entry))
        .or_else(|| on_word(&spot, &entry))
        .or_else(|| on_value(snapshot, checked, &spot, &entry))?;
    Some(Hover {
        markdown,
        at: spot.located(snapshot, place)?,
    })
}

type Said = (String, Place);

/// A name that leads elsewhere: what it is, and what the checks say of it here.
fn on_name(snapshot: &Snapshot, checked: &Checked, spot: &Spot<'_>) -> Option<Said> {
    let link = spot.link()?;
    let place = Place {
        start: link.origin.start,
        end: link.origin.end,
    };
    let entries = lead_to(snapshot, spot.file, spot.entry, &link);
    let [entry] = entries.as_slice() else {
        let say = match entries.len() {
            _ if one_an_option(&entries) => {
                let each = entries.iter().map(|entry| who(snapshot, entry));
                each.collect::<Vec<_>>().join("\n\n")
            }
            0 => format!("`{}` is declared nowhere that this file sees", link.head()),
            n => format!(
                "`{}` is declared {n} times, so it leads nowhere",
                link.head()
            ),
        };
        return Some((say, place));
    };
    let mut parts = vec![who(snapshot, entry)];
    let here = |origin: &Origin| *origin == *link.origin;
    let own = results(checked, |finding| here(&finding.aspect.primary));
    let used = if own.is_empty() {
        results(checked, |finding| speaks_of(finding, entry))
    } else {
        own
    };
    parts.push(say(&used, checked.cases.len() > 1));
    parts.push(inputs(&used, |origin| origin.entry == entry.key).join("\n"));
    Some((joined(parts), place))
}

/// Whether each of several entries belongs to an option of its own: then a case sees one of them.
fn one_an_option(entries: &[Arc<Declared>]) -> bool {
    let apart = |at: usize, entry: &Declared| {
        let mut others = entries.iter().skip(at + 1);
        others.all(|other| !other.option().meets(entry.option()))
    };
    let mut all = entries.iter().enumerate();
    entries.len() > 1 && all.all(|(at, entry)| apart(at, entry))
}

/// Whether a check is about an entry, or a number of it went into it.
fn speaks_of(finding: &plumbhook_sheet::Finding, entry: &Declared) -> bool {
    let sheet = &finding.aspect.sheet;
    let of_it = |origin: &Origin| origin.entry == entry.key;
    let used = sheet.inputs.iter().flat_map(|input| &input.origins);
    of_it(&finding.aspect.primary) || used.into_iter().any(of_it)
}

/// "**bow-17** shackle, Our 17 t bow" with its file and line.
fn who(snapshot: &Snapshot, entry: &Declared) -> String {
    let place = name_of(snapshot, entry)
        .map_or_else(String::new, |at| format!(" ({}:{})", at.shown, at.line + 1));
    let title = if entry.title.is_empty() {
        String::new()
    } else {
        format!(", {}", entry.title)
    };
    let option = match entry.option() {
        OptionOf::One(option) => format!(", in option {option}"),
        OptionOf::Each | OptionOf::NotKnown => String::new(),
    };
    format!(
        "**{}** {}{title}{option}{place}",
        entry.name(),
        entry.key.word
    )
}

/// The word of an entry: its help; its name: what the checks say of it.
fn on_header(
    snapshot: &Snapshot,
    checked: &Checked,
    spot: &Spot<'_>,
    entry: &Entry<'_>,
) -> Option<Said> {
    if spot.line != 0 {
        return None;
    }
    let word = entry.header.key.place;
    if spot.is_on(word) {
        let block = spot.entry.block?;
        return Some((format!("**{}**: {}", block.word, block.help.trim()), word));
    }
    let name = name_item(entry).filter(|item| spot.is_on(item.place))?;
    let used = results(checked, |finding| speaks_of(finding, spot.entry));
    let parts = vec![
        who(snapshot, spot.entry),
        say(&used, checked.cases.len() > 1),
    ];
    Some((joined(parts), name.place))
}

/// A key: its help, what it takes, how often.
fn on_key(spot: &Spot<'_>, entry: &Entry<'_>) -> Option<Said> {
    let statement = statement_at(spot, entry)?;
    let place = statement.key.place;
    if statement.line != spot.line || !spot.is_on(place) {
        return None;
    }
    let word = statement.key.raw(statement.text);
    let key = spot.entry.block?.keys.iter().find(|key| key.word == word)?;
    Some((key_help(key), place))
}

/// A word of a closed list: how a value is known, or a rule set.
fn on_word(spot: &Spot<'_>, entry: &Entry<'_>) -> Option<Said> {
    let statement = statement_at(spot, entry).filter(|found| found.line == spot.line)?;
    let word = |item: &Item<'_>| (item.raw(statement.text).to_owned(), item.place);
    let basis = statement.provenance.iter().flat_map(|from| &from.items);
    if let Some((word, place)) = basis
        .take(1)
        .filter(|item| spot.is_on(item.place))
        .map(word)
        .next()
    {
        let (_, help) = BASES.iter().find(|(basis, _)| *basis == word)?;
        return Some((format!("**{word}**: {help}"), place));
    }
    let key = statement.key.raw(statement.text);
    if &*spot.entry.key.word != "job" || key != "rules" {
        return None;
    }
    let (word, place) = statement
        .items
        .iter()
        .filter(|item| spot.is_on(item.place))
        .map(word)
        .next()?;
    let set = rule_set(&word)?;
    Some((format!("**{word}**: {}", set.help), place))
}

fn key_help(key: &Key) -> String {
    let often = match key.repeat {
        Repeat::Once => "It stands once.",
        Repeat::Claims => "Repeat the line for each claim; the worst side of each counts.",
        Repeat::Members => "Repeat the line for each.",
    };
    format!(
        "**{}**: {}\n\nTakes {}. {often}",
        key.word,
        key.help.trim(),
        key.shape.say
    )
}

/// A value: what was read of it, what is said against it, and what it went into.
fn on_value(
    snapshot: &Snapshot,
    checked: &Checked,
    spot: &Spot<'_>,
    entry: &Entry<'_>,
) -> Option<Said> {
    if spot.entry.is_let() {
        let printer = printer(checked);
        let said = of_let(snapshot, spot.entry, printer)?;
        return Some((said, value_place(spot, entry)?));
    }
    let here = |origin: &Origin| spot.is_in(origin);
    let against = results(checked, |finding| {
        finding.severity > Severity::Quiet && here(&finding.aspect.primary)
    });
    let into = results(checked, |finding| {
        let inputs = finding.aspect.sheet.inputs.iter();
        inputs.flat_map(|input| &input.origins).any(here)
    });
    if against.is_empty() && into.is_empty() {
        return None;
    }
    let several = checked.cases.len() > 1;
    let used = if against.is_empty() { &into } else { &against };
    let origins = into
        .iter()
        .flat_map(|(_, finding)| &finding.aspect.sheet.inputs)
        .flat_map(|input| &input.origins)
        .filter(|origin| here(origin));
    let parts = vec![
        calculations(snapshot, origins, printer(checked)),
        inputs(&into, here).join("\n"),
        say(used, several),
    ];
    let place = value_place(spot, entry)?;
    Some((joined(parts), place))
}

/// How numbers are printed where no case is looked at: as in the first one.
fn printer(checked: &Checked) -> Printer {
    let first = checked.cases.first();
    first.map(|case| case.printer).unwrap_or_default()
}

/// The value of the line at the place, from its first item to its last.
fn value_place(spot: &Spot<'_>, entry: &Entry<'_>) -> Option<Place> {
    let statement = statement_at(spot, entry)?;
    if let Some(row) = statement.rows.iter().find(|row| row.line == spot.line) {
        let mut cells = row.cells.iter().map(|cell| cell.place);
        return cells.find(|place| spot.is_on(*place));
    }
    let (first, last) = (statement.items.first()?, statement.items.last()?);
    Some(Place {
        start: first.place.start,
        end: last.place.end,
    })
}

/// The statement that the line of the place belongs to; the header too.
fn statement_at<'e, 'a>(spot: &Spot<'_>, entry: &'e Entry<'a>) -> Option<&'e Statement<'a>> {
    let mut all = std::iter::once(&entry.header).chain(&entry.statements);
    all.find(|statement| {
        statement.line == spot.line || statement.rows.iter().any(|row| row.line == spot.line)
    })
}

fn joined(parts: Vec<String>) -> String {
    let said: Vec<_> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    said.join("\n\n")
}
