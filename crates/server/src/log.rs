//! The log goes to standard error; standard output belongs to the protocol.

use std::backtrace::Backtrace;
use std::fmt::Display;
use std::io::Write;
use std::panic::{self, AssertUnwindSafe};

/// Writes one line. A closed standard error is nobody's reason to die.
pub(crate) fn line(words: impl Display) {
    let _ = writeln!(std::io::stderr().lock(), "plumbhook: {words}");
}

/// Every panic leaves its message, thread, place and stack in the log.
pub(crate) fn panics_with_stack() {
    panic::set_hook(Box::new(|panic| {
        let stack = Backtrace::force_capture();
        let thread = std::thread::current();
        let name = thread.name().unwrap_or("unnamed").to_owned();
        line(format_args!(
            "internal error (our bug) on thread {name}: {panic}\n{stack}"
        ));
    }));
}

/// Runs `work`; `None` means that it panicked, and the hook has logged it.
pub(crate) fn fenced<T>(work: impl FnOnce() -> T) -> Option<T> {
    panic::catch_unwind(AssertUnwindSafe(work)).ok()
}
