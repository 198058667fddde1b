//! Expressions.

use wythe_source::{Span, Symbol};

use super::Ident;

/// The number of an expression in its module.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub struct ExprId(pub u32);

/// An expression with its place.
#[derive(Clone, PartialEq, Debug)]
pub struct Expr {
    /// The place, brackets not included unless they are part of it.
    pub span: Span,
    /// What it is.
    pub kind: ExprKind,
}

/// What an expression is.
#[derive(Clone, PartialEq, Debug)]
pub enum ExprKind {
    /// A number with or without a unit: `12`, `0.03 perm`, `41 USD per sheet`, `4-1/2 in`. The figure's text is its span.
    Number {
        /// Where the figure stands.
        figure: Span,
        /// Its unit.
        unit: Option<Box<UnitExpr>>,
    },
    /// A length with marks: `3' 4-1/2"`. Its text is the expression's span.
    Length,
    /// `R-10`, `RSI-1.76`, `U-0.06`. Its text is the expression's span.
    RValue,
    /// `2026-03-09`. Its text is the expression's span.
    Date,
    /// A nominal lumber size, `2x8`.
    Lumber,
    /// Text, in pieces.
    Text(Vec<TextPart>),
    /// A name, of a value or of a type.
    Name(Symbol),
    /// `site`
    Site,
    /// `true` or `false`
    Bool(bool),
    /// `none`
    None,
    /// `-x`
    Negate(ExprId),
    /// `not x`
    Not(ExprId),
    /// Two operands.
    Binary {
        /// The operator.
        op: BinaryOp,
        /// Where the operator stands.
        op_span: Span,
        /// Its left side.
        left: ExprId,
        /// Its right side.
        right: ExprId,
    },
    /// `x as in`
    Shown {
        /// What is shown.
        value: ExprId,
        /// The unit it is shown in.
        unit: Box<UnitExpr>,
    },
    /// `value.field`; `wall`, `pier` and `opening` are fields too.
    Field {
        /// The value.
        of: ExprId,
        /// The field.
        name: Ident,
    },
    /// `callee(a, b: c)`
    Call {
        /// What is called.
        callee: ExprId,
        /// What it is given.
        args: Vec<Arg>,
    },
    /// `list[i]`
    Subscript {
        /// The list.
        of: ExprId,
        /// Which one, from nought.
        at: ExprId,
    },
    /// `(x)`, kept so that two readings can be told apart, and `(x, y)`, a place in plan.
    Tuple(Vec<ExprId>),
    /// `[a, b]`
    List(Vec<ExprId>),
    /// `[value for each name in list where condition]`
    Comprehension {
        /// The value of each.
        value: ExprId,
        /// The name bound.
        name: Ident,
        /// The list gone through.
        list: ExprId,
        /// Which are taken.
        condition: Option<ExprId>,
    },
    /// `if a then b else c`
    If {
        /// The condition.
        condition: ExprId,
        /// The value if it holds.
        then: ExprId,
        /// The value if not.
        otherwise: ExprId,
    },
    /// Something unreadable; a finding has been made.
    Broken,
}

/// A piece of a text.
#[derive(Clone, PartialEq, Debug)]
pub enum TextPart {
    /// Plain characters, escapes undone.
    Plain(String),
    /// `{expr}`
    Value(ExprId),
}

/// An argument: a value, or a named value.
#[derive(Clone, PartialEq, Debug)]
pub struct Arg {
    /// The parameter's name.
    pub name: Option<Ident>,
    /// The value.
    pub value: ExprId,
}

/// A unit as written: names above and below `per`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct UnitExpr {
    /// The whole unit.
    pub span: Span,
    /// The names before `per`.
    pub above: Vec<Ident>,
    /// The names after `per`.
    pub below: Vec<Ident>,
}

/// An operator with two operands, loosest first.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum BinaryOp {
    /// `or`
    Or,
    /// `and`
    And,
    /// `==`
    Equal,
    /// `!=`
    NotEqual,
    /// `<`
    Less,
    /// `<=`
    LessEqual,
    /// `>`
    Greater,
    /// `>=`
    GreaterEqual,
    /// `a .. b`
    Range,
    /// `a +- b`
    PlusMinus,
    /// `a ?? b`
    Default,
    /// `a x b`, a size
    By,
    /// `a + b`
    Add,
    /// `a - b`
    Subtract,
    /// `a * b`
    Multiply,
    /// `a / b`
    Divide,
}

impl BinaryOp {
    /// As it is written.
    pub const fn text(self) -> &'static str {
        match self {
            BinaryOp::Or => "or",
            BinaryOp::And => "and",
            BinaryOp::Equal => "==",
            BinaryOp::NotEqual => "!=",
            BinaryOp::Less => "<",
            BinaryOp::LessEqual => "<=",
            BinaryOp::Greater => ">",
            BinaryOp::GreaterEqual => ">=",
            BinaryOp::Range => "..",
            BinaryOp::PlusMinus => "+-",
            BinaryOp::Default => "??",
            BinaryOp::By => "x",
            BinaryOp::Add => "+",
            BinaryOp::Subtract => "-",
            BinaryOp::Multiply => "*",
            BinaryOp::Divide => "/",
        }
    }
}

impl ExprKind {
    /// Calls `visit` with each expression it is made of, in the order written.
    pub fn each_child(&self, mut visit: impl FnMut(ExprId)) {
        match self {
            ExprKind::Number { .. }
            | ExprKind::Length
            | ExprKind::RValue
            | ExprKind::Date
            | ExprKind::Lumber
            | ExprKind::Name(_)
            | ExprKind::Site
            | ExprKind::Bool(_)
            | ExprKind::None
            | ExprKind::Broken => {}
            ExprKind::Text(parts) => parts.iter().for_each(|part| match part {
                TextPart::Value(id) => visit(*id),
                TextPart::Plain(_) => {}
            }),
            ExprKind::Negate(id)
            | ExprKind::Not(id)
            | ExprKind::Shown { value: id, .. }
            | ExprKind::Field { of: id, .. } => {
                visit(*id);
            }
            ExprKind::Binary { left, right, .. } => {
                visit(*left);
                visit(*right);
            }
            ExprKind::Call { callee, args } => {
                visit(*callee);
                args.iter().for_each(|arg| visit(arg.value));
            }
            ExprKind::Subscript { of, at } => {
                visit(*of);
                visit(*at);
            }
            ExprKind::Tuple(items) | ExprKind::List(items) => items.iter().copied().for_each(visit),
            ExprKind::Comprehension { value, list, condition, .. } => {
                visit(*value);
                visit(*list);
                condition.iter().copied().for_each(visit);
            }
            ExprKind::If { condition, then, otherwise } => {
                visit(*condition);
                visit(*then);
                visit(*otherwise);
            }
        }
    }
}
