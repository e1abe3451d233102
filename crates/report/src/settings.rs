//! What counts in a check and where it is said, for a person at a terminal.

use crate::human::clean;
use crate::wrap::columns;
use plumbhook_workspace::RootSettings;
use std::fmt::Write;

/// Settings and files of each root file. `asked` holds what the command line settles beside them, each with its value.
pub fn render(roots: &[RootSettings], asked: &[(&str, String)]) -> String {
    let mut out = String::new();
    for root in roots {
        let _ = writeln!(out, "{}", clean(&root.shown));
        for wrong in &root.wrong {
            let _ = writeln!(
                out,
                "  wrong, so nothing under it is checked: {}",
                clean(wrong)
            );
        }
        let settings = root.settings.iter().map(|setting| {
            let from = setting
                .line
                .map_or("default".to_owned(), |line| format!("line {line}"));
            [clean(&setting.key), from, clean(&setting.value)]
        });
        let asked = asked
            .iter()
            .map(|(key, value)| [(*key).into(), "command line".into(), value.clone()]);
        let rows: Vec<_> = settings.chain(asked).collect();
        table(&mut out, &rows);
        out.push('\n');
        let files = root.files.iter();
        let rows: Vec<_> = files
            .map(|file| [clean(&file.shown), clean(&file.is)])
            .collect();
        table(&mut out, &rows);
        out.push('\n');
    }
    out
}

/// Columns as wide as what stands in them; the last one is left as it is.
fn table<const N: usize>(out: &mut String, rows: &[[String; N]]) {
    let widths: [usize; N] = std::array::from_fn(|at| {
        let cells = rows.iter().filter_map(|row| row.get(at));
        cells.map(|cell| columns(cell)).max().unwrap_or(0)
    });
    for row in rows {
        let mut line = String::new();
        for (cell, width) in row.iter().zip(widths) {
            let blanks = width.saturating_sub(columns(cell));
            let _ = write!(line, "  {cell}{}", " ".repeat(blanks));
        }
        let _ = writeln!(out, "{}", line.trim_end());
    }
}
