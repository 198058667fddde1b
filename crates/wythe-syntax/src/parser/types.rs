//! Types as written: `Length`, `Range[Length]`, `[Wall]`, `Length?`.

use chumsky::Parser as _;

use super::fault::{Failure, Wanted};
use super::name::take_ident;
use super::state::{In, Rule, after, fail, peek, position, rule, span_from, token};
use crate::ast::{TypeExpr, TypeExprKind};
use crate::token::Kind;

/// A type, as a parser.
pub(super) fn type_expr<'t, E: Failure<'t>>() -> impl Rule<'t, TypeExpr, E> + Copy {
    rule(read_type)
}

fn read_type<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<TypeExpr, E> {
    let from = position(inp);
    let kind = match peek(inp) {
        Kind::Type => {
            let name = take_ident(inp)?;
            let inner = inp.parse(after(Kind::BracketOpen, type_expr().then_ignore(token(Kind::BracketClose))))?;
            TypeExprKind::Name(name, inner.map(Box::new))
        }
        Kind::BracketOpen => {
            let inner = inp.parse(type_expr().delimited_by(token(Kind::BracketOpen), token(Kind::BracketClose)))?;
            TypeExprKind::List(Box::new(inner))
        }
        _ => return fail(inp, Wanted::Type),
    };
    let plain = TypeExpr { span: span_from(inp, from), kind };
    if peek(inp) != Kind::Question {
        return Ok(plain);
    }
    inp.skip();
    Ok(TypeExpr { span: span_from(inp, from), kind: TypeExprKind::Optional(Box::new(plain)) })
}
