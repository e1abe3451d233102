//! The lines of one entry, set in columns.

use super::columns::{INDENT, KEY, ROW_INDENT, cell_widths, pad, source_column, width};
use super::line::{Line, Parts, read};
use crate::token::LONGEST_LINE;

/// Formats the lines of one entry (or those before the first). Whether a line is the entry's first is seen from its
/// first character.
pub(super) fn format(texts: &[&str]) -> Vec<String> {
    let read: Vec<Line> = texts.iter().map(|text| read(text)).collect();
    let mut out: Vec<String> = Vec::with_capacity(texts.len());
    let mut at = 0;
    while let Some(line) = read.get(at) {
        let length = run(&read, at);
        let lines = read.get(at..at + length).unwrap_or_default();
        let before = texts.get(at..at + length).unwrap_or_default();
        match line {
            Line::Blank => {
                // One blank line says as much as three.
                if out.last().is_none_or(|last| !last.is_empty()) {
                    out.push(String::new());
                }
            }
            Line::Comment { text, at_margin } => {
                out.push(comment(text, *at_margin, read.get(at + 1)));
            }
            Line::AsIs(text) => out.push(as_is(text, before.first().copied().unwrap_or(""))),
            Line::Row { .. } => out.extend(kept(rows(lines), before)),
            Line::Statement(_) => {
                out.extend(kept(statements(lines, before), before));
            }
        }
        at += length;
    }
    out
}

/// How many lines from here on are set in columns together. Remarks between its rows do not part a table.
fn run(read: &[Line], at: usize) -> usize {
    let rest = read.get(at..).unwrap_or_default();
    let is_row = |line: &Line| matches!(line, Line::Row { .. });
    match rest.first() {
        Some(Line::Row { .. }) => {
            let inside = |line: &&Line| is_row(line) || matches!(line, Line::Comment { .. });
            let table: Vec<_> = rest.iter().take_while(inside).collect();
            let last = table.iter().rposition(|line| is_row(line));
            last.map_or(1, |last| last + 1)
        }
        Some(Line::Statement(_)) => rest
            .iter()
            .take_while(|line| matches!(line, Line::Statement(_)))
            .count(),
        _ => 1,
    }
}

/// A line that would come out too long to be read stays as it was.
fn kept(lines: Vec<String>, before: &[&str]) -> Vec<String> {
    let pairs = lines.into_iter().zip(before);
    pairs
        .map(|(line, before)| match line.len() {
            0..=LONGEST_LINE => line,
            _ => (*before).to_owned(),
        })
        .collect()
}

fn comment(text: &str, at_margin: bool, next: Option<&Line>) -> String {
    let indent = match next {
        _ if at_margin => 0,
        Some(Line::Row { .. }) => ROW_INDENT,
        _ => INDENT,
    };
    format!("{:indent$}{text}", "")
}

fn as_is(text: &str, before: &str) -> String {
    if starts_entry(before) || before.len() > LONGEST_LINE {
        text.to_owned()
    } else {
        format!("{:INDENT$}{text}", "")
    }
}

fn starts_entry(line: &str) -> bool {
    line.chars()
        .next()
        .is_some_and(|first| !crate::place::is_blank(first))
}

/// Statements, their sources and comments each in one column. A header stands by itself.
fn statements(lines: &[Line], before: &[&str]) -> Vec<String> {
    let parts: Vec<(&Parts, bool)> = lines
        .iter()
        .zip(before)
        .filter_map(|(line, text)| match line {
            Line::Statement(parts) => Some((parts, starts_entry(text))),
            _ => None,
        })
        .collect();
    let mut out: Vec<String> = parts
        .iter()
        .map(|(parts, header)| key_and_value(parts, *header))
        .collect();
    follow(&mut out, &parts, |parts| &parts.source);
    follow(&mut out, &parts, |parts| &parts.comment);
    out
}

