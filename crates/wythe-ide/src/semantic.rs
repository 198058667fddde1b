//! The meaning of each word for coloring: what the grammar of an editor cannot know.

use rustc_hash::FxHashMap;
use wythe_project::Project;
use wythe_sema::{Prelude, Signature, Target, Type};
use wythe_source::Span;
use wythe_syntax::ast::{DeclKind, ExprKind};
use wythe_syntax::keywords::{Keyword, WORDS, WordClass};
use wythe_syntax::{Kind, tokens};

use crate::{occurrence, scope};

/// What a token is, in the words editors color by.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
#[repr(u8)]
pub enum TokenKind {
    /// A comment.
    Comment,
    /// A reserved word.
    Keyword,
    /// A layer verb: what is done on site.
    Verb,
    /// A text.
    String,
    /// A figure.
    Number,
    /// A unit.
    Unit,
    /// An operator.
    Operator,
    /// A type, a record or an enumeration.
    Type,
    /// A member of an enumeration.
    Member,
    /// A product.
    Product,
    /// A build-up.
    Buildup,
    /// A function.
    Function,
    /// A parameter.
    Parameter,
    /// A value.
    Variable,
    /// A property of a block or a field of a value.
    Property,
    /// A phase.
    Phase,
    /// A site, a foundation, a rule or another declaration.
    Declaration,
}

impl TokenKind {
    /// All, in the order of their numbers, each with the name editors know it by.
    pub const ALL: [(TokenKind, &'static str); 17] = [
        (TokenKind::Comment, "comment"),
        (TokenKind::Keyword, "keyword"),
        (TokenKind::Verb, "macro"),
        (TokenKind::String, "string"),
        (TokenKind::Number, "number"),
        (TokenKind::Unit, "decorator"),
        (TokenKind::Operator, "operator"),
        (TokenKind::Type, "type"),
        (TokenKind::Member, "enumMember"),
        (TokenKind::Product, "class"),
        (TokenKind::Buildup, "struct"),
        (TokenKind::Function, "function"),
        (TokenKind::Parameter, "parameter"),
        (TokenKind::Variable, "variable"),
        (TokenKind::Property, "property"),
        (TokenKind::Phase, "event"),
        (TokenKind::Declaration, "namespace"),
    ];
}

/// A colored token.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct SemanticToken {
    /// Its place, on one line.
    pub span: Span,
    /// What it is.
    pub kind: TokenKind,
    /// Whether it is declared there.
    pub declares: bool,
    /// Whether it belongs to the language.
    pub of_language: bool,
}

/// The tokens of a range of a file, by place. None spans a line end.
pub fn semantic_tokens(project: &Project, range: Span) -> Vec<SemanticToken> {
    let file = range.file;
    let text = project.text(file);
    let lexed = tokens(file, text);
    let program = project.program();
    let mut named: FxHashMap<u32, (Span, Target)> = FxHashMap::default();
    for (span, target) in occurrence::occurrences(program, file) {
        named.insert(span.start, (span, target));
    }
    let units = units(project, range);
    let mut out = Vec::new();
    let plain = |span: Span, kind: TokenKind| SemanticToken { span, kind, declares: false, of_language: false };
    for token in &lexed.tokens {
        if token.end < range.start || token.start > range.end {
            continue;
        }
        let span = token.span(file);
        let kind = match token.kind {
            Kind::Word(keyword) => match units.contains(&token.start) {
                true => TokenKind::Unit,
                false => word(keyword),
            },
            Kind::Number | Kind::Length | Kind::RValue | Kind::Date | Kind::Lumber => TokenKind::Number,
            Kind::UnitSign => TokenKind::Unit,
            Kind::Text | Kind::TextHead | Kind::TextMid | Kind::TextTail => TokenKind::String,
            Kind::Name | Kind::Type if units.contains(&token.start) => TokenKind::Unit,
            Kind::Name | Kind::Type => {
                if let Some((span, target)) = named.get(&token.start).filter(|(s, _)| s.end == token.end) {
                    let declared = occurrence::declared_at(program, *target);
                    out.push(SemanticToken {
                        span: *span,
                        kind: of_target(project, *target),
                        declares: declared == Some(*span),
                        of_language: declared.is_some_and(|d| d.file == Prelude::FILE),
                    });
                } else if token.kind == Kind::Type {
                    out.push(SemanticToken { of_language: true, ..plain(span, TokenKind::Type) });
                } else {
                    let of_language = WORDS.iter().any(|w| w.text == token.text(text));
                    out.push(SemanticToken { of_language, ..plain(span, TokenKind::Variable) });
                }
                continue;
            }
            kind if operator(kind) => TokenKind::Operator,
            _ => continue,
        };
        out.push(plain(span, kind));
    }
    for comment in lexed.comments.iter().filter(|c| c.start <= range.end && c.end >= range.start) {
        out.push(plain(Span::new(file, comment.start, comment.end), TokenKind::Comment));
    }
    out.retain(|t| !t.span.text(text).contains('\n'));
    out.sort_by_key(|t| (t.span.start, t.span.end));
    out.dedup_by_key(|t| t.span.start);
    out
}

