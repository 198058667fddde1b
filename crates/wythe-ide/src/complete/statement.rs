//! The beginning of a line: declarations, properties, sections and statements; and what follows a word in one.

use wythe_model::{Class, SurfaceKind};
use wythe_sema::{DefId, Signature, Type};
use wythe_source::Symbol;
use wythe_syntax::Kind;
use wythe_syntax::ast::DeclKind;
use wythe_syntax::keywords::{Keyword, WordClass, words_of};

use super::{Asked, Item, ItemKind, expression, snippets};
use crate::scope;
use crate::setting::{self, Setting, statements};

/// What may begin a line.
pub(super) fn beginnings(asked: &Asked<'_>) -> Vec<Item> {
    let program = asked.project.program();
    let mut out = match asked.setting {
        Setting::File => declarations(asked),
        Setting::Record(def) => properties(asked, def),
        Setting::Faces(kind) => faces(asked, kind),
        Setting::Face | Setting::During | Setting::Test | Setting::Function | Setting::New => Vec::new(),
    };
    for &keyword in statements(program, asked.setting) {
        let insert = snippets::statement(keyword).unwrap_or(keyword.text());
        out.push(Item::new(keyword.text(), ItemKind::Keyword, 2).docs(keyword.doc()).inserts(insert));
    }
    out
}

/// Declarations, each with a snippet.
pub(super) fn declarations(_asked: &Asked<'_>) -> Vec<Item> {
    let keywords = Keyword::ALL.iter().filter(|k| k.declares());
    keywords
        .map(|keyword| {
            let insert = snippets::declaration(*keyword).map_or_else(|| format!("{} ", keyword.text()), str::to_owned);
            Item::new(keyword.text(), ItemKind::Keyword, 1).docs(keyword.doc()).inserts(insert)
        })
        .collect()
}

/// The properties and sections a block has not said yet.
fn properties(asked: &Asked<'_>, def: DefId) -> Vec<Item> {
    let program = asked.project.program();
    let Some(Signature::Record(types)) = scope::signature(program, def) else { return Vec::new() };
    let said = said(asked);
    let mut out = Vec::new();
    for (name, number) in setting::properties(program, def) {
        if said.contains(&name) {
            continue;
        }
        let field = &types[number as usize];
        let docs = match program.decl(def).map(|d| &d.kind) {
            Some(DeclKind::Record(fields)) => program.docs(fields[number as usize].docs),
            _ => String::new(),
        };
        let section = matches!(field.ty.required(), Type::Record(inner) if is_block(asked, *inner));
        let (label, insert) = match section {
            true => (name.to_string(), format!("{name} {{\n    $0\n}}")),
            false => (name.to_string(), format!("{name}: $0")),
        };
        let due = !field.may_be_left_out();
        let detail = if due { format!("{}, due", field.ty.written(program)) } else { field.ty.written(program) };
        let item = Item::new(label, ItemKind::Property, u8::from(!due));
        out.push(item.detail(detail).docs(docs).inserts(insert));
    }
    out
}

/// Whether a record is written as a section: one that describes a block, as against a part rules see.
fn is_block(asked: &Asked<'_>, def: DefId) -> bool {
    let name = asked.project.program().name_of(def);
    name.as_str().ends_with("Block") || name.as_str() == "Soil"
}

/// The names that stand at the beginning of a line or before a brace in the block at hand, before the cursor.
fn said(asked: &Asked<'_>) -> Vec<Symbol> {
    let cursor = asked.cursor;
    let from = cursor.opens.last().map_or(0, |o| o.at + 1);
    let mut depth = 0;
    let mut out = Vec::new();
    for i in from..cursor.tokens.len() {
        let token = &cursor.tokens[i];
        match token.kind {
            Kind::BraceOpen | Kind::ParenOpen | Kind::BracketOpen => depth += 1,
            Kind::BraceClose | Kind::ParenClose | Kind::BracketClose if depth == 0 => break,
            Kind::BraceClose | Kind::ParenClose | Kind::BracketClose => depth -= 1,
            Kind::Name if depth == 0 && token.start != cursor.word.0 => {
                let next = cursor.tokens.get(i + 1).map(|t| t.kind);
                if matches!(next, Some(Kind::Colon | Kind::BraceOpen)) {
                    out.push(Symbol::new(cursor.text_of(token)));
                }
            }
            _ => {}
        }
    }
    out
}

