//! The built program, run in a folder of its own: what it prints where, and its exit codes.

mod check;
mod explain;
mod folder;
mod input;
