//! Diagnostics a client asks for.

use std::hash::{Hash, Hasher};

use rustc_hash::FxHasher;
use tower_lsp::lsp_types::{
    Diagnostic, DocumentDiagnosticReport, DocumentDiagnosticReportResult, FullDocumentDiagnosticReport,
    PreviousResultId, RelatedFullDocumentDiagnosticReport, RelatedUnchangedDocumentDiagnosticReport,
    UnchangedDocumentDiagnosticReport, Url, WorkspaceDiagnosticReport, WorkspaceDiagnosticReportResult,
    WorkspaceDocumentDiagnosticReport, WorkspaceFullDocumentDiagnosticReport,
    WorkspaceUnchangedDocumentDiagnosticReport,
};
use wythe_project::Project;

use crate::convert::{Places, diagnostics};
use crate::state::State;

/// What is found in a file; nothing but a word if it is what the client has already.
pub(crate) fn of_file(state: &State, url: &Url, known: Option<&str>) -> DocumentDiagnosticReportResult {
    let found = state
        .file(url)
        .map_or_else(Vec::new, |at| diagnostics::of(state, &at.places, &at.project().findings_in(at.file)));
    let id = id(&found);
    let report = if known == Some(id.as_str()) {
        DocumentDiagnosticReport::Unchanged(RelatedUnchangedDocumentDiagnosticReport {
            related_documents: None,
            unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport { result_id: id },
        })
    } else {
        DocumentDiagnosticReport::Full(RelatedFullDocumentDiagnosticReport {
            related_documents: None,
            full_document_diagnostic_report: FullDocumentDiagnosticReport { result_id: Some(id), items: found },
        })
    };
    DocumentDiagnosticReportResult::Report(report)
}

/// What is found in every file of every repository.
pub(crate) fn of_workspace(state: &State, known: &[PreviousResultId]) -> WorkspaceDiagnosticReportResult {
    let mut items = Vec::new();
    for repository in state.repositories() {
        let places = Places::new(state, repository);
        let mut files: Vec<_> = repository.project.roots().chain([Project::MANIFEST]).collect();
        files.sort_unstable();
        files.dedup();
        for file in files {
            let Some(uri) = places.url(file) else { continue };
            let found = diagnostics::of(state, &places, &repository.project.findings_in(file));
            let id = id(&found);
            let version = state.version(&uri).map(i64::from);
            let same = known.iter().any(|k| k.uri == uri && k.value == id);
            items.push(if same {
                let report = UnchangedDocumentDiagnosticReport { result_id: id };
                WorkspaceDocumentDiagnosticReport::Unchanged(WorkspaceUnchangedDocumentDiagnosticReport {
                    uri,
                    version,
                    unchanged_document_diagnostic_report: report,
                })
            } else {
                let report = FullDocumentDiagnosticReport { result_id: Some(id), items: found };
                WorkspaceDocumentDiagnosticReport::Full(WorkspaceFullDocumentDiagnosticReport {
                    uri,
                    version,
                    full_document_diagnostic_report: report,
                })
            });
        }
    }
    WorkspaceDiagnosticReportResult::Report(WorkspaceDiagnosticReport { items })
}

/// A name for what is found, the same for the same.
fn id(found: &[Diagnostic]) -> String {
    let mut hasher = FxHasher::default();
    for diagnostic in found {
        serde_json::to_string(diagnostic).unwrap_or_default().hash(&mut hasher);
    }
    format!("{:016x}", hasher.finish())
}
