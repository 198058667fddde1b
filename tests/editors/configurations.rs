//! The configurations of editors that the tests cannot run: what they say is held to the command and the language.

use std::fs;

use serde_json::Value;

use crate::client::root;

/// How every editor starts the server.
const COMMAND: [&str; 3] = ["wythe", "serve", "--stdio"];

#[test]
fn the_configuration_of_helix_names_what_there_is() {
    let text = fs::read_to_string(root().join("editors/helix/languages.toml")).unwrap();
    let told: toml::Value = toml::from_str(&text).unwrap();
    let server = &told["language-server"]["wythe"];
    assert_eq!(server["command"].as_str(), Some(COMMAND[0]));
    let arguments: Vec<_> = server["args"].as_array().unwrap().iter().filter_map(toml::Value::as_str).collect();
    assert_eq!(arguments, COMMAND[1..]);
    let language = &told["language"].as_array().unwrap()[0];
    assert_eq!(language["file-types"].as_array().unwrap()[0].as_str(), Some("wythe"));
    assert_eq!(language["roots"].as_array().unwrap()[0].as_str(), Some("wythe.toml"));
    assert_eq!(language["language-servers"].as_array().unwrap()[0].as_str(), Some("wythe"));
    // The comment mark and the depth are those the formatter writes.
    let mark = language["comment-token"].as_str().unwrap();
    let unit = language["indent"]["unit"].as_str().unwrap();
    let house = fs::read_to_string(root().join("examples/cedar_row/houses/unit_4.wythe")).unwrap();
    assert!(house.contains(&format!(" {mark} ")) && house.contains(&format!("\n{unit}phases:")));
}

#[test]
fn the_configuration_of_kate_names_what_there_is() {
    let text = fs::read_to_string(root().join("editors/kate/settings.json")).unwrap();
    let told: Value = serde_json::from_str(&text).unwrap();
    let server = &told["servers"]["wythe"];
    assert_eq!(server["command"], serde_json::json!(COMMAND));
    assert_eq!(server["rootIndicationFileNames"], serde_json::json!(["wythe.toml"]));
    assert_eq!(server["highlightingModeRegex"], "^Wythe$");
}

/// Every page on an editor shows pictures that are there, and every picture is shown.
#[test]
fn the_pages_on_editors_show_the_pictures_that_there_are() {
    for folder in ["", "vscode", "neovim", "emacs", "helix", "kate"] {
        let folder = root().join("editors").join(folder);
        let text = fs::read_to_string(folder.join("README.md")).unwrap();
        let shown = text.split("(pictures/").skip(1).filter_map(|rest| Some(rest.split_once(')')?.0.to_owned()));
        let mut shown: Vec<String> = shown.collect();
        shown.sort();
        let there = fs::read_dir(folder.join("pictures")).into_iter().flatten();
        let mut there: Vec<String> = there.map(|p| p.unwrap().file_name().to_string_lossy().into_owned()).collect();
        there.sort();
        assert_eq!(shown, there, "{}", folder.display());
    }
}
