//! A session with the language server over real pipes.

use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

/// Far above anything that should happen: only "never" fails on it.
const LONG: Duration = Duration::from_secs(30);

/// One editor and its server.
pub(crate) struct Session {
    process: Child,
    input: ChildStdin,
    messages: Receiver<Value>,
    asked: i64,
}

fn read(output: &mut BufReader<ChildStdout>) -> Option<Value> {
    let mut length = 0;
    loop {
        let mut line = String::new();
        if output.read_line(&mut line).ok()? == 0 {
            return None;
        }
        if let Some(said) = line.strip_prefix("Content-Length:") {
            length = said.trim().parse().ok()?;
        }
        if line == "\r\n" {
            break;
        }
    }
    let mut body = vec![0; length];
    output.read_exact(&mut body).ok()?;
    serde_json::from_slice(&body).ok()
}

impl Session {
    /// Starts `lsp` in a folder and greets it.
    pub(crate) fn start(program: &Path, folder: &Path) -> Self {
        let mut process = Command::new(program)
            .arg("lsp")
            .current_dir(folder)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the server starts");
        let input = process.stdin.take().expect("its input");
        let mut output = BufReader::new(process.stdout.take().expect("its output"));
        let (sender, messages) = channel();
        std::thread::spawn(move || {
            while let Some(message) = read(&mut output) {
                if sender.send(message).is_err() {
                    return;
                }
            }
        });
        let mut it = Self {
            process,
            input,
            messages,
            asked: 0,
        };
        let root = format!("file://{}", folder.display());
        it.ask(
            "initialize",
            &json!({
                "processId": null,
                "rootUri": root,
                "workspaceFolders": [{ "uri": root, "name": "lift" }],
                "capabilities": {},
            }),
        );
        it.tell("initialized", &json!({}));
        it
    }

    fn send(&mut self, message: &Value) {
        let body = message.to_string();
        write!(self.input, "Content-Length: {}\r\n\r\n{body}", body.len())
            .and_then(|()| self.input.flush())
            .expect("the server reads");
    }

    fn tell(&mut self, method: &str, params: &Value) {
        self.send(&json!({ "jsonrpc": "2.0", "method": method, "params": params }));
    }

    fn wait(&self, what: &str, wanted: impl Fn(&Value) -> bool) -> Value {
        loop {
            let message = self
                .messages
                .recv_timeout(LONG)
                .unwrap_or_else(|why| panic!("{what}: {why}"));
            if wanted(&message) {
                return message;
            }
        }
    }

    fn ask(&mut self, method: &str, params: &Value) -> Value {
        self.asked += 1;
        let id = self.asked;
        let mut message = json!({ "jsonrpc": "2.0", "id": id, "method": method });
        if !params.is_null() {
            message["params"] = params.clone();
        }
        self.send(&message);
        let mut answer = self.wait(method, |message| message["id"] == id);
        assert!(answer["error"].is_null(), "{method}: {answer}");
        answer["result"].take()
    }

    /// Opens a text.
    pub(crate) fn open(&mut self, uri: &str, text: &str) {
        let document = json!({ "uri": uri, "languageId": "pick", "version": 1, "text": text });
        self.tell("textDocument/didOpen", &json!({ "textDocument": document }));
    }

    /// The marks of a file, as soon as there are any.
    pub(crate) fn diagnostics(&self, uri: &str) -> Vec<Value> {
        let told = self.wait("marks", |message| {
            message["method"] == "textDocument/publishDiagnostics"
                && message["params"]["uri"] == uri
                && message["params"]["diagnostics"]
                    .as_array()
                    .is_some_and(|marks| !marks.is_empty())
        });
        let marks = told["params"]["diagnostics"].as_array();
        marks.cloned().unwrap_or_default()
    }

    /// What is told under the pointer.
    pub(crate) fn hover(&mut self, uri: &str, line: usize, character: usize) -> String {
        let told = self.ask(
            "textDocument/hover",
            &json!({
                "textDocument": { "uri": uri },
                "position": { "line": line, "character": character },
            }),
        );
        let contents = &told["contents"];
        let text = contents["value"].as_str().or(contents.as_str());
        text.unwrap_or_default().to_owned()
    }

    /// Says good-bye and waits until the server is gone.
    pub(crate) fn end(mut self) {
        self.ask("shutdown", &Value::Null);
        self.tell("exit", &Value::Null);
        let left = self.process.wait().expect("the server ends");
        assert!(left.success(), "{left}");
    }
}
