//! A table from a `.csv` file: its lines as rows of cells, so that both are read by the same code.

use crate::values::Column;
use plumbhook_syntax::{Cell, Item, LONGEST_LINE, Node, Place, Row, items};
use plumbhook_units::{Lookup, Unit, unit};

/// The largest `.csv` that is read, in bytes.
pub const LARGEST_CSV: usize = 1 << 20;

/// The most lines of a `.csv` that are read.
const MOST_LINES: usize = 4_000;

/// What is wrong in a `.csv`, and where.
#[derive(Debug)]
pub(crate) struct CsvFault {
    /// Line, from 0.
    pub(crate) line: u32,
    /// Where in the line.
    pub(crate) place: Place,
    pub(crate) say: String,
    pub(crate) mend: &'static str,
}

/// One line: its fields, and the text that their places count in. That is the line itself unless it has quotes.
pub(crate) struct Record {
    line: u32,
    text: String,
    fields: Vec<Place>,
}

impl Record {
    fn fault(&self, place: Place, say: impl Into<String>, mend: &'static str) -> CsvFault {
        CsvFault {
            line: self.line,
            place,
            say: say.into(),
            mend,
        }
    }
}

/// The lines of a `.csv`: comma between fields, point in decimals, a field in quotes where it holds a comma.
pub(crate) fn records(text: &str) -> Result<Vec<Record>, CsvFault> {
    let start = Place { start: 0, end: 0 };
    let fault = |line: u32, say: String, mend: &'static str| CsvFault {
        line,
        place: start,
        say,
        mend,
    };
    if text.len() > LARGEST_CSV {
        let say = format!(
            "the file has {} bytes, read are {LARGEST_CSV} at most",
            text.len()
        );
        return Err(fault(0, say, "split it"));
    }
    if let Some(at) = text.find('\0') {
        let lines = text
            .get(..at)
            .map_or(0, |before| before.matches('\n').count());
        return Err(fault(
            narrow(lines),
            "the file is no text".into(),
            "save it as `.csv`",
        ));
    }
    let mut records = Vec::new();
    let mut reader = csv::ReaderBuilder::new();
    let mut reader = reader
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    for read in reader.records() {
        let read = read.map_err(|error| {
            let line = error.position().map_or(0, csv::Position::line);
            let line = u32::try_from(line.saturating_sub(1)).unwrap_or(u32::MAX);
            fault(
                line,
                "the fields of this line cannot be told apart".into(),
                "",
            )
        })?;
        let line = read
            .position()
            .map_or(1, csv::Position::line)
            .saturating_sub(1);
        let mut record = Record {
            line: u32::try_from(line).unwrap_or(u32::MAX),
            text: String::new(),
            fields: Vec::new(),
        };
        for (index, field) in read.iter().enumerate() {
            if index > 0 {
                record.text.push(',');
            }
            let start = narrow(record.text.len());
            record.text.push_str(field);
            let end = narrow(record.text.len());
            record.fields.push(Place { start, end });
        }
        if record.text.len() > LONGEST_LINE || records.len() >= MOST_LINES {
            return Err(record.fault(start, "the file goes on beyond what is read", "split it"));
        }
        separated(&record, records.is_empty())?;
        records.push(record);
    }
    Ok(records)
}

/// Commas only: what else parts the fields is told and never guessed.
fn separated(record: &Record, first: bool) -> Result<(), CsvFault> {
    let all = Place {
        start: 0,
        end: narrow(record.text.len()),
    };
    let alone = record.fields.len() == 1 && first;
    if alone && record.text.contains(';') {
        return Err(record.fault(
            all,
            "the fields are parted by `;`, so a comma may stand for the decimal point",
            "save the file with a comma between fields and a point in decimals",
        ));
    }
    if alone && record.text.contains('\t') {
        return Err(record.fault(all, "the fields are parted by tabs", "part them by commas"));
    }
    Ok(())
}

fn narrow(at: usize) -> u32 {
    u32::try_from(at).unwrap_or(u32::MAX)
}

/// What a label says: a column, and the unit of its cells where one stands in brackets behind it.
struct Label<'r> {
    word: &'r str,
    place: Place,
    unit: Option<&'static Unit>,
}

/// `radius`, `radius [m]`, `radius (m)`.
fn label(record: &Record, field: Place) -> Result<Label<'_>, CsvFault> {
    let text = field.of(&record.text);
    let open = text.find(['[', '(']);
    let (name, behind) = text
        .split_at_checked(open.unwrap_or(text.len()))
        .unwrap_or((text, ""));
    let word = name.trim();
    let start = field.start + narrow(name.len() - name.trim_start().len());
    let place = Place {
        start,
        end: start + narrow(word.len()),
    };
    let bracket = behind.trim();
    let inside = bracket
        .strip_prefix(['[', '('])
        .and_then(|rest| rest.strip_suffix([']', ')']));
    let unit = match inside.map(|word| (word, unit(word.trim()))) {
        None if bracket.is_empty() => None,
        Some((_, Lookup::Unit(unit))) => Some(unit),
        Some((word, Lookup::Ambiguous(_))) => {
            let say = format!("`{word}` can be read in several ways");
            return Err(record.fault(field, say, "write the unit that is meant"));
        }
        None | Some((_, Lookup::None)) => {
            let say = format!("`{bracket}` names no unit");
            return Err(record.fault(field, say, "write it as `radius [m]`"));
        }
    };
    Ok(Label { word, place, unit })
}

