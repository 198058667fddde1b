//! Values: what fits the type that is due first, then every name in reach, then names other files could lend.

use wythe_model::Class;
use wythe_sema::{DefId, Signature, Type};
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{Block, DeclKind, Item as BlockItem, StatementKind};
use wythe_units::{Dim, UnitSystem, preferred_unit};

use super::expected::{before, expected};
use super::{Asked, Item, ItemKind, chain, import};
use crate::scope;
use crate::signature::called;

/// The fields of the value before the dot, and the functions that can be called on it.
pub(super) fn fields(asked: &Asked<'_>) -> Vec<Item> {
    let program = asked.project.program();
    let Some(dot) = asked.cursor.last() else { return Vec::new() };
    let Some(ty) = before(asked, dot).or_else(|| chain::before(asked, dot)) else { return module_members(asked) };
    let mut out = Vec::new();
    match ty.required() {
        Type::Record(def) => {
            let docs = program.decl(*def).map(|d| &d.kind);
            let Some(Signature::Record(types)) = scope::signature(program, *def) else { return out };
            for (number, field) in types.iter().enumerate() {
                let docs = match docs {
                    Some(DeclKind::Record(fields)) => program.docs(fields[number].docs),
                    _ => String::new(),
                };
                out.push(
                    Item::new(field.name.as_str(), ItemKind::Property, 0).detail(field.ty.written(program)).docs(docs),
                );
            }
        }
        Type::Product(Some(class)) => out.extend(product_fields(asked, *class)),
        Type::Size(_) => out.extend(["width", "height"].map(|n| Item::new(n, ItemKind::Property, 0))),
        Type::Place => out.extend(["x", "y"].map(|n| Item::new(n, ItemKind::Property, 0).detail("Length"))),
        Type::Range(_) => out.extend(["low", "high"].map(|n| Item::new(n, ItemKind::Property, 0))),
        _ => {}
    }
    for (name, def) in scope::visible(program, asked.file) {
        if let Some(Signature::Function { params, result }) = scope::signature(program, def)
            && let Some(first) = params.first()
            && first.ty.accepts(ty.required())
            && !matches!(first.ty, Type::Generic(_))
        {
            let rest = if params.len() > 1 { format!("{name}($1)$0") } else { format!("{name}()$0") };
            let docs = program.decl(def).map(|d| program.docs(d.docs)).unwrap_or_default();
            out.push(
                Item::new(name.as_str(), ItemKind::Function, 1)
                    .detail(result.written(program))
                    .docs(docs)
                    .inserts(rest),
            );
        }
    }
    out
}

fn product_fields(asked: &Asked<'_>, class: Class) -> Vec<Item> {
    let program = asked.project.program();
    let Some(def) = program.prelude.def(class.name()) else { return Vec::new() };
    let Some(Signature::Record(types)) = scope::signature(program, def) else { return Vec::new() };
    types.iter().map(|f| Item::new(f.name.as_str(), ItemKind::Property, 0).detail(f.ty.written(program))).collect()
}

/// Members of an enumeration named before the dot.
fn module_members(asked: &Asked<'_>) -> Vec<Item> {
    let cursor = asked.cursor;
    let Some(name) = cursor.count.checked_sub(2).and_then(|i| cursor.tokens.get(i)) else { return Vec::new() };
    let program = asked.project.program();
    let def = scope::lookup(program, asked.file, Symbol::new(cursor.text_of(name)));
    def.map_or_else(Vec::new, |def| members(asked, def, 0))
}

fn members(asked: &Asked<'_>, def: DefId, rank: u8) -> Vec<Item> {
    let program = asked.project.program();
    let Some(Signature::Enum { members, .. }) = scope::signature(program, def) else { return Vec::new() };
    let docs = program.decl(def).map(|d| program.docs(d.docs)).unwrap_or_default();
    let of = program.name_of(def);
    members
        .iter()
        .map(|m| Item::new(m.as_str(), ItemKind::Member, rank).detail(of.as_str()).docs(docs.clone()))
        .collect()
}

/// An argument: the names of parameters not given yet, then values.
pub(super) fn argument(asked: &Asked<'_>) -> Vec<Item> {
    let mut out = value(asked);
    let program = asked.project.program();
    let Some((def, _, first)) = called(asked.project, asked.file, asked.cursor) else { return out };
    if asked.cursor.count > first {
        return out;
    }
    let names: Vec<(Symbol, String)> = match scope::signature(program, def) {
        Some(Signature::Function { params, .. } | Signature::Buildup { params, .. }) => {
            params.iter().map(|p| (p.name, p.ty.written(program))).collect()
        }
        Some(Signature::Record(fields)) => fields.iter().map(|f| (f.name, f.ty.written(program))).collect(),
        _ => return out,
    };
    let Some((open, ..)) = asked.cursor.call() else { return out };
    let given: Vec<&str> =
        asked.cursor.tokens[open.at..asked.cursor.count].iter().map(|t| asked.cursor.text_of(t)).collect();
    for (name, ty) in names {
        if !given.contains(&name.as_str()) {
            let item = Item::new(format!("{name}:"), ItemKind::Parameter, 0).detail(ty);
            out.push(item.inserts(format!("{name}: $0")));
        }
    }
    out
}

