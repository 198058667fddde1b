//! The layout pass: decides which line ends end a statement, closes what was left open, and cuts the
//! tokens into declarations. The grammar above it never sees a line end that means nothing.

use wythe_findings::{Finding, Fix, codes};
use wythe_source::Span;

use crate::collector::Collector;
use crate::keywords::Keyword;
use crate::limits::MAX_NESTING;
use crate::token::{Before, Comment, Kind, Token};

/// One declaration, or one `use` line, as tokens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chunk {
    /// Its first token in the file's tokens.
    pub first: u32,
    /// One past its last token.
    pub end: u32,
    /// Whether it could not be read in full: a token, a line or all of it has a finding of the front end.
    pub broken: bool,
}

/// What the pass found of one chunk, besides the tokens it handed out.
pub(crate) struct Cut {
    pub first: u32,
    pub end: u32,
    /// Nested too deep to be read.
    pub too_deep: bool,
    /// Tokens in its longest statement.
    pub longest: u32,
    /// The documentation right before it.
    pub docs: Option<Span>,
}

/// An open bracket, brace or text.
struct Open {
    kind: Kind,
    /// Where it stands in the file's tokens.
    token: u32,
    /// The column its line starts at.
    indent: u32,
    /// `if`s not yet ended outside of it.
    ifs: usize,
}

/// Walks over the tokens of a file, one chunk a call.
pub(crate) struct Layout<'a> {
    text: &'a str,
    tokens: &'a [Token],
    comments: &'a [Comment],
    next: usize,
    next_comment: usize,
    open: Vec<Open>,
    ifs: usize,
    indent: u32,
    statement: u32,
    suspect: Option<u32>,
}

impl<'a> Layout<'a> {
    pub(crate) fn new(text: &'a str, tokens: &'a [Token], comments: &'a [Comment]) -> Self {
        Layout {
            text,
            tokens,
            comments,
            next: 0,
            next_comment: 0,
            open: Vec::new(),
            ifs: 0,
            indent: 0,
            statement: 0,
            suspect: None,
        }
    }

    /// Puts the tokens of the next chunk into `out`; `None` at the end of the file.
    pub(crate) fn next_chunk(&mut self, out: &mut Vec<Token>, findings: &mut Collector) -> Option<Cut> {
        out.clear();
        self.open.clear();
        self.ifs = 0;
        self.statement = 0;
        self.suspect = None;
        while let Some(token) = self.tokens.get(self.next) {
            match token.kind {
                Kind::Semicolon => self.next += 1,
                Kind::Unreadable => {
                    self.note_indent(*token);
                    self.next += 1;
                }
                Kind::BraceClose => {
                    let span = findings.span(token.start, token.end);
                    findings.add(token.start, || unopened(span));
                    self.next += 1;
                }
                _ => break,
            }
        }
        let first = self.next as u32;
        let start = self.tokens.get(self.next)?;
        let docs = self.docs_before(start, findings);
        let mut cut = Cut { first, end: first, too_deep: false, longest: 0, docs };
        while let Some(&token) = self.tokens.get(self.next) {
            if token.kind.is_plain() && !token.before.has(Before::LINE) {
                self.statement += 1;
                out.push(token);
                self.next += 1;
                continue;
            }
            if self.next as u32 != first
                && token.before.has(Before::LINE)
                && self.line_ends_chunk(token, out, &mut cut, findings)
            {
                break;
            }
            self.note_indent(token);
            if token.kind == Kind::Semicolon && self.inner() != Inner::Brackets {
                if self.open.is_empty() {
                    break;
                }
                self.next += 1;
                self.end_statement(out, token.start, token.end, &mut cut);
                continue;
            }
            self.take(token, out, &mut cut, findings);
            self.next += 1;
        }
        self.close_all(out, &cut, findings);
        if out.last().is_some_and(|t| t.kind == Kind::End) {
            out.pop();
        }
        cut.longest = cut.longest.max(self.statement);
        cut.end = self.next as u32;
        Some(cut)
    }

    fn note_indent(&mut self, token: Token) {
        if token.before.has(Before::LINE) {
            let head = self.text.get(..token.start as usize).unwrap_or("");
            let line = head.rfind('\n').map_or(0, |at| at + 1);
            self.indent = token.start - line as u32;
        }
    }

