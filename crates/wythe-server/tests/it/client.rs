//! A client of the protocol that speaks to a server in the same process through a pipe.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::Duration;

use serde_json::{Value, json};
use tokio::io::{AsyncBufReadExt as _, AsyncReadExt as _, AsyncWriteExt as _, BufReader, DuplexStream};
use tokio::sync::mpsc::{UnboundedReceiver, unbounded_channel};
use tokio::task::JoinHandle;

use crate::meta::MODEL;

/// Runs a test on a runtime of its own, with a limit of time.
pub fn run<T>(test: impl Future<Output = T>) -> T {
    let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build().unwrap();
    let done = runtime.block_on(async { tokio::time::timeout(Duration::from_secs(240), test).await });
    runtime.shutdown_background();
    done.expect("the test comes to an end")
}

/// A client.
pub struct Client {
    input: DuplexStream,
    messages: UnboundedReceiver<Value>,
    server: JoinHandle<()>,
    next: i64,
    answers: BTreeMap<i64, Value>,
    /// The method of each request that is not answered yet.
    methods: BTreeMap<i64, String>,
    /// What the server has published last, by address.
    pub published: BTreeMap<String, Value>,
    /// How often it has published.
    pub publications: usize,
    /// Lines of its log.
    pub log: Vec<String>,
    /// Methods it has asked the client for.
    pub asked: Vec<String>,
    /// Progress it has told.
    pub progress: Vec<Value>,
    /// What the server says it can do.
    pub offered: Value,
    /// What it answered with no id.
    pub loose: Vec<Value>,
}

impl Client {
    /// A client that has not said anything yet.
    pub fn start() -> Client {
        let (input, server_in) = tokio::io::duplex(1 << 16);
        let (server_out, output) = tokio::io::duplex(1 << 16);
        let server = tokio::spawn(wythe_server::serve(wythe_server::Service::default(), server_in, server_out));
        let (words, messages) = unbounded_channel();
        tokio::spawn(async move {
            let mut output = BufReader::new(output);
            while let Some(message) = read(&mut output).await {
                if words.send(message).is_err() {
                    break;
                }
            }
        });
        Client {
            input,
            messages,
            server,
            next: 0,
            answers: BTreeMap::new(),
            methods: BTreeMap::new(),
            published: BTreeMap::new(),
            publications: 0,
            log: Vec::new(),
            asked: Vec::new(),
            progress: Vec::new(),
            offered: Value::Null,
            loose: Vec::new(),
        }
    }

    /// A client at work in a folder, able to do what a rich editor can.
    pub async fn in_folder(root: &Path) -> Client {
        Client::with(root, rich()).await
    }

    /// A client at work in a folder with these abilities.
    pub async fn with(root: &Path, capabilities: Value) -> Client {
        let mut client = Client::start();
        let root = url(root);
        let params = json!({
            "processId": null, "rootUri": root, "capabilities": capabilities,
            "workspaceFolders": [{ "uri": root, "name": "plans" }],
        });
        client.offered = client.request("initialize", params).await["capabilities"].clone();
        client.notify("initialized", json!({})).await;
        client
    }

    pub async fn raw(&mut self, bytes: &[u8]) {
        self.input.write_all(bytes).await.unwrap();
    }

    pub async fn send(&mut self, message: &Value) {
        let body = message.to_string();
        self.raw(format!("Content-Length: {}\r\n\r\n{body}", body.len()).as_bytes()).await;
    }

    pub async fn notify(&mut self, method: &str, params: Value) {
        self.send(&json!({ "jsonrpc": "2.0", "method": method, "params": params })).await;
    }

    /// Sends a request and does not wait for its answer.
    pub async fn post(&mut self, method: &str, params: Value) -> i64 {
        self.next += 1;
        let id = self.next;
        let mut message = json!({ "jsonrpc": "2.0", "id": id, "method": method });
        if !params.is_null() {
            message["params"] = params;
        }
        self.methods.insert(id, method.to_owned());
        self.send(&message).await;
        id
    }

    /// The answer to a request, `result` or `error` and all.
    pub async fn answer(&mut self, id: i64) -> Value {
        loop {
            if let Some(answer) = self.answers.remove(&id) {
                return answer;
            }
            let message = self.messages.recv().await.expect("the server is there");
            self.take(message).await;
        }
    }

    /// Sends a request and waits for its result.
    pub async fn request(&mut self, method: &str, params: Value) -> Value {
        let id = self.post(method, params).await;
        let answer = self.answer(id).await;
        assert!(answer.get("error").is_none(), "{method}: {answer}");
        answer["result"].clone()
    }

    /// Takes what comes until nothing has come for a while.
    pub async fn listen(&mut self) {
        while let Ok(Some(message)) = tokio::time::timeout(Duration::from_millis(300), self.messages.recv()).await {
            self.take(message).await;
        }
    }

    /// Takes what comes until something holds.
    pub async fn until(&mut self, holds: impl Fn(&Client) -> bool) {
        while !holds(self) {
            let message = self.messages.recv().await.expect("the server is there");
            self.take(message).await;
        }
    }

