//! The offers themselves: label, help, what is put in.

use super::probe::examples;
use super::{Offer, OfferKind};
use plumbhook_model::{BASES, Block, Declared, Found, Key, RULE_SETS, Repeat, Role};
use plumbhook_syntax::{Class, read_entry, tokens};
use plumbhook_units::Unit;
use plumbhook_workspace::{FileKind, Snapshot, SourceFile};
use std::sync::Arc;

fn offer(label: &str, kind: OfferKind, detail: impl Into<String>, help: &str) -> Offer {
    Offer {
        label: label.to_owned(),
        kind,
        detail: detail.into(),
        help: help.trim().to_owned(),
        insert: label.to_owned(),
        snippet: None,
    }
}

pub(super) fn entry_word(block: &Block, alone: bool) -> Offer {
    let word = block.word;
    Offer {
        insert: if alone {
            format!("{word} ")
        } else {
            word.to_owned()
        },
        snippet: alone.then(|| format!("{word} ${{1:name}} \"${{2:title}}\"\n  $0")),
        ..offer(word, OfferKind::EntryWord, "entry", block.help)
    }
}

pub(super) fn key(key: &Key, blanks: usize) -> Offer {
    let often = match key.repeat {
        Repeat::Once => "",
        Repeat::Claims => " Repeat the line for each claim.",
        Repeat::Members => " Repeat the line for each.",
    };
    Offer {
        insert: format!("{}{}", key.word, " ".repeat(blanks)),
        help: format!("{}\n\nTakes {}.{often}", key.help.trim(), key.shape.say),
        ..offer(key.word, OfferKind::Key, key.shape.say, "")
    }
}

/// The words of a shape; some are several words (`by role`).
pub(super) fn words(key: &Key) -> Vec<Offer> {
    let words = key.shape.words.iter();
    words
        .map(|word| {
            offer(
                word,
                OfferKind::Word,
                format!("of `{}`", key.word),
                key.shape.say,
            )
        })
        .collect()
}

/// Words that stand first in the examples of a table's cells (`EL`, `above`, `on`).
pub(super) fn first_words(key: &Key) -> Vec<Offer> {
    let mut found: Vec<Offer> = Vec::new();
    for example in examples(key) {
        let mut buffer = Vec::new();
        tokens(example, &mut buffer);
        let first = buffer.first().filter(|token| token.class == Class::Word);
        let word = first.and_then(|it| example.get(it.start as usize..it.end as usize));
        if let Some(word) = word.filter(|word| found.iter().all(|it| it.label != *word)) {
            found.push(offer(word, OfferKind::Word, format!("as `{example}`"), ""));
        }
    }
    found
}

/// The columns of a table that its row of names does not have yet.
pub(super) fn columns(key: &Key, row: &str) -> Vec<Offer> {
    let header = examples(key).find(|example| example.starts_with('|'));
    let names = header.unwrap_or("").split('|').map(str::trim);
    let there: Vec<_> = row.split('|').map(str::trim).collect();
    names
        .filter(|name| !name.is_empty() && !there.contains(name))
        .map(|name| {
            offer(
                name,
                OfferKind::Column,
                format!("column of `{}`", key.word),
                "",
            )
        })
        .collect()
}

/// `from`, behind a value.
pub(super) fn from() -> Offer {
    offer(
        "from",
        OfferKind::Word,
        "how it is known",
        "A declared source, or a word for how it is known.",
    )
}

/// What can stand behind `from`: declared sources, then the closed list.
pub(super) fn origins(snapshot: &Snapshot, file: &SourceFile) -> Vec<Offer> {
    let mut found = names(snapshot, file, Role::Source);
    found.extend(
        BASES
            .iter()
            .map(|(basis, help)| offer(basis, OfferKind::Word, *help, "")),
    );
    found
}

/// Words of a list that is kept beside the declarations: the rule sets.
pub(super) fn of_closed_list(block: &Block, key: &Key) -> Vec<Offer> {
    if (block.word, key.word) != ("job", "rules") {
        return vec![];
    }
    RULE_SETS
        .iter()
        .map(|set| offer(set.word, OfferKind::Word, "rule set", set.help))
        .collect()
}

/// Values that the file names, where a key takes numbers.
pub(super) fn named_values(file: &SourceFile, key: &Key) -> Vec<Offer> {
    let takes_numbers = key.shape.kind.is_some();
    let lets = file
        .entries()
        .iter()
        .filter(|it| takes_numbers && it.is_let());
    lets.filter(|entry| !entry.name().is_empty())
        .map(|entry| offer(entry.name(), OfferKind::Name, "let", ""))
        .collect()
}

/// Everything in sight of a file that has a role, by name.
pub(super) fn names(snapshot: &Snapshot, file: &SourceFile, role: Role) -> Vec<Offer> {
    let entries: Vec<Arc<Declared>> = if role == Role::Plant {
        let plants = snapshot
            .files()
            .filter(|plant| plant.kind == Some(FileKind::Plant))
            .filter_map(|plant| plant.opener.clone());
        plants
            .filter(|plant| !snapshot.plants_named(file, plant.name()).is_empty())
            .collect()
    } else {
        snapshot.scope(file).of_role(role)
    };
    entries
        .iter()
        .filter(|entry| !entry.name().is_empty())
        .map(|entry| {
            let title = match &*entry.title {
                "" => String::new(),
                title => format!(", {title}"),
            };
            let detail = format!("{}{title} ({})", entry.key.word, entry.key.file);
            offer(entry.name(), OfferKind::Name, detail, "")
        })
        .collect()
}

/// The named members of an entry, each with the entry's name and a dot before it.
pub(super) fn members(snapshot: &Snapshot, file: &SourceFile, head: &str) -> Vec<Offer> {
    let Found::One(entry) = snapshot.scope(file).find(head) else {
        return vec![];
    };
    let read = || {
        let of = snapshot.file_shown(&entry.key.file)?;
        let text = read_entry(of.document().block_text(of.block_of(&entry.key)?));
        let keys = entry.block?.keys;
        let named = text.statements.iter().filter_map(|statement| {
            let key = statement.key.raw(statement.text);
            keys.iter()
                .find(|known| known.word == key && known.repeat == Repeat::Members)?;
            let name = statement.items.first()?.raw(statement.text);
            let label = format!("{head}.{name}");
            Some(offer(
                &label,
                OfferKind::Name,
                format!("{key} of {head}"),
                "",
            ))
        });
        Some(named.collect())
    };
    read().unwrap_or_default()
}

pub(super) fn units(units: &[&'static Unit]) -> Vec<Offer> {
    let offers = units.iter();
    offers
        .map(|unit| offer(unit.symbol, OfferKind::Unit, unit.name, unit.help))
        .collect()
}