/// A value of the type that is due.
pub(super) fn value(asked: &Asked<'_>) -> Vec<Item> {
    let due = expected(asked);
    let mut out = fitting(asked, &due);
    out.extend(names(asked, &due));
    out
}

/// What the type itself offers: members, truths, figures with the unit that is due, elevations.
fn fitting(asked: &Asked<'_>, due: &Type) -> Vec<Item> {
    let keyword = |word: &str| Item::new(word, ItemKind::Keyword, 1);
    match due.required() {
        Type::Enum(def) => members(asked, *def, 0),
        Type::Bool => vec![keyword("true"), keyword("false")],
        Type::Text => vec![Item::new("\"…\"", ItemKind::Value, 0).inserts("\"$1\"$0").detail("a text")],
        Type::Weather => ["monthly", "hourly"]
            .map(|f| Item::new(f, ItemKind::Function, 0).inserts(format!("{f}(\"$1\")$0")).detail("Weather"))
            .into(),
        Type::Table => vec![Item::new("table", ItemKind::Function, 0).inserts("table(\"$1\")$0").detail("Table")],
        Type::Elevation => ["datum", "top", "sill", "grade", "ground", "footing"]
            .map(|w| Item::new(w, ItemKind::Value, 0).detail("an elevation"))
            .into(),
        Type::Place => vec![Item::new("(x, y)", ItemKind::Value, 0).inserts("(${1:0'}, ${2:0'})$0").detail("a place")],
        Type::Quantity(dim, kind) if *dim == Dim::LENGTH && kind.is_none() => lengths(asked),
        Type::Quantity(dim, kind) => preferred_unit(*dim, *kind, asked.project.manifest().display.system)
            .map(|(unit, _)| {
                let label = format!("… {}", unit.text());
                Item::new(label, ItemKind::Unit, 0)
                    .inserts(format!("${{1:0}} {}$0", unit.text()))
                    .detail(dim.describe())
            })
            .into_iter()
            .collect(),
        Type::Class => Class::ALL.map(|c| Item::new(c.name(), ItemKind::Type, 0).detail("a class of products")).into(),
        _ => Vec::new(),
    }
}

fn lengths(asked: &Asked<'_>) -> Vec<Item> {
    let item = |label: &str, insert: &str| Item::new(label, ItemKind::Unit, 0).inserts(insert).detail("a length");
    match asked.project.manifest().display.system {
        UnitSystem::Us => vec![item("…\"", "${1:0}\"$0"), item("…' …\"", "${1:0}' ${2:0}\"$0")],
        UnitSystem::Si => vec![item("… mm", "${1:0} mm$0"), item("… m", "${1:0} m$0")],
    }
}

/// Whether a value of a type that is known may stand where another is due.
fn is(due: &Type, given: &Type) -> bool {
    !matches!(given, Type::Unknown) && due.accepts(given)
}

/// Names in reach whose type fits, then the others; then fitting ones other files could lend.
fn names(asked: &Asked<'_>, due: &Type) -> Vec<Item> {
    let program = asked.project.program();
    let known = !matches!(due, Type::Unknown);
    let mut out = Vec::new();
    for (name, ty) in locals(asked) {
        let fits = ty.as_ref().is_none_or(|ty| is(due, ty));
        let detail = ty.map(|t| t.written(program)).unwrap_or_default();
        out.push(Item::new(name.as_str(), ItemKind::Value, if fits { 1 } else { 5 }).detail(detail));
    }
    for (name, def) in scope::visible(program, asked.file) {
        let Some(item) = named(asked, name, def) else { continue };
        let fits = scope::value_type(program, def).is_some_and(|ty| is(due, &ty));
        let rank = match (known, fits) {
            (true, true) => 1,
            (true, false) => 6,
            (false, _) => 3,
        };
        out.push(Item { rank, ..item });
    }
    for (name, def) in scope::lendable(asked.project, asked.file) {
        let fits = known && scope::value_type(program, def).is_some_and(|ty| is(due, &ty));
        if fits || (asked.prefix.len() > 1 && !known) {
            let Some(item) = named(asked, name, def) else { continue };
            let Some(edit) = import::import_edit(asked.project, asked.file, def) else { continue };
            let detail = format!("{} — from {}", item.detail, asked.project.name(def.file));
            out.push(Item { rank: 4, extra: vec![edit], detail, ..item });
        }
    }
    out
}

