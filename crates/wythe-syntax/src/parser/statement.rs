//! Statements: each opens with a reserved word.

use chumsky::Parser as _;

use super::block::{block, block_if_any, named_block};
use super::expr::{each, expr, read_expr, value};
use super::fault::{Failure, Wanted};
use super::layer::{read_layer, verb};
use super::name::{name, nothing, path, take_ident, type_name};
use super::recover::value_or_broken;
use super::state::{In, Rule, after, fail, peek, position, rule, span_from, token, word};
use super::text::{read_text, text_follows};
use super::types::type_expr;
use crate::ast::{Expect, ExprKind, Let, Statement, StatementKind};
use crate::keywords::Keyword;
use crate::token::Kind;

/// A statement; its word stands next.
pub(super) fn read_statement<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, first: Keyword) -> Result<Statement, E> {
    let from = position(inp);
    let kind = match first {
        Keyword::Let => inp.parse(let_rule().map(StatementKind::Let)),
        Keyword::During => inp.parse(
            word(Keyword::During)
                .ignore_then(named_block())
                .map(|(phase, block)| StatementKind::During { phase, block }),
        ),
        Keyword::Wall => inp.parse(wall()),
        Keyword::Step => inp.parse(step()),
        Keyword::Opening => inp.parse(opening()),
        Keyword::Piers => inp.parse(
            word(Keyword::Piers).ignore_then(named_block()).map(|(name, block)| StatementKind::Piers { name, block }),
        ),
        Keyword::Pier | Keyword::Pad => inp.parse(pier_or_pad(first)),
        Keyword::Beam => inp.parse(beam()),
        Keyword::For => each(inp).map(|(name, list, condition)| StatementKind::ForEach { name, list, condition }),
        Keyword::Require => inp.parse(word(Keyword::Require).ignore_then(expr()).map(StatementKind::Require)),
        Keyword::Otherwise => {
            inp.parse(word(Keyword::Otherwise).ignore_then(rule(read_text)).map(StatementKind::Otherwise))
        }
        Keyword::Rate => inp.parse(rate()),
        Keyword::Waste => inp.parse(
            word(Keyword::Waste)
                .ignore_then(type_name().then(expr()))
                .map(|(class, value)| StatementKind::Waste { class, value }),
        ),
        Keyword::Entry => inp.parse(entry()),
        Keyword::Expect => inp.parse(word(Keyword::Expect).ignore_then(rule(expect)).map(StatementKind::Expect)),
        other => match verb(other) {
            Some(verb) => read_layer(inp, verb),
            None => fail(inp, Wanted::Item),
        },
    }?;
    Ok(Statement { span: span_from(inp, from), kind })
}

/// `let name [: type] = value`, as a parser. A value that cannot be read leaves the name declared.
pub(super) fn let_rule<'t, E: Failure<'t>>() -> impl Rule<'t, Let, E> {
    word(Keyword::Let)
        .ignore_then(name(super::block::before_colon_or_assign))
        .then(after(Kind::Colon, type_expr()))
        .then(token(Kind::Assign).ignore_then(value_or_broken(value())))
        .map(|((name, ty), value)| Let { name, ty, value })
}

fn wall<'t, E: Failure<'t>>() -> impl Rule<'t, StatementKind, E> {
    word(Keyword::Wall)
        .ignore_then(name(|next| next == Kind::Word(Keyword::Runs)))
        .then_ignore(word(Keyword::Runs))
        .then(name(nothing))
        .then(expr())
        .then(block_if_any())
        .map(|(((name, direction), length), block)| StatementKind::Wall { name, direction, length, block })
}

fn step<'t, E: Failure<'t>>() -> impl Rule<'t, StatementKind, E> {
    word(Keyword::Step)
        .ignore_then(word(Keyword::At))
        .ignore_then(expr())
        .then(block())
        .map(|(at, block)| StatementKind::Step { at, block })
}

