//! The outline of a file, and names across the project.

use wythe_project::Project;
use wythe_source::{FileId, Span};
use wythe_syntax::ast::{Block, DeclKind, Item, StatementKind};

/// What sort of thing a symbol is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum SymbolKind {
    /// A value.
    Value,
    /// A function.
    Function,
    /// A unit.
    Unit,
    /// A record.
    Record,
    /// An enumeration.
    Enum,
    /// A member of an enumeration or a field of a record.
    Member,
    /// A product.
    Product,
    /// A build-up.
    Buildup,
    /// A joint.
    Joint,
    /// A phase.
    Phase,
    /// A site.
    Site,
    /// A foundation.
    Foundation,
    /// A part of a foundation: wall, opening, pier, pad, beam.
    Part,
    /// A face of a build-up or a section of a block.
    Section,
    /// A rule, an amendment or a waiver.
    Rule,
    /// Prices, rates or a log.
    Ledger,
    /// A test.
    Test,
}

/// An entry of an outline.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Outline {
    /// Its name.
    pub name: String,
    /// A word beside it: the class of a product, the surface of a build-up.
    pub detail: String,
    /// What it is.
    pub kind: SymbolKind,
    /// All of it.
    pub span: Span,
    /// Its name's place.
    pub name_span: Span,
    /// What it holds.
    pub children: Vec<Outline>,
}

/// The outline of a file.
pub fn document(project: &Project, file: FileId) -> Vec<Outline> {
    let Some(parsed) = project.parsed(file) else { return Vec::new() };
    parsed
        .module
        .decls
        .iter()
        .map(|decl| {
            let (kind, detail) = sort(&decl.kind);
            let mut children = match &decl.kind {
                DeclKind::Enum { members, .. } => {
                    members.iter().map(|m| leaf(m.name.as_str(), m.span, SymbolKind::Member)).collect()
                }
                DeclKind::Record(fields) => {
                    fields.iter().map(|f| leaf(f.name.name.as_str(), f.name.span, SymbolKind::Member)).collect()
                }
                _ => Vec::new(),
            };
            if let Some(block) = decl.kind.block() {
                parts(block, &mut children);
            }
            Outline {
                name: decl.name.name.to_string(),
                detail,
                kind,
                span: decl.span,
                name_span: decl.name.span,
                children,
            }
        })
        .collect()
}

/// Names in the project that hold the letters asked for, in order, wherever they stand.
pub fn workspace(project: &Project, query: &str) -> Vec<Outline> {
    let mut out = Vec::new();
    for file in project.program().files() {
        if project.entry(file).is_none() {
            continue;
        }
        for symbol in document(project, file) {
            out.extend(symbol.children.iter().filter(|c| c.kind == SymbolKind::Part && holds(&c.name, query)).cloned());
            if holds(&symbol.name, query) {
                out.push(Outline { children: Vec::new(), ..symbol });
            }
        }
    }
    out.sort_by(|a, b| (a.name.len(), &a.name, a.span).cmp(&(b.name.len(), &b.name, b.span)));
    out
}

fn holds(name: &str, query: &str) -> bool {
    let mut letters = name.chars().flat_map(char::to_lowercase);
    query.chars().flat_map(char::to_lowercase).all(|q| letters.any(|l| l == q))
}

fn leaf(name: &str, span: Span, kind: SymbolKind) -> Outline {
    Outline { name: name.into(), detail: String::new(), kind, span, name_span: span, children: Vec::new() }
}

fn parts(block: &Block, out: &mut Vec<Outline>) {
    for item in &block.items {
        match item {
            Item::Section { name, block } => {
                let mut section = leaf(name.name.as_str(), name.span, SymbolKind::Section);
                section.span = name.span.to(block.span);
                parts(block, &mut section.children);
                out.push(section);
            }
            Item::Statement(statement) => {
                let (name, word) = match &statement.kind {
                    StatementKind::Wall { name, .. } => (*name, "wall"),
                    StatementKind::Opening { name, .. } => (*name, "opening"),
                    StatementKind::Pier { name, .. } => (*name, "pier"),
                    StatementKind::Piers { name, .. } => (*name, "piers"),
                    StatementKind::Pad { name, .. } => (*name, "pad"),
                    StatementKind::Beam { name, .. } => (*name, "beam"),
                    StatementKind::During { phase, .. } => (*phase, "during"),
                    _ => continue,
                };
                let mut part = leaf(name.name.as_str(), name.span, SymbolKind::Part);
                part.span = statement.span;
                part.detail = word.into();
                out.push(part);
            }
            Item::Property { .. } => {}
        }
    }
}

fn sort(kind: &DeclKind) -> (SymbolKind, String) {
    use SymbolKind as K;
    let plain = |kind, word: &str| (kind, word.to_owned());
    match kind {
        DeclKind::Let(_) => plain(K::Value, "let"),
        DeclKind::Fn(_) => plain(K::Function, "fn"),
        DeclKind::Unit(_) => plain(K::Unit, "unit"),
        DeclKind::Record(_) => plain(K::Record, "record"),
        DeclKind::Enum { .. } => plain(K::Enum, "enum"),
        DeclKind::Product { class, .. } => (K::Product, class.name.to_string()),
        DeclKind::Buildup { kind, .. } => (K::Buildup, format!("for {}", kind.name)),
        DeclKind::Joint { first, second, .. } => (
            K::Joint,
            format!("{}.{} to {}.{}", first.kind.name, first.surface.name, second.kind.name, second.surface.name),
        ),
        DeclKind::Phase(_) => plain(K::Phase, "phase"),
        DeclKind::Site(_) => plain(K::Site, "site"),
        DeclKind::Foundation { site, .. } => (K::Foundation, format!("on {}", site.name)),
        DeclKind::Rule(_) => plain(K::Rule, "rule"),
        DeclKind::Amend { .. } => plain(K::Rule, "amend"),
        DeclKind::Waiver { .. } => plain(K::Rule, "waiver"),
        DeclKind::Prices(_) => plain(K::Ledger, "prices"),
        DeclKind::Rates(_) => plain(K::Ledger, "rates"),
        DeclKind::Log(_) => plain(K::Ledger, "log"),
        DeclKind::Test { .. } => plain(K::Test, "test"),
    }
}
