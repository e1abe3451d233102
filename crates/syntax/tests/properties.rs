//! What holds for every text, whatever is in it.

mod sketch;
mod texts;

use std::collections::HashMap;

use plumbhook_syntax::{
    Class, Document, Item, Node, Place, Token, coordinates, items, read_entry, tokens,
};
use proptest::prelude::*;
use sketch::sketch_all;
use texts::{PIECES, line, text};

/// What `char::is_whitespace` calls blank without being a line end or a control, and nothing else.
fn is_blank(c: char) -> bool {
    c == '\t' || (c.is_whitespace() && !c.is_control() && !matches!(c, '\u{2028}' | '\u{2029}'))
}

fn lex(line: &str) -> Vec<Token> {
    let mut all = Vec::new();
    tokens(line, &mut all);
    all
}

/// Every item in items lies inside them, in order.
fn check_nesting(within: Place, inside: &[&Item]) -> Result<(), TestCaseError> {
    let mut end = within.start;
    for item in inside {
        prop_assert!(item.place.start >= end && item.place.end <= within.end);
        prop_assert!(item.place.start < item.place.end);
        end = item.place.end;
        let parts: Vec<&Item> = match &item.node {
            Node::Point(items) | Node::Sizes(items) => items.iter().collect(),
            Node::Tolerance { of: a, by: b }
            | Node::Range { lo: a, hi: b }
            | Node::Operation {
                left: a, right: b, ..
            } => vec![a, b],
            Node::Count { of, .. } => vec![of],
            _ => Vec::new(),
        };
        check_nesting(item.place, &parts)?;
    }
    Ok(())
}