fn key_and_value(parts: &Parts, header: bool) -> String {
    if header {
        let blank = if parts.value.is_empty() { "" } else { " " };
        return format!("{}{blank}{}", parts.key, parts.value);
    }
    let mut out = format!("{:INDENT$}{}", "", parts.key);
    if !parts.value.is_empty() {
        pad(&mut out, INDENT + KEY, 1);
        out.push_str(&parts.value);
    }
    out
}

/// An entry of one line: its word, its name and the rest. `None` where it has more lines, or no more than a name.
pub(super) fn lone_header(texts: &[&str]) -> Option<[String; 3]> {
    let [text] = texts else { return None };
    let Line::Statement(parts) = read(text) else {
        return None;
    };
    let listed = starts_entry(text) && parts.source.is_empty() && parts.comment.is_empty();
    let (name, rest) = parts.value.split_once(' ')?;
    let named = listed && !name.starts_with('"');
    named.then(|| [parts.key.clone(), name.to_owned(), rest.to_owned()])
}

/// Entries of one line next to each other, with the same word, are a list: what follows their names stands in one
/// column.
pub(super) fn listed(headers: &[Option<[String; 3]>]) -> Vec<Option<String>> {
    let word = |header: &Option<[String; 3]>| header.as_ref().map(|[word, ..]| word.clone());
    let mut out = Vec::with_capacity(headers.len());
    for list in headers.chunk_by(|a, b| a.is_some() && word(a) == word(b)) {
        let names = list.iter().flatten().map(|[_, name, _]| width(name));
        let column = names.max().unwrap_or(0);
        out.extend(list.iter().map(|header| {
            let [word, name, rest] = header.as_ref()?;
            let mut line = name.clone();
            pad(&mut line, column, 0);
            let line = format!("{word} {line} {rest}");
            (line.len() <= LONGEST_LINE).then_some(line)
        }));
    }
    out
}

/// Puts a part behind every line that has it, in one column for lines next to each other.
fn follow(out: &mut [String], parts: &[(&Parts, bool)], part: impl Fn(&Parts) -> &String) {
    let mut at = 0;
    while at < out.len() {
        let has = |index: usize| parts.get(index).is_some_and(|(p, _)| !part(p).is_empty());
        let header = |index: usize| parts.get(index).is_some_and(|(_, header)| *header);
        let alone = usize::from(!has(at) || header(at));
        let together = (at..out.len())
            .take_while(|index| has(*index) && !header(*index))
            .count();
        let length = together.max(alone).max(1);
        let lines = out.get_mut(at..at + length).unwrap_or_default();
        let column = source_column(lines.iter().map(|line| width(line)));
        for (line, (parts, header)) in lines.iter_mut().zip(parts.iter().skip(at)) {
            let text = part(parts);
            if !text.is_empty() {
                pad(line, if *header { 0 } else { column }, 2);
                line.push_str(text);
            }
        }
        at += length;
    }
}

/// Rows with their bars in columns, and the remarks between them.
fn rows(lines: &[Line]) -> Vec<String> {
    let widths = cell_widths(lines.iter().filter_map(|line| match line {
        Line::Row { cells, .. } => Some(cells.as_slice()),
        _ => None,
    }));
    lines
        .iter()
        .map(|line| match line {
            Line::Row { cells, comment } => row(cells, comment, &widths),
            Line::Comment { text, at_margin } => comment(text, *at_margin, lines.last()),
            _ => String::new(),
        })
        .collect()
}

fn row(cells: &[String], comment: &str, widths: &[usize]) -> String {
    let mut out = " ".repeat(ROW_INDENT);
    for (cell, wide) in cells.iter().zip(widths) {
        out.push_str("| ");
        let start = width(&out);
        out.push_str(cell);
        pad(&mut out, start + wide, 0);
        out.push(' ');
    }
    out.push('|');
    if !comment.is_empty() {
        out.push_str("  ");
        out.push_str(comment);
    }
    out
}
