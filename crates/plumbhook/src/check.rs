//! `plumbhook check`.

use crate::arguments::{Check, Deny, Format};
use crate::output::{complain, error_screen, print, screen};
use crate::{CLEAN, FOUND, NOT_CHECKED};
use plumbhook_report::explain::Code;
use plumbhook_report::{Rule, human, json, settings};
use plumbhook_sheet::{Severity, Stage};
use plumbhook_workspace::{
    Cancel, Checked, Disk, EXTENSION, ROOT_FILE, RootSettings, Snapshot, Targets, Workspace,
};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Stands for standard input.
const STDIN: &str = "-";

/// The exit code.
pub(crate) fn run(wanted: &Check) -> u8 {
    let done = asked(wanted).and_then(|asked| {
        let only = only(&wanted.only)?;
        let mut workspace = workspace(&asked, &only, stage(wanted));
        let targets = Targets::Paths(asked.paths);
        if wanted.show_config {
            return show_config(wanted, &workspace.settings(&targets));
        }
        let snapshot = workspace.snapshot();
        let checked = snapshot
            .check(&targets, &Cancel::default())
            .map_err(|_| "the check was broken off".to_owned())?;
        let code = say(wanted, &checked, &snapshot);
        // The process ends: nobody needs thousands of findings given back one by one.
        std::mem::forget((checked, snapshot, workspace));
        Ok(code)
    });
    done.unwrap_or_else(|why| {
        complain(&why);
        NOT_CHECKED
    })
}

fn show_config(wanted: &Check, roots: &[RootSettings]) -> Result<u8, String> {
    if roots.is_empty() {
        return Err(format!(
            "no `.pick` file with a `{ROOT_FILE}` above it is there, so nothing is settled"
        ));
    }
    let mut given = Vec::new();
    if let Some(stage) = &wanted.stage {
        given.push(("--stage", stage.clone()));
    }
    if !wanted.only.is_empty() {
        given.push(("--only", wanted.only.join(", ")));
    }
    let printed = print(|out| out.write_all(settings::render(roots, &given).as_bytes()));
    let wrong = roots.iter().any(|root| !root.wrong.is_empty());
    Ok(printed.max(if wrong { NOT_CHECKED } else { CLEAN }))
}

/// What is to be looked at.
struct Asked {
    base: PathBuf,
    /// Absolute, none inside another.
    paths: Vec<PathBuf>,
    /// The text of standard input and the path that it stands for.
    input: Option<(PathBuf, String)>,
}

fn asked(wanted: &Check) -> Result<Asked, String> {
    let base = std::env::current_dir()
        .map_err(|error| format!("the folder that you stand in cannot be found: {error}"))?;
    let is_input = |path: &PathBuf| path.as_os_str() == STDIN;
    let reads_input = wanted.paths.iter().any(is_input);
    let input = match (&wanted.stdin_name, reads_input) {
        (None, false) => None,
        (Some(name), true) => Some((base.join(name), read_input(name)?)),
        (None, true) => {
            return Err(
                "`-` needs `--stdin-name PATH`: where the text stands decides its yard and its plants"
                    .into(),
            );
        }
        (Some(_), false) => {
            return Err("`--stdin-name` means nothing without the path `-`".into());
        }
    };
    let mut paths: Vec<PathBuf> = wanted
        .paths
        .iter()
        .filter(|path| !is_input(path))
        .map(|path| base.join(path))
        .collect();
    paths.extend(input.iter().map(|(path, _)| path.clone()));
    Ok(Asked {
        paths: outermost(&paths),
        base,
        input,
    })
}

/// Without those that lie inside another.
fn outermost(paths: &[PathBuf]) -> Vec<PathBuf> {
    let mut kept: Vec<PathBuf> = Vec::new();
    for path in paths {
        if !kept.iter().any(|outer| path.starts_with(outer)) {
            kept.retain(|inner| !inner.starts_with(path));
            kept.push(path.clone());
        }
    }
    kept
}

fn read_input(name: &Path) -> Result<String, String> {
    if name.extension().is_none_or(|found| found != EXTENSION) {
        return Err(format!(
            "`--stdin-name {}` names no `.{EXTENSION}` file, so it would not be checked",
            name.display()
        ));
    }
    let mut bytes = Vec::new();
    io::stdin()
        .read_to_end(&mut bytes)
        .map_err(|error| format!("standard input could not be read: {error}"))?;
    String::from_utf8(bytes).map_err(|error| {
        format!(
            "standard input is not UTF-8 text: byte {} belongs to no character",
            error.utf8_error().valid_up_to()
        )
    })
}

/// The rules of these codes.
fn only(codes: &[String]) -> Result<Vec<&'static Rule>, String> {
    let rule = |code: &String| match Code::find(code)? {
        Code::Rule(rule) => Ok(rule),
        Code::Notice(_) => Err(format!("`{code}` is a notice about the text, no rule")),
    };
    codes.iter().map(rule).collect()
}

fn stage(wanted: &Check) -> Option<Stage> {
    let word = wanted.stage.as_deref()?;
    let mut all = Stage::ALL.iter();
    all.find(|(_, known)| *known == word)
        .map(|(stage, _)| *stage)
}

fn workspace(asked: &Asked, only: &[&'static Rule], stage: Option<Stage>) -> Workspace {
    let mut workspace = Workspace::new(Arc::new(Disk)).seen_from(&asked.base);
    if !only.is_empty() {
        workspace = workspace.only(only);
    }
    if let Some(stage) = stage {
        workspace = workspace.at_stage(stage);
    }
    let is_input = |path: &&PathBuf| asked.input.as_ref().is_some_and(|(name, _)| name == *path);
    let folders = asked.paths.iter().filter(|path| !is_input(path));
    workspace.folders(&folders.cloned().collect::<Vec<_>>());
    if let Some((path, text)) = &asked.input {
        workspace.open(path, text);
    }
    workspace
}

fn say(wanted: &Check, checked: &Checked, snapshot: &Snapshot) -> u8 {
    let reasons = human::not_checked(checked, snapshot, error_screen(wanted.color));
    // If standard error is closed, the exit code still tells.
    let _ = io::stderr().write_all(reasons.as_bytes());
    let aloud = if wanted.quiet {
        Severity::Error
    } else {
        Severity::NotYetDue
    };
    let printed = print(|out| match wanted.format {
        Format::Human => {
            let text = human::render_from(aloud, checked, snapshot, screen(wanted.color));
            out.write_all(text.as_bytes())
        }
        Format::Json => json::write(checked, snapshot, out),
    });
    printed.max(exit_code(checked, wanted.deny))
}

fn exit_code(checked: &Checked, deny: Option<Deny>) -> u8 {
    let fails = match deny {
        Some(Deny::Warnings) => Severity::Warning,
        None => Severity::Error,
    };
    if !human::is_whole(checked) {
        NOT_CHECKED
    } else if checked.worst() >= fails {
        FOUND
    } else {
        CLEAN
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_inside_another_is_asked_for_once() {
        let paths: Vec<PathBuf> = ["/a/b", "/a", "/a/c.pick", "/ab"]
            .map(PathBuf::from)
            .to_vec();
        assert_eq!(outermost(&paths), ["/a", "/ab"].map(PathBuf::from));
    }
}
