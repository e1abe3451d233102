//! Tables: what is read, and what is said of one that cannot be.
#![allow(clippy::unwrap_used, reason = "tests")]

use plumbhook_model::values::{Banded, Cells, Column, InCell, MOST_ROWS, Table, TableRow};
use plumbhook_model::{Cursor, Fail, Reading, Value};
use plumbhook_sheet::{EntryKey, Part};
use plumbhook_syntax::read_entry;
use plumbhook_units::{Length, Mass, Measured};
use std::sync::Arc;

/// A line of a rating table.
#[derive(Clone, Debug)]
struct Rating {
    radius: InCell<Banded<Length>>,
    rated: InCell<Option<Banded<Mass>>>,
    note: Option<String>,
}

impl TableRow for Rating {
    const SAY: &'static str = "rows `| radius | rated | note |`";
    const COLUMNS: &'static [Column] = &[
        Column::needed("radius"),
        Column::needed("rated"),
        Column::optional("note"),
    ];

    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fail> {
        let note = cells.optional::<plumbhook_model::values::Words>("note")?;
        Ok(Self {
            radius: cells.read("radius")?,
            rated: cells.answer("rated")?,
            note: note.map(|note| note.value.0),
        })
    }
}

fn read(rows: &str) -> Result<Vec<Rating>, Fail> {
    let text = format!("crane a\n  chart\n{rows}");
    let entry = read_entry(&text);
    let key = Arc::new(EntryKey {
        file: "a.pick".into(),
        word: "crane".into(),
        name: "a".into(),
        nth: 0,
    });
    let reading = Reading::alone(&key);
    let mut cursor = Cursor::new(&entry.statements[0], 0, &reading);
    let table = Table::<Rating>::read(&mut cursor)?;
    cursor.finish()?;
    Ok(table.0)
}

/// `line:text: what is said; what would mend it`.
fn refused(rows: &str) -> String {
    let text = format!("crane a\n  chart\n{rows}");
    match read(rows) {
        Ok(table) => panic!("read as {table:?}"),
        Err(Fail::Unknown | Fail::Lacks(_)) => "unknown".into(),
        Err(Fail::Broken(broken)) => {
            let line = text.lines().nth(broken.line as usize).unwrap();
            let place = broken.place.of(line);
            format!("{}:{place}: {}; {}", broken.line, broken.say, broken.mend)
        }
    }
}

/// Radius in m and rating in t of each row; a rating that is unknown is not a number here.
fn numbers(table: &[Rating]) -> Vec<(f64, Option<f64>)> {
    let t = |band: &Banded<Mass>| band.nominal.unwrap().si() / 1000.0;
    let row = |row: &Rating| {
        (
            row.radius.value.nominal.unwrap().si(),
            row.rated.value.as_ref().map(t),
        )
    };
    table.iter().map(row).collect()
}

#[test]
fn a_table_means_the_same_upright_and_turned() {
    let upright = read("  | radius | rated |\n  | 8 m | 51.0 t |\n  | 10 m | unknown |\n").unwrap();
    let turned = read("  | radius | 8 m | 10 m |\n  | rated | 51.0 t | unknown |\n").unwrap();
    let meant = vec![(8.0, Some(51.0)), (10.0, None)];
    assert_eq!(numbers(&upright), meant);
    assert_eq!(numbers(&turned), meant);
    let again = read("  | note | rated | radius |\n  | \"on mats\" | 51 t | 8 m |\n").unwrap();
    assert_eq!(again[0].note.as_deref(), Some("on mats"));
    assert_eq!(numbers(&again), [(8.0, Some(51.0))]);
}

#[test]
fn each_cell_knows_its_line_and_its_row() {
    let turned = read("  | radius | 8 m | 10 m |\n  | rated | 51.0 t | unknown |\n").unwrap();
    let origin = &turned[1].rated.origin;
    assert_eq!((origin.line, origin.part), (3, Part::Row(1)));
    assert_eq!((origin.start, origin.end), (21, 28));
    let upright = read("  | radius | rated |\n  | 8 m | 51 t |\n  | 9 m | 44 t |\n").unwrap();
    assert_eq!(upright[1].radius.origin.line, 4);
    assert_eq!(upright[1].radius.origin.part, Part::Row(1));
}

#[test]
fn what_is_missing_is_said_where_it_would_stand() {
    assert_eq!(
        refused(""),
        "1:chart: the rows of the table are missing; begin with a row `| radius | rated | note |` below the key"
    );
    assert_eq!(
        refused("  | radius | rated |\n"),
        "1:chart: the table names its columns and has no row; "
    );
    assert_eq!(
        refused("  | radius | note |\n  | 8 m | \"a\" |\n"),
        "1:chart: the column `rated` is missing; the columns are `| radius | rated | note |`"
    );
    assert_eq!(
        refused("  | radius | rated |\n  | 8 m | |\n"),
        "3:8 m | : the cell of `rated` is missing in this row; write the value, or `unknown`"
    );
    assert_eq!(
        refused("  | radius | rated |\n  | 8 m |\n"),
        "3:8 m: the cell of `rated` is missing in this row; write the value, or `unknown`"
    );
    assert_eq!(
        refused("  | radius | 8 m | 10 m |\n  | rated | 51 t |\n"),
        "3:rated | 51 t: this row has 1 behind its name, the first row 2; each cell belongs to the one above it; write `unknown` where nothing is known"
    );
}

#[test]
fn what_is_too_much_is_said_and_never_dropped() {
    assert_eq!(
        refused("  | radius | rated |\n  | 8 m | 51 t | 3 |\n"),
        "3:3: this cell stands under no column: the table has 2; "
    );
    assert_eq!(
        refused("  | radius | rated | radius |\n  | 8 m | 51 t | 8 m |\n"),
        "2:radius: the column `radius` stands twice; "
    );
    assert_eq!(
        refused("  | radius | rated |\n  | 8 m | 51 t from tag |\n"),
        "3:from tag: a cell takes no `from`; say it once, behind the key above the rows"
    );
    assert_eq!(
        refused("  | radius | rated |\n  | 8 m | 51 t 3 |\n"),
        "3:3: `3` is left over; the line does not count; "
    );
    let rows = "  | 8 m | 51 t |\n".repeat(MOST_ROWS + 1);
    assert_eq!(
        refused(&format!("  | radius | rated |\n{rows}")),
        "1:chart: a table has 2000 rows at most; this has 2001; split it"
    );
}

#[test]
fn a_mistyped_column_is_found_and_a_cell_of_another_kind_refused() {
    assert_eq!(
        refused("  | raduis | rated |\n  | 8 m | 51 t |\n"),
        "2:raduis: `raduis` names no column of this table; did you mean `radius`?"
    );
    assert_eq!(
        refused("  | radius | 8 m |\n  | ratd | 51 t |\n"),
        "3:ratd: `ratd` names no column of this table; did you mean `rated`?"
    );
    assert_eq!(
        refused("  | radius | rated |\n  | 8 t | 51 t |\n"),
        "3:8 t: `t` is mass; length is wanted here; its units are m, mm, cm, km, ft, in"
    );
    assert_eq!(
        refused("  | radius | rated |\n  | 8 | 51 t |\n"),
        "3:8: `8` has no unit; length is wanted here; write its unit: m, mm, cm, km, ft, in"
    );
    assert_eq!(
        refused("  | radius | rated |\n  | unknown | 51 t |\n"),
        "unknown"
    );
}
