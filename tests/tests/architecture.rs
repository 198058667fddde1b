//! The layers of the workspace: arrows point down only, and what must stay ignorant of the world stays so.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The layers, lowest first. A crate may import crates of lower layers only.
const LAYERS: [&[&str]; 10] = [
    &["wythe-source", "tree-sitter-wythe"],
    &["wythe-findings", "wythe-units"],
    &["wythe-syntax", "wythe-model", "wythe-physics"],
    &["wythe-sema", "wythe-check", "wythe-climate", "wythe-takeoff"],
    &["wythe-assess"],
    &["wythe-eval", "wythe-bill"],
    &["wythe-project", "wythe-render"],
    &["wythe-ide", "wythe-report", "wythe-sheets", "wythe-export"],
    &["wythe-server"],
    &["wythe", "wythe-tests"],
];

/// Crates that must know nothing of others, though those lie lower.
const APART: [(&str, &[&str]); 8] = [
    // The building is told without the language it was written in.
    ("wythe-model", &["wythe-syntax", "wythe-findings"]),
    ("wythe-check", &["wythe-syntax", "wythe-sema"]),
    // Physics and takeoff are functions of figures, usable without a building.
    ("wythe-physics", &["wythe-source", "wythe-findings"]),
    ("wythe-takeoff", &["wythe-source", "wythe-findings", "wythe-syntax", "wythe-model", "wythe-physics"]),
    // Outputs are made of results, not of sources.
    ("wythe-render", &["wythe-syntax", "wythe-sema"]),
    ("wythe-sheets", &["wythe-syntax", "wythe-sema"]),
    ("wythe-export", &["wythe-syntax", "wythe-sema", "wythe-eval"]),
    // One crate speaks the protocol, and it reaches the compiler through the editor features.
    ("wythe-server", &["wythe-syntax", "wythe-eval", "wythe-check", "wythe-physics"]),
];

/// Outside crates that belong in certain crates only.
const CONFINED: [(&str, &[&str]); 12] = [
    ("tower-lsp", &["wythe-server"]),
    ("maud", &["wythe-report"]),
    ("plotters", &["wythe-report"]),
    ("clap", &["wythe"]),
    ("notify", &["wythe"]),
    ("walkdir", &["wythe-project"]),
    ("toml", &["wythe-project"]),
    ("ariadne", &["wythe-render"]),
    ("chumsky", &["wythe-syntax"]),
    ("fluent-bundle", &["wythe-sheets"]),
    ("rust_xlsxwriter", &["wythe-export"]),
    ("pdf-writer", &["wythe-export"]),
];

/// Crates with no input or output, no clock and no environment: the same sources give the same results anywhere.
const PURE: [&str; 18] = [
    "wythe-source",
    "wythe-findings",
    "wythe-units",
    "wythe-syntax",
    "wythe-model",
    "wythe-sema",
    "wythe-check",
    "wythe-physics",
    "wythe-climate",
    "wythe-assess",
    "wythe-takeoff",
    "wythe-bill",
    "wythe-eval",
    "wythe-render",
    "wythe-sheets",
    "wythe-export",
    "wythe-ide",
    "wythe-report",
];

/// What a pure crate does not name.
const IMPURE: [&str; 8] =
    ["std::fs", "std::env", "std::net", "std::process", "SystemTime", "Instant::now", "Zoned::now", "thread_rng"];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The crates of the workspace, each with what it imports; imports of tests alone are left out.
fn imports() -> BTreeMap<String, BTreeSet<String>> {
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--no-deps", "--offline"])
        .current_dir(root())
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let metadata: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let text = |value: &serde_json::Value| value.as_str().unwrap().to_owned();
    let packages = metadata["packages"].as_array().unwrap().iter();
    packages
        .map(|package| {
            let dependencies = package["dependencies"].as_array().unwrap().iter().filter(|d| d["kind"].is_null());
            (text(&package["name"]), dependencies.map(|d| text(&d["name"])).collect())
        })
        .collect()
}

fn layer(name: &str) -> Option<usize> {
    LAYERS.iter().position(|layer| layer.contains(&name))
}

#[test]
fn arrows_point_down() {
    for (name, imported) in imports() {
        let own = layer(&name).unwrap_or_else(|| panic!("`{name}` stands in no layer: put it in the table"));
        for below in imported.iter().filter_map(|i| layer(i).map(|layer| (i, layer))) {
            assert!(below.1 < own, "`{name}` imports `{}`, which does not lie below it", below.0);
        }
    }
}

#[test]
fn who_must_not_know_does_not_know() {
    let imports = imports();
    for (name, barred) in APART {
        let imported = imports.get(name).unwrap_or_else(|| panic!("there is no crate `{name}`"));
        for other in barred {
            assert!(!imported.contains(*other), "`{name}` must not import `{other}`");
        }
    }
    for (name, imported) in imports.iter().filter(|(name, _)| name.as_str() != "wythe-tests") {
        for (outside, homes) in CONFINED {
            let at_home = homes.contains(&name.as_str());
            assert!(at_home || !imported.contains(outside), "`{outside}` belongs in {homes:?}, not in `{name}`");
        }
    }
}

#[test]
fn pure_crates_touch_nothing_of_the_world() {
    for name in PURE {
        let folder = root().join("crates").join(name).join("src");
        let mut files = Vec::new();
        collect(&folder, &mut files);
        assert!(!files.is_empty(), "{} holds no source", folder.display());
        // Tests that stand beside the code may read what they are compared with.
        for file in files.iter().filter(|file| !file.ends_with("src/tests.rs")) {
            let text = fs::read_to_string(file).unwrap();
            let body = text.split("#[cfg(test)]\nmod").next().unwrap_or("");
            for barred in IMPURE {
                assert!(!body.contains(barred), "{} names `{barred}`", file.display());
            }
        }
    }
}

#[test]
fn each_library_says_what_it_is_and_where_to_start() {
    for name in PURE.into_iter().chain(["wythe-project", "wythe-server"]) {
        let file = root().join("crates").join(name).join("src/lib.rs");
        let text = fs::read_to_string(&file).unwrap();
        let begun = text.lines().any(|line| !line.starts_with("//"));
        if !begun {
            continue;
        }
        let head: String = text.lines().take_while(|line| line.starts_with("//!")).collect();
        assert!(head.contains("mport"), "{} does not say what it may import", file.display());
        assert!(head.contains("tart"), "{} does not say where to start reading", file.display());
    }
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() && !path.ends_with("tests") {
            collect(&path, files);
        } else if path.extension().is_some_and(|e| e == "rs") {
            files.push(path);
        }
    }
}
