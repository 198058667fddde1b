//! What may be written at the cursor: names, properties, statements, clauses, units, paths.

mod chain;
mod expected;
mod expression;
mod import;
mod layer;
mod snippets;
mod statement;
mod units;
mod uses;

use wythe_findings::Edit;
use wythe_project::Project;
use wythe_source::{FileId, Span};
use wythe_syntax::keywords::Keyword;
use wythe_syntax::{Kind, tokens};

use crate::cursor::Cursor;
use crate::setting::{Setting, setting};

pub use import::import_edit;
pub(crate) use import::relative;

/// What sort of thing an item is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum ItemKind {
    /// A word of the language.
    Keyword,
    /// A property of a block.
    Property,
    /// A value.
    Value,
    /// A product.
    Product,
    /// A function.
    Function,
    /// A build-up.
    Buildup,
    /// A phase.
    Phase,
    /// A member of an enumeration.
    Member,
    /// A type or a class.
    Type,
    /// A unit.
    Unit,
    /// A layer on the face, or an edge.
    Layer,
    /// Another declaration: site, foundation, rule, joint.
    Declaration,
    /// A file or a code pack.
    File,
    /// A parameter by its name.
    Parameter,
}

/// One thing that may be written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Item {
    /// As the list shows it.
    pub label: String,
    /// What it is.
    pub kind: ItemKind,
    /// A few words beside it.
    pub detail: String,
    /// Its documentation, in Markdown.
    pub docs: String,
    /// What is written; `$1`, `${1:name}` and `$0` mark stops where `snippet` holds.
    pub insert: String,
    /// Whether `insert` has stops.
    pub snippet: bool,
    /// Where it stands in the list: smaller first.
    pub rank: u8,
    /// Edits elsewhere that go with it: the import.
    pub extra: Vec<Edit>,
}

/// What may be written, and what it replaces.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Completion {
    /// The word begun.
    pub replaces: Span,
    /// The items, best first.
    pub items: Vec<Item>,
}

impl Item {
    fn new(label: impl Into<String>, kind: ItemKind, rank: u8) -> Item {
        let label = label.into();
        Item {
            insert: label.clone(),
            label,
            kind,
            detail: String::new(),
            docs: String::new(),
            snippet: false,
            rank,
            extra: Vec::new(),
        }
    }

    fn detail(mut self, detail: impl Into<String>) -> Item {
        self.detail = detail.into();
        self
    }

    fn docs(mut self, docs: impl Into<String>) -> Item {
        self.docs = docs.into();
        self
    }

    fn inserts(mut self, snippet: impl Into<String>) -> Item {
        self.insert = snippet.into();
        self.snippet = self.insert.contains('$');
        self
    }
}

/// What a completion is worked out from.
struct Asked<'a> {
    project: &'a Project,
    file: FileId,
    cursor: &'a Cursor<'a>,
    setting: Setting,
    prefix: &'a str,
}

/// What may be written at an offset.
pub fn complete(project: &Project, file: FileId, offset: u32) -> Option<Completion> {
    let text = project.text(file);
    if let Some(found) = uses::path(project, file, text, offset) {
        return Some(found);
    }
    let lexed = tokens(file, text);
    let cursor = Cursor::at(text, &lexed.tokens, &lexed.comments, offset)?;
    let asked = Asked {
        project,
        file,
        cursor: &cursor,
        setting: setting(project.program(), &cursor),
        prefix: cursor.prefix(offset),
    };
    let mut items = items(&asked);
    let replaces = Span::new(file, cursor.word.0, offset);
    items.retain(|item| fits(&item.label, asked.prefix));
    items.sort_by(|a, b| {
        let starts = |i: &Item| !i.label.starts_with(asked.prefix);
        (starts(a), a.rank, &a.label).cmp(&(starts(b), b.rank, &b.label))
    });
    items.dedup_by(|a, b| a.label == b.label && a.kind == b.kind && a.extra == b.extra);
    Some(Completion { replaces, items })
}

/// Whether the letters typed stand in the label in their order.
fn fits(label: &str, typed: &str) -> bool {
    let mut letters = label.chars().flat_map(char::to_lowercase);
    typed.chars().flat_map(char::to_lowercase).all(|t| letters.any(|l| l == t))
}

fn items(asked: &Asked<'_>) -> Vec<Item> {
    let statement = asked.cursor.statement();
    let Some(first) = statement.first() else { return statement::beginnings(asked) };
    // Bound tightest: a unit after a figure, a field after a dot.
    if let Some(items) = units::after_figure(asked) {
        return items;
    }
    if asked.cursor.last().is_some_and(|t| t.kind == Kind::Dot) {
        return expression::fields(asked);
    }
    if asked.cursor.call().is_some() {
        return expression::argument(asked);
    }
    match first.kind {
        Kind::Word(Keyword::Pub) if statement.len() == 1 => statement::declarations(asked),
        Kind::Word(Keyword::Use) => uses::names(asked),
        Kind::Word(keyword) if layer::is_verb(keyword) => layer::items(asked, keyword),
        Kind::Word(keyword) => statement::after(asked, keyword),
        Kind::Name | Kind::Type => match statement.get(1).map(|t| t.kind) {
            Some(Kind::Colon) => expression::value(asked),
            _ => Vec::new(),
        },
        _ => expression::value(asked),
    }
}
