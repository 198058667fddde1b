//! Every example of the reference's chapters on syntax does what the chapter says.

use wythe_source::FileId;
use wythe_syntax::keywords::{WordClass, words_of};
use wythe_syntax::{format, parse};

const CHAPTERS: [(&str, &str); 2] =
    [("01", include_str!("../../../spec/01-lexical.md")), ("02", include_str!("../../../spec/02-grammar.md"))];

/// The fenced blocks of a chapter: what follows the fence, and the text.
fn blocks(chapter: &str) -> Vec<(String, String)> {
    let mut blocks = Vec::new();
    let mut lines = chapter.lines();
    while let Some(line) = lines.next() {
        let Some(mark) = line.strip_prefix("```") else { continue };
        let body: Vec<&str> = lines.by_ref().take_while(|l| *l != "```").collect();
        blocks.push((mark.to_owned(), body.join("\n") + "\n"));
    }
    blocks
}

#[test]
fn examples_read_and_faults_are_found() {
    for (number, chapter) in CHAPTERS {
        let blocks = blocks(chapter);
        assert!(blocks.len() >= 7, "chapter {number} has lost its examples");
        for (mark, text) in blocks {
            let findings = parse(FileId(0), &text).findings;
            match mark.split_once(' ') {
                None => {
                    assert_eq!(mark, "wythe-syntax");
                    assert!(findings.is_empty(), "chapter {number}: {text}\n{findings:#?}");
                    let printed = format(&text);
                    assert_eq!(format(&printed), printed);
                }
                Some((kind, name)) => {
                    assert_eq!(kind, "wythe-fault");
                    let found: Vec<_> = findings.iter().map(|f| f.name.as_str()).collect();
                    assert_eq!(found, [name], "chapter {number}: {text}");
                }
            }
        }
    }
}

#[test]
fn the_reference_lists_the_words_of_the_table() {
    let rows = [
        (WordClass::Declaration, "| a declaration | "),
        (WordClass::Statement, "| a statement | "),
        (WordClass::Line, "| nothing; they stand in a line | "),
    ];
    for (class, head) in rows {
        let row = CHAPTERS[0].1.lines().find_map(|l| l.strip_prefix(head)).expect("the row is there");
        let listed: Vec<&str> = row.split('`').skip(1).step_by(2).collect();
        assert_eq!(listed, words_of(class).map(|w| w.text).collect::<Vec<_>>());
    }
}
