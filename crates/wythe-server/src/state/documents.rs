//! Documents opened, changed and closed.

use tower_lsp::lsp_types::{TextDocumentContentChangeEvent, TextDocumentItem, Url};

use super::State;
use crate::open::Open;

impl State {
    /// A document is opened.
    pub(crate) fn open(&mut self, document: TextDocumentItem) {
        self.edits += 1;
        let Some((repository, path)) = self.belongs(&document.uri) else { return };
        let open = Open { repository, path, version: document.version, text: document.text, dirty: true };
        self.open.insert(document.uri, open);
    }

    /// A document is changed.
    pub(crate) fn change(&mut self, url: &Url, version: i32, changes: Vec<TextDocumentContentChangeEvent>) {
        self.edits += 1;
        let encoding = self.can.encoding;
        let Some(open) = self.open.get_mut(url) else {
            let line = format!("a change of {url}, which is not open, was passed over");
            return self.publisher().log(line);
        };
        let earlier = open.version;
        open.version = version;
        open.change(changes, encoding);
        if version <= earlier {
            let line =
                format!("{url} went from version {earlier} to {version}; its changes were made in the order they came");
            self.publisher().log(line);
        }
    }

    /// A document is closed: its file's own text counts again.
    pub(crate) fn close(&mut self, url: &Url) {
        self.edits += 1;
        let Some(open) = self.open.remove(url) else { return };
        self.sent_tokens.remove(url);
        let Some(repository) = self.repositories.get_mut(open.repository) else { return };
        repository.project.close(&open.path);
        let kept = repository.root.as_ref().is_some_and(|root| {
            open.path.under(root).is_file() && self.folders.iter().any(|f| root.starts_with(f) || f.starts_with(root))
        });
        if !kept {
            repository.project.drop_root(&open.path);
        }
        // What was told under the client's own address is taken back there; the file's own findings follow.
        let told = repository.project.find(&open.path);
        let own = told.and_then(|file| self.repositories[open.repository].url(self, file));
        if own.as_ref() != Some(url) && self.pushes() {
            self.publisher().findings(url.clone(), Vec::new(), None);
        }
    }
}
