//! What the rules share: the input type, the state that gathers expressions, and how rules become parsers.

use chumsky::input::{Checkpoint, Cursor, InputRef};
use chumsky::inspector::Inspector;
use chumsky::primitive::{Custom, custom};
use chumsky::{Parser, extra};
use wythe_findings::Finding;
use wythe_source::{FileId, Span};

use super::Source;
use super::fault::{Failure, Wanted};
use crate::ast::{Expr, ExprId, ExprKind};
use crate::keywords::Keyword;
use crate::layout::docs_ending_at;
use crate::token::{Comment, Kind, Token};

/// The tokens of one chunk.
pub(super) type Input<'t> = &'t [Token];
/// The errors and state of the rules.
pub(super) type Extra<'t, E> = extra::Full<E, State<'t>, ()>;
/// What a rule reads from.
pub(super) type In<'t, 'p, E> = InputRef<'t, 'p, Input<'t>, Extra<'t, E>>;

/// What the rules write to, and the text they read figures and names from.
pub(super) struct State<'t> {
    pub file: FileId,
    pub text: &'t str,
    pub prelude: bool,
    pub docs: Option<Span>,
    pub exprs: Vec<Expr>,
    pub findings: Vec<Finding>,
    comments: &'t [Comment],
    tokens: &'t [Token],
}

impl<'t> State<'t> {
    pub(super) fn new(source: Source<'t>, tokens: &'t [Token], docs: Option<Span>, exprs: Vec<Expr>) -> Self {
        let Source { file, text, comments, prelude } = source;
        State { file, text, prelude, docs, exprs, findings: Vec::new(), comments, tokens }
    }

    /// Adds an expression.
    #[inline]
    pub(super) fn push(&mut self, span: Span, kind: ExprKind) -> ExprId {
        let id = ExprId(self.exprs.len() as u32);
        self.exprs.push(Expr { span, kind });
        id
    }

    /// The place of an expression.
    #[inline]
    pub(super) fn span_of(&self, id: ExprId) -> Span {
        self.exprs.get(id.0 as usize).map_or(Span::new(self.file, 0, 0), |e| e.span)
    }

    /// The token at a place in the chunk.
    #[inline]
    pub(super) fn token(&self, at: usize) -> Option<Token> {
        self.tokens.get(at).copied()
    }

    /// The `///` lines right above a token.
    pub(super) fn docs_above(&self, token: Token) -> Option<Span> {
        let before = self.comments.partition_point(|c| c.start < token.start);
        let (start, end) = docs_ending_at(self.comments, before, &token, self.text)?;
        Some(Span::new(self.file, start, end))
    }
}

/// Going back takes expressions and findings back with it.
impl<'t> Inspector<'t, Input<'t>> for State<'t> {
    type Checkpoint = (u32, u32);

    #[inline(always)]
    fn on_token(&mut self, _: &Token) {}

    #[inline(always)]
    fn on_save<'parse>(&self, _: &Cursor<'t, 'parse, Input<'t>>) -> Self::Checkpoint {
        (self.exprs.len() as u32, self.findings.len() as u32)
    }

    #[inline(always)]
    fn on_rewind<'parse>(&mut self, marker: &Checkpoint<'t, 'parse, Input<'t>, Self::Checkpoint>) {
        let (exprs, findings) = *marker.inspector();
        self.exprs.truncate(exprs as usize);
        self.findings.truncate(findings as usize);
    }
}

/// A rule as a chumsky parser. Rules are functions, so that they may name one another without allocation.
pub(super) fn rule<'t, O, E, F>(read: F) -> Custom<F, Input<'t>, O, Extra<'t, E>>
where
    E: Failure<'t>,
    F: Fn(&mut In<'t, '_, E>) -> Result<O, E>,
{
    custom(read)
}

/// A parser over the tokens of a chunk.
pub(super) trait Rule<'t, O, E: Failure<'t>>: Parser<'t, Input<'t>, O, Extra<'t, E>> {}
impl<'t, O, E: Failure<'t>, P: Parser<'t, Input<'t>, O, Extra<'t, E>>> Rule<'t, O, E> for P {}

/// How far the input is read, in tokens of the chunk.
#[inline]
pub(super) fn position<'t, E: Failure<'t>>(inp: &In<'t, '_, E>) -> usize {
    *inp.cursor().inner()
}

/// The kind of the next token; [`Kind::End`] at the end of the chunk.
#[inline]
pub(super) fn peek<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Kind {
    inp.peek().map_or(Kind::End, |t| t.kind)
}

/// The kind of the token after the next.
#[inline]
pub(super) fn peek_second<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Kind {
    let at = position(inp) + 1;
    inp.state().token(at).map_or(Kind::End, |t| t.kind)
}

/// A failure at the next token.
#[inline]
pub(super) fn fail<'t, O, E: Failure<'t>>(inp: &In<'t, '_, E>, wanted: Wanted) -> Result<O, E> {
    Err(E::at(position(inp), wanted))
}

/// Reads a token of a kind.
#[inline]
pub(super) fn take<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, kind: Kind) -> Result<Token, E> {
    match inp.peek() {
        Some(token) if token.kind == kind => {
            inp.skip();
            Ok(token)
        }
        _ => fail(inp, Wanted::Kind(kind)),
    }
}

/// A token of a kind, as a parser.
pub(super) fn token<'t, E: Failure<'t>>(kind: Kind) -> impl Rule<'t, Token, E> + Copy {
    rule(move |inp: &mut In<'t, '_, E>| take(inp, kind))
}

/// A reserved word, as a parser.
pub(super) fn word<'t, E: Failure<'t>>(word: Keyword) -> impl Rule<'t, Token, E> + Copy {
    token(Kind::Word(word))
}

/// `then` if the next token is of this kind, which is read; nothing otherwise. A fault after it stands.
pub(super) fn after<'t, O, E: Failure<'t>>(kind: Kind, then: impl Rule<'t, O, E>) -> impl Rule<'t, Option<O>, E> {
    rule(move |inp: &mut In<'t, '_, E>| {
        if peek(inp) != kind {
            return Ok(None);
        }
        inp.skip();
        inp.parse(&then).map(Some)
    })
}

/// `first` and what follows it, from the first token to the last.
#[inline]
pub(super) fn span_from<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, from: usize) -> Span {
    let end = position(inp);
    let state = inp.state();
    let start = state.token(from).map_or(0, |t| t.start);
    let end = state.token(end.saturating_sub(1)).map_or(start, |t| t.end);
    Span::new(state.file, start, end.max(start))
}
