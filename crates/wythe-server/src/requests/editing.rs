//! Formatting and renaming.

use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{
    FileRename, LinkedEditingRanges, Position, PrepareRenameResponse, Range, TextEdit, Url, WorkspaceEdit,
};
use wythe_ide::{formatting, linked, moves, rename};
use wythe_project::SourcePath;

use crate::convert::{Places, edits};
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

/// The edits by which every `use` line goes on leading where it leads, once files have been renamed. What moves from one
/// repository to another is on its own there.
pub(crate) fn file_renames(state: &State, files: &[FileRename]) -> Option<WorkspaceEdit> {
    let mut all = Vec::new();
    for repository in state.repositories() {
        let Some(root) = repository.root.as_deref() else { continue };
        let path = |uri: &str| SourcePath::below(root, &Url::parse(uri).ok()?.to_file_path().ok()?);
        let within: Vec<_> = files.iter().filter_map(|f| Some((path(&f.old_uri)?, path(&f.new_uri)?))).collect();
        if within.is_empty() {
            continue;
        }
        let found = moves::moved(&repository.project, &within);
        all.push(edits::of_workspace(state, &Places::new(state, repository), &found)?);
    }
    all.into_iter().reduce(edits::both)
}

/// The places that are typed together with the one asked about.
pub(crate) fn linked(state: &State, url: &Url, position: Position) -> Option<LinkedEditingRanges> {
    let at = state.at(url, position)?;
    let places = linked::linked(at.project(), at.file, at.offset)?;
    let ranges = places.into_iter().map(|place| at.places.range(place)).collect();
    Some(LinkedEditingRanges { ranges, word_pattern: Some("[A-Za-z_][A-Za-z0-9_]*".into()) })
}

fn refused(reason: String) -> Error {
    Error { message: reason.into(), ..Error::invalid_params("") }
}
