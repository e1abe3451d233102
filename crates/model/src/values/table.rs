//! Tables: rows of cells under named columns, each cell read by the shape of its column.
//!
//! Two forms mean the same. Upright, the first row names the columns and each further row is a row; turned, each
//! row begins with the name of its column, as rating tables are printed:
//!
//! ```text
//! chart                      chart
//!   | radius | rated  |        | radius | 8 m    | 10 m   |
//!   | 8 m    | 51.0 t |        | rated  | 51.0 t | 40.2 t |
//!   | 10 m   | 40.2 t |
//! ```

use super::from_csv::from_csv;
use crate::declare::{Link, Shape, nearest};
use crate::{Cursor, Fail, Reading, Value};
use plumbhook_sheet::{Origin, Part};
use plumbhook_syntax::{Cell, Place, Row};
use std::rc::Rc;

/// The most rows that are read of a table.
pub const MOST_ROWS: usize = 2_000;

/// A column that a table may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its name, as the table writes it.
    pub word: &'static str,
    /// Whether a table without it is refused.
    pub needed: bool,
}

impl Column {
    /// A column that every table of the kind has.
    pub const fn needed(word: &'static str) -> Self {
        Self { word, needed: true }
    }

    /// A column that may be left out, and whose cells may be empty.
    pub const fn optional(word: &'static str) -> Self {
        Self {
            word,
            needed: false,
        }
    }
}

/// What a row of a table is.
pub trait TableRow: Clone + Sized + 'static {
    /// The whole table in words: "rows `| radius | rated |`: …".
    const SAY: &'static str;
    /// Its columns, in the order that messages name them.
    const COLUMNS: &'static [Column];
    /// Reads one row; a failure makes the whole table unknown.
    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fail>;
    /// Every name in it that leads elsewhere.
    fn links<'a>(&'a self, _out: &mut Vec<Link<'a>>) {}
}

/// Rows of one kind, in order; never empty.
#[derive(Clone, Debug)]
pub struct Table<R>(pub Vec<R>);

impl<R: TableRow> Value for Table<R> {
    const SHAPE: Shape = Shape::said(R::SAY);
    const ROWS: bool = true;

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        if line.word("in") {
            return from_csv(line).map(Self);
        }
        let here = Source {
            rows: line.rows,
            entry: line.entry,
            home: (line.line, line.here()),
        };
        read_rows(&here).map(Self)
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        for row in &self.0 {
            row.links(out);
        }
    }
}

/// A value in a cell, and where the cell stands.
#[derive(Clone, Debug)]
pub struct InCell<T> {
    /// The value.
    pub value: T,
    /// The cell; its part is the row.
    pub origin: Origin,
}

/// The cells of one row, by column.
#[derive(Debug)]
pub struct Cells<'c, 'a> {
    columns: Rc<[&'static str]>,
    row: Vec<(&'c Row<'a>, &'c Cell<'a>)>,
    entry: &'c Reading<'c>,
    part: Part,
    /// Where something is said of a cell that is not there.
    home: (u32, Place),
}

impl<'c, 'a> Cells<'c, 'a> {
    /// Which row of the table it is, from 0.
    pub fn part(&self) -> Part {
        self.part
    }

    /// A cell that says something; `None` where the table has no such column, or nothing stands in the cell.
    fn get(&self, column: &str) -> Option<(&'c Row<'a>, &'c Cell<'a>)> {
        let at = self.columns.iter().position(|name| *name == column)?;
        let (row, cell) = *self.row.get(at)?;
        (!cell.items.is_empty() || cell.provenance.is_some()).then_some((row, cell))
    }

    /// Where a cell stands; where its row stands if there is none.
    pub fn origin(&self, column: &str) -> Origin {
        let (line, place) = self
            .get(column)
            .map_or(self.home, |(row, cell)| (row.line, cell.place));
        Origin::at(self.entry, line, place.start, place.end, self.part)
    }

    /// The cell of a column that each row needs.
    pub fn read<T: Value>(&self, column: &str) -> Result<InCell<T>, Fail> {
        self.read_by(column, T::read)
    }

    /// The same, by a reader of its own.
    pub fn read_by<T>(
        &self,
        column: &str,
        read: impl FnOnce(&mut Cursor<'c, 'a>) -> Result<T, Fail>,
    ) -> Result<InCell<T>, Fail> {
        match self.optional_by(column, read)? {
            Some(found) => Ok(found),
            None => Err(self.fail(
                format!("the cell of `{column}` is missing in this row"),
                "write the value, or `unknown`",
            )),
        }
    }

