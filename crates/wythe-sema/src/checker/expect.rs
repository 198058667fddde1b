//! Insisting on a type, and saying so in the words of the trade.

use wythe_findings::{Finding, codes};
use wythe_source::Span;
use wythe_syntax::ast::{ExprId, ExprKind};

use crate::types::Type;

use super::Checker;

impl Checker<'_> {
    /// Checks an expression against the type due, and gives the type it has.
    pub(crate) fn expect(&mut self, id: ExprId, due: &Type) -> Type {
        let given = self.infer_toward(id, Some(due));
        if !due.accepts(&given) {
            self.mismatch(id, due, &given);
            return Type::Unknown;
        }
        given
    }

    /// Says what is due and what is given.
    pub(crate) fn mismatch(&mut self, id: ExprId, due: &Type, given: &Type) {
        let span = self.module[id].span;
        let words = (self.describe(due), self.describe(given));
        let source = self.text(span);
        let mut finding = match (due.required(), given) {
            (_, Type::Nothing) => {
                Finding::new(codes::MAY_BE_NONE, span, format!("`none` cannot stand here; {} is due", words.0))
            }
            (_, Type::Optional(_)) => {
                Finding::new(codes::MAY_BE_NONE, span, format!("`{}` may be none; {} is due", brief(source), words.0))
                    .mend("give a value for that case: `… ?? …`, or ask first: `if … == none then … else …`")
            }
            (Type::Quantity(dim, _), Type::Quantity(other, _)) if dim != other => {
                let code = if dim.has_nominal() || other.has_nominal() {
                    codes::UNLIKE_UNITS
                } else {
                    codes::UNLIKE_DIMENSIONS
                };
                Finding::new(code, span, format!("`{}` is {}; {} is due here", brief(source), words.1, words.0))
            }
            (Type::Loose(_), Type::Quantity(..)) | (Type::Quantity(..), Type::Loose(_)) => Finding::new(
                codes::UNLIKE_DIMENSIONS,
                span,
                format!("`{}` is {}; {} is due here", brief(source), words.1, words.0),
            ),
            _ => Finding::new(codes::TYPE_MISMATCH, span, format!("{} is due here, not {}", words.0, words.1)),
        };
        finding = finding.label(format!("this is {}", words.1));
        if let Some(hint) = self.simple_repair(id, due, given, span) {
            finding = finding.mend(hint);
        } else if finding.mend.is_none() {
            finding = finding.mend(format!("write {}", words.0));
        }
        self.report(finding);
    }

    fn simple_repair(&self, id: ExprId, due: &Type, given: &Type, span: Span) -> Option<String> {
        let bare_number = matches!(self.module[id].kind, ExprKind::Number { unit: None, .. });
        match (due.required(), given) {
            (Type::Quantity(dim, kind), t) if bare_number && *t == Type::NUMBER => {
                let (unit, _) = wythe_units::preferred_unit(*dim, *kind, wythe_units::UnitSystem::Us)?;
                let figure = self.text(span);
                if *dim == wythe_units::Dim::LENGTH {
                    return Some(format!("give it a unit: `{figure}\"`, `{figure}'` or `{figure} mm`"));
                }
                Some(format!("give it a unit, such as `{figure} {}`", unit.text()))
            }
            (Type::Buildup(_), Type::Callable(def)) => {
                Some(format!("fill in what it needs: `{}(…)`", self.program.name_of(*def)))
            }
            (Type::Elevation, Type::Quantity(dim, _)) if *dim == wythe_units::Dim::LENGTH => {
                Some("say from which level: `datum - …`, `grade + …`, `ground + …`".into())
            }
            _ => None,
        }
    }
}

/// A piece of source short enough to quote.
pub(super) fn brief(source: &str) -> String {
    let mut line: String = source.split_whitespace().collect::<Vec<_>>().join(" ");
    if line.chars().count() > 40 {
        line = line.chars().take(37).collect::<String>() + "…";
    }
    line
}
