//! What the editors' files say is what the server says.

use plumbhook_server::facts::{EXTENSION, LANGUAGE_ID, ROOT_FILE, SERVER_COMMAND};
use plumbhook_tests::{examples, neovim::Neovim, vscode};
use serde_json::{Value, json};
use std::fs;

#[test]
fn neovim_knows_our_files_our_root_and_our_command() {
    let folder = tempfile::tempdir().unwrap();
    let told = Neovim::start(
        folder.path(),
        &format!(
            "vim.cmd.edit('any.{EXTENSION}')
             tell('filetype', vim.bo.filetype)
             tell('config', vim.json.encode(vim.lsp.config.plumbhook))"
        ),
    )
    .ends();
    assert_eq!(told.of("filetype"), [LANGUAGE_ID]);
    let config: Value = serde_json::from_str(told.of("config")[0]).unwrap();
    assert_eq!(config["cmd"], json!(SERVER_COMMAND));
    assert_eq!(config["filetypes"], json!([LANGUAGE_ID]));
    assert_eq!(config["root_markers"], json!([ROOT_FILE]));
}

#[test]
fn vs_code_knows_our_files_and_our_command() {
    let told = vscode::activated(&[]);
    let [program, argument] = SERVER_COMMAND;
    assert_eq!(told["server"]["command"], program);
    assert_eq!(told["server"]["args"], json!([argument]));
    assert_eq!(
        told["client"]["documentSelector"],
        json!([{ "language": LANGUAGE_ID, "scheme": "file" }])
    );

    let manifest = vscode::read("package.json");
    let language = &manifest["contributes"]["languages"][0];
    assert_eq!(language["id"], LANGUAGE_ID);
    assert_eq!(language["extensions"], json!([format!(".{EXTENSION}")]));
    assert_eq!(
        manifest["activationEvents"],
        json!([format!("onLanguage:{LANGUAGE_ID}")])
    );
    let grammar = &manifest["contributes"]["grammars"][0];
    assert_eq!(grammar["language"], LANGUAGE_ID);
    let setting = &manifest["contributes"]["configuration"]["properties"]["plumbhook.server.path"];
    assert_eq!(setting["default"], program);
}

#[test]
fn the_examples_have_our_root_file_and_our_ending() {
    let examples = examples::repository().join("examples");
    assert!(examples.join(ROOT_FILE).is_file());
    let jobs = fs::read_dir(examples.join("jobs")).unwrap();
    let endings: Vec<_> = jobs
        .map(|job| job.unwrap().path().extension().map(ToOwned::to_owned))
        .collect();
    assert!(!endings.is_empty());
    assert!(
        endings
            .iter()
            .all(|it| it.as_deref() == Some(EXTENSION.as_ref()))
    );
}
