//! The logos table: shapes that can be told apart without looking around.

use logos::Logos;

/// What logos sees. Text, units and reserved words are settled by the pass above it.
#[derive(Logos, Clone, Copy, PartialEq, Eq, Debug)]
#[logos(skip r"[ \t\r]+")]
#[logos(subpattern n = r"[0-9][0-9_]*")]
#[logos(subpattern figure = r"(?:(?&n)(?:\.[0-9]+)?|(?:(?&n)-)?(?&n)/(?&n))")]
pub(super) enum Raw {
    #[token("\n")]
    Newline,
    #[regex(r"//[^\n]*", allow_greedy = true)]
    Comment,

    #[regex(r"[a-z_][a-z0-9_]*")]
    Name,
    #[regex(r"[A-Z][A-Za-z0-9]*")]
    Type,
    #[regex(r"(?&n)(?:\.[0-9][0-9_]*)?")]
    Number,
    /// `3/8`: a figure before a unit, a division otherwise.
    #[regex(r"(?&n)/(?&n)")]
    Fraction,
    /// `4-1/2`: a figure before a unit, refused otherwise.
    #[regex(r"(?&n)-(?&n)/(?&n)")]
    Mixed,
    #[regex(r#"(?&figure)['"]"#)]
    #[regex(r#"(?&n)'[ \t]*(?&figure)""#)]
    Length,
    /// `3' 4`: the second figure lacks its mark.
    #[regex(r"(?&n)'[ \t]*(?&figure)")]
    MarkMissing,
    /// `3'-4"`: read as a subtraction it would be silently wrong.
    #[regex(r#"(?&n)'[ \t]*-(?&figure)""#)]
    FeetDash,
    /// `4 1/2"` and `3' 4 1/2"`: the fraction stands apart.
    #[regex(r#"(?:(?&n)'[ \t]*)?(?&n)[ \t]+(?&n)/(?&n)""#)]
    FractionApart,
    /// `3 ft 4 in`: two units to one length.
    #[regex(r"(?&n)[ \t]*ft[ \t]+(?:(?&n)[ \t]+)?(?&figure)[ \t]*in")]
    TwoUnits,
    #[regex(r"(?:R|RSI|U)-(?&n)(?:\.[0-9]+)?")]
    RValue,
    #[regex(r"[0-9][0-9][0-9][0-9]-[0-9][0-9]?-[0-9][0-9]?")]
    Date,
    #[regex(r"[0-9]+x[0-9]+")]
    Lumber,
    #[token("\"")]
    Quote,
    #[token("°F")]
    #[token("°C")]
    #[token("%")]
    UnitSign,

    #[token("{")]
    BraceOpen,
    #[token("}")]
    BraceClose,
    #[token("(")]
    ParenOpen,
    #[token(")")]
    ParenClose,
    #[token("[")]
    BracketOpen,
    #[token("]")]
    BracketClose,
    #[token(",")]
    Comma,
    #[token(":")]
    Colon,
    #[token(";")]
    Semicolon,
    #[token(".")]
    Dot,
    #[token("..")]
    DotDot,
    #[token("=")]
    Assign,
    #[token("==")]
    Equal,
    #[token("!=")]
    NotEqual,
    #[token("<")]
    Less,
    #[token("<=")]
    LessEqual,
    #[token(">")]
    Greater,
    #[token(">=")]
    GreaterEqual,
    #[token("+")]
    Plus,
    #[token("-")]
    Minus,
    #[token("+-")]
    PlusMinus,
    #[token("*")]
    Star,
    #[token("/")]
    Slash,
    #[token("?")]
    Question,
    #[token("??")]
    Default,
    #[token("->")]
    Arrow,
}
