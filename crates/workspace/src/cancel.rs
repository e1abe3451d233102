//! Cancellation is a value that work looks at, never a panic.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// A flag shared by the one who asks and the one who works.
#[derive(Clone, Debug, Default)]
pub struct Cancel(Arc<AtomicBool>);

/// Work was dropped because nobody waits for it any more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cancelled;

impl Cancel {
    /// Tells the work to stop at its next look.
    pub fn cancel(&self) {
        self.0.store(true, Ordering::Release);
    }

    /// Whether the work should stop.
    pub fn is_cancelled(&self) -> bool {
        self.0.load(Ordering::Acquire)
    }

    /// `Err` once the work should stop, for `?` between two steps.
    ///
    /// # Errors
    /// [`Cancelled`] once [`Cancel::cancel`] was called on this flag or a clone of it.
    pub fn check(&self) -> Result<(), Cancelled> {
        if self.is_cancelled() {
            Err(Cancelled)
        } else {
            Ok(())
        }
    }
}
