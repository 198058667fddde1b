//! The lexer: every byte of a file ends up in a token, in a comment, or is white space.

mod faults;
mod lookalike;
mod raw;

use logos::Logos;

use crate::collector::Collector;
use crate::keywords::Keyword;
use crate::token::{Before, Comment, Kind, Token};
use raw::Raw;

/// What a file was cut into.
#[derive(Clone, Debug, Default)]
pub struct Lexed {
    /// The tokens, in order.
    pub tokens: Vec<Token>,
    /// The comments, in order.
    pub comments: Vec<Comment>,
}

/// Cuts a text into tokens. The text must be within the size limit.
pub(crate) fn lex(text: &str, findings: &mut Collector) -> Lexed {
    let guess = text.len() / 5;
    let mut lexer = Lexer {
        text,
        raw: Raw::lexer(text),
        out: Lexed { tokens: Vec::with_capacity(guess), comments: Vec::new() },
        findings,
        in_text: false,
        last_end: 0,
        line_start: 0,
        line_ends: 1,
        blank: false,
        fresh_line: true,
    };
    if text.starts_with('\u{feff}') {
        lexer.raw.bump('\u{feff}'.len_utf8());
        lexer.last_end = 3;
        lexer.line_start = 3;
    }
    lexer.run();
    lexer.out
}

struct Lexer<'a, 'c> {
    text: &'a str,
    raw: logos::Lexer<'a, Raw>,
    out: Lexed,
    findings: &'c mut Collector,
    /// Whether the tokens at hand stand in the `{ }` of a text.
    in_text: bool,
    /// Where the last token or comment ended.
    last_end: u32,
    /// Where the line at hand starts.
    line_start: u32,
    /// Line ends since the last token or comment.
    line_ends: u32,
    /// Whether an empty line came since the last token.
    blank: bool,
    /// Whether a line end came since the last token.
    fresh_line: bool,
}

