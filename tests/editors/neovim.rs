//! Neovim without a screen: findings, hover, completion, rename, a fix made and saved, the drawing and the way back.

use std::fs;
use std::process::Command;

use serde_json::Value;

use crate::client::{Folder, is_there, plans, root, run, wythe};

#[test]
fn neovim_shows_what_is_wrong_completes_renames_and_mends() {
    if !is_there("nvim") {
        return;
    }
    let folder = Folder::new("neovim");
    let plans = plans(folder.path());
    fs::write(plans.join("houses/probe.wythe"), "let a = 3' 4\nlet b = a\n").unwrap();
    let heard = folder.path().join("heard.json");
    let out = run(Command::new("nvim")
        .args(["--headless", "--clean", "-S"])
        .arg(root().join("tests/editors/neovim.lua"))
        .current_dir(&plans)
        .env("WYTHE_COMMAND", wythe())
        .env("WYTHE_PLUGIN", root().join("editors/neovim/wythe.lua"))
        .env("WYTHE_HEARD", &heard)
        .env("XDG_CACHE_HOME", folder.path().join("cache"))
        .env("XDG_STATE_HOME", folder.path().join("state")));
    let text = fs::read_to_string(&heard)
        .unwrap_or_else(|_| panic!("nothing was heard: {}", String::from_utf8_lossy(&out.stderr)));
    let heard: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(heard["error"], Value::Null, "{heard:#}");

    let findings = heard["findings"].as_array().unwrap();
    assert!(findings.iter().any(|f| f["source"] == "wythe" && f["lnum"] == 0), "{heard:#}");
    assert_eq!(heard["after_fix"].as_array().unwrap().len(), 0, "{heard:#}");
    let hover = heard["hover"].as_str().unwrap();
    assert!(hover.contains("inside") && hover.contains("below the top of the masonry"), "{hover}");
    let labels: Vec<&str> = heard["completion"].as_array().unwrap().iter().filter_map(Value::as_str).collect();
    assert!(labels.contains(&"wall_liner") && !labels.contains(&"drive_pin"), "{labels:?}");

    // The drawing came, marked the layer under the cursor, and led back; its address opens one page.
    let drawing = heard["drawing"].as_str().unwrap();
    assert!(drawing.starts_with("HTTP/1.1 200") && drawing.contains("<svg"), "{drawing}");
    assert_eq!(heard["used"], "403");
    assert!(heard["led"].as_str().unwrap().contains("\"followed\":true"), "{heard:#}");
    assert_eq!(heard["line"].as_str().unwrap().trim(), "set board from top - gap to ground");

    // What was done stands on the disk.
    assert_eq!(fs::read_to_string(plans.join("houses/probe.wythe")).unwrap(), "let a = 3' 4\"\nlet b = a\n");
    let house = fs::read_to_string(plans.join("houses/unit_4.wythe")).unwrap();
    let library = fs::read_to_string(plans.join("library/closed_crawl.wythe")).unwrap();
    assert!(house.contains("build: lined_wall(board:") && !house.contains("stem_wall"));
    assert!(library.contains("buildup lined_wall("));
    let checked =
        Command::new(wythe()).args(["check", "houses/unit_4.wythe", "--format", "json"]).current_dir(&plans).output();
    assert!(
        !String::from_utf8_lossy(&checked.unwrap().stdout).contains("unknown_name"),
        "the renamed plans hang together"
    );
}
