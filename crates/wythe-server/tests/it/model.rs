//! Random sequences of messages against a model of what a server must do: every request is answered once, what is told
//! of a file is what the text at hand deserves, and what was shown of a file nobody holds open any more is its own.

use std::collections::BTreeMap;

use rand::{Rng as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use serde_json::json;

use crate::client::{Client, Plans, at_byte, run};

/// Files the client works in; the last is on no disk at first.
const FILES: [&str; 4] =
    ["houses/unit_1.wythe", "houses/unit_4.wythe", "library/closed_crawl.wythe", "houses/new.wythe"];

/// Every request with a document, with what it asks beside a place.
const REQUESTS: [&str; 20] = [
    "textDocument/hover",
    "textDocument/completion",
    "textDocument/signatureHelp",
    "textDocument/definition",
    "textDocument/typeDefinition",
    "textDocument/references",
    "textDocument/documentHighlight",
    "textDocument/documentSymbol",
    "textDocument/codeAction",
    "textDocument/codeLens",
    "textDocument/documentLink",
    "textDocument/formatting",
    "textDocument/foldingRange",
    "textDocument/selectionRange",
    "textDocument/semanticTokens/full",
    "textDocument/inlayHint",
    "textDocument/linkedEditingRange",
    "textDocument/prepareCallHierarchy",
    "textDocument/diagnostic",
    "wythe/drawing",
];

/// What the client knows: the model.
struct Session {
    plans: Plans,
    client: Client,
    rng: ChaCha8Rng,
    /// The open documents.
    open: BTreeMap<&'static str, String>,
    version: i32,
    /// Requests not answered yet, and whether each was taken back.
    pending: Vec<(i64, bool)>,
    answered: usize,
}

impl Session {
    fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.rng.random_range(0..from.len())]
    }

    fn place(&mut self, text: &str) -> usize {
        let mut at = self.rng.random_range(0..=text.len());
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        at
    }

    async fn open_one(&mut self) {
        let name = self.pick(&FILES);
        let url = self.plans.url(name);
        let text = std::fs::read_to_string(self.plans.root().join(name)).unwrap_or_else(|_| "let a = 3'\n".into());
        self.version += 1;
        self.client.open(&url, self.version, &text).await;
        self.open.insert(name, text);
    }

    async fn close_one(&mut self) {
        let name = self.pick(&FILES);
        let url = self.plans.url(name);
        // Closing what is not open is told too: the server must not mind.
        self.client.notify("textDocument/didClose", json!({ "textDocument": { "uri": url } })).await;
        self.open.remove(name);
    }

    async fn change_one(&mut self) {
        let name = self.pick(&FILES);
        let url = self.plans.url(name);
        let Some(text) = self.open.get(name).cloned() else {
            return self.client.change(&url, 1, json!([{ "text": "let lost = 1\n" }])).await;
        };
        let (start, width) = (self.place(&text), self.rng.random_range(0..20));
        let mut end = (start + width).min(text.len());
        while !text.is_char_boundary(end) {
            end += 1;
        }
        let piece = self.pick(&["", "q", "\n", "3' 4\"", "{", "}", "😀", "\"", "let a = 2 * 3'\n", "wall "]);
        let range = json!({ "start": at_byte(&text, start), "end": at_byte(&text, end) });
        let mut new = text;
        new.replace_range(start..end, piece);
        self.version += 1;
        self.client.change(&url, self.version, json!([{ "range": range, "text": piece }])).await;
        self.open.insert(name, new);
    }

    async fn write_one(&mut self) {
        let name = self.pick(&["houses/new.wythe", "houses/unit_1.wythe"]);
        let path = self.plans.root().join(name);
        let kind = match self.rng.random_range(0..3) {
            0 if name.ends_with("new.wythe") && path.exists() => {
                std::fs::remove_file(&path).unwrap();
                3
            }
            _ => {
                let text =
                    if name.ends_with("new.wythe") { "let a = b\n".to_owned() } else { self.plans.text(name) + "\n" };
                let there = path.exists();
                std::fs::write(&path, text).unwrap();
                if there { 2 } else { 1 }
            }
        };
        let event = json!({ "changes": [{ "uri": self.plans.url(name), "type": kind }] });
        self.client.notify("workspace/didChangeWatchedFiles", event).await;
    }

    async fn ask_one(&mut self) {
        let name = self.pick(&FILES);
        let url = self.plans.url(name);
        let text = self.open.get(name).cloned().unwrap_or_default();
        let place = self.place(&text);
        let at = at_byte(&text, place);
        let method = self.pick(&REQUESTS);
        let params = json!({
            "textDocument": { "uri": url }, "position": at, "positions": [at],
            "range": { "start": at, "end": { "line": 9999, "character": 0 } },
            "context": { "includeDeclaration": true, "diagnostics": [], "triggerKind": 1, "isRetrigger": false },
            "options": { "tabSize": 4, "insertSpaces": true },
        });
        let id = self.client.post(method, params).await;
        self.pending.push((id, false));
    }

    async fn take_back_one(&mut self) {
        if self.pending.is_empty() {
            return;
        }
        let at = self.rng.random_range(0..self.pending.len());
        self.pending[at].1 = true;
        let id = self.pending[at].0;
        self.client.notify("$/cancelRequest", json!({ "id": id })).await;
    }

    async fn nonsense(&mut self) {
        match self.rng.random_range(0..4) {
            0 => self.client.raw(b"Content-Length: 5\r\n\r\n{oops").await,
            1 => self.client.notify("textDocument/didChange", json!({ "textDocument": 3 })).await,
            2 => self.client.notify("workspace/didChangeConfiguration", json!({ "settings": { "wythe": 3 } })).await,
            _ => {
                let id = self.client.post("textDocument/tea", json!({})).await;
                assert_eq!(self.client.answer(id).await["error"]["code"], -32601);
            }
        }
    }

    /// Every request is answered: with a result, as taken back, or as overtaken by what was typed.
    async fn all_answered(&mut self) {
        for (id, taken_back) in std::mem::take(&mut self.pending) {
            let answer = self.client.answer(id).await;
            let code = answer["error"]["code"].as_i64();
            let fits = code.is_none() || code == Some(-32801) || (taken_back && code == Some(-32800));
            assert!(fits, "{answer}");
            self.answered += 1;
        }
    }

    /// A fresh client that opens the same texts finds the same, and this one has been told so.
    async fn as_a_fresh_start(&mut self) {
        self.all_answered().await;
        self.client.request("workspace/diagnostic", json!({ "previousResultIds": [] })).await;
        let mut fresh = Client::in_folder(&self.plans.root()).await;
        for (name, text) in &self.open {
            fresh.open(&self.plans.url(name), 0, text).await;
        }
        fresh.request("workspace/diagnostic", json!({ "previousResultIds": [] })).await;
        for name in FILES {
            let url = self.plans.url(name);
            let found = self.client.found(&url).await;
            assert_eq!(found, fresh.found(&url).await, "{name}, open: {}", self.open.contains_key(name));
            let told = self.client.published.get(&url).cloned().unwrap_or_else(|| json!([]));
            assert_eq!(told, found, "{name} as told, open: {}", self.open.contains_key(name));
        }
        fresh.leave().await;
    }
}

#[test]
fn any_sequence_of_messages_leaves_what_a_fresh_start_finds() {
    for seed in 0..6 {
        run(async {
            let plans = Plans::copy();
            let client = Client::in_folder(&plans.root()).await;
            let rng = ChaCha8Rng::seed_from_u64(seed);
            let (open, pending) = (BTreeMap::new(), Vec::new());
            let mut session = Session { plans, client, rng, open, version: 0, pending, answered: 0 };
            for step in 0..400 {
                match session.rng.random_range(0..40) {
                    0..4 => session.open_one().await,
                    4..6 => session.close_one().await,
                    6..22 => session.change_one().await,
                    22..24 => session.write_one().await,
                    24..37 => session.ask_one().await,
                    37 => session.take_back_one().await,
                    38 => session.nonsense().await,
                    _ => session.all_answered().await,
                }
                if step % 200 == 199 {
                    session.as_a_fresh_start().await;
                }
            }
            assert!(session.answered > 50, "{} answers", session.answered);
            let Session { client, .. } = session;
            client.leave().await;
        });
    }
}
