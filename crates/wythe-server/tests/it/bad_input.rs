//! Input no client should send, and events no client wishes for. The server answers or passes over, and lives on.

use serde_json::{Value, json};

use crate::client::{Client, Plans, position, run};

const HOUSE: &str = "houses/unit_4.wythe";

/// The server still answers.
async fn lives(client: &mut Client, plans: &Plans) {
    let (url, text) = (plans.url("houses/unit_1.wythe"), plans.text("houses/unit_1.wythe"));
    client.open(&url, 1, &text).await;
    let told = client.at("textDocument/hover", &url, &text, "unit_1 on", json!({})).await;
    assert!(told["contents"]["value"].as_str().unwrap().contains("unit_1"));
}

#[test]
fn unknown_methods_and_wrong_params() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let id = client.post("textDocument/tea", json!({})).await;
        assert_eq!(client.answer(id).await["error"]["code"], -32601);
        let id = client.post("textDocument/hover", json!({ "textDocument": 3 })).await;
        assert_eq!(client.answer(id).await["error"]["code"], -32602);
        client.notify("wythe/unheard", json!({})).await;
        client.notify("textDocument/didChange", json!({ "textDocument": null })).await;
        let id = client.post("initialize", json!({ "capabilities": {} })).await;
        assert!(client.answer(id).await["error"].is_object());
        lives(&mut client, &plans).await;
        client.leave().await;
    });
}

#[test]
fn a_breakdown_answers_its_request_and_the_server_lives_on() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let id = client.post("wythe/breakDown", json!({ "where": "request" })).await;
        let behind = client.post("workspace/symbol", json!({ "query": "unit_1" })).await;
        let error = client.answer(id).await["error"].clone();
        assert_eq!(error["code"], -32603);
        assert!(error["message"].as_str().unwrap().contains("asked to, in a request"), "{error}");
        assert!(!client.answer(behind).await["result"].as_array().unwrap().is_empty());
        // In a change nobody waits for an answer; the log says what happened.
        client.request("wythe/breakDown", json!({ "where": "change" })).await;
        lives(&mut client, &plans).await;
        client.listen().await;
        for part in ["a request broke down", "a change broke down"] {
            assert!(client.log.iter().any(|line| line.contains(part)), "{:?}", client.log);
        }
        client.leave().await;
    });
}

#[test]
fn malformed_json() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        client.raw(b"no header at all\r\n\r\n").await;
        for body in ["{", "[1, 2", "nonsense", "{\"jsonrpc\":\"2.0\"}", "\u{0}\u{1}"] {
            client.raw(format!("Content-Length: {}\r\n\r\n{body}", body.len()).as_bytes()).await;
        }
        lives(&mut client, &plans).await;
        client.until(|c| c.log.iter().filter(|l| l.contains("passed over")).count() == 6).await;
        client.leave().await;
    });
}

#[test]
fn versions_that_go_backwards_and_edits_outside_the_text() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let url = plans.url("houses/probe.wythe");
        client.open(&url, 9, "let a = 3'\n").await;
        client.change(&url, 4, json!([{ "text": "let a = 4'\n" }])).await;
        let range = |a: (u64, u64), b: (u64, u64)| json!({ "start": { "line": a.0, "character": a.1 }, "end": { "line": b.0, "character": b.1 } });
        // Past the end of the line, past the last line, ends the wrong way round.
        client.change(&url, 10, json!([{ "range": range((0, 99), (0, 4_000_000_000)), "text": " + 1'" }])).await;
        client.change(&url, 11, json!([{ "range": range((700, 0), (900, 1)), "text": "let b = a\n" }])).await;
        client.change(&url, 12, json!([{ "range": range((1, 8), (1, 4)), "text": "c = " }])).await;
        // A change of what is not open.
        client.change(&plans.url("houses/closed.wythe"), 1, json!([{ "text": "x" }])).await;
        let symbols = client.request("textDocument/documentSymbol", json!({ "textDocument": { "uri": url } })).await;
        let names: Vec<&str> = symbols.as_array().unwrap().iter().map(|s| s["name"].as_str().unwrap()).collect();
        assert_eq!(names, ["a", "c"]);
        client.listen().await;
        assert!(client.log.iter().any(|l| l.contains("version 9 to 4")), "{:?}", client.log);
        assert!(client.log.iter().any(|l| l.contains("not open")), "{:?}", client.log);
        lives(&mut client, &plans).await;
        client.leave().await;
    });
}

