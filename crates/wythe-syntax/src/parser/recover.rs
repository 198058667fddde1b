//! How the careful instance goes on after a fault: over the rest of the line, and into its block if it has one.

use chumsky::Parser as _;
use chumsky::recovery::via_parser;
use wythe_source::Span;

use super::block::read_block;
use super::fault::{Failure, Wanted};
use super::state::{In, Rule, fail, peek, position, rule};
use crate::ast::{ExprId, ExprKind};
use crate::token::Kind;

/// `item`, or, after a fault, nothing and the line passed over. The fast instance does not recover.
pub(super) fn or_line<'t, O, E: Failure<'t>>(item: impl Rule<'t, O, E> + Clone) -> impl Rule<'t, Option<O>, E> {
    rule(move |inp: &mut In<'t, '_, E>| {
        if !E::CAREFUL {
            return inp.parse(&item).map(Some);
        }
        let read = inp.parse(item.clone().map(Some).recover_with(via_parser(rule(pass_line).map(|()| None))))?;
        to_line_end(inp)?;
        Ok(read)
    })
}

/// A value, or, after a fault, a broken one and the rest of the line passed over.
pub(super) fn value_or_broken<'t, E: Failure<'t>>(value: impl Rule<'t, ExprId, E> + Clone) -> impl Rule<'t, ExprId, E> {
    rule(move |inp: &mut In<'t, '_, E>| {
        if !E::CAREFUL {
            return inp.parse(&value);
        }
        let read = inp.parse(value.clone().recover_with(via_parser(rule(broken))))?;
        to_line_end(inp)?;
        Ok(read)
    })
}

/// Reports what stands after something complete on its line, and passes over it. What was read is kept:
/// reading it again would double the work at every level of nesting.
pub(super) fn to_line_end<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<(), E> {
    if matches!(peek(inp), Kind::End | Kind::BraceClose) {
        return Ok(());
    }
    let after_value =
        position(inp).checked_sub(1).and_then(|at| inp.state().token(at)).is_some_and(|t| t.kind != Kind::BraceClose);
    let fault = E::at(position(inp), if after_value { Wanted::Operator } else { Wanted::LineEnd });
    inp.emit(fault);
    pass_line(inp)
}

fn broken<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<ExprId, E> {
    let at = position(inp);
    pass_line(inp)?;
    let state = inp.state();
    let start = state.token(at).map_or(0, |t| t.start);
    let span = Span::new(state.file, start, start);
    Ok(state.push(span, ExprKind::Broken))
}

/// Passes over the rest of a line; a block in it is read for its own faults and thrown away.
pub(super) fn pass_line<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<(), E> {
    while inp.peek().is_some() {
        match peek(inp) {
            Kind::End | Kind::BraceClose => return Ok(()),
            Kind::BraceOpen => {
                read_block(inp)?;
            }
            _ => inp.skip(),
        }
    }
    Ok(())
}

/// What comes after the careful instance has lost a declaration: nothing more is said of it.
pub(super) fn lost<'t, O, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<O, E> {
    fail(inp, Wanted::Unknown)
}
