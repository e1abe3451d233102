//! What an editor is told of the clean lift, changed in one place.
#![allow(
    clippy::unwrap_used,
    reason = "helpers outside `#[test]` fail the test at once, too"
)]

mod completion;
mod definition;
mod diagnostics;
mod hover;
mod inlay;
mod lift;
mod names;
mod outline;
