//! Tokens: what the lexer cuts a file into.

use wythe_source::{FileId, Span};

use crate::keywords::Keyword;

/// What a token is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Kind {
    /// A name in lower case.
    Name,
    /// A name that starts with a capital.
    Type,
    /// `12`, `1_000`, `0.5`; before a unit also `3/8` and `4-1/2`.
    Number,
    /// A length with marks: `3' 4-1/2"`.
    Length,
    /// `R-10`, `RSI-1.76`, `U-0.06`.
    RValue,
    /// `2026-03-09`.
    Date,
    /// `2x8`.
    Lumber,
    /// A text without values in it, both quotation marks included.
    Text,
    /// A text up to its first `{`.
    TextHead,
    /// A text from `}` to the next `{`.
    TextMid,
    /// A text from `}` to its end.
    TextTail,
    /// `°F`, `°C`, `%`.
    UnitSign,
    /// A reserved word.
    Word(Keyword),
    /// `{`
    BraceOpen,
    /// `}`
    BraceClose,
    /// `(`
    ParenOpen,
    /// `)`
    ParenClose,
    /// `[`
    BracketOpen,
    /// `]`
    BracketClose,
    /// `,`
    Comma,
    /// `:`
    Colon,
    /// `;`
    Semicolon,
    /// `.`
    Dot,
    /// `..`
    DotDot,
    /// `=`
    Assign,
    /// `==`
    Equal,
    /// `!=`
    NotEqual,
    /// `<`
    Less,
    /// `<=`
    LessEqual,
    /// `>`
    Greater,
    /// `>=`
    GreaterEqual,
    /// `+`
    Plus,
    /// `-`
    Minus,
    /// `+-`
    PlusMinus,
    /// `*`
    Star,
    /// `/`
    Slash,
    /// `?`
    Question,
    /// `??`
    Default,
    /// `->`
    Arrow,
    /// A figure that is written wrong; a finding has been made.
    BadFigure,
    /// Characters that are no part of the language; a finding has been made.
    Unreadable,
    /// The end of a statement. Made by the layout pass, never by the lexer.
    End,
}

impl Kind {
    /// Whether a line may break after it: a comma or an operator between two operands.
    pub const fn takes_the_next_line(self) -> bool {
        matches!(
            self,
            Kind::Comma
                | Kind::DotDot
                | Kind::Equal
                | Kind::NotEqual
                | Kind::Less
                | Kind::LessEqual
                | Kind::Greater
                | Kind::GreaterEqual
                | Kind::Plus
                | Kind::Minus
                | Kind::PlusMinus
                | Kind::Star
                | Kind::Slash
                | Kind::Default
                | Kind::Word(Keyword::And | Keyword::Or | Keyword::X)
        )
    }

    /// Whether it neither opens nor closes nor ends anything, and counts toward no limit.
    #[inline]
    pub(crate) const fn is_plain(self) -> bool {
        !matches!(
            self,
            Kind::BraceOpen
                | Kind::BraceClose
                | Kind::ParenOpen
                | Kind::ParenClose
                | Kind::BracketOpen
                | Kind::BracketClose
                | Kind::TextHead
                | Kind::TextMid
                | Kind::TextTail
                | Kind::Semicolon
                | Kind::Unreadable
                | Kind::End
                | Kind::Word(Keyword::If)
        )
    }

    /// How a person would call it.
    pub const fn describe(self) -> &'static str {
        match self {
            Kind::Name => "a name",
            Kind::Type => "a type name",
            Kind::Number => "a number",
            Kind::Length => "a length",
            Kind::RValue => "an R or U value",
            Kind::Date => "a date",
            Kind::Lumber => "a lumber size",
            Kind::Text | Kind::TextHead => "a text",
            Kind::TextMid | Kind::TextTail => "`}`",
            Kind::UnitSign => "a unit",
            Kind::Word(_) => "a reserved word",
            Kind::BraceOpen => "`{`",
            Kind::BraceClose => "`}`",
            Kind::ParenOpen => "`(`",
            Kind::ParenClose => "`)`",
            Kind::BracketOpen => "`[`",
            Kind::BracketClose => "`]`",
            Kind::Comma => "`,`",
            Kind::Colon => "`:`",
            Kind::Semicolon => "`;`",
            Kind::Dot => "`.`",
            Kind::DotDot => "`..`",
            Kind::Assign => "`=`",
            Kind::Equal => "`==`",
            Kind::NotEqual => "`!=`",
            Kind::Less => "`<`",
            Kind::LessEqual => "`<=`",
            Kind::Greater => "`>`",
            Kind::GreaterEqual => "`>=`",
            Kind::Plus => "`+`",
            Kind::Minus => "`-`",
            Kind::PlusMinus => "`+-`",
            Kind::Star => "`*`",
            Kind::Slash => "`/`",
            Kind::Question => "`?`",
            Kind::Default => "`??`",
            Kind::Arrow => "`->`",
            Kind::BadFigure => "a figure",
            Kind::Unreadable => "unreadable characters",
            Kind::End => "the end of the line",
        }
    }
}

/// What stands before a token.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Hash)]
pub struct Before(u8);

impl Before {
    /// Nothing: it touches the token before it.
    pub const NOTHING: Before = Before(0);
    /// Spaces, a comment or a line end.
    pub const SPACE: Before = Before(1);
    /// A line end: it is the first of its line.
    pub const LINE: Before = Before(2);
    /// A line with nothing on it.
    pub const BLANK: Before = Before(4);
    /// Nothing on its line: it stands in the first column.
    pub const MARGIN: Before = Before(8);

    /// Whether all of `other` holds.
    pub const fn has(self, other: Before) -> bool {
        self.0 & other.0 == other.0
    }

    /// Both.
    #[must_use]
    pub const fn and(self, other: Before) -> Before {
        Before(self.0 | other.0)
    }
}

/// A token with its place in the file.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// What stands before it.
    pub before: Before,
    /// Its first byte.
    pub start: u32,
    /// One past its last byte.
    pub end: u32,
}

impl Token {
    /// Its place.
    pub const fn span(self, file: FileId) -> Span {
        Span::new(file, self.start, self.end)
    }

    /// Its text, or an empty text where it does not fit.
    pub fn text(self, source: &str) -> &str {
        source.get(self.start as usize..self.end as usize).unwrap_or("")
    }
}

/// A comment, its line end not included.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub struct Comment {
    /// Whether it is documentation (`///`).
    pub doc: bool,
    /// Whether nothing but space stands before it on its line.
    pub own_line: bool,
    /// Whether an empty line stands before it.
    pub after_blank: bool,
    /// Its first byte.
    pub start: u32,
    /// One past its last byte.
    pub end: u32,
}

impl Comment {
    /// Its text, without space at its end.
    pub fn text(self, source: &str) -> &str {
        source.get(self.start as usize..self.end as usize).unwrap_or("").trim_end()
    }
}
