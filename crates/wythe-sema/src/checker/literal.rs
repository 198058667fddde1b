//! Figures: numbers with units, lengths with marks, R-values, dates.

use std::sync::Arc;

use wythe_findings::{Finding, codes};
use wythe_source::Span;
use wythe_syntax::ast::{DeclKind, ExprId, Ident, UnitExpr};
use wythe_units::{
    CompoundUnit, CompoundUnitError, Dim, Factor, Nominal, Quantity, Scalar, UnitTerm, all_units, parse_length_marks,
    parse_r_value, unit_named,
};

use crate::checked::{Literal, Target};
use crate::program::DefId;
use crate::suggest::closest;
use crate::types::Type;

use super::Checker;

impl Checker<'_> {
    /// A number with or without a unit.
    pub(super) fn number(
        &mut self,
        id: ExprId,
        figure: Span,
        unit: Option<&UnitExpr>,
        expected: Option<&Type>,
    ) -> Type {
        let value = match Scalar::parse(self.text(figure)) {
            Ok(value) => value,
            Err(error) => {
                self.report(Finding::new(codes::BAD_FIGURE, figure, error.to_string()));
                return Type::Unknown;
            }
        };
        let Some(written) = unit else {
            self.out.literals.insert(id, Literal::Quantity(Quantity::number(value), None));
            return Type::NUMBER;
        };
        let Some(unit) = self.unit(written) else { return Type::Unknown };
        let wants_difference = expected.is_some_and(|t| *t.required() == Type::quantity(Dim::TEMPERATURE));
        if unit.offset().is_some() && !wants_difference {
            let zero = unit.offset().unwrap_or(Scalar::from(0));
            return match value.checked_add(zero).and_then(|v| unit.to_si(v)) {
                Ok(kelvin) => {
                    self.out.literals.insert(id, Literal::Temperature(kelvin));
                    Type::Temperature
                }
                Err(error) => self.bad_figure(figure, &error.to_string()),
            };
        }
        match unit.to_si(value).map(|v| Quantity { value: v, dim: unit.dim(), kind: unit.kind() }) {
            Ok(quantity) => {
                let ty = Type::Quantity(quantity.dim, quantity.kind);
                self.out.literals.insert(id, Literal::Quantity(quantity, Some(unit)));
                ty
            }
            Err(error) => self.bad_figure(figure, &error.to_string()),
        }
    }

    fn bad_figure(&mut self, span: Span, why: &str) -> Type {
        self.report(Finding::new(codes::BAD_FIGURE, span, why.to_owned()));
        Type::Unknown
    }

    /// A length with marks.
    pub(super) fn length(&mut self, id: ExprId, span: Span) -> Type {
        match parse_length_marks(self.text(span)) {
            Ok(quantity) => {
                self.out.literals.insert(id, Literal::Quantity(quantity, None));
                Type::quantity(Dim::LENGTH)
            }
            Err(error) => self.bad_figure(span, &error.to_string()),
        }
    }

    /// An R-value or a U-value.
    pub(super) fn r_value(&mut self, id: ExprId, span: Span) -> Type {
        match parse_r_value(self.text(span)) {
            Ok(quantity) => {
                self.out.literals.insert(id, Literal::Quantity(quantity, None));
                Type::quantity(quantity.dim)
            }
            Err(error) => self.bad_figure(span, &error.to_string()),
        }
    }

    /// A unit as written. Units of the table alone are put together once for the whole module.
    pub(crate) fn unit(&mut self, written: &UnitExpr) -> Option<Arc<CompoundUnit>> {
        let text = self.text(written.span);
        if let Some(known) = self.units.get(text) {
            return Some(known.clone());
        }
        let unit = Arc::new(self.put_together(written)?);
        if written.above.iter().chain(&written.below).all(|name| unit_named(name.name).is_some()) {
            self.units.insert(text, unit.clone());
        }
        Some(unit)
    }

    fn put_together(&mut self, written: &UnitExpr) -> Option<CompoundUnit> {
        let above = self.unit_terms(&written.above)?;
        let below = self.unit_terms(&written.below)?;
        match CompoundUnit::new(&above, &below) {
            Ok(unit) => Some(unit),
            Err(error) => {
                let mend = match error {
                    CompoundUnitError::Overflow => "write it with fewer names",
                    _ => "write each unit once, what is divided by after `per`",
                };
                self.report(Finding::new(codes::BAD_UNIT, written.span, error.to_string()).mend(mend));
                None
            }
        }
    }

    fn unit_terms(&mut self, names: &[Ident]) -> Option<Vec<UnitTerm>> {
        names.iter().map(|name| self.unit_term(*name)).collect()
    }

    fn unit_term(&mut self, ident: Ident) -> Option<UnitTerm> {
        if let Some(unit) = unit_named(ident.name) {
            return Some(unit.into());
        }
        if let Some(def) = self.global(ident.name)
            && let Some(DeclKind::Unit(value)) = self.program.decl(def).map(|d| &d.kind)
        {
            self.mention(ident.span, Target::Def(def));
            return match value {
                None => Some(nominal_of(def, ident).into()),
                Some(value) => self.declared_unit(def, *value, ident),
            };
        }
        let zone = self.text(ident.span).len() == 1 && ident.name.as_str().chars().all(|c| c.is_ascii_uppercase());
        let mut finding = Finding::new(codes::UNKNOWN_UNIT, ident.span, format!("there is no unit `{}`", ident.name))
            .label("a name right after a number is its unit");
        let own =
            self.module.decls.iter().filter(|d| matches!(d.kind, DeclKind::Unit(_))).map(|d| d.name.name.as_str());
        if let Some(near) = closest(ident.name.as_str(), all_units().iter().map(|u| u.symbol).chain(own)) {
            finding = finding.mend(format!("did you mean `{near}`?")).fix(wythe_findings::Fix::needs_consent(
                format!("write `{near}`"),
                ident.span,
                near,
            ));
        } else if zone {
            finding = finding.mend("a climate zone is written `zone_4a`");
        } else {
            finding = finding.mend(format!("declare it: `unit {}`, or name it in a `use` line", ident.name));
        }
        self.report(finding);
        None
    }

    /// A unit declared by a value: `unit square = 100 ft2`. The value must be a figure.
    fn declared_unit(&mut self, def: DefId, value: ExprId, ident: Ident) -> Option<UnitTerm> {
        let literal = if def.file == self.file {
            if self.under_way.contains(&def.index) {
                self.circle(def.index);
                return None;
            }
            // Once is enough: a second time would find the same faults again.
            if self.units_read.insert(def.index) {
                self.under_way.push(def.index);
                self.infer(value);
                self.under_way.pop();
            }
            self.out.literals.get(&value).cloned()
        } else {
            self.program.checked(def.file).and_then(|c| c.literals.get(&value).cloned())
        };
        let Some(Literal::Quantity(quantity, _)) = literal else {
            self.report(
                Finding::new(codes::BAD_UNIT, ident.span, format!("`{}` is not declared by a figure", ident.name))
                    .related(self.program.span_of(def), "declared here")
                    .mend("a unit is declared alone, or by a figure: `unit square = 100 ft2`"),
            );
            return None;
        };
        let factor = Factor::from_scalar(quantity.value)?;
        Some(UnitTerm::Declared(ident.name.as_str(), quantity.dim, factor))
    }
}

/// The counting unit a declaration stands for: nominal, so that two files' sheets do not mix unless shared.
pub(crate) fn nominal_of(def: DefId, ident: Ident) -> Nominal {
    Nominal::new(format!("file {}", def.file.0).as_str().into(), ident.name)
}
