//! How fast text is read: lines to tokens, to items, to entries; a text split, and split again after an edit.
//!
//! Reads the sample beside it, or the files named: `cargo bench -p plumbhook-syntax -- FILE…`

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a measuring program stops at the first thing wrong and prints what it measured"
)]

use std::hint::black_box;
use std::time::Instant;

use plumbhook_syntax::{Document, items, read_entry, tokens};

const SAMPLE: &str = include_str!("sample.pick");
const ROUNDS: usize = 41;
const LINES: usize = 10_000;

fn main() {
    let files: Vec<String> = std::env::args()
        .skip(1)
        .filter(|arg| !arg.starts_with('-'))
        .collect();
    let sample = if files.is_empty() {
        SAMPLE.to_owned()
    } else {
        files
            .iter()
            .map(|file| std::fs::read_to_string(file).unwrap())
            .collect()
    };
    let rounds = LINES.div_ceil(sample.lines().count());
    let text = sample.repeat(rounds);
    let lines: Vec<&str> = text.lines().collect();
    let bytes = text.len();
    println!(
        "{} lines, {bytes} bytes, median of {ROUNDS} rounds",
        lines.len()
    );

    let mut buffer = Vec::new();
    let mut count = 0;
    let per_line = |what: &str, seconds: f64| {
        let micros = seconds * 1e6 / lines.len() as f64;
        let rate = bytes as f64 / seconds / 1e6;
        println!("{what:34} {micros:7.3} us a line  {rate:6.1} MB/s");
    };
    per_line(
        "lines to tokens",
        median(|| {
            count = 0;
            for line in &lines {
                tokens(line, &mut buffer);
                count += buffer.len();
            }
        }),
    );
    per_line(
        "lines to items",
        median(|| {
            for line in &lines {
                black_box(items(line));
            }
        }),
    );
    let document = Document::new(&text);
    per_line(
        "blocks to entries",
        median(|| {
            for i in 0..document.blocks().len() {
                black_box(read_entry(document.block_text(i)));
            }
        }),
    );
    let millis = |what: &str, seconds: f64| println!("{what:34} {:7.3} ms", seconds * 1e3);
    millis(
        "a text to blocks",
        median(|| {
            black_box(Document::new(&text));
        }),
    );
    let middle = text.floor_char_boundary(bytes / 2);
    millis(
        "one digit typed in the middle",
        median(|| {
            black_box(document.edit(middle..middle, "7"));
        }),
    );
    println!(
        "{count} tokens, {:.2} bytes of them a byte of text",
        count as f64 * 12.0 / bytes as f64
    );
}

fn median(mut work: impl FnMut()) -> f64 {
    let mut all: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64()
        })
        .collect();
    all.sort_by(f64::total_cmp);
    all[ROUNDS / 2]
}
