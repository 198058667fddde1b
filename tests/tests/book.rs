//! The book is built, every chapter is in its contents, and every link leads somewhere, in the book and in the tree.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};
use wythe_tests::book::{anchor, pages};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The values of an attribute of HTML.
fn attributes<'t>(html: &'t str, name: &str) -> Vec<&'t str> {
    let mark = format!("{name}=\"");
    html.split(mark.as_str()).skip(1).filter_map(|rest| rest.split('"').next()).collect()
}

#[test]
fn every_link_of_the_book_leads_to_a_page_and_a_place_of_it() {
    let pages = pages(&root()).unwrap();
    assert!(pages.len() > 150, "{} pages", pages.len());
    let mut faults = Vec::new();
    for (name, html) in &pages {
        for link in attributes(html, "href").into_iter().filter(|link| !link.contains("://")) {
            let (file, part) = link.split_once('#').unwrap_or((link, ""));
            let file = if file.is_empty() { name } else { file };
            match pages.get(file) {
                // What is no page of the book is a file of the tree.
                None if root().join("spec").join(file).exists() => {}
                None => faults.push(format!("{name}: {link}")),
                Some(page) if !part.is_empty() && !attributes(page, "id").contains(&part) => {
                    faults.push(format!("{name}: {link}"));
                }
                Some(_) => {}
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_contents_name_every_chapter() {
    let contents = fs::read_to_string(root().join("spec/README.md")).unwrap();
    for entry in fs::read_dir(root().join("spec")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let chapter = name.ends_with(".md") && name != "README.md";
        assert!(!chapter || contents.contains(&format!("]({name})")), "spec/README.md does not name {name}");
    }
}

/// Every Markdown file that people read.
fn documents() -> Vec<PathBuf> {
    let passed_over = ["target", "node_modules", "snapshots", "corpus"];
    let mut found = Vec::new();
    let mut open = vec![root()];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if path.is_symlink() || name.starts_with('.') || passed_over.contains(&name.as_str()) {
                continue;
            }
            if path.is_dir() {
                open.push(path);
            } else if name.ends_with(".md") {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// The places of a document that can be linked to.
fn places(text: &str) -> BTreeSet<String> {
    let mut places = BTreeSet::new();
    let mut heading: Option<String> = None;
    for event in Parser::new_ext(text, Options::ENABLE_TABLES) {
        match event {
            Event::Start(Tag::Heading { .. }) => heading = Some(String::new()),
            Event::End(TagEnd::Heading(_)) => places.extend(heading.take().map(|said| anchor(&said))),
            Event::Text(text) | Event::Code(text) => {
                if let Some(heading) = &mut heading {
                    heading.push_str(&text);
                }
            }
            _ => {}
        }
    }
    places
}

#[test]
fn every_link_of_every_document_leads_somewhere() {
    let mut faults = Vec::new();
    let mut links = 0;
    for path in documents() {
        let text = fs::read_to_string(&path).unwrap();
        for event in Parser::new_ext(&text, Options::ENABLE_TABLES) {
            let (Event::Start(Tag::Link { dest_url, .. }) | Event::Start(Tag::Image { dest_url, .. })) = event else {
                continue;
            };
            if dest_url.contains("://") || dest_url.starts_with("mailto:") {
                continue;
            }
            links += 1;
            let (file, part) = dest_url.split_once('#').unwrap_or((&dest_url, ""));
            let to = if file.is_empty() { path.clone() } else { path.parent().unwrap().join(file) };
            let there = to.exists() && (part.is_empty() || places(&fs::read_to_string(&to).unwrap()).contains(part));
            if !there {
                faults.push(format!("{}: {dest_url}", path.display()));
            }
        }
    }
    assert!(links > 20, "{links} links");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_page_on_benchmarks_tells_of_each_section() {
    let bench = fs::read_to_string(root().join("tests/src/bin/bench/main.rs")).unwrap();
    let list = bench.split("const SECTIONS: &[Section] = &[").nth(1).unwrap().split("];").next().unwrap();
    let sections: Vec<&str> = list.split("(\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    assert!(!sections.is_empty());
    let page = fs::read_to_string(root().join("spec/benchmarks.md")).unwrap();
    for section in &sections {
        assert!(page.contains(&format!("\n## `{section}`\n")), "spec/benchmarks.md does not tell of `{section}`");
    }
    let told = page.lines().filter_map(|line| line.strip_prefix("## `")?.strip_suffix('`'));
    for section in told {
        assert!(sections.contains(&section), "there is no section `{section}`");
    }
}
