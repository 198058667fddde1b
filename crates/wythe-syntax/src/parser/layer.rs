//! Layers: a verb, what it acts on, and clauses in any order.

use super::expr::{expr, read_expr};
use super::fault::{Failure, Wanted};
use super::name::{name, read_name, take_ident};
use super::state::{In, after, fail, peek, position, span_from};
use crate::ast::{Clause, ClauseKind, Edge, Layer, StatementKind, Verb};
use crate::keywords::Keyword;
use crate::token::Kind;

/// The verb a word is, if it is one.
pub(super) fn verb(word: Keyword) -> Option<Verb> {
    Some(match word {
        Keyword::Coat => Verb::Coat,
        Keyword::Drain => Verb::Drain,
        Keyword::Fill => Verb::Fill,
        Keyword::Lay => Verb::Lay,
        Keyword::Hang => Verb::Hang,
        Keyword::Set => Verb::Set,
        Keyword::Fasten => Verb::Fasten,
        Keyword::Cap => Verb::Cap,
        Keyword::Tape => Verb::Tape,
        Keyword::Seal => Verb::Seal,
        Keyword::Lap => Verb::Lap,
        Keyword::Remove => Verb::Remove,
        _ => return None,
    })
}

fn opens_clause(word: Keyword) -> bool {
    use Keyword::*;
    matches!(word, As | From | Along | Over | Under | Into | With | Every | By | Bead)
}

fn after_name(next: Kind) -> bool {
    match next {
        Kind::End | Kind::BraceClose => true,
        Kind::Word(word) => opens_clause(word) || matches!(word, Keyword::Of | Keyword::To),
        _ => false,
    }
}

/// `verb name { clause }`; the verb stands next.
pub(super) fn read_layer<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, verb: Verb) -> Result<StatementKind, E> {
    let word = take_ident(inp)?;
    let object = read_name(inp, after_name)?;
    let mut clauses = Vec::new();
    while let Kind::Word(word) = peek(inp) {
        let from = position(inp);
        if !opens_clause(word) {
            return fail(inp, Wanted::Clause);
        }
        inp.skip();
        let kind = clause(inp, word, from)?;
        clauses.push(Clause { span: span_from(inp, from), kind });
    }
    if !matches!(peek(inp), Kind::End | Kind::BraceClose) {
        return fail(inp, Wanted::Clause);
    }
    Ok(StatementKind::Layer(Layer { verb, verb_span: word.span, object, clauses }))
}

fn clause<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, word: Keyword, from: usize) -> Result<ClauseKind, E> {
    Ok(match word {
        Keyword::As => ClauseKind::As(inp.parse(name(after_name))?),
        Keyword::From => {
            let one = read_expr(inp)?;
            if peek(inp) != Kind::Word(Keyword::To) {
                return fail(inp, Wanted::OtherEnd(from as u32));
            }
            inp.skip();
            ClauseKind::Extent { from: one, to: read_expr(inp)? }
        }
        Keyword::Along => ClauseKind::Along(edge(inp)?),
        Keyword::Over => ClauseKind::Over(edge(inp)?),
        Keyword::Under => ClauseKind::Under(edge(inp)?),
        Keyword::Into => ClauseKind::Into(edge(inp)?),
        Keyword::With => ClauseKind::With(inp.parse(name(after_name))?),
        Keyword::Every => ClauseKind::Every(inp.parse(expr())?),
        Keyword::By => ClauseKind::By(inp.parse(expr())?),
        Keyword::Bead => ClauseKind::Bead(inp.parse(expr())?),
        _ => return fail(inp, Wanted::Clause),
    })
}

/// `NAME [ NAME ] [ "of" NAME ] [ "to" NAME ]`
fn edge<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Edge, E> {
    let from = position(inp);
    if peek(inp) != Kind::Name && !E::CAREFUL {
        return fail(inp, Wanted::Edge);
    }
    let mut what = vec![read_name(inp, after_name)?];
    if peek(inp) == Kind::Name {
        what.push(take_ident(inp)?);
    }
    let of = inp.parse(after(Kind::Word(Keyword::Of), name(after_name)))?;
    let to = inp.parse(after(Kind::Word(Keyword::To), name(after_name)))?;
    Ok(Edge { span: span_from(inp, from), what, of, to })
}
