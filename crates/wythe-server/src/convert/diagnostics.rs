//! Findings as diagnostics: with related places, a link to the page on the finding, and what the client greys out.

use tower_lsp::lsp_types::{
    CodeDescription, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, DiagnosticTag, NumberOrString,
};
use wythe_findings::{Finding, FindingName, Severity, codes};

use super::Places;
use crate::state::State;

/// The diagnostics of findings, in their order.
pub(crate) fn of(state: &State, places: &Places<'_>, findings: &[Finding]) -> Vec<Diagnostic> {
    findings.iter().map(|f| one(state, places, f)).collect()
}

/// The diagnostic of a finding.
pub(crate) fn one(state: &State, places: &Places<'_>, finding: &Finding) -> Diagnostic {
    let related = finding.related.iter().filter_map(|label| {
        Some(DiagnosticRelatedInformation { location: places.location(label.span)?, message: label.text.clone() })
    });
    let related: Vec<_> = related.collect();
    Diagnostic {
        range: places.range(finding.primary.span),
        severity: Some(match finding.severity {
            Severity::Error => DiagnosticSeverity::ERROR,
            Severity::Warning => DiagnosticSeverity::WARNING,
            Severity::Information => DiagnosticSeverity::INFORMATION,
        }),
        code: Some(NumberOrString::String(finding.name.as_str().to_owned())),
        code_description: state.shipped.page(&finding.name).map(|href| CodeDescription { href }),
        source: Some("wythe".into()),
        message: message(finding),
        related_information: (!related.is_empty()).then_some(related),
        tags: tags(finding),
        data: None,
    }
}

/// Title, what is seen, why, and how to mend it.
fn message(finding: &Finding) -> String {
    let mut lines = vec![finding.title.clone()];
    if !finding.primary.text.is_empty() {
        lines.push(finding.primary.text.clone());
    }
    lines.extend(finding.cause.clone());
    let consequence = finding.consequence_text();
    if !consequence.is_empty() {
        lines.push(format!("on site: {}", consequence.split_whitespace().collect::<Vec<_>>().join(" ")));
    }
    lines.extend(finding.mend.as_ref().map(|m| format!("mend: {m}")));
    lines.extend(finding.source.as_ref().filter(|s| !s.is_empty()).map(|s| format!("source: {s}")));
    lines.join("\n")
}

/// What is said twice does nothing and may be greyed out.
fn tags(finding: &Finding) -> Option<Vec<DiagnosticTag>> {
    let idle = matches!(finding.name, FindingName::Code(code) if code == codes::SAID_TWICE);
    idle.then(|| vec![DiagnosticTag::UNNECESSARY])
}
