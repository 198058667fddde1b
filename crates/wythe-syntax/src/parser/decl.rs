//! Declarations and `use` lines: what one chunk holds.

use chumsky::Parser as _;
use wythe_findings::{Finding, codes};
use wythe_source::Symbol;

use super::Reading;
use super::block::{before_brace, before_colon_or_assign, block, lines};
use super::expr::{expr, one_or_more, value};
use super::fault::{Failure, Wanted};
use super::name::{any_name, name, nothing, path, read_name, take_ident, type_name};
use super::recover::{lost, pass_line, to_line_end, value_or_broken};
use super::state::{In, Rule, after, fail, peek, peek_second, position, rule, span_from, take, token, word};
use super::statement::{let_rule, text};
use super::text::plain_text;
use super::types::type_expr;
use crate::ast::{Decl, DeclKind, FaceRef, Field, Function, Ident, Import, Let, Param, Use, UseTarget};
use crate::keywords::Keyword;
use crate::token::Kind;

/// One chunk, read to its last token.
pub(super) fn chunk<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Reading, E> {
    let reading = match peek(inp) {
        Kind::Word(Keyword::Use) => guarded(inp, use_line).map(Reading::Use),
        _ => guarded(inp, decl).map(|d| Reading::Decl(Box::new(d))),
    }?;
    if inp.peek().is_some() {
        if !E::CAREFUL {
            return fail(inp, Wanted::LineEnd);
        }
        to_line_end(inp)?;
        while inp.peek().is_some() {
            inp.skip();
        }
    }
    Ok(reading)
}

/// Reads with `read`; if that fails, the careful instance still looks through the blocks for faults of their own.
fn guarded<'t, O, E: Failure<'t>>(
    inp: &mut In<'t, '_, E>,
    read: fn(&mut In<'t, '_, E>) -> Result<O, E>,
) -> Result<O, E> {
    let start = inp.save();
    let result = inp.parse(rule(read));
    let Err(fault) = result else { return result };
    if !E::CAREFUL {
        return Err(fault);
    }
    inp.rewind(start);
    inp.emit(fault);
    let word = if peek(inp) == Kind::Word(Keyword::Pub) { peek_second(inp) } else { peek(inp) };
    if !matches!(word, Kind::Word(Keyword::Fn | Keyword::Record | Keyword::Enum)) {
        pass_line(inp)?;
    }
    lost(inp)
}

fn use_line<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Use, E> {
    let from = position(inp);
    take(inp, Kind::Word(Keyword::Use))?;
    let target = match inp.peek() {
        Some(path) if path.kind == Kind::Text => {
            inp.skip();
            let imports = inp.parse(after(Kind::Colon, rule(imports)))?.unwrap_or_default();
            let state = inp.state();
            let (path, path_span) = (plain_text(path.text(state.text)), path.span(state.file));
            UseTarget::File { path, path_span, imports }
        }
        Some(code) if code.kind == Kind::Name && code.text(inp.state().text) == "code" => {
            inp.skip();
            UseTarget::Code(inp.parse(name(|next| next == Kind::End))?)
        }
        _ => return fail(inp, Wanted::Kind(Kind::Text)),
    };
    Ok(Use { span: span_from(inp, from), target })
}

fn imports<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Vec<Import>, E> {
    let import = any_name(nothing)
        .then(after(Kind::Word(Keyword::As), any_name(|next| matches!(next, Kind::End | Kind::Comma))))
        .map(|(name, alias)| Import { name, alias });
    let mut imports = Vec::new();
    one_or_more(inp, &import, &mut imports)?;
    Ok(imports)
}

fn decl<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Decl, E> {
    let from = position(inp);
    let public = peek(inp) == Kind::Word(Keyword::Pub);
    if public {
        inp.skip();
    }
    let docs = inp.state().docs;
    let (name, kind) = declared(inp)?;
    Ok(Decl { span: span_from(inp, from), docs, public, name, kind })
}

