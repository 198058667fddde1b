//! How grave a finding is in this repository: the manifest's word over the page's.

use wythe_findings::{Finding, Severity, codes};
use wythe_sema::Program;
use wythe_syntax::ast::DeclKind;

use crate::{Manifest, SeverityChoice};

impl Manifest {
    /// How grave a finding of this name is here; `None` where it is not to be shown.
    pub fn weigh(&self, name: &str, severity: Severity) -> Option<Severity> {
        match self.severities.get(name).map(|o| o.choice) {
            None => Some(severity),
            Some(SeverityChoice::Off) => None,
            Some(SeverityChoice::Is(severity)) => Some(severity),
        }
    }
}

/// Applies the manifest's choice to a finding; `None` where it is not to be shown.
pub(crate) fn weighed(finding: Finding, manifest: &Manifest) -> Option<Finding> {
    let severity = manifest.weigh(finding.name.as_str(), finding.severity)?;
    Some(Finding { severity, ..finding })
}

/// Names in the manifest that no finding and no rule of the program bears.
pub(crate) fn unknown_names(manifest: &Manifest, program: &Program) -> Vec<Finding> {
    let mut unknown: Vec<_> =
        manifest.severities.iter().filter(|(name, _)| wythe_findings::find_page(name).is_none()).collect();
    if unknown.is_empty() {
        return Vec::new();
    }
    for file in program.files() {
        let Some(data) = program.module(file) else { continue };
        for decl in data.module.decls.iter().filter(|d| matches!(d.kind, DeclKind::Rule(_))) {
            unknown.retain(|(name, _)| name.as_str() != decl.name.name.as_str());
        }
    }
    unknown
        .into_iter()
        .map(|(name, written)| {
            Finding {
                severity: Severity::Warning,
                ..Finding::new(codes::UNKNOWN_CODE, written.place, format!("no finding is called `{name}`"))
            }
            .label("neither a finding of the compiler nor a rule in the files checked")
            .mend("`wythe explain` lists the findings of the compiler")
        })
        .collect()
}
