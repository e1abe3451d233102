//! What counts under each root file and where it is said: every setting, every file.

use crate::check::Targets;
use crate::layout::Root;
use crate::paths::clean;
use crate::snapshot::State;
use crate::source::FileKind;
use crate::workspace::Workspace;
use plumbhook_model::{BASES, RULE_SETS};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// One setting of a root file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setting {
    /// Its name with that of its table, as `allowance.mass.weighed`.
    pub key: String,
    /// As written, or in words what counts where nothing is written.
    pub value: String,
    /// The line of the root file that says it, from 1; `None` where nothing does.
    pub line: Option<usize>,
}

/// A file under a root file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnderRoot {
    /// The file as the user would write it.
    pub shown: Arc<str>,
    /// What it is for the root file, or why it does not count.
    pub is: String,
}

/// Everything that a root file settles.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RootSettings {
    /// The root file as the user would write it.
    pub shown: Arc<str>,
    /// What is wrong in it; then nothing under it is checked.
    pub wrong: Vec<String>,
    /// What it says, in its order, then what it leaves open.
    pub settings: Vec<Setting>,
    /// The files that count, then those that are ignored.
    pub files: Vec<UnderRoot>,
}

impl Workspace {
    /// What counts under each root file that the targets belong to; empty where no root file stands above any.
    pub fn settings(&mut self, targets: &Targets) -> Vec<RootSettings> {
        let snapshot = self.snapshot();
        let state = &*snapshot.0;
        let roots = state.layout.roots.iter().enumerate();
        let asked = state.roots_of(targets);
        roots
            .filter(|(at, _)| asked.contains(at))
            .map(|(at, root)| RootSettings {
                shown: Arc::clone(&root.shown),
                wrong: wrong(root),
                settings: settings(root),
                files: {
                    let ignored = self.ignored_under(&root.folder);
                    state.files_under(at).into_iter().chain(ignored).collect()
                },
            })
            .collect()
    }
}

impl Workspace {
    fn ignored_under(&self, folder: &Path) -> Vec<UnderRoot> {
        let ignored = self.ignored(folder).into_iter();
        ignored
            .map(|(shown, why)| UnderRoot {
                shown,
                is: format!("ignored: {why}"),
            })
            .collect()
    }
}

fn wrong(root: &Root) -> Vec<String> {
    let faults = root.config.as_ref().err().into_iter().flatten();
    faults.map(|fault| fault.say.clone()).collect()
}

fn settings(root: &Root) -> Vec<Setting> {
    let text = root
        .document
        .as_ref()
        .map_or("", |document| document.text());
    let mut found = said(text);
    let open: Vec<_> = defaults()
        .into_iter()
        .filter(|(key, _)| !found.iter().any(|said| said.key == *key))
        .collect();
    found.extend(open.into_iter().map(|(key, value)| Setting {
        key,
        value,
        line: None,
    }));
    found
}

/// What a root file says, in its order; nothing where it is no TOML.
fn said(text: &str) -> Vec<Setting> {
    let mut found = Vec::new();
    if let Ok(table) = DeTable::parse(text) {
        table_of(text, "", table.get_ref(), &mut found);
    }
    found.sort_by_key(|setting| setting.line);
    found
}

fn table_of(text: &str, above: &str, table: &DeTable<'_>, found: &mut Vec<Setting>) {
    for (key, value) in table {
        let key = format!("{above}{}", key.get_ref());
        match value.get_ref() {
            // `{ is = …, because = … }` is one setting.
            DeValue::Table(inner) if !is_inline(text, value) => {
                table_of(text, &format!("{key}."), inner, found);
            }
            _ => found.push(Setting {
                key,
                value: words(text.get(value.span()).unwrap_or("")),
                line: Some(line_of(text, value.span().start)),
            }),
        }
    }
}

fn is_inline(text: &str, value: &Spanned<DeValue<'_>>) -> bool {
    let written = text.get(value.span()).unwrap_or("");
    written.starts_with('{')
}

/// Several lines as one.
fn words(written: &str) -> String {
    let words: Vec<&str> = written.split_whitespace().collect();
    words.join(" ")
}

fn line_of(text: &str, byte: usize) -> usize {
    let before = text.get(..byte).unwrap_or(text);
    1 + before.bytes().filter(|byte| *byte == b'\n').count()
}

/// Every setting with what counts where a root file leaves it open.
fn defaults() -> Vec<(String, String)> {
    let mut all = vec![
        (
            "yard".to_owned(),
            "no folder, so no gear of the house".to_owned(),
        ),
        ("plants".to_owned(), "no folder, so no plant".to_owned()),
    ];
    all.extend(RULE_SETS.iter().map(|set| {
        let edition = format!("not pinned; this version has edition {}", set.edition);
        (format!("rule-sets.{}", set.word), edition)
    }));
    all.extend(BASES.iter().map(|(basis, _)| {
        let none = "none: such a mass without a tolerance has no band".to_owned();
        (format!("allowance.mass.{basis}"), none)
    }));
    let rest = [
        (
            "stage.least",
            "none: each job stands where its last revision says",
        ),
        ("factor.dynamic", "none: a move without one cannot tell"),
        ("limit.tilt", "none: a move without one cannot tell"),
        (
            "severity",
            "of each rule not named above: as its verdict says",
        ),
    ];
    all.extend(rest.map(|(key, value)| (key.to_owned(), value.to_owned())));
    all
}

