//! Files made, written and taken away outside the client.

use std::path::Path;
use std::time::SystemTime;

use tower_lsp::lsp_types::{FileChangeType, FileEvent};
use wythe_project::{MANIFEST_NAME, SOURCE_EXTENSION, SourcePath};

use super::State;

/// What a look at a file leaves behind, by which the next look knows whether it has changed.
pub(super) type Stamp = Option<(SystemTime, u64)>;

impl State {
    /// Files have changed on the disk.
    pub(crate) fn watched(&mut self, events: Vec<FileEvent>) {
        self.edits += 1;
        let mut manifests = false;
        for event in events {
            let Ok(place) = event.uri.to_file_path() else { continue };
            if place.file_name().is_some_and(|n| n == MANIFEST_NAME) {
                manifests |= event.typ != FileChangeType::CHANGED;
            }
            let Some((number, path)) = self.known(&event.uri) else { continue };
            let open = self.open.values().any(|o| o.repository == number && o.path == path);
            let project = &mut self.repositories[number].project;
            let source = place.extension().is_some_and(|e| e == SOURCE_EXTENSION);
            match event.typ {
                FileChangeType::CREATED if source => {
                    project.add(path.clone());
                }
                FileChangeType::DELETED if source && !open => project.drop_root(&path),
                _ => {}
            }
            project.changed_on_disk(&path);
        }
        if manifests {
            // A manifest made or taken away draws the borders anew.
            for folder in self.folders.clone() {
                self.add_folder(&folder);
            }
        }
    }

    /// Looks at the disk for a client that does not watch it: every file the projects know, and new ones.
    pub(crate) fn look_around(&mut self) {
        for number in 0..self.repositories.len() {
            let repository = &self.repositories[number];
            let Some(root) = repository.root.clone() else { continue };
            let project = &repository.project;
            let entries = project.roots().filter_map(|f| project.entry(f));
            let paths: Vec<SourcePath> = entries.map(|e| e.path.clone()).collect();
            for path in paths {
                let now = stamp(&path.under(&root));
                let before = self.stamps.insert((number, path.clone()), now);
                // What is met for the first time counts as changed only if it is gone already.
                if before.map_or(now.is_some(), |before| before == now) {
                    continue;
                }
                self.edits += 1;
                let open = self.open.values().any(|o| o.repository == number && o.path == path);
                let project = &mut self.repositories[number].project;
                if now.is_none() && !open {
                    project.drop_root(&path);
                }
                project.changed_on_disk(&path);
            }
        }
        for folder in self.folders.clone() {
            self.add_folder(&folder);
        }
    }
}

/// When a file was last written and how long it is; nothing where there is none.
fn stamp(path: &Path) -> Stamp {
    let about = std::fs::metadata(path).ok().filter(std::fs::Metadata::is_file)?;
    Some((about.modified().ok()?, about.len()))
}
