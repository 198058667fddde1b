//! `value.field`, and functions called as if they were fields.

use wythe_findings::{Finding, Fix, codes};
use wythe_model::Class;
use wythe_source::Symbol;
use wythe_syntax::ast::{ExprId, ExprKind, Ident};

use crate::checked::{PartKind, Res, Target};
use crate::program::DefId;
use crate::signature::Signature;
use crate::suggest::closest;
use crate::types::Type;

use super::Checker;

impl Checker<'_> {
    pub(super) fn field(&mut self, id: ExprId, of: ExprId, name: Ident) -> Type {
        // `Hazard.moderate`: the enumeration's own name before the point.
        if let ExprKind::Name(head) = self.module[of].kind
            && !self.locals.iter().any(|l| l.name == head)
            && let Some(def) = self.global(head)
            && let Signature::Enum { members, .. } = self.signature_of(def)
        {
            let span = self.module[of].span;
            self.mention(span, Target::Def(def));
            self.resolve(of, Res::Def(def));
            return match members.iter().position(|m| *m == name.name) {
                Some(at) => {
                    self.resolve(id, Res::Member(def, at as u32));
                    self.mention(name.span, Target::Part(def, at as u32));
                    Type::Enum(def)
                }
                None => {
                    self.no_such_member(def, name.name, name.span);
                    Type::Unknown
                }
            };
        }
        let value = self.infer(of);
        self.field_of(id, of, &value, name)
    }

    fn field_of(&mut self, id: ExprId, of: ExprId, value: &Type, name: Ident) -> Type {
        match value {
            Type::Unknown => Type::Unknown,
            Type::Record(def) => self.record_field(id, *def, name).unwrap_or_else(|| self.method(id, value, name)),
            Type::Product(class) => self.product_field(id, *class, name),
            Type::Size(inner) if matches!(name.name.as_str(), "width" | "height") => {
                self.resolve(id, Res::Component(name.name.as_str() == "width"));
                (**inner).clone()
            }
            Type::Range(inner) if matches!(name.name.as_str(), "low" | "high") => {
                self.resolve(id, Res::Component(name.name.as_str() == "low"));
                (**inner).clone()
            }
            Type::Place if matches!(name.name.as_str(), "x" | "y") => {
                self.resolve(id, Res::Component(name.name.as_str() == "x"));
                Type::quantity(wythe_units::Dim::LENGTH)
            }
            Type::Optional(inner) => {
                self.mismatch(of, inner, value);
                Type::Unknown
            }
            other => self.method(id, other, name),
        }
    }

    fn record_field(&mut self, id: ExprId, def: DefId, name: Ident) -> Option<Type> {
        let signature = self.signature_of(def);
        if let Some((field, found)) = signature.field(name.name) {
            self.resolve(id, Res::Field(def, field));
            self.mention(name.span, Target::Part(def, field));
            return Some(found.ty.clone());
        }
        let part = match name.name.as_str() {
            "wall" => PartKind::Wall,
            "pier" => PartKind::Pier,
            "opening" => PartKind::Opening,
            _ => return None,
        };
        if self.program.prelude.def("Foundation") == Some(def) {
            self.resolve(id, Res::Part(part));
            return Some(Type::Unknown);
        }
        None
    }

    fn product_field(&mut self, id: ExprId, class: Option<Class>, name: Ident) -> Type {
        let classes: Vec<Class> = class.map_or_else(|| Class::ALL.to_vec(), |c| vec![c]);
        for candidate in &classes {
            let def = self.program.prelude.record(candidate.name());
            if let Some((field, found)) = self.signature_of(def).field(name.name) {
                self.resolve(id, Res::Field(def, field));
                self.mention(name.span, Target::Part(def, field));
                return if class.is_none() { found.ty.clone().optional() } else { found.ty.clone() };
            }
        }
        self.method(id, &Type::Product(class), name)
    }

    /// A function whose first parameter takes the value.
    fn method(&mut self, id: ExprId, value: &Type, name: Ident) -> Type {
        if let Some(def) = self.global(name.name)
            && let Signature::Function { params, .. } = self.signature_of(def)
            && params.first().is_some_and(|p| p.ty.accepts(value))
        {
            self.resolve(id, Res::Method(def));
            self.mention(name.span, Target::Def(def));
            return Type::Callable(def);
        }
        let fields = self.fields_of(value);
        let near = closest(name.name.as_str(), fields.iter().map(|f| f.as_str()));
        let words = self.describe(value);
        let mut finding = Finding::new(codes::UNKNOWN_FIELD, name.span, format!("{words} has no `{}`", name.name));
        if let Some(near) = near {
            finding = finding.mend(format!("did you mean `{near}`?")).fix(Fix::needs_consent(
                format!("write `{near}`"),
                name.span,
                near,
            ));
        } else if !fields.is_empty() {
            let all: Vec<_> = fields.iter().map(|f| f.as_str()).collect();
            finding = finding.mend(format!("it has {}", all.join(", ")));
        }
        self.report(finding);
        Type::Unknown
    }

    fn fields_of(&mut self, value: &Type) -> Vec<Symbol> {
        let def = match value {
            Type::Record(def) => *def,
            Type::Product(Some(class)) => self.program.prelude.record(class.name()),
            _ => return Vec::new(),
        };
        match self.signature_of(def) {
            Signature::Record(fields) => fields.iter().map(|f| f.name).collect(),
            _ => Vec::new(),
        }
    }
}
