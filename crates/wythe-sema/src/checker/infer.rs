//! The type of an expression, looked for from inside outward.

use std::sync::Arc;

use wythe_findings::{Finding, codes};
use wythe_syntax::ast::{ExprId, ExprKind, TextPart};

use crate::checked::Res;
use crate::types::Type;

use super::Checker;

impl Checker<'_> {
    /// Checks an expression where a type is hoped for, and gives its type. The hope helps bare names; it is
    /// [`Checker::expect`] that insists.
    pub(crate) fn infer_toward(&mut self, id: ExprId, hope: Option<&Type>) -> Type {
        let ty = self.infer_kind(id, hope);
        self.out.types[id.0 as usize] = ty.clone();
        ty
    }

    fn infer_kind(&mut self, id: ExprId, hope: Option<&Type>) -> Type {
        let module = self.module;
        let expr = &module[id];
        match &expr.kind {
            ExprKind::Number { figure, unit } => self.number(id, *figure, unit.as_deref(), hope),
            ExprKind::Length => self.length(id, expr.span),
            ExprKind::RValue => self.r_value(id, expr.span),
            ExprKind::Date => Type::Date,
            ExprKind::Lumber => Type::Lumber,
            ExprKind::Text(parts) => {
                for part in parts {
                    if let TextPart::Value(value) = part {
                        self.infer(*value);
                    }
                }
                Type::Text
            }
            ExprKind::Name(name) => self.name(id, *name, expr.span, hope),
            ExprKind::Site => self.site(expr.span),
            ExprKind::Bool(_) => Type::Bool,
            ExprKind::None => Type::Nothing,
            ExprKind::Negate(inner) => {
                let ty = self.infer_toward(*inner, hope);
                if !(ty.is_quantity() || ty == Type::Unknown) {
                    self.report(
                        Finding::new(codes::TYPE_MISMATCH, expr.span, "only a quantity can be negative")
                            .label(format!("this is {}", self.describe(&ty))),
                    );
                    return Type::Unknown;
                }
                ty
            }
            ExprKind::Not(inner) => {
                self.expect(*inner, &Type::Bool);
                Type::Bool
            }
            ExprKind::Binary { op, op_span, left, right } => self.binary(*op, *op_span, *left, *right, hope),
            ExprKind::Shown { value, unit } => self.shown(id, *value, unit),
            ExprKind::Field { of, name } => self.field(id, *of, *name),
            ExprKind::Call { callee, args } => self.call(id, *callee, args),
            ExprKind::Subscript { of, at } => {
                let list = self.infer(*of);
                self.expect(*at, &Type::NUMBER);
                match list {
                    Type::List(inner) => (*inner).clone(),
                    Type::Unknown => Type::Unknown,
                    other => {
                        self.report(
                            Finding::new(codes::TYPE_MISMATCH, module[*of].span, "only a list can be counted into")
                                .label(format!("this is {}", self.describe(&other))),
                        );
                        Type::Unknown
                    }
                }
            }
            ExprKind::Tuple(parts) => match parts[..] {
                [inner] => self.infer_toward(inner, hope),
                [x, y] => {
                    self.expect(x, &Type::quantity(wythe_units::Dim::LENGTH));
                    self.expect(y, &Type::quantity(wythe_units::Dim::LENGTH));
                    Type::Place
                }
                _ => {
                    self.report(Finding::new(
                        codes::TYPE_MISMATCH,
                        expr.span,
                        "a place has two parts: `(east, north)`",
                    ));
                    Type::Unknown
                }
            },
            ExprKind::List(items) => self.list(items, hope),
            ExprKind::Comprehension { value, name, list, condition } => {
                let element = self.element_of(*list);
                let depth = self.locals.len();
                self.bind(*name, element);
                if let Some(condition) = condition {
                    self.expect(*condition, &Type::Bool);
                }
                let inner = self.infer(*value);
                self.locals.truncate(depth);
                Type::list(inner)
            }
            ExprKind::If { condition, then, otherwise } => {
                self.expect(*condition, &Type::Bool);
                let first = self.infer_toward(*then, hope);
                let second = self.infer_toward(*otherwise, hope.or(Some(&first)));
                self.join(first, second, module[*otherwise].span, module[*then].span)
            }
            ExprKind::Broken => Type::Unknown,
        }
    }

    fn list(&mut self, items: &[ExprId], hope: Option<&Type>) -> Type {
        let inner_hope = match hope.map(Type::required) {
            Some(Type::List(inner)) => Some((**inner).clone()),
            _ => None,
        };
        let mut common: Option<(Type, ExprId)> = None;
        for item in items {
            let hope = inner_hope.as_ref().or(common.as_ref().map(|(t, _)| t)).cloned();
            let ty = self.infer_toward(*item, hope.as_ref());
            common = Some(match common {
                None => (ty, *item),
                Some((first, at)) => {
                    let spans = (self.module[*item].span, self.module[at].span);
                    (self.join(first, ty, spans.0, spans.1), at)
                }
            });
        }
        match common {
            Some((ty, _)) => Type::list(ty),
            None => Type::List(Arc::new(inner_hope.unwrap_or(Type::Unknown))),
        }
    }

    /// The type of what is in a list.
    pub(crate) fn element_of(&mut self, list: ExprId) -> Type {
        match self.infer(list) {
            Type::List(inner) => (*inner).clone(),
            Type::Unknown => Type::Unknown,
            other => {
                self.report(
                    Finding::new(codes::TYPE_MISMATCH, self.module[list].span, "only a list can be gone through")
                        .label(format!("this is {}", self.describe(&other))),
                );
                Type::Unknown
            }
        }
    }

    fn site(&mut self, span: wythe_source::Span) -> Type {
        if self.whole.is_none() {
            self.report(
                Finding::new(codes::UNKNOWN_NAME, span, "`site` is known only inside a rule")
                    .mend("elsewhere, name the site or the foundation"),
            );
            return Type::Unknown;
        }
        Type::Record(self.program.prelude.record("Site"))
    }

    /// The type two values have in common.
    fn join(&mut self, a: Type, b: Type, b_span: wythe_source::Span, a_span: wythe_source::Span) -> Type {
        if a == Type::Nothing {
            return b.optional();
        }
        if b == Type::Nothing {
            return a.optional();
        }
        if a.accepts(&b) {
            return a;
        }
        if b.accepts(&a) {
            return b;
        }
        if let (Type::Product(_), Type::Product(_)) = (&a, &b) {
            return Type::Product(None);
        }
        let (first, second) = (self.describe(&a), self.describe(&b));
        self.report(
            Finding::new(codes::TYPE_MISMATCH, b_span, format!("{first} and {second} cannot stand side by side"))
                .label(format!("this is {second}"))
                .related(a_span, format!("this is {first}")),
        );
        Type::Unknown
    }

    pub(super) fn resolve(&mut self, id: ExprId, res: Res) {
        self.out.resolutions[id.0 as usize] = res;
    }
}