    /// Takes a message in. What the protocol says of it must hold.
    async fn take(&mut self, message: Value) {
        let method = message["method"].as_str().map(str::to_owned);
        if let Some(method) = &method {
            assert_eq!(MODEL.params(method, &message["params"]), Ok(()));
        }
        match (method, message.get("id")) {
            (Some(method), Some(id)) => {
                self.send(&json!({ "jsonrpc": "2.0", "id": id, "result": null })).await;
                self.asked.push(method);
            }
            (Some(method), None) => match method.as_str() {
                "textDocument/publishDiagnostics" => {
                    let url = message["params"]["uri"].as_str().unwrap().to_owned();
                    self.published.insert(url, message["params"]["diagnostics"].clone());
                    self.publications += 1;
                }
                "window/logMessage" => self.log.push(message["params"]["message"].as_str().unwrap().to_owned()),
                "$/progress" => self.progress.push(message["params"].clone()),
                _ => {}
            },
            (None, Some(Value::Number(id))) => {
                let id = id.as_i64().unwrap();
                let method = self.methods.remove(&id).expect("an answer answers a request, and once");
                match message.get("error") {
                    Some(error) => assert!(error["code"].is_i64() && error["message"].is_string(), "{method}: {error}"),
                    None => assert_eq!(MODEL.result(&method, &message["result"]), Ok(())),
                }
                self.answers.insert(id, message);
            }
            (None, _) => self.loose.push(message),
        }
    }

    pub async fn open(&mut self, url: &str, version: i32, text: &str) {
        let document = json!({ "uri": url, "languageId": "wythe", "version": version, "text": text });
        self.notify("textDocument/didOpen", json!({ "textDocument": document })).await;
    }

    pub async fn change(&mut self, url: &str, version: i32, changes: Value) {
        let params = json!({ "textDocument": { "uri": url, "version": version }, "contentChanges": changes });
        self.notify("textDocument/didChange", params).await;
    }

    /// What the server finds in a file, asked for.
    pub async fn found(&mut self, url: &str) -> Value {
        let report = self.request("textDocument/diagnostic", json!({ "textDocument": { "uri": url } })).await;
        assert_eq!(report["kind"], "full");
        report["items"].clone()
    }

    /// Asks about a place given as a mark in the text of a file.
    pub async fn at(&mut self, method: &str, url: &str, text: &str, mark: &str, more: Value) -> Value {
        let mut params = json!({ "textDocument": { "uri": url }, "position": position(text, mark) });
        if let (Some(all), Some(more)) = (params.as_object_mut(), more.as_object()) {
            all.extend(more.clone());
        }
        self.request(method, params).await
    }

    /// Takes leave; the server must go.
    pub async fn leave(mut self) {
        self.request("shutdown", Value::Null).await;
        self.send(&json!({ "jsonrpc": "2.0", "method": "exit" })).await;
        drop(self.input);
        self.server.await.expect("the server goes in peace");
    }
}

async fn read(output: &mut BufReader<DuplexStream>) -> Option<Value> {
    let mut length = None;
    loop {
        let mut line = String::new();
        if output.read_line(&mut line).await.ok()? == 0 {
            return None;
        }
        match line.trim_end() {
            "" => break,
            line => length = line.strip_prefix("Content-Length: ").and_then(|n| n.parse().ok()).or(length),
        }
    }
    let mut body = vec![0; length?];
    output.read_exact(&mut body).await.ok()?;
    serde_json::from_slice(&body).ok()
}

/// What a rich editor can do, counting in UTF-16 units.
pub fn rich() -> Value {
    json!({
        "textDocument": {
            "completion": { "completionItem": { "snippetSupport": true } },
            "documentSymbol": { "hierarchicalDocumentSymbolSupport": true },
            "foldingRange": { "lineFoldingOnly": true },
        },
        "workspace": {
            "workspaceEdit": { "documentChanges": true },
            "didChangeWatchedFiles": { "dynamicRegistration": true },
        },
        "window": { "workDoneProgress": true },
    })
}

/// The address of a path.
pub fn url(path: &Path) -> String {
    format!("file://{}", path.display())
}

/// The UTF-16 position of a mark in a text.
pub fn position(text: &str, mark: &str) -> Value {
    let at = text.find(mark).unwrap_or_else(|| panic!("`{mark}` is there"));
    at_byte(text, at)
}

/// The UTF-16 position of a byte.
pub fn at_byte(text: &str, byte: usize) -> Value {
    let before = &text[..byte];
    let line = before.matches('\n').count();
    let column = before[before.rfind('\n').map_or(0, |n| n + 1)..].encode_utf16().count();
    json!({ "line": line, "character": column })
}

/// A copy of the plans of Cedar Row.
pub struct Plans {
    pub folder: tempfile::TempDir,
}

impl Plans {
    pub fn copy() -> Plans {
        let folder = tempfile::tempdir().unwrap();
        let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/cedar_row");
        copy(&from, &folder.path().join("cedar_row"));
        Plans { folder }
    }

    pub fn root(&self) -> PathBuf {
        self.folder.path().join("cedar_row")
    }

    pub fn url(&self, name: &str) -> String {
        url(&self.root().join(name))
    }

    pub fn text(&self, name: &str) -> String {
        std::fs::read_to_string(self.root().join(name)).unwrap()
    }
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let (from, to) = (entry.path(), to.join(entry.file_name()));
        if from.is_dir() { copy(&from, &to) } else { std::fs::copy(from, to).map(|_| ()).unwrap() }
    }
}
