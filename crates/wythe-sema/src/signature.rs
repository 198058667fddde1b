//! What a declaration looks like from outside.

use std::sync::Arc;

use wythe_model::SurfaceKind;
use wythe_source::Symbol;
use wythe_syntax::ast::ExprId;

use crate::Type;

/// What a declaration looks like from outside. Its lists are shared, because it is asked for at every mention.
#[derive(Clone, Debug, Default)]
pub enum Signature {
    /// Not known, because of a fault that has been reported.
    #[default]
    Unknown,
    /// A value of a type: `let`, `product`, `phase`, `joint`, `site`, `foundation`.
    Value(Type),
    /// A function.
    Function {
        /// Its parameters.
        params: Arc<[ParamType]>,
        /// The type of its result.
        result: Type,
    },
    /// A build-up.
    Buildup {
        /// Its parameters.
        params: Arc<[ParamType]>,
        /// What it is built on.
        kind: SurfaceKind,
    },
    /// A record.
    Record(Arc<[FieldType]>),
    /// An enumeration.
    Enum {
        /// Whether the members can be compared.
        ordered: bool,
        /// The members, least first.
        members: Arc<[Symbol]>,
    },
    /// A unit, or a rule, waiver, list of prices or rates, log or test: nothing an expression can name.
    Other,
}

/// A parameter.
#[derive(Clone, Debug)]
pub struct ParamType {
    /// Its name.
    pub name: Symbol,
    /// Its type.
    pub ty: Type,
    /// Its default.
    pub default: Option<ExprId>,
    /// What must hold of it.
    pub contract: Option<ExprId>,
}

/// A field.
#[derive(Clone, Debug)]
pub struct FieldType {
    /// Its name.
    pub name: Symbol,
    /// Its type.
    pub ty: Type,
    /// Its default.
    pub default: Option<ExprId>,
}

impl FieldType {
    /// Whether it may be left out.
    pub const fn may_be_left_out(&self) -> bool {
        self.default.is_some() || matches!(self.ty, Type::Optional(_))
    }
}

impl Signature {
    /// The number of a field and the field, by its name.
    pub fn field(&self, name: Symbol) -> Option<(u32, &FieldType)> {
        let Signature::Record(fields) = self else { return None };
        let at = fields.iter().position(|f| f.name == name)?;
        Some((at as u32, &fields[at]))
    }
}
