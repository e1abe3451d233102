//! A real Neovim with our plugin, driven by a few lines of Lua.

use crate::examples::repository;
use crate::{process, programs};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::{env, fs};
use tempfile::TempDir;

/// A running Neovim. It sees no configuration and no plugin but ours.
#[derive(Debug)]
pub struct Neovim {
    child: Child,
    /// Its home, its log and what it tells us.
    home: TempDir,
}

impl Neovim {
    /// Starts it in `folder`, with our own program first on the `PATH`. The steps are Lua; `neovim.lua` has
    /// the words they are made of.
    ///
    /// # Panics
    /// Where it cannot be started.
    pub fn start(folder: &Path, steps: &str) -> Self {
        match Self::try_start(folder, steps) {
            Ok(started) => started,
            Err(error) => panic!("Neovim cannot be started: {error}"),
        }
    }

    fn try_start(folder: &Path, steps: &str) -> std::io::Result<Self> {
        let home = TempDir::new()?;
        let at = |name: &str| home.path().join(name);
        fs::write(at("words.lua"), include_str!("neovim.lua"))?;
        fs::write(at("steps.lua"), steps)?;
        fs::write(at("told"), "")?;
        let mut neovim = Command::new(programs::neovim());
        neovim
            .args(["--headless", "--clean", "-n"])
            .arg("--cmd")
            .arg("let &runtimepath = $PLUMBHOOK_PLUGIN .. ',' .. &runtimepath")
            .args(["-c", "lua vim.lsp.enable('plumbhook')"])
            .arg("-S")
            .arg(at("words.lua"))
            .current_dir(folder)
            .env("PATH", path_with_ours_first()?)
            .env("PLUMBHOOK_PLUGIN", repository().join("editors/neovim"))
            .env("PLUMBHOOK_STEPS", at("steps.lua"))
            .env("PLUMBHOOK_TOLD", at("told"))
            .stdin(Stdio::null())
            .stdout(fs::File::create(at("output"))?)
            .stderr(fs::File::create(at("errors"))?);
        for kind in ["CONFIG", "DATA", "STATE", "CACHE"] {
            neovim.env(format!("XDG_{kind}_HOME"), home.path());
        }
        let child = neovim.spawn()?;
        Ok(Self { child, home })
    }

    /// Waits until the steps are through and Neovim has quit by itself.
    ///
    /// # Panics
    /// Where a step failed, with what Neovim and the server said.
    pub fn ends(mut self) -> Told {
        let status = process::ended(&mut self.child);
        let told = self.told();
        assert!(
            status.is_some_and(|status| status.success()) && told.of("failed").is_empty(),
            "Neovim ended with {status:?}\n{}{}{}{}",
            told.0,
            self.text("output"),
            self.text("errors"),
            self.text("nvim/lsp.log"),
        );
        told
    }

    /// Waits until it told `what`, then ends it without a word of farewell.
    ///
    /// # Panics
    /// Where it never told that, or cannot be ended.
    pub fn killed_after(mut self, what: &str) -> Told {
        let came = process::wait_for(|| (!self.told().of(what).is_empty()).then_some(()));
        if let Err(error) = self.child.kill().and_then(|()| self.child.wait()) {
            panic!("Neovim cannot be ended: {error}");
        }
        let told = self.told();
        assert!(came.is_some(), "Neovim never told {what}:\n{}", told.0);
        told
    }

    fn told(&self) -> Told {
        Told(self.text("told"))
    }

    fn text(&self, name: &str) -> String {
        fs::read_to_string(self.home.path().join(name)).unwrap_or_default()
    }
}

/// What the steps told, a line each: a word and a value.
#[derive(Debug)]
pub struct Told(String);

impl Told {
    /// The values told with this word.
    pub fn of(&self, word: &str) -> Vec<&str> {
        let value = |line| str::strip_prefix(line, word)?.strip_prefix(' ');
        self.0.lines().filter_map(value).collect()
    }

    /// The processes that Neovim had started.
    pub fn processes(&self) -> Vec<u32> {
        let numbers = self.of("process");
        numbers.iter().filter_map(|it| it.parse().ok()).collect()
    }
}

fn path_with_ours_first() -> std::io::Result<std::ffi::OsString> {
    let ours: PathBuf = programs::plumbhook()
        .parent()
        .unwrap_or(Path::new("."))
        .into();
    let rest = env::var_os("PATH").unwrap_or_default();
    env::join_paths([ours].into_iter().chain(env::split_paths(&rest)))
        .map_err(std::io::Error::other)
}