impl State {
    /// The roots that the targets belong to.
    fn roots_of(&self, targets: &Targets) -> BTreeSet<usize> {
        let files = self.layout.files.iter();
        let of = |wanted: &dyn Fn(&Path) -> bool| -> BTreeSet<usize> {
            let wanted = files.clone().filter(|(path, _)| wanted(path));
            wanted.filter_map(|(_, known)| known.root).collect()
        };
        match targets {
            Targets::All => of(&|_| true),
            Targets::Paths(paths) => {
                let paths: Vec<PathBuf> = paths
                    .iter()
                    .map(|path| clean(&self.base.join(path)))
                    .collect();
                of(&|path| paths.iter().any(|wanted| path.starts_with(wanted)))
            }
        }
    }

    fn files_under(&self, at: usize) -> Vec<UnderRoot> {
        let Some(given) = self.layout.given.get(at) else {
            return vec![];
        };
        let mut files = Vec::new();
        for (path, known) in &self.layout.files {
            let seen = given.yard.contains(path) || given.plants.contains(path);
            if known.root != Some(at) && !seen {
                continue;
            }
            let kind = self.sources.get(path).map(|read| {
                let read = read.as_ref();
                read.map(|file| file.kind).map_err(|why| &*why.why)
            });
            let is = match kind {
                Some(Ok(Some(FileKind::Job))) => "job",
                Some(Ok(Some(FileKind::Plant))) if given.plants.contains(path) => "plant",
                Some(Ok(Some(FileKind::Yard))) if given.yard.contains(path) => "yard",
                Some(Ok(Some(FileKind::Plant))) => {
                    "a plant that no job sees: in no folder of `plants`"
                }
                Some(Ok(Some(FileKind::Yard))) => "a yard that no job sees: in no folder of `yard`",
                Some(Ok(None)) | None => "opens with neither `job`, `plant` nor `yard`",
                Some(Err(why)) => why,
            };
            files.push(UnderRoot {
                shown: Arc::clone(&known.shown),
                is: is.to_owned(),
            });
        }
        files
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::config::Config;

    fn in_words(settings: &[Setting]) -> Vec<String> {
        let line = |setting: &Setting| setting.line.map_or(0, |line| line);
        settings
            .iter()
            .map(|it| format!("{} {} = {}", line(it), it.key, it.value))
            .collect()
    }

    #[test]
    fn what_a_root_file_says_is_found_with_its_line() {
        let text = "language = 1\nyard = [\n  \"a\",\n  \"b\"]\n[allowance.mass]\nweighed = \"3 %\"\n\
                    [severity]\ntilt = { to = \"warning\", because = \"x\" }\n";
        assert_eq!(
            in_words(&said(text)),
            [
                "1 language = 1",
                "2 yard = [ \"a\", \"b\"]",
                "6 allowance.mass.weighed = \"3 %\"",
                "8 severity.tilt = { to = \"warning\", because = \"x\" }",
            ]
        );
    }

    /// The reader itself says what may stand in a root file, when it meets what may not.
    #[test]
    fn every_key_that_a_root_file_may_have_is_among_the_defaults() {
        let faults = Config::read(&"plumbhook.toml".into(), "zzz = 1\n").unwrap_err();
        let fault = faults.first().unwrap();
        let known = fault.say.split('`').skip(3).step_by(2);
        let mut count = 0;
        for word in known.filter(|word| *word != "language") {
            count += 1;
            let starts = |key: &str| key.split('.').next() == Some(word);
            assert!(defaults().iter().any(|(key, _)| starts(key)), "{word}");
        }
        assert!(count >= 7, "{}", fault.say);
    }

    #[test]
    fn every_default_is_a_key_that_a_root_file_may_have() {
        for (key, default) in defaults() {
            let edition = default.rsplit(' ').next().unwrap_or_default();
            let value = match key.split('.').next() {
                Some("yard" | "plants") => "[]",
                Some("rule-sets") => edition,
                Some("allowance") => "\"3 %\"",
                Some("stage") => "\"bid\"",
                Some("factor") => "{ is = \"1.1\", because = \"x\" }",
                Some("limit") => "{ is = \"1 deg\", because = \"x\" }",
                _ => "{}",
            };
            let text = format!("language = 1\n{key} = {value}\n");
            let read = Config::read(&"plumbhook.toml".into(), &text);
            assert!(read.is_ok(), "{text}{read:?}");
        }
    }
}
