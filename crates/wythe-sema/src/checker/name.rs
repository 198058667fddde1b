//! A bare name in an expression.

use wythe_findings::{Finding, codes};
use wythe_model::{Class, Level};
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{DeclKind, ExprId, Ident};
use wythe_units::unit_named;

use crate::checked::{Builtin, Res, Target};
use crate::program::DefId;
use crate::signature::Signature;
use crate::suggest::closest;
use crate::types::Type;

use super::Checker;

impl Checker<'_> {
    pub(super) fn name(&mut self, id: ExprId, name: Symbol, span: Span, hope: Option<&Type>) -> Type {
        if let Some(local) = self.locals.iter().rev().find(|l| l.name == name).cloned() {
            self.resolve(id, local.res);
            self.mention(span, Target::Local(local.span));
            return local.ty;
        }
        let hope = hope.map(Type::required);
        if let Some(Type::Enum(def)) = hope
            && let Some(ty) = self.member(id, *def, name, span)
        {
            return ty;
        }
        if hope == Some(&Type::Currency)
            && unit_named(name).is_some_and(|u| u.nominal().is_some_and(|n| n.is_currency()))
        {
            self.resolve(id, Res::Currency(name));
            return Type::Currency;
        }
        if hope == Some(&Type::Class)
            && let Some(class) = Class::of_name(name.as_str())
        {
            self.resolve(id, Res::Class(class));
            return Type::Class;
        }
        if let Some(whole) = self.whole
            && let Some((field, found)) = self.signature_of(whole).field(name)
        {
            self.resolve(id, Res::Whole(field));
            self.mention(span, Target::Part(whole, field));
            return found.ty.clone();
        }
        let in_prelude = self.program.prelude.def_of(name);
        if let Some(def) = self.global(name).filter(|d| Some(*d) != in_prelude) {
            return self.global_name(id, def, span, hope);
        }
        if let Some(level) = level(name) {
            self.resolve(id, Res::Level(level));
            return Type::Elevation;
        }
        if let Some(builtin) = Builtin::of_name(name.as_str()) {
            self.resolve(id, Res::Builtin(builtin));
            return Type::Unknown;
        }
        if let Some(class) = Class::of_name(name.as_str()) {
            self.resolve(id, Res::Class(class));
            return Type::Class;
        }
        if let Some(def) = in_prelude {
            return self.global_name(id, def, span, hope);
        }
        if matches!(hope, Some(Type::Name | Type::Phase)) {
            self.resolve(id, Res::Name(name));
            return hope.cloned().unwrap_or(Type::Name);
        }
        if let Some(Type::Enum(def)) = hope {
            self.no_such_member(*def, name, span);
        } else {
            self.unknown_name(Ident { name, span });
        }
        Type::Unknown
    }

    fn global_name(&mut self, id: ExprId, def: DefId, span: Span, hope: Option<&Type>) -> Type {
        self.resolve(id, Res::Def(def));
        self.mention(span, Target::Def(def));
        match self.signature_of(def) {
            Signature::Value(ty) => ty,
            Signature::Buildup { params, kind } => {
                let complete = params.iter().all(|p| p.default.is_some());
                if complete && !matches!(hope, Some(Type::Callable(_))) {
                    Type::Buildup(kind)
                } else {
                    Type::Callable(def)
                }
            }
            Signature::Function { .. } => Type::Callable(def),
            Signature::Enum { .. } | Signature::Record(_) => Type::Callable(def),
            Signature::Unknown => Type::Unknown,
            Signature::Other => {
                let what = match self.program.decl(def).map(|d| &d.kind) {
                    Some(DeclKind::Unit(_)) => "a unit; it stands right after a number",
                    Some(DeclKind::Rule(_)) => "a rule; it is not a value",
                    _ => "not a value",
                };
                self.report(Finding::new(
                    codes::TYPE_MISMATCH,
                    span,
                    format!("`{}` is {what}", self.program.name_of(def)),
                ));
                Type::Unknown
            }
        }
    }

    /// A member of an enumeration, standing bare.
    fn member(&mut self, id: ExprId, def: DefId, name: Symbol, span: Span) -> Option<Type> {
        let Signature::Enum { members, .. } = self.signature_of(def) else { return None };
        let at = members.iter().position(|m| *m == name)? as u32;
        self.resolve(id, Res::Member(def, at));
        self.mention(span, Target::Part(def, at));
        Some(Type::Enum(def))
    }

    pub(super) fn no_such_member(&mut self, def: DefId, name: Symbol, span: Span) {
        let Signature::Enum { members, .. } = self.signature_of(def) else { return };
        let all = members.iter().map(|m| m.as_str());
        let near = closest(name.as_str(), all.clone());
        let mut finding =
            Finding::new(codes::UNKNOWN_MEMBER, span, format!("`{name}` is not one of {}", self.program.name_of(def)));
        if let Some(near) = near {
            finding = finding.mend(format!("did you mean `{near}`?")).fix(wythe_findings::Fix::needs_consent(
                format!("write `{near}`"),
                span,
                near,
            ));
        } else {
            finding = finding.mend(format!("it is one of {}", all.collect::<Vec<_>>().join(", ")));
        }
        self.report(finding);
    }
}

/// The level of a word.
pub(crate) fn level(name: Symbol) -> Option<Level> {
    [Level::Datum, Level::Top, Level::Sill, Level::Grade, Level::Ground, Level::Footing]
        .into_iter()
        .find(|l| l.word() == name.as_str())
}
