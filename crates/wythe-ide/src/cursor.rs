//! Where a cursor stands in a text that may be half written: open brackets, the statement begun, the word begun.

use wythe_syntax::keywords::Keyword;
use wythe_syntax::{Before, Comment, Kind, Token};

/// A bracket that is open at the cursor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Open {
    /// The number of its token.
    pub at: usize,
    /// The number of the first token of the statement that opens it.
    pub head: usize,
}

/// Where a cursor stands.
#[derive(Debug)]
pub(crate) struct Cursor<'t> {
    /// The text.
    pub text: &'t str,
    /// Its tokens.
    pub tokens: &'t [Token],
    /// How many tokens end before the word begun.
    pub count: usize,
    /// The word begun before the cursor and what of it stands after; empty where none is.
    pub word: (u32, u32),
    /// The brackets open, outermost first.
    pub opens: Vec<Open>,
    /// The first token of the statement begun; `count` where the cursor begins one.
    pub start: usize,
}

impl<'t> Cursor<'t> {
    /// The place of an offset; nothing inside a comment or a plain text.
    pub(crate) fn at(text: &'t str, tokens: &'t [Token], comments: &[Comment], offset: u32) -> Option<Cursor<'t>> {
        if comments.iter().any(|c| c.start < offset && offset <= c.end) {
            return None;
        }
        let mut count = tokens.partition_point(|t| t.end <= offset);
        let mut word = (offset, offset);
        let is_word = |t: &Token| matches!(t.kind, Kind::Name | Kind::Type | Kind::Word(_));
        if let Some(touching) = tokens.get(count).filter(|t| t.start < offset) {
            if !is_word(touching) {
                return None;
            }
            word = (touching.start, touching.end);
        } else if let Some(before) =
            count.checked_sub(1).and_then(|i| tokens.get(i)).filter(|t| t.end == offset && is_word(t))
        {
            word = (before.start, before.end);
            count -= 1;
        }
        let mut cursor = Cursor { text, tokens, count, word, opens: Vec::new(), start: 0 };
        cursor.scan();
        Some(cursor)
    }

    fn scan(&mut self) {
        for i in 0..self.count {
            let token = self.tokens[i];
            if token.before.has(Before::MARGIN) && matches!(token.kind, Kind::Word(k) if k.declares()) {
                self.opens.clear();
                self.start = i;
            } else if token.before.has(Before::LINE) && self.new_line_begins(i, token) {
                self.start = i;
            }
            match token.kind {
                Kind::BraceOpen | Kind::ParenOpen | Kind::BracketOpen => {
                    self.opens.push(Open { at: i, head: self.start });
                    if token.kind == Kind::BraceOpen {
                        self.start = i + 1;
                    }
                }
                Kind::BraceClose => {
                    while let Some(open) = self.opens.pop() {
                        if self.tokens[open.at].kind == Kind::BraceOpen {
                            break;
                        }
                    }
                    self.start = i + 1;
                }
                Kind::ParenClose | Kind::BracketClose => {
                    let opener = if token.kind == Kind::ParenClose { Kind::ParenOpen } else { Kind::BracketOpen };
                    if self.opens.last().is_some_and(|o| self.tokens[o.at].kind == opener) {
                        self.opens.pop();
                    }
                }
                Kind::Semicolon => self.start = i + 1,
                _ => {}
            }
        }
        // A cursor on a line of its own begins a statement, unless the line before goes on.
        let end = self.count.checked_sub(1).map_or(0, |i| self.tokens[i].end);
        let between = self.text.get(end as usize..self.word.0 as usize).unwrap_or("");
        if between.contains('\n') && !self.in_brackets() && !self.goes_on(self.count) {
            self.start = self.count;
        }
        if between.matches('\n').count() > 1 && self.word_is_in_margin() {
            self.opens.clear();
            self.start = self.count;
        }
    }

    fn word_is_in_margin(&self) -> bool {
        let before = self.text.get(..self.word.0 as usize).unwrap_or("");
        before.is_empty() || before.ends_with('\n')
    }

    fn new_line_begins(&self, i: usize, token: Token) -> bool {
        let continues = matches!(token.kind, Kind::Word(k) if k.continues());
        if token.before.has(Before::BLANK) {
            return !self.in_brackets();
        }
        !self.in_brackets() && !continues && !self.goes_on(i)
    }

    fn goes_on(&self, i: usize) -> bool {
        i.checked_sub(1).is_some_and(|before| self.tokens[before].kind.takes_the_next_line())
    }

    fn in_brackets(&self) -> bool {
        self.opens.last().is_some_and(|o| self.tokens[o.at].kind != Kind::BraceOpen)
    }

    /// The tokens of the statement begun, before the word.
    pub(crate) fn statement(&self) -> &'t [Token] {
        self.tokens.get(self.start.min(self.count)..self.count).unwrap_or(&[])
    }

    /// The text of a token.
    pub(crate) fn text_of(&self, token: &Token) -> &'t str {
        token.text(self.text)
    }

    /// The token before the word.
    pub(crate) fn last(&self) -> Option<&'t Token> {
        self.tokens.get(self.count.checked_sub(1)?)
    }

    /// The letters of the word before the cursor.
    pub(crate) fn prefix(&self, offset: u32) -> &'t str {
        self.text.get(self.word.0 as usize..offset as usize).unwrap_or("")
    }

    /// The innermost open bracket of round ones, if no brace is opened within it: its token, and the number of the
    /// argument the cursor stands in with the first token of that argument.
    pub(crate) fn call(&self) -> Option<(Open, usize, usize)> {
        let open = *self.opens.iter().rev().find(|o| self.tokens[o.at].kind != Kind::BracketOpen)?;
        if self.tokens[open.at].kind != Kind::ParenOpen {
            return None;
        }
        let (mut depth, mut number, mut first) = (0, 0, open.at + 1);
        for i in open.at + 1..self.count {
            match self.tokens[i].kind {
                Kind::ParenOpen | Kind::BracketOpen | Kind::BraceOpen => depth += 1,
                Kind::ParenClose | Kind::BracketClose | Kind::BraceClose => depth -= 1,
                Kind::Comma if depth == 0 => {
                    number += 1;
                    first = i + 1;
                }
                _ => {}
            }
        }
        Some((open, number, first))
    }

    /// The keyword of a token.
    pub(crate) fn keyword(&self, i: usize) -> Option<Keyword> {
        match self.tokens.get(i)?.kind {
            Kind::Word(keyword) => Some(keyword),
            _ => None,
        }
    }
}
