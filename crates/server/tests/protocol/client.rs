//! A client on real pipes. It takes nothing on standard output but well-framed messages.

use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, Command, ExitStatus, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::sync::{Arc, Mutex};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

/// Far above anything that should happen: only "never" fails on it.
pub(crate) const LONG: Duration = Duration::from_secs(20);

pub(crate) const FAKE_SERVER: &str = env!("CARGO_BIN_EXE_fake_server");
/// The real one.
pub(crate) const LIFT_SERVER: &str = env!("CARGO_BIN_EXE_lift_server");

/// One server process and our end of its pipes.
pub(crate) struct Client {
    process: Child,
    input: Option<ChildStdin>,
    output: Receiver<Value>,
    log: Arc<Mutex<String>>,
    logging: Option<JoinHandle<()>>,
    /// Messages read while looking for another.
    aside: Vec<Value>,
    last_id: i64,
}

impl Client {
    /// Starts the fake server and says nothing to it.
    pub(crate) fn start() -> Self {
        Self::start_program(FAKE_SERVER)
    }

    /// Starts a server and says nothing to it.
    pub(crate) fn start_program(program: &str) -> Self {
        let mut process = Command::new(program)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let (sender, output) = channel();
        let mut stdout = BufReader::new(process.stdout.take().unwrap());
        std::thread::spawn(move || {
            while let Some(message) = read(&mut stdout) {
                if sender.send(message).is_err() {
                    return;
                }
            }
        });
        let stderr = BufReader::new(process.stderr.take().unwrap());
        let log = Arc::new(Mutex::new(String::new()));
        let written = Arc::clone(&log);
        let logging = std::thread::spawn(move || {
            for line in stderr.lines() {
                let line = line.unwrap() + "\n";
                written.lock().unwrap().push_str(&line);
            }
        });
        let input = process.stdin.take();
        Self {
            process,
            input,
            output,
            log,
            logging: Some(logging),
            aside: Vec::new(),
            last_id: 0,
        }
    }

    /// Starts a session with these parameters of `initialize`.
    pub(crate) fn session_with(params: &Value) -> Self {
        let mut client = Self::start();
        let answer = client.ask("initialize", params);
        assert!(answer["result"]["capabilities"].is_object(), "{answer}");
        client.tell("initialized", &json!({}));
        client
    }

    /// Starts a session that offers nothing.
    pub(crate) fn session() -> Self {
        Self::session_with(&json!({ "capabilities": {} }))
    }

    pub(crate) fn raw(&mut self, bytes: &[u8]) {
        let input = self.input.as_mut().unwrap();
        input.write_all(bytes).unwrap();
        input.flush().unwrap();
    }

    pub(crate) fn send(&mut self, message: &Value) {
        let body = message.to_string();
        self.raw(format!("Content-Length: {}\r\n\r\n{body}", body.len()).as_bytes());
    }

    pub(crate) fn tell(&mut self, method: &str, params: &Value) {
        self.send(&json!({ "jsonrpc": "2.0", "method": method, "params": params }));
    }

    /// Sends a request and gives its id.
    pub(crate) fn request(&mut self, method: &str, params: &Value) -> i64 {
        self.last_id += 1;
        let id = self.last_id;
        let mut message = json!({ "jsonrpc": "2.0", "id": id, "method": method });
        if !params.is_null() {
            message["params"] = params.clone();
        }
        self.send(&message);
        id
    }

    /// The first message, read before or now, for which `wanted` holds.
    pub(crate) fn wait(&mut self, what: &str, wanted: impl Fn(&Value) -> bool) -> Value {
        if let Some(at) = self.aside.iter().position(&wanted) {
            return self.aside.remove(at);
        }
        let end = Instant::now() + LONG;
        loop {
            let left = end.saturating_duration_since(Instant::now());
            match self.output.recv_timeout(left) {
                Ok(message) if wanted(&message) => return message,
                Ok(message) => self.aside.push(message),
                Err(error) => panic!("no {what} ({error}); came: {:#?}", self.aside),
            }
        }
    }

    pub(crate) fn answer(&mut self, id: i64) -> Value {
        self.wait(&format!("answer to {id}"), |m| {
            m["id"] == id && m.get("method").is_none()
        })
    }

    pub(crate) fn ask(&mut self, method: &str, params: &Value) -> Value {
        let id = self.request(method, params);
        self.answer(id)
    }

    pub(crate) fn open(&mut self, uri: &str, version: i64, text: &str) {
        let text = json!({ "uri": uri, "languageId": "x", "version": version, "text": text });
        self.tell("textDocument/didOpen", &json!({ "textDocument": text }));
    }

    pub(crate) fn change(&mut self, uri: &str, version: i64, changes: &Value) {
        let text = json!({ "uri": uri, "version": version });
        let params = json!({ "textDocument": text, "contentChanges": changes });
        self.tell("textDocument/didChange", &params);
    }

