//! The files of a project, numbered.

use rustc_hash::FxHashMap;
use wythe_source::FileId;

use crate::{SourcePath, built_in};

/// Where a file comes from.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Origin {
    /// It stands in the repository.
    Repository,
    /// It is a pack that comes with Wythe.
    BuiltIn,
}

/// A file of the project.
#[derive(Clone, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub struct FileEntry {
    /// Where it comes from.
    pub origin: Origin,
    /// Its path in the repository, or among the packs.
    pub path: SourcePath,
}

impl FileEntry {
    pub(crate) fn repository(path: SourcePath) -> Self {
        FileEntry { origin: Origin::Repository, path }
    }

    pub(crate) fn built_in(path: SourcePath) -> Self {
        FileEntry { origin: Origin::BuiltIn, path }
    }

    /// The name it is shown by.
    pub fn shown(&self) -> String {
        match self.origin {
            Origin::Repository => self.path.to_string(),
            Origin::BuiltIn => format!("{}/{}", built_in::FOLDER, self.path),
        }
    }
}

/// Numbers for files, given in the order they are met and never taken back.
#[derive(Clone, Debug, Default)]
pub(crate) struct FileTable {
    entries: Vec<FileEntry>,
    numbers: FxHashMap<FileEntry, FileId>,
}

impl FileTable {
    pub(crate) fn number(&mut self, entry: FileEntry) -> FileId {
        if let Some(&file) = self.numbers.get(&entry) {
            return file;
        }
        let file = FileId(self.entries.len() as u32);
        self.numbers.insert(entry.clone(), file);
        self.entries.push(entry);
        file
    }

    pub(crate) fn find(&self, entry: &FileEntry) -> Option<FileId> {
        self.numbers.get(entry).copied()
    }

    pub(crate) fn get(&self, file: FileId) -> Option<&FileEntry> {
        self.entries.get(file.0 as usize)
    }
}
