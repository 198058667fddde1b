//! Names, dotted paths and units.

use chumsky::Parser as _;
use wythe_findings::{Edit, Finding, FindingName, Fix, codes};
use wythe_source::Symbol;

use super::fault::{Failure, Wanted};
use super::state::{In, Rule, fail, peek, peek_second, position, rule, span_from, token};
use crate::ast::{Ident, Path, UnitExpr};
use crate::keywords::{Keyword, WordClass};
use crate::token::{Kind, Token};

#[inline]
fn ident_of<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, token: Token) -> Ident {
    let state = inp.state();
    Ident { name: Symbol::new(token.text(state.text)), span: token.span(state.file) }
}

/// The next token as a name, whatever it is.
pub(super) fn take_ident<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Ident, E> {
    match inp.next() {
        Some(token) => Ok(ident_of(inp, token)),
        None => fail(inp, Wanted::AnyName),
    }
}

/// A name in lower case. Where `follows` says that the line goes on well after it, the careful instance
/// takes a reserved word for the name it was meant to be.
pub(super) fn read_name<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, follows: fn(Kind) -> bool) -> Result<Ident, E> {
    match inp.peek() {
        Some(token) if token.kind == Kind::Name => {
            inp.skip();
            Ok(ident_of(inp, token))
        }
        Some(Token { kind: Kind::Word(word), .. }) if E::CAREFUL && follows(peek_second(inp)) => {
            reserved_as_name(inp, word)
        }
        _ => fail(inp, Wanted::Name),
    }
}

/// A reserved word used as a name: one finding, and it is taken for the name.
pub(super) fn reserved_as_name<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, word: Keyword) -> Result<Ident, E> {
    let ident = take_ident(inp)?;
    let text = word.text();
    let is = match word.class() {
        WordClass::Declaration => "opens a declaration".to_owned(),
        _ if super::layer::verb(word).is_some() => "is a verb".to_owned(),
        WordClass::Statement => "opens a statement".to_owned(),
        _ => "is a word of the language".to_owned(),
    };
    let other = suggestion(word);
    let span = ident.span;
    let state = inp.state();
    let known = state
        .findings
        .iter_mut()
        .find(|f| f.name == FindingName::Code(codes::RESERVED_WORD_AS_NAME) && f.primary.span.text(state.text) == text);
    match known.and_then(|f| f.fixes.first_mut()) {
        Some(fix) => fix.edits.push(Edit { span, text: other }),
        None => state.findings.push(
            Finding::new(codes::RESERVED_WORD_AS_NAME, span, format!("`{text}` {is}; it cannot be a name"))
                .label(format!("`{text}` {}", word.doc()))
                .mend(format!("choose another name, such as `{other}`"))
                .fix(Fix::needs_consent(format!("call it `{other}`"), span, other)),
        ),
    }
    Ok(ident)
}

fn suggestion(word: Keyword) -> String {
    match word {
        Keyword::Set => "board_set".to_owned(),
        _ => format!("{}_1", word.text()),
    }
}

/// A name in lower case, as a parser.
pub(super) fn name<'t, E: Failure<'t>>(follows: fn(Kind) -> bool) -> impl Rule<'t, Ident, E> + Copy {
    rule(move |inp: &mut In<'t, '_, E>| read_name(inp, follows))
}

/// A name of a type, as a parser.
pub(super) fn type_name<'t, E: Failure<'t>>() -> impl Rule<'t, Ident, E> + Copy {
    rule(|inp: &mut In<'t, '_, E>| match peek(inp) {
        Kind::Type => take_ident(inp),
        _ => fail(inp, Wanted::TypeName),
    })
}

/// A name of either sort, as a parser.
pub(super) fn any_name<'t, E: Failure<'t>>(follows: fn(Kind) -> bool) -> impl Rule<'t, Ident, E> + Copy {
    rule(move |inp: &mut In<'t, '_, E>| match inp.peek().map(|t| t.kind) {
        Some(Kind::Name | Kind::Type) => take_ident(inp),
        Some(Kind::Word(word)) if E::CAREFUL && follows(peek_second(inp)) => reserved_as_name(inp, word),
        _ => fail(inp, Wanted::AnyName),
    })
}

/// No reserved word is taken for a name here.
pub(super) fn nothing(_: Kind) -> bool {
    false
}

/// `unit_4.v2`, as a parser.
pub(super) fn path<'t, E: Failure<'t>>() -> impl Rule<'t, Path, E> {
    rule(|inp: &mut In<'t, '_, E>| {
        let mut parts = vec![inp.parse(any_name(nothing))?];
        while peek(inp) == Kind::Dot {
            parts.push(inp.parse(token(Kind::Dot).ignore_then(any_name(nothing)))?);
        }
        Ok(Path { parts })
    })
}

/// Whether a token can open a unit right after a number.
#[inline]
pub(super) fn opens_unit(kind: Kind) -> bool {
    matches!(kind, Kind::Name | Kind::Type | Kind::UnitSign | Kind::Word(Keyword::In | Keyword::Per))
}

/// A unit: `in`, `W per m K`, `per sheet`. `in` is the inch only where a name must stand.
pub(super) fn read_unit<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<UnitExpr, E> {
    let from = position(inp);
    let mut above = Vec::new();
    if peek(inp) != Kind::Word(Keyword::Per) {
        unit_names(inp, &mut above)?;
    }
    let mut below = Vec::new();
    if peek(inp) == Kind::Word(Keyword::Per) {
        inp.skip();
        unit_names(inp, &mut below)?;
    }
    Ok(UnitExpr { span: span_from(inp, from), above, below })
}

fn unit_names<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, names: &mut Vec<Ident>) -> Result<(), E> {
    match peek(inp) {
        Kind::Name | Kind::Type | Kind::UnitSign | Kind::Word(Keyword::In) => names.push(take_ident(inp)?),
        _ => return fail(inp, Wanted::Unit),
    }
    while matches!(peek(inp), Kind::Name | Kind::Type | Kind::UnitSign) {
        names.push(take_ident(inp)?);
    }
    Ok(())
}
