//! The parser: chumsky over the flat tokens of one declaration at a time.
//!
//! Every rule is predictive: it looks at one token, picks its way and never comes back, so that time is
//! linear and nothing is built twice. Each rule exists in two instances. The fast one carries no error and
//! gives up at the first fault; the careful one then reads the same tokens again, recovers line by line and
//! says what it found.

mod block;
mod decl;
mod expr;
mod fault;
mod layer;
mod message;
mod name;
mod recover;
mod state;
mod statement;
mod text;
mod types;

use chumsky::Parser as _;
use chumsky::error::EmptyErr;
use wythe_source::{FileId, Symbol};

use crate::ast::{Decl, Expr, Ident, Module, Use};
use crate::collector::Collector;
use crate::keywords::Keyword;
use crate::layout::Cut;
use crate::token::{Comment, Kind, Token};
use fault::Fault;
use state::{State, rule};

/// What one chunk holds.
pub(crate) enum Reading {
    Use(Use),
    Decl(Box<Decl>),
}

/// What the parser needs to know of a file.
#[derive(Clone, Copy)]
pub(crate) struct Source<'t> {
    pub file: FileId,
    pub text: &'t str,
    pub comments: &'t [Comment],
    /// Whether functions without a body are allowed.
    pub prelude: bool,
}

/// The result of reading one chunk.
pub(crate) struct ChunkResult {
    pub reading: Option<Reading>,
    /// The name a lost declaration would have borne.
    pub lost: Option<Ident>,
}

/// Reads one chunk. Expressions go into the module; findings into the collector.
pub(crate) fn read_chunk(
    source: Source<'_>,
    tokens: &[Token],
    cut: &Cut,
    module: &mut Module,
    findings: &mut Collector,
) -> ChunkResult {
    let marks = (module.exprs.len(), findings.len());
    let mut state = State::new(source, tokens, cut.docs, std::mem::take(&mut module.exprs));
    let fast = rule::<_, EmptyErr, _>(decl::chunk).parse_with_state(tokens, &mut state).into_result();
    let reading = match fast {
        Ok(reading) => Some(reading),
        Err(_) => {
            state.exprs.truncate(marks.0);
            state.findings.clear();
            let (reading, faults) =
                rule::<_, Fault, _>(decl::chunk).parse_with_state(tokens, &mut state).into_output_errors();
            message::report(source, tokens, &faults, &state.findings, findings);
            state.findings.clear();
            reading
        }
    };
    for finding in state.findings.drain(..) {
        findings.add(finding.primary.span.start, || finding);
    }
    module.exprs = std::mem::take(&mut state.exprs);
    let lost = if reading.is_none() { lost_name(source, tokens) } else { None };
    ChunkResult { reading, lost }
}

/// The name after the word of a declaration that could not be read.
pub(crate) fn lost_name(source: Source<'_>, tokens: &[Token]) -> Option<Ident> {
    let after_pub = usize::from(tokens.first()?.kind == Kind::Word(Keyword::Pub));
    let Kind::Word(word) = tokens.get(after_pub)?.kind else {
        return None;
    };
    let name = tokens.get(after_pub + 1).filter(|t| matches!(t.kind, Kind::Name | Kind::Type))?;
    let named = word.declares() && !matches!(word, Keyword::Use | Keyword::Amend | Keyword::Waiver);
    named.then(|| Ident { name: Symbol::new(name.text(source.text)), span: name.span(source.file) })
}

/// How deep the expressions hang on one another, by number; children come before their parents.
pub(crate) fn depths(exprs: &[Expr], from: usize) -> Vec<u32> {
    let mut depths: Vec<u32> = Vec::with_capacity(exprs.len() - from);
    for expr in exprs.iter().skip(from) {
        let mut depth = 0;
        expr.kind.each_child(|child| {
            let below = (child.0 as usize).checked_sub(from).and_then(|at| depths.get(at)).copied().unwrap_or(0);
            depth = depth.max(below + 1);
        });
        depths.push(depth);
    }
    depths
}