/// A declared name as an item; nothing for what no expression can name.
pub(super) fn named(asked: &Asked<'_>, name: Symbol, def: DefId) -> Option<Item> {
    let program = asked.project.program();
    let decl = program.decl(def)?;
    let signature = scope::signature(program, def)?;
    let (kind, detail, insert) = match signature {
        Signature::Function { params, result } => {
            let insert = if params.is_empty() { format!("{name}()") } else { format!("{name}($1)$0") };
            (ItemKind::Function, result.written(program), insert)
        }
        Signature::Buildup { params, kind } => {
            let needed: Vec<_> = params
                .iter()
                .filter(|p| p.default.is_none())
                .enumerate()
                .map(|(i, p)| format!("{}: ${{{}}}", p.name, i + 1))
                .collect();
            let insert = if needed.is_empty() { name.to_string() } else { format!("{name}({})$0", needed.join(", ")) };
            (ItemKind::Buildup, format!("for {}", kind.word()), insert)
        }
        Signature::Value(ty) => {
            let kind = match ty {
                Type::Product(_) => ItemKind::Product,
                Type::Phase => ItemKind::Phase,
                Type::Joint | Type::Record(_) => ItemKind::Declaration,
                _ => ItemKind::Value,
            };
            (kind, ty.written(program), name.to_string())
        }
        Signature::Enum { .. } => (ItemKind::Type, "enum".into(), name.to_string()),
        Signature::Record(_) if def.file != program.prelude.file => {
            (ItemKind::Type, "record".into(), format!("{name}($1)$0"))
        }
        _ => return None,
    };
    Some(Item::new(name.as_str(), kind, 3).detail(detail).docs(program.docs(decl.docs)).inserts(insert))
}

/// Names bound around the cursor: parameters, `let`s, `for each`, walls.
pub(super) fn locals(asked: &Asked<'_>) -> Vec<(Symbol, Option<Type>)> {
    let program = asked.project.program();
    let Some((def, decl)) = scope::around(program, asked.file, asked.cursor.word.0) else { return Vec::new() };
    let mut out = Vec::new();
    if let Some(Signature::Function { params, .. } | Signature::Buildup { params, .. }) = scope::signature(program, def)
    {
        out.extend(params.iter().map(|p| (p.name, Some(p.ty.clone()))));
    }
    if let DeclKind::Fn(f) = &decl.kind {
        out.extend(f.lets.iter().map(|l| (l.name.name, None)));
    }
    if let Some(block) = decl.kind.block() {
        bound(asked, block, &mut out);
    }
    out
}

fn bound(asked: &Asked<'_>, block: &Block, out: &mut Vec<(Symbol, Option<Type>)>) {
    let checked = asked.project.program().checked(asked.file);
    for item in &block.items {
        let BlockItem::Statement(statement) = item else { continue };
        if statement.span.start >= asked.cursor.word.0 {
            continue;
        }
        match &statement.kind {
            StatementKind::Let(binding) => {
                out.push((binding.name.name, checked.map(|c| c.ty(binding.value).clone())));
            }
            StatementKind::ForEach { name, list, .. } => {
                let of = checked.map(|c| c.ty(*list).clone());
                let each = of.and_then(|ty| match ty {
                    Type::List(inner) => Some((*inner).clone()),
                    _ => None,
                });
                out.push((name.name, each));
            }
            _ => {}
        }
    }
}

/// The names of a foundation's walls.
pub(super) fn walls(asked: &Asked<'_>) -> Vec<Item> {
    let program = asked.project.program();
    let Some((_, decl)) = scope::around(program, asked.file, asked.cursor.word.0) else { return Vec::new() };
    let Some(block) = decl.kind.block() else { return Vec::new() };
    let mut out = Vec::new();
    for item in &block.items {
        if let BlockItem::Section { name, block } = item
            && name.name.as_str() == "walls"
        {
            for item in &block.items {
                if let BlockItem::Statement(s) = item
                    && let StatementKind::Wall { name, direction, length, .. } = &s.kind
                {
                    let length: Span =
                        program.module(asked.file).map_or_else(Span::default, |d| d.module[*length].span);
                    let detail = format!("runs {} {}", direction.name, program.text(length));
                    out.push(Item::new(name.name.as_str(), ItemKind::Layer, 0).detail(detail));
                }
            }
        }
    }
    out
}
