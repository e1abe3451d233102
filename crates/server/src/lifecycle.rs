//! Where the session stands: it decides what is heard and the exit code.

use std::process::ExitCode;
use std::sync::atomic::{AtomicU8, Ordering};

const WAITING: u8 = 0;
const RUNNING: u8 = 1;
const SHUT_DOWN: u8 = 2;

/// Waiting for `initialize`, running, or shut down.
#[derive(Debug)]
pub(crate) struct Lifecycle(AtomicU8);

impl Lifecycle {
    pub(crate) fn new() -> Self {
        Self(AtomicU8::new(WAITING))
    }

    /// `initialize` was answered.
    pub(crate) fn begin(&self) {
        self.0.store(RUNNING, Ordering::Release);
    }

    /// `shutdown` arrived; outside a session it is refused and means nothing.
    pub(crate) fn shut_down(&self) {
        let _ = self
            .0
            .compare_exchange(RUNNING, SHUT_DOWN, Ordering::AcqRel, Ordering::Acquire);
    }

    /// Whether the client may be told anything.
    pub(crate) fn has_begun(&self) -> bool {
        self.0.load(Ordering::Acquire) != WAITING
    }

    pub(crate) fn is_running(&self) -> bool {
        self.0.load(Ordering::Acquire) == RUNNING
    }

    /// The protocol: 0 after `shutdown`, 1 without it.
    pub(crate) fn exit_code(&self) -> ExitCode {
        ExitCode::from(u8::from(self.0.load(Ordering::Acquire) != SHUT_DOWN))
    }
}
