//! Formatting and renaming.

use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{Position, PrepareRenameResponse, Range, TextEdit, Url, WorkspaceEdit};
use wythe_ide::{formatting, rename};

use crate::convert::edits;
use crate::state::State;

/// The layout of the language for a whole file.
pub(crate) fn format(state: &State, url: &Url) -> Option<Vec<TextEdit>> {
    let at = state.file(url)?;
    Some(edits::of_file(&at.places, &formatting::format(at.project(), at.file)))
}

/// The layout of the declarations a range touches.
pub(crate) fn format_range(state: &State, url: &Url, range: Range) -> Option<Vec<TextEdit>> {
    let (at, span) = state.range(url, range)?;
    Some(edits::of_file(&at.places, &formatting::format_range(at.project(), span)))
}

/// The depth of a line as it is typed.
pub(crate) fn format_on_type(state: &State, url: &Url, position: Position, typed: &str) -> Option<Vec<TextEdit>> {
    let at = state.at(url, position)?;
    let typed = typed.chars().next()?;
    Some(edits::of_file(&at.places, &formatting::format_on_type(at.project(), at.file, at.offset, typed)))
}

/// The name at a place, if it can be renamed.
pub(crate) fn prepare_rename(state: &State, url: &Url, position: Position) -> Result<Option<PrepareRenameResponse>> {
    let Some(at) = state.at(url, position) else { return Ok(None) };
    match rename::prepare(at.project(), at.file, at.offset) {
        Ok((span, placeholder)) => {
            let range = at.places.range(span);
            Ok(Some(PrepareRenameResponse::RangeWithPlaceholder { range, placeholder }))
        }
        Err(reason) => Err(refused(reason)),
    }
}

/// The edits of a renaming.
pub(crate) fn rename(state: &State, url: &Url, position: Position, new: &str) -> Result<Option<WorkspaceEdit>> {
    let Some(at) = state.at(url, position) else { return Ok(None) };
    let found = rename::rename(at.project(), at.file, at.offset, new).map_err(refused)?;
    Ok(edits::of_workspace(state, &at.places, &found))
}

fn refused(reason: String) -> Error {
    Error { message: reason.into(), ..Error::invalid_params("") }
}
