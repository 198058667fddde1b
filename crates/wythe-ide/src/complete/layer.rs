//! A layer line: products of the classes its verb takes, layers on the face, edges, and the clauses still open.

use wythe_model::Class;
use wythe_sema::{Type, allowed_clauses, classes_for};
use wythe_syntax::ast::Verb;
use wythe_syntax::keywords::Keyword;
use wythe_syntax::{Kind, Token};

use super::{Asked, Item, ItemKind, expression, import};
use crate::scope;

/// The names an edge may have, with what each means.
const EDGES: [(&str, &str); 10] = [
    ("top edge", "the upper edge of a layer"),
    ("bottom edge", "the lower edge of a layer"),
    ("end edges", "the upright ends of a layer"),
    ("joints", "between pieces of one layer"),
    ("heads", "the heads of a fastener"),
    ("laps", "where strips of a sheet lap"),
    ("cuts", "around piers and pipes"),
    ("perimeter", "all around a panel"),
    ("head", "the top of a wall or a pier"),
    ("footing", "along the footing"),
];

/// Whether a word opens a layer line.
pub(super) fn is_verb(keyword: Keyword) -> bool {
    verb(keyword).is_some()
}

fn verb(keyword: Keyword) -> Option<Verb> {
    Verb::ALL.into_iter().find(|v| v.word() == keyword.text())
}

/// The verbs.
pub(super) fn verbs() -> Vec<Item> {
    let keywords = Verb::ALL.iter().filter_map(|v| Keyword::find(v.word()));
    keywords.map(|k| Item::new(k.text(), ItemKind::Keyword, 0).docs(k.doc())).collect()
}

/// What may follow in a layer line.
pub(super) fn items(asked: &Asked<'_>, keyword: Keyword) -> Vec<Item> {
    let Some(verb) = verb(keyword) else { return Vec::new() };
    let statement = asked.cursor.statement();
    let clause = statement.iter().enumerate().skip(1).rev().find_map(|(i, t)| match t.kind {
        Kind::Word(k) if is_clause(k) => Some((i, k)),
        _ => None,
    });
    let Some((at, opener)) = clause else {
        return match statement.len() {
            1 => objects(asked, verb),
            _ => clauses(asked, verb),
        };
    };
    let since = statement.len() - at - 1;
    match opener {
        Keyword::As => {
            if since == 0 {
                Vec::new()
            } else {
                clauses(asked, verb)
            }
        }
        Keyword::With => {
            if since == 0 {
                products(asked, &[Class::Fastener])
            } else {
                clauses(asked, verb)
            }
        }
        Keyword::Of => {
            if since == 0 {
                layers(asked)
            } else {
                [to(verb), clauses(asked, verb)].concat()
            }
        }
        Keyword::To if edge_before(statement, at) => {
            if since == 0 {
                structure_and_layers(asked)
            } else {
                clauses(asked, verb)
            }
        }
        Keyword::Along | Keyword::Over | Keyword::Under | Keyword::Into => match since {
            0 => [edges(verb), layers(asked)].concat(),
            _ => [vec![word(Keyword::Of)], to(verb), clauses(asked, verb)].concat(),
        },
        Keyword::From | Keyword::To | Keyword::Every | Keyword::By | Keyword::Bead => {
            let mut out = Vec::new();
            if wants_value(statement.last()) {
                out.extend(expression::value(asked));
            } else if opener == Keyword::From {
                out.push(word(Keyword::To));
            } else {
                out.extend(clauses(asked, verb));
            }
            out
        }
        _ => clauses(asked, verb),
    }
}

fn is_clause(keyword: Keyword) -> bool {
    use Keyword as K;
    matches!(
        keyword,
        K::As
            | K::From
            | K::To
            | K::Along
            | K::Over
            | K::Under
            | K::Into
            | K::With
            | K::Every
            | K::By
            | K::Bead
            | K::Of
    )
}

/// Whether a value is still to come after a token.
fn wants_value(last: Option<&Token>) -> bool {
    last.is_some_and(|t| {
        matches!(t.kind, Kind::Word(_) | Kind::Plus | Kind::Minus | Kind::Star | Kind::Slash | Kind::ParenOpen)
    })
}

/// Whether the `to` at a place belongs to an edge and not to an extent.
fn edge_before(statement: &[Token], at: usize) -> bool {
    statement[..at].iter().rev().find_map(|t| match t.kind {
        Kind::Word(Keyword::From) => Some(false),
        Kind::Word(Keyword::Along | Keyword::Over | Keyword::Under | Keyword::Into) => Some(true),
        _ => None,
    }) == Some(true)
}

fn word(keyword: Keyword) -> Item {
    Item::new(keyword.text(), ItemKind::Keyword, 2).docs(keyword.doc())
}

