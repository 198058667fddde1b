//! Every feature once, through the protocol; and nothing is offered that has no answer.

use serde_json::{Value, json};

use crate::client::{Client, Plans, position, rich, run};
use crate::meta::MODEL;

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

#[test]
fn use_lines_follow_a_file_that_is_renamed() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 7, &text).await;
        let renamed = json!({ "files": [
            { "oldUri": plans.url("library/phases.wythe"), "newUri": plans.url("library/order/steps.wythe") },
        ] });
        let edit = client.request("workspace/willRenameFiles", renamed).await;
        let files = edit["documentChanges"].as_array().unwrap();
        assert!(files.len() > 2);
        let here = files.iter().find(|f| f["textDocument"]["uri"] == url).unwrap();
        assert_eq!(here["textDocument"]["version"], 7);
        assert_eq!(here["edits"][0]["newText"], "../library/order/steps.wythe");
        // Made, and the file moved: all is as it was.
        let before = client.found(&url).await;
        let to = plans.root().join("library/order/steps.wythe");
        std::fs::create_dir_all(to.parent().unwrap()).unwrap();
        for file in files {
            let uri = file["textDocument"]["uri"].as_str().unwrap();
            let place = uri.trim_start_matches("file://");
            let mut lines: Vec<String> = std::fs::read_to_string(place).unwrap().lines().map(str::to_owned).collect();
            for edit in file["edits"].as_array().unwrap() {
                let at = |end: &str| edit["range"][end]["character"].as_u64().unwrap() as usize;
                let line = edit["range"]["start"]["line"].as_u64().unwrap() as usize;
                lines[line].replace_range(at("start")..at("end"), edit["newText"].as_str().unwrap());
            }
            std::fs::write(place, lines.join("\n") + "\n").unwrap();
        }
        std::fs::rename(plans.root().join("library/phases.wythe"), to).unwrap();
        let text = plans.text(HOUSE);
        client.change(&url, 8, json!([{ "text": text }])).await;
        let mut events = vec![
            json!({ "uri": plans.url("library/phases.wythe"), "type": 3 }),
            json!({ "uri": plans.url("library/order/steps.wythe"), "type": 1 }),
        ];
        events.extend(files.iter().map(|f| json!({ "uri": f["textDocument"]["uri"], "type": 2 })));
        client.notify("workspace/didChangeWatchedFiles", json!({ "changes": events })).await;
        assert_eq!(client.found(&url).await, before);
        client.leave().await;
    });
}

#[test]
fn names_of_one_file_are_typed_together() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let url = plans.url("houses/probe.wythe");
        let text = "let depth = 3'\nlet twice = depth * 2\n";
        client.open(&url, 1, text).await;
        let linked = client.at("textDocument/linkedEditingRange", &url, text, "depth", json!({})).await;
        assert_eq!(linked["ranges"].as_array().unwrap().len(), 2);
        client.leave().await;
    });
}

#[test]
fn commands_are_carried_out_or_refused() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let command = |name: &str, arguments: Value| json!({ "command": name, "arguments": arguments });
        let status = client.request("workspace/executeCommand", command("wythe.server.status", json!([]))).await;
        assert_eq!(status["repositories"][0]["folder"], plans.root().to_str().unwrap());
        let page =
            client.request("workspace/executeCommand", command("wythe.server.explain", json!(["walk_open"]))).await;
        assert!(page.as_str().unwrap().starts_with("# "));
        let all = client.request("workspace/executeCommand", command("wythe.server.recheck", json!([]))).await;
        assert!(all["findings"].is_u64());
        for wrong in [command("wythe.server.tea", json!([])), command("wythe.server.explain", json!(["odd"]))] {
            let id = client.post("workspace/executeCommand", wrong).await;
            assert_eq!(client.answer(id).await["error"]["code"], -32602);
        }
        client.leave().await;
    });
}

#[test]
fn every_request_of_the_protocol_is_served_or_left_out_on_purpose() {
    // Requests the protocol has and plans do not need, each for a reason.
    const LEFT_OUT: [(&str, &str); 18] = [
        ("textDocument/declaration", "a declaration is its definition"),
        ("textDocument/implementation", "nothing is declared apart from what carries it out"),
        ("textDocument/documentColor", "plans have no colors"),
        ("textDocument/colorPresentation", "plans have no colors"),
        ("textDocument/inlineValue", "plans are not run step by step"),
        ("textDocument/moniker", "nothing indexes plans across repositories"),
        ("textDocument/prepareTypeHierarchy", "types have no order among them"),
        ("typeHierarchy/subtypes", "types have no order among them"),
        ("typeHierarchy/supertypes", "types have no order among them"),
        ("textDocument/willSaveWaitUntil", "editors ask for `source.fixAll` when they save"),
        ("workspace/willCreateFiles", "a new file is used by nobody"),
        ("workspace/willDeleteFiles", "what used the file is for its author to mend"),
        ("workspaceSymbol/resolve", "symbols are sent whole"),
        ("completionItem/resolve", "items are sent whole"),
        ("codeAction/resolve", "actions are sent whole"),
        ("codeLens/resolve", "lenses are sent whole"),
        ("documentLink/resolve", "links are sent whole"),
        ("inlayHint/resolve", "hints are sent whole"),
    ];
    run(async {
        let plans = Plans::copy();
        let mut caps = rich();
        caps["textDocument"]["diagnostic"] = json!({});
        let mut client = Client::with(&plans.root(), caps).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 1, &text).await;
        let offered = client.offered.clone();
        let at = position(&text, "stem_wall(board");
        let params = json!({
            "textDocument": { "uri": url }, "position": at, "positions": [at], "query": "wall", "ch": "\n",
            "newName": "lined_wall", "previousResultId": "0", "previousResultIds": [], "files": [],
            "command": "wythe.server.status",
            "range": { "start": at, "end": at }, "options": { "tabSize": 4, "insertSpaces": true },
            "context": { "includeDeclaration": true, "diagnostics": [], "triggerKind": 1, "isRetrigger": false },
        });
        let items = client.request("textDocument/prepareCallHierarchy", params.clone()).await;
        for method in MODEL.requests_to_the_server() {
            let left_out = LEFT_OUT.iter().any(|(name, _)| *name == method);
            if matches!(method, "initialize" | "shutdown") {
                continue;
            }
            let asked = if method.starts_with("callHierarchy/") { json!({ "item": items[0] }) } else { params.clone() };
            let id = client.post(method, asked).await;
            let answer = client.answer(id).await;
            let served = answer.get("error").is_none();
            assert_eq!(served, !left_out, "{method}: {answer}");
            if let Some(capability) = MODEL.capability(method) {
                let path = format!("/{}", capability.replace('.', "/"));
                let says = offered.pointer(&path).is_some_and(|value| !value.is_null() && *value != json!(false));
                assert_eq!(says, served, "{method}: the server says {capability} is {says}");
            }
        }
        client.leave().await;
    });
}
