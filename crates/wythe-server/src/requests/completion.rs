//! What may be written at a place.

use tower_lsp::lsp_types::{CompletionList, CompletionResponse, Position, Url};

use crate::convert::completion;
use crate::state::State;

/// The most items sent at once; with more the list is asked for again as one types.
const MOST: usize = 400;

/// What may be written.
pub(crate) fn complete(state: &State, url: &Url, position: Position) -> Option<CompletionResponse> {
    let at = state.at(url, position)?;
    let mut found = wythe_ide::complete::complete(at.project(), at.file, at.offset)?;
    let more = found.items.len() > MOST;
    found.items.truncate(MOST);
    let items = completion::items(&at.places, &found, state.can.snippets);
    Some(CompletionResponse::List(CompletionList { is_incomplete: more, items }))
}
