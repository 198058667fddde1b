//! `serve`.

use std::io::{Read as _, Write as _};
use std::process::Stdio;

use serde_json::json;

use crate::plans::{Plans, command};

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

#[test]
fn the_drawing_is_announced_by_an_address_of_this_machine() {
    let plans = Plans::new(&[("a.wythe", "let a = 3'\n")]);
    let said = [
        json!({ "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": { "capabilities": {} } }),
        json!({ "jsonrpc": "2.0", "method": "initialized", "params": {} }),
    ];
    let [first, second] = said.each_ref().map(message);
    let arguments = ["serve", "--stdio", "--drawing"];
    let mut server =
        command(&arguments).current_dir(plans.root()).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
    // Held open until the end: a client that leaves is served no more.
    let mut input = server.stdin.take().unwrap();
    let (mut said, mut part) = (Vec::new(), [0_u8; 4096]);
    let mut output = server.stdout.take().unwrap();
    // As every client does, it waits for the first answer before it says more.
    for (words, due) in [(first, "serverInfo"), (second, "/?token=")] {
        input.write_all(words.as_bytes()).unwrap();
        while !String::from_utf8_lossy(&said).contains(due) {
            let length = output.read(&mut part).unwrap();
            assert!(length > 0, "it ended: {}", String::from_utf8_lossy(&said));
            said.extend_from_slice(&part[..length]);
        }
    }
    let said = String::from_utf8_lossy(&said);
    assert!(said.contains("window/showMessage") && said.contains("The drawing is at http://127.0.0.1:"), "{said}");
    drop(input);
    assert!(server.wait().unwrap().success());
}