    /// The cell of a column that may be left out; `None` where nothing stands there.
    pub fn optional<T: Value>(&self, column: &str) -> Result<Option<InCell<T>>, Fail> {
        self.optional_by(column, T::read)
    }

    /// The same, by a reader of its own.
    pub fn optional_by<T>(
        &self,
        column: &str,
        read: impl FnOnce(&mut Cursor<'c, 'a>) -> Result<T, Fail>,
    ) -> Result<Option<InCell<T>>, Fail> {
        let Some((row, cell)) = self.get(column) else {
            return Ok(None);
        };
        let mut cursor = Cursor::cell(row, cell, self.entry);
        if let Some(from) = &cell.provenance {
            return Err(cursor.broken_at(
                from.place,
                "a cell takes no `from`",
                "say it once, behind the key above the rows",
            ));
        }
        let value = read(&mut cursor)?;
        cursor.finish()?;
        Ok(Some(InCell {
            value,
            origin: self.origin(column),
        }))
    }

    /// A cell that each row needs and that may say `unknown` while the rest of the table still counts: `None` then.
    pub fn answer<T: Value>(&self, column: &str) -> Result<InCell<Option<T>>, Fail> {
        match self.read::<T>(column) {
            Ok(InCell { value, origin }) => Ok(InCell {
                value: Some(value),
                origin,
            }),
            Err(Fail::Unknown) => Ok(InCell {
                value: None,
                origin: self.origin(column),
            }),
            Err(fail) => Err(fail),
        }
    }

    /// Something is wrong with the row as a whole.
    pub fn fail(&self, say: impl Into<String>, mend: &str) -> Fail {
        let (line, place) = self.home;
        Fail::broken(line, place, say, mend)
    }
}

/// Rows wherever they come from.
pub(crate) struct Source<'c, 'a> {
    pub(crate) rows: &'c [Row<'a>],
    pub(crate) entry: &'c Reading<'c>,
    /// Line and place of the table as a whole.
    pub(crate) home: (u32, Place),
}

impl Source<'_, '_> {
    fn broken(&self, say: impl Into<String>, mend: &str) -> Fail {
        Fail::broken(self.home.0, self.home.1, say, mend)
    }
}

/// Reads every row.
pub(crate) fn read_rows<R: TableRow>(source: &Source<'_, '_>) -> Result<Vec<R>, Fail> {
    grid(source, R::COLUMNS)?.iter().map(R::read).collect()
}

/// The rows by column, whichever way they stand; never empty.
fn grid<'c, 'a>(source: &Source<'c, 'a>, columns: &[Column]) -> Result<Vec<Cells<'c, 'a>>, Fail> {
    let Some(head) = source.rows.first() else {
        return Err(source.broken(
            "the rows of the table are missing",
            &format!("begin with a row `| {} |` below the key", words(columns)),
        ));
    };
    let grid = if is_turned(source.rows, columns) {
        turned(source, columns)?
    } else {
        upright(source, head, columns)?
    };
    match grid.len() {
        0 => Err(source.broken("the table names its columns and has no row", "")),
        rows if rows > MOST_ROWS => Err(source.broken(
            format!("a table has {MOST_ROWS} rows at most; this has {rows}"),
            "split it",
        )),
        _ => Ok(grid),
    }
}

fn words(columns: &[Column]) -> String {
    let words: Vec<_> = columns.iter().map(|column| column.word).collect();
    words.join(" | ")
}

