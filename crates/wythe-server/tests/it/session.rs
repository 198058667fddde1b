//! A session from the first word to the last.

use serde_json::{Value, json};

use crate::client::{Client, Plans, position, rich, run};

const HOUSE: &str = "houses/unit_4.wythe";

#[test]
fn a_mistake_is_told_with_its_places_and_its_page_and_taken_back_when_mended() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 1, &text).await;
        let before = client.found(&url).await;
        // The walk no longer closes.
        let at = position(&text, "20' // 28' 6\"");
        let end = json!({ "line": at["line"], "character": at["character"].as_u64().unwrap() + 3 });
        client.change(&url, 2, json!([{ "range": { "start": at, "end": end }, "text": "19'" }])).await;
        client.until(|c| c.published.get(&url).is_some_and(|d| d.to_string().contains("walk"))).await;
        let all = client.published[&url].clone();
        let walk = all.as_array().unwrap().iter().find(|d| d["message"].as_str().unwrap().contains("close")).unwrap();
        assert_eq!(walk["source"], "wythe");
        assert_eq!(walk["severity"], 1);
        let page = walk["codeDescription"]["href"].as_str().unwrap();
        let name = walk["code"].as_str().unwrap();
        assert!(page.starts_with("file://") && page.ends_with(&format!("pages/{name}.md")), "{page}");
        assert!(std::path::Path::new(page.trim_start_matches("file://")).is_file());
        assert!(
            walk["relatedInformation"].as_array().is_none_or(|r| r.iter().all(|r| r["location"]["uri"].is_string()))
        );
        let end = json!({ "line": at["line"], "character": at["character"].as_u64().unwrap() + 3 });
        client.change(&url, 3, json!([{ "range": { "start": at, "end": end }, "text": "20'" }])).await;
        assert_eq!(client.found(&url).await, before);
        client.listen().await;
        assert_eq!(client.published[&url], before);
        client.leave().await;
    });
}

#[test]
fn every_file_of_the_folder_is_checked_with_progress_and_watched() {
    run(async {
        let plans = Plans::copy();
        std::fs::write(plans.root().join("houses/broken.wythe"), "let a = 3' 4\n").unwrap();
        let mut client = Client::in_folder(&plans.root()).await;
        let broken = plans.url("houses/broken.wythe");
        client.until(|c| c.published.get(&broken).is_some_and(|d| !d.as_array().unwrap().is_empty())).await;
        client.until(|c| c.asked.iter().any(|m| m == "client/registerCapability")).await;
        client.until(|c| c.progress.iter().any(|p| p["value"]["kind"] == "end")).await;
        assert_eq!(client.progress[0]["value"]["kind"], "begin");
        client.until(|c| c.log.iter().any(|l| l.starts_with("checked "))).await;
        client.leave().await;
    });
}

#[test]
fn columns_are_counted_as_the_client_counts() {
    for (encoding, column) in [("utf-8", 18), ("utf-16", 16), ("utf-32", 15)] {
        run(async {
            let plans = Plans::copy();
            let mut caps = rich();
            caps["general"] = json!({ "positionEncodings": [encoding] });
            let mut client = Client::start();
            let root = crate::client::url(&plans.root());
            let params = json!({ "processId": null, "rootUri": root, "capabilities": caps });
            let answer = client.request("initialize", params).await;
            assert_eq!(answer["capabilities"]["positionEncoding"], encoding);
            client.notify("initialized", json!({})).await;
            let url = plans.url("houses/astral.wythe");
            // Four bytes, two units: 😀.
            client.open(&url, 1, "let a = \"😀\" let b = 3'\n").await;
            client.open(&url, 2, "let a = \"😀\"; let b = c\n").await;
            let all = client.found(&url).await;
            let unknown = all.as_array().unwrap().iter().find(|d| d["code"] == "unknown_name");
            let start = unknown.map(|d| d["range"]["start"]["character"].clone());
            // `c` stands after `let a = "😀"; let b = `.
            assert_eq!(start, Some(json!(column + 6)), "{all}");
            client.leave().await;
        });
    }
}

#[test]
fn a_client_that_asks_is_not_told_unasked() {
    run(async {
        let plans = Plans::copy();
        let mut caps = rich();
        caps["textDocument"]["diagnostic"] = json!({});
        caps["workspace"]["diagnostic"] = json!({ "refreshSupport": true });
        let mut client = Client::with(&plans.root(), caps.clone()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 1, &text.replace("runs south 20'", "runs south 19'")).await;
        let first = client.request("textDocument/diagnostic", json!({ "textDocument": { "uri": url } })).await;
        assert!(!first["items"].as_array().unwrap().is_empty());
        let again = json!({ "textDocument": { "uri": url }, "previousResultId": first["resultId"] });
        assert_eq!(client.request("textDocument/diagnostic", again).await["kind"], "unchanged");
        let all = client.request("workspace/diagnostic", json!({ "previousResultIds": [] })).await;
        let items = all["items"].as_array().unwrap();
        assert!(items.len() > 10 && items.iter().any(|i| i["uri"] == url && i["version"] == 1));
        client.listen().await;
        assert!(client.published.is_empty(), "{:?}", client.published.keys());
        assert!(client.asked.iter().any(|m| m == "workspace/diagnostic/refresh"));
        client.leave().await;
    });
}

#[test]
fn settings_change_what_is_shown() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 1, &text).await;
        let whole = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 999, "character": 0 } });
        let asked = json!({ "textDocument": { "uri": url }, "range": whole });
        let count = |hints: Value| hints.as_array().unwrap().len();
        let all = count(client.request("textDocument/inlayHint", asked.clone()).await);
        assert!(all > 10);
        let settings = json!({ "settings": { "wythe": { "hints": { "thermal": false } } } });
        client.notify("workspace/didChangeConfiguration", settings).await;
        assert!(count(client.request("textDocument/inlayHint", asked.clone()).await) < all);
        client.notify("workspace/didChangeConfiguration", json!({ "settings": { "wythe": { "hints": 3 } } })).await;
        client.request("textDocument/inlayHint", asked).await;
        client.listen().await;
        assert!(client.log.iter().any(|l| l.contains("settings cannot be read")), "{:?}", client.log);
        client.leave().await;
    });
}

#[test]
fn a_request_taken_back_is_answered_as_such() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (url, text) = (plans.url(HOUSE), plans.text(HOUSE));
        client.open(&url, 1, &text).await;
        let asked = json!({ "textDocument": { "uri": url }, "position": position(&text, "south runs") });
        let mut ids = Vec::new();
        for _ in 0..50 {
            ids.push(client.post("textDocument/hover", asked.clone()).await);
        }
        for id in &ids {
            client.notify("$/cancelRequest", json!({ "id": id })).await;
        }
        let mut taken_back = 0;
        for id in ids {
            let answer = client.answer(id).await;
            taken_back += usize::from(answer["error"]["code"] == -32800);
        }
        assert!(taken_back > 0, "no request was taken back");
        assert!(client.request("textDocument/hover", asked).await.is_object());
        client.leave().await;
    });
}
