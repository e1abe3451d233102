//! Reading never fails and never panics, whatever the text: the entry points of the fuzz targets over texts that have
//! broken readers before, over all our own files cut and joined in the middle, and over random ones.

use plumbhook_checks::example;
use plumbhook_tests::endure::{checked, declared, document, lines};
use proptest::prelude::*;

/// Everything reads it.
fn endures(bytes: &[u8]) {
    lines(bytes);
    document(bytes);
    declared(bytes);
}

/// Texts of the kinds that have broken readers of text elsewhere.
fn hard_texts() -> Vec<Vec<u8>> {
    let long = 20_000;
    let mut all: Vec<String> = [
        "",
        "\n",
        "\r",
        "\r\n",
        "\n\r",
        "\u{FEFF}",
        "\u{FEFF}\u{FEFF}load a\n",
        "load a\r\n  mass 1 t\r  cg unknown\n  mass 2 t",
        "load a\n\tmass\t1 t\n\t\tcg\tx 0\n",
        "load a\n  mass 1 t # no line end",
        "load a\n  mass \"never closed",
        "load a\0b\n  ma\0ss 1\0 t\n",
        "load \u{200b}a\u{2028}  mass 1 t\u{85}  cg unknown",
        "\0~~~~\u{FFFD}u\u{FFFD}~~~~~~~",
        "job   🏗🏗🏗 \"a\"\njob\u{a0}🏗\njob\t\t🏗",
        "load 🏗\n  mass ½ t ± ⅓ %\n  cg x −1 mm",
        "  mass 1 t\nload a\n",
        "|||\n| a | b |\nload a\n  points\n    |\n    ||\n    | | | |",
        "load a from from from\n  mass from\n  from from from",
        "load a\n  mass 1e999999 t\n  mass 0.000e-99999999999 t\n  mass 99999999999999999999999999999999 t",
        "load a\n  mass 1 t +/- +/- 1 +/-\n  mass .. 1 t ..\n  mass 1 of of 2 x x 3",
        "move M\n  stations\n    | at | underside |\n    | ((((( | )))) |\n",
    ]
    .map(str::to_owned)
    .into();
    for (open, close) in [
        ("(", ")"),
        ("((1 mm, ", ")"),
        ("1 + (", ")"),
        ("2 of ", ""),
        ("- ", ""),
    ] {
        let deep = open.repeat(long) + &close.repeat(long);
        all.push(format!(
            "load a\n  mass {deep}\n  cg {}\n",
            open.repeat(long)
        ));
    }
    for piece in [
        "a", "1", "\"", "+/- ", "1 x ", "| ", ".", "-", "1-", "'", "°", "\t", ", ",
    ] {
        all.push(format!("load a\n  mass {}\n", piece.repeat(long)));
        all.push(piece.repeat(long));
    }
    all.push("load a\n".repeat(long));
    all.push("load a\n  mass 1 t\n".to_owned() + &"  mass 1 t\r".repeat(long));
    let mut bytes: Vec<Vec<u8>> = all.into_iter().map(String::into_bytes).collect();
    bytes.push((0..=255).collect());
    bytes.push((0..=255).rev().cycle().take(4096).collect());
    bytes.push(vec![0; 4096]);
    bytes.push(vec![0xC3; 4096]);
    bytes
}

#[test]
fn hard_texts_are_endured() {
    for text in hard_texts() {
        endures(&text);
    }
}

#[test]
fn hard_texts_as_job_plant_or_yard_are_checked_to_the_end() {
    for which in 0..3 {
        for text in hard_texts() {
            // The longest are read above; here each is read in three checks.
            let text = text.get(..text.len().min(20_000)).unwrap_or_default();
            checked(&[&[which], text].concat());
        }
    }
}

#[test]
fn our_own_files_cut_anywhere_are_endured() {
    for (_, text) in example::FILES {
        // 97 shares no factor with the width of a line, so the cuts fall everywhere in it.
        for cut in (0..text.len()).step_by(97) {
            let (front, back) = text.as_bytes().split_at(cut);
            endures(front);
            endures(back);
            endures(&[back, front].concat());
            endures(&[front, b"\xFF\x00\x10\x20", back].concat());
        }
        let mixed = text.replacen('\n', "\r\n", 7).replacen('\n', "\r", 3);
        endures(mixed.as_bytes());
        endures(&[b"\xEF\xBB\xBF", mixed.as_bytes()].concat());
    }
}

/// Pieces that mean something to the language, and some that mean nothing.
fn piece() -> impl Strategy<Value = Vec<u8>> {
    let words: Vec<&'static str> = example::FILES
        .iter()
        .flat_map(|(_, text)| text.split(' '))
        .filter(|word| !word.is_empty())
        .collect();
    let glue: &'static [&'static str] = &[
        "\n", "\r\n", "\r", "\n  ", "\n    | ", " | ", " ", "  ", "\t", "\"", "(", ")", ", ",
        "+/- ", " .. ", "#", "\0", "\u{FEFF}", "−", "½",
    ];
    prop_oneof![
        6 => prop::sample::select(words).prop_map(|word| word.as_bytes().to_vec()),
        4 => prop::sample::select(glue).prop_map(|glue| glue.as_bytes().to_vec()),
        1 => Just(vec![0xFF]),
        1 => prop::collection::vec(any::<u8>(), 1..8),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn texts_made_of_our_words_in_any_order_are_endured(
        pieces in prop::collection::vec(piece(), 0..120),
    ) {
        endures(&pieces.concat());
    }

    #[test]
    fn any_bytes_are_endured(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        endures(&bytes);
    }
}

/// Edits of the clean lift: numbers, words and line ends put in somewhere, something taken out.
fn edits() -> impl Strategy<Value = Vec<u8>> {
    let edit = (
        any::<[u8; 2]>(),
        0..40_u8,
        prop::collection::vec(piece(), 0..3),
    )
        .prop_map(|(at, out, new)| {
            let mut edit = vec![0xFF];
            // 0xFF would end the edit.
            edit.extend(at.map(|byte| byte.min(0xFE)));
            edit.push(out);
            edit.extend(new.concat().into_iter().filter(|byte| *byte != 0xFF));
            edit
        });
    prop::collection::vec(edit, 0..4).prop_map(|edits| edits.concat())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn the_clean_lift_edited_anywhere_is_checked_to_the_end_and_as_if_from_nothing(
        which in 0..3_u8,
        edits in edits(),
    ) {
        checked(&[vec![which], edits].concat());
    }
}