/// The rows of a table as they would stand in a `.pick` file. Blank fields at the end of a line are dropped.
pub(crate) fn rows<'r>(
    records: &'r [Record],
    columns: &[Column],
) -> Result<Vec<Row<'r>>, CsvFault> {
    let is_label = |record: &Record, field: Option<&Place>| {
        let found = field.and_then(|field| label(record, *field).ok());
        found.is_some_and(|label| columns.iter().any(|column| column.word == label.word))
    };
    let Some(head) = records.first() else {
        return Ok(vec![]);
    };
    let starts = |record: &Record| is_label(record, record.fields.first());
    let below = records.iter().skip(1).all(starts);
    let turned = starts(head) && below && !is_label(head, head.fields.get(1));
    let mut units: Vec<Option<&'static Unit>> = Vec::new();
    let mut rows = Vec::with_capacity(records.len());
    for (nth, record) in records.iter().enumerate() {
        let mut cells = Vec::with_capacity(record.fields.len());
        let mut own = None;
        for (at, field) in record.fields.iter().enumerate() {
            let is_head = if turned { at == 0 } else { nth == 0 };
            if is_head {
                let label = label(record, *field)?;
                own = label.unit;
                units.push(label.unit);
                cells.push(head_cell(&label));
            } else {
                let unit = if turned {
                    own
                } else {
                    units.get(at).copied().flatten()
                };
                cells.push(cell(record, *field, unit)?);
            }
        }
        while cells.last().is_some_and(|cell| cell.items.is_empty()) {
            cells.pop();
        }
        if !cells.is_empty() {
            rows.push(Row {
                line: record.line,
                text: &record.text,
                cells,
            });
        }
    }
    Ok(rows)
}

fn head_cell<'r>(label: &Label<'r>) -> Cell<'r> {
    let word = Item {
        place: label.place,
        node: Node::Word(label.word),
    };
    Cell {
        place: label.place,
        items: if label.word.is_empty() {
            vec![]
        } else {
            vec![word]
        },
        provenance: None,
    }
}

fn cell<'r>(
    record: &'r Record,
    field: Place,
    unit: Option<&'static Unit>,
) -> Result<Cell<'r>, CsvFault> {
    let text = field.of(&record.text);
    // A `.pick` line would take it for a comment and drop it.
    if text.contains('#') {
        let say = format!("`{}` is no value", text.trim());
        return Err(record.fault(field, say, "a cell holds a value or `unknown`"));
    }
    let mut items = items(text);
    if let (Some(unit), [item]) = (unit, &mut items[..]) {
        with_unit(record, item, field, unit)?;
    }
    for item in &mut items {
        shift(item, field.start);
    }
    let place = match (items.first(), items.last()) {
        (Some(first), Some(last)) => Place {
            start: first.place.start,
            end: last.place.end,
        },
        _ => field,
    };
    Ok(Cell {
        place,
        items,
        provenance: None,
    })
}

/// A number takes the unit of its column; one with another unit of its own is refused.
fn with_unit(
    record: &Record,
    item: &mut Item<'_>,
    field: Place,
    unit: &'static Unit,
) -> Result<(), CsvFault> {
    match item.node {
        Node::Number { value, raw } => item.node = Node::Quantity { value, unit, raw },
        Node::Quantity { unit: own, .. } if own != unit => {
            let say = format!(
                "the column is in `{}` and this cell in `{}`",
                unit.symbol, own.symbol
            );
            return Err(record.fault(field, say, "write one of the two units"));
        }
        _ => {}
    }
    Ok(())
}

/// Moves the places of an item that was read from its field to where the field stands in the line.
fn shift(item: &mut Item<'_>, by: u32) {
    item.place.start = item.place.start.saturating_add(by);
    item.place.end = item.place.end.saturating_add(by);
    match &mut item.node {
        Node::Point(items) | Node::Sizes(items) => {
            for item in items {
                shift(item, by);
            }
        }
        Node::Tolerance { of: a, by: b }
        | Node::Range { lo: a, hi: b }
        | Node::Operation {
            left: a, right: b, ..
        } => {
            shift(a, by);
            shift(b, by);
        }
        Node::Count { of, .. } => shift(of, by),
        _ => {}
    }
}
