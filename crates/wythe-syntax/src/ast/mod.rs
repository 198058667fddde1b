//! The syntax tree: a module owns its expressions in one table, and everything else points into it.
//!
//! Expressions are numbered ([`ExprId`]), so that types, values and resolutions can stand in tables beside
//! the tree instead of inside it.

mod block;
mod decl;
mod expr;

pub use block::*;
pub use decl::*;
pub use expr::*;

use std::ops::Index;

use wythe_source::{FileId, Span, Symbol};

/// A name with its place.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub struct Ident {
    /// The name.
    pub name: Symbol,
    /// Where it stands.
    pub span: Span,
}

/// A dotted path such as `unit_4.v2`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Path {
    /// Its names, at least one.
    pub parts: Vec<Ident>,
}

impl Path {
    /// The whole place.
    pub fn span(&self) -> Span {
        let first = self.parts[0].span;
        self.parts.last().map_or(first, |last| first.to(last.span))
    }
}

/// One file, read.
#[derive(Clone, Debug, Default)]
pub struct Module {
    /// The file.
    pub file: FileId,
    /// Its `use` lines, in order.
    pub uses: Vec<Use>,
    /// Its declarations, in order.
    pub decls: Vec<Decl>,
    /// Every expression of the file.
    pub exprs: Vec<Expr>,
}

impl Module {
    /// Adds an expression and gives its number.
    pub fn push(&mut self, expr: Expr) -> ExprId {
        let id = ExprId(self.exprs.len() as u32);
        self.exprs.push(expr);
        id
    }
}

impl Index<ExprId> for Module {
    type Output = Expr;

    fn index(&self, id: ExprId) -> &Expr {
        &self.exprs[id.0 as usize]
    }
}

/// A `use` line.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Use {
    /// The whole line.
    pub span: Span,
    /// What is used.
    pub target: UseTarget,
}

/// What a `use` line names.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum UseTarget {
    /// `use code us_residential_2021`
    Code(Ident),
    /// `use "path": a, b as c`; with no names, every public name is reached as `stem.name` where stem is the file's name.
    File {
        /// The path as written, without quotation marks and with escapes undone.
        path: String,
        /// The text's place, quotation marks included.
        path_span: Span,
        /// The names taken.
        imports: Vec<Import>,
    },
}

/// One imported name.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Import {
    /// The name in the other file.
    pub name: Ident,
    /// The name here, if it is another.
    pub alias: Option<Ident>,
}

impl Import {
    /// The name it goes by in this file.
    pub fn local(self) -> Ident {
        self.alias.unwrap_or(self.name)
    }
}