fn faces(asked: &Asked<'_>, kind: SurfaceKind) -> Vec<Item> {
    let said = said(asked);
    let mut out: Vec<Item> = kind
        .faces()
        .iter()
        .filter(|f| !said.contains(&Symbol::new(f)))
        .map(|f| {
            Item::new(*f, ItemKind::Property, 0)
                .detail("a face")
                .docs("its layers, in the order they go on")
                .inserts(format!("{f} {{\n    during ${{1}} {{\n        $0\n    }}\n}}"))
        })
        .collect();
    if let Some(def) = asked.project.program().prelude.def("BuildupBlock") {
        out.extend(properties(asked, def));
    }
    out
}

/// What follows in a line that a word opens.
pub(super) fn after(asked: &Asked<'_>, keyword: Keyword) -> Vec<Item> {
    use Keyword as K;
    let statement = asked.cursor.statement();
    let skip = usize::from(keyword == K::Pub);
    let statement = &statement[skip..];
    let Some(keyword) = asked.cursor.keyword(asked.cursor.start + skip) else { return Vec::new() };
    let last = statement.last().map(|t| t.kind);
    let last_is = |k: Keyword| last == Some(Kind::Word(k));
    let count = statement.len();
    match keyword {
        K::During => {
            if count == 1 {
                of_type(asked, &Type::Phase)
            } else {
                Vec::new()
            }
        }
        K::Foundation => match count {
            2 => vec![word(K::On)],
            _ if last_is(K::On) => sites(asked),
            _ => Vec::new(),
        },
        K::Buildup if last_is(K::For) => {
            ["wall", "pier", "opening", "ground"].map(|k| Item::new(k, ItemKind::Keyword, 0)).into()
        }
        K::Buildup if last == Some(Kind::Colon) => types(asked),
        K::Buildup if last == Some(Kind::ParenClose) || count == 2 => vec![word(K::For)],
        K::Product if last == Some(Kind::Colon) => {
            Class::ALL.map(|c| Item::new(c.name(), ItemKind::Type, 0).detail("a class of products")).into()
        }
        K::Wall => match count {
            2 => vec![word(K::Runs)],
            3 => winds(),
            _ => expression::value(asked),
        },
        K::Opening => match count {
            2 => vec![word(K::In)],
            3 => expression::walls(asked),
            4 => vec![word(K::At)],
            _ => expression::value(asked),
        },
        K::Waiver => match last {
            Some(Kind::Word(K::Waiver)) => vec![word(K::Of)],
            Some(Kind::Word(K::Of)) => rules(asked),
            Some(Kind::Word(K::In)) => of_sort(asked, |kind| matches!(kind, DeclKind::Foundation { .. })),
            _ => vec![word(K::In), word(K::For)],
        },
        K::Amend if count == 1 => rules(asked),
        K::Rate if count == 1 => super::layer::verbs(),
        K::Waste if count == 1 => Class::ALL.map(|c| Item::new(c.name(), ItemKind::Type, 0)).into(),
        K::Joint => Vec::new(),
        K::Let | K::Fn if last == Some(Kind::Colon) || last == Some(Kind::Arrow) => types(asked),
        K::For => match count {
            1 => vec![word(K::Each)],
            3 => vec![word(K::In)],
            _ => with_words(asked, &[K::Where, K::And, K::Or]),
        },
        K::Expect => with_words(asked, &[K::No, K::Finding, K::Within, K::In]),
        K::Require
        | K::Otherwise
        | K::Let
        | K::Give
        | K::Step
        | K::Pier
        | K::Pad
        | K::Beam
        | K::Fn
        | K::Unit
        | K::Rate
        | K::Waste => with_words(asked, &[K::And, K::Or, K::Not]),
        _ => Vec::new(),
    }
}