fn declared<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<(Ident, DeclKind), E> {
    let Kind::Word(first) = peek(inp) else {
        return fail(inp, Wanted::Declaration);
    };
    match first {
        Keyword::Let => inp.parse(let_rule().map(|value| (value.name, DeclKind::Let(value)))),
        Keyword::Fn => function(inp),
        Keyword::Unit => inp.parse(
            word(Keyword::Unit)
                .ignore_then(any_name(|next| matches!(next, Kind::End | Kind::Assign)))
                .then(after(Kind::Assign, expr()))
                .map(|(name, of)| (name, DeclKind::Unit(of))),
        ),
        Keyword::Record => record(inp),
        Keyword::Enum => enumeration(inp),
        Keyword::Product => inp.parse(
            word(Keyword::Product)
                .ignore_then(name(before_colon_or_assign))
                .then_ignore(token(Kind::Colon))
                .then(type_name())
                .then(block())
                .map(|((name, class), block)| (name, DeclKind::Product { class, block })),
        ),
        Keyword::Buildup => inp.parse(buildup()),
        Keyword::Joint => inp.parse(joint()),
        Keyword::Foundation => inp.parse(
            word(Keyword::Foundation)
                .ignore_then(name(|next| next == Kind::Word(Keyword::On)))
                .then_ignore(word(Keyword::On))
                .then(name(before_brace))
                .then(block())
                .map(|((name, site), block)| (name, DeclKind::Foundation { site, block })),
        ),
        Keyword::Phase => plain(inp, first, DeclKind::Phase),
        Keyword::Site => plain(inp, first, DeclKind::Site),
        Keyword::Rule => plain(inp, first, DeclKind::Rule),
        Keyword::Prices => plain(inp, first, DeclKind::Prices),
        Keyword::Rates => plain(inp, first, DeclKind::Rates),
        Keyword::Log => plain(inp, first, DeclKind::Log),
        Keyword::Amend => {
            let (rule, block) = inp.parse(word(Keyword::Amend).ignore_then(path()).then(block()))?;
            Ok((last_name(&rule), DeclKind::Amend { rule, block }))
        }
        Keyword::Waiver => waiver(inp),
        Keyword::Test => test(inp),
        _ => fail(inp, Wanted::Declaration),
    }
}

/// A word, a name and a block.
fn plain<'t, E: Failure<'t>>(
    inp: &mut In<'t, '_, E>,
    first: Keyword,
    make: fn(crate::ast::Block) -> DeclKind,
) -> Result<(Ident, DeclKind), E> {
    inp.parse(word(first).ignore_then(name(before_brace)).then(block()).map(|(name, block)| (name, make(block))))
}

fn last_name(path: &crate::ast::Path) -> Ident {
    path.parts.last().copied().unwrap_or(path.parts[0])
}

fn function<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<(Ident, DeclKind), E> {
    let from = position(inp);
    take(inp, Kind::Word(Keyword::Fn))?;
    let name = read_name(inp, |next| matches!(next, Kind::ParenOpen | Kind::BracketOpen))?;
    let generics = if peek(inp) == Kind::BracketOpen {
        inp.skip();
        let mut generics = Vec::new();
        one_or_more(inp, &type_name(), &mut generics)?;
        take(inp, Kind::BracketClose)?;
        generics
    } else {
        Vec::new()
    };
    let params = params(inp)?;
    let result = inp.parse(token(Kind::Arrow).ignore_then(type_expr()))?;
    let mut lets = Vec::new();
    let body = match peek(inp) {
        Kind::Assign => {
            inp.skip();
            Some(inp.parse(value())?)
        }
        Kind::BraceOpen => Some(body(inp, &mut lets)?),
        Kind::End if inp.state().prelude => None,
        Kind::End => {
            let span = span_from(inp, from);
            inp.state().findings.push(
                Finding::new(codes::FUNCTION_WITHOUT_BODY, span, format!("`{}` has no body", name.name))
                    .label("only the functions of the language itself have none")
                    .mend("write `= value` after the type, or braces with `give value`"),
            );
            None
        }
        _ => return fail(inp, Wanted::FunctionBody),
    };
    Ok((name, DeclKind::Fn(Function { generics, params, result, lets, body })))
}

/// `{ { let } give value }`
fn body<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, lets: &mut Vec<Let>) -> Result<crate::ast::ExprId, E> {
    take(inp, Kind::BraceOpen)?;
    while peek(inp) == Kind::Word(Keyword::Let) {
        lets.push(inp.parse(let_rule())?);
        match peek(inp) {
            Kind::End => inp.skip(),
            Kind::BraceClose => {}
            _ => return fail(inp, Wanted::Operator),
        }
    }
    if peek(inp) != Kind::Word(Keyword::Give) {
        return fail(inp, Wanted::Give);
    }
    inp.skip();
    inp.parse(value_or_broken(value()).then_ignore(token(Kind::BraceClose)))
}

fn params<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Vec<Param>, E> {
    take(inp, Kind::ParenOpen)?;
    let mut params = Vec::new();
    if peek(inp) != Kind::ParenClose {
        let param = name(before_colon_or_assign)
            .then_ignore(token(Kind::Colon))
            .then(type_expr())
            .then(after(Kind::Assign, expr()))
            .then(after(Kind::Word(Keyword::Where), expr()))
            .map(|(((name, ty), default), contract)| Param { name, ty, default, contract });
        one_or_more(inp, &param, &mut params)?;
    }
    match peek(inp) {
        Kind::ParenClose => inp.skip(),
        _ => return fail(inp, Wanted::CommaOr(Kind::ParenClose)),
    }
    Ok(params)
}

