//! A sum over tokens and comments that does not depend on their order or on the space between them.

use std::hash::{Hash, Hasher};

use rustc_hash::FxHasher;
use wythe_source::FileId;

use crate::collector::Collector;
use crate::lexer::lex;
use crate::parse::Parsed;
use crate::token::{Comment, Kind, Token};

/// Whether the printed text holds the same tokens and comments.
pub(super) fn same(text: &str, parsed: &Parsed, printed: &str) -> bool {
    let again = lex(printed, &mut Collector::new(FileId(0)));
    sum(text, &parsed.tokens, &parsed.comments) == sum(printed, &again.tokens, &again.comments)
}

fn sum(text: &str, tokens: &[Token], comments: &[Comment]) -> (u64, u64, usize) {
    let mut marks = 0u64;
    let mut count = 0;
    for token in tokens.iter().filter(|t| t.kind != Kind::Semicolon) {
        let mut hasher = FxHasher::default();
        token.kind.hash(&mut hasher);
        match token.kind {
            Kind::Length => token.text(text).bytes().filter(|b| !b" \t".contains(b)).for_each(|b| hasher.write_u8(b)),
            Kind::Word(_) => {}
            _ => token.text(text).hash(&mut hasher),
        }
        marks = marks.wrapping_add(hasher.finish());
        count += 1;
    }
    let mut notes = 0u64;
    for comment in comments {
        let mut hasher = FxHasher::default();
        comment.text(text).hash(&mut hasher);
        notes = notes.wrapping_add(hasher.finish());
    }
    (marks, notes, count)
}
