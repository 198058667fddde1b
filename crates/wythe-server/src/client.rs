//! What the client can do, read once from what it says when it comes.

use tower_lsp::lsp_types::ClientCapabilities;

use crate::encoding::Encoding;

/// What the client can do.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) struct ClientCan {
    /// How it counts columns.
    pub encoding: Encoding,
    /// Asks for diagnostics itself.
    pub pull_diagnostics: bool,
    /// Asks again when it is told to.
    pub refresh_diagnostics: bool,
    /// Asks for hints again.
    pub refresh_hints: bool,
    /// Asks for lenses again.
    pub refresh_lenses: bool,
    /// Fills in stops of a snippet.
    pub snippets: bool,
    /// Takes edits with the version of each document.
    pub versioned_edits: bool,
    /// Shows progress.
    pub progress: bool,
    /// Watches files when it is asked to.
    pub watches_files: bool,
    /// Tells its settings when it is asked.
    pub configuration: bool,
    /// Shows a tree of symbols.
    pub symbol_tree: bool,
    /// Folds whole lines only.
    pub line_folds: bool,
    /// Shows a document or an address when it is asked to.
    pub shows_documents: bool,
}

impl ClientCan {
    /// Reads it.
    pub(crate) fn read(caps: &ClientCapabilities) -> ClientCan {
        let text = caps.text_document.as_ref();
        let workspace = caps.workspace.as_ref();
        let window = caps.window.as_ref();
        let offered = caps.general.as_ref().and_then(|g| g.position_encodings.as_deref());
        let yes = |flag: Option<bool>| flag == Some(true);
        ClientCan {
            encoding: Encoding::choose(offered),
            pull_diagnostics: text.is_some_and(|t| t.diagnostic.is_some()),
            refresh_diagnostics: yes(workspace.and_then(|w| w.diagnostic.as_ref()?.refresh_support)),
            refresh_hints: yes(workspace.and_then(|w| w.inlay_hint.as_ref()?.refresh_support)),
            refresh_lenses: yes(workspace.and_then(|w| w.code_lens.as_ref()?.refresh_support)),
            snippets: yes(text.and_then(|t| t.completion.as_ref()?.completion_item.as_ref()?.snippet_support)),
            versioned_edits: yes(workspace.and_then(|w| w.workspace_edit.as_ref()?.document_changes)),
            progress: yes(window.and_then(|w| w.work_done_progress)),
            watches_files: yes(workspace.and_then(|w| w.did_change_watched_files?.dynamic_registration)),
            configuration: yes(workspace.and_then(|w| w.configuration)),
            symbol_tree: yes(text.and_then(|t| t.document_symbol.as_ref()?.hierarchical_document_symbol_support)),
            shows_documents: window.and_then(|w| w.show_document.as_ref()).is_some_and(|s| s.support),
            line_folds: yes(text.and_then(|t| t.folding_range.as_ref()?.line_folding_only)),
        }
    }
}