fn opening<'t, E: Failure<'t>>() -> impl Rule<'t, StatementKind, E> {
    word(Keyword::Opening)
        .ignore_then(name(|next| next == Kind::Word(Keyword::In)))
        .then_ignore(word(Keyword::In))
        .then(name(|next| next == Kind::Word(Keyword::At)))
        .then_ignore(word(Keyword::At))
        .then(expr())
        .then(block())
        .map(|(((name, wall), at), block)| StatementKind::Opening { name, wall, at, block })
}

fn pier_or_pad<'t, E: Failure<'t>>(first: Keyword) -> impl Rule<'t, StatementKind, E> {
    word(first)
        .ignore_then(name(|next| next == Kind::Word(Keyword::At)))
        .then_ignore(word(Keyword::At))
        .then(expr())
        .then(block())
        .map(move |((name, at), block)| match first {
            Keyword::Pad => StatementKind::Pad { name, at, block },
            _ => StatementKind::Pier { name, at, block },
        })
}

fn beam<'t, E: Failure<'t>>() -> impl Rule<'t, StatementKind, E> {
    word(Keyword::Beam)
        .ignore_then(name(|next| next == Kind::Word(Keyword::From)))
        .then(rule(|inp: &mut In<'t, '_, E>| {
            let at = position(inp);
            inp.parse(word(Keyword::From))?;
            let from = read_expr(inp)?;
            if peek(inp) != Kind::Word(Keyword::To) {
                return fail(inp, Wanted::OtherEnd(at as u32));
            }
            inp.skip();
            Ok((from, read_expr(inp)?))
        }))
        .then(block_if_any())
        .map(|((name, (from, to)), block)| StatementKind::Beam { name, from, to, block })
}

fn rate<'t, E: Failure<'t>>() -> impl Rule<'t, StatementKind, E> {
    word(Keyword::Rate)
        .ignore_then(rule(|inp: &mut In<'t, '_, E>| match peek(inp) {
            Kind::Word(word) if verb(word).is_some() => take_ident(inp),
            _ => fail(inp, Wanted::Verb),
        }))
        .then(expr())
        .then(after(Kind::Word(Keyword::For), type_name()))
        .map(|((verb, value), class)| StatementKind::Rate { verb, value, class })
}

fn entry<'t, E: Failure<'t>>() -> impl Rule<'t, StatementKind, E> {
    word(Keyword::Entry)
        .ignore_then(rule(|inp: &mut In<'t, '_, E>| {
            let (token, kind) = match inp.peek() {
                Some(token) if token.kind == Kind::Date => (token, ExprKind::Date),
                Some(token) if token.kind == Kind::BadFigure => (token, ExprKind::Broken),
                _ => return fail(inp, Wanted::Kind(Kind::Date)),
            };
            inp.skip();
            let state = inp.state();
            Ok(state.push(token.span(state.file), kind))
        }))
        .then(block())
        .map(|(date, block)| StatementKind::Entry { date, block })
}

fn expect<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Expect, E> {
    match peek(inp) {
        Kind::Word(Keyword::No | Keyword::Finding) => {
            let present = peek(inp) != Kind::Word(Keyword::No);
            if !present {
                inp.skip();
            }
            inp.parse(word(Keyword::Finding))?;
            let name = match peek(inp) {
                Kind::Name | Kind::Type => Some(inp.parse(path())?),
                _ => None,
            };
            let within = inp.parse(after(Kind::Word(Keyword::In), path()))?;
            Ok(Expect::Finding { present, name, within })
        }
        _ => {
            let value = read_expr(inp)?;
            let within = inp.parse(after(Kind::Word(Keyword::Within), expr()))?;
            Ok(Expect::Value { value, within })
        }
    }
}

/// A text if one stands next.
pub(super) fn text<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<crate::ast::ExprId, E> {
    if text_follows(inp) { read_text(inp) } else { fail(inp, Wanted::Kind(Kind::Text)) }
}
