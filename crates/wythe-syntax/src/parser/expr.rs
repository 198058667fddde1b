//! Expressions: one loop that climbs the ladder of operators, over one-token choices below it.

use chumsky::Parser as _;
use wythe_source::Span;

use super::fault::{Failure, Wanted};
use super::name::{opens_unit, read_name, read_unit, reserved_as_name, take_ident};
use super::state::{In, Rule, fail, peek, peek_second, position, rule, span_from, take, token, word};
use super::text::read_text;
use crate::ast::{Arg, BinaryOp, ExprId, ExprKind};
use crate::keywords::Keyword;
use crate::token::{Kind, Token};

/// How tightly an operator binds; `not` stands between `and` and the comparisons.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Level {
    Or,
    And,
    Not,
    Compare,
    Range,
    PlusMinus,
    Default,
    By,
    Sum,
    Term,
    Operand,
}

impl Level {
    const fn tighter(self) -> Level {
        match self {
            Level::Or => Level::And,
            Level::And => Level::Not,
            Level::Not => Level::Compare,
            Level::Compare => Level::Range,
            Level::Range => Level::PlusMinus,
            Level::PlusMinus => Level::Default,
            Level::Default => Level::By,
            Level::By => Level::Sum,
            Level::Sum => Level::Term,
            Level::Term | Level::Operand => Level::Operand,
        }
    }

    /// Whether operators of this level may stand in a row.
    const fn chains(self) -> bool {
        matches!(self, Level::Or | Level::And | Level::By | Level::Sum | Level::Term)
    }
}

#[inline]
const fn operator(kind: Kind) -> Option<(Level, BinaryOp)> {
    Some(match kind {
        Kind::Word(Keyword::Or) => (Level::Or, BinaryOp::Or),
        Kind::Word(Keyword::And) => (Level::And, BinaryOp::And),
        Kind::Equal => (Level::Compare, BinaryOp::Equal),
        Kind::NotEqual => (Level::Compare, BinaryOp::NotEqual),
        Kind::Less => (Level::Compare, BinaryOp::Less),
        Kind::LessEqual => (Level::Compare, BinaryOp::LessEqual),
        Kind::Greater => (Level::Compare, BinaryOp::Greater),
        Kind::GreaterEqual => (Level::Compare, BinaryOp::GreaterEqual),
        Kind::DotDot => (Level::Range, BinaryOp::Range),
        Kind::PlusMinus => (Level::PlusMinus, BinaryOp::PlusMinus),
        Kind::Default => (Level::Default, BinaryOp::Default),
        Kind::Word(Keyword::X) => (Level::By, BinaryOp::By),
        Kind::Plus => (Level::Sum, BinaryOp::Add),
        Kind::Minus => (Level::Sum, BinaryOp::Subtract),
        Kind::Star => (Level::Term, BinaryOp::Multiply),
        Kind::Slash => (Level::Term, BinaryOp::Divide),
        _ => return None,
    })
}

/// An expression, as a parser.
pub(super) fn expr<'t, E: Failure<'t>>() -> impl Rule<'t, ExprId, E> + Copy {
    rule(read_expr)
}

/// A value: an expression, and the unit it is shown in. Also as a parser.
pub(super) fn value<'t, E: Failure<'t>>() -> impl Rule<'t, ExprId, E> + Copy {
    rule(read_value)
}

/// `expr [ "as" unit ]`
pub(super) fn read_value<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<ExprId, E> {
    let id = read_expr(inp)?;
    if peek(inp) != Kind::Word(Keyword::As) {
        return Ok(id);
    }
    inp.skip();
    let unit = Box::new(read_unit(inp)?);
    let state = inp.state();
    let span = state.span_of(id).to(unit.span);
    Ok(state.push(span, ExprKind::Shown { value: id, unit }))
}

/// `if … then … else …`, or a chain of operators.
pub(super) fn read_expr<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<ExprId, E> {
    if peek(inp) == Kind::Word(Keyword::If) {
        return choice(inp);
    }
    climb(inp, Level::Or)
}

fn choice<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<ExprId, E> {
    let from = position(inp);
    let ((condition, then), otherwise) = inp.parse(
        word(Keyword::If)
            .ignore_then(expr())
            .then(word(Keyword::Then).ignore_then(expr()))
            .then(word(Keyword::Else).ignore_then(expr())),
    )?;
    let span = span_from(inp, from);
    Ok(inp.state().push(span, ExprKind::If { condition, then, otherwise }))
}

