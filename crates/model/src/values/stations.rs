//! The stations of a move, as a table.

use super::place::{Level, PlanPlace};
use super::quantity::Exact;
use super::reference::{StandName, SurfaceName};
use super::words::Words;
use crate::declare::{Link, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::{Origin, Part};
use plumbhook_syntax::{Cell, Node, Row};
use plumbhook_units::Length;

/// How high the load is.
#[derive(Clone, Debug)]
pub enum Standing {
    /// Its underside at a level, as planned: without a band.
    Level(Level),
    /// Its underside so far above a floor.
    Above(SurfaceName, Length),
    /// Set down on something.
    On(StandName),
}

/// One station.
#[derive(Clone, Debug)]
pub struct Station {
    /// Where the origin of the load's frame is in plan.
    pub at: PlanPlace,
    /// How high it is.
    pub standing: Standing,
    /// What holds there, in words.
    pub hold: String,
    /// Where the row stands.
    pub origin: Origin,
    /// Where the height stands.
    pub height_origin: Origin,
}

/// Rows `| at | underside | hold |`, the first row naming the columns.
#[derive(Clone, Debug)]
pub struct Stations(pub Vec<Station>);

const COLUMNS: [&str; 3] = ["at", "underside", "hold"];

impl Value for Stations {
    const SHAPE: Shape = Shape::said(
        "rows `| at | underside | hold |`: a place in plan, and `EL 104.25 m`, `above hall 700 mm` or `on stool-3`",
    );

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let Some((head, rows)) = line.rows.split_first() else {
            return Err(line.broken(
                "the rows of the table are missing",
                "a row is `| (41.0 m, 5.4 m) | EL 104.25 m |`",
            ));
        };
        let columns = columns(line, head)?;
        if rows.is_empty() {
            return Err(line.broken("the table names its columns and has no row", ""));
        }
        rows.iter()
            .enumerate()
            .map(|(index, row)| station(line, &columns, row, index))
            .collect::<Result<Vec<_>, _>>()
            .map(Self)
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        for station in &self.0 {
            out.extend(station.at.link());
            match &station.standing {
                Standing::Above(surface, _) => out.push(surface.link()),
                Standing::On(stand) => out.push(stand.link()),
                Standing::Level(level) => out.push(level.datum.link()),
            }
        }
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
                    "its columns are at, underside, hold",
                ));
            }
        }
    }
    for needed in ["at", "underside"] {
        if !columns.contains(&needed) {
            return Err(line.broken(format!("the column `{needed}` is missing"), ""));
        }
    }
    Ok(columns)
}

fn station(
    line: &Cursor<'_, '_>,
    columns: &[&str],
    row: &Row<'_>,
    index: usize,
) -> Result<Station, Fail> {
    let part = Part::Row(u16::try_from(index).unwrap_or(u16::MAX));
    let place_of =
        |cell: &Cell<'_>| Origin::at(line.entry, row.line, cell.place.start, cell.place.end, part);
    let cell = |column: &str| {
        let at = columns.iter().position(|name| *name == column)?;
        row.cells.get(at)
    };
    if row.cells.len() > columns.len() {
        let extra = row
            .cells
            .get(columns.len())
            .map_or(row.cells[0].place, |cell| cell.place);
        return Err(
            Cursor::cell(row, &row.cells[columns.len()], line.entry).broken_at(
                extra,
                "this row has more cells than the table has columns",
                "",
            ),
        );
    }
    let (Some(at), Some(height)) = (cell("at"), cell("underside")) else {
        return Err(line.broken(format!("row {} of the table is too short", index + 1), ""));
    };
    let mut cursor = Cursor::cell(row, at, line.entry);
    let place = PlanPlace::read_part(&mut cursor)?;
    cursor.finish()?;
    let mut cursor = Cursor::cell(row, height, line.entry);
    let standing = standing(&mut cursor)?;
    cursor.finish()?;
    let hold = cell("hold").filter(|cell| !cell.items.is_empty());
    let hold = match hold {
        Some(hold) => Words::read(&mut Cursor::cell(row, hold, line.entry))?.0,
        None => String::new(),
    };
    Ok(Station {
        at: place,
        standing,
        hold,
        origin: place_of(at),
        height_origin: place_of(height),
    })
}

fn standing(cell: &mut Cursor<'_, '_>) -> Result<Standing, Fail> {
    if cell.word("on") {
        return StandName::read_part(cell).map(Standing::On);
    }
    if cell.word("above") {
        let surface = SurfaceName::read_part(cell)?;
        return Exact::<Length>::read(cell).map(|height| Standing::Above(surface, height.0));
    }
    if matches!(cell.peek().map(|item| &item.node), Some(Node::Word(word)) if !Cursor::is_glue(word))
    {
        let level = Level::read_part(cell)?;
        if level.above.nominal.is_some() && level.above.is_plain() {
            return Ok(Standing::Level(level));
        }
        return Err(cell.broken("a planned level has no band", ""));
    }
    if cell.word("unknown") {
        return Err(Fail::Unknown);
    }
    Err(cell.broken(
        "how high the load is, is missing here",
        "write `EL 104.25 m`, `above hall 700 mm` or `on stool-3`",
    ))
}
