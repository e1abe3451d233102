//! The owner thread: the only one that changes a text.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::mpsc::Receiver;
use std::sync::{Arc, Mutex, OnceLock};

use crate::check::Checker;
use crate::encoding::{Encoding, Lines};
use crate::engine::Engine;
use crate::events::{Change, Event};
use crate::log::{self, fenced};
use crate::session::{Abilities, Folder, Session};
use crate::uri::Spelling;
use crate::view::{OpenText, View};

/// Starts the owner; it ends when the last sender of events is gone.
pub(crate) fn start(
    engine: Box<dyn Engine>,
    checker: Checker,
    events: Receiver<Event>,
) -> std::io::Result<()> {
    let owner = Owner {
        engine,
        checker,
        encoding: Encoding::default(),
        abilities: Abilities::default(),
        folders: Vec::new(),
        open: Arc::default(),
        spelling: Arc::default(),
        view: None,
        changed: false,
        touched: BTreeSet::new(),
        last: None,
        told_with_others: Arc::default(),
    };
    std::thread::Builder::new()
        .name("owner".into())
        .spawn(move || owner.run(&events))?;
    Ok(())
}

struct Owner {
    engine: Box<dyn Engine>,
    checker: Checker,
    encoding: Encoding,
    abilities: Abilities,
    folders: Vec<Folder>,
    open: Arc<BTreeMap<PathBuf, OpenText>>,
    spelling: Arc<Spelling>,
    /// Kept until the next change.
    view: Option<Arc<View>>,
    /// Something changed since the last check was ordered.
    changed: bool,
    /// Files whose findings the client waits for, changed or not.
    touched: BTreeSet<PathBuf>,
    /// The file that was opened or edited, if nothing has happened since.
    last: Option<PathBuf>,
    told_with_others: Arc<Mutex<BTreeSet<PathBuf>>>,
}

impl Owner {
    fn run(mut self, events: &Receiver<Event>) {
        while let Ok(event) = events.recv() {
            self.take(event);
            // A burst is applied whole; one check answers for all of it.
            while let Ok(event) = events.try_recv() {
                self.take(event);
            }
            if std::mem::take(&mut self.changed) {
                let view = self.view();
                let touched = std::mem::take(&mut self.touched);
                self.checker.order(view, touched, self.last.take());
            }
        }
    }

    fn take(&mut self, event: Event) {
        if !matches!(event, Event::Ask(_)) {
            self.checker.outdated();
            self.view = None;
            self.last = None;
            // Before it has our answer to `initialize` the client may be told nothing.
            self.changed |= !matches!(event, Event::Begin(_));
        }
        match event {
            // The asker may be gone already.
            Event::Ask(reply) => drop(reply.send(self.view())),
            Event::Begin(session) => self.begin(session),
            // The first check: what the folders hold.
            Event::Ready => {}
            Event::Open { uri, version, text } => self.open(&uri, version, text),
            Event::Change {
                uri,
                version,
                changes,
            } => self.change(&uri, version, &changes),
            Event::Close { uri } => self.close(&uri),
            Event::Lost {
                uri: Some(uri),
                why,
            } => self.lose(&uri, &why),
            Event::Lost { uri: None, why } => self.lose_all(&why),
            Event::Disk { uris } => self.disk(&uris),
            Event::Folders { added, removed } => {
                self.folders
                    .retain(|f| !removed.iter().any(|gone| gone.path == f.path));
                self.folders.extend(added);
                self.tell_folders();
            }
        }
    }

    fn begin(&mut self, session: Session) {
        self.encoding = session.encoding;
        self.abilities = session.abilities;
        self.folders = session.folders;
        self.tell_folders();
    }

    fn tell_folders(&mut self) {
        let spelled = self
            .folders
            .iter()
            .map(|f| (f.path.clone(), f.uri.clone()))
            .collect();
        Arc::make_mut(&mut self.spelling).set_folders(spelled);
        let roots = self.folders.iter().map(|f| f.path.clone()).collect();
        if fenced(|| self.engine.folders(roots)).is_none() {
            self.lose_all("internal error, our bug: the folders could not be read");
        }
    }

