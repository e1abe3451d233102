//! What the reader of a key would take at a place, asked of the reader itself.
//!
//! A shape says in words and by an example what it takes, not where in the line which name stands. So a line is read
//! with a word of ours at the place, and behind it what stands there, or nothing, or the end of the example that the
//! declaration gives. If the reader makes a link of our word, it says of what role.

use plumbhook_model::{Block, Declared, Key, Role};
use plumbhook_syntax::{Place, Statement, tokens};
use plumbhook_units::{Kind, ONE, RISE, UNITS, Unit};
use std::sync::Arc;

/// A name that no one gives.
const WORD: &str = "zz-probe";
/// Ends of examples that are tried; an example is a line.
const MOST_TAILS: usize = 48;

/// A line with a gap.
pub(crate) struct Probe {
    /// The entry up to the gap.
    head: String,
    /// Line and byte of the gap.
    line: u32,
    byte: u32,
    /// What may stand behind it, likeliest first.
    tails: Vec<String>,
    file: Arc<str>,
}

impl Probe {
    /// A gap in the line of a key, or in a header.
    pub(crate) fn line(block: &Block, key: &Key, text: &str, gap: Place) -> Self {
        let before = text.get(..gap.start as usize).unwrap_or("");
        let (head, line) = if key.word.is_empty() {
            (before.to_owned(), 0)
        } else {
            (format!("{} zz\n{before}", block.word), 1)
        };
        Self::new(head, line, gap.start, tails(key, text, gap, ""))
    }

    /// A gap in a row below a statement; what the cells before it lack is taken from another row.
    pub(crate) fn row(
        block: &Block,
        key: &Key,
        statement: &Statement<'_>,
        text: &str,
        line: u32,
        gap: Place,
    ) -> Option<Self> {
        let names = statement.rows.first().filter(|row| row.line < line)?.text;
        let before = text.get(..gap.start as usize)?;
        let head = format!("{} zz\n{}\n{names}\n{before}", block.word, statement.text);
        Some(Self::new(head, 3, gap.start, tails(key, text, gap, " |")))
    }

    fn new(head: String, line: u32, byte: u32, tails: Vec<String>) -> Self {
        Self {
            head,
            line,
            byte,
            tails,
            file: "".into(),
        }
    }

    fn read(&self, word: &str, tail: &str) -> Declared {
        Declared::read(&self.file, 0, &format!("{}{word}{tail}", self.head))
    }

    /// What a name at the gap has to be; `None` where no name of an entry can stand.
    pub(crate) fn role(&self) -> Option<Role> {
        self.tails.iter().find_map(|tail| {
            let read = self.read(WORD, tail);
            let links = read.body.iter().flat_map(|body| body.links());
            let mut here = links.filter(|link| {
                link.origin.line == self.line && link.origin.start == self.byte && link.name == WORD
            });
            here.next().map(|link| link.role)
        })
    }

    /// The units with which the line can be read; those of `kind` where it cannot be read anyhow.
    pub(crate) fn units(&self, kind: Option<Kind>) -> Vec<&'static Unit> {
        let reads = |unit: &Unit, tail: &str| {
            let read = self.read(unit.symbol, tail);
            read.notices.iter().all(|it| it.origin.line != self.line)
        };
        // The table's first unit of each kind stands for the others while an end is looked for.
        let firsts: Vec<_> = Kind::ALL
            .iter()
            .filter_map(|kind| kind.units().next())
            .collect();
        let tail = self
            .tails
            .iter()
            .find(|tail| firsts.iter().any(|unit| reads(unit, tail)));
        match tail {
            Some(tail) => written().filter(|unit| reads(unit, tail)).collect(),
            None => written()
                .filter(|unit| kind.is_some_and(|kind| kind.accepts(unit)))
                .collect(),
        }
    }
}

/// The units that are written behind a number.
fn written() -> impl Iterator<Item = &'static Unit> {
    UNITS
        .iter()
        .filter(|unit| **unit != *ONE && **unit != *RISE)
}

/// What stands behind the gap, nothing, and the ends of the examples, each with `close` behind it.
fn tails(key: &Key, text: &str, gap: Place, close: &str) -> Vec<String> {
    let behind = text.get(gap.end as usize..).unwrap_or("");
    let mut all = vec![behind.to_owned(), close.to_owned()];
    for example in examples(key) {
        let mut found = Vec::new();
        tokens(example, &mut found);
        let ends = found
            .iter()
            .filter_map(|token| example.get(token.start as usize..));
        all.extend(ends.map(|end| format!(" {end}{close}")));
    }
    all.truncate(MOST_TAILS);
    all
}

/// The examples in a key's words: what stands between backticks.
pub(crate) fn examples(key: &Key) -> impl Iterator<Item = &'static str> {
    key.shape.say.split('`').skip(1).step_by(2)
}
