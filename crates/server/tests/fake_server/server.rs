//! A server over an engine of a few words, for the protocol's tests; it knows nothing of lifting.
//!
//! Lines: `over NAME` is a finding; `uses FILE` is a finding while that neighbour has an `over`;
//! `slow` makes the check take 50 ms more, `deaf` a second without a look at cancellation;
//! `crash-check` makes it panic; `name WORD` declares.
//! Hover answers with the first line; over `slow-hover` it takes 100 ms, over `hang-hover` until it
//! is cancelled (which it logs), over `crash-hover` it panics. An edit that holds `crash-edit` panics.

use plumbhook_server::engine::{
    Cancel, Cancelled, Engine, FileFindings, Finding, HoverText, Location, Place, Severity,
    Snapshot, Span,
};
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;
use std::time::Duration;

fn main() -> ExitCode {
    plumbhook_server::serve(Box::new(Fake::default()))
}

#[derive(Default)]
struct Fake {
    open: BTreeMap<PathBuf, String>,
    disk: BTreeMap<PathBuf, String>,
}

struct State(BTreeMap<PathBuf, String>);

impl Engine for Fake {
    fn open(&mut self, path: &Path, text: String) {
        self.open.insert(path.to_owned(), text);
    }

    fn text(&self, path: &Path) -> Option<&str> {
        self.open.get(path).map(String::as_str)
    }

    fn edit(&mut self, path: &Path, bytes: Range<usize>, text: &str) {
        assert!(!text.contains("crash-edit"), "asked to fail in an edit");
        if let Some(old) = self.open.get_mut(path) {
            old.replace_range(bytes, text);
        }
    }

    fn close(&mut self, path: &Path) {
        self.open.remove(path);
    }

    fn disk_changed(&mut self, path: &Path) {
        match std::fs::read_to_string(path) {
            Ok(text) => drop(self.disk.insert(path.to_owned(), text)),
            Err(_) => drop(self.disk.remove(path)),
        }
    }

    fn folders(&mut self, roots: Vec<PathBuf>) {
        self.disk.clear();
        for file in roots
            .iter()
            .filter_map(|root| std::fs::read_dir(root).ok())
            .flatten()
            .flatten()
        {
            self.disk_changed(&file.path());
        }
    }

    fn watched(&self) -> Vec<String> {
        vec!["**/*.pick".to_owned()]
    }

    fn snapshot(&mut self) -> Arc<dyn Snapshot> {
        let mut texts = self.disk.clone();
        texts.extend(self.open.clone());
        Arc::new(State(texts))
    }
}

impl Snapshot for State {
    fn text(&self, path: &Path) -> Option<&str> {
        self.0.get(path).map(String::as_str)
    }

    fn findings(&self, cancel: &Cancel) -> Result<Vec<FileFindings>, Cancelled> {
        self.0
            .iter()
            .map(|(path, text)| self.file(path, text, cancel))
            .collect()
    }

    fn hover(
        &self,
        path: &Path,
        at: Place,
        cancel: &Cancel,
    ) -> Result<Option<HoverText>, Cancelled> {
        let Some((word, span)) = self.word(path, at) else {
            return Ok(None);
        };
        match word {
            "crash-hover" => panic!("asked to fail in a hover"),
            "slow-hover" => std::thread::sleep(Duration::from_millis(100)),
            "hang-hover" => hang(cancel)?,
            _ => {}
        }
        let first = self
            .text(path)
            .and_then(|text| text.lines().next())
            .unwrap_or("");
        Ok(Some(HoverText {
            markdown: format!("{first}|{word}"),
            span,
        }))
    }

    fn definition(&self, path: &Path, at: Place, _: &Cancel) -> Result<Vec<Location>, Cancelled> {
        let Some((word, _)) = self.word(path, at) else {
            return Ok(Vec::new());
        };
        let declared = |(path, text): (&PathBuf, &String)| {
            let (number, line) = (0..)
                .zip(text.lines())
                .find(|(_, line)| line.strip_prefix("name ").is_some_and(|name| name == word))?;
            Some(Location {
                path: path.clone(),
                span: span(number, 5, line.len()),
            })
        };
        Ok(self.0.iter().filter_map(declared).collect())
    }
}

impl State {
    fn file(&self, path: &Path, text: &str, cancel: &Cancel) -> Result<FileFindings, Cancelled> {
        let mut findings = Vec::new();
        for (number, line) in (0..).zip(text.lines()) {
            cancel.check()?;
            let words = line.split_once(' ').unwrap_or((line, ""));
            match words {
                ("deaf", _) => {
                    eprintln!("a check hears nothing");
                    std::thread::sleep(Duration::from_secs(1));
                }
                ("slow", _) => std::thread::sleep(Duration::from_millis(50)),
                ("crash-check", _) => panic!("asked to fail in a check"),
                ("over", name) => findings.push(Finding {
                    span: span(number, 5, line.len()),
                    message: format!("{name} is over"),
                    ..finding("over")
                }),
                ("uses", file) => findings.extend(self.used(&path.with_file_name(file), number)),
                _ => {}
            }
        }
        Ok(FileFindings {
            path: path.to_owned(),
            findings,
        })
    }

    fn used(&self, path: &Path, number: u32) -> Option<Finding> {
        let (at, line) = (0..)
            .zip(self.text(path)?.lines())
            .find(|(_, line)| line.starts_with("over "))?;
        let place = Location {
            path: path.to_owned(),
            span: span(at, 5, line.len()),
        };
        Some(Finding {
            span: span(number, 0, 4),
            message: "what it uses is over".to_owned(),
            related: vec![(place, "here".to_owned())],
            severity: Severity::Warning,
            ..finding("uses")
        })
    }

    fn word(&self, path: &Path, at: Place) -> Option<(&str, Span)> {
        let line = self.text(path)?.lines().nth(at.line as usize)?;
        let column = at.column as usize;
        let start = line.get(..column)?.rfind(' ').map_or(0, |blank| blank + 1);
        let end = line
            .get(column..)?
            .find(' ')
            .map_or(line.len(), |blank| column + blank);
        Some((line.get(start..end)?, span(at.line, start, end)))
    }
}

fn hang(cancel: &Cancel) -> Result<(), Cancelled> {
    eprintln!("a hover hangs");
    while !cancel.is_cancelled() {
        std::thread::sleep(Duration::from_millis(5));
    }
    eprintln!("the hanging hover was cancelled");
    Err(Cancelled)
}

fn finding(code: &str) -> Finding {
    Finding {
        span: Span::default(),
        severity: Severity::Error,
        code: code.to_owned(),
        documentation: Some(format!("https://rules.example/{code}")),
        message: String::new(),
        related: Vec::new(),
    }
}

fn span(line: u32, start: usize, end: usize) -> Span {
    let place = |column| Place {
        line,
        column: u32::try_from(column).unwrap_or(u32::MAX),
    };
    Span {
        start: place(start),
        end: place(end),
    }
}
