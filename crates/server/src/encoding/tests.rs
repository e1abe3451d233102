//! The counts are those of the protocol, "Text Documents", `PositionEncodingKind`; its own example
//! is `a𐐀b`, where `b` stands at 3 in UTF-16.

use super::*;
use tower_lsp::ls_types::{GeneralClientCapabilities, Range as LspRange};

const ALL: [Encoding; 3] = [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32];

fn at(line: u32, character: u32) -> Position {
    Position { line, character }
}

fn place(line: u32, column: u32) -> Place {
    Place { line, column }
}

fn client(kinds: &[&'static str]) -> ClientCapabilities {
    ClientCapabilities {
        general: Some(GeneralClientCapabilities {
            position_encodings: Some(kinds.iter().map(|k| PositionEncodingKind::new(k)).collect()),
            ..GeneralClientCapabilities::default()
        }),
        ..ClientCapabilities::default()
    }
}

/// Where the character after `before` stands, both ways.
fn check(before: &str, [utf8, utf16, utf32]: [u32; 3]) {
    let text = format!("first\n{before}|rest\nlast");
    let bytes = u32::try_from(before.len()).unwrap();
    for (encoding, column) in ALL.into_iter().zip([utf8, utf16, utf32]) {
        let lines = Lines::new(&text, encoding);
        assert_eq!(
            lines.place(at(1, column)),
            place(1, bytes),
            "{before} in {encoding:?}"
        );
        assert_eq!(
            lines.position(place(1, bytes)),
            at(1, column),
            "{before} in {encoding:?}"
        );
        assert_eq!(
            lines.offset(at(1, column)),
            6 + before.len(),
            "{before} in {encoding:?}"
        );
    }
}

#[test]
fn plain_letters_and_tabs_count_one_in_every_encoding() {
    check("", [0, 0, 0]);
    check("\tmass 3 t", [9, 9, 9]);
}

#[test]
fn signs_of_the_trade_count_by_encoding() {
    check("12 kN/m²", [9, 8, 8]);
    check("60°", [4, 3, 3]);
    check("12′-6 ½″", [13, 8, 8]);
    check("Ø×", [4, 2, 2]);
}

#[test]
fn the_protocols_own_example_and_an_emoji_take_two_units_in_utf16() {
    check("a𐐀", [5, 3, 2]);
    check("🏗 ", [5, 3, 2]);
    check("e\u{301}", [3, 2, 2]);
}

#[test]
fn a_column_inside_a_character_is_its_start() {
    assert_eq!(
        Lines::new("a𐐀b", Encoding::Utf16).place(at(0, 2)),
        place(0, 1)
    );
    assert_eq!(
        Lines::new("a𐐀b", Encoding::Utf8).place(at(0, 3)),
        place(0, 1)
    );
    assert_eq!(
        Lines::new("a𐐀b", Encoding::Utf16).position(place(0, 3)),
        at(0, 1)
    );
}

#[test]
fn a_column_past_the_end_is_the_end_of_the_line_without_its_line_end() {
    for (text, end) in [("ab\r\ncd", 2), ("ab\ncd", 2), ("ab\rcd", 2), ("ab", 2)] {
        for encoding in ALL {
            let lines = Lines::new(text, encoding);
            assert_eq!(lines.place(at(0, 99)), place(0, end), "{text:?}");
            assert_eq!(lines.offset(at(0, 99)), 2, "{text:?}");
            assert_eq!(lines.position(place(0, 99)), at(0, 2), "{text:?}");
        }
    }
}

#[test]
fn every_line_end_of_the_protocol_ends_a_line() {
    let lines = Lines::new("a\r\nb\rc\n\nd\r\r\ne", Encoding::Utf16);
    let starts: Vec<usize> = (0..7).map(|line| lines.offset(at(line, 0))).collect();
    assert_eq!(starts, [0, 3, 5, 7, 8, 10, 12]);
    assert_eq!(lines.starts.len(), 7);
}

#[test]
fn a_line_past_the_end_is_the_end_of_the_text() {
    for (text, line, column) in [("", 0, 0), ("ab", 0, 2), ("ab\n", 1, 0), ("ab\r\nc°", 1, 3)] {
        let lines = Lines::new(text, Encoding::Utf8);
        assert_eq!(lines.place(at(9, 9)), place(line, column), "{text:?}");
        assert_eq!(lines.offset(at(9, 9)), text.len(), "{text:?}");
        assert_eq!(lines.position(place(9, 9)), at(line, column), "{text:?}");
    }
}

#[test]
fn an_empty_text_has_one_empty_line() {
    let lines = Lines::new("", Encoding::Utf16);
    assert_eq!(lines.place(at(0, 0)), place(0, 0));
    assert_eq!(
        lines.bytes(LspRange::new(at(0, 0), at(u32::MAX, u32::MAX))),
        0..0
    );
}

#[test]
fn ends_of_a_range_the_wrong_way_round_are_turned() {
    let lines = Lines::new("abc\ndef", Encoding::Utf16);
    assert_eq!(lines.bytes(LspRange::new(at(1, 1), at(0, 1))), 1..5);
}

#[test]
fn the_clients_first_known_encoding_is_taken_and_utf16_without_any() {
    assert_eq!(
        Encoding::negotiate(&client(&["utf-7", "utf-32", "utf-8"])),
        Encoding::Utf32
    );
    assert_eq!(
        Encoding::negotiate(&client(&["utf-8", "utf-16"])),
        Encoding::Utf8
    );
    assert_eq!(Encoding::negotiate(&client(&["utf-7"])), Encoding::Utf16);
    assert_eq!(Encoding::negotiate(&client(&[])), Encoding::Utf16);
    assert_eq!(
        Encoding::negotiate(&ClientCapabilities::default()),
        Encoding::Utf16
    );
}
