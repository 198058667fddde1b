//! The type that is due at the cursor, from the property, the parameter, the clause or the comparison it stands in.

use wythe_sema::{Signature, Type};
use wythe_source::Symbol;
use wythe_syntax::ast::ExprId;
use wythe_syntax::keywords::Keyword;
use wythe_syntax::{Kind, Token};
use wythe_units::Dim;

use super::{Asked, chain};
use crate::scope;
use crate::setting::Setting;
use crate::signature::called;

/// The type that is due at the cursor; `Unknown` where anything may stand.
pub(super) fn expected(asked: &Asked<'_>) -> Type {
    let cursor = asked.cursor;
    let compared = |kind: Kind| {
        matches!(
            kind,
            Kind::Equal
                | Kind::NotEqual
                | Kind::Less
                | Kind::LessEqual
                | Kind::Greater
                | Kind::GreaterEqual
                | Kind::Plus
                | Kind::Minus
        )
    };
    if let Some(last) = cursor.last().filter(|t| compared(t.kind))
        && let Some(left) = before(asked, last).or_else(|| chain::before(asked, last))
    {
        // An elevation less something is less a length.
        let moved = matches!(last.kind, Kind::Plus | Kind::Minus) && matches!(left, Type::Elevation);
        return if moved { Type::quantity(Dim::LENGTH) } else { left };
    }
    let due = whole(asked);
    let in_list = cursor.opens.last().is_some_and(|o| cursor.tokens[o.at].kind == Kind::BracketOpen);
    match due.required() {
        Type::List(inner) if in_list => (**inner).clone(),
        Type::Size(inner) | Type::Range(inner) => (**inner).clone(),
        other => other.clone(),
    }
}

/// The type of the longest sound expression that ends right before a token.
pub(super) fn before(asked: &Asked<'_>, token: &Token) -> Option<Type> {
    let cursor = asked.cursor;
    let at = cursor.tokens.iter().position(|t| t.start == token.start)?;
    let end = cursor.tokens.get(at.checked_sub(1)?)?.end;
    let data = asked.project.program().module(asked.file)?;
    let checked = data.checked.as_ref()?;
    let ending = data.module.exprs.iter().enumerate().filter(|(_, e)| e.span.end == end);
    let known = ending.filter(|(i, _)| !matches!(checked.ty(ExprId(*i as u32)), Type::Unknown));
    let (index, _) = known.max_by_key(|(i, e)| (e.span.end - e.span.start, *i))?;
    Some(checked.ty(ExprId(index as u32)).clone())
}

fn whole(asked: &Asked<'_>) -> Type {
    let program = asked.project.program();
    let cursor = asked.cursor;
    if let Some((def, number, first)) = called(asked.project, asked.file, cursor) {
        let (params, method) = match scope::signature(program, def) {
            Some(Signature::Buildup { params, .. } | Signature::Function { params, .. }) => (params, 0),
            Some(Signature::Record(fields)) => {
                let named = name_of_argument(asked, first);
                let field = fields.iter().find(|f| Some(f.name) == named);
                return field.map_or(Type::Unknown, |f| f.ty.clone());
            }
            _ => return Type::Unknown,
        };
        let param = match name_of_argument(asked, first) {
            Some(name) => params.iter().find(|p| p.name == name),
            None => params.get(number + method),
        };
        return param.map_or(Type::Unknown, |p| p.ty.clone());
    }
    let statement = cursor.statement();
    let (Some(first), second) = (statement.first(), statement.get(1)) else { return Type::Unknown };
    match (first.kind, second.map(|t| t.kind)) {
        (Kind::Name, Some(Kind::Colon)) => {
            let name = Symbol::new(cursor.text_of(first));
            let record = match asked.setting {
                Setting::Record(def) => Some(def),
                Setting::Faces(_) => program.prelude.def("BuildupBlock"),
                _ => None,
            };
            let field = record.and_then(|def| scope::signature(program, def)?.field(name));
            field.map_or(Type::Unknown, |(_, f)| f.ty.clone())
        }
        (Kind::Word(keyword), _) => in_statement(asked, keyword),
        _ => Type::Unknown,
    }
}

/// The name before the colon of the argument that begins at a token.
fn name_of_argument(asked: &Asked<'_>, first: usize) -> Option<Symbol> {
    let cursor = asked.cursor;
    let colon = cursor.tokens.get(first + 1).filter(|_| first + 1 < cursor.count)?;
    (colon.kind == Kind::Colon).then(|| Symbol::new(cursor.text_of(&cursor.tokens[first])))
}

fn in_statement(asked: &Asked<'_>, keyword: Keyword) -> Type {
    let last_word = asked.cursor.statement().iter().rev().find_map(|t| match t.kind {
        Kind::Word(k) if !matches!(k, Keyword::In) => Some(k),
        _ => None,
    });
    let length = Type::quantity(Dim::LENGTH);
    match (keyword, last_word) {
        (Keyword::Wall, _) => length,
        (Keyword::Step | Keyword::Opening, Some(Keyword::At)) => length,
        (Keyword::Pier | Keyword::Pad | Keyword::Beam, _) => Type::Place,
        (Keyword::Require | Keyword::Expect, _) => Type::Bool,
        (Keyword::Otherwise, _) => Type::Text,
        (_, Some(Keyword::Every | Keyword::Bead)) => length,
        (Keyword::Fasten, Some(Keyword::By)) => Type::Unknown,
        (_, Some(Keyword::By)) => length,
        (_, Some(Keyword::From | Keyword::To)) => Type::Elevation,
        _ => Type::Unknown,
    }
}
