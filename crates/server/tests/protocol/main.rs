//! The protocol, driven over pipes against a real process.
//!
//! What must be said is from the published protocol (Language Server Protocol 3.17); each test
//! names the part. No test asserts a time that a slow machine could miss.

#![allow(
    clippy::unwrap_used,
    reason = "helpers outside `#[test]` fail the test at once, too"
)]

mod client;
mod diagnostics;
mod editor;
mod leaving;
mod lift;
mod order;
mod pull;
mod session;
mod stream;
mod texts;
