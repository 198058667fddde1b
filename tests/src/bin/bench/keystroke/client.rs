//! A client of the protocol over a server's standard input and output, that notes when each message came.

use std::io::{self, BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use serde_json::{Value, json};

/// How long an answer may take before the run counts as failed.
const PATIENCE: Duration = Duration::from_secs(60);

/// A client of one server.
pub(super) struct Client {
    server: Child,
    input: ChildStdin,
    messages: Receiver<(Instant, Value)>,
    next: i64,
}

impl Client {
    /// Starts a server in a folder and introduces itself; gives the moment the server was started too.
    pub(super) fn start(program: &Path, arguments: &[&str], root: &Path) -> io::Result<(Client, Instant)> {
        let begun = Instant::now();
        let mut server = Command::new(program)
            .args(arguments)
            .current_dir(root)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| io::Error::other(format!("{}: {error}", program.display())))?;
        let (Some(input), Some(output)) = (server.stdin.take(), server.stdout.take()) else {
            return Err(io::Error::other("the server has no pipes"));
        };
        let (words, messages) = channel();
        std::thread::spawn(move || {
            let mut output = BufReader::new(output);
            while let Ok(message) = read(&mut output) {
                if words.send((Instant::now(), message)).is_err() {
                    break;
                }
            }
        });
        let mut client = Client { server, input, messages, next: 0 };
        let folder = address(root);
        client.request(
            "initialize",
            &json!({
                "processId": null, "rootUri": folder, "workspaceFolders": [{ "uri": folder, "name": "bench" }],
                "capabilities": {
                    "general": { "positionEncodings": ["utf-8"] },
                    "window": { "workDoneProgress": true },
                    "textDocument": { "publishDiagnostics": { "versionSupport": true } },
                },
            }),
        )?;
        client.notify("initialized", &json!({}))?;
        Ok((client, begun))
    }

    pub(super) fn notify(&mut self, method: &str, params: &Value) -> io::Result<()> {
        self.send(&message(method, params))
    }

    /// Asks, and gives the answer's result and the moment it came.
    pub(super) fn request(&mut self, method: &str, params: &Value) -> io::Result<(Instant, Value)> {
        self.next += 1;
        let id = self.next;
        let mut asked = message(method, params);
        asked["id"] = id.into();
        self.send(&asked)?;
        let (came, answer) = self.until(|message| message["id"] == id && message.get("method").is_none())?;
        match answer.get("error") {
            Some(error) => Err(io::Error::other(format!("{method}: {error}"))),
            None => Ok((came, answer["result"].clone())),
        }
    }

    /// Waits for a message that satisfies, and answers what the server asks meanwhile.
    pub(super) fn until(&mut self, satisfies: impl Fn(&Value) -> bool) -> io::Result<(Instant, Value)> {
        let last = Instant::now() + PATIENCE;
        loop {
            let left = last.saturating_duration_since(Instant::now());
            let (came, message) = self.messages.recv_timeout(left).map_err(|error| match error {
                RecvTimeoutError::Timeout => io::Error::other("no message says what was waited for"),
                RecvTimeoutError::Disconnected => io::Error::other("the server is gone"),
            })?;
            if message.get("method").is_some()
                && let Some(id) = message.get("id")
            {
                let asked = message["params"]["items"].as_array().map_or(0, Vec::len);
                let result = if asked > 0 { json!(vec![Value::Null; asked]) } else { Value::Null };
                self.send(&json!({ "jsonrpc": "2.0", "id": id, "result": result }))?;
            }
            if satisfies(&message) {
                return Ok((came, message));
            }
        }
    }

    /// Waits for the findings in a file that satisfy; gives the moment they came.
    pub(super) fn findings(&mut self, url: &str, satisfies: impl Fn(&[Value]) -> bool) -> io::Result<Instant> {
        let told = self.until(|message| {
            message["method"] == "textDocument/publishDiagnostics"
                && message["params"]["uri"] == url
                && message["params"]["diagnostics"].as_array().is_some_and(|all| satisfies(all))
        })?;
        Ok(told.0)
    }

    pub(super) fn open(&mut self, url: &str, language: &str, text: &str) -> io::Result<()> {
        let document = json!({ "uri": url, "languageId": language, "version": 0, "text": text });
        self.notify("textDocument/didOpen", &json!({ "textDocument": document }))
    }

    /// Puts a text in the place of a stretch of a line; gives the moment before.
    pub(super) fn change(
        &mut self,
        url: &str,
        version: i32,
        line: u32,
        stretch: (u32, u32),
        text: &str,
    ) -> io::Result<Instant> {
        let place = |character: u32| json!({ "line": line, "character": character });
        let change = json!({ "range": { "start": place(stretch.0), "end": place(stretch.1) }, "text": text });
        let document = json!({ "uri": url, "version": version });
        let begun = Instant::now();
        self.notify("textDocument/didChange", &json!({ "textDocument": document, "contentChanges": [change] }))?;
        Ok(begun)
    }

    /// The memory the server holds, in MiB; nothing where the system does not say.
    pub(super) fn memory(&self) -> Option<f64> {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.server.id())).ok()?;
        let line = status.lines().find(|line| line.starts_with("VmRSS:"))?;
        let kib: f64 = line.split_whitespace().nth(1)?.parse().ok()?;
        Some(kib / 1024.0)
    }

    /// Takes leave.
    pub(super) fn leave(mut self) -> io::Result<()> {
        self.request("shutdown", &Value::Null)?;
        self.notify("exit", &Value::Null)?;
        drop(self.input);
        self.server.wait()?;
        Ok(())
    }

    fn send(&mut self, message: &Value) -> io::Result<()> {
        let body = message.to_string();
        self.input.write_all(format!("Content-Length: {}\r\n\r\n{body}", body.len()).as_bytes())?;
        self.input.flush()
    }
}

/// A message; one without params has none, not even a null.
fn message(method: &str, params: &Value) -> Value {
    let mut message = json!({ "jsonrpc": "2.0", "method": method });
    if !params.is_null() {
        message["params"] = params.clone();
    }
    message
}

/// The address of a file or a folder.
pub(super) fn address(path: &Path) -> String {
    format!("file://{}", path.display())
}

fn read(from: &mut impl BufRead) -> io::Result<Value> {
    let mut length = 0;
    loop {
        let mut line = String::new();
        if from.read_line(&mut line)? == 0 {
            return Err(io::ErrorKind::UnexpectedEof.into());
        }
        let line = line.trim_end();
        if line.is_empty() {
            break;
        }
        if let Some(figure) = line.to_ascii_lowercase().strip_prefix("content-length:") {
            length = figure.trim().parse().map_err(io::Error::other)?;
        }
    }
    let mut body = vec![0; length];
    from.read_exact(&mut body)?;
    serde_json::from_slice(&body).map_err(io::Error::other)
}
