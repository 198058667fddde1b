//! From the values of the editor features to the types of the protocol, one file a sort.

pub(crate) mod completion;
pub(crate) mod diagnostics;
pub(crate) mod edits;
mod places;
pub(crate) mod symbols;

pub(crate) use places::Places;

use tower_lsp::lsp_types::{MarkupContent, MarkupKind};

/// A text in Markdown.
pub(crate) fn markdown(value: impl Into<String>) -> MarkupContent {
    MarkupContent { kind: MarkupKind::Markdown, value: value.into() }
}
