//! A text, its blocks and lines, and what an edit keeps.

use plumbhook_syntax::{BlockId, Document};

fn blocks(document: &Document) -> Vec<(&str, u32, u32)> {
    (0..document.blocks().len())
        .map(|i| {
            let block = document.blocks()[i];
            (document.block_text(i), block.first_line, block.lines)
        })
        .collect()
}

fn ids(document: &Document) -> Vec<BlockId> {
    document.blocks().iter().map(|block| block.id).collect()
}

const THREE: &str = "job a\n  rules us\n\nload b\n  mass 3 t\n# next\nmove c\n  by d\n";

#[test]
fn an_entry_starts_in_column_one_and_ends_before_the_next() {
    let document = Document::new(THREE);
    assert_eq!(
        blocks(&document),
        [
            ("job a\n  rules us\n\n", 0, 3),
            ("load b\n  mass 3 t\n# next\n", 3, 3),
            ("move c\n  by d\n", 6, 2),
        ]
    );
    assert_eq!(document.block_of(0), Some(0));
    assert_eq!(document.block_of(5), Some(1));
    assert_eq!(document.block_of(99), Some(2));
    assert_eq!(document.block_text(3), "");
}

#[test]
fn comments_and_blanks_in_column_one_start_nothing() {
    let document = Document::new("# a\n\n \u{a0}x\n\u{a0}y\n\tz\njob a\n#b\n\u{3000}c\n");
    assert_eq!(document.blocks().len(), 1);
    assert_eq!(document.stray().collect::<Vec<_>>(), [2, 3, 4]);
    let other = Document::new("Ölsäule a\n");
    assert_eq!(other.blocks().len(), 1);
    assert_eq!(other.stray().count(), 0);
    assert_eq!(
        Document::new(" a\n# b\n c").stray().collect::<Vec<_>>(),
        [0, 2]
    );
}

#[test]
fn lines_end_as_editors_count_them() {
    // Source: Language Server Protocol 3.17, "Text Documents": '\n', '\r\n' and '\r' end a line.
    let document = Document::new("a\r\n b\r c\n\n d");
    assert_eq!(document.line_count(), 5);
    let lines: Vec<_> = (0..6).map(|line| document.line_text(line)).collect();
    assert_eq!(
        lines,
        [
            Some("a"),
            Some(" b"),
            Some(" c"),
            Some(""),
            Some(" d"),
            None
        ]
    );
    assert_eq!(document.line_start(1), Some(3));
    let of: Vec<u32> = (0..12).map(|byte| document.line_of(byte)).collect();
    assert_eq!(of, [0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 4, 4]);
}

#[test]
fn an_empty_text_has_one_line_and_no_block() {
    let document = Document::new("");
    assert_eq!(
        (document.line_count(), document.line_text(0)),
        (1, Some(""))
    );
    assert!(document.blocks().is_empty());
    assert_eq!(document.line_of(7), 0);
    assert_eq!(blocks(&document.edit(0..0, "job a")), [("job a", 0, 1)]);
}

#[test]
fn a_byte_order_mark_is_remembered_and_no_part_of_the_text() {
    let document = Document::new("\u{FEFF}job a\n");
    assert!(document.has_bom());
    assert_eq!(document.text(), "job a\n");
    let edited = document.edit(4..5, "b");
    assert!(edited.has_bom());
    assert_eq!(edited.text(), "job b\n");
    assert!(!Document::new("job a").has_bom());
}

#[test]
fn an_edit_keeps_the_other_blocks_though_their_lines_shift() {
    let document = Document::new(THREE);
    let at = THREE.find("mass").unwrap();
    let edited = document.edit(at..at, "mass 5 t\n  ");
    let (before, after) = (ids(&document), ids(&edited));
    assert_eq!((before[0], before[2]), (after[0], after[2]));
    assert_ne!(before[1], after[1]);
    assert_eq!(edited.blocks()[2].first_line, 7);
}

#[test]
fn a_digit_typed_in_one_block_changes_that_block_alone() {
    let document = Document::new(THREE);
    let at = THREE.find("3 t").unwrap();
    let edited = document.edit(at..at + 1, "4");
    let same: Vec<bool> = ids(&document)
        .iter()
        .zip(ids(&edited))
        .map(|(before, after)| *before == after)
        .collect();
    assert_eq!(same, [true, false, true]);
    assert_eq!(edited.block_text(1), "load b\n  mass 4 t\n# next\n");

    // Also in the first column of an entry.
    let at = THREE.find("load").unwrap();
    let edited = document.edit(at..at + 1, "r");
    assert_eq!(ids(&document)[0], ids(&edited)[0]);
    assert_eq!(edited.block_text(1), "road b\n  mass 3 t\n# next\n");
}

#[test]
fn an_entry_joined_to_the_one_above_is_gone() {
    let document = Document::new(THREE);
    let at = THREE.find("load").unwrap();
    let edited = document.edit(at..at, " ");
    assert_eq!(edited.blocks().len(), 2);
    assert_eq!(ids(&edited)[1], ids(&document)[2]);
    let back = edited.edit(at..at + 1, "");
    assert_eq!(blocks(&back), blocks(&document));
}

#[test]
fn an_edit_outside_the_text_or_inside_a_character_is_put_right() {
    let document = Document::new("job ä\n");
    assert_eq!(document.edit(99..200, "x").text(), "job ä\nx");
    assert_eq!(document.edit(4..99, "x").text(), "job x");
    assert_eq!(document.edit(5..5, "x").text(), "job xä\n");
    assert_eq!(document.edit(5..6, "x").text(), "job x\n");
    assert_eq!(document.edit(4..5, "x").text(), "job x\n");
    #[expect(clippy::reversed_empty_ranges, reason = "a client can send one")]
    let reversed = document.edit(6..4, "x");
    assert_eq!(reversed.text(), "job äx\n");
}

#[test]
fn a_line_feed_put_behind_a_carriage_return_makes_one_ending() {
    let document = Document::new("a\rb\rc");
    let edited = document.edit(2..2, "\n");
    assert_eq!(edited.line_count(), 3);
    assert_eq!(
        blocks(&edited),
        [("a\r\n", 0, 1), ("b\r", 1, 1), ("c", 2, 1)]
    );
    let back = edited.edit(1..2, "");
    assert_eq!(blocks(&back), [("a\n", 0, 1), ("b\r", 1, 1), ("c", 2, 1)]);
}
