//! The real server, for tests over pipes.

use std::process::ExitCode;

fn main() -> ExitCode {
    plumbhook_server::run()
}