fn word(keyword: Keyword) -> TokenKind {
    let verb = wythe_syntax::ast::Verb::ALL.iter().any(|v| v.word() == keyword.text());
    if verb && keyword.class() == WordClass::Statement { TokenKind::Verb } else { TokenKind::Keyword }
}

const fn operator(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Assign
            | Kind::Equal
            | Kind::NotEqual
            | Kind::Less
            | Kind::LessEqual
            | Kind::Greater
            | Kind::GreaterEqual
            | Kind::Plus
            | Kind::Minus
            | Kind::PlusMinus
            | Kind::Star
            | Kind::Slash
            | Kind::Question
            | Kind::Default
            | Kind::Arrow
            | Kind::DotDot
    )
}

/// Where the units of figures stand.
fn units(project: &Project, range: Span) -> Vec<u32> {
    let mut out = Vec::new();
    let Some(data) = project.program().module(range.file) else { return out };
    for expr in &data.module.exprs {
        if let ExprKind::Number { unit: Some(unit), .. } | ExprKind::Shown { unit, .. } = &expr.kind {
            out.extend(unit.above.iter().chain(&unit.below).map(|u| u.span.start));
        }
    }
    out.sort_unstable();
    out
}

fn of_target(project: &Project, target: Target) -> TokenKind {
    let program = project.program();
    match target {
        Target::Part(def, _) => match program.decl(def).map(|d| &d.kind) {
            Some(DeclKind::Enum { .. }) => TokenKind::Member,
            _ => TokenKind::Property,
        },
        Target::Local(span) => {
            let decl = scope::around(program, span.file, span.start).map(|(_, d)| &d.kind);
            let params = match decl {
                Some(DeclKind::Fn(f)) => &f.params[..],
                Some(DeclKind::Buildup { params, .. }) => params,
                _ => &[],
            };
            if params.iter().any(|p| p.name.span == span) { TokenKind::Parameter } else { TokenKind::Variable }
        }
        Target::Def(def) => match program.decl(def).map(|d| &d.kind) {
            Some(DeclKind::Product { .. }) => TokenKind::Product,
            Some(DeclKind::Buildup { .. }) => TokenKind::Buildup,
            Some(DeclKind::Fn(_)) => TokenKind::Function,
            Some(DeclKind::Phase(_)) => TokenKind::Phase,
            Some(DeclKind::Record(_) | DeclKind::Enum { .. }) => TokenKind::Type,
            Some(DeclKind::Unit(_)) => TokenKind::Unit,
            Some(DeclKind::Let(_)) => match scope::signature(program, def) {
                Some(Signature::Value(Type::Product(_))) => TokenKind::Product,
                _ => TokenKind::Variable,
            },
            _ => TokenKind::Declaration,
        },
    }
}
