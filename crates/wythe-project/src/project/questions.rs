//! What can be asked of a project.

use std::sync::Arc;

use wythe_eval::Judgement;
use wythe_findings::{Finding, Severity};
use wythe_sema::{PRELUDE_PATH, Prelude, Program};
use wythe_source::FileId;

use super::Project;
use super::standing::codes_for;
use crate::pipeline::ParsedFile;
use crate::{FileEntry, SourcePath};

impl Project {
    /// The file of a path, if it has been met.
    pub fn find(&self, path: &SourcePath) -> Option<FileId> {
        self.files.find(&FileEntry::repository(path.clone()))
    }

    /// Path and origin of a file; `None` for the prelude.
    pub fn entry(&self, file: FileId) -> Option<&FileEntry> {
        self.files.get(file)
    }

    /// What is wrong with the manifest and the libraries it names.
    pub fn manifest_faults(&self) -> Vec<Finding> {
        let all = self.manifest_findings.iter().chain(&self.library_findings);
        all.filter(|finding| finding.severity == Severity::Error).cloned().collect()
    }

    /// The name a file is shown by.
    pub fn name(&self, file: FileId) -> String {
        match self.files.get(file) {
            Some(entry) => entry.shown(),
            None => format!("wythe:{PRELUDE_PATH}"),
        }
    }

    /// The text of a file; empty where it has none.
    pub fn text(&self, file: FileId) -> &str {
        if file == Project::MANIFEST {
            return &self.manifest_text;
        }
        if file == Prelude::FILE {
            return wythe_sema::PRELUDE_TEXT;
        }
        match self.parsed(file) {
            Some(parsed) => &parsed.text,
            None => self.kept_texts.get(&file).map_or("", |text| text),
        }
    }

    /// A file as last read.
    pub fn parsed(&self, file: FileId) -> Option<&Arc<ParsedFile>> {
        self.states.get(file.0 as usize)?.reading.as_ref()?.present()
    }

    /// The checked program. A clone is a snapshot that later changes leave alone.
    pub const fn program(&self) -> &Arc<Program> {
        &self.program
    }

    /// What came of the foundations and tests of a file when it was last checked.
    pub fn judgement(&self, file: FileId) -> Option<&Arc<Judgement>> {
        self.states.get(file.0 as usize)?.judgement.as_ref()
    }

    /// The files asked for, in the order met.
    pub fn roots(&self) -> impl Iterator<Item = FileId> {
        self.roots.iter().chain(&self.released).copied()
    }

    /// The code packs a file is held to: the manifest's, then those it uses, each after what it builds on.
    pub fn codes_for(&self, file: FileId) -> Vec<FileId> {
        codes_for(&self.program, &self.codes, file)
    }
}
