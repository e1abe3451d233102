//! Our VS Code extension, run in Node with a stand-in for the editor.

use crate::examples::repository;
use crate::programs;
use serde_json::Value;
use std::fs;
use std::path::PathBuf;
use std::process::Command;

/// The extension's folder.
pub fn folder() -> PathBuf {
    repository().join("editors/vscode")
}

/// A file of it.
///
/// # Panics
/// Where it is not there or is no JSON.
pub fn read(name: &str) -> Value {
    let text = fs::read_to_string(folder().join(name)).map_err(|why| why.to_string());
    let value = text.and_then(|text| serde_json::from_str(&text).map_err(|why| why.to_string()));
    value.unwrap_or_else(|why| panic!("{name} cannot be read: {why}"))
}

/// What the extension would start and for which files, and what it says, with these settings (`name=value`).
///
/// # Panics
/// Where Node cannot run it.
pub fn activated(settings: &[&str]) -> Value {
    let stand_in = repository().join("tests/src/vscode.js");
    let output = Command::new(programs::node())
        .arg(stand_in)
        .arg(folder().join("extension.js"))
        .args(settings)
        .output();
    let output = match output {
        Ok(output) => output,
        Err(error) => panic!("Node cannot be started: {error}"),
    };
    serde_json::from_slice(&output.stdout).unwrap_or_else(|error| {
        let why = String::from_utf8_lossy(&output.stderr);
        panic!("the extension cannot be run: {error}\n{why}")
    })
}
