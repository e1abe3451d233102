//! Texts of anything, for properties.

use proptest::prelude::*;

/// Pieces of which lines are made, glued or not.
pub(crate) const PIECES: &[&str] = &[
    " ",
    " ",
    " ",
    "  ",
    "\t",
    "\u{a0}",
    "\u{202f}",
    "mass",
    "x",
    "of",
    "from",
    "to",
    "eye-40",
    "S1",
    "in",
    "t",
    "mm",
    "ton",
    "%",
    "°",
    "0",
    "5",
    "12",
    "0412",
    "31.5",
    "000",
    "1/2",
    "1-1/8",
    "6x36",
    "12'",
    "12'-6\"",
    "6\"",
    "′",
    "″",
    "2026-10-12",
    "01/02/2026",
    "1:50",
    "+/-",
    "±",
    "..",
    ".",
    ",",
    ", ",
    "(",
    ")",
    "+",
    "-",
    "−",
    "–",
    "*",
    "/",
    "×",
    "=",
    "<",
    ">=",
    ":",
    "|",
    "\"",
    "\"a b\"",
    "#",
    "# note",
    "+x",
    "+x-y",
    "²",
    "ä",
    "\0",
    "\u{200b}",
    "\u{FEFF}",
    "“",
    "½",
    "🏗",
    ";",
    "_",
    "..5",
];

/// One line of anything.
pub(crate) fn line() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => prop::collection::vec(prop::sample::select(PIECES), 0..24).prop_map(|all| all.concat()),
        1 => "\\PC{0,60}",
        1 => prop::collection::vec(any::<u8>(), 0..60)
            .prop_map(|all| String::from_utf8_lossy(&all).replace(['\n', '\r'], " ")),
    ]
}

/// Several lines of anything, entries among them.
pub(crate) fn text() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        prop::sample::select(
            &[
                "\n", "\r\n", "\r", "\n", " ", "  ", "#", "job a", "load b", "\u{a0}", "é"
            ][..]
        )
        .prop_map(str::to_owned),
        line(),
    ];
    prop::collection::vec(piece, 0..30).prop_map(|all| all.concat())
}
