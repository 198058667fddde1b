//! Declarations.

use wythe_source::Span;

use super::{Block, ExprId, Ident, Path};

/// A declaration.
#[derive(Clone, Debug)]
pub struct Decl {
    /// From `pub` or the declaration's word to its end.
    pub span: Span,
    /// The lines of documentation before it, `///` included, if any.
    pub docs: Option<Span>,
    /// Whether other files may use it.
    pub public: bool,
    /// Its name. A waiver and an amendment bear the last name of their path, a test bears its title's text.
    pub name: Ident,
    /// What is declared.
    pub kind: DeclKind,
}

/// What is declared.
#[derive(Clone, Debug)]
pub enum DeclKind {
    /// `let name: Type = value`
    Let(Let),
    /// `fn name[D](a: D) -> Type = value`
    Fn(Function),
    /// `unit sheet`, `unit square = 100 ft2`
    Unit(Option<ExprId>),
    /// `record Offcut { … }`
    Record(Vec<Field>),
    /// `enum Hazard ordered { … }`
    Enum {
        /// Whether the members can be compared.
        ordered: bool,
        /// The members, least first.
        members: Vec<Ident>,
    },
    /// `product wall_membrane: Coating { … }`
    Product {
        /// Its class.
        class: Ident,
        /// What it is.
        block: Block,
    },
    /// `buildup stem_wall(…) for wall { … }`
    Buildup {
        /// Its parameters.
        params: Vec<Param>,
        /// `wall`, `pier`, `opening` or `ground`.
        kind: Ident,
        /// Its surfaces and layers.
        block: Block,
    },
    /// `joint wall_to_ground between wall.inside and ground.face { … }`
    Joint {
        /// The one face.
        first: FaceRef,
        /// The other.
        second: FaceRef,
        /// What is done there.
        block: Block,
    },
    /// `phase rough_in { … }`
    Phase(Block),
    /// `site cedar_row { … }`
    Site(Block),
    /// `foundation unit_4 on cedar_row { … }`
    Foundation {
        /// Its site.
        site: Ident,
        /// What it is.
        block: Block,
    },
    /// `rule inspection_gap { … }`
    Rule(Block),
    /// `amend access_size { … }`
    Amend {
        /// The rule amended.
        rule: Path,
        /// What is restated.
        block: Block,
    },
    /// `waiver of skirt_tail in unit_4 for stair { … }`
    Waiver {
        /// The rule waived.
        rule: Path,
        /// The foundation it holds in.
        within: Ident,
        /// The elements it holds for; all if none is named.
        elements: Vec<Ident>,
        /// Reason, who, until when.
        block: Block,
    },
    /// `prices upland_2026 { … }`
    Prices(Block),
    /// `rates house_crew { … }`
    Rates(Block),
    /// `log unit_4_progress { … }`
    Log(Block),
    /// `test "…" { … }`
    Test {
        /// Its title.
        title: ExprId,
        /// What is expected.
        block: Block,
    },
}

impl DeclKind {
    /// The block of the declaration.
    pub const fn block(&self) -> Option<&Block> {
        match self {
            DeclKind::Product { block, .. }
            | DeclKind::Buildup { block, .. }
            | DeclKind::Joint { block, .. }
            | DeclKind::Phase(block)
            | DeclKind::Site(block)
            | DeclKind::Foundation { block, .. }
            | DeclKind::Rule(block)
            | DeclKind::Amend { block, .. }
            | DeclKind::Waiver { block, .. }
            | DeclKind::Prices(block)
            | DeclKind::Rates(block)
            | DeclKind::Log(block)
            | DeclKind::Test { block, .. } => Some(block),
            DeclKind::Let(_) | DeclKind::Fn(_) | DeclKind::Unit(_) | DeclKind::Record(_) | DeclKind::Enum { .. } => {
                None
            }
        }
    }
}

/// A value given a name.
#[derive(Clone, Debug)]
pub struct Let {
    /// Its name.
    pub name: Ident,
    /// Its type, if written.
    pub ty: Option<TypeExpr>,
    /// Its value.
    pub value: ExprId,
}

/// A function.
#[derive(Clone, Debug)]
pub struct Function {
    /// The dimensions it is generic over.
    pub generics: Vec<Ident>,
    /// Its parameters.
    pub params: Vec<Param>,
    /// The type of its result.
    pub result: TypeExpr,
    /// The values named on the way.
    pub lets: Vec<Let>,
    /// Its result. The prelude's built-in functions alone have none.
    pub body: Option<ExprId>,
}

/// A parameter with its contract.
#[derive(Clone, Debug)]
pub struct Param {
    /// Its name.
    pub name: Ident,
    /// Its type.
    pub ty: TypeExpr,
    /// Its default.
    pub default: Option<ExprId>,
    /// What must hold of it.
    pub contract: Option<ExprId>,
}

/// A field of a record.
#[derive(Clone, Debug)]
pub struct Field {
    /// The documentation before it.
    pub docs: Option<Span>,
    /// Its name.
    pub name: Ident,
    /// Its type.
    pub ty: TypeExpr,
    /// Its default.
    pub default: Option<ExprId>,
}

/// A type as written: `Length`, `Range[Length]`, `[Wall]`, `Length?`.
#[derive(Clone, Debug, PartialEq)]
pub struct TypeExpr {
    /// The place.
    pub span: Span,
    /// What it is.
    pub kind: TypeExprKind,
}

/// What a written type is.
#[derive(Clone, Debug, PartialEq)]
pub enum TypeExprKind {
    /// A name, with the type in its square brackets.
    Name(Ident, Option<Box<TypeExpr>>),
    /// `[T]`
    List(Box<TypeExpr>),
    /// `T?`
    Optional(Box<TypeExpr>),
}

/// A face: `wall.inside`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FaceRef {
    /// `wall`, `pier`, `opening` or `ground`.
    pub kind: Ident,
    /// The surface.
    pub surface: Ident,
}
