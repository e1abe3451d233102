//! `plumbhook lsp`: the program serves, answers and leaves.

use crate::folder::Folder;

/// Language Server Protocol 3.17, "Base protocol": a header with the length in bytes, an empty line, the content.
fn frame(content: &str) -> String {
    format!("Content-Length: {}\r\n\r\n{content}", content.len())
}

#[test]
fn a_session_that_is_shut_down_ends_with_0() {
    let session = [
        r#"{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}"#,
        r#"{"jsonrpc":"2.0","method":"initialized","params":{}}"#,
        r#"{"jsonrpc":"2.0","id":2,"method":"shutdown"}"#,
        r#"{"jsonrpc":"2.0","method":"exit"}"#,
    ];
    let input: String = session.iter().map(|message| frame(message)).collect();
    for arguments in [&["lsp"][..], &["lsp", "--stdio"]] {
        let said = Folder::lift(&[]).run_with_input(arguments, input.as_bytes());
        assert_eq!(said.code, 0, "{}{}", said.out, said.err);
        assert!(said.out.contains("textDocumentSync"), "{}", said.out);
    }
}

/// Language Server Protocol 3.17, "Exit Notification": 1 without a shutdown before.
#[test]
fn an_input_that_just_ends_ends_with_1() {
    let said = Folder::lift(&[]).run_with_input(&["lsp"], b"");
    assert_eq!(said.code, 1, "{}{}", said.out, said.err);
}
