//! `plumbhook fmt`.

use crate::arguments::Fmt;
use crate::output::{complain, print};
use crate::{CLEAN, FOUND, NOT_CHECKED};
use plumbhook_syntax::Document;
use plumbhook_syntax::format::{format, format_lines, line_ending};
use plumbhook_workspace::{Disk, Files, Unreadable};
use similar::TextDiff;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// Stands for standard input.
const STDIN: &str = "-";

/// The exit code.
pub(crate) fn run(wanted: &Fmt) -> u8 {
    let reads_input = wanted.paths.iter().any(|path| path.as_os_str() == STDIN);
    match (reads_input, wanted.paths.len()) {
        (true, 1) => input(wanted),
        (true, _) => {
            complain("`-` stands alone: standard input is formatted to standard output");
            NOT_CHECKED
        }
        (false, _) => files(wanted),
    }
}

fn input(wanted: &Fmt) -> u8 {
    let mut bytes = Vec::new();
    let read = io::stdin().read_to_end(&mut bytes);
    let text = read
        .map_err(|error| error.to_string())
        .and_then(|_| String::from_utf8(bytes).map_err(|error| error.to_string()));
    match text {
        Ok(text) => {
            let new = formatted(&text, wanted.lines);
            if wanted.check {
                return show(&[(PathBuf::from("standard input"), text, new)]);
            }
            print(|out| out.write_all(new.as_bytes()))
        }
        Err(why) => {
            complain(&format!("standard input could not be read: {why}"));
            NOT_CHECKED
        }
    }
}

fn files(wanted: &Fmt) -> u8 {
    let mut failed = false;
    let mut fail = |path: &Path, why: &str| {
        complain(&format!("{}: {why}", path.display()));
        failed = true;
    };
    let mut all = Vec::new();
    for path in &wanted.paths {
        let listing = Disk.list(path);
        for (path, why) in &listing.failed {
            fail(path, &could_not(why));
        }
        if listing.files.is_empty() && listing.failed.is_empty() {
            fail(path, "no `.pick` file is there");
        }
        all.extend(listing.files);
    }
    all.sort();
    all.dedup();
    if wanted.lines.is_some() && all.len() != 1 {
        complain("`--lines` is for one file");
        return NOT_CHECKED;
    }
    let mut changed = Vec::new();
    for path in all {
        match Disk.read(&path) {
            Ok(text) => {
                let new = formatted(&text, wanted.lines);
                if new != text {
                    changed.push((path, text, new));
                }
            }
            Err(why) => fail(&path, &could_not(&why)),
        }
    }
    if wanted.check {
        let shown = show(&changed);
        return if failed { NOT_CHECKED } else { shown };
    }
    for (path, _, new) in &changed {
        match replace(path, new) {
            Ok(()) => println!("formatted {}", path.display()),
            Err(error) => fail(path, &format!("it could not be written: {error}")),
        }
    }
    if failed { NOT_CHECKED } else { CLEAN }
}

fn could_not(why: &Unreadable) -> String {
    format!("it could not be read: {}", why.why)
}

fn formatted(text: &str, lines: Option<(u32, u32)>) -> String {
    let document = Document::new(text);
    let Some((from, to)) = lines else {
        return format(&document);
    };
    let mut all: Vec<String> = (0..document.line_count())
        .filter_map(|line| document.line_text(line))
        .map(str::to_owned)
        .collect();
    for edit in format_lines(&document, &(from - 1..to)).into_iter().rev() {
        let lines = edit.lines.start as usize..edit.lines.end as usize;
        all.splice(lines, edit.new);
    }
    let mark = if document.has_bom() { "\u{FEFF}" } else { "" };
    format!("{mark}{}", all.join(line_ending(document.text())))
}

/// Prints what would change.
fn show(changed: &[(PathBuf, String, String)]) -> u8 {
    let mut any = false;
    let printed = print(|out| {
        for (path, old, new) in changed.iter().filter(|(_, old, new)| old != new) {
            any = true;
            let (now, then) = (
                path.display().to_string(),
                format!("{} formatted", path.display()),
            );
            let diff = TextDiff::from_lines(old.as_str(), new.as_str());
            write!(out, "{}", diff.unified_diff().header(&now, &then))?;
        }
        Ok(())
    });
    printed.max(if any { FOUND } else { CLEAN })
}

/// Writes beside the file first, then takes its place, so that no failure leaves half a file. A link stays a link.
fn replace(path: &Path, text: &str) -> io::Result<()> {
    let path = path.canonicalize()?;
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut beside = tempfile::NamedTempFile::new_in(folder)?;
    beside.write_all(text.as_bytes())?;
    beside
        .as_file()
        .set_permissions(path.metadata()?.permissions())?;
    beside.as_file().sync_all()?;
    beside.persist(&path).map_err(|error| error.error)?;
    Ok(())
}
