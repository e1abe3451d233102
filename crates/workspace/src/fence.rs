//! The panic fence: what fails inside it is told, and nothing else is lost.

use std::panic::{AssertUnwindSafe, catch_unwind};

/// Runs `work`; a panic in it becomes its message.
///
/// Whoever calls it drops what the work was writing to.
pub(crate) fn fenced<T>(work: impl FnOnce() -> T) -> Result<T, String> {
    catch_unwind(AssertUnwindSafe(work)).map_err(|panic| {
        let said = panic
            .downcast_ref::<&str>()
            .map(|text| (*text).to_owned())
            .or_else(|| panic.downcast_ref::<String>().cloned());
        said.unwrap_or_else(|| "it gave no message".to_owned())
    })
}
