//! Checks and explains heavy lifts and moves written as plain text.

mod arguments;
mod bug;
mod check;
mod explain;
mod fmt;
mod new;
mod output;

use arguments::{Arguments, Command};
use clap::Parser;
use std::process::ExitCode;

/// Nothing at error level.
const CLEAN: u8 = 0;
/// Something at error level.
const FOUND: u8 = 1;
/// Something was not checked, whatever else was found.
const NOT_CHECKED: u8 = 2;

fn main() -> ExitCode {
    bug::say_that_a_panic_is_ours();
    let arguments = Arguments::parse();
    let run = || match &arguments.command {
        Command::New(asked) => ExitCode::from(new::run(asked)),
        Command::Check(wanted) => ExitCode::from(check::run(wanted)),
        Command::Explain(wanted) => ExitCode::from(explain::run(wanted)),
        Command::Fmt(wanted) => ExitCode::from(fmt::run(wanted)),
        Command::Reference => ExitCode::from(output::print(|out| {
            out.write_all(plumbhook_report::reference::markdown().as_bytes())
        })),
        Command::Lsp(_) => plumbhook_server::run(),
    };
    // What was printed before a panic is no result, so the exit code must not look like one.
    std::panic::catch_unwind(run).unwrap_or(ExitCode::from(NOT_CHECKED))
}
