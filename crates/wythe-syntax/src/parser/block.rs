//! Blocks: properties, sections and statements, told apart by the first token and the one after it.

use super::expr::value;
use super::fault::{Failure, Wanted};
use super::name::{read_name, reserved_as_name, take_ident};
use super::recover::{or_line, value_or_broken};
use super::state::{In, Rule, fail, peek, peek_second, position, rule, span_from, take};
use super::statement::read_statement;
use crate::ast::{Block, Item};
use crate::keywords::Keyword;
use crate::token::Kind;

/// A block, as a parser.
pub(super) fn block<'t, E: Failure<'t>>() -> impl Rule<'t, Block, E> + Copy {
    rule(read_block)
}

/// A block if a brace stands next, as a parser.
pub(super) fn block_if_any<'t, E: Failure<'t>>() -> impl Rule<'t, Option<Block>, E> + Copy {
    rule(|inp: &mut In<'t, '_, E>| match peek(inp) {
        Kind::BraceOpen => read_block(inp).map(Some),
        _ => Ok(None),
    })
}

/// `{ item … }`
pub(super) fn read_block<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Block, E> {
    let from = position(inp);
    let items = lines(inp, rule(read_item))?;
    Ok(Block { span: span_from(inp, from), items })
}

/// Lines in braces; each recovers on its own.
pub(super) fn lines<'t, O, E: Failure<'t>>(
    inp: &mut In<'t, '_, E>,
    line: impl Rule<'t, O, E> + Clone,
) -> Result<Vec<O>, E> {
    take(inp, Kind::BraceOpen)?;
    let mut items = Vec::new();
    loop {
        match inp.peek().map(|t| t.kind) {
            Some(Kind::End) => inp.skip(),
            Some(Kind::BraceClose) => {
                inp.skip();
                return Ok(items);
            }
            None => return fail(inp, Wanted::Kind(Kind::BraceClose)),
            Some(_) => {
                items.extend(inp.parse(or_line(line.clone()))?);
                if !matches!(peek(inp), Kind::End | Kind::BraceClose) {
                    return fail(inp, Wanted::LineEnd);
                }
            }
        }
    }
}

fn read_item<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Item, E> {
    match peek(inp) {
        Kind::Name => {
            let name = take_ident(inp)?;
            match peek(inp) {
                Kind::Colon => {
                    inp.skip();
                    Ok(Item::Property { name, value: inp.parse(value_or_broken(value()))? })
                }
                Kind::BraceOpen => Ok(Item::Section { name, block: read_block(inp)? }),
                _ => fail(inp, Wanted::Kind(Kind::Colon)),
            }
        }
        Kind::Word(word) if E::CAREFUL && meant_as_name(word, peek_second(inp)) => {
            let name = reserved_as_name(inp, word)?;
            if peek(inp) == Kind::Colon {
                inp.skip();
                return Ok(Item::Property { name, value: inp.parse(value_or_broken(value()))? });
            }
            Ok(Item::Section { name, block: read_block(inp)? })
        }
        Kind::Word(word) => read_statement(inp, word).map(Item::Statement),
        _ => fail(inp, Wanted::Item),
    }
}

/// No statement goes on with `:` or `{` right after its word.
fn meant_as_name(word: Keyword, next: Kind) -> bool {
    word.class().is_reserved() && matches!(next, Kind::Colon | Kind::BraceOpen)
}

/// A name in lower case before `:` or `=`.
pub(super) fn before_colon_or_assign(next: Kind) -> bool {
    matches!(next, Kind::Colon | Kind::Assign)
}

/// A name in lower case before a brace.
pub(super) fn before_brace(next: Kind) -> bool {
    next == Kind::BraceOpen
}

/// A name followed by a block, as a parser.
pub(super) fn named_block<'t, E: Failure<'t>>() -> impl Rule<'t, (crate::ast::Ident, Block), E> {
    rule(|inp: &mut In<'t, '_, E>| {
        let name = read_name(inp, before_brace)?;
        Ok((name, inp.parse(block())?))
    })
}
