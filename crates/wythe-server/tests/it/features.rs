//! Every feature once, through the protocol; and nothing is offered that has no answer.

use serde_json::{Value, json};

use crate::client::{Client, Plans, position, run};

const HOUSE: &str = "houses/unit_4.wythe";

#[test]
fn every_method_that_is_offered_has_an_answer() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 1, &text).await;
        let at = position(&text, "stem_wall(board");
        let place = json!({ "textDocument": { "uri": url }, "position": at });
        let file = json!({ "textDocument": { "uri": url } });
        let range = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 60, "character": 0 } });
        let with = |more: Value| {
            let mut all = place.clone();
            all.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
            all
        };
        let options = json!({ "tabSize": 4, "insertSpaces": true });
        let asked = [
            ("textDocument/hover", place.clone()),
            ("textDocument/completion", place.clone()),
            ("textDocument/definition", place.clone()),
            ("textDocument/references", with(json!({ "context": { "includeDeclaration": true } }))),
            ("textDocument/documentHighlight", place.clone()),
            ("textDocument/documentSymbol", file.clone()),
            ("textDocument/codeLens", file.clone()),
            ("textDocument/documentLink", file.clone()),
            ("textDocument/formatting", json!({ "textDocument": { "uri": url }, "options": options })),
            (
                "textDocument/rangeFormatting",
                json!({ "textDocument": { "uri": url }, "range": range, "options": options }),
            ),
            ("textDocument/onTypeFormatting", with(json!({ "ch": "\n", "options": options }))),
            ("textDocument/prepareRename", place.clone()),
            ("textDocument/rename", with(json!({ "newName": "lined_wall" }))),
            ("textDocument/foldingRange", file.clone()),
            ("textDocument/selectionRange", json!({ "textDocument": { "uri": url }, "positions": [at] })),
            ("textDocument/semanticTokens/full", file.clone()),
            ("textDocument/semanticTokens/range", json!({ "textDocument": { "uri": url }, "range": range })),
            ("textDocument/inlayHint", json!({ "textDocument": { "uri": url }, "range": range })),
            ("textDocument/prepareCallHierarchy", place.clone()),
            ("textDocument/diagnostic", file.clone()),
            (
                "textDocument/codeAction",
                json!({ "textDocument": { "uri": url }, "range": range, "context": { "diagnostics": [] } }),
            ),
            ("workspace/symbol", json!({ "query": "wall" })),
        ];
        for (method, params) in asked {
            let answer = client.request(method, params).await;
            assert!(!answer.is_null(), "{method} gives nothing");
        }
        // These may have nothing to say here, and must not fail.
        client.request("textDocument/typeDefinition", place.clone()).await;
        client.request("textDocument/signatureHelp", place.clone()).await;
        client.leave().await;
    });
}

#[test]
fn a_rename_names_every_file_with_its_version() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 5, &text).await;
        let edit =
            client.at("textDocument/rename", &url, &text, "stem_wall(board", json!({ "newName": "lined_wall" })).await;
        let files = edit["documentChanges"].as_array().unwrap();
        assert!(files.len() > 2);
        let here = files.iter().find(|f| f["textDocument"]["uri"] == url).unwrap();
        assert_eq!(here["textDocument"]["version"], 5);
        assert!(files.iter().any(|f| f["textDocument"]["version"].is_null()));
        let params =
            json!({ "textDocument": { "uri": url }, "position": position(&text, "stem_wall(board"), "newName": "set" });
        let id = client.post("textDocument/rename", params).await;
        assert!(client.answer(id).await["error"]["message"].as_str().unwrap().contains("word of the language"));
        client.leave().await;
    });
}

#[test]
fn a_fix_is_offered_with_its_finding_and_mends_it() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let url = plans.url("houses/probe.wythe");
        client.open(&url, 1, "let a = 3' 4\n").await;
        let found = client.found(&url).await;
        let range = found[0]["range"].clone();
        let params = json!({ "textDocument": { "uri": url }, "range": range, "context": { "diagnostics": found } });
        let actions = client.request("textDocument/codeAction", params).await;
        let fix = actions.as_array().unwrap().iter().find(|a| a["kind"] == "quickfix").unwrap();
        assert_eq!(fix["diagnostics"][0]["range"], range);
        let edit = &fix["edit"]["documentChanges"][0]["edits"][0];
        client.change(&url, 2, json!([{ "range": edit["range"], "text": edit["newText"] }])).await;
        assert_eq!(client.found(&url).await, json!([]));
        client.leave().await;
    });
}

#[test]
fn tokens_are_sent_whole_and_then_as_what_has_changed() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 1, &text).await;
        let file = json!({ "textDocument": { "uri": url } });
        let first = client.request("textDocument/semanticTokens/full", file.clone()).await;
        let mut data: Vec<Value> = first["data"].as_array().unwrap().clone();
        let at = position(&text, "wall south");
        client.change(&url, 2, json!([{ "range": { "start": at, "end": at }, "text": "// a remark\n        " }])).await;
        let delta = json!({ "textDocument": { "uri": url }, "previousResultId": first["resultId"] });
        let second = client.request("textDocument/semanticTokens/full/delta", delta.clone()).await;
        for edit in second["edits"].as_array().unwrap() {
            let start = edit["start"].as_u64().unwrap() as usize;
            let gone = edit["deleteCount"].as_u64().unwrap() as usize;
            let come = edit["data"].as_array().cloned().unwrap_or_default();
            assert!(come.len() < data.len() / 4, "the edit is small");
            data.splice(start..start + gone, come);
        }
        let whole = client.request("textDocument/semanticTokens/full", file).await;
        assert_eq!(whole["data"].as_array().unwrap(), &data);
        // What the server does not remember it sends whole.
        assert!(client.request("textDocument/semanticTokens/full/delta", delta).await["data"].is_array());
        client.leave().await;
    });
}

#[test]
fn a_call_hierarchy_goes_both_ways() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 1, &text).await;
        let items = client.at("textDocument/prepareCallHierarchy", &url, &text, "stem_wall(board", json!({})).await;
        let item = json!({ "item": items[0] });
        let from = client.request("callHierarchy/incomingCalls", item.clone()).await;
        assert!(from.as_array().unwrap().iter().any(|c| c["from"]["name"] == "unit_4"));
        let to = client.request("callHierarchy/outgoingCalls", item).await;
        assert!(to.as_array().unwrap().iter().any(|c| c["to"]["name"] == "wall_liner"));
        client.leave().await;
    });
}

#[test]
fn words_of_the_language_lead_to_a_file_that_can_be_opened() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 1, &text).await;
        let to = client.at("textDocument/definition", &url, &text, "supply_air", json!({})).await;
        let prelude = to["uri"].as_str().unwrap().to_owned();
        assert!(prelude.ends_with("prelude.wythe"), "{prelude}");
        let shipped = std::fs::read_to_string(prelude.trim_start_matches("file://")).unwrap();
        let line = shipped.lines().nth(to["range"]["start"]["line"].as_u64().unwrap() as usize).unwrap();
        assert!(line.trim().starts_with("supply_air:"), "{line}");
        // Opened, it is not judged as if it were plans.
        client.open(&prelude, 1, &shipped).await;
        assert_eq!(client.found(&prelude).await, json!([]));
        client.leave().await;
    });
}