fn record<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<(Ident, DeclKind), E> {
    let name = inp.parse(word(Keyword::Record).ignore_then(type_name()))?;
    let fields = lines(inp, rule(field))?;
    Ok((name, DeclKind::Record(fields)))
}

fn field<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<Field, E> {
    let docs = inp.peek().and_then(|first| inp.state().docs_above(first));
    let ((name, ty), default) = inp.parse(
        name(before_colon_or_assign)
            .then_ignore(token(Kind::Colon))
            .then(type_expr())
            .then(after(Kind::Assign, expr())),
    )?;
    Ok(Field { docs, name, ty, default })
}

fn enumeration<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<(Ident, DeclKind), E> {
    let name = inp.parse(word(Keyword::Enum).ignore_then(type_name()))?;
    let ordered = match inp.peek() {
        Some(next) if next.kind == Kind::Name && next.text(inp.state().text) == "ordered" => {
            inp.skip();
            true
        }
        _ => false,
    };
    take(inp, Kind::BraceOpen)?;
    let mut members = Vec::new();
    let member = super::name::name(|next| matches!(next, Kind::Comma | Kind::BraceClose | Kind::End));
    one_or_more(inp, &member, &mut members)?;
    match peek(inp) {
        Kind::BraceClose => inp.skip(),
        _ => return fail(inp, Wanted::CommaOr(Kind::BraceClose)),
    }
    Ok((name, DeclKind::Enum { ordered, members }))
}

/// `wall`, `pier` and `opening` are reserved, and surfaces too.
fn surface_kind<'t, E: Failure<'t>>() -> impl Rule<'t, Ident, E> {
    rule(|inp: &mut In<'t, '_, E>| match peek(inp) {
        Kind::Name | Kind::Word(Keyword::Wall | Keyword::Pier | Keyword::Opening) => take_ident(inp),
        _ => fail(inp, Wanted::Name),
    })
}

fn buildup<'t, E: Failure<'t>>() -> impl Rule<'t, (Ident, DeclKind), E> {
    word(Keyword::Buildup)
        .ignore_then(name(|next| matches!(next, Kind::ParenOpen | Kind::Word(Keyword::For))))
        .then(rule(|inp: &mut In<'t, '_, E>| if peek(inp) == Kind::ParenOpen { params(inp) } else { Ok(Vec::new()) }))
        .then_ignore(word(Keyword::For))
        .then(surface_kind())
        .then(block())
        .map(|(((name, params), kind), block)| (name, DeclKind::Buildup { params, kind, block }))
}

fn face<'t, E: Failure<'t>>() -> impl Rule<'t, FaceRef, E> {
    surface_kind().then_ignore(token(Kind::Dot)).then(name(nothing)).map(|(kind, surface)| FaceRef { kind, surface })
}

fn joint<'t, E: Failure<'t>>() -> impl Rule<'t, (Ident, DeclKind), E> {
    word(Keyword::Joint)
        .ignore_then(name(|next| next == Kind::Word(Keyword::Between)))
        .then_ignore(word(Keyword::Between))
        .then(face())
        .then_ignore(word(Keyword::And))
        .then(face())
        .then(block())
        .map(|(((name, first), second), block)| (name, DeclKind::Joint { first, second, block }))
}

fn waiver<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<(Ident, DeclKind), E> {
    let (rule, within) = inp.parse(
        word(Keyword::Waiver)
            .ignore_then(word(Keyword::Of))
            .ignore_then(path())
            .then_ignore(word(Keyword::In))
            .then(name(|next| matches!(next, Kind::BraceOpen | Kind::Word(Keyword::For)))),
    )?;
    let mut elements = Vec::new();
    if peek(inp) == Kind::Word(Keyword::For) {
        inp.skip();
        one_or_more(inp, &name(|next| matches!(next, Kind::BraceOpen | Kind::Comma)), &mut elements)?;
    }
    let block = inp.parse(block())?;
    Ok((last_name(&rule), DeclKind::Waiver { rule, within, elements, block }))
}

fn test<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<(Ident, DeclKind), E> {
    take(inp, Kind::Word(Keyword::Test))?;
    let first = inp.peek();
    let title = text(inp)?;
    let state = inp.state();
    let span = state.span_of(title);
    let text = first.filter(|t| t.kind == Kind::Text).map_or("", |t| t.text(state.text));
    let name = Ident { name: Symbol::new(&plain_text(text)), span };
    let block = inp.parse(block())?;
    Ok((name, DeclKind::Test { title, block }))
}
