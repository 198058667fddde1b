//! Prints declarations from their tokens: items on lines, blocks in braces, comments where they stood.

use super::clauses::Reordered;
use super::spacing::{Gap, is_spaced, may_break, sign_follows};
use super::{INDENT, MAX_WIDTH};
use crate::keywords::Keyword;
use crate::parse::Parsed;
use crate::token::{Before, Comment, Kind, Token};

pub(super) struct Printer<'a> {
    text: &'a str,
    tokens: &'a [Token],
    comments: &'a [Comment],
    orders: &'a [Reordered],
    next_comment: usize,
    out: String,
    /// Where the line at hand starts in `out`.
    line: usize,
    /// Whether a comment ends the line at hand.
    closed: bool,
    /// Whether the next item is the first of its block or file.
    first: bool,
    /// Where the line at hand is best broken.
    can_break: Option<Break>,
    /// The indentation of what goes over to a next line.
    overhang: usize,
    /// Whether a line may be broken at all.
    breaking: bool,
    /// Whether the next item may share the line at hand.
    shares: bool,
}

impl<'a> Printer<'a> {
    pub(super) fn new(text: &'a str, parsed: &'a Parsed, orders: &'a [Reordered]) -> Self {
        let mut out = String::with_capacity(text.len() + text.len() / 8);
        if text.starts_with('\u{feff}') {
            out.push('\u{feff}');
        }
        let line = out.len();
        Printer {
            text,
            tokens: &parsed.tokens,
            comments: &parsed.comments,
            orders,
            next_comment: 0,
            out,
            line,
            closed: false,
            first: true,
            can_break: None,
            overhang: 0,
            breaking: true,
            shares: false,
        }
    }

    pub(super) fn finish(mut self) -> String {
        self.comments_before(u32::MAX, 0);
        if self.out.len() > self.line {
            self.out.push('\n');
        }
        if self.text.contains("\r\n") {
            self.out = self.out.replace("\r\n", "\n").replace('\n', "\r\n");
        }
        self.out
    }

    /// Tokens between declarations that belong to none: they stay where they are.
    pub(super) fn strays(&mut self, from: usize, to: usize) {
        let Some(between) = self.tokens.get(from..to) else {
            return;
        };
        let mut strays = between.iter().enumerate().filter(|(_, t)| t.kind != Kind::Semicolon);
        let Some((first, _)) = strays.next() else {
            return;
        };
        let last = strays.next_back().map_or(first, |(at, _)| at);
        self.verbatim(from + first, from + last + 1);
    }

    /// A declaration that cannot be read, byte for byte.
    pub(super) fn verbatim(&mut self, first: usize, end: usize) {
        let (Some(head), Some(last)) = (self.tokens.get(first), end.checked_sub(1).and_then(|at| self.tokens.get(at)))
        else {
            return;
        };
        self.comments_before(head.start, 0);
        let above = self.tokens.get(..first).unwrap_or(&[]);
        let parted = above.last().is_some_and(|t| t.kind == Kind::Semicolon) && !self.out.ends_with(';');
        let mut margin = head.before.has(Before::LINE);
        if self.out.len() > self.line {
            if self.line_above(first, head.start) || self.closed {
                self.new_line(0, self.blank_above(head.start));
                // Without the `;` the line end would mean nothing here.
                let goes_on = matches!(head.kind, Kind::Word(word) if word.continues())
                    || above
                        .iter()
                        .rev()
                        .find(|t| t.kind != Kind::Semicolon)
                        .is_some_and(|t| t.kind.takes_the_next_line());
                if parted && goes_on {
                    self.out.push_str("; ");
                    margin = false;
                }
            } else {
                self.out.push_str(if parted { "; " } else { " " });
            }
        }
        if margin {
            let line = self.text.get(..head.start as usize).unwrap_or("");
            let margin = line.rfind('\n').map_or(0, |at| at + 1);
            let margin = line.get(margin..).unwrap_or("").trim_start_matches('\u{feff}');
            self.out.push_str(margin);
        }
        self.out.push_str(self.text.get(head.start as usize..last.end as usize).unwrap_or("").trim_end_matches('\r'));
        // A `;` after it may be all that ends it.
        if self.tokens.get(end).is_some_and(|t| t.kind == Kind::Semicolon && !t.before.has(Before::LINE)) {
            self.out.push(';');
        }
        while self.comments.get(self.next_comment).is_some_and(|c| c.start < last.end) {
            self.next_comment += 1;
        }
        let comment = self.next_comment.checked_sub(1).and_then(|at| self.comments.get(at));
        self.closed = comment.is_some_and(|c| c.start < last.end && last.end <= c.end);
        self.line = self.out.rfind('\n').map_or(0, |at| at + 1);
        self.first = false;
        self.shares = false;
    }