/// Operands and the operators between them that bind no looser than `least`.
///
/// A loop instead of one combinator a level: a lone operand, by far the commonest case, passes through once.
fn climb<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, least: Level) -> Result<ExprId, E> {
    let mut left = prefixed(inp, least)?;
    let mut barred = None;
    while let Some(sign) = inp.peek() {
        let Some((level, op)) = operator(sign.kind) else {
            break;
        };
        if level < least {
            break;
        }
        if barred.is_some_and(|barred| level >= barred) {
            let wanted = if level == Level::Compare { Wanted::SingleComparison } else { Wanted::Operator };
            return fail(inp, wanted);
        }
        inp.skip();
        let right = climb(inp, level.tighter())?;
        if !level.chains() {
            barred = Some(level);
        } else {
            barred = None;
        }
        let state = inp.state();
        let (span, op_span) = (state.span_of(left).to(state.span_of(right)), sign.span(state.file));
        left = state.push(span, ExprKind::Binary { op, op_span, left, right });
    }
    Ok(left)
}

fn prefixed<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, least: Level) -> Result<ExprId, E> {
    let Some(sign) = inp.peek() else {
        return fail(inp, Wanted::Value);
    };
    match sign.kind {
        Kind::Word(Keyword::Not) if least <= Level::Not => {
            inp.skip();
            let operand = climb(inp, Level::Compare)?;
            Ok(negation(inp, sign, operand, ExprKind::Not(operand)))
        }
        Kind::Minus => {
            inp.skip();
            let operand = postfixed(inp)?;
            Ok(negation(inp, sign, operand, ExprKind::Negate(operand)))
        }
        _ => postfixed(inp),
    }
}

fn negation<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, sign: Token, operand: ExprId, kind: ExprKind) -> ExprId {
    let state = inp.state();
    let span = sign.span(state.file).to(state.span_of(operand));
    state.push(span, kind)
}

/// A primary with the fields, calls and subscripts after it.
fn postfixed<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<ExprId, E> {
    let from = position(inp);
    let mut of = primary(inp)?;
    loop {
        let kind = match peek(inp) {
            Kind::Dot => {
                inp.skip();
                ExprKind::Field { of, name: field_name(inp)? }
            }
            Kind::ParenOpen => {
                let args = inp.parse(listed(Kind::ParenOpen, rule(arg), Kind::ParenClose))?;
                ExprKind::Call { callee: of, args }
            }
            Kind::BracketOpen => {
                let at = inp.parse(expr().delimited_by(token(Kind::BracketOpen), token(Kind::BracketClose)))?;
                ExprKind::Subscript { of, at }
            }
            _ => return Ok(of),
        };
        let span = span_from(inp, from);
        of = inp.state().push(span, kind);
    }
}

fn field_name<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<crate::ast::Ident, E> {
    match peek(inp) {
        Kind::Name | Kind::Type | Kind::Word(Keyword::Wall | Keyword::Pier | Keyword::Opening) => take_ident(inp),
        Kind::Word(word) if E::CAREFUL => reserved_as_name(inp, word),
        _ => fail(inp, Wanted::AnyName),
    }
}

/// `open item, item close`; the list may be empty.
fn listed<'t, O, E: Failure<'t>>(open: Kind, item: impl Rule<'t, O, E>, close: Kind) -> impl Rule<'t, Vec<O>, E> {
    token(open).ignore_then(rule(move |inp: &mut In<'t, '_, E>| {
        let mut items = Vec::new();
        if peek(inp) != close {
            one_or_more(inp, &item, &mut items)?;
        }
        list_end(inp, close)?;
        Ok(items)
    }))
}

/// `item, item`: asks for the comma instead of trying for it, so that no failure is left behind.
pub(super) fn one_or_more<'t, O, E: Failure<'t>>(
    inp: &mut In<'t, '_, E>,
    item: &impl Rule<'t, O, E>,
    items: &mut Vec<O>,
) -> Result<(), E> {
    items.push(inp.parse(item)?);
    while peek(inp) == Kind::Comma {
        inp.skip();
        items.push(inp.parse(item)?);
    }
    Ok(())
}

fn list_end<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, close: Kind) -> Result<(), E> {
    if peek(inp) == close {
        inp.skip();
        return Ok(());
    }
    fail(inp, Wanted::CommaOr(close))
}

/// A value, or `name: value`.
fn arg<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Arg, E> {
    let from = position(inp);
    if peek_second(inp) == Kind::Colon && matches!(peek(inp), Kind::Name | Kind::Word(_)) {
        let name = read_name(inp, |next| next == Kind::Colon)?;
        inp.skip();
        return Ok(Arg { name: Some(name), value: read_value(inp)? });
    }
    let value = read_value(inp)?;
    if peek(inp) == Kind::Colon {
        return fail(inp, Wanted::ArgumentName(from as u32));
    }
    Ok(Arg { name: None, value })
}

