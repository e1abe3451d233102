//! Helpers shared by the whole-program tests.

pub mod endure;
pub mod examples;
pub mod neovim;
pub mod process;
pub mod programs;
pub mod vscode;