    /// A declaration, or a `use` line.
    pub(super) fn declaration(&mut self, tokens: &[Token]) {
        self.item(tokens, 0, true);
    }

    fn new_line(&mut self, indent: usize, blank: bool) {
        self.out.push('\n');
        if blank {
            self.out.push('\n');
        }
        self.line = self.out.len();
        self.out.extend(std::iter::repeat_n(' ', indent));
        self.closed = false;
        self.can_break = None;
        self.shares = false;
    }

    fn width(&self) -> usize {
        self.out.get(self.line..).map_or(0, |line| line.chars().count())
    }

    /// The comments before a byte of the source, each at the end of the line at hand or on its own.
    fn comments_before(&mut self, start: u32, indent: usize) {
        while let Some(comment) = self.comments.get(self.next_comment).filter(|c| c.start < start) {
            let fresh = self.out.get(self.line..).is_none_or(|l| l.trim_start_matches('\u{feff}').trim().is_empty());
            let tokens_before = self.tokens.partition_point(|t| t.start < comment.start);
            if comment.own_line || self.closed || self.line_above(tokens_before, comment.start) {
                if !fresh {
                    self.new_line(indent, comment.after_blank && !self.first);
                }
            } else if !fresh {
                self.out.push(' ');
            }
            self.out.push_str(comment.text(self.text));
            self.closed = true;
            self.first = false;
            self.next_comment += 1;
        }
    }

    /// Whether a line ends between a byte of the source and what stands before it, given the number of tokens
    /// before it. A `;` is not printed where it stands, so it counts as nothing.
    fn line_above(&self, tokens_before: usize, start: u32) -> bool {
        let above = self.tokens.get(..tokens_before).unwrap_or(&[]);
        let end = above.iter().rev().find(|t| t.kind != Kind::Semicolon).map_or(0, |t| t.end);
        self.text.get(end as usize..start as usize).is_some_and(|between| between.contains('\n'))
    }

    /// Whether an empty line stands right above a byte of the source.
    fn blank_above(&self, start: u32) -> bool {
        let space = self
            .text
            .get(..start as usize)
            .unwrap_or("")
            .bytes()
            .rev()
            .take_while(|b| b.is_ascii_whitespace() || *b == b';');
        space.filter(|&b| b == b'\n').nth(1).is_some()
    }

    /// Whether a comment stands before a byte of the source and has not been printed.
    fn comment_before(&self, end: u32) -> bool {
        self.comments.get(self.next_comment).is_some_and(|c| c.start < end)
    }

    /// One item on a line of its own, or after `; ` on the line of the one before it.
    fn item(&mut self, tokens: &[Token], indent: usize, at_file: bool) {
        let Some(head) = tokens.first() else { return };
        self.comments_before(head.start, indent);
        let end = tokens.last().map_or(head.end, |t| t.end);
        let apart = head.before.has(Before::LINE);
        let statement =
            !at_file && matches!(head.kind, Kind::Word(word) if word.starts_statement() || word == Keyword::For);
        let flat = is_flat(tokens) && !self.comment_before(end);
        if !apart && self.shares && !statement && flat && !self.closed {
            let (mark, line) = (self.out.len(), self.line);
            self.out.push_str("; ");
            self.flat(tokens);
            if self.width() <= MAX_WIDTH {
                return;
            }
            self.out.truncate(mark);
            self.line = line;
        }
        if !self.first || self.out.get(self.line..).is_some_and(|l| !l.trim_start_matches('\u{feff}').trim().is_empty())
        {
            self.new_line(indent, self.blank_above(head.start) && !self.first);
        } else {
            self.closed = false;
        }
        self.first = false;
        self.overhang = indent + INDENT;
        self.can_break = None;
        if flat {
            let mark = self.out.len();
            self.flat(tokens);
            if self.width() <= MAX_WIDTH {
                self.shares = !statement;
                return;
            }
            self.out.truncate(mark);
        }
        self.tall(tokens, indent);
    }

