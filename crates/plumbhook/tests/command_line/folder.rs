//! A folder with the clean lift of the rules' examples, and the program run in it.

use plumbhook_checks::example;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

pub(crate) struct Folder(TempDir);

/// What a run said.
pub(crate) struct Said {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Folder {
    pub(crate) fn empty() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    /// The clean lift with some of its text replaced.
    pub(crate) fn lift(change: &[(&str, &str)]) -> Self {
        let folder = Self::empty();
        for (name, text) in example::files(change).unwrap() {
            folder.write(name, text.as_bytes());
        }
        folder.write("plumbhook.toml", example::ROOT.as_bytes());
        folder
    }

    pub(crate) fn path(&self) -> &Path {
        self.0.path()
    }

    pub(crate) fn write(&self, name: &str, bytes: &[u8]) {
        let path = self.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, bytes).unwrap();
    }

    pub(crate) fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path().join(name)).unwrap()
    }

    pub(crate) fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_plumbhook"));
        command
            .args(arguments)
            .current_dir(self.path())
            .env_remove("NO_COLOR")
            .env_remove("RUST_BACKTRACE");
        command
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Said {
        said(self.command(arguments).output().unwrap())
    }

    pub(crate) fn run_with_input(&self, arguments: &[&str], input: &[u8]) -> Said {
        let mut child = self
            .command(arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // The program may refuse its options before it reads; then there is nobody to write to.
        let _ = child.stdin.take().unwrap().write_all(input);
        said(child.wait_with_output().unwrap())
    }
}

fn said(output: Output) -> Said {
    Said {
        code: output.status.code().unwrap(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}
