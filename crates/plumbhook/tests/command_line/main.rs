//! The built program, run in a folder of its own: what it prints where, and its exit codes.

#![allow(
    clippy::unwrap_used,
    reason = "helpers of tests stand outside test functions"
)]

mod check;
mod explain;
mod fmt;
mod folder;
mod input;
mod lsp;
mod new;
mod options;