    /// Decides on the line end before `token`; true if the chunk ends there.
    fn line_ends_chunk(&mut self, token: Token, out: &mut Vec<Token>, cut: &mut Cut, findings: &mut Collector) -> bool {
        let word = if let Kind::Word(word) = token.kind { Some(word) } else { None };
        if token.before.has(Before::MARGIN) && word.is_some_and(Keyword::declares) {
            return true;
        }
        let blank = token.before.has(Before::BLANK);
        let starts = token.kind == Kind::BraceClose || word.is_some_and(Keyword::starts_statement);
        if self.inner() == Inner::Brackets {
            if !blank && !starts {
                return false;
            }
            self.close_brackets(out, cut, findings);
        } else if !blank && !starts {
            let goes_on = word.is_some_and(Keyword::continues)
                || self.tokens.get(self.next.wrapping_sub(1)).is_some_and(|t| t.kind.takes_the_next_line());
            if goes_on {
                return false;
            }
        }
        if self.open.is_empty() {
            return true;
        }
        let at = self.tokens.get(self.next.wrapping_sub(1)).map_or(token.start, |t| t.end);
        self.end_statement(out, at, at, cut);
        false
    }

    fn end_statement(&mut self, out: &mut Vec<Token>, start: u32, end: u32, cut: &mut Cut) {
        cut.longest = cut.longest.max(self.statement);
        self.statement = 0;
        self.ifs = self.open.last().map_or(0, |open| open.ifs);
        if !out.last().is_some_and(|t| matches!(t.kind, Kind::End | Kind::BraceOpen)) {
            out.push(Token { kind: Kind::End, before: Before::NOTHING, start, end });
        }
    }

    fn take(&mut self, token: Token, out: &mut Vec<Token>, cut: &mut Cut, findings: &mut Collector) {
        self.statement += 1;
        match token.kind {
            Kind::Unreadable => return,
            Kind::BraceOpen => {
                self.close_brackets(out, cut, findings);
                self.open_up(token, cut, findings);
                cut.longest = cut.longest.max(self.statement);
                self.statement = 0;
            }
            Kind::ParenOpen | Kind::BracketOpen | Kind::TextHead => self.open_up(token, cut, findings),
            Kind::Word(Keyword::If) => {
                self.ifs += 1;
                self.check_depth(token, cut, findings);
            }
            Kind::BraceClose => {
                self.close_brackets(out, cut, findings);
                if self.open.is_empty() {
                    let span = findings.span(token.start, token.end);
                    findings.add(token.start, || unopened(span));
                    return;
                }
                if out.last().is_some_and(|t| t.kind == Kind::End) {
                    out.pop();
                }
                if let Some(open) = self.open.pop() {
                    if token.before.has(Before::LINE) && self.indent < open.indent && self.suspect.is_none() {
                        self.suspect = Some(open.token);
                    }
                    self.ifs = open.ifs;
                }
                self.statement = 0;
            }
            Kind::ParenClose => self.close_down(Kind::ParenOpen, out, cut, findings),
            Kind::BracketClose => self.close_down(Kind::BracketOpen, out, cut, findings),
            Kind::TextMid | Kind::TextTail => {
                while self.open.last().is_some_and(|o| matches!(o.kind, Kind::ParenOpen | Kind::BracketOpen)) {
                    self.close_one(out, cut, findings);
                }
                if token.kind == Kind::TextTail && self.open.last().is_some_and(|o| o.kind == Kind::TextHead) {
                    self.ifs = self.open.pop().map_or(0, |o| o.ifs);
                }
            }
            _ => {}
        }
        out.push(token);
    }

    fn open_up(&mut self, token: Token, cut: &mut Cut, findings: &mut Collector) {
        self.open.push(Open { kind: token.kind, token: self.next as u32, indent: self.indent, ifs: self.ifs });
        self.check_depth(token, cut, findings);
    }

    fn check_depth(&mut self, token: Token, cut: &mut Cut, findings: &mut Collector) {
        if self.open.len() + self.ifs > MAX_NESTING && !cut.too_deep {
            cut.too_deep = true;
            let span = findings.span(token.start, token.end);
            findings.add(token.start, || {
                Finding::new(codes::NESTED_TOO_DEEP, span, "nested too deep")
                    .label(format!("brackets, braces and `if` stand {MAX_NESTING} deep at most"))
                    .mend("give inner parts names of their own with `let`")
            });
        }
    }

    /// Closes down to the bracket that matches; one that matches nothing is left to the grammar.
    fn close_down(&mut self, opener: Kind, out: &mut Vec<Token>, cut: &Cut, findings: &mut Collector) {
        let reach = self.open.iter().rev().take_while(|o| matches!(o.kind, Kind::ParenOpen | Kind::BracketOpen));
        let Some(depth) = reach.map(|o| o.kind).position(|kind| kind == opener) else {
            return;
        };
        for _ in 0..depth {
            self.close_one(out, cut, findings);
        }
        self.ifs = self.open.pop().map_or(0, |o| o.ifs);
    }