fn primary<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<ExprId, E> {
    let Some(first) = inp.peek() else {
        return fail(inp, Wanted::Value);
    };
    let kind = match first.kind {
        Kind::Name | Kind::Type => {
            let ident = take_ident(inp)?;
            return Ok(inp.state().push(ident.span, ExprKind::Name(ident.name)));
        }
        Kind::Number => return number(inp),
        Kind::Length => ExprKind::Length,
        Kind::RValue => ExprKind::RValue,
        Kind::Date => ExprKind::Date,
        Kind::Lumber => ExprKind::Lumber,
        Kind::BadFigure => ExprKind::Broken,
        Kind::Word(Keyword::Site) => ExprKind::Site,
        Kind::Word(Keyword::True) => ExprKind::Bool(true),
        Kind::Word(Keyword::False) => ExprKind::Bool(false),
        Kind::Word(Keyword::None) => ExprKind::None,
        Kind::Text | Kind::TextHead => return read_text(inp),
        Kind::ParenOpen => {
            let from = position(inp);
            inp.skip();
            let mut items = Vec::new();
            one_or_more(inp, &value(), &mut items)?;
            list_end(inp, Kind::ParenClose)?;
            let span = span_from(inp, from);
            return Ok(inp.state().push(span, ExprKind::Tuple(items)));
        }
        Kind::BracketOpen => return list(inp),
        Kind::Word(Keyword::If) => return fail(inp, Wanted::IfInBrackets),
        Kind::Word(word) if E::CAREFUL && word.class().is_reserved() && ends_operand(peek_second(inp)) => {
            let ident = reserved_as_name(inp, word)?;
            return Ok(inp.state().push(ident.span, ExprKind::Broken));
        }
        _ => return fail(inp, Wanted::Value),
    };
    inp.skip();
    let state = inp.state();
    Ok(state.push(first.span(state.file), kind))
}

/// Whether a reserved word before this token can only have been meant as a name.
fn ends_operand(next: Kind) -> bool {
    matches!(
        next,
        Kind::End | Kind::BraceClose | Kind::ParenClose | Kind::BracketClose | Kind::Comma | Kind::Dot | Kind::TextTail
    ) || operator(next).is_some()
}

fn number<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<ExprId, E> {
    let token = take(inp, Kind::Number)?;
    let unit = if opens_unit(peek(inp)) { Some(Box::new(read_unit(inp)?)) } else { None };
    let state = inp.state();
    let figure = token.span(state.file);
    let span: Span = unit.as_ref().map_or(figure, |u| figure.to(u.span));
    Ok(state.push(span, ExprKind::Number { figure, unit }))
}

/// `[a, b]`, or `[value for each name in list where condition]`.
fn list<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<ExprId, E> {
    let from = position(inp);
    inp.skip();
    if peek(inp) == Kind::BracketClose {
        inp.skip();
        let span = span_from(inp, from);
        return Ok(inp.state().push(span, ExprKind::List(Vec::new())));
    }
    let first = read_value(inp)?;
    let kind = if peek(inp) == Kind::Word(Keyword::For) {
        let (name, list, condition) = each(inp)?;
        ExprKind::Comprehension { value: first, name, list, condition }
    } else {
        let mut items = vec![first];
        if peek(inp) == Kind::Comma {
            inp.skip();
            one_or_more(inp, &value(), &mut items)?;
        }
        ExprKind::List(items)
    };
    list_end(inp, Kind::BracketClose)?;
    let span = span_from(inp, from);
    Ok(inp.state().push(span, kind))
}

/// `for each name in list [where condition]`
pub(super) fn each<'t, E: Failure<'t>>(
    inp: &mut In<'t, '_, E>,
) -> Result<(crate::ast::Ident, ExprId, Option<ExprId>), E> {
    take(inp, Kind::Word(Keyword::For))?;
    take(inp, Kind::Word(Keyword::Each))?;
    let name = read_name(inp, |next| next == Kind::Word(Keyword::In))?;
    take(inp, Kind::Word(Keyword::In))?;
    let list = read_expr(inp)?;
    let mut condition = None;
    if peek(inp) == Kind::Word(Keyword::Where) {
        inp.skip();
        condition = Some(read_expr(inp)?);
    }
    Ok((name, list, condition))
}