fn with_words(asked: &Asked<'_>, words: &[Keyword]) -> Vec<Item> {
    let mut out = expression::value(asked);
    out.extend(words.iter().map(|k| word(*k)));
    out
}

fn word(keyword: Keyword) -> Item {
    Item::new(keyword.text(), ItemKind::Keyword, 2).docs(keyword.doc())
}

fn winds() -> Vec<Item> {
    let winds = words_of(WordClass::Wind).map(|w| Item::new(w.text, ItemKind::Keyword, 0).docs(w.doc));
    winds.chain([Item::new("skew", ItemKind::Keyword, 1).docs("another angle, by `bearing`")]).collect()
}

fn types(asked: &Asked<'_>) -> Vec<Item> {
    let program = asked.project.program();
    let mut out: Vec<Item> = wythe_units::TYPE_NAMES
        .iter()
        .map(|(name, dim)| Item::new(*name, ItemKind::Type, 0).detail(dim.describe()))
        .collect();
    out.extend(Class::ALL.map(|c| Item::new(c.name(), ItemKind::Type, 1).detail("a class of products")));
    for (name, def) in scope::visible(program, asked.file) {
        if matches!(scope::signature(program, def), Some(Signature::Enum { .. } | Signature::Record(_))) {
            let docs = program.decl(def).map(|d| program.docs(d.docs)).unwrap_or_default();
            out.push(Item::new(name.as_str(), ItemKind::Type, 2).docs(docs));
        }
    }
    out.extend(["Bool", "Text", "Date", "Elevation", "Temperature", "Phase"].map(|n| Item::new(n, ItemKind::Type, 0)));
    out
}

fn of_type(asked: &Asked<'_>, ty: &Type) -> Vec<Item> {
    let program = asked.project.program();
    let mut out = Vec::new();
    for (name, def) in scope::visible(program, asked.file) {
        if scope::value_type(program, def).as_ref() == Some(ty)
            && let Some(item) = expression::named(asked, name, def)
        {
            out.push(Item { rank: 0, ..item });
        }
    }
    for (name, def) in scope::lendable(asked.project, asked.file) {
        if scope::value_type(program, def).as_ref() == Some(ty)
            && let Some(item) = expression::named(asked, name, def)
            && let Some(edit) = super::import::import_edit(asked.project, asked.file, def)
        {
            out.push(Item { rank: 4, extra: vec![edit], ..item });
        }
    }
    out
}

fn sites(asked: &Asked<'_>) -> Vec<Item> {
    of_sort(asked, |kind| matches!(kind, DeclKind::Site(_)))
}

fn rules(asked: &Asked<'_>) -> Vec<Item> {
    of_sort(asked, |kind| matches!(kind, DeclKind::Rule(_)))
}

fn of_sort(asked: &Asked<'_>, fits: impl Fn(&DeclKind) -> bool) -> Vec<Item> {
    let program = asked.project.program();
    let mut out = Vec::new();
    for (name, def) in scope::visible(program, asked.file) {
        if let Some(decl) = program.decl(def).filter(|d| fits(&d.kind)) {
            out.push(Item::new(name.as_str(), ItemKind::Declaration, 0).docs(program.docs(decl.docs)));
        }
    }
    for (name, def) in scope::lendable(asked.project, asked.file) {
        if let Some(decl) = program.decl(def).filter(|d| fits(&d.kind))
            && let Some(edit) = super::import::import_edit(asked.project, asked.file, def)
        {
            let item = Item::new(name.as_str(), ItemKind::Declaration, 4).docs(program.docs(decl.docs));
            out.push(Item { extra: vec![edit], ..item.detail(format!("from {}", asked.project.name(def.file))) });
        }
    }
    out
}
