//! The VS Code extension: what it starts, and what it says when there is nothing to start.

use plumbhook_tests::vscode;
use serde_json::Value;

#[test]
fn the_setting_names_the_program() {
    let told = vscode::activated(&["plumbhook.server.path=/opt/plumbhook/plumbhook"]);
    assert_eq!(told["server"]["command"], "/opt/plumbhook/plumbhook");
    assert_eq!(told["errors"], Value::Array(Vec::new()));
    assert_eq!(told["stopped"], true);
}

#[test]
fn a_program_that_does_not_start_is_said_with_what_mends_it() {
    let told = vscode::activated(&["there=no"]);
    let said = told["errors"][0].as_str().unwrap();
    assert!(said.contains("nothing is checked"), "{said}");
    assert!(said.contains("plumbhook.server.path"), "{said}");
}

#[test]
fn every_file_that_the_manifest_names_is_there_and_can_be_read() {
    let manifest = vscode::read("package.json");
    let language = &manifest["contributes"]["languages"][0];
    let brackets = vscode::read(language["configuration"].as_str().unwrap());
    assert_eq!(brackets["comments"]["lineComment"], "#");
    let grammar = &manifest["contributes"]["grammars"][0];
    let grammar_file = vscode::read(grammar["path"].as_str().unwrap());
    assert_eq!(grammar_file["scopeName"], grammar["scopeName"]);
    let main = manifest["main"].as_str().unwrap();
    assert!(vscode::folder().join(main).is_file());
}
