//! What stands between two tokens of a line, and where a line that is too wide may be broken.

use crate::keywords::Keyword;
use crate::token::{Kind, Token};

/// The tokens around a gap.
#[derive(Clone, Copy)]
pub(super) struct Gap {
    pub before_last: Option<Kind>,
    pub last: Kind,
    /// Whether the last token is a sign of its operand, not an operator between two.
    pub last_is_sign: bool,
    pub next: Kind,
}

/// Whether `-` after this token is a sign.
pub(super) fn sign_follows(last: Option<Kind>) -> bool {
    match last {
        None => true,
        Some(Kind::Word(word)) => {
            !matches!(word, Keyword::Site | Keyword::True | Keyword::False | Keyword::None | Keyword::In)
                && !matches!(word, Keyword::Wall | Keyword::Pier | Keyword::Opening)
        }
        Some(kind) => {
            kind.takes_the_next_line()
                || matches!(
                    kind,
                    Kind::ParenOpen
                        | Kind::BracketOpen
                        | Kind::BraceOpen
                        | Kind::Colon
                        | Kind::Assign
                        | Kind::TextHead
                        | Kind::TextMid
                        | Kind::End
                        | Kind::Arrow
                )
        }
    }
}

/// Whether a space stands in the gap.
pub(super) fn is_spaced(gap: Gap) -> bool {
    let Gap { before_last, last, last_is_sign, next } = gap;
    match (last, next) {
        (_, Kind::ParenClose | Kind::BracketClose | Kind::Comma | Kind::Colon | Kind::Question | Kind::Dot) => false,
        (_, Kind::TextMid | Kind::TextTail) => false,
        (Kind::ParenOpen | Kind::BracketOpen | Kind::Dot | Kind::TextHead | Kind::TextMid, _) => false,
        (Kind::Minus, _) if last_is_sign => false,
        (_, Kind::ParenOpen | Kind::BracketOpen) => !calls(before_last, last),
        _ => true,
    }
}

/// Whether a bracket after this token belongs to it: `f(…)`, `list[…]`, not `runs east (…)`.
fn calls(before_last: Option<Kind>, last: Kind) -> bool {
    match last {
        Kind::Name | Kind::Type => !matches!(before_last, Some(Kind::Word(Keyword::Runs | Keyword::Waste))),
        Kind::ParenClose | Kind::BracketClose => true,
        Kind::Word(Keyword::Wall | Keyword::Pier | Keyword::Opening) => before_last == Some(Kind::Dot),
        _ => false,
    }
}

/// Whether a line may be broken in the gap without changing what it says.
pub(super) fn may_break(gap: Gap, next: &Token) -> bool {
    if let Kind::Word(word) = next.kind {
        if word.starts_statement() || word.declares() {
            return false;
        }
        if word.continues() && !matches!(word, Keyword::Per | Keyword::As | Keyword::To | Keyword::At) {
            return true;
        }
    }
    gap.last.takes_the_next_line() && !gap.last_is_sign
}
