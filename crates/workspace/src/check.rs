//! The one `check()`: which files are looked at, what is said of them, and what could not be checked.

use crate::Cancel;
use crate::cancel::Cancelled;
use crate::checked::{Checked, NotChecked};
use crate::config::FIRST_LINES;
use crate::files::ROOT_FILE;
use crate::layout::{Root, is_pick};
use crate::memo::FileOutcome;
use crate::paths::clean;
use crate::snapshot::{Located, Snapshot, State};
use crate::source::{FileKind, SourceFile};
use crate::used::Used;
use crate::view::plant_name;
use plumbhook_model::notices;
use plumbhook_sheet::{Notice, Origin};
use rayon::prelude::*;
use rustc_hash::FxHashSet;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What is to be checked.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Targets {
    /// Every file under the folders that the workspace was given, and every open one.
    #[default]
    All,
    /// These files, and every file that is known under these folders.
    Paths(Vec<PathBuf>),
}

impl Snapshot {
    /// Checks the targets. A plant or a yard among them checks every job under its root file that uses it: for a
    /// plant those that name it, for a yard all.
    ///
    /// # Errors
    /// [`Cancelled`] when `cancel` was called; nothing of it is told then.
    pub fn check(&self, targets: &Targets, cancel: &Cancel) -> Result<Checked, Cancelled> {
        let state = &*self.0;
        let mut checked = Checked {
            only: Arc::clone(&state.only),
            stage: state.stage,
            ..Checked::default()
        };
        let mut wanted = state.wanted(targets, &mut checked.not_checked);
        state.widen(&mut wanted);
        let files = state.readable(&wanted, &mut checked.not_checked);
        let outcomes: Vec<_> = files
            .par_iter()
            .map(|file| match state.view_of(&file.path) {
                Some(view) => state.check_file(file, view, cancel),
                None => Ok(Arc::new(FileOutcome {
                    cases: vec![],
                    notices: file.notices.clone(),
                })),
            })
            .collect::<Result<_, _>>()?;
        let mut found = Vec::new();
        for (file, outcome) in files.iter().zip(outcomes) {
            if file.kind == Some(FileKind::Job) && state.view_of(&file.path).is_some() {
                match outcome.cases.len() {
                    0 => checked.not_checked.extend(self.without_move(file)),
                    _ => checked.jobs += 1,
                }
            }
            checked.cases.extend(outcome.cases.iter().map(Arc::clone));
            found.extend(outcome.cases.iter().flat_map(|case| case.notices.clone()));
            found.extend(outcome.notices.iter().cloned());
        }
        let used = Used::by(state, &files, cancel)?;
        found.extend(used.notices);
        let told: Vec<_> = files.iter().chain(&used.files).collect();
        checked.notices = in_order(&told, found);
        for file in &files {
            let louds = state.view_of(&file.path).map(|view| &view.louds);
            for loud in louds.into_iter().flat_map(|louds| louds.iter()) {
                if !checked.louds.contains(loud) {
                    checked.louds.push(loud.clone());
                }
            }
        }
        cancel.check()?;
        Ok(checked)
    }

    /// A job in which there is nothing to check.
    fn without_move(&self, file: &SourceFile) -> Option<NotChecked> {
        let job = file.opener.as_ref()?;
        Some(NotChecked {
            path: file.path.to_path_buf(),
            shown: Arc::clone(&file.shown),
            at: self.locate(&Origin::header(&job.key)),
            why: "the job has no move, so nothing is checked in it".into(),
            mend: "add a `move` that says what it carries, by what, through which stations".into(),
            files: vec![Arc::clone(&file.shown)],
        })
    }
}

