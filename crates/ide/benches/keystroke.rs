//! From a keystroke in a job of 10,000 lines to the marks of all files. Each keystroke changes a digit of a mass so
//! that a verdict flips. Prints medians and 95th percentiles; fails on no time.
#![allow(clippy::unwrap_used, reason = "a bench stops where it cannot go on")]

use plumbhook_checks::example::{FILES, ROOT};
use plumbhook_ide::{completion, diagnostics, inlays};
use plumbhook_workspace::{Cancel, InMemory, Targets, Workspace};
use std::fmt::Write;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

fn main() {
    for lines in [1_000, 10_000] {
        keystrokes(lines);
    }
}

fn keystrokes(lines: usize) {
    let text = job(lines);
    let files = InMemory::default();
    for (name, text) in [
        FILES[0],
        FILES[1],
        ("plumbhook.toml", ROOT),
        ("job.pick", &text),
    ] {
        files.put(Path::new("/w").join(name), text.as_bytes());
    }
    let mut workspace = Workspace::new(Arc::new(files));
    workspace.folders(&["/w".into()]);
    let path = Path::new("/w/job.pick");
    workspace.open(path, &text);
    let cancel = Cancel::default();
    let started = Instant::now();
    let first = workspace.snapshot().check(&Targets::All, &cancel).unwrap();
    let cold = started.elapsed();
    let cases = first.cases.len();
    // A mass in the middle of the file: 14.0 t becomes 94.0 t and back.
    let middle = text.len() / 2;
    let digit = middle + text[middle..].find("14.0 t").unwrap();
    let mut before = diagnostics(&workspace.snapshot(), &first);
    let mut parts = [const { Vec::<Duration>::new() }; 6];
    let line = u32::try_from(text[..digit].lines().count()).unwrap() - 1;
    for stroke in 0..101 {
        let new = if stroke % 2 == 0 { "9" } else { "1" };
        let started = Instant::now();
        workspace.edit(path, digit..digit + 1, new);
        let snapshot = workspace.snapshot();
        let read = started.elapsed();
        let checked = snapshot.check(&Targets::All, &cancel).unwrap();
        let known = started.elapsed();
        let marks = diagnostics(&snapshot, &checked);
        let whole = started.elapsed();
        assert_ne!(marks, before, "the verdict has to flip");
        before = marks;
        // What an editor asks besides: results at the ends of the lines of a window, and what may stand here.
        let asked = Instant::now();
        let ends = inlays(&snapshot, &checked, path, &(line..=line + 60));
        let shown = asked.elapsed();
        assert!(ends.len() > 5, "a window has results");
        let asked = Instant::now();
        let offers = completion(&snapshot, path, line, 19).unwrap().offers;
        let offered = asked.elapsed();
        assert!(offers.len() > 3, "units stand behind a number");
        for (part, time) in parts.iter_mut().zip([
            whole,
            read,
            known.saturating_sub(read),
            whole.saturating_sub(known),
            shown,
            offered,
        ]) {
            part.push(time);
        }
    }
    println!(
        "{lines} lines, {cases} moves; first check {:.1} ms",
        millis(cold)
    );
    let names = [
        "keystroke to marks",
        "  text to snapshot",
        "  check",
        "  marks",
        "line ends of a window",
        "completion of a unit",
    ];
    for (name, times) in names.iter().zip(&mut parts) {
        times.sort();
        println!(
            "{name:<24} {:>9.3} ms   95 %: {:>9.3} ms",
            millis(times[times.len() / 2]),
            millis(times[times.len() * 95 / 100])
        );
    }
}

/// The clean job with its load, rigging and move again and again, each by names of its own.
fn job(lines: usize) -> String {
    let text = FILES[2].1;
    let head = text.find("load cover").unwrap();
    let (mut out, group) = (text[..head].to_owned(), &text[head..]);
    let mut number = 0;
    while out.lines().count() < lines {
        number += 1;
        let group = group
            .replace("load cover", &format!("load cover-{number}"))
            .replace("carries    cover", &format!("carries    cover-{number}"))
            .replace("chains-of-three", &format!("legs-{number}"))
            .replace("eye-20", &format!("eye-{number}"))
            .replace("move M1", &format!("move M{number}"));
        writeln!(out, "{group}").unwrap();
    }
    out
}

fn millis(time: Duration) -> f64 {
    time.as_secs_f64() * 1e3
}