/// The column that a cell names and nothing else.
fn named(cell: &Cell<'_>, columns: &[Column]) -> Option<&'static str> {
    let [item] = &cell.items[..] else { return None };
    let word = item.word().filter(|_| cell.provenance.is_none())?;
    let column = columns.iter().find(|column| column.word == word)?;
    Some(column.word)
}

/// Whether each row begins with the name of its column.
fn is_turned(rows: &[Row<'_>], columns: &[Column]) -> bool {
    let starts = |row: &Row<'_>| {
        let first = row.cells.first();
        first.is_some_and(|cell| named(cell, columns).is_some())
    };
    let (Some(head), below) = (rows.first(), rows.get(1)) else {
        return false;
    };
    let Some(second) = head.cells.get(1) else {
        return false;
    };
    let word = matches!(&second.items[..], [item] if item.word().is_some());
    starts(head) && named(second, columns).is_none() && (!word || below.is_none_or(starts))
}

fn upright<'c, 'a>(
    source: &Source<'c, 'a>,
    head: &'c Row<'a>,
    columns: &[Column],
) -> Result<Vec<Cells<'c, 'a>>, Fail> {
    let mut names = Vec::new();
    for cell in &head.cells {
        names.push(column_of(head, cell, columns, &names)?);
    }
    let names = complete(source, names, columns)?;
    let rows = source.rows.iter().skip(1).enumerate();
    rows.map(|(index, row)| {
        if let Some(extra) = row.cells.get(names.len()) {
            let say = format!(
                "this cell stands under no column: the table has {}",
                names.len()
            );
            return Err(Fail::broken(row.line, extra.place, say, ""));
        }
        let cells = row.cells.iter().map(|cell| (row, cell)).collect();
        Ok(Cells {
            columns: Rc::clone(&names),
            row: cells,
            entry: source.entry,
            part: part(index),
            home: (row.line, of_row(row)),
        })
    })
    .collect()
}

fn turned<'c, 'a>(source: &Source<'c, 'a>, columns: &[Column]) -> Result<Vec<Cells<'c, 'a>>, Fail> {
    let mut names = Vec::new();
    let mut lines = Vec::new();
    for row in source.rows {
        let (Some(label), rest) = (row.cells.first(), row.cells.get(1..).unwrap_or_default())
        else {
            return Err(Fail::broken(row.line, of_row(row), "this row is empty", ""));
        };
        names.push(column_of(row, label, columns, &names)?);
        lines.push((row, rest));
    }
    let names = complete(source, names, columns)?;
    let rows = lines.first().map_or(0, |(_, cells)| cells.len());
    if let Some((row, cells)) = lines.iter().find(|(_, cells)| cells.len() != rows) {
        let say = format!(
            "this row has {} behind its name, the first row {rows}",
            cells.len()
        );
        let mend = "each cell belongs to the one above it; write `unknown` where nothing is known";
        return Err(Fail::broken(row.line, of_row(row), say, mend));
    }
    let nth = |index: usize| {
        let cells = lines
            .iter()
            .filter_map(|(row, cells)| Some((*row, cells.get(index)?)));
        let cells: Vec<_> = cells.collect();
        let home = cells
            .first()
            .map_or(source.home, |(row, cell)| (row.line, cell.place));
        Cells {
            columns: Rc::clone(&names),
            row: cells,
            entry: source.entry,
            part: part(index),
            home,
        }
    };
    Ok((0..rows.min(MOST_ROWS + 1)).map(nth).collect())
}

/// The column that a cell names, if it names one that is not there yet.
fn column_of(
    row: &Row<'_>,
    cell: &Cell<'_>,
    columns: &[Column],
    before: &[&'static str],
) -> Result<&'static str, Fail> {
    let raw = cell.place.of(row.text);
    let all = || format!("its columns are `| {} |`", words(columns));
    match named(cell, columns) {
        Some(name) if before.contains(&name) => Err(Fail::broken(
            row.line,
            cell.place,
            format!("the column `{name}` stands twice"),
            "",
        )),
        Some(name) => Ok(name),
        None => {
            let near = nearest(raw, columns.iter().map(|column| column.word));
            let mend = near.map_or_else(all, |near| format!("did you mean `{near}`?"));
            let say = format!("`{raw}` names no column of this table");
            Err(Fail::broken(row.line, cell.place, say, &mend))
        }
    }
}

/// The names in order, if every column is there that is needed.
fn complete(
    source: &Source<'_, '_>,
    names: Vec<&'static str>,
    columns: &[Column],
) -> Result<Rc<[&'static str]>, Fail> {
    let mut needed = columns.iter().filter(|column| column.needed);
    match needed.find(|column| !names.contains(&column.word)) {
        Some(missing) => Err(source.broken(
            format!("the column `{}` is missing", missing.word),
            &format!("the columns are `| {} |`", words(columns)),
        )),
        None => Ok(names.into()),
    }
}

fn part(index: usize) -> Part {
    Part::Row(u16::try_from(index).unwrap_or(u16::MAX))
}

/// From the first cell of a row to its last.
fn of_row(row: &Row<'_>) -> Place {
    let nothing = Place { start: 0, end: 0 };
    match (row.cells.first(), row.cells.last()) {
        (Some(first), Some(last)) => Place {
            start: first.place.start,
            end: last.place.end,
        },
        _ => nothing,
    }
}