    /// The item on one line, whatever its width.
    fn flat(&mut self, tokens: &[Token]) {
        let breaking = std::mem::replace(&mut self.breaking, false);
        let mut walk = Walk::default();
        let mut at = 0;
        while let Some(token) = tokens.get(at) {
            if let Some(count) = self.reordered(tokens, at, &mut walk) {
                at += count;
                continue;
            }
            match token.kind {
                Kind::BraceOpen if tokens.get(at + 1).is_some_and(|t| t.kind == Kind::BraceClose) => {
                    self.out.push_str(" {}");
                    at += 1;
                    walk = Walk::default();
                }
                Kind::BraceOpen => {
                    self.out.push_str(" { ");
                    walk = Walk::default();
                }
                Kind::BraceClose => {
                    self.out.push_str(" }");
                    walk = Walk::default();
                }
                Kind::End => {
                    self.out.push_str("; ");
                    walk = Walk::default();
                }
                _ => self.token(token, &mut walk),
            }
            at += 1;
        }
        self.breaking = breaking;
    }

    /// The item with its blocks opened up over several lines and its long lines broken.
    fn tall(&mut self, tokens: &[Token], indent: usize) {
        let mut walk = Walk::default();
        let mut at = 0;
        while let Some(token) = tokens.get(at) {
            if let Some(count) = self.reordered(tokens, at, &mut walk) {
                at += count;
                continue;
            }
            if token.kind != Kind::BraceOpen {
                self.comments_inside(token);
                self.token(token, &mut walk);
                at += 1;
                continue;
            }
            self.comments_inside(token);
            let length = block_length(tokens.get(at..).unwrap_or(&[]));
            let inner = tokens.get(at + 1..at + length - 1).unwrap_or(&[]);
            let close = tokens.get(at + length - 1).map_or(token.end, |t| t.start);
            self.out.push_str(if self.closed { "{" } else { " {" });
            self.closed = false;
            self.break_if_wide();
            if inner.is_empty() && !self.comment_before(close) {
                self.out.push('}');
            } else {
                self.block(inner, close, indent);
            }
            at += length;
            walk = Walk::default();
        }
        self.shares = false;
    }

    fn block(&mut self, inner: &[Token], close: u32, indent: usize) {
        let within = indent + INDENT;
        self.first = true;
        self.shares = false;
        let mut rest = inner;
        while !rest.is_empty() {
            let end = item_length(rest);
            self.item(rest.get(..end).unwrap_or(rest), within, false);
            rest = rest.get(end + 1..).unwrap_or(&[]);
        }
        self.comments_before(close, within);
        self.new_line(indent, false);
        self.first = false;
        self.overhang = indent + INDENT;
        self.out.push('}');
    }

    /// Comments in the middle of an item: what comes after them goes on on a next line.
    fn comments_inside(&mut self, token: &Token) {
        if !self.comment_before(token.start) {
            return;
        }
        self.comments_before(token.start, self.overhang);
        self.new_line(self.overhang, false);
        self.closed = true;
    }

    /// One token with the gap before it.
    fn token(&mut self, token: &Token, walk: &mut Walk) {
        if let Some(last) = walk.last {
            let gap = Gap { before_last: walk.before_last, last, last_is_sign: walk.last_is_sign, next: token.kind };
            if self.closed {
                self.closed = false;
            } else if is_spaced(gap) {
                if self.breaking && walk.texts == 0 && may_break(gap, token) {
                    let found = Break { depth: walk.depth, comma: last == Kind::Comma, at: self.out.len() };
                    if self.can_break.is_none_or(|best| found.betters(best)) {
                        self.can_break = Some(found);
                    }
                }
                self.out.push(' ');
            }
        } else {
            self.closed = false;
        }
        let text = token.text(self.text);
        match token.kind {
            Kind::Length => push_length(&mut self.out, text),
            _ => self.out.push_str(text),
        }
        self.break_if_wide();
        walk.last_is_sign = token.kind == Kind::Minus && sign_follows(walk.last);
        walk.before_last = walk.last;
        walk.last = Some(token.kind);
        match token.kind {
            Kind::ParenOpen | Kind::BracketOpen => walk.depth += 1,
            Kind::ParenClose | Kind::BracketClose => walk.depth = walk.depth.saturating_sub(1),
            Kind::TextHead => walk.texts += 1,
            Kind::TextTail => walk.texts = walk.texts.saturating_sub(1),
            _ => {}
        }
    }