#[test]
fn half_a_pair_of_units() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let url = plans.url("houses/probe.wythe");
        client.open(&url, 1, "let a = \"😀\"\n").await;
        let half = json!({ "line": 0, "character": 10 });
        client.change(&url, 2, json!([{ "range": { "start": half, "end": half }, "text": "x" }])).await;
        for method in ["textDocument/hover", "textDocument/completion", "textDocument/definition"] {
            client.request(method, json!({ "textDocument": { "uri": url }, "position": half })).await;
        }
        assert_eq!(client.found(&url).await, json!([]));
        client.leave().await;
    });
}

#[test]
fn a_file_is_deleted_while_it_is_open_and_then_closed() {
    run(async {
        let plans = Plans::copy();
        let name = "houses/gone.wythe";
        std::fs::write(plans.root().join(name), "let a = 3' 4\n").unwrap();
        let mut client = Client::in_folder(&plans.root()).await;
        let url = plans.url(name);
        client.open(&url, 1, "let a = 3' 4\n").await;
        client.until(|c| c.published.get(&url).is_some_and(|d| !d.as_array().unwrap().is_empty())).await;
        std::fs::remove_file(plans.root().join(name)).unwrap();
        client.notify("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": url, "type": 3 }] })).await;
        // The text in the editor still counts.
        assert!(!client.found(&url).await.as_array().unwrap().is_empty());
        client.notify("textDocument/didClose", json!({ "textDocument": { "uri": url } })).await;
        client.until(|c| c.published[&url] == json!([])).await;
        client.leave().await;
    });
}

#[test]
fn a_file_of_fifty_megabytes() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let url = plans.url("houses/huge.wythe");
        let text = "let a = 3'\n".repeat(50 * 1024 * 1024 / 11);
        client.open(&url, 1, &text).await;
        let found = client.found(&url).await;
        assert!(found[0]["message"].as_str().unwrap().contains("too large"), "{found}");
        let place = json!({ "textDocument": { "uri": url }, "position": { "line": 3, "character": 5 } });
        for method in [
            "textDocument/hover",
            "textDocument/completion",
            "textDocument/foldingRange",
            "textDocument/documentSymbol",
        ] {
            client.request(method, place.clone()).await;
        }
        client.change(&url, 2, json!([{ "text": "let a = 3'\n" }])).await;
        assert_eq!(client.found(&url).await, json!([]));
        client.leave().await;
    });
}

#[test]
fn ten_thousand_changes_at_once() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 0, &text).await;
        let before = client.found(&url).await;
        let at = position(&text, "pub foundation");
        for n in 0..5_000 {
            client.change(&url, 2 * n + 1, json!([{ "range": { "start": at, "end": at }, "text": "(" }])).await;
            let end = json!({ "line": at["line"], "character": 1 });
            client.change(&url, 2 * n + 2, json!([{ "range": { "start": at, "end": end }, "text": "" }])).await;
        }
        assert_eq!(client.found(&url).await, before);
        client.listen().await;
        assert_eq!(client.published.get(&url).cloned().unwrap_or_else(|| json!([])), before);
        client.leave().await;
    });
}

#[test]
fn a_client_that_dies_ends_the_server() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        client.open(&plans.url(HOUSE), 1, &plans.text(HOUSE)).await;
        client.request("shutdown", Value::Null).await;
        // No `exit`: the pipe just closes.
        client.raw(b"Content-Length: 99\r\n\r\n{\"half").await;
        drop(client);
    });
}

#[test]
fn documents_that_are_no_files_and_addresses_that_are_none() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        client.open("untitled:Untitled-1", 1, "let a = 3' 4\n").await;
        assert!(!client.found("untitled:Untitled-1").await.as_array().unwrap().is_empty());
        let symbols = json!({ "textDocument": { "uri": "untitled:Untitled-1" } });
        assert_eq!(client.request("textDocument/documentSymbol", symbols).await[0]["name"], "a");
        client.open("file:///nowhere/at/all/x.wythe", 1, "let a = b\n").await;
        assert!(client.found("file:///nowhere/at/all/x.wythe").await.to_string().contains("unknown_name"));
        let unheard =
            json!({ "textDocument": { "uri": "file:///nowhere/y.wythe" }, "position": { "line": 0, "character": 0 } });
        assert_eq!(client.request("textDocument/hover", unheard).await, Value::Null);
        lives(&mut client, &plans).await;
        client.leave().await;
    });
}
