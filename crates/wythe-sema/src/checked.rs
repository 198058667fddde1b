//! What a check learns of a module: a table beside the tree.

use std::sync::Arc;

use rustc_hash::FxHashMap;
use wythe_findings::Finding;
use wythe_model::{Class, Level};
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{ExprId, Ident};
use wythe_units::{CompoundUnit, Quantity, Scalar};

use crate::{DefId, Signature, Type};

/// What a check learns of a module.
#[derive(Clone, Debug, Default)]
pub struct Checked {
    /// The type of each expression.
    pub types: Vec<Type>,
    /// What each name, field or callee stands for.
    pub resolutions: Vec<Res>,
    /// The value of each literal figure.
    pub literals: Literals,
    /// The unit a value is to be shown in, by its `as` expression.
    pub units: FxHashMap<ExprId, Arc<CompoundUnit>>,
    /// The signature of each declaration.
    pub signatures: Vec<Signature>,
    /// Every mention of something declared, for an editor: where, and what.
    pub mentions: Vec<(Span, Target)>,
    /// What names in layers, blocks and headers stand for, by the place of the name.
    pub idents: FxHashMap<u32, Res>,
    /// What is wrong.
    pub findings: Vec<Finding>,
}

impl Checked {
    /// What a name outside an expression stands for.
    pub fn ident(&self, ident: Ident) -> Res {
        self.idents.get(&ident.span.start).copied().unwrap_or(Res::None)
    }

    /// What an expression stands for.
    pub fn res(&self, id: ExprId) -> Res {
        self.resolutions.get(id.0 as usize).copied().unwrap_or(Res::None)
    }

    /// The type of an expression.
    pub fn ty(&self, id: ExprId) -> &Type {
        self.types.get(id.0 as usize).unwrap_or(&Type::Unknown)
    }
}

/// The literal figures of a module, by the number of their expression.
#[derive(Clone, Debug, Default)]
pub struct Literals {
    /// For each expression, one more than the place of its figure; nought where it has none.
    places: Vec<u32>,
    figures: Vec<(ExprId, Literal)>,
}

impl Literals {
    /// The figure of an expression.
    pub fn get(&self, id: &ExprId) -> Option<&Literal> {
        let place = *self.places.get(id.0 as usize)?;
        self.figures.get((place as usize).checked_sub(1)?).map(|(_, figure)| figure)
    }

    /// Records the figure of an expression.
    pub fn insert(&mut self, id: ExprId, figure: Literal) {
        let at = id.0 as usize;
        if at >= self.places.len() {
            self.places.resize(at + 1, 0);
        }
        self.figures.push((id, figure));
        self.places[at] = self.figures.len() as u32;
    }

    /// Every figure, in the order they were met.
    pub fn iter(&self) -> impl Iterator<Item = (&ExprId, &Literal)> {
        self.figures.iter().map(|(id, figure)| (id, figure))
    }
}

/// The value of a literal figure.
#[derive(Clone, Debug)]
pub enum Literal {
    /// A quantity, with the unit it is written in.
    Quantity(Quantity, Option<Arc<CompoundUnit>>),
    /// A temperature, in kelvin.
    Temperature(Scalar),
}

/// What a name stands for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Res {
    /// Nothing known.
    #[default]
    None,
    /// A declaration.
    Def(DefId),
    /// A parameter of the function or build-up it stands in, by number.
    Param(u32),
    /// A value bound on the way (`let`, `for each`), by its name.
    Local(Symbol),
    /// A member of an enumeration.
    Member(DefId, u32),
    /// A field of a record, by number.
    Field(DefId, u32),
    /// A field of the foundation under examination, by number.
    Whole(u32),
    /// A class of products.
    Class(Class),
    /// An elevation.
    Level(Level),
    /// The bare name of a part.
    Name(Symbol),
    /// A function every file knows whose type depends on its arguments.
    Builtin(Builtin),
    /// A function called as if it were a field: `wall.resistance(board_band)`.
    Method(DefId),
    /// A part of a foundation by its name: `f.wall(south)`.
    Part(PartKind),
    /// A conversion to a kind: `Area(x)`.
    Convert,
    /// A layer on the face or the faces at hand.
    Layer(Symbol),
    /// Width or height of a size; x or y of a place; low or high of a range.
    Component(bool),
    /// The currency of a name.
    Currency(Symbol),
}

/// A part of a foundation that can be asked for by name.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum PartKind {
    /// `f.wall(south)`
    Wall,
    /// `f.pier(p1)`
    Pier,
    /// `f.opening(hatch)`
    Opening,
}

/// A function whose type depends on its arguments.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Builtin {
    /// How many.
    Count,
    /// The sum of a list of quantities.
    Sum,
    /// Whether all of a list of truths hold.
    All,
    /// Whether any of a list of truths holds.
    Any,
    /// The least of a list of quantities.
    Min,
    /// The most of a list of quantities.
    Max,
}

impl Builtin {
    /// All, with the name of each.
    pub const ALL: [(&'static str, Builtin); 6] = [
        ("count", Builtin::Count),
        ("sum", Builtin::Sum),
        ("all", Builtin::All),
        ("any", Builtin::Any),
        ("min", Builtin::Min),
        ("max", Builtin::Max),
    ];

    /// The function of a name.
    pub fn of_name(name: &str) -> Option<Builtin> {
        Builtin::ALL.into_iter().find(|(n, _)| *n == name).map(|(_, b)| b)
    }
}

/// Something an editor can go to.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Target {
    /// A declaration.
    Def(DefId),
    /// A field of a record or a member of an enumeration.
    Part(DefId, u32),
    /// Something declared inside a declaration, by the place of its name.
    Local(Span),
}
