//! A panic is our bug and says so.

use std::backtrace::{Backtrace, BacktraceStatus};
use std::io::Write;
use std::panic::PanicHookInfo;

/// Replaces the words of a panic. Standard error may be closed: then there is nobody to tell.
pub(crate) fn say_that_a_panic_is_ours() {
    std::panic::set_hook(Box::new(|panic| {
        let _ = std::io::stderr().write_all(words(panic).as_bytes());
    }));
}

fn words(panic: &PanicHookInfo<'_>) -> String {
    let payload = panic.payload();
    let what = payload
        .downcast_ref::<&str>()
        .copied()
        .or_else(|| payload.downcast_ref::<String>().map(String::as_str))
        .unwrap_or("no reason given");
    let place = panic
        .location()
        .map_or_else(String::new, |place| format!(", at {place}"));
    let stack = Backtrace::capture();
    let stack = match stack.status() {
        BacktraceStatus::Captured => stack.to_string(),
        _ => "RUST_BACKTRACE=1 shows the way to it".to_owned(),
    };
    let version = env!("CARGO_PKG_VERSION");
    format!(
        "plumbhook {version} failed: this is our bug, not yours: {what}{place}\n\
         What it would have said is unknown. Please tell us, with the file that it was reading.\n{stack}\n"
    )
}