    /// Closes every `(` and `[`, and the text around them, down to the nearest brace.
    fn close_brackets(&mut self, out: &mut Vec<Token>, cut: &Cut, findings: &mut Collector) {
        while self.open.last().is_some_and(|o| o.kind != Kind::BraceOpen) {
            self.close_one(out, cut, findings);
        }
    }

    fn close_one(&mut self, out: &mut Vec<Token>, cut: &Cut, findings: &mut Collector) {
        let Some(open) = self.open.pop() else { return };
        self.ifs = open.ifs;
        let (kind, mark) = match open.kind {
            Kind::ParenOpen => (Kind::ParenClose, ")"),
            Kind::BracketOpen => (Kind::BracketClose, "]"),
            _ => (Kind::TextTail, ""),
        };
        let at = out.last().map_or(0, |t| t.end);
        out.push(Token { kind, before: Before::NOTHING, start: at, end: at });
        if cut.too_deep || mark.is_empty() {
            return;
        }
        if let Some(token) = self.tokens.get(open.token as usize) {
            let (span, end) = (findings.span(token.start, token.end), findings.span(at, at));
            let name = token.kind.describe();
            findings.add(token.start, || {
                Finding::new(codes::UNCLOSED_BRACKET, span, format!("this {name} is never closed"))
                    .label("opened here")
                    .related(end, format!("a `{mark}` is due here at the latest"))
                    .mend(format!("close it with `{mark}`"))
                    .fix(Fix::needs_consent(format!("insert `{mark}`"), end, mark))
            });
        }
    }

    fn close_all(&mut self, out: &mut Vec<Token>, cut: &Cut, findings: &mut Collector) {
        self.close_brackets(out, cut, findings);
        let Some(last) = self.open.last() else { return };
        let blamed = self.suspect.unwrap_or(last.token);
        let at = out.last().map_or(0, |t| t.end);
        let next = self.tokens.get(self.next).map(|t| findings.span(t.start, t.end));
        if let Some(token) = self.tokens.get(blamed as usize).filter(|_| !cut.too_deep) {
            let (span, end) = (findings.span(token.start, token.end), findings.span(at, at));
            findings.add(token.start, || {
                let finding =
                    Finding::new(codes::UNCLOSED_BRACE, span, "this brace is never closed").label("opened here");
                let finding = match next {
                    Some(next) => finding.related(next, "this starts a new declaration"),
                    None => finding.related(end, "the file ends here"),
                };
                finding.mend("close it with `}`").fix(Fix::needs_consent("insert `}`", end, "\n}"))
            });
        }
        if out.last().is_some_and(|t| t.kind == Kind::End) {
            out.pop();
        }
        while self.open.pop().is_some() {
            self.close_brackets(out, cut, findings);
            out.push(Token { kind: Kind::BraceClose, before: Before::NOTHING, start: at, end: at });
        }
    }

    fn inner(&self) -> Inner {
        match self.open.last() {
            Some(open) if open.kind != Kind::BraceOpen => Inner::Brackets,
            _ => Inner::Lines,
        }
    }

    /// The `///` lines right above a token.
    fn docs_before(&mut self, token: &Token, findings: &Collector) -> Option<Span> {
        while self.comments.get(self.next_comment).is_some_and(|c| c.start < token.start) {
            self.next_comment += 1;
        }
        docs_ending_at(self.comments, self.next_comment, token, self.text).map(|(start, end)| findings.span(start, end))
    }
}

#[derive(PartialEq, Eq)]
enum Inner {
    Brackets,
    Lines,
}

fn unopened(span: Span) -> Finding {
    Finding::new(codes::UNOPENED_BRACE, span, "this `}` closes nothing")
        .label("no brace is open here")
        .mend("take it out, or look for a brace too many above")
        .fix(Fix::needs_consent("take it out", span, ""))
}

/// The `///` lines right above a token, given how many comments stand before it.
pub(crate) fn docs_ending_at(comments: &[Comment], before: usize, token: &Token, text: &str) -> Option<(u32, u32)> {
    let mut first = None;
    let mut below = token.start;
    let last = comments.get(before.checked_sub(1)?)?;
    for comment in comments.get(..before)?.iter().rev() {
        let gap = text.get(comment.end as usize..below as usize).unwrap_or("x");
        let touches = gap.bytes().all(|b| b.is_ascii_whitespace()) && gap.bytes().filter(|&b| b == b'\n').count() == 1;
        if !comment.doc || !comment.own_line || !touches {
            break;
        }
        first = Some(comment.start);
        below = comment.start;
    }
    Some((first?, last.end))
}