fn numbers<'s>(item: &'s Item, found: &mut Vec<(f64, &'s str)>) {
    match &item.node {
        Node::Number { value, raw }
        | Node::Quantity { value, raw, .. }
        | Node::Ambiguous { value, raw, .. } => found.push((*value, raw)),
        Node::Slope { rise, run, raw } => found.extend([(*rise, *raw), (*run, *raw)]),
        Node::Point(items) | Node::Sizes(items) => {
            for item in items {
                numbers(item, found);
            }
        }
        Node::Tolerance { of: a, by: b }
        | Node::Range { lo: a, hi: b }
        | Node::Operation {
            left: a, right: b, ..
        } => {
            numbers(a, found);
            numbers(b, found);
        }
        Node::Count { of, .. } => numbers(of, found),
        _ => {}
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn tokens_are_in_order_and_only_blanks_lie_between_them(line in line()) {
        let mut end = 0;
        for token in lex(&line) {
            prop_assert!(token.start >= end && token.start < token.end);
            let gap = line.get(end as usize..token.start as usize);
            prop_assert!(gap.is_some_and(|gap| gap.chars().all(is_blank)), "{gap:?}");
            end = token.end;
        }
        let rest = line.get(end as usize..);
        prop_assert!(rest.is_some_and(|rest| rest.chars().all(is_blank)), "{rest:?}");
    }

    #[test]
    fn items_are_in_order_and_cover_all_but_blanks_and_comment(line in line()) {
        let all = items(&line);
        let whole = Place { start: 0, end: u32::try_from(line.len()).unwrap() };
        check_nesting(whole, &all.iter().collect::<Vec<_>>())?;
        for token in lex(&line).into_iter().filter(|token| token.class != Class::Comment) {
            let holding = all.iter().filter(|item| {
                item.place.start <= token.start && token.end <= item.place.end
            });
            prop_assert_eq!(holding.count(), 1, "{:?}", token);
        }
    }

    #[test]
    fn every_number_is_finite_and_no_tolerance_has_a_sign(line in line()) {
        for item in items(&line) {
            let mut found = Vec::new();
            numbers(&item, &mut found);
            for (value, raw) in found {
                prop_assert!(value.is_finite(), "{}", raw);
                prop_assert!(value >= 0.0 || raw.starts_with(['-', '−']), "{}", raw);
            }
        }
    }

    #[test]
    fn no_coordinate_of_a_point_is_empty(line in line()) {
        for item in items(&line) {
            if let Node::Point(inside) = &item.node {
                prop_assert!(coordinates(inside).all(|one| !one.is_empty()));
            }
        }
    }

    #[test]
    fn a_comment_never_changes_what_is_read(line in line(), note in line()) {
        let open = lex(&line).iter().any(|token| {
            let text = line.get(token.start as usize..token.end as usize).unwrap_or("");
            token.class == Class::Comment
                || token.class == Class::Text && (text.len() == 1 || !text.ends_with('"'))
        });
        if !open {
            let noted = format!("{line} # {note}");
            prop_assert_eq!(sketch_all(&items(&noted)), sketch_all(&items(&line)));
        }
    }

    #[test]
    fn more_blanks_between_tokens_never_change_what_is_read_between_words_that_are_parted(
        parts in prop::collection::vec(prop::sample::select(
            &["mass", "31.5", "t", "+/-", "8", "%", "..", ",", "(3 m, 2 m)", "\"a\"", "2", "of", "x"][..]
        ), 0..12),
        wide in prop::sample::select(&["   ", "\t", " \t ", "\u{2003}"][..]),
    ) {
        let narrow = parts.join(" ");
        let wide = parts.join(wide);
        prop_assert_eq!(sketch_all(&items(&wide)), sketch_all(&items(&narrow)));
    }

    #[test]
    fn every_fault_has_a_sentence(line in line()) {
        for item in items(&line) {
            for (place, fault) in item.faults() {
                prop_assert!(!place.of(&line).is_empty());
                prop_assert!(fault.say().len() > 20, "{fault:?}");
            }
        }
    }

    #[test]
    fn every_line_of_an_entry_is_a_statement_a_row_a_comment_or_blank(text in text()) {
        let document = Document::new(&text);
        for i in 0..document.blocks().len() {
            let block = document.blocks()[i];
            let entry = read_entry(document.block_text(i));
            let mut read = HashMap::from([(0, entry.header.text)]);
            for statement in std::iter::once(&entry.header).chain(&entry.statements) {
                read.insert(statement.line, statement.text);
                read.extend(statement.rows.iter().map(|row| (row.line, row.text)));
            }
            for line in 0..block.lines {
                let text = document.line_text(block.first_line + line).unwrap();
                let content = text.trim_start_matches(is_blank);
                match read.get(&line) {
                    Some(found) => prop_assert_eq!(*found, text),
                    None => prop_assert!(content.is_empty() || content.starts_with('#'), "{}", text),
                }
            }
        }
    }

    #[test]
    fn line_endings_never_change_what_is_read(text in text()) {
        let unix = text.replace("\r\n", "\n").replace('\r', "\n");
        let sketch = |text: &str| {
            let document = Document::new(text);
            (0..document.blocks().len())
                .map(|i| {
                    let entry = read_entry(document.block_text(i));
                    let all: Vec<String> = std::iter::once(&entry.header)
                        .chain(&entry.statements)
                        .map(|s| format!("{} {:?} {} {:?}", s.line, s.key.place, sketch_all(&s.items), s.rows))
                        .collect();
                    all.join("\n")
                })
                .collect::<Vec<_>>()
        };
        let read = sketch(&unix);
        prop_assert_eq!(&sketch(&text), &read);
        prop_assert_eq!(&sketch(&unix.replace('\n', "\r\n")), &read);
    }

    #[test]
    fn blocks_and_lines_fill_the_text(text in text()) {
        let document = Document::new(&text);
        let text = document.text();
        let mut end = document.blocks().first().map_or(0, |block| block.start);
        let stray: Vec<u32> = document.stray().collect();
        for block in document.blocks() {
            prop_assert_eq!(block.start, end);
            prop_assert_eq!(document.line_start(block.first_line), Some(block.start));
            end = block.end;
        }
        prop_assert!(document.blocks().is_empty() || end as usize == text.len());
        for line in 0..document.line_count() {
            let start = document.line_start(line).unwrap();
            prop_assert_eq!(document.line_of(start), line);
            prop_assert!(!document.line_text(line).unwrap().contains(['\n', '\r']));
            let known = document.block_of(line).is_some() || stray.contains(&line);
            let content = document.line_text(line).unwrap().trim_start_matches(is_blank);
            prop_assert!(known || content.is_empty() || content.starts_with('#'));
        }
    }

    #[test]
    fn edits_one_after_another_equal_a_fresh_document(
        text in text(),
        edits in prop::collection::vec((0_usize..200, 0_usize..40, text()), 1..8),
    ) {
        let mut document = Document::new(&text);
        for (start, length, new) in edits {
            let before = document.clone();
            document = document.edit(start..start + length, &new);
            // Put a mark before it, so that one in the text stays in the text.
            let fresh = Document::new(&format!("\u{FEFF}{}", document.text()));
            prop_assert_eq!(document.text(), fresh.text());
            prop_assert_eq!(document.line_count(), fresh.line_count());
            for line in 0..fresh.line_count() {
                prop_assert_eq!(document.line_start(line), fresh.line_start(line));
            }
            let without_id = |document: &Document| -> Vec<_> {
                document.blocks().iter().map(|b| (b.start, b.end, b.first_line, b.lines)).collect()
            };
            prop_assert_eq!(without_id(&document), without_id(&fresh));
            let known: HashMap<_, _> = before.blocks().iter().enumerate()
                .map(|(i, block)| (block.id, before.block_text(i))).collect();
            prop_assert_eq!(known.len(), before.blocks().len());
            for (i, block) in document.blocks().iter().enumerate() {
                if let Some(text) = known.get(&block.id) {
                    prop_assert_eq!(*text, document.block_text(i));
                }
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn no_line_needs_a_deep_stack(
        pieces in prop::collection::vec(prop::sample::select(PIECES), 1..5),
        opening in prop::collection::vec(prop::sample::select(PIECES), 0..4),
    ) {
        let repeated = pieces.concat();
        let line = opening.concat() + &repeated.repeat(60_000 / repeated.len());
        let read = std::thread::Builder::new()
            .stack_size(256 * 1024)
            .spawn(move || items(&line).len());
        // An overflow ends the whole process; nothing else can go wrong here.
        prop_assert!(read.is_ok_and(|read| read.join().is_ok()));
    }
}
