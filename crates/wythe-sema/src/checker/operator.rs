//! Operators: what may be added, compared, multiplied, and what must be bracketed first.

use std::sync::Arc;

use wythe_findings::{Finding, Fix, codes};
use wythe_source::Span;
use wythe_syntax::ast::{BinaryOp, ExprId, ExprKind, UnitExpr};
use wythe_units::{Dim, Kind};

use crate::signature::Signature;
use crate::types::{Type, kinds_agree};

use super::Checker;
use super::expect::brief;

impl Checker<'_> {
    pub(super) fn binary(
        &mut self,
        op: BinaryOp,
        op_span: Span,
        left: ExprId,
        right: ExprId,
        hope: Option<&Type>,
    ) -> Type {
        match op {
            BinaryOp::Or | BinaryOp::And => {
                self.expect(left, &Type::Bool);
                self.expect(right, &Type::Bool);
                Type::Bool
            }
            BinaryOp::Equal | BinaryOp::NotEqual => {
                let a = self.infer(left);
                let b = self.infer_toward(right, Some(&a));
                // A bare member on the left takes its meaning from the right.
                let alike = self.equatable(&a, &b);
                if !alike {
                    self.unlike(op, op_span, (left, &a), (right, &b));
                }
                Type::Bool
            }
            BinaryOp::Less | BinaryOp::LessEqual | BinaryOp::Greater | BinaryOp::GreaterEqual => {
                let a = self.infer(left);
                let b = self.infer_toward(right, Some(&a));
                self.ordered(op, op_span, (left, a), (right, b));
                Type::Bool
            }
            BinaryOp::Add | BinaryOp::Subtract => {
                let a = self.infer_toward(left, hope.filter(|h| h.is_quantity()));
                let b = self.infer(right);
                self.sum(op, op_span, (left, a), (right, b))
            }
            BinaryOp::Multiply | BinaryOp::Divide => {
                self.two_readings(op, op_span, left, right);
                let a = self.infer(left);
                let b = self.infer(right);
                self.product(op, op_span, (left, a), (right, b))
            }
            BinaryOp::Range => {
                let inner = match hope.map(Type::required) {
                    Some(Type::Range(inner)) => Some((**inner).clone()),
                    other => other.cloned(),
                };
                let a = self.infer_toward(left, inner.as_ref());
                let b = self.infer_toward(right, Some(&a));
                self.same(op, op_span, (left, &a), (right, &b)).map_or(Type::Unknown, |t| Type::Range(Arc::new(t)))
            }
            BinaryOp::PlusMinus => {
                let a = self.infer_toward(left, hope);
                let b = self.infer_toward(right, Some(&a));
                self.same(op, op_span, (left, &a), (right, &b)).unwrap_or(Type::Unknown)
            }
            BinaryOp::Default => {
                let a = self.infer_toward(left, hope);
                let due = a.required().clone();
                match a {
                    Type::Nothing => self.infer_toward(right, hope),
                    _ => {
                        let b = self.infer_toward(right, Some(&due));
                        self.same(op, op_span, (left, &due), (right, b.required())).unwrap_or(Type::Unknown)
                    }
                }
            }
            BinaryOp::By => {
                let inner = match hope.map(Type::required) {
                    Some(Type::Size(inner)) => Some((**inner).clone()),
                    _ => None,
                };
                let a = self.infer_toward(left, inner.as_ref());
                let b = self.infer_toward(right, inner.as_ref().or(Some(&a)));
                self.same(op, op_span, (left, &a), (right, &b)).map_or(Type::Unknown, |t| Type::Size(Arc::new(t)))
            }
        }
    }

    fn same(&mut self, op: BinaryOp, op_span: Span, a: (ExprId, &Type), b: (ExprId, &Type)) -> Option<Type> {
        if a.1.accepts(b.1) {
            return Some(a.1.clone());
        }
        if b.1.accepts(a.1) {
            return Some(b.1.clone());
        }
        self.unlike(op, op_span, a, b);
        None
    }

    fn equatable(&self, a: &Type, b: &Type) -> bool {
        *a == Type::Nothing || *b == Type::Nothing || a.accepts(b) || b.accepts(a) || a.required().accepts(b.required())
    }

    fn ordered(&mut self, op: BinaryOp, op_span: Span, (left, a): (ExprId, Type), (right, b): (ExprId, Type)) {
        if let (Type::Optional(_), _) | (Type::Nothing, _) = (&a, &b) {
            let due = a.required().clone();
            return self.mismatch(left, &due, &a);
        }
        if let (_, Type::Optional(_)) | (_, Type::Nothing) = (&a, &b) {
            return self.mismatch(right, &a, &b);
        }
        if !a.accepts(&b) && !b.accepts(&a) {
            return self.unlike(op, op_span, (left, &a), (right, &b));
        }
        let comparable = match &a {
            Type::Enum(def) => {
                matches!(self.signature_of(*def), Signature::Enum { ordered: true, .. } | Signature::Unknown)
            }
            Type::Temperature | Type::Elevation | Type::Date | Type::Unknown => true,
            other => other.is_quantity(),
        };
        if !comparable {
            self.report(
                Finding::new(codes::NOT_ORDERED, op_span, format!("{} has no more and no less", self.describe(&a)))
                    .label("cannot be compared this way")
                    .mend("ask `==` or `!=`, or declare the enumeration `ordered`"),
            );
        }
    }

    fn sum(&mut self, op: BinaryOp, op_span: Span, (left, a): (ExprId, Type), (right, b): (ExprId, Type)) -> Type {
        let adding = op == BinaryOp::Add;
        if self.one_may_be_none((left, &a), (right, &b)) {
            return Type::Unknown;
        }
        match (&a, &b) {
            (Type::Unknown, Type::Unknown) => Type::Unknown,
            (Type::Unknown, _) => Type::Unknown,
            (_, Type::Unknown) => a,
            (Type::Quantity(d, k), Type::Quantity(e, l)) if d == e => {
                if kinds_agree(*k, *l) {
                    return Type::Quantity(*d, k.or(*l));
                }
                self.unlike_kinds(op, op_span, (left, *d, *k), (right, *e, *l));
                Type::Unknown
            }
            (Type::Generic(x), Type::Generic(y)) if x == y => a,
            (point, Type::Quantity(d, _)) if difference_of(point) == Some(*d) => a,
            (Type::Quantity(d, _), point) if adding && difference_of(point) == Some(*d) => b,
            (p, q) if p == q && difference_of(p).is_some() => {
                if !adding {
                    return Type::quantity(difference_of(p).unwrap_or(Dim::NONE));
                }
                let words = match p {
                    Type::Temperature => "temperatures",
                    Type::Elevation => "elevations",
                    _ => "dates",
                };
                self.report(
                    Finding::new(codes::TWO_POINTS_ADDED, op_span, format!("two {words} cannot be added"))
                        .label("both sides are points, not differences")
                        .related(self.module[left].span, format!("this is {}", self.describe(p)))
                        .related(self.module[right].span, format!("this is {}", self.describe(q)))
                        .mend("make one of them a difference: `b - a`"),
                );
                Type::Unknown
            }
            _ => {
                self.unlike(op, op_span, (left, &a), (right, &b));
                Type::Unknown
            }
        }
    }

    /// Says that a side may be none, if one may.
    fn one_may_be_none(&mut self, a: (ExprId, &Type), b: (ExprId, &Type)) -> bool {
        for (id, ty) in [a, b] {
            if matches!(ty, Type::Optional(_) | Type::Nothing) {
                let due = ty.required().clone();
                self.mismatch(id, &due, ty);
                return true;
            }
        }
        false
    }

    fn product(&mut self, op: BinaryOp, op_span: Span, (left, a): (ExprId, Type), (right, b): (ExprId, Type)) -> Type {
        if self.one_may_be_none((left, &a), (right, &b)) {
            return Type::Unknown;
        }
        match (&a, &b) {
            (Type::Unknown, _) | (_, Type::Unknown) => Type::Unknown,
            (Type::Quantity(d, _), Type::Quantity(e, _)) => {
                let dim = if op == BinaryOp::Multiply { d.mul(*e) } else { d.div(*e) };
                match dim {
                    Ok(dim) => Type::quantity(dim),
                    Err(_) => {
                        self.report(Finding::new(
                            codes::BAD_UNIT,
                            op_span,
                            "this has too many dimensions to be of use",
                        ));
                        Type::Unknown
                    }
                }
            }
            (Type::Generic(x), Type::Generic(y)) if x == y && op == BinaryOp::Divide => Type::NUMBER,
            (Type::Generic(_), t) if *t == Type::NUMBER => a,
            (t, Type::Generic(_)) if *t == Type::NUMBER && op == BinaryOp::Multiply => b,
            _ => {
                let (at, wrong) = if a.is_quantity() { (right, &b) } else { (left, &a) };
                let verb = if op == BinaryOp::Multiply { "multiplied" } else { "divided" };
                self.report(
                    Finding::new(
                        codes::TYPE_MISMATCH,
                        self.module[at].span,
                        format!("{} cannot be {verb}", self.describe(wrong)),
                    )
                    .label("a quantity is due here"),
                );
                Type::Unknown
            }
        }
    }

    /// `a / b * c` and `a / b / c` are read in two ways by two people; the language reads them in none.
    fn two_readings(&mut self, op: BinaryOp, op_span: Span, left: ExprId, right: ExprId) {
        let ExprKind::Binary { op: BinaryOp::Divide, left: a, right: b, .. } = self.module[left].kind else { return };
        let whole = self.module[left].span.to(self.module[right].span);
        let (a, b, c) =
            (self.text(self.module[a].span), self.text(self.module[b].span), self.text(self.module[right].span));
        let sign = op.text();
        let first = format!("({a} / {b}) {sign} {c}");
        let second = if op == BinaryOp::Multiply { format!("{a} / ({b} * {c})") } else { format!("{a} / ({b} / {c})") };
        self.report(
            Finding::new(
                codes::TWO_READINGS,
                op_span,
                format!("`{}` can be read in two ways", brief(self.text(whole))),
            )
            .label(format!("`{sign}` after `/` without brackets"))
            .mend(format!("write `{}` or `{}`", brief(&first), brief(&second)))
            .fix(Fix::needs_consent(format!("read it as {first}"), whole, first.clone()))
            .fix(Fix::needs_consent(format!("read it as {second}"), whole, second.clone())),
        );
    }

    fn unlike_kinds(
        &mut self,
        op: BinaryOp,
        op_span: Span,
        a: (ExprId, Dim, Option<Kind>),
        b: (ExprId, Dim, Option<Kind>),
    ) {
        let words = (a.1.describe_kind(a.2), b.1.describe_kind(b.2));
        let name = a.2.or(b.2).map_or("Area", Kind::type_name);
        self.report(
            Finding::new(
                codes::UNLIKE_KINDS,
                op_span,
                format!("{} and {} are not {} in the trade", words.0, words.1, verb(op)),
            )
            .related(self.module[a.0].span, format!("this is {}", words.0))
            .related(self.module[b.0].span, format!("this is {}", words.1))
            .mend(format!("if you mean it, convert one of them openly: `{name}(…)`")),
        );
    }

    /// Says that two sides are not of one sort, with both worked out.
    pub(super) fn unlike(&mut self, op: BinaryOp, op_span: Span, a: (ExprId, &Type), b: (ExprId, &Type)) {
        let words = (self.describe(a.1), self.describe(b.1));
        let (left, right) = (self.module[a.0].span, self.module[b.0].span);
        let code = match (a.1, b.1) {
            (Type::Quantity(d, _), Type::Quantity(e, _)) if d.has_nominal() || e.has_nominal() => codes::UNLIKE_UNITS,
            (x, y) if x.is_quantity() && y.is_quantity() => codes::UNLIKE_DIMENSIONS,
            _ => codes::TYPE_MISMATCH,
        };
        let mut finding = Finding::new(code, op_span, format!("{} and {} cannot be {}", words.0, words.1, verb(op)))
            .label(format!("`{}`", op.text()))
            .related(left, format!("`{}` is {}", brief(self.text(left)), words.0))
            .related(right, format!("`{}` is {}", brief(self.text(right)), words.1));
        finding = finding.mend(match code {
            c if c == codes::UNLIKE_UNITS => "make both the same unit: price each, or count each by what it covers",
            c if c == codes::UNLIKE_DIMENSIONS => {
                "look for the property that was meant, such as a layer's `resistance` and not its `thickness`"
            }
            _ => "bring both sides to one sort of value",
        });
        self.report(finding);
    }

    pub(super) fn shown(&mut self, id: ExprId, value: ExprId, unit: &UnitExpr) -> Type {
        let ty = self.infer(value);
        let Some(unit_known) = self.unit(unit) else { return ty };
        let dim = match &ty {
            Type::Quantity(dim, _) => Some(*dim),
            Type::Temperature => Some(Dim::TEMPERATURE),
            Type::Elevation => Some(Dim::LENGTH),
            Type::Generic(_) | Type::Loose(_) | Type::Unknown => None,
            other => {
                self.report(
                    Finding::new(codes::TYPE_MISMATCH, self.module[value].span, "only a quantity is shown in a unit")
                        .label(format!("this is {}", self.describe(other))),
                );
                None
            }
        };
        if let Some(dim) = dim
            && dim != unit_known.dim()
        {
            let words = (dim.describe(), unit_known.dim().describe());
            self.report(
                Finding::new(
                    codes::UNLIKE_DIMENSIONS,
                    unit.span,
                    format!("{} cannot be shown in `{}`", words.0, unit_known.text()),
                )
                .label(format!("a unit of {}", words.1))
                .related(self.module[value].span, format!("this is {}", words.0)),
            );
        }
        self.out.units.insert(id, unit_known);
        ty
    }
}

/// The dimension of the difference of two points of a type.
fn difference_of(point: &Type) -> Option<Dim> {
    match point {
        Type::Temperature => Some(Dim::TEMPERATURE),
        Type::Elevation => Some(Dim::LENGTH),
        Type::Date => Some(Dim::TIME),
        _ => None,
    }
}

const fn verb(op: BinaryOp) -> &'static str {
    match op {
        BinaryOp::Add => "added",
        BinaryOp::Subtract => "subtracted",
        BinaryOp::Multiply => "multiplied",
        BinaryOp::Divide => "divided",
        BinaryOp::Range | BinaryOp::PlusMinus | BinaryOp::Default | BinaryOp::By => "put together",
        _ => "compared",
    }
}