impl<'a> Lexer<'a, '_> {
    fn run(&mut self) {
        while let Some(next) = self.raw.next() {
            let span = self.raw.span();
            let (start, end) = (span.start as u32, span.end as u32);
            let Ok(raw) = next else {
                self.unreadable(start, end);
                continue;
            };
            match raw {
                Raw::Newline => {
                    if self.in_text {
                        self.end_text_at_line_end(start);
                    }
                    self.line_ends += 1;
                    self.fresh_line = true;
                    self.line_start = end;
                }
                Raw::Comment => self.comment(start, end),
                Raw::Name => {
                    let text = self.text.get(span).unwrap_or("");
                    match Keyword::find(text) {
                        Some(word) => self.push(Kind::Word(word), start, end),
                        None if self.size_glued_to(text) => self.glued_size(start, end),
                        None => self.push(Kind::Name, start, end),
                    }
                }
                Raw::Type => self.push(Kind::Type, start, end),
                Raw::Number => self.push(Kind::Number, start, end),
                Raw::Fraction => self.fraction(start, end),
                Raw::Mixed => self.mixed(start, end),
                Raw::Length => self.length(start, end),
                Raw::RValue => self.push(Kind::RValue, start, end),
                Raw::Date => self.date(start, end),
                Raw::Lumber => self.push(Kind::Lumber, start, end),
                Raw::MarkMissing | Raw::FeetDash | Raw::FractionApart | Raw::TwoUnits => {
                    self.bad_length(raw, start, end)
                }
                Raw::Quote if self.in_text => self.end_text_in_braces(start, end),
                Raw::Quote => self.plain_text(Kind::Text, Kind::TextHead, start),
                Raw::BraceClose if self.in_text => {
                    self.in_text = false;
                    self.plain_text(Kind::TextTail, Kind::TextMid, start);
                }
                other => self.push(punctuation(other), start, end),
            }
        }
        if self.in_text {
            self.end_text_at_line_end(self.text.len() as u32);
        }
    }

    fn push(&mut self, kind: Kind, start: u32, end: u32) {
        let mut before = if start == self.last_end { Before::NOTHING } else { Before::SPACE };
        if self.fresh_line {
            before = before.and(Before::LINE).and(Before::SPACE);
            if self.blank || self.line_ends >= 2 {
                before = before.and(Before::BLANK);
            }
            if start == self.line_start {
                before = before.and(Before::MARGIN);
            }
            self.fresh_line = false;
            self.blank = false;
        }
        self.line_ends = 0;
        self.last_end = end;
        self.out.tokens.push(Token { kind, before, start, end });
    }

    fn comment(&mut self, start: u32, end: u32) {
        let doc = self.text.get(start as usize..end as usize).is_some_and(|t| t.starts_with("///"));
        let comment =
            Comment { doc, own_line: self.fresh_line, after_blank: self.fresh_line && self.line_ends >= 2, start, end };
        self.out.comments.push(comment);
        self.blank |= self.fresh_line && self.line_ends >= 2;
        self.line_ends = 0;
        self.last_end = end;
    }

    /// A text from its quotation mark, or from the `}` of a value in it, to its end or the next `{`.
    fn plain_text(&mut self, whole: Kind, before_value: Kind, start: u32) {
        let rest = self.raw.remainder();
        let bytes = rest.as_bytes();
        let mut at = 0;
        loop {
            match bytes.get(at) {
                Some(b'"') => {
                    self.raw.bump(at + 1);
                    return self.push(whole, start, self.raw.span().end as u32);
                }
                Some(b'{') => {
                    self.raw.bump(at + 1);
                    self.in_text = true;
                    return self.push(before_value, start, self.raw.span().end as u32);
                }
                Some(b'\\') => {
                    let escaped = rest.get(at + 1..).and_then(|r| r.chars().next());
                    match escaped {
                        Some('"' | '\\' | '{' | '}' | 'n' | 't') => at += 2,
                        Some(c) if c != '\n' && c != '\r' => {
                            let base = self.raw.span().end as u32 + at as u32;
                            self.unknown_escape(base, base + 1 + c.len_utf8() as u32);
                            at += 1 + c.len_utf8();
                        }
                        _ => at += 1,
                    }
                }
                None | Some(b'\n') => {
                    let cut = rest.get(..at).map_or(at, |t| t.trim_end_matches('\r').len());
                    self.raw.bump(cut);
                    let end = self.raw.span().end as u32;
                    self.unended_text(start, end);
                    return self.push(whole, start, end);
                }
                Some(_) => at += 1,
            }
        }
    }

    /// Whether the name is `x16`, right after a figure.
    fn size_glued_to(&self, name: &str) -> bool {
        let bytes = name.as_bytes();
        bytes.first() == Some(&b'x')
            && bytes.len() > 1
            && bytes.iter().skip(1).all(u8::is_ascii_digit)
            && !self.fresh_line
            && self
                .out
                .tokens
                .last()
                .is_some_and(|t| matches!(t.kind, Kind::Length | Kind::Number | Kind::Lumber | Kind::BadFigure))
    }

    /// Whether a unit stands next: a name that is not reserved, `in`, `per`, or a unit sign, on the same line.
    fn unit_follows(&self) -> bool {
        let rest = self.raw.remainder().trim_start_matches([' ', '\t']);
        let length = rest.bytes().take_while(|b| b.is_ascii_alphanumeric() || *b == b'_').count();
        let name = rest.get(..length).unwrap_or("");
        match name.bytes().next() {
            None => rest.starts_with('°') || rest.starts_with('%'),
            Some(b'0'..=b'9') => false,
            Some(_) => matches!(Keyword::find(name), None | Some(Keyword::In | Keyword::Per)),
        }
    }

    /// `3/8` before a unit is one figure; otherwise it is a division.
    fn fraction(&mut self, start: u32, end: u32) {
        if self.unit_follows() {
            return self.push(Kind::Number, start, end);
        }
        let text = self.text.get(start as usize..end as usize).unwrap_or("");
        let slash = start + text.find('/').unwrap_or(0) as u32;
        self.push(Kind::Number, start, slash);
        self.push(Kind::Slash, slash, slash + 1);
        self.push(Kind::Number, slash + 1, end);
    }

    fn length(&mut self, start: u32, end: u32) {
        let text = self.text.get(start as usize..end as usize).unwrap_or("");
        if self.in_text && text.ends_with('"') {
            return self.mark_in_text(start, end);
        }
        self.push(Kind::Length, start, end);
    }
}

fn punctuation(raw: Raw) -> Kind {
    match raw {
        Raw::UnitSign => Kind::UnitSign,
        Raw::BraceOpen => Kind::BraceOpen,
        Raw::BraceClose => Kind::BraceClose,
        Raw::ParenOpen => Kind::ParenOpen,
        Raw::ParenClose => Kind::ParenClose,
        Raw::BracketOpen => Kind::BracketOpen,
        Raw::BracketClose => Kind::BracketClose,
        Raw::Comma => Kind::Comma,
        Raw::Colon => Kind::Colon,
        Raw::Semicolon => Kind::Semicolon,
        Raw::Dot => Kind::Dot,
        Raw::DotDot => Kind::DotDot,
        Raw::Assign => Kind::Assign,
        Raw::Equal => Kind::Equal,
        Raw::NotEqual => Kind::NotEqual,
        Raw::Less => Kind::Less,
        Raw::LessEqual => Kind::LessEqual,
        Raw::Greater => Kind::Greater,
        Raw::GreaterEqual => Kind::GreaterEqual,
        Raw::Plus => Kind::Plus,
        Raw::Minus => Kind::Minus,
        Raw::PlusMinus => Kind::PlusMinus,
        Raw::Star => Kind::Star,
        Raw::Slash => Kind::Slash,
        Raw::Question => Kind::Question,
        Raw::Default => Kind::Default,
        Raw::Arrow => Kind::Arrow,
        _ => Kind::Unreadable,
    }
}
