//! `plumbhook new`.

use crate::NOT_CHECKED;
use crate::arguments::New;
use crate::output::{complain, print};
use plumbhook_report::first;
use plumbhook_workspace::{Disk, EXTENSION, FIRST_LINES, FileKind, ROOT_FILE, Workspace};
use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The file of a first job whose name nobody says.
const FIRST_JOB: &str = "first-job.pick";

/// A file with its text.
type Wanted = (PathBuf, String);

/// The exit code.
pub(crate) fn run(asked: &New) -> u8 {
    match wanted(&asked.path).and_then(|wanted| write_all(&wanted).map(|()| wanted)) {
        Ok(wanted) => print(|out| say(&wanted, out)),
        Err(why) => {
            complain(&why);
            NOT_CHECKED
        }
    }
}

/// What is to be written, the job last. Where a root file stands above it, the job alone: yard and plants are there.
fn wanted(path: &Path) -> Result<Vec<Wanted>, String> {
    let base = std::env::current_dir()
        .map_err(|error| format!("the folder that you stand in cannot be found: {error}"))?;
    let is_job = path.extension().is_some_and(|found| found == EXTENSION);
    if !is_job && path.is_file() {
        let path = path.display();
        return Err(format!(
            "{path} is a file and no folder; a job file ends in `.{EXTENSION}`"
        ));
    }
    let folder = if is_job { path.parent() } else { Some(path) };
    // Shown without the `./` that nobody would write.
    let folder: PathBuf = folder
        .into_iter()
        .flatten()
        .filter(|part| *part != ".")
        .collect();
    let below = base.join(&folder);
    let root = below
        .ancestors()
        .find(|above| above.join(ROOT_FILE).exists());
    let job = |inside: &str| match path.file_name() {
        Some(_) if is_job => path.to_owned(),
        _ => folder.join(inside).join(FIRST_JOB),
    };
    let name = |job: &Path| {
        let stem = job.file_stem().unwrap_or_default();
        first::job_name(&stem.to_string_lossy())
    };
    if let Some(root) = root {
        let job = job("");
        let text = first::job_at(&name(&job), the_plant(root).as_deref());
        return Ok(vec![(job, text)]);
    }
    let job = job("jobs");
    let text = first::job(&name(&job));
    Ok(vec![
        (folder.join(ROOT_FILE), FIRST_LINES.to_owned()),
        (folder.join("yard/gear.pick"), first::yard()),
        (folder.join("plants/site.plant.pick"), first::plant()),
        (job, text),
    ])
}

/// The plant under a root, where it is the only one.
fn the_plant(root: &Path) -> Option<String> {
    let mut workspace = Workspace::new(Arc::new(Disk));
    workspace.folders(&[root.to_owned()]);
    let snapshot = workspace.snapshot();
    let mut plants = snapshot
        .files()
        .filter(|file| file.kind == Some(FileKind::Plant))
        .filter_map(|file| Some(file.opener.as_ref()?.key.name.to_string()));
    let only = plants.next().filter(|name| !name.is_empty())?;
    plants.next().is_none().then_some(only)
}

/// Writes none of them where one is there already.
fn write_all(wanted: &[Wanted]) -> Result<(), String> {
    if let Some((path, _)) = wanted
        .iter()
        .find(|(path, _)| path.symlink_metadata().is_ok())
    {
        return Err(format!(
            "{} is there already, so nothing was written; name another file or folder",
            path.display()
        ));
    }
    for (path, text) in wanted {
        write(path, text)
            .map_err(|error| format!("{} could not be written: {error}", path.display()))?;
    }
    Ok(())
}

fn write(path: &Path, text: &str) -> io::Result<()> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    file.write_all(text.as_bytes())
}

fn say(wanted: &[Wanted], out: &mut dyn Write) -> io::Result<()> {
    for (path, _) in wanted {
        writeln!(out, "wrote {}", path.display())?;
    }
    let Some((job, _)) = wanted.last() else {
        return Ok(());
    };
    writeln!(
        out,
        "Write in it what you know; `plumbhook check {}` says what it still needs.",
        job.display()
    )
}
