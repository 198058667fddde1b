//! The five-minute tour of the README, walked: every command is run, every output compared, every edit made.
//!
//! In a block of `console`, a line that begins with `$ ` is a command and what follows is its output, up to the next
//! command; a line of `…` alone stands for lines left out. A block of `diff` is an edit of one file.

use std::fs;
use std::path::Path;
use std::process::Command;

use crate::plans::command;

const README: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../README.md");
const EXAMPLES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples");

/// A block of the tour, with the line of the README it begins at.
struct Block {
    language: String,
    lines: Vec<String>,
    at: usize,
}

fn blocks(text: &str) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut open: Option<Block> = None;
    for (at, line) in text.lines().enumerate() {
        match (line.strip_prefix("```"), open.take()) {
            (Some(language), None) => {
                open = Some(Block { language: language.to_owned(), lines: Vec::new(), at: at + 1 });
            }
            (Some(_), Some(block)) => blocks.push(block),
            (None, Some(mut block)) => {
                block.lines.push(line.to_owned());
                open = Some(block);
            }
            (None, None) => {}
        }
    }
    blocks
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let to = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy(&entry.path(), &to);
        } else {
            fs::copy(entry.path(), to).unwrap();
        }
    }
}

/// Makes an edit as the tour shows it: its lines stand in the file once, those with `-` go, those with `+` come.
fn edit(folder: &Path, block: &Block) {
    let name = block.lines[0].strip_prefix("--- ").unwrap_or_else(|| panic!("line {}: no file named", block.at));
    let body = &block.lines[1..];
    let side = |mark: char| -> String {
        let kept = body.iter().filter(|l| l.starts_with([' ', mark]));
        kept.map(|l| format!("{}\n", &l[1..])).collect()
    };
    let (before, after) = (side('-'), side('+'));
    let path = folder.join(name);
    let text = fs::read_to_string(&path).unwrap();
    assert_eq!(text.matches(&before).count(), 1, "line {}: what it changes stands in {name} once", block.at);
    fs::write(path, text.replace(&before, &after)).unwrap();
}

/// Whether an output is as shown, lines of `…` standing for any lines.
fn matches(shown: &[String], told: &[&str]) -> bool {
    match shown.split_first() {
        None => told.is_empty(),
        Some((line, rest)) if line.trim() == "…" => (0..=told.len()).any(|skip| matches(rest, &told[skip..])),
        Some((line, rest)) => {
            told.first().is_some_and(|t| t.trim_end() == line.trim_end()) && matches(rest, &told[1..])
        }
    }
}

fn walk(folder: &Path, block: &Block) {
    let mut lines = block.lines.iter().peekable();
    while let Some(line) = lines.next() {
        let words = line.strip_prefix("$ ").unwrap_or_else(|| panic!("line {}: no command: {line}", block.at));
        let shown: Vec<String> = std::iter::from_fn(|| lines.next_if(|l| !l.starts_with("$ "))).cloned().collect();
        let words: Vec<&str> = words.split(' ').collect();
        let mut run = match words[0] {
            "wythe" => command(&words[1..]),
            other => {
                let mut run = Command::new(other);
                run.args(&words[1..]);
                run
            }
        };
        let output = run.current_dir(folder).output().unwrap();
        let told = String::from_utf8(output.stdout).unwrap() + &String::from_utf8(output.stderr).unwrap();
        let told_lines: Vec<&str> = told.lines().collect();
        assert!(matches(&shown, &told_lines), "README line {}: `{line}` says now:\n{told}", block.at);
    }
}

#[test]
fn the_tour_of_the_readme_is_as_it_says() {
    let readme = fs::read_to_string(README).unwrap();
    let tour = readme.split("\n## ").find(|part| part.starts_with("Five minutes")).expect("the tour");
    let before = readme.find(tour).map_or(0, |at| readme[..at].lines().count());
    let place = tempfile::tempdir().unwrap();
    copy(Path::new(EXAMPLES), &place.path().join("examples"));
    let mut walked = 0;
    for mut block in blocks(tour) {
        block.at += before;
        match block.language.as_str() {
            "console" => walk(place.path(), &block),
            "diff" => edit(place.path(), &block),
            _ => continue,
        }
        walked += 1;
    }
    assert!(walked >= 6, "the tour has {walked} blocks");
}
