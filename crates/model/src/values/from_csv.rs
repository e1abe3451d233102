//! A table whose rows stand in a `.csv` file beside the file that names it.

use super::table::{Source, TableRow, read_rows};
use crate::csv_table::{CsvFault, records, rows};
use crate::reading::text_name;
use crate::{Cursor, Fail, Reading};
use plumbhook_sheet::{EntryKey, EntryRef, Origin, Part, Related};
use plumbhook_syntax::Place;
use std::sync::Arc;

/// What stands behind `in`: the name of the file. Its faults are told at the name, with their line.
pub(crate) fn from_csv<R: TableRow>(line: &mut Cursor<'_, '_>) -> Result<Vec<R>, Fail> {
    let example = "as `in \"main-36.csv\"`";
    let Some(item) = line.take() else {
        return Err(line.broken("the name of the file is missing here", example));
    };
    let Some(name) = text_name(item) else {
        let say = format!("`{}` is no name of a `.csv` file", item.raw(line.text));
        return Err(line.broken_at(item.place, say, example));
    };
    if !line.rows.is_empty() {
        let say = format!("the table stands here and in `{name}`");
        return Err(line.broken_at(item.place, say, "take one of the two out"));
    }
    let Some(beside) = line.entry.text(name) else {
        let say = format!("`{name}` was not looked for");
        return Err(line.broken_at(item.place, say, "name it in the line of the key"));
    };
    let text = beside.text.as_ref().map_err(|(why, mend)| {
        let mend = if mend.is_empty() {
            "put the file where this one is, or mend its name"
        } else {
            mend
        };
        line.broken_at(
            item.place,
            format!("`{name}` could not be read: {why}"),
            mend,
        )
    })?;
    let key: EntryRef = Arc::new(EntryKey {
        file: Arc::clone(&beside.shown),
        word: "".into(),
        name: "".into(),
        nth: 0,
    });
    let at_name = Named {
        name,
        key: &key,
        line: line.line,
        place: item.place,
    };
    let records = records(text.text()).map_err(|fault| at_name.fault(&fault))?;
    let rows = rows(&records, R::COLUMNS).map_err(|fault| at_name.fault(&fault))?;
    let alone = Reading::alone(&key);
    let source = Source {
        rows: &rows,
        entry: &alone,
        home: (0, Place { start: 0, end: 0 }),
    };
    let read = read_rows(&source).map_err(|fail| at_name.fail(fail))?;
    line.entry.note(|made| made.typed = true);
    Ok(read)
}

/// The file, and where the line names it.
struct Named<'n> {
    name: &'n str,
    key: &'n EntryRef,
    line: u32,
    place: Place,
}

impl Named<'_> {
    fn fault(&self, fault: &CsvFault) -> Fail {
        self.told(fault.line, fault.place, &fault.say, fault.mend)
    }

    fn fail(&self, fail: Fail) -> Fail {
        match fail {
            Fail::Broken(broken) => self.told(broken.line, broken.place, &broken.say, &broken.mend),
            other => other,
        }
    }

    fn told(&self, line: u32, place: Place, say: &str, mend: &str) -> Fail {
        let number = line.saturating_add(1);
        let say = format!("`{}`, line {number}: {say}", self.name);
        let mut fail = Fail::broken(self.line, self.place, say, mend);
        if let Fail::Broken(broken) = &mut fail {
            broken.related.push(Related {
                origin: Origin::at(self.key, line, place.start, place.end, Part::Value),
                say: "here".into(),
            });
        }
        fail
    }
}
