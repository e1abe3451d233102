//! Helpers shared by the whole-program tests.

pub mod examples;
pub mod neovim;
pub mod process;
pub mod programs;
pub mod vscode;