    pub(crate) fn close(&mut self, uri: &str) {
        self.tell(
            "textDocument/didClose",
            &json!({ "textDocument": { "uri": uri } }),
        );
    }

    pub(crate) fn hover(&mut self, uri: &str, line: u32, character: u32) -> i64 {
        self.request("textDocument/hover", &position(uri, line, character))
    }

    /// The words of a hover that is answered.
    pub(crate) fn hovered(&mut self, uri: &str, line: u32, character: u32) -> String {
        let id = self.hover(uri, line, character);
        words(&self.answer(id))
    }

    /// The next list for a file.
    pub(crate) fn diagnostics(&mut self, uri: &str) -> Value {
        let message = self.wait(&format!("diagnostics of {uri}"), |m| is_report(m, uri));
        message["params"].clone()
    }

    /// The list for a version of a file; older lists are put away.
    pub(crate) fn diagnostics_of(&mut self, uri: &str, version: i64) -> Value {
        let message = self.wait(&format!("diagnostics of {uri}, version {version}"), |m| {
            is_report(m, uri) && m["params"]["version"] == version
        });
        self.aside.retain(|m| !is_report(m, uri));
        message["params"].clone()
    }

    /// All messages until the server has answered one more question.
    pub(crate) fn everything_so_far(&mut self) -> Vec<Value> {
        let id = self.request("textDocument/hover", &position("file:///none.pick", 0, 0));
        self.answer(id);
        std::mem::take(&mut self.aside)
    }

    /// Waits for words in the log.
    pub(crate) fn logged(&self, words: &str) {
        let start = Instant::now();
        while !self.log.lock().unwrap().contains(words) {
            assert!(start.elapsed() < LONG, "never logged: {words}");
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    pub(crate) fn shut_down_and_exit(mut self) -> Ended {
        let answer = self.ask("shutdown", &Value::Null);
        assert_eq!(answer["result"], Value::Null, "{answer}");
        assert!(answer.get("error").is_none(), "{answer}");
        self.tell("exit", &Value::Null);
        self.end()
    }

    pub(crate) fn close_input(&mut self) {
        self.input = None;
    }

    /// Waits for the process to leave on its own; our ends stay as they are.
    pub(crate) fn end(mut self) -> Ended {
        let start = Instant::now();
        let status = loop {
            if let Some(status) = self.process.try_wait().unwrap() {
                break status;
            }
            assert!(start.elapsed() < LONG, "the server did not leave");
            std::thread::sleep(Duration::from_millis(5));
        };
        let took = start.elapsed();
        drop(self.input.take());
        let rest: Vec<Value> = self.aside.drain(..).chain(self.output.iter()).collect();
        self.logging.take().unwrap().join().unwrap();
        let log = std::mem::take(&mut *self.log.lock().unwrap());
        Ended {
            status,
            took,
            rest,
            log,
        }
    }
}

impl Drop for Client {
    fn drop(&mut self) {
        // A failed test must not leave a process behind; after `end` there is none.
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// A server that has left.
pub(crate) struct Ended {
    pub(crate) status: ExitStatus,
    pub(crate) took: Duration,
    pub(crate) rest: Vec<Value>,
    pub(crate) log: String,
}

pub(crate) fn position(uri: &str, line: u32, character: u32) -> Value {
    json!({
        "textDocument": { "uri": uri },
        "position": { "line": line, "character": character },
    })
}

pub(crate) fn range(from: (u32, u32), to: (u32, u32)) -> Value {
    json!({
        "start": { "line": from.0, "character": from.1 },
        "end": { "line": to.0, "character": to.1 },
    })
}

pub(crate) fn words(answer: &Value) -> String {
    let words = answer["result"]["contents"]["value"].as_str();
    words
        .unwrap_or_else(|| panic!("no words: {answer}"))
        .to_owned()
}

pub(crate) fn is_report(message: &Value, uri: &str) -> bool {
    message["method"] == "textDocument/publishDiagnostics" && message["params"]["uri"] == uri
}

fn read(from: &mut impl BufRead) -> Option<Value> {
    let mut header = String::new();
    if from.read_line(&mut header).unwrap() == 0 {
        return None;
    }
    let length = header
        .strip_prefix("Content-Length: ")
        .and_then(|l| l.strip_suffix("\r\n"));
    let length = length.unwrap_or_else(|| panic!("not the protocol: {header:?}"));
    let mut blank = [0; 2];
    from.read_exact(&mut blank).unwrap();
    assert_eq!(&blank, b"\r\n");
    let mut body = vec![0; length.parse().unwrap()];
    from.read_exact(&mut body).unwrap();
    Some(serde_json::from_slice(&body).unwrap())
}