    /// Breaks the line at hand at its last place to break, if it has become too wide.
    fn break_if_wide(&mut self) {
        if !self.breaking || self.out.len() - self.line <= MAX_WIDTH || self.width() <= MAX_WIDTH {
            return;
        }
        let Some(Break { at, .. }) = self.can_break.take() else {
            return;
        };
        let rest = self.out.split_off(at + 1);
        self.out.pop();
        self.out.push('\n');
        self.line = self.out.len();
        self.out.extend(std::iter::repeat_n(' ', self.overhang));
        self.out.push_str(&rest);
    }

    /// If the item at hand is a layer with clauses out of order and no comment inside: prints them in order
    /// and says how many tokens that were.
    fn reordered(&mut self, tokens: &[Token], at: usize, walk: &mut Walk) -> Option<usize> {
        let head = tokens.get(at)?;
        if self.orders.is_empty() || !matches!(head.kind, Kind::Word(_)) {
            return None;
        }
        let found = self.orders.binary_search_by_key(&head.start, |r| r.start).ok()?;
        let order = self.orders.get(found)?;
        let rest = tokens.get(at..)?;
        let length = item_length(rest).min(rest.iter().position(|t| t.kind == Kind::BraceClose).unwrap_or(rest.len()));
        let item = rest.get(..length)?;
        if self.comment_before(item.last()?.end) {
            return None;
        }
        let first = order.clauses.iter().map(|c| c.0).min()?;
        for token in item.iter().take_while(|t| t.start < first) {
            self.token(token, walk);
        }
        for &(start, end) in &order.clauses {
            for token in item.iter().filter(|t| start <= t.start && t.end <= end) {
                self.token(token, walk);
            }
        }
        Some(length)
    }
}

/// The tokens printed last on a line.
#[derive(Default)]
struct Walk {
    before_last: Option<Kind>,
    last: Option<Kind>,
    last_is_sign: bool,
    /// Texts that are open: their values stay on the line.
    texts: usize,
    /// Brackets that are open.
    depth: usize,
}

/// A place where a line can be broken: a space in what is printed.
#[derive(Clone, Copy)]
struct Break {
    depth: usize,
    comma: bool,
    at: usize,
}

impl Break {
    /// Fewer brackets around it first, then after a comma, then further right.
    fn betters(self, other: Break) -> bool {
        (other.depth, self.comma, self.at) >= (self.depth, other.comma, other.at)
    }
}

/// Whether an item was written with each of its blocks on one line.
fn is_flat(tokens: &[Token]) -> bool {
    let mut depth = 0usize;
    for token in tokens {
        match token.kind {
            Kind::BraceOpen => depth += 1,
            Kind::BraceClose => {
                if token.before.has(Before::LINE) {
                    return false;
                }
                depth = depth.saturating_sub(1);
                continue;
            }
            _ => {}
        }
        if depth > 0 && token.kind != Kind::BraceOpen && token.before.has(Before::LINE) {
            return false;
        }
    }
    true
}

/// The tokens of the item these tokens start with, up to its end mark.
fn item_length(tokens: &[Token]) -> usize {
    let mut depth = 0usize;
    for (at, token) in tokens.iter().enumerate() {
        match token.kind {
            Kind::BraceOpen => depth += 1,
            Kind::BraceClose => depth = depth.saturating_sub(1),
            Kind::End if depth == 0 => return at,
            _ => {}
        }
    }
    tokens.len()
}

/// The tokens of the block these tokens start with, both braces included.
fn block_length(tokens: &[Token]) -> usize {
    let mut depth = 0usize;
    for (at, token) in tokens.iter().enumerate() {
        match token.kind {
            Kind::BraceOpen => depth += 1,
            Kind::BraceClose => {
                depth -= 1;
                if depth == 0 {
                    return at + 1;
                }
            }
            _ => {}
        }
    }
    tokens.len()
}

/// A length with one space between feet and inches.
fn push_length(out: &mut String, text: &str) {
    match text.split_once('\'') {
        Some((feet, inches)) if !inches.is_empty() => {
            out.push_str(feet);
            out.push_str("' ");
            out.push_str(inches.trim_start());
        }
        _ => out.push_str(text),
    }
}
