//! Entries: a block's lines as statements, rows and provenance. Knows positions only, no key and no kind of entry.

use crate::fault::Fault;
use crate::item::{Item, Node};
use crate::lines::lines;
use crate::place::Place;
use crate::reader::{read, read_key, without_comment};
use crate::token::{Class, Token, tokens};

/// One entry: its first line and the indented lines behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry<'a> {
    /// The first line; its key is the word that says what entry it is, its items are name, title and the rest.
    pub header: Statement<'a>,
    /// The other statements, in order.
    pub statements: Vec<Statement<'a>>,
}

/// One line: a key and its items.
#[derive(Clone, Debug, PartialEq)]
pub struct Statement<'a> {
    /// Lines after the entry's first line, whose number is 0.
    pub line: u32,
    /// The first word, alone whatever follows.
    pub key: Item<'a>,
    /// What stands between key and provenance.
    pub items: Vec<Item<'a>>,
    /// What stands behind the first bare word `from` outside brackets and quotation marks.
    pub provenance: Option<Provenance<'a>>,
    /// The `|` lines behind this line, blank lines and comments apart.
    pub rows: Vec<Row<'a>>,
    /// The whole line, comment included, without its line ending; all places count from its start.
    pub text: &'a str,
}

/// How a value is known: `from` and what follows.
#[derive(Clone, Debug, PartialEq)]
pub struct Provenance<'a> {
    /// From the word `from` to the end.
    pub place: Place,
    /// What stands behind `from`; may be empty, and may hold another `from`, which is then a mistake.
    pub items: Vec<Item<'a>>,
}

/// One `|` line.
#[derive(Clone, Debug, PartialEq)]
pub struct Row<'a> {
    /// Lines after the entry's first line.
    pub line: u32,
    /// The whole line; places count from its start.
    pub text: &'a str,
    /// What stands between the bars. The bar at the end of the line may be missing.
    pub cells: Vec<Cell<'a>>,
}

/// One cell of a row; empty if nothing stands between its bars.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell<'a> {
    /// From its first item to its last; where it is empty, from bar to bar.
    pub place: Place,
    /// What stands in it before its provenance.
    pub items: Vec<Item<'a>>,
    /// What stands behind a bare word `from` in it.
    pub provenance: Option<Provenance<'a>>,
}

/// Reads one block of a [`crate::Document`]. Cannot fail; every line that is neither blank nor comment is a
/// statement or a row, and what cannot be read in it is [`Node::Bad`].
pub fn read_entry(block_text: &str) -> Entry<'_> {
    let mut buffer = Vec::new();
    let mut numbered = (0_u32..).zip(lines(block_text));
    let (_, first) = numbered.next().unwrap_or((0, ""));
    tokens(first, &mut buffer);
    let mut entry = Entry {
        header: statement(0, first, without_comment(&buffer)),
        statements: Vec::new(),
    };
    for (line, text) in numbered {
        tokens(text, &mut buffer);
        let content = without_comment(&buffer);
        match content.first().map(|token| token.class) {
            None => {}
            Some(Class::Bar) => {
                let above = entry.statements.last_mut().unwrap_or(&mut entry.header);
                above.rows.push(row(line, text, content));
            }
            Some(_) => entry.statements.push(statement(line, text, content)),
        }
    }
    entry
}

fn statement<'a>(line: u32, text: &'a str, content: &[Token]) -> Statement<'a> {
    let (key, rest) = match content.split_first() {
        Some((_, rest)) => (read_key(text, content), rest),
        None => (nothing_here(), content),
    };
    let (items, provenance) = with_provenance(text, rest);
    Statement {
        line,
        key,
        items,
        provenance,
        rows: Vec::new(),
        text,
    }
}

fn nothing_here<'a>() -> Item<'a> {
    Item {
        place: Place { start: 0, end: 0 },
        node: Node::Bad(Fault::NoEntry),
    }
}

/// Cuts provenance off before anything else is read, so that no shape can take `from` for its own.
fn with_provenance<'a>(
    text: &'a str,
    content: &[Token],
) -> (Vec<Item<'a>>, Option<Provenance<'a>>) {
    let Some(at) = provenance_at(text, content) else {
        return (read(text, content), None);
    };
    let (value, rest) = content.split_at_checked(at).unwrap_or((content, &[]));
    let provenance = rest.split_first().map(|(from, source)| Provenance {
        place: from.place().to(source.last().unwrap_or(from).place()),
        items: read(text, source),
    });
    (read(text, value), provenance)
}

/// Which token is the `from` behind which provenance stands: the first bare one outside brackets. `from horizontal`
/// and `from vertical` say what an angle is measured from, and are no provenance.
pub fn provenance_at(text: &str, content: &[Token]) -> Option<usize> {
    let mut open = 0_usize;
    let word = |index: usize| {
        let token = content
            .get(index)
            .filter(|token| token.class == Class::Word);
        token.map_or("", |token| token.place().of(text))
    };
    content.iter().enumerate().position(|(index, token)| {
        match token.class {
            Class::Open => open += 1,
            Class::Close => open = open.saturating_sub(1),
            _ => {}
        }
        let datum = ANGLE_DATUMS.contains(&word(index + 1));
        open == 0 && word(index) == "from" && !datum
    })
}

/// What an angle may be measured from, behind the word `from`. No source has such a name.
pub const ANGLE_DATUMS: [&str; 2] = ["horizontal", "vertical"];

fn row<'a>(line: u32, text: &'a str, content: &[Token]) -> Row<'a> {
    let mut cells = Vec::with_capacity(6);
    let mut rest = content;
    while let Some((bar, behind)) = rest.split_first() {
        let length = behind
            .iter()
            .position(|token| token.class == Class::Bar)
            .unwrap_or(behind.len());
        let (inside, next) = behind.split_at_checked(length).unwrap_or((behind, &[]));
        // Nothing behind the last bar: that bar only closed the row.
        if !(inside.is_empty() && next.is_empty()) {
            cells.push(cell(text, *bar, inside, next.first()));
        }
        rest = next;
    }
    Row { line, text, cells }
}

fn cell<'a>(text: &'a str, bar: Token, inside: &[Token], next: Option<&Token>) -> Cell<'a> {
    let place = match (inside.first(), inside.last(), next) {
        (Some(first), Some(last), _) => first.place().to(last.place()),
        (_, _, next) => Place {
            start: bar.end,
            end: next.map_or(bar.end, |next| next.start),
        },
    };
    let (items, provenance) = with_provenance(text, inside);
    Cell {
        place,
        items,
        provenance,
    }
}
