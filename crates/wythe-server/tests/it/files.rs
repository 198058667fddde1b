//! Files, folders and several repositories.

use serde_json::json;

use crate::client::{Client, Plans, rich, run, url};

#[test]
fn an_edit_of_a_library_reaches_the_house_and_a_close_goes_back() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let (library, house) = (plans.url("library/closed_crawl.wythe"), plans.url("houses/unit_4.wythe"));
        let before = client.found(&house).await;
        let text = plans.text("library/closed_crawl.wythe");
        client.open(&library, 1, &text.replace("pub buildup stem_wall(", "pub buildup block_wall(")).await;
        assert!(client.found(&house).await.to_string().contains("stem_wall"));
        client.notify("textDocument/didClose", json!({ "textDocument": { "uri": library } })).await;
        assert_eq!(client.found(&house).await, before);
        client.leave().await;
    });
}

#[test]
fn files_made_and_written_outside_are_seen() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let new = plans.url("houses/new.wythe");
        std::fs::write(plans.root().join("houses/new.wythe"), "let a = 3' 4\n").unwrap();
        client.notify("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": new, "type": 1 }] })).await;
        client.until(|c| c.published.get(&new).is_some_and(|d| !d.as_array().unwrap().is_empty())).await;
        std::fs::write(plans.root().join("houses/new.wythe"), "let a = 3' 4\"\n").unwrap();
        client.notify("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": new, "type": 2 }] })).await;
        client.until(|c| c.published[&new] == json!([])).await;
        client.leave().await;
    });
}

#[test]
fn a_client_that_watches_nothing_is_served_by_looks_at_the_disk() {
    run(async {
        let plans = Plans::copy();
        let mut caps = rich();
        caps["workspace"]["didChangeWatchedFiles"] = json!(null);
        let mut client = Client::with(&plans.root(), caps).await;
        let new = plans.url("houses/new.wythe");
        client.found(&plans.url("houses/unit_1.wythe")).await;
        std::fs::write(plans.root().join("houses/new.wythe"), "let a = 3' 4\n").unwrap();
        client.until(|c| c.published.get(&new).is_some_and(|d| !d.as_array().unwrap().is_empty())).await;
        std::fs::remove_file(plans.root().join("houses/new.wythe")).unwrap();
        client.until(|c| c.published[&new] == json!([])).await;
        client.leave().await;
    });
}

#[test]
fn several_folders_are_kept_apart() {
    run(async {
        let (a, b) = (Plans::copy(), Plans::copy());
        std::fs::write(b.root().join("houses/broken.wythe"), "let a = 3' 4\n").unwrap();
        let mut client = Client::in_folder(&a.root()).await;
        let broken = b.url("houses/broken.wythe");
        client.found(&a.url("houses/unit_1.wythe")).await;
        assert!(!client.published.contains_key(&broken));
        let folder = json!({ "uri": url(&b.root()), "name": "b" });
        let event = json!({ "event": { "added": [folder], "removed": [] } });
        client.notify("workspace/didChangeWorkspaceFolders", event).await;
        client.until(|c| c.published.get(&broken).is_some_and(|d| !d.as_array().unwrap().is_empty())).await;
        // The same build-up in the other folder is another.
        let (house, text) = (b.url("houses/unit_4.wythe"), b.text("houses/unit_4.wythe"));
        client.open(&house, 1, &text).await;
        let to = client.at("textDocument/definition", &house, &text, "stem_wall(board", json!({})).await;
        assert_eq!(to["uri"], b.url("library/closed_crawl.wythe"));
        let event = json!({ "event": { "added": [], "removed": [folder] } });
        client.notify("workspace/didChangeWorkspaceFolders", event).await;
        client.until(|c| c.published[&broken] == json!([])).await;
        client.leave().await;
    });
}
