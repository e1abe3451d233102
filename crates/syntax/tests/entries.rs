//! Blocks of text, and the statements, rows and provenance read from them.

mod sketch;

use plumbhook_syntax::{Cell, Entry, Fault, Node, Provenance, read_entry};
use sketch::{sketch, sketch_all};

fn sketch_entry(entry: &Entry) -> Vec<String> {
    std::iter::once(&entry.header)
        .chain(&entry.statements)
        .map(|statement| {
            let mut out = format!(
                "{} {}: {}",
                statement.line,
                sketch(&statement.key),
                sketch_all(&statement.items)
            );
            out.push_str(&sketch_from(statement.provenance.as_ref()));
            for row in &statement.rows {
                let cells: Vec<String> = row.cells.iter().map(sketch_cell).collect();
                out += &[" / ", &row.line.to_string(), " [", &cells.join(" | "), "]"].concat();
            }
            out
        })
        .collect()
}

fn sketch_cell(cell: &Cell) -> String {
    sketch_all(&cell.items) + &sketch_from(cell.provenance.as_ref())
}

fn sketch_from(provenance: Option<&Provenance>) -> String {
    provenance.map_or(String::new(), |from| {
        format!(" from <{}>", sketch_all(&from.items))
    })
}

#[track_caller]
fn reads(block: &str, as_lines: &[&str]) {
    assert_eq!(sketch_entry(&read_entry(block)), as_lines, "{block}");
}

#[test]
fn an_entry_is_a_header_and_its_indented_lines() {
    reads(
        "load runner \"Francis runner\"\n  mass  31.5 t +/- 8 %   from d-204\n  mass at most 34 t from mail-3\n\n  # none\n  inside nothing\n",
        &[
            "0 load: runner; \"Francis runner\"",
            "1 mass: {31.5[t] +/- 8[%]} from <d-204>",
            "2 mass: at; most; 34[t] from <mail-3>",
            "5 inside: nothing",
        ],
    );
}

#[test]
fn a_key_stands_alone_whatever_follows() {
    reads("let\n  mass +/- 8 %", &["0 let: ", "1 mass: BAD"]);
    reads("a\n  x .. 3", &["0 a: ", "1 x: BAD; #3"]);
    reads("a\n  2 of b", &["0 a: ", "1 #2: of; b"]);
    reads("a\n  from d-12", &["0 a: ", "1 from: d-12"]);
    reads("a\n  \"b\" c", &["0 a: ", "1 \"b\": c"]);
}

#[test]
fn provenance_is_cut_off_at_the_first_bare_from() {
    reads(
        "pin\n  rated 17 t from tag quote \"WLL 17T\" read-as metric",
        &[
            "0 pin: ",
            "1 rated: 17[t] from <tag; quote; \"WLL 17T\"; read-as; metric>",
        ],
    );
    reads(
        "pin\n  rated 17 t from",
        &["0 pin: ", "1 rated: 17[t] from <>"],
    );
    reads(
        "pin\n  a from b from c",
        &["0 pin: ", "1 a:  from <b; from; c>"],
    );
    reads("pin\n  a \"from b\"", &["0 pin: ", "1 a: \"from b\""]);
    reads("pin\n  a (from b)", &["0 pin: ", "1 a: (from; b)"]);
    reads("pin\n  a from-b", &["0 pin: ", "1 a: from-b"]);
    // Cut before a range can take it.
    reads("pin\n  a 5 .. from b", &["0 pin: ", "1 a: BAD from <b>"]);
    let entry = read_entry("pin\n  rated 17 t  from tag 3 # x");
    let from = entry.statements[0]
        .provenance
        .as_ref()
        .map(|from| from.place);
    assert_eq!(
        from.map(|place| place.of(entry.statements[0].text)),
        Some("from tag 3")
    );
}

#[test]
fn rows_belong_to_the_statement_above_them() {
    reads(
        "move M1\n  stations\n    | at | hold |\n    # none\n\n    | (1 m, 2 m) | H1 cell |\n  limit 40 t",
        &[
            "0 move: M1",
            "1 stations:  / 2 [at | hold] / 5 [(1[m]; ,; 2[m]) | H1; cell]",
            "6 limit: 40[t]",
        ],
    );
    reads("chart\n  | a |", &["0 chart:  / 1 [a]"]);
}

#[test]
fn a_row_is_split_at_bars_outside_quotation_marks() {
    let cells = |row: &str| {
        let block = format!("a\n {row}");
        let entry = read_entry(&block);
        entry.header.rows[0]
            .cells
            .iter()
            .map(sketch_cell)
            .collect::<Vec<_>>()
    };
    assert_eq!(cells("| a | b |"), ["a", "b"]);
    assert_eq!(cells("| a | b"), ["a", "b"]);
    assert_eq!(cells("|a|b|"), ["a", "b"]);
    assert_eq!(cells("| a |  | c |"), ["a", "", "c"]);
    assert_eq!(cells("| |"), [""]);
    assert_eq!(cells("|"), [""; 0]);
    assert_eq!(cells("| a \"x | y\" | b | # c | d"), ["a; \"x | y\"", "b"]);
    assert_eq!(cells("| 12'-6\" | 24\" |"), ["150[in]", "24[in]"]);
    assert_eq!(cells("| 5 t from d-1 | 6 t |"), ["5[t] from <d-1>", "6[t]"]);
    assert_eq!(cells("| a \"x | b |"), ["a; BAD"]);
    assert_eq!(cells("| (1 m | 2 m) |"), ["BAD", "2[m]; BAD"]);
    assert_eq!(cells("| 0412 | ok |"), ["#412", "ok"]);
}

#[test]
fn a_cell_stands_where_its_text_stands() {
    let entry = read_entry("a\n  | 5 t from x |   | b |");
    let row = &entry.header.rows[0];
    let places: Vec<&str> = row
        .cells
        .iter()
        .map(|cell| cell.place.of(row.text))
        .collect();
    assert_eq!(places, ["5 t from x", "   ", "b"]);
}

#[test]
fn a_block_without_a_first_word_says_so() {
    for block in ["", "\n", "  # x"] {
        let entry = read_entry(block);
        assert_eq!(
            entry.header.key.node,
            Node::Bad(Fault::NoEntry),
            "{block:?}"
        );
    }
}

#[test]
fn line_endings_do_not_change_what_is_read() {
    let block = "load a \"b\"\n  mass 3 t from x\n\n  rows\n  | a | b |\n  | \"c | 2\"\n";
    let read = sketch_entry(&read_entry(block));
    for ending in ["\r\n", "\r"] {
        assert_eq!(
            sketch_entry(&read_entry(&block.replace('\n', ending))),
            read
        );
    }
    let mixed = block.replacen('\n', "\r\n", 3);
    assert_eq!(sketch_entry(&read_entry(&mixed)), read);
    assert_eq!(sketch_entry(&read_entry(block.trim_end())), read);
}

#[test]
fn a_broken_line_leaves_its_neighbours_alone() {
    reads(
        "load a\n  mass (((\"\n  cg x 0\n",
        &["0 load: a", "1 mass: BAD", "2 cg: x; #0"],
    );
}
