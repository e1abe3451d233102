//! The checking thread: runs the newest check and publishes what changed.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use tower_lsp::ls_types::Diagnostic;

use crate::diagnostics::{self, Report};
use crate::engine::{Cancel, Cancelled};
use crate::log::fenced;
use crate::view::View;

/// Where a complete list for one file goes.
pub(crate) type Publish = Box<dyn FnMut(Report) + Send>;

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

    /// Orders a check of everything; `touched` are told even if their lists stay the same.
    pub(crate) fn order(&mut self, view: Arc<View>, mut touched: BTreeSet<PathBuf>) {
        self.running = Cancel::default();
        let mut waiting = self.slot.lock();
        if let Some(older) = waiting.take() {
            touched.extend(older.touched);
        }
        *waiting = Some(Order {
            view,
            touched,
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
    list: Vec<Diagnostic>,
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
            if let Ok(lists) = self.lists(&order) {
                self.show(&order, lists);
            }
        }
    }

    /// The list of every file that has one. A panic below is told on every open text.
    fn lists(&self, order: &Order) -> Result<BTreeMap<PathBuf, Vec<Diagnostic>>, Cancelled> {
        let view = &order.view;
        let found = view
            .snapshot
            .as_ref()
            .and_then(|snapshot| fenced(|| snapshot.findings(&order.cancel)))
            .transpose()?;
        let mut lists = BTreeMap::<PathBuf, Vec<Diagnostic>>::new();
        if let Some(files) = &found {
            let mut converter = view.converter();
            for file in files {
                let list = diagnostics::list(&mut converter, file);
                lists.entry(file.path.clone()).or_default().extend(list);
            }
        } else {
            let known = self
                .shown
                .iter()
                .map(|(path, shown)| (path.clone(), shown.list.clone()));
            lists.extend(known);
        }
        for (path, open) in view.open.iter() {
            if let Some(why) = &open.lost {
                lists.insert(path.clone(), vec![diagnostics::not_followed(why)]);
            } else if found.is_none() {
                lists.insert(path.clone(), vec![diagnostics::not_checked()]);
            }
        }
        Ok(lists)
    }

    /// Publishes complete lists, each with the version it belongs to, and stops once outdated.
    fn show(&mut self, order: &Order, mut lists: BTreeMap<PathBuf, Vec<Diagnostic>>) {
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

    fn tell(&mut self, view: &View, path: &Path, list: Vec<Diagnostic>, always: bool) {
        let uri = view.spelling.of(path);
        let version = view.open.get(path).and_then(|open| open.version);
        let before = self.shown.remove(path);
        let (old, before) = match before {
            Some(shown) if shown.uri == uri => (None, shown.list),
            Some(shown) => (Some(shown.uri), Vec::new()),
            None => (None, Vec::new()),
        };
        if let Some(uri) = old {
            // The client spells the file in another way now: nothing may stay under the old name.
            (self.publish)(Report {
                uri,
                version: None,
                diagnostics: Vec::new(),
            });
        }
        if always || before != list {
            (self.publish)(Report {
                uri: uri.clone(),
                version,
                diagnostics: list.clone(),
            });
        }
        if !list.is_empty() {
            self.shown.insert(path.to_owned(), Shown { uri, list });
        }
    }
}
