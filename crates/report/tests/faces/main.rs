//! What the faces say of one lift. The lift is that of the rules' own examples; invented.

#![allow(
    clippy::unwrap_used,
    reason = "helpers of tests stand outside test functions"
)]

mod explain;
mod human;
mod json;
mod lift;
mod svg;
