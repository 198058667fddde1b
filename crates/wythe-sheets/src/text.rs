//! A page as plain text, for a terminal or a message.

use std::fmt::Write as _;

use crate::html::clean;
use crate::page::{Block, Page};

/// How many columns a line takes.
const WIDTH: usize = 78;

/// The page as plain text. Drawings are left out.
pub fn text(page: &Page) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "{}: {}", clean(&page.title), clean(&page.house));
    for block in &page.blocks {
        match block {
            Block::Heading(text) => {
                let _ = write!(out, "\n{}\n", clean(text).to_uppercase());
            }
            Block::Text(text) => put(&mut out, "", "", text),
            Block::Warning(lines) | Block::Care(lines) => lines.iter().for_each(|l| put(&mut out, "! ", "  ", l)),
            Block::Steps(at, first, all) => {
                put(&mut out, "", "", &format!("{at}:"));
                for (number, step) in all.iter().enumerate() {
                    put(&mut out, &format!("{:>2}. ", number + first), "    ", step);
                }
            }
            Block::ChecksAt(at, all) => {
                put(&mut out, "", "", &format!("{at}:"));
                all.iter().for_each(|c| put(&mut out, "[ ] ", "    ", c));
            }
            Block::Checks(all) => all.iter().for_each(|c| put(&mut out, "[ ] ", "    ", c)),
            Block::Table(heads, rows) => {
                for row in rows {
                    let all = heads.iter().zip(row).filter(|(_, cell)| !cell.is_empty());
                    let parts: Vec<String> = all
                        .map(|(head, cell)| if head.is_empty() { cell.clone() } else { format!("{head}: {cell}") })
                        .collect();
                    put(&mut out, "- ", "  ", &parts.join("; "));
                }
            }
            Block::Facts(all) => {
                all.iter().for_each(|(name, value)| put(&mut out, "- ", "  ", &format!("{name}: {value}")))
            }
            Block::Drawing(_) | Block::NewPage => {}
            Block::SignOff(all) => {
                for what in all {
                    let _ = write!(out, "\n{what}: ______________________________\n");
                }
            }
        }
    }
    if !page.foot.is_empty() {
        out.push('\n');
        put(&mut out, "", "", &page.foot);
    }
    out
}

fn put(out: &mut String, first: &str, rest: &str, text: &str) {
    let text = clean(text);
    let options = textwrap::Options::new(WIDTH)
        .initial_indent(first)
        .subsequent_indent(rest)
        .word_splitter(textwrap::WordSplitter::NoHyphenation);
    for line in textwrap::wrap(&text, options) {
        out.push_str(&line);
        out.push('\n');
    }
}
