//! Two pools, so that a cheap question never waits for a dear one.

use rayon::{ThreadPool, ThreadPoolBuildError, ThreadPoolBuilder};

use crate::log;

/// What a question costs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Lane {
    /// Text and names only.
    Quick,
    /// May wait for a calculation.
    Calculation,
}

/// The pools.
pub(crate) struct Lanes {
    quick: ThreadPool,
    calculation: ThreadPool,
}

impl Lanes {
    pub(crate) fn new() -> Result<Self, ThreadPoolBuildError> {
        Ok(Self {
            quick: pool("quick", 1)?,
            calculation: pool("calculation", 0)?,
        })
    }

    pub(crate) fn spawn(&self, lane: Lane, work: impl FnOnce() + Send + 'static) {
        match lane {
            Lane::Quick => self.quick.spawn(work),
            Lane::Calculation => self.calculation.spawn(work),
        }
    }
}

/// No threads given means one per core.
fn pool(name: &'static str, threads: usize) -> Result<ThreadPool, ThreadPoolBuildError> {
    ThreadPoolBuilder::new()
        .num_threads(threads)
        .thread_name(move |number| format!("{name}-{number}"))
        // Without it a panic past our own fence would abort the process.
        .panic_handler(|_| log::line("a worker failed outside its fence (our bug)"))
        .build()
}
