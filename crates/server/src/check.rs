//! The checking thread: runs the newest check and publishes what changed.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use tower_lsp::ls_types::Diagnostic;

use crate::diagnostics::Report;
use crate::engine::{Cancel, Cancelled};
use crate::view::View;

/// What the client is told after a check.
pub(crate) enum Said {
    /// The complete list of one file.
    Report(Report),
    /// Findings that it asked for may be others now.
    AskFindingsAgain,
    /// Results at line ends that it asked for may be others now.
    AskInlaysAgain,
}

/// Where it goes.
pub(crate) type Publish = Box<dyn FnMut(Said) + Send>;

/// The owner's end: at most one order waits, and a newer one takes its place.
pub(crate) struct Checker {
    slot: Arc<Slot>,
    running: Cancel,
}

#[derive(Default)]
struct Slot {
    order: Mutex<Option<Order>>,
    arrived: Condvar,
}

struct Order {
    view: Arc<View>,
    touched: BTreeSet<PathBuf>,
    /// What was opened or edited last, if that was the last thing to happen: of no other file has the client asked since.
    last: Option<PathBuf>,
    cancel: Cancel,
}

impl Checker {
    /// Starts the thread. It waits for orders as long as the process lives.
    pub(crate) fn start(publish: Publish) -> std::io::Result<Self> {
        let slot = Arc::new(Slot::default());
        let desk = Desk {
            touched: BTreeSet::new(),
            shown: BTreeMap::new(),
            publish,
        };
        let orders = Arc::clone(&slot);
        std::thread::Builder::new()
            .name("check".into())
            .spawn(move || desk.run(&orders))?;
        Ok(Self {
            slot,
            running: Cancel::default(),
        })
    }

    /// There is a newer text: what runs or waits now must not be shown any more.
    pub(crate) fn outdated(&self) {
        self.running.cancel();
    }

    /// Orders a check of everything; `touched` are told even if their lists stay the same. `last` is the file whose
    /// edit was the last thing to happen.
    pub(crate) fn order(
        &mut self,
        view: Arc<View>,
        mut touched: BTreeSet<PathBuf>,
        last: Option<PathBuf>,
    ) {
        self.running = Cancel::default();
        let mut waiting = self.slot.lock();
        if let Some(older) = waiting.take() {
            touched.extend(older.touched);
        }
        *waiting = Some(Order {
            view,
            touched,
            last,
            cancel: self.running.clone(),
        });
        drop(waiting);
        self.slot.arrived.notify_one();
    }
}

impl Slot {
    fn lock(&self) -> MutexGuard<'_, Option<Order>> {
        self.order.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn take(&self) -> Order {
        let mut waiting = self.lock();
        loop {
            if let Some(order) = waiting.take() {
                return order;
            }
            waiting = self
                .arrived
                .wait(waiting)
                .unwrap_or_else(PoisonError::into_inner);
        }
    }
}

/// What the client has been shown of one file.
struct Shown {
    uri: String,
    list: Arc<Vec<Diagnostic>>,
}

/// The checking thread's own state.
struct Desk {
    /// Files that wait to be told, also through checks that were dropped.
    touched: BTreeSet<PathBuf>,
    shown: BTreeMap<PathBuf, Shown>,
    publish: Publish,
}

impl Desk {
    fn run(mut self, orders: &Slot) {
        loop {
            let mut order = orders.take();
            self.touched.append(&mut order.touched);
            let Ok(lists) = self.lists(&order) else {
                continue;
            };
            if order.view.abilities.pulls {
                self.tell_to_ask(&order, lists);
            } else {
                self.ask_inlays(&order);
                self.show(&order, lists);
            }
        }
    }

    /// The list of every file that has one; where the check failed, also what was shown before.
    fn lists(&self, order: &Order) -> Result<BTreeMap<PathBuf, Arc<Vec<Diagnostic>>>, Cancelled> {
        let found = order.view.lists(&order.cancel)?;
        let mut lists = found.files.clone();
        if found.failed {
            for (path, shown) in &self.shown {
                lists
                    .entry(path.clone())
                    .or_insert_with(|| Arc::clone(&shown.list));
            }
        }
        Ok(lists)
    }

    /// A client that asks itself is told to ask again where another file than the one edited last has another list.
    fn tell_to_ask(&mut self, order: &Order, lists: BTreeMap<PathBuf, Arc<Vec<Diagnostic>>>) {
        self.ask_inlays(order);
        let before: BTreeMap<_, _> = std::mem::take(&mut self.shown);
        let same = |path: &PathBuf, list: &[Diagnostic]| match before.get(path) {
            Some(shown) => **shown.list == *list,
            None => list.is_empty(),
        };
        let mut known = lists.keys().chain(before.keys());
        let none: Vec<Diagnostic> = Vec::new();
        let others = known.any(|path| {
            order.last.as_ref() != Some(path)
                && !same(path, lists.get(path).map_or(&none, |list| list))
        });
        if others {
            (self.publish)(Said::AskFindingsAgain);
        }
        let shown = lists.into_iter().map(|(path, list)| {
            let uri = order.view.spelling.of(&path);
            (path, Shown { uri, list })
        });
        self.shown = shown.collect();
        self.touched.clear();
    }

    /// A text that the client shows may have other results at its line ends, unless it was the last to be edited: of
    /// that the client asks itself.
    fn ask_inlays(&mut self, order: &Order) {
        let mut open = order.view.open.keys();
        let others = open.any(|path| order.last.as_ref() != Some(path));
        if others && order.view.abilities.asks_inlays_again {
            (self.publish)(Said::AskInlaysAgain);
        }
    }

    /// Publishes complete lists, each with the version it belongs to, and stops once outdated.
    fn show(&mut self, order: &Order, mut lists: BTreeMap<PathBuf, Arc<Vec<Diagnostic>>>) {
        let touched = self.touched.clone();
        let known = lists.keys().chain(self.shown.keys());
        let others: BTreeSet<PathBuf> = known
            .filter(|path| !touched.contains(*path))
            .cloned()
            .collect();
        for path in touched.iter().chain(&others) {
            if order.cancel.is_cancelled() {
                return;
            }
            let list = lists.remove(path).unwrap_or_default();
            self.tell(&order.view, path, list, touched.contains(path));
            self.touched.remove(path);
        }
    }

    fn tell(&mut self, view: &View, path: &Path, list: Arc<Vec<Diagnostic>>, always: bool) {
        let uri = view.spelling.of(path);
        let version = view.open.get(path).and_then(|open| open.version);
        let before = self.shown.remove(path);
        let (old, before) = match before {
            Some(shown) if shown.uri == uri => (None, shown.list),
            Some(shown) => (Some(shown.uri), Arc::default()),
            None => (None, Arc::default()),
        };
        if let Some(uri) = old {
            // The client spells the file in another way now: nothing may stay under the old name.
            (self.publish)(Said::Report(Report {
                uri,
                version: None,
                diagnostics: Arc::default(),
            }));
        }
        if always || before != list {
            (self.publish)(Said::Report(Report {
                uri: uri.clone(),
                version,
                diagnostics: Arc::clone(&list),
            }));
        }
        if !list.is_empty() {
            self.shown.insert(path.to_owned(), Shown { uri, list });
        }
    }
}
