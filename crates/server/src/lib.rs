//! The language server: protocol in, questions out.
//!
//! A message takes its place in the order of arrival in `fence`, before anything is awaited.
//! Texts go through one channel to one `owner`; a question waits for the snapshot of its place
//! and runs on a worker thread (`language`, one file per request in `requests`); the newest
//! snapshot is checked on a thread of its own and changed lists are published (`check`).
//! Nothing below this crate knows the protocol; only `encoding` knows how clients count.

pub mod engine;
pub mod facts;

mod cancel;
mod check;
mod diagnostics;
mod encoding;
mod events;
mod fence;
mod frames;
mod lanes;
mod language;
mod lifecycle;
mod log;
mod owner;
mod requests;
mod serve;
mod session;
mod uri;
mod view;
mod workspace_engine;

pub use serve::serve;
pub use workspace_engine::run;
