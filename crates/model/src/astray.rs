//! Lines that do not stand where they count: under a key that is mistyped, as rows of a key that takes none, or in column 1
//! behind the entry they belong to. What such a line may have said is unknown, not unsaid: a cavity whose key is mistyped
//! is no missing cavity.

use crate::declare::{Block, Key, nearest, unknown_key};
use crate::entries::KINDS;
use crate::named::LET;
use crate::notices;
use crate::reading::Reading;
use plumbhook_sheet::{Notice, Origin, Part};
use plumbhook_syntax::{Entry, Fault, Item, Node, Row, Statement, read_entry};
use std::borrow::Cow;

/// A line of an entry as its reader takes it.
pub struct Line<'e, 'a> {
    /// The key that it counts for.
    pub word: &'e str,
    /// The line; where it only stands in for one that is astray, it cannot be read as any value.
    pub statement: Cow<'e, Statement<'a>>,
    /// Whether what is wrong with it is told already.
    pub told: bool,
}

impl<'e, 'a> Line<'e, 'a> {
    fn real(statement: &'e Statement<'a>, word: &'e str) -> Self {
        Self {
            word,
            statement: Cow::Borrowed(statement),
            told: false,
        }
    }

    fn stand_in(key: &'static Key, at: &Statement<'a>) -> Self {
        let mut statement = at.clone();
        statement.items = vec![Item {
            place: at.key.place,
            node: Node::Bad(Fault::NoEntry),
        }];
        statement.provenance = None;
        statement.rows = vec![];
        Self {
            word: key.word,
            statement: Cow::Owned(statement),
            told: true,
        }
    }
}

/// The lines of an entry in order, with what stands in for each line astray. `header` is what follows the name, where the
/// entry reads that.
pub fn lines_of<'e, 'a>(
    block: &'static Block,
    header: Option<&'e Statement<'a>>,
    text: &'e Entry<'a>,
    entry: &Reading<'_>,
    notices: &mut Vec<Notice>,
) -> Vec<Line<'e, 'a>> {
    let mut lines = Vec::with_capacity(text.statements.len() + 1);
    let tables = || block.keys.iter().filter(|key| key.rows);
    if let Some(header) = header {
        lines.push(Line::real(header, ""));
    }
    if let Some(row) = text.header.rows.first() {
        notices.push(rows_of_nothing(row, &text.header, entry));
        lines.extend(tables().map(|key| Line::stand_in(key, &text.header)));
    }
    for line in &text.statements {
        let word = line.key.raw(line.text);
        let key = (!word.is_empty())
            .then(|| block.keys.iter().find(|key| key.word == word))
            .flatten();
        let Some(key) = key else {
            unknown_key(block, line, entry, notices);
            lines.extend(may_be(block, line).map(|key| Line::stand_in(key, line)));
            continue;
        };
        lines.push(Line::real(line, key.word));
        if let Some(row) = line.rows.first().filter(|_| !key.rows) {
            notices.push(rows_of_nothing(row, line, entry));
            let both = [key].into_iter().chain(tables());
            lines.extend(both.map(|key| Line::stand_in(key, line)));
        }
    }
    if let Some(behind) = entry.behind() {
        let behind = read_entry(behind);
        let all = [&behind.header].into_iter().chain(&behind.statements);
        let keys: Vec<_> = all.flat_map(|line| may_be(block, line)).collect();
        lines.extend(
            keys.into_iter()
                .map(|key| Line::stand_in(key, &text.header)),
        );
    }
    lines
}

/// The keys that a line astray may have been one of: the one it names, or nearly; those that take a table, where it has
/// or is a row.
fn may_be<'b>(
    block: &'static Block,
    line: &'b Statement<'_>,
) -> impl Iterator<Item = &'static Key> + use<'b> {
    let word = line.key.raw(line.text);
    let near = nearest(word, block.keys.iter().map(|key| key.word));
    let has_rows = !line.rows.is_empty() || line.text.contains('|');
    block
        .keys
        .iter()
        .filter(move |key| near == Some(key.word) || key.rows && has_rows)
}

fn rows_of_nothing(row: &Row<'_>, above: &Statement<'_>, entry: &Reading<'_>) -> Notice {
    // A row starts with a bar, whatever stands behind it.
    let start = row.text.len() - row.text.trim_start().len();
    let start = u32::try_from(start).unwrap_or_default();
    let word = above.key.raw(above.text);
    Notice {
        code: &notices::ROWS_ASTRAY,
        say: format!("`{word}` takes no table, so this row belongs to nothing"),
        origin: Origin::at(entry, row.line, start, start + 1, Part::Value),
        related: vec![],
        mend: "put the rows right below the key that they belong to".into(),
    }
}

/// Whether a block that starts with this word holds lines of the entry before it, whose word is `before`, that slipped into
/// column 1: it starts no entry and is no mistyped start of one, or it is a key of the entry before.
pub fn is_astray(text: &str, word: &str, before: &str) -> bool {
    let kind = |word: &str| KINDS.iter().find(|kind| kind.block.word == word);
    if word == LET || kind(word).is_some() {
        return false;
    }
    let Some(before) = kind(before) else {
        return false;
    };
    let is_key = before.block.keys.iter().any(|key| key.word == word);
    let is_row = text.trim_start().starts_with('|');
    is_key || is_row || nearest(word, KINDS.iter().map(|kind| kind.block.word)).is_none()
}
