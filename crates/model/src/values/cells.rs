//! What load cells read, as a table.

use super::part::place;
use super::quantity::Banded;
use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::{Origin, Part};
use plumbhook_syntax::{Cell as TableCell, Node, Row};
use plumbhook_units::{Length, Mass, Measured, Ratio};

/// One load cell.
#[derive(Clone, Debug)]
pub struct Cell {
    /// Its name.
    pub name: Box<str>,
    /// Where it carries, in the load's own frame.
    pub at: [Banded<Length>; 3],
    /// What it read, level.
    pub reading: Mass,
    /// What it read when weighed again, level.
    pub again: Option<Mass>,
    /// What it read with the load tilted.
    pub tilted: Option<Mass>,
    /// Where its row stands.
    pub origin: Origin,
}

/// Rows `| cell | at | reading | again | tilted |`, the first row naming the columns.
#[derive(Clone, Debug)]
pub struct Cells {
    /// The cells.
    pub cells: Vec<Cell>,
    /// Whether it was weighed again.
    pub again: bool,
    /// Whether it was weighed tilted.
    pub tilted: bool,
}

const COLUMNS: [&str; 5] = ["cell", "at", "reading", "again", "tilted"];

impl Value for Cells {
    const SHAPE: Shape = Shape::said(
        "rows `| cell | at | reading |`: where each cell carries in the load's own frame, and what it read, as `| C1 | (1.2 m, 0.8 m, 0) +/- 5 mm | 7.92 t |`; columns `again` and `tilted` may follow",
    );

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let Some((head, rows)) = line.rows.split_first() else {
            return Err(line.broken(
                "the rows of the table are missing",
                "a row is `| C1 | (1.2 m, 0.8 m, 0) +/- 5 mm | 7.92 t |`",
            ));
        };
        let columns = columns(line, head)?;
        let cells = rows
            .iter()
            .enumerate()
            .map(|(index, row)| cell(line, &columns, row, index))
            .collect::<Result<Vec<_>, _>>()?;
        for (index, cell) in cells.iter().enumerate() {
            if cells[..index].iter().any(|other| other.name == cell.name) {
                return Err(line.broken(format!("the cell `{}` stands twice", cell.name), ""));
            }
        }
        Ok(Self {
            cells,
            again: columns.contains(&"again"),
            tilted: columns.contains(&"tilted"),
        })
    }
}

fn columns(line: &Cursor<'_, '_>, head: &Row<'_>) -> Result<Vec<&'static str>, Fail> {
    let mut columns = Vec::new();
    for cell in &head.cells {
        let mut cursor = Cursor::cell(head, cell, line.entry);
        let name = match cursor.take().map(|item| &item.node) {
            Some(Node::Word(word)) => COLUMNS.iter().find(|column| *column == word),
            _ => None,
        };
        match name {
            Some(name) if !columns.contains(name) && cursor.done() => columns.push(*name),
            _ => {
                return Err(cursor.broken_at(
                    cell.place,
                    "this names no column of the table",
                    &format!("its columns are {}", COLUMNS.join(", ")),
                ));
            }
        }
    }
    match COLUMNS[..3].iter().find(|needed| !columns.contains(needed)) {
        None => Ok(columns),
        Some(needed) => Err(line.broken(format!("the column `{needed}` is missing"), "")),
    }
}

fn cell(
    line: &Cursor<'_, '_>,
    columns: &[&str],
    row: &Row<'_>,
    index: usize,
) -> Result<Cell, Fail> {
    let part = Part::Row(u16::try_from(index).unwrap_or(u16::MAX));
    if row.cells.len() != columns.len() {
        return Err(line.broken(
            format!(
                "row {} has {} cells, and the table {} columns",
                index + 1,
                row.cells.len(),
                columns.len()
            ),
            "",
        ));
    }
    let read = |column: &str| -> Option<&TableCell<'_>> {
        let at = columns.iter().position(|name| *name == column)?;
        row.cells.get(at)
    };
    let missing = || line.broken(format!("row {} of the table is too short", index + 1), "");
    let (Some(name), Some(at)) = (read("cell"), read("at")) else {
        return Err(missing());
    };
    let mass = |column: &str| -> Result<Option<Mass>, Fail> {
        let Some(cell) = read(column) else {
            return Ok(None);
        };
        let mut cursor = Cursor::cell(row, cell, line.entry);
        let banded = Banded::<Mass>::read_part(&mut cursor)?;
        cursor.finish()?;
        match banded.nominal {
            Some(mass) if banded.is_plain() => Ok(Some(mass)),
            _ => Err(cursor.broken_at(
                cell.place,
                "a reading is one number; how exact it is stands under `accuracy`",
                "",
            )),
        }
    };
    let mut cursor = Cursor::cell(row, name, line.entry);
    let (called, _) = cursor.name("the name of the cell")?;
    cursor.finish()?;
    let mut cursor = Cursor::cell(row, at, line.entry);
    let place = place::<3>(&mut cursor)?;
    cursor.finish()?;
    Ok(Cell {
        name: called.into(),
        at: place,
        reading: mass("reading")?.ok_or_else(missing)?,
        again: mass("again")?,
        tilted: mass("tilted")?,
        origin: Origin::at(line.entry, row.line, name.place.start, name.place.end, part),
    })
}

