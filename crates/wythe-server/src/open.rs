//! A document open in the client: its text, kept in step with what is typed.

use tower_lsp::lsp_types::TextDocumentContentChangeEvent;
use wythe_project::SourcePath;
use wythe_source::LineTable;

use crate::encoding::Encoding;

/// A document open in the client.
pub(crate) struct Open {
    /// The number of the repository it belongs to.
    pub repository: usize,
    /// Its path there.
    pub path: SourcePath,
    /// Its version.
    pub version: i32,
    /// Its text.
    pub text: String,
    /// Whether the project has not been given this text yet.
    pub dirty: bool,
}

impl Open {
    /// Makes changes in their order. Each place is one of the text as the change before left it.
    pub(crate) fn change(&mut self, changes: Vec<TextDocumentContentChangeEvent>, encoding: Encoding) {
        for change in changes {
            match change.range {
                None => self.text = change.text,
                Some(range) => {
                    let table = LineTable::new(&self.text);
                    let bytes = encoding.bytes(&table, &self.text, range);
                    self.text.replace_range(bytes, &change.text);
                }
            }
        }
        self.dirty = true;
    }
}
