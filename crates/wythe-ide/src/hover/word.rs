//! Words of the language: what each means, in a line.

use wythe_syntax::keywords::WORDS;
use wythe_syntax::{Kind, Token};

/// What a word means.
pub(super) fn told(text: &str, token: &Token) -> Option<String> {
    if !matches!(token.kind, Kind::Word(_) | Kind::Name) {
        return None;
    }
    let word = WORDS.iter().find(|w| w.text == token.text(text))?;
    Some(format!("**{}**: {}", word.text, word.doc))
}
