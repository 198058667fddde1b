//! Habits that keep the tree readable: short files that say what they are, nothing left open, no trace of one machine.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// No file is longer.
const MOST_LINES: usize = 800;

/// Half of the files are no longer than this.
const MEDIAN_LINES: usize = 160;

/// Folders that hold nothing written by hand.
const PASSED_OVER: [&str; 5] = ["target", "node_modules", "snapshots", "generated", "corpus"];

/// Endings of text that people write.
const TEXT: [&str; 14] =
    ["rs", "toml", "md", "wythe", "yml", "yaml", "json", "js", "ts", "sh", "py", "lua", "scm", "csv"];

fn root() -> PathBuf {
    fs::canonicalize(Path::new(env!("CARGO_MANIFEST_DIR")).join("..")).unwrap()
}

/// Every file in a folder, in order of path.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().and_then(|n| n.to_str()).unwrap_or("").to_owned();
            if path.is_symlink() {
                continue;
            }
            if path.is_dir() {
                if !name.starts_with(".git") && !PASSED_OVER.contains(&name.as_str()) {
                    open.push(path);
                }
            } else {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

fn has_ending(path: &Path, endings: &[&str]) -> bool {
    path.extension().and_then(|e| e.to_str()).is_some_and(|e| endings.contains(&e))
}

/// Every source in Rust, with its path from the root and its text.
fn sources() -> Vec<(String, String)> {
    let root = root();
    let all = files(&root.join("crates")).into_iter().chain(files(&root.join("tests")));
    let rust = all.filter(|path| has_ending(path, &["rs"]));
    rust.map(|path| (shown(&root, &path), fs::read_to_string(&path).unwrap())).collect()
}

fn shown(root: &Path, path: &Path) -> String {
    path.strip_prefix(root).unwrap_or(path).display().to_string()
}

/// Whether a source belongs to a library, as opposed to a command, a test, a bench or a build script.
fn in_library(path: &str) -> bool {
    let outside = ["/tests/", "/benches/", "/examples/", "build.rs", "/src/bin/"];
    path.contains("/src/") && !path.starts_with("crates/wythe-cli/") && !outside.iter().any(|o| path.contains(o))
}

#[test]
fn files_are_short() {
    let mut lengths: Vec<(usize, String)> =
        sources().into_iter().map(|(path, text)| (text.lines().count(), path)).collect();
    lengths.sort();
    let long: Vec<_> = lengths.iter().filter(|(lines, _)| *lines > 300).collect();
    for (lines, path) in &long {
        println!("{lines} lines: {path}");
    }
    println!("{} of {} files are longer than 300 lines", long.len(), lengths.len());
    let (longest, path) = lengths.last().unwrap();
    assert!(*longest <= MOST_LINES, "{path} has {longest} lines; {MOST_LINES} are the limit");
    let median = lengths[lengths.len() / 2].0;
    assert!(median <= MEDIAN_LINES, "half of the files are longer than {median} lines");
}

#[test]
fn every_source_says_what_it_is() {
    for (path, text) in sources() {
        assert!(text.starts_with("//! "), "{path} does not open with a line of `//!`");
    }
}

#[test]
fn nothing_is_left_open() {
    let open = ["to", "do!("].concat();
    let barred = [open.as_str(), "unimplemented!(", "dbg!(", "// TO\u{44}O", "// FIX\u{4d}E", "// XX\u{58}"];
    let printing = ["println!(", "eprintln!(", "print!(", "eprint!("];
    for (path, text) in sources().into_iter().filter(|(path, _)| path != "tests/tests/tidy.rs") {
        for barred in barred {
            assert!(!text.contains(barred), "{path} holds `{barred}`");
        }
        // A unit test at the foot of a library may print.
        let body = text.split("#[cfg(test)]").next().unwrap_or("");
        for printing in printing.iter().filter(|_| in_library(&path)) {
            assert!(!body.contains(printing), "{path} holds `{printing}`: a library prints nothing");
        }
    }
}

#[test]
fn no_file_names_a_place_on_one_machine() {
    let root = root();
    let places = ["wo\u{72}k", "ro\u{6f}t", "ho\u{6d}e", "Us\u{65}rs", "tm\u{70}"].map(|folder| format!("/{folder}/"));
    for path in files(&root).into_iter().filter(|path| has_ending(path, &TEXT)) {
        let Ok(text) = fs::read_to_string(&path) else { continue };
        for (number, line) in text.lines().enumerate() {
            for place in &places {
                // A path of a machine starts there; a folder of that name inside another path does not.
                let starts = line.match_indices(place.as_str()).any(|(at, _)| {
                    line[..at]
                        .chars()
                        .next_back()
                        .is_none_or(|before| !before.is_alphanumeric() && !".:/_-".contains(before))
                });
                assert!(!starts, "{}:{} names {place}", shown(&root, &path), number + 1);
            }
        }
    }
}

#[test]
fn every_page_is_complete_and_every_code_is_emitted() {
    let named: BTreeSet<String> = sources()
        .into_iter()
        .filter(|(path, _)| path.contains("/src/") && !path.starts_with("crates/wythe-findings/"))
        .flat_map(|(_, text)| {
            let words = text.split("codes::").skip(1).map(|rest| {
                rest.chars()
                    .take_while(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || *c == '_')
                    .collect::<String>()
            });
            words.collect::<Vec<_>>()
        })
        .collect();
    for page in wythe_findings::all_pages() {
        assert!(!page.title.is_empty() && !page.title.ends_with('.'), "{} has an odd title", page.name);
        assert!(page.since.split('.').all(|part| part.parse::<u32>().is_ok()), "{} has an odd version", page.name);
        let emitted = named.contains(&page.name.to_uppercase());
        assert!(emitted, "nothing emits {} {}", page.number, page.name);
    }
}
