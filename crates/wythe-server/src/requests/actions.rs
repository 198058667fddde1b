//! What is offered to be done at a place.

use tower_lsp::lsp_types::{CodeAction, CodeActionKind, CodeActionOrCommand, CodeActionParams};
use wythe_ide::actions::{ActionKind, actions};

use crate::convert::{diagnostics, edits};
use crate::state::State;

/// The offers, those of the kinds asked for alone.
pub(crate) fn offered(state: &State, params: &CodeActionParams) -> Option<Vec<CodeActionOrCommand>> {
    let (at, span) = state.range(&params.text_document.uri, params.range)?;
    let wanted = |kind: &CodeActionKind| {
        params.context.only.as_ref().is_none_or(|only| {
            only.iter().any(|o| kind == o || kind.as_str().strip_prefix(o.as_str()).is_some_and(|r| r.starts_with('.')))
        })
    };
    let mut out = Vec::new();
    for action in actions(at.project(), span) {
        let kind = match action.kind {
            ActionKind::QuickFix => CodeActionKind::QUICKFIX,
            ActionKind::FixAll => CodeActionKind::SOURCE_FIX_ALL,
            ActionKind::OrganizeUses => CodeActionKind::SOURCE_ORGANIZE_IMPORTS,
            ActionKind::Refactor => CodeActionKind::REFACTOR_REWRITE,
        };
        if !wanted(&kind) {
            continue;
        }
        let Some(edit) = edits::of_workspace(state, &at.places, &action.edits) else { continue };
        out.push(CodeActionOrCommand::CodeAction(CodeAction {
            title: action.title,
            kind: Some(kind),
            diagnostics: action.mends.map(|f| vec![diagnostics::one(state, &at.places, &f)]),
            edit: Some(edit),
            is_preferred: action.preferred.then_some(true),
            ..CodeAction::default()
        }));
    }
    Some(out)
}
