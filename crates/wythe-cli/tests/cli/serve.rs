//! `serve`.

use serde_json::json;

use crate::plans::Plans;

/// A message as it is sent.
fn message(body: &serde_json::Value) -> String {
    let body = body.to_string();
    format!("Content-Length: {}\r\n\r\n{body}", body.len())
}

#[test]
fn an_editor_is_served_over_standard_input_and_output_until_it_leaves() {
    let plans = Plans::new(&[("a.wythe", "let a = 3' 4\n")]);
    // A client that leaves without a word is served as long as it listens.
    let said = message(&json!({ "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": { "capabilities": {} } }));
    for arguments in [&["serve", "--stdio"][..], &["serve"]] {
        let run = plans.run_in(&plans.root(), arguments, said.as_bytes());
        assert_eq!(run.code, 0, "{}", run.shown());
        assert!(run.out.starts_with("Content-Length: ") && run.out.contains("\"hoverProvider\":true"), "{}", run.out);
    }
}
