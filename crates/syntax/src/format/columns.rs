//! Where columns stand.

use unicode_width::UnicodeWidthStr;

/// Blanks before a key.
pub(super) const INDENT: usize = 2;
/// Blanks before a row of a table.
pub(super) const ROW_INDENT: usize = 4;
/// Columns of a key, with the blank behind it; a longer key takes what it needs.
pub(super) const KEY: usize = 11;
/// Where sources stand if every value before them is short.
const SOURCE: usize = 38;
/// A value that ends beyond this column has its source right behind it and moves no other.
const LONG: usize = 72;
/// A cell wider than this moves no other.
const WIDE_CELL: usize = 48;

/// How many columns a text takes.
pub(super) fn width(text: &str) -> usize {
    text.width()
}

/// `text` and blanks up to a column; at least `least` of them.
pub(super) fn pad(text: &mut String, column: usize, least: usize) {
    let blanks = column.saturating_sub(width(text)).max(least);
    text.extend(std::iter::repeat_n(' ', blanks));
}

/// Where what follows the values stands, for lines that belong together and whose values end at `ends`.
pub(super) fn source_column(ends: impl Iterator<Item = usize>) -> usize {
    let longest = ends.filter(|end| *end <= LONG).max().unwrap_or(0);
    SOURCE.max(longest + 2)
}

/// How wide each column of a table is.
pub(super) fn cell_widths<'a>(rows: impl Iterator<Item = &'a [String]>) -> Vec<usize> {
    let mut widths = Vec::new();
    for row in rows {
        for (index, cell) in row.iter().enumerate() {
            if widths.len() <= index {
                widths.push(0);
            }
            let wide = width(cell);
            if let Some(column) = widths.get_mut(index)
                && wide <= WIDE_CELL
            {
                *column = wide.max(*column);
            }
        }
    }
    widths
}