fn to(verb: Verb) -> Vec<Item> {
    if verb == Verb::Seal { vec![word(Keyword::To)] } else { Vec::new() }
}

/// The clauses the verb takes that are not there yet.
fn clauses(asked: &Asked<'_>, verb: Verb) -> Vec<Item> {
    let said: Vec<&str> = asked.cursor.statement().iter().map(|t| asked.cursor.text_of(t)).collect();
    let open = allowed_clauses(verb).iter().filter(|c| !said.contains(c));
    let keyword = |c: &&str| Keyword::find(c);
    open.filter_map(|c| {
        let keyword = keyword(c)?;
        let insert = match *c {
            "from" => "from ${1:top} to ${2:ground}$0".to_owned(),
            "every" => "every ${1:24}\"$0".to_owned(),
            "by" if verb == Verb::Fasten => "by ${1:6} per ${2:sheet}$0".to_owned(),
            "by" => "by ${1:12}\"$0".to_owned(),
            "bead" => "bead ${1:3/8}\"$0".to_owned(),
            other => format!("{other} $0"),
        };
        Some(Item::new(*c, ItemKind::Keyword, 1).docs(keyword.doc()).inserts(insert))
    })
    .collect()
}

/// What the verb acts on.
fn objects(asked: &Asked<'_>, verb: Verb) -> Vec<Item> {
    match classes_for(verb) {
        [] => layers(asked),
        classes => products(asked, classes),
    }
}

/// Products and parameters of some classes, those of other files with their import.
fn products(asked: &Asked<'_>, classes: &[Class]) -> Vec<Item> {
    let program = asked.project.program();
    let fits = |ty: Option<Type>| match ty {
        Some(Type::Product(Some(class))) => classes.contains(&class),
        Some(Type::Product(None)) => true,
        _ => false,
    };
    let mut out = Vec::new();
    if let Some((def, _)) = scope::around(program, asked.file, asked.cursor.word.0)
        && let Some(wythe_sema::Signature::Buildup { params, .. }) = scope::signature(program, def)
    {
        for param in params.iter().filter(|p| fits(Some(p.ty.clone()))) {
            out.push(Item::new(param.name.as_str(), ItemKind::Parameter, 0).detail(param.ty.written(program)));
        }
    }
    for (name, def) in scope::visible(program, asked.file) {
        if fits(scope::value_type(program, def))
            && let Some(item) = expression::named(asked, name, def)
        {
            out.push(Item { rank: 1, ..item });
        }
    }
    for (name, def) in scope::lendable(asked.project, asked.file) {
        if fits(scope::value_type(program, def))
            && let Some(item) = expression::named(asked, name, def)
            && let Some(edit) = import::import_edit(asked.project, asked.file, def)
        {
            let detail = format!("{} — from {}", item.detail, asked.project.name(def.file));
            out.push(Item { rank: 4, extra: vec![edit], detail, ..item });
        }
    }
    out
}

fn edges(verb: Verb) -> Vec<Item> {
    let lap = verb == Verb::Lap;
    EDGES
        .iter()
        .filter(|_| !lap)
        .map(|(name, docs)| {
            let plain = matches!(*name, "head" | "footing");
            let insert = if plain { (*name).to_owned() } else { format!("{name} of $0") };
            Item::new(*name, ItemKind::Layer, 1).docs(*docs).inserts(insert)
        })
        .collect()
}

fn structure_and_layers(asked: &Asked<'_>) -> Vec<Item> {
    let structure = Item::new("structure", ItemKind::Layer, 0).docs("what the layers of a surface go onto");
    [vec![structure], layers(asked)].concat()
}

/// The names of layers on the face so far: what is placed, by its name or its `as`, and what fastens it.
fn layers(asked: &Asked<'_>) -> Vec<Item> {
    let cursor = asked.cursor;
    let from = cursor.opens.first().map_or(0, |o| o.at);
    let tokens = &cursor.tokens[from..cursor.start.min(cursor.count)];
    let mut out: Vec<Item> = Vec::new();
    for (i, token) in tokens.iter().enumerate() {
        let Kind::Word(keyword) = token.kind else { continue };
        let places = verb(keyword).is_some_and(|v| !classes_for(v).is_empty());
        if !places && !matches!(keyword, Keyword::As | Keyword::With) {
            continue;
        }
        let Some(name) = tokens.get(i + 1).filter(|t| t.kind == Kind::Name) else { continue };
        let name = cursor.text_of(name);
        if !out.iter().any(|o| o.label == name) {
            out.push(Item::new(name, ItemKind::Layer, 0).detail("on this face"));
        }
    }
    out
}
