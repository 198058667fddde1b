//! Definition, references, highlights.

use tower_lsp::lsp_types::{DocumentHighlight, DocumentHighlightKind, GotoDefinitionResponse, Location, Position, Url};
use wythe_ide::{highlight, navigate};

use crate::state::State;

/// Where a name is declared.
pub(crate) fn definition(state: &State, url: &Url, position: Position) -> Option<GotoDefinitionResponse> {
    let at = state.at(url, position)?;
    let span = navigate::definition(at.project(), at.file, at.offset)?;
    at.places.location(span).map(GotoDefinitionResponse::Scalar)
}

/// Where the type of a name is declared.
pub(crate) fn type_definition(state: &State, url: &Url, position: Position) -> Option<GotoDefinitionResponse> {
    let at = state.at(url, position)?;
    let span = navigate::type_definition(at.project(), at.file, at.offset)?;
    at.places.location(span).map(GotoDefinitionResponse::Scalar)
}

/// Every place that names it.
pub(crate) fn references(state: &State, url: &Url, position: Position, declaration: bool) -> Option<Vec<Location>> {
    let at = state.at(url, position)?;
    let all = navigate::references(at.project(), at.file, at.offset, declaration);
    Some(all.into_iter().filter_map(|span| at.places.location(span)).collect())
}

/// The places of the same file that name it.
pub(crate) fn highlights(state: &State, url: &Url, position: Position) -> Option<Vec<DocumentHighlight>> {
    let at = state.at(url, position)?;
    let all = highlight::highlights(at.project(), at.file, at.offset).into_iter();
    let kind = |declares| if declares { DocumentHighlightKind::WRITE } else { DocumentHighlightKind::READ };
    Some(all.map(|h| DocumentHighlight { range: at.places.range(h.span), kind: Some(kind(h.declares)) }).collect())
}
