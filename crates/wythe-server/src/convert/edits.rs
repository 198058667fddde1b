//! Edits of the text.

use std::collections::{BTreeMap, HashMap};

use tower_lsp::lsp_types::{
    DocumentChanges, OneOf, OptionalVersionedTextDocumentIdentifier, TextDocumentEdit, TextEdit, Url, WorkspaceEdit,
};
use wythe_findings::Edit;
use wythe_source::FileId;

use super::Places;
use crate::state::State;

/// Edits of one file.
pub(crate) fn of_file(places: &Places<'_>, edits: &[Edit]) -> Vec<TextEdit> {
    edits.iter().map(|e| TextEdit { range: places.range(e.span), new_text: e.text.clone() }).collect()
}

/// Edits of any files; nothing where one stands nowhere. With the versions they are meant for, where the client can.
pub(crate) fn of_workspace(state: &State, places: &Places<'_>, edits: &[Edit]) -> Option<WorkspaceEdit> {
    let mut by_file: BTreeMap<FileId, Vec<TextEdit>> = BTreeMap::new();
    for edit in edits {
        let text = TextEdit { range: places.range(edit.span), new_text: edit.text.clone() };
        by_file.entry(edit.span.file).or_default().push(text);
    }
    let mut by_url: Vec<(Url, Vec<TextEdit>)> = Vec::new();
    for (file, edits) in by_file {
        by_url.push((places.url(file)?, edits));
    }
    if !state.can.versioned_edits {
        let changes: HashMap<Url, Vec<TextEdit>> = by_url.into_iter().collect();
        return Some(WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() });
    }
    let documents = by_url.into_iter().map(|(uri, edits)| {
        let version = state.version(&uri);
        TextDocumentEdit {
            text_document: OptionalVersionedTextDocumentIdentifier { uri, version },
            edits: edits.into_iter().map(OneOf::Left).collect(),
        }
    });
    let documents = DocumentChanges::Edits(documents.collect());
    Some(WorkspaceEdit { document_changes: Some(documents), ..WorkspaceEdit::default() })
}

/// The edits of two repositories as one.
pub(crate) fn both(mut one: WorkspaceEdit, other: WorkspaceEdit) -> WorkspaceEdit {
    if let Some(changes) = other.changes {
        one.changes.get_or_insert_default().extend(changes);
    }
    if let Some(DocumentChanges::Edits(more)) = other.document_changes {
        match &mut one.document_changes {
            Some(DocumentChanges::Edits(all)) => all.extend(more),
            _ => one.document_changes = Some(DocumentChanges::Edits(more)),
        }
    }
    one
}
