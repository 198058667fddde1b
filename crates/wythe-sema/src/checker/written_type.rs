//! Types as written.

use std::sync::Arc;

use wythe_findings::{Finding, codes};
use wythe_model::{Class, SurfaceKind};
use wythe_syntax::ast::{DeclKind, Ident, TypeExpr, TypeExprKind};
use wythe_units::{Dim, TYPE_NAMES};

use crate::checked::{Res, Target};
use crate::suggest::closest;
use crate::types::{Loose, Type};

use super::Checker;

impl Checker<'_> {
    /// The type a written type stands for.
    pub(crate) fn written_type(&mut self, written: &TypeExpr) -> Type {
        match &written.kind {
            TypeExprKind::List(inner) => Type::list(self.written_type(inner)),
            TypeExprKind::Optional(inner) => self.written_type(inner).optional(),
            TypeExprKind::Name(name, None) => self.named_type(*name),
            TypeExprKind::Name(name, Some(inner)) => {
                let inner = Arc::new(self.written_type(inner));
                match name.name.as_str() {
                    "Range" => Type::Range(inner),
                    "Size" => Type::Size(inner),
                    "List" => Type::List(inner),
                    other => {
                        self.report(
                            Finding::new(
                                codes::UNKNOWN_TYPE,
                                name.span,
                                format!("`{other}` takes no type in brackets"),
                            )
                            .mend("`Range[…]`, `Size[…]` and `[…]` do"),
                        );
                        Type::Unknown
                    }
                }
            }
        }
    }

    fn named_type(&mut self, ident: Ident) -> Type {
        let name = ident.name.as_str();
        if self.generics.contains(&ident.name) {
            return Type::Generic(ident.name);
        }
        if let Some(class) = Class::of_name(name) {
            if let Some(def) = self.program.prelude.def(name) {
                self.mention(ident.span, Target::Def(def));
            }
            return Type::Product(Some(class));
        }
        if let Some(sort) = Loose::of_name(name) {
            return Type::Loose(sort);
        }
        let simple = match name {
            "Bool" => Some(Type::Bool),
            "Text" => Some(Type::Text),
            "Date" => Some(Type::Date),
            "Elevation" => Some(Type::Elevation),
            "Temperature" => Some(Type::Temperature),
            "Product" => Some(Type::Product(None)),
            "Class" => Some(Type::Class),
            "Phase" => Some(Type::Phase),
            "Joint" => Some(Type::Joint),
            "Place" => Some(Type::Place),
            "Name" => Some(Type::Name),
            "Weather" => Some(Type::Weather),
            "Table" => Some(Type::Table),
            "Currency" => Some(Type::Currency),
            "WallBuildup" => Some(Type::Buildup(SurfaceKind::Wall)),
            "PierBuildup" => Some(Type::Buildup(SurfaceKind::Pier)),
            "OpeningBuildup" => Some(Type::Buildup(SurfaceKind::Opening)),
            "GroundBuildup" => Some(Type::Buildup(SurfaceKind::Ground)),
            // The prelude has a record of this name for what a lumber product may say.
            "LumberSize" => Some(Type::Lumber),
            _ => None,
        };
        if let Some(ty) = simple {
            return ty;
        }
        if let Some((dim, kind)) = Dim::of_type_name(name) {
            return Type::Quantity(dim, kind);
        }
        if let Some(def) = self.global(ident.name) {
            self.mention(ident.span, Target::Def(def));
            match self.program.decl(def).map(|d| &d.kind) {
                Some(DeclKind::Enum { .. }) => return Type::Enum(def),
                Some(DeclKind::Record(_)) => return Type::Record(def),
                _ => {}
            }
        }
        let near = closest(name, TYPE_NAMES.iter().map(|(n, _)| *n).chain(Class::ALL.map(Class::name)));
        let mut finding = Finding::new(codes::UNKNOWN_TYPE, ident.span, format!("there is no type `{name}`"));
        if let Some(near) = near {
            finding = finding.mend(format!("did you mean `{near}`?"));
        } else {
            finding = finding
                .mend("types are named with a capital letter, such as `Length`, `Board` or a record of your own");
        }
        self.report(finding);
        Type::Unknown
    }

    /// The class of a product's header.
    pub(super) fn class(&mut self, ident: Ident) -> Option<Class> {
        let class = Class::of_name(ident.name.as_str());
        match class {
            Some(class) => {
                if let Some(def) = self.program.prelude.def(class.name()) {
                    self.mention(ident.span, Target::Def(def));
                }
                self.note_ident(ident, Res::Class(class));
            }
            None => {
                let near = closest(ident.name.as_str(), Class::ALL.map(Class::name));
                let all = Class::ALL.map(Class::name).join(", ");
                self.report(
                    Finding::new(
                        codes::UNKNOWN_TYPE,
                        ident.span,
                        format!("there is no product class `{}`", ident.name),
                    )
                    .label("a class is due here")
                    .mend(near.map_or_else(|| format!("the classes are {all}"), |n| format!("did you mean `{n}`?"))),
                );
            }
        }
        class
    }

    pub(super) fn unknown_surface(&mut self, ident: Ident) {
        self.report(
            Finding::new(codes::UNKNOWN_SURFACE, ident.span, format!("nothing is built on `{}`", ident.name))
                .mend("a build-up is for `wall`, `pier`, `opening` or `ground`"),
        );
    }
}
