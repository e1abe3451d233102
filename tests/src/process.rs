//! Processes: waiting for one, and whether one is still there.

use std::process::{Child, Command, ExitStatus};
use std::time::{Duration, Instant};

/// Far above anything that should happen: only "never" fails on it.
pub const LIMIT: Duration = Duration::from_mins(1);

/// Looks until `done` gives something, at most [`LIMIT`] long.
pub fn wait_for<T>(done: impl FnMut() -> Option<T>) -> Option<T> {
    wait_within(LIMIT, done)
}

fn wait_within<T>(limit: Duration, mut done: impl FnMut() -> Option<T>) -> Option<T> {
    let since = Instant::now();
    loop {
        if let Some(value) = done() {
            return Some(value);
        }
        if since.elapsed() > limit {
            return None;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
}

/// How a child ended; `None` if it did not within five times [`LIMIT`], and then it is ended here. What the child
/// waits for itself has one [`LIMIT`] each, so that it can say what did not come.
pub fn ended(child: &mut Child) -> Option<ExitStatus> {
    let status = wait_within(5 * LIMIT, || child.try_wait().ok().flatten());
    if status.is_none() {
        // It may end by itself just now.
        let _ = child.kill();
        let _ = child.wait();
    }
    status
}

/// Whether a process with this number is there.
///
/// # Panics
/// Where the system cannot be asked.
pub fn is_there(process: u32) -> bool {
    let asked = Command::new("ps")
        .args(["-o", "stat=", "-p", &process.to_string()])
        .output();
    match asked {
        // One that has ended and waits for its parent to look is not there any more.
        Ok(output) => {
            let state = String::from_utf8_lossy(&output.stdout);
            !matches!(state.trim().chars().next(), None | Some('Z'))
        }
        Err(error) => panic!("ps cannot be run: {error}"),
    }
}