/// Notices of these files, once each, file by file and line by line.
fn in_order(files: &[&Arc<SourceFile>], notices: Vec<Notice>) -> Vec<Notice> {
    let order: BTreeMap<&str, usize> = files.iter().map(|file| &*file.shown).zip(0..).collect();
    let mut told: FxHashSet<(&'static str, Origin)> = FxHashSet::default();
    // Told in two files that share a name, in two options of one move, or in all moves that use a sling.
    let once = [
        &notices::NAME_TWICE,
        &notices::MOVES_CONTRADICT,
        &notices::TAG_ABOVE_TABLE,
    ];
    let mut placed: Vec<_> = notices
        .into_iter()
        .filter_map(|notice| {
            let file = *order.get(&*notice.origin.entry.file)?;
            let again = once.contains(&notice.code)
                && !told.insert((notice.code.code, notice.origin.clone()));
            let line = files.get(file)?.line_of(&notice.origin);
            (!again).then_some(((file, line, notice.origin.start), notice))
        })
        .collect();
    placed.sort_by_key(|(place, _)| *place);
    placed.into_iter().map(|(_, notice)| notice).collect()
}

impl State {
    /// The files that the targets name, and what they name in vain.
    fn wanted(&self, targets: &Targets, vain: &mut Vec<NotChecked>) -> BTreeSet<Arc<Path>> {
        let files = &self.layout.files;
        let Targets::Paths(paths) = targets else {
            vain.extend(self.failed(|_| true));
            let asked = files.iter().filter(|(_, known)| known.asked || known.open);
            return asked.map(|(path, _)| Arc::clone(path)).collect();
        };
        let mut wanted = BTreeSet::new();
        for path in paths.iter().map(|path| clean(&self.base.join(path))) {
            let from: Arc<Path> = path.as_path().into();
            let known = files.range(from..).map(|(known, _)| known);
            let under = known.take_while(|known| known.starts_with(&path));
            let under: Vec<_> = under.map(Arc::clone).collect();
            // A folder that could not be looked into may have held what the target needs.
            let failed = |at: &Path| at.starts_with(&path) || path.starts_with(at);
            let failed: Vec<_> = self.failed(failed).collect();
            if under.is_empty() && failed.is_empty() {
                vain.push(unknown(&path));
            }
            wanted.extend(under);
            vain.extend(
                failed
                    .into_iter()
                    .filter(|failed| !vain.contains(failed))
                    .collect::<Vec<_>>(),
            );
        }
        wanted
    }

    fn failed(&self, wanted: impl Fn(&Path) -> bool) -> impl Iterator<Item = NotChecked> {
        let failed = self.layout.failed.iter();
        failed
            .filter(move |(path, _)| wanted(path))
            .map(|(path, why)| NotChecked {
                path: path.clone(),
                shown: path.to_string_lossy().into(),
                at: None,
                why: why.why.clone(),
                mend: why.mend.clone(),
                files: vec![],
            })
    }

    /// Adds the jobs that use a plant or yard among the wanted.
    fn widen(&self, wanted: &mut BTreeSet<Arc<Path>>) {
        let (mut plants, mut yards) = (FxHashSet::default(), FxHashSet::default());
        for file in wanted.iter().filter_map(|path| self.source(path)) {
            match file.kind {
                Some(FileKind::Plant) => plants.insert(&*file.path),
                Some(FileKind::Yard) => yards.insert(&*file.path),
                Some(FileKind::Job) | None => false,
            };
        }
        if plants.is_empty() && yards.is_empty() {
            return;
        }
        let uses = |file: &SourceFile| {
            let Some(view) = self.view_of(&file.path) else {
                return false;
            };
            let named = plant_name(file).map_or(&[][..], |name| view.plants_named(name));
            view.yards.iter().any(|yard| yards.contains(&*yard.path))
                || named.iter().any(|plant| plants.contains(&*plant.path))
        };
        let files = self.sources.values().filter_map(|read| read.as_ref().ok());
        let jobs = files.filter(|file| file.kind == Some(FileKind::Job) && uses(file));
        wanted.extend(jobs.map(|file| Arc::clone(&file.path)));
    }

    fn source(&self, path: &Path) -> Option<&Arc<SourceFile>> {
        self.sources.get(path)?.as_ref().ok()
    }

    /// The files that could be read; what keeps any of the wanted from being checked is told.
    fn readable(
        &self,
        wanted: &BTreeSet<Arc<Path>>,
        why_not: &mut Vec<NotChecked>,
    ) -> Vec<Arc<SourceFile>> {
        let mut readable = Vec::with_capacity(wanted.len());
        let mut lost: BTreeMap<usize, Vec<Arc<str>>> = BTreeMap::new();
        let mut roots: BTreeSet<usize> = BTreeSet::new();
        for path in wanted {
            let Some(known) = self.layout.files.get(path) else {
                continue;
            };
            match self.sources.get(path) {
                Some(Ok(file)) => readable.push(Arc::clone(file)),
                Some(Err(why)) => why_not.push(NotChecked::unreadable(path, &known.shown, why)),
                None => {}
            }
            match known.root {
                Some(root) if self.views.get(root).is_some_and(Option::is_some) => {
                    roots.insert(root);
                }
                Some(root) => lost.entry(root).or_default().push(Arc::clone(&known.shown)),
                None if self.given_somewhere(path) => {}
                None => why_not.push(no_root_file(path, &known.shown)),
            }
        }
        for root in roots {
            self.unread_yard_or_plants(root, wanted, why_not);
        }
        for (root, files) in lost {
            let root = self.layout.roots.get(root);
            why_not.extend(root.iter().flat_map(|root| wrong_root(root, &files)));
        }
        readable
    }

    /// A yard or a plant that could not be read: what its jobs see is not all that they should.
    fn unread_yard_or_plants(
        &self,
        root: usize,
        wanted: &BTreeSet<Arc<Path>>,
        why_not: &mut Vec<NotChecked>,
    ) {
        let given = self.layout.given.get(root).into_iter();
        let paths = given.flat_map(|given| given.yard.iter().chain(&given.plants));
        for path in paths.collect::<BTreeSet<_>>() {
            let known = self.layout.files.get(path);
            if let (Some(Err(why)), Some(known)) = (self.sources.get(path), known)
                && !wanted.contains(path)
            {
                why_not.push(NotChecked::unreadable(path, &known.shown, why));
            }
        }
    }

    /// Whether some root file names a folder that a file lies in.
    fn given_somewhere(&self, path: &Arc<Path>) -> bool {
        self.layout
            .given
            .iter()
            .any(|given| given.yard.contains(path) || given.plants.contains(path))
    }
}

fn unknown(path: &Path) -> NotChecked {
    let why = if is_pick(path) {
        "it is not among the files that were looked up"
    } else {
        "no `.pick` file is there"
    };
    NotChecked {
        path: path.to_owned(),
        shown: path.to_string_lossy().into(),
        at: None,
        why: why.into(),
        mend: String::new(),
        files: vec![],
    }
}

fn no_root_file(path: &Path, shown: &Arc<str>) -> NotChecked {
    NotChecked {
        path: path.to_owned(),
        shown: Arc::clone(shown),
        at: Some(Located {
            path: path.to_owned(),
            shown: Arc::clone(shown),
            line: 0,
            start: 0,
            end: 0,
        }),
        why: format!("no `{ROOT_FILE}` stands above it, so its yard and its plants are not known"),
        mend: format!("write one, in the folder of the project:\n{FIRST_LINES}"),
        files: vec![Arc::clone(shown)],
    }
}

fn wrong_root(root: &Root, files: &[Arc<str>]) -> Vec<NotChecked> {
    let faults = root.config.as_ref().err().into_iter().flatten();
    faults
        .map(|fault| NotChecked {
            path: root.path.clone(),
            shown: Arc::clone(&root.shown),
            at: root.document.as_ref().map(|document| {
                let narrow = |byte: usize| u32::try_from(byte).unwrap_or(u32::MAX);
                let line = document.line_of(narrow(fault.at.start));
                let from = document.line_start(line).unwrap_or_default();
                let length = narrow(document.line_text(line).map_or(0, str::len));
                let inside = |byte: usize| narrow(byte).saturating_sub(from).min(length);
                Located {
                    path: root.path.clone(),
                    shown: Arc::clone(&root.shown),
                    line,
                    start: inside(fault.at.start),
                    end: inside(fault.at.end),
                }
            }),
            why: fault.say.clone(),
            mend: fault.mend.clone(),
            files: files.to_vec(),
        })
        .collect()
}
