//! The type of a half-written chain of names, fields and calls, read from its tokens where no tree was made of it.

use wythe_sema::{DefId, Signature, Type};
use wythe_source::Symbol;
use wythe_syntax::keywords::Keyword;
use wythe_syntax::{Kind, Token};

use super::{Asked, expression};
use crate::scope;

/// A link of the chain.
enum Link<'t> {
    Name(&'t str),
    Called,
    Taken,
}

/// The type of the chain that ends right before a token.
pub(super) fn before(asked: &Asked<'_>, token: &Token) -> Option<Type> {
    let end = asked.cursor.tokens.iter().position(|t| t.start == token.start)?;
    let links = links(asked, end);
    let mut links = links.iter().rev();
    let Some(Link::Name(first)) = links.next() else { return None };
    let mut now = named(asked, Symbol::new(first))?;
    for link in links {
        now = match link {
            Link::Name(name) => field(asked, &now, Symbol::new(name))?,
            // A name that can be called already stands for its result.
            Link::Called => now,
            Link::Taken => match now {
                Type::List(inner) => (*inner).clone(),
                _ => return None,
            },
        };
    }
    Some(now)
}

/// The links before a token, last first.
fn links<'a>(asked: &Asked<'a>, end: usize) -> Vec<Link<'a>> {
    let tokens = asked.cursor.tokens;
    let mut out = Vec::new();
    let mut at = end;
    while let Some(before) = at.checked_sub(1) {
        match tokens[before].kind {
            Kind::Name | Kind::Type | Kind::Word(Keyword::Wall | Keyword::Pier | Keyword::Opening | Keyword::Site) => {
                out.push(Link::Name(asked.cursor.text_of(&tokens[before])));
                match before.checked_sub(1).map(|i| tokens[i].kind) {
                    Some(Kind::Dot) => at = before - 1,
                    _ => break,
                }
            }
            closer @ (Kind::ParenClose | Kind::BracketClose) => {
                let opener = if closer == Kind::ParenClose { Kind::ParenOpen } else { Kind::BracketOpen };
                let mut depth = 0;
                let mut open = before;
                loop {
                    if tokens[open].kind == closer {
                        depth += 1;
                    } else if tokens[open].kind == opener {
                        depth -= 1;
                    }
                    if depth == 0 || open == 0 {
                        break;
                    }
                    open -= 1;
                }
                out.push(if closer == Kind::ParenClose { Link::Called } else { Link::Taken });
                at = open;
            }
            _ => break,
        }
    }
    out
}

fn named(asked: &Asked<'_>, name: Symbol) -> Option<Type> {
    let program = asked.project.program();
    let local = expression::locals(asked).into_iter().rev().find(|(n, _)| *n == name);
    if let Some((_, Some(ty))) = local {
        return Some(ty);
    }
    if name.as_str() == "site" {
        return program.prelude.def("Site").map(Type::Record);
    }
    if let Some(each) = bound_by_loop(asked, name) {
        return Some(each);
    }
    scope::value_type(program, scope::lookup(program, asked.file, name)?)
}

/// The type of a name bound by `for each` whose line could not be read.
fn bound_by_loop(asked: &Asked<'_>, name: Symbol) -> Option<Type> {
    let tokens = &asked.cursor.tokens[..asked.cursor.count];
    let at = tokens.windows(3).rposition(|w| {
        w[0].kind == Kind::Word(Keyword::Each)
            && asked.cursor.text_of(&w[1]) == name.as_str()
            && w[2].kind == Kind::Word(Keyword::In)
    })?;
    let list = tokens.get(at + 3)?;
    let foundation = asked.project.program().prelude.def("Foundation")?;
    match field(asked, &Type::Record(foundation), Symbol::new(asked.cursor.text_of(list)))? {
        Type::List(inner) => Some((*inner).clone()),
        _ => None,
    }
}

fn field(asked: &Asked<'_>, of: &Type, name: Symbol) -> Option<Type> {
    let program = asked.project.program();
    let record = |name: &str| program.prelude.def(name).map(Type::Record);
    let def: DefId = match of.required() {
        Type::Record(def) => *def,
        Type::Product(Some(class)) => program.prelude.def(class.name())?,
        _ => return None,
    };
    if let Some((_, field)) = scope::signature(program, def).and_then(|s| s.field(name)) {
        return Some(field.ty.clone());
    }
    // A part by its name, or a function called on the value.
    match name.as_str() {
        "wall" => record("Wall"),
        "pier" => record("Pier"),
        "opening" => record("Opening"),
        _ => match scope::signature(program, scope::lookup(program, asked.file, name)?)? {
            Signature::Function { result, .. } => Some(result.clone()),
            _ => None,
        },
    }
}
