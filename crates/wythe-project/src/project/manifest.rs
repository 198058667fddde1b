//! The manifest of the project at hand: read, and what is found in it.

use std::collections::BTreeMap;

use super::words::unreadable;
use super::{Links, Project};
use crate::board::Station;
use crate::discovery::MANIFEST_NAME;
use crate::library::{Library, folder_of, verify};
use crate::pipeline::link::unknown_pack;
use crate::severity::unknown_names;
use crate::{Manifest, ReadFault, SourcePath, Sources as _};

impl Project {
    pub(super) fn read_manifest(&mut self) {
        let Some(path) = self.files.get(Project::MANIFEST).map(|e| e.path.clone()) else { return };
        let file = Project::MANIFEST;
        let read = match self.sources.read(&path) {
            Ok(bytes) => match wythe_syntax::decode(file, &bytes) {
                Ok(text) => {
                    self.manifest_text = text.into();
                    Manifest::read(file, text)
                }
                Err(fault) => (Manifest::default(), vec![*fault]),
            },
            Err(ReadFault::NotFound) => (Manifest::default(), Vec::new()),
            Err(fault) => (Manifest::default(), vec![unreadable(file, &fault)]),
        };
        (self.manifest, self.manifest_findings) = read;
        self.library_folders = self.folders_of_libraries();
        self.verify_libraries();
        // Every link may lead elsewhere now, every severity be another, and every value be shown otherwise.
        self.stale.extend(self.reached.iter().copied());
        self.stale.extend(self.roots.iter().copied());
        self.due.extend(self.reached.iter().copied());
        for state in &mut self.states {
            state.links = Links::default();
        }
        self.unlinked = true;
        self.reordered = true;
        self.board.touch_all();
    }

    /// Looks whether the libraries are as the lock file says.
    pub(super) fn verify_libraries(&mut self) {
        self.library_findings = verify(&self.manifest.packages, &self.sources);
    }

    /// The folders that the manifest of each library names as its own libraries.
    fn folders_of_libraries(&self) -> BTreeMap<SourcePath, Vec<SourcePath>> {
        let own = |library: &Library| {
            let folder = folder_of(&library.name)?;
            let path = SourcePath::resolve(&folder, MANIFEST_NAME)?;
            let bytes = self.sources.read(&path).unwrap_or_default();
            let (manifest, _) = Manifest::read(Project::MANIFEST, &String::from_utf8_lossy(&bytes));
            let inside = manifest.libraries.iter().filter_map(|own| SourcePath::resolve(&folder, own.as_str()));
            Some((folder.clone(), inside.collect()))
        };
        self.manifest.packages.iter().filter_map(own).collect()
    }

    pub(super) fn put_manifest_findings(&mut self) {
        let mut findings = self.manifest_findings.clone();
        findings.extend(self.library_findings.iter().cloned());
        findings.extend(unknown_names(&self.manifest, &self.program));
        for (at, pack) in self.codes.iter().enumerate() {
            if let (None, Some(name), Some(place)) =
                (pack, self.manifest.codes.get(at), self.manifest.code_places.get(at))
            {
                findings.push(unknown_pack(*name, *place));
            }
        }
        self.board.put(Project::MANIFEST, Station::Words, findings);
    }
}
