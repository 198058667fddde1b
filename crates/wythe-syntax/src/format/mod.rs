//! The formatter: the same tokens and comments, in the one layout of the language.
//!
//! It prints from tokens, so that nothing can be made up; the syntax tree only says which declarations are
//! sound and in which order clauses stand. What is printed is cut into tokens again and compared: if a token
//! or a comment were lost, the text would be given back as it was.

mod clauses;
mod fingerprint;
mod printer;
mod spacing;

use std::ops::Range;

use wythe_source::FileId;

use crate::collector::Collector;
use crate::layout::Layout;
use crate::limits::MAX_FILE_BYTES;
use crate::parse::{Parsed, parse};
use crate::token::Token;
use printer::Printer;

/// The widest line the formatter makes, in characters, where a line can be broken at all.
pub const MAX_WIDTH: usize = 120;

/// The columns of one step of indentation.
pub const INDENT: usize = 4;

/// The text in the layout of the language. Declarations that cannot be read stay as they are.
pub fn format(text: &str) -> String {
    format_parsed(text, &parse(FileId(0), text))
}

/// Like [`format`], for a text that has been read already.
pub fn format_parsed(text: &str, parsed: &Parsed) -> String {
    if text.len() > MAX_FILE_BYTES {
        return text.to_owned();
    }
    let printed = print(text, parsed);
    if fingerprint::same(text, parsed, &printed) { printed } else { text.to_owned() }
}

/// The declarations that touch a range of bytes, in the layout of the language: the bytes to replace and what
/// replaces them; `None` if there is nothing to change.
pub fn format_range(text: &str, parsed: &Parsed, range: Range<u32>) -> Option<(Range<u32>, String)> {
    let touched = |first: u32, end: u32| {
        let start = parsed.tokens.get(first as usize)?.start;
        let end = parsed.tokens.get((end as usize).checked_sub(1)?)?.end;
        (start <= range.end && range.start <= end).then_some(start..end)
    };
    let mut whole: Option<Range<u32>> = None;
    for span in parsed.chunks.iter().filter_map(|c| touched(c.first, c.end)) {
        whole = Some(whole.map_or(span.clone(), |w| w.start..span.end));
    }
    let whole = whole?;
    let part = text.get(whole.start as usize..whole.end as usize)?;
    let inner = parse(FileId(0), part);
    let printed = format_parsed(part, &inner);
    let printed = printed.trim_end_matches(['\n', '\r']);
    (printed != part).then(|| (whole, printed.to_owned()))
}

fn print(text: &str, parsed: &Parsed) -> String {
    let orders = clauses::out_of_order(&parsed.module);
    let mut printer = Printer::new(text, parsed, &orders);
    let mut unheard = Collector::new(FileId(0));
    let mut layout = Layout::new(text, &parsed.tokens, &parsed.comments);
    let mut buffer: Vec<Token> = Vec::new();
    let mut next = 0;
    for chunk in &parsed.chunks {
        layout.next_chunk(&mut buffer, &mut unheard);
        printer.strays(next, chunk.first as usize);
        if chunk.broken {
            printer.verbatim(chunk.first as usize, chunk.end as usize);
        } else {
            printer.declaration(&buffer);
        }
        next = chunk.end as usize;
    }
    printer.strays(next, parsed.tokens.len());
    printer.finish()
}
