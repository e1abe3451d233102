//! How long whole checks take: a thousand jobs, and one job from nothing. Prints medians; fails on no time.
#![allow(clippy::unwrap_used, reason = "a bench stops where it cannot go on")]

use plumbhook_checks::example::{FILES, ROOT};
use plumbhook_workspace::{Cancel, Checked, Disk, Snapshot, Targets, Workspace};
use std::fmt::Write;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

fn main() {
    let folder = tempfile::tempdir().unwrap();
    thousand_jobs(folder.path());
    let one = tempfile::tempdir().unwrap();
    write(one.path(), "cover.pick", FILES[2].1);
    house(one.path());
    let mut all = false;
    let cold = median(51, || {
        let started = Instant::now();
        let (_, checked) = cold(one.path());
        all = checked.is_complete();
        started.elapsed()
    });
    assert!(all);
    println!("{:<44} {:>9.3} ms", "one job, from nothing", millis(cold));
}

/// A thousand jobs of a hundred lines, one three-leg move each, read from disk.
fn thousand_jobs(folder: &Path) {
    for number in 0..1_000 {
        write(folder, &format!("jobs/job-{number}.pick"), &job(number));
    }
    house(folder);
    let mut read = vec![];
    let mut check = vec![];
    let whole = median(5, || {
        let started = Instant::now();
        let snapshot = workspace(folder).snapshot();
        read.push(started.elapsed());
        let checked = all(&snapshot);
        check.push(started.elapsed());
        assert_eq!((checked.jobs, checked.is_complete()), (1_000, true));
        started.elapsed()
    });
    read.sort();
    println!(
        "{:<44} {:>9.3} ms",
        "1,000 jobs of 100 lines",
        millis(whole)
    );
    println!(
        "{:<44} {:>9.3} ms",
        "  of that, reading",
        millis(read[read.len() / 2])
    );
    let mut workspace = workspace(folder);
    all(&workspace.snapshot());
    let yard = folder.join("yard.pick");
    workspace.open(&yard, FILES[0].1);
    all(&workspace.snapshot());
    let mut heavy = false;
    let edited = median(21, || {
        heavy = !heavy;
        let text = workspace.text(&yard).unwrap();
        let at = text
            .find("long       5.00 m")
            .unwrap_or_else(|| text.find("long       5.01 m").unwrap());
        let digit = at + "long       5.0".len();
        let started = Instant::now();
        workspace.edit(&yard, digit..digit + 1, if heavy { "1" } else { "0" });
        let snapshot = workspace.snapshot();
        all(&snapshot);
        started.elapsed()
    });
    println!(
        "{:<44} {:>9.3} ms",
        "  a sling of the yard that all of them use",
        millis(edited)
    );
}

/// The clean job with a mass of its own, made up to a hundred lines with sources and remarks.
fn job(number: u32) -> String {
    let mass = 12.0 + f64::from(number) / 1_000.0;
    let text = FILES[2]
        .1
        .replace("14.0 t +/- 5 %", &format!("{mass:.3} t +/- 5 %"));
    let mut text = text.replace("job cover", &format!("job cover-{number}"));
    let mut line = 0;
    while text.lines().count() < 100 {
        line += 1;
        match line % 3 {
            0 => writeln!(text, "# remark {line}").unwrap(),
            1 => writeln!(text, "\nsource s-{line} drawing 1931 \"Sheet {line}\"").unwrap(),
            _ => writeln!(text, "  accuracy   10 mm").unwrap(),
        }
    }
    text
}

fn house(folder: &Path) {
    write(folder, FILES[0].0, FILES[0].1);
    write(folder, FILES[1].0, FILES[1].1);
    write(folder, "plumbhook.toml", ROOT);
}

fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    std::fs::write(path, text).unwrap();
}

fn workspace(folder: &Path) -> Workspace {
    let mut workspace = Workspace::new(Arc::new(Disk));
    workspace.folders(&[folder.to_owned()]);
    workspace
}

fn all(snapshot: &Snapshot) -> Checked {
    snapshot.check(&Targets::All, &Cancel::default()).unwrap()
}

fn cold(folder: &Path) -> (Snapshot, Checked) {
    let snapshot = workspace(folder).snapshot();
    let checked = all(&snapshot);
    (snapshot, checked)
}

fn median(runs: usize, mut run: impl FnMut() -> Duration) -> Duration {
    let mut times: Vec<_> = (0..runs).map(|_| run()).collect();
    times.sort();
    times[times.len() / 2]
}

fn millis(time: Duration) -> f64 {
    time.as_secs_f64() * 1e3
}
