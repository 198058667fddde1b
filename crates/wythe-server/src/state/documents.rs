//! Documents opened, changed and closed; the plans checked; what is found told.

use std::time::Instant;

use tower_lsp::lsp_types::{TextDocumentContentChangeEvent, TextDocumentItem, Url};
use wythe_project::FileReport;

use super::State;
use crate::convert::{Places, diagnostics};
use crate::open::Open;

impl State {
    /// A document is opened.
    pub(crate) fn open(&mut self, document: TextDocumentItem) {
        let Some((repository, path)) = self.belongs(&document.uri) else { return };
        let open = Open { repository, path, version: document.version, text: document.text, dirty: true };
        self.open.insert(document.uri, open);
    }

    /// A document is changed.
    pub(crate) fn change(&mut self, url: &Url, version: i32, changes: Vec<TextDocumentContentChangeEvent>) {
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

    /// Gives the projects the newest texts, checks what is due, and tells what is found.
    pub(crate) fn settle(&mut self) {
        for open in self.open.values_mut().filter(|o| o.dirty) {
            open.dirty = false;
            if let Some(repository) = self.repositories.get_mut(open.repository) {
                repository.project.set_text(open.path.clone(), open.text.as_str());
            }
        }
        for number in 0..self.repositories.len() {
            let reports = self.repositories[number].project.check_affected();
            if !reports.is_empty() {
                self.tell(number, reports);
            }
        }
    }

    /// Checks everything for the first time, with word to the client that it takes its time.
    pub(crate) fn settle_with_progress(&mut self) {
        let begun = Instant::now();
        if self.can.progress {
            self.publisher().begin("wythe/check", "Wythe: checking plans");
        }
        self.settle();
        if self.can.progress {
            self.publisher().end("wythe/check");
        }
        let files: usize = self.repositories.iter().map(|r| r.project.roots().count()).sum();
        self.publisher().log(format!("checked {files} files in {} ms", begun.elapsed().as_millis()));
    }

    fn tell(&self, number: usize, reports: Vec<FileReport>) {
        let repository = &self.repositories[number];
        if !self.pushes() {
            let elsewhere = reports.iter().any(|r| self.open_url(repository, r.file).is_none()) || reports.len() > 1;
            if elsewhere && self.can.refresh_diagnostics {
                self.publisher().ask_again(true, false, false);
            }
            return;
        }
        let places = Places::new(self, repository);
        for report in reports {
            let Some(url) = places.url(report.file) else { continue };
            let version = self.version(&url);
            self.publisher().findings(url, diagnostics::of(self, &places, &report.findings), version);
        }
    }
}
