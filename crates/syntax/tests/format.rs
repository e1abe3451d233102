//! The formatter sets columns and changes nothing else.

mod sketch;
mod texts;

use plumbhook_syntax::format::{format, format_lines};
use plumbhook_syntax::{Document, read_entry};
use proptest::prelude::*;
use sketch::{sketch, sketch_all};
use texts::text;

fn formatted(text: &str) -> String {
    format(&Document::new(text))
}

/// Everything that can be read in a text, without places.
fn read(text: &str) -> Vec<String> {
    let document = Document::new(text);
    let mut all = Vec::new();
    for index in 0..document.blocks().len() {
        let entry = read_entry(document.block_text(index));
        for line in std::iter::once(&entry.header).chain(&entry.statements) {
            let source = line.provenance.as_ref();
            let source = source.map(|source| sketch_all(&source.items));
            all.push(format!(
                "{} {}: {} from {source:?}",
                index,
                sketch(&line.key),
                sketch_all(&line.items)
            ));
            for row in &line.rows {
                for cell in &row.cells {
                    let source = cell.provenance.as_ref();
                    let source = source.map(|source| sketch_all(&source.items));
                    all.push(format!("| {} from {source:?}", sketch_all(&cell.items)));
                }
                all.push("|".into());
            }
        }
    }
    all
}

/// Every comment of a text.
fn comments(text: &str) -> Vec<String> {
    let document = Document::new(text);
    let mut tokens = Vec::new();
    let lines = (0..document.line_count()).filter_map(|line| document.line_text(line));
    lines
        .filter_map(|line| {
            plumbhook_syntax::tokens(line, &mut tokens);
            let last = tokens.last()?;
            let text = line.get(last.start as usize..last.end as usize)?;
            (last.class == plumbhook_syntax::Class::Comment).then(|| text.trim_end().to_owned())
        })
        .collect()
}

proptest! {
    #[test]
    fn what_is_read_is_the_same_after_formatting(text in text()) {
        let after = formatted(&text);
        prop_assert_eq!(read(&text), read(&after), "{:?} -> {:?}", text, after);
        prop_assert_eq!(comments(&text), comments(&after));
    }

    #[test]
    fn formatting_again_changes_nothing(text in text()) {
        let once = formatted(&text);
        prop_assert_eq!(formatted(&once), once.clone(), "{:?}", text);
    }

    #[test]
    fn stray_lines_stay_stray(text in text()) {
        let before = Document::new(&text).stray().count();
        prop_assert_eq!(Document::new(&formatted(&text)).stray().count(), before);
    }

    #[test]
    fn formatting_some_lines_gives_what_formatting_all_gives_there(text in text(), from in 0_u32..20, more in 1_u32..9) {
        let document = Document::new(&text);
        let edits = format_lines(&document, &(from..from + more));
        let mut lines: Vec<String> = (0..document.line_count())
            .map(|line| document.line_text(line).unwrap().to_owned())
            .collect();
        for edit in edits.iter().rev() {
            lines.splice(edit.lines.start as usize..edit.lines.end as usize, edit.new.clone());
        }
        let ending = plumbhook_syntax::format::line_ending(document.text());
        let mark = if document.has_bom() { "\u{FEFF}" } else { "" };
        let after = format!("{mark}{}", lines.join(ending));
        prop_assert_eq!(read(&text), read(&after));
        prop_assert_eq!(formatted(&after), formatted(&text));
    }
}

#[test]
fn keys_sources_comments_and_tables_stand_in_columns() {
    let text = "job a   \"A job\"   # first\n\tplant q\nrules us\n\n\n\n";
    assert_eq!(
        formatted(text),
        "job a \"A job\"  # first\n  plant      q\nrules us\n"
    );
    let text = "\
load runner \"Runner\"
 mass 31.5 t +/- 8 % from d-204 # checked
   mass at most 34 t  from mail-3  #   twice
 block-in-rating yes
 cg x 0 +/- 60 mm,  y 0 +/- 60 mm
 stations
 | at | underside |
 |(32.3 m, 5.4 m)|EL 104.25 m|  # low
 # a remark
 | (8 m, 5.4 m)| on stool-3
# at the margin
";
    assert_eq!(
        formatted(text),
        "\
load runner \"Runner\"
  mass       31.5 t +/- 8 %           from d-204   # checked
  mass       at most 34 t             from mail-3  #   twice
  block-in-rating yes
  cg         x 0 +/- 60 mm, y 0 +/- 60 mm
  stations
    | at              | underside   |
    | (32.3 m, 5.4 m) | EL 104.25 m |  # low
    # a remark
    | (8 m, 5.4 m)    | on stool-3  |
# at the margin
"
    );
}

#[test]
fn entries_of_one_line_stand_as_a_list() {
    let text = "source d-204 drawing 1931 \"GA\"\nsource mail-3  letter \"x\"\nlet a = 3 m\n\nsource w  measured\n";
    assert_eq!(
        formatted(text),
        "source d-204  drawing 1931 \"GA\"\nsource mail-3 letter \"x\"\nlet a = 3 m\n\nsource w measured\n"
    );
}

#[test]
fn line_endings_and_a_byte_order_mark_stay() {
    assert_eq!(
        formatted("\u{FEFF}job a\r\n plant q"),
        "\u{FEFF}job a\r\n  plant      q\r\n"
    );
    assert_eq!(formatted(""), "");
    assert_eq!(formatted("\n\n"), "");
}

#[test]
fn a_long_value_moves_no_other_source() {
    let long = "x".repeat(90);
    let text = format!("load a\n  frame {long} from d-1\n  mass 3 t from d-1\n");
    let after = formatted(&text);
    assert!(
        after.contains("  mass       3 t                      from d-1\n"),
        "{after}"
    );
}

#[test]
fn what_cannot_be_read_keeps_its_blanks() {
    let text = "load a\n  mass  \"31   t\n  cg    x ; 0   y\n";
    assert_eq!(formatted(text), text);
}

#[test]
fn lines_that_are_formatted_already_make_no_edit() {
    let text = "job a\n  plant      q\n\nload b\n  mass 3 t\n";
    let document = Document::new(text);
    assert!(format_lines(&document, &(0..2)).is_empty());
    let edits = format_lines(&document, &(0..9));
    assert_eq!(edits.len(), 1, "{edits:?}");
    assert_eq!(edits[0].lines, 3..5);
}