/// How exact a reading is: `reading 0.5 %`, `each 20 kg`, or both, which add.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Accuracy {
    /// As a share of the reading.
    pub share: Ratio,
    /// The same at every reading.
    pub each: Mass,
}

impl Value for Accuracy {
    const SHAPE: Shape = Shape {
        say: "how exact a reading is, to both sides: as a share of it, `reading 0.5 %`, the same at every reading, `each 20 kg`, or both, `reading 0.1 %, each 20 kg`, which add",
        kind: None,
        words: &["reading", "each", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let (mut share, mut each) = (None, None);
        loop {
            if line.word("reading") && share.is_none() {
                share = Some(plain::<Ratio>(line)?);
            } else if line.word("each") && each.is_none() {
                each = Some(plain::<Mass>(line)?);
            } else {
                return Err(line.broken("an accuracy is `reading 0.5 %` or `each 20 kg`", ""));
            }
            if !line.comma() {
                break;
            }
        }
        Ok(Self {
            share: share.unwrap_or(Ratio::from_si(0.0)),
            each: each.unwrap_or(Mass::from_si(0.0)),
        })
    }
}

fn plain<T: Measured + 'static>(line: &mut Cursor<'_, '_>) -> Result<T, Fail> {
    let place = line.peek().map(|item| item.place);
    let read = Banded::<T>::read_part(line)?;
    match (read.nominal.filter(|_| read.is_plain()), place) {
        (Some(value), _) if value.si() > 0.0 => Ok(value),
        (_, Some(place)) => Err(line.broken_at(place, "an accuracy is one number above zero", "")),
        (_, None) => Err(line.broken("an accuracy is one number above zero", "")),
    }
}

/// How the load was tilted for the second weighing: `up +x 300 mm +/- 2 mm over 3.00 m +/- 2 mm`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tilted {
    /// The axis along which it rises: 0 for x, 1 for y.
    pub axis: usize,
    /// Whether the positive side is up.
    pub forwards: bool,
    /// How far up.
    pub rise: Banded<Length>,
    /// Over how much of the load, measured along it.
    pub over: Banded<Length>,
}

impl Value for Tilted {
    const SHAPE: Shape = Shape {
        say: "which side was raised, how far, and over how much of the load measured along it: `up +x 300 mm +/- 2 mm over 3.00 m +/- 2 mm`",
        kind: Some(plumbhook_units::Kind::Length),
        words: &["up", "over", "unknown"],
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if line.word("unknown") {
            return Err(Fail::Unknown);
        }
        let side = line.word("up").then(|| line.peek()).flatten();
        let (axis, forwards) = match side.map(|item| &item.node) {
            Some(Node::Axis("+x")) => (0, true),
            Some(Node::Axis("-x")) => (0, false),
            Some(Node::Axis("+y")) => (1, true),
            Some(Node::Axis("-y")) => (1, false),
            _ => return Err(line.broken("the side that was raised is missing", "as `up +x …`")),
        };
        line.take();
        let rise = Banded::read_part(line)?;
        if !line.word("over") {
            return Err(line.broken("`over` says how long that is, measured along the load", ""));
        }
        Ok(Self {
            axis,
            forwards,
            rise,
            over: Banded::read_part(line)?,
        })
    }
}