    fn open(&mut self, uri: &str, version: Option<i32>, text: String) {
        let Some(path) = Arc::make_mut(&mut self.spelling).learn(uri) else {
            log::line(format_args!(
                "{uri} is no file of a job and is not followed"
            ));
            return;
        };
        let lost = fenced(|| self.engine.open(&path, text))
            .is_none()
            .then(our_bug);
        Arc::make_mut(&mut self.open).insert(path.clone(), OpenText { version, lost });
        self.last = Some(path.clone());
        self.touched.insert(path);
    }

    fn change(&mut self, uri: &str, version: Option<i32>, changes: &[Change]) {
        let Some(path) = self.path_of_open(uri) else {
            return;
        };
        let applied = fenced(|| changes.iter().all(|change| self.apply(&path, change)));
        if let Some(open) = Arc::make_mut(&mut self.open).get_mut(&path) {
            open.version = version.or(open.version);
            if open.lost.is_none() && applied != Some(true) {
                open.lost = Some(our_bug());
            }
        }
        self.last = Some(path.clone());
        self.touched.insert(path);
    }

    /// Each range speaks of the text that the change before it left.
    fn apply(&mut self, path: &Path, change: &Change) -> bool {
        let Some(text) = self.engine.text(path) else {
            return false;
        };
        let bytes = match change.range {
            Some(range) => Lines::new(text, self.encoding).bytes(range),
            None => 0..text.len(),
        };
        self.engine.edit(path, bytes, &change.text);
        true
    }

    fn close(&mut self, uri: &str) {
        let Some(path) = self.path_of_open(uri) else {
            return;
        };
        if fenced(|| self.engine.close(&path)).is_none() {
            self.lose_all("internal error, our bug: a file could not be closed");
        }
        Arc::make_mut(&mut self.open).remove(&path);
        self.touched.insert(path);
    }

    fn lose(&mut self, uri: &str, why: &str) {
        let Some(path) = self.path_of_open(uri) else {
            return;
        };
        log::line(format_args!("{uri}: a change cannot be read: {why}"));
        if let Some(open) = Arc::make_mut(&mut self.open).get_mut(&path) {
            open.lost = Some(format!(
                "the editor sent a change that cannot be read: {why}"
            ));
        }
        self.touched.insert(path);
    }

    fn disk(&mut self, uris: &[String]) {
        for uri in uris {
            let Some(path) = crate::uri::path_of(uri) else {
                continue;
            };
            if !self.open.contains_key(&path) {
                Arc::make_mut(&mut self.spelling).learn(uri);
            }
            if fenced(|| self.engine.disk_changed(&path)).is_none() {
                self.lose_all("internal error, our bug: a changed file could not be read again");
            }
        }
    }

    fn path_of_open(&self, uri: &str) -> Option<PathBuf> {
        let path = crate::uri::path_of(uri).filter(|path| self.open.contains_key(path));
        if path.is_none() {
            log::line(format_args!(
                "{uri} is not open; the message about it is dropped"
            ));
        }
        path
    }

    /// Nobody knows which texts are still the editor's: every open one says so.
    fn lose_all(&mut self, why: &str) {
        for (path, open) in Arc::make_mut(&mut self.open) {
            open.lost.get_or_insert_with(|| why.to_owned());
            self.touched.insert(path.clone());
        }
    }

    fn view(&mut self) -> Arc<View> {
        if let Some(view) = &self.view {
            return Arc::clone(view);
        }
        let roots = self.folders.iter().map(|folder| folder.path.clone());
        let view = Arc::new(View {
            snapshot: fenced(|| self.engine.snapshot()),
            encoding: self.encoding,
            abilities: self.abilities,
            roots: roots.collect(),
            open: Arc::clone(&self.open),
            spelling: Arc::clone(&self.spelling),
            lists: OnceLock::new(),
            told_with_others: Arc::clone(&self.told_with_others),
        });
        self.view = Some(Arc::clone(&view));
        view
    }
}

fn our_bug() -> String {
    "internal error, our bug".to_owned()
}
