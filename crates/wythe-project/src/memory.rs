//! A repository held in memory, for tests and for texts that stand on no disk.

use std::collections::BTreeMap;

use wythe_syntax::limits::MAX_FILE_BYTES;

use crate::discovery::is_source;
use crate::{ReadFault, SourcePath, Sources};

/// Files held in memory.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    files: BTreeMap<SourcePath, Vec<u8>>,
}

impl Memory {
    /// Files by path and text; a path that leads out of the repository is left out.
    pub fn new<'a>(files: impl IntoIterator<Item = (&'a str, &'a str)>) -> Self {
        let mut memory = Memory::default();
        for (path, text) in files {
            if let Some(path) = SourcePath::resolve(&SourcePath::root(), path) {
                memory.put(path, text.as_bytes().to_vec());
            }
        }
        memory
    }

    /// Adds a file, or replaces it.
    pub fn put(&mut self, path: SourcePath, bytes: Vec<u8>) {
        self.files.insert(path, bytes);
    }
}

impl Sources for Memory {
    fn read(&self, path: &SourcePath) -> Result<Vec<u8>, ReadFault> {
        let bytes = self.files.get(path).ok_or(ReadFault::NotFound)?;
        if bytes.len() > MAX_FILE_BYTES {
            return Err(ReadFault::TooLarge(bytes.len() as u64));
        }
        Ok(bytes.clone())
    }

    fn list(&self, folder: &SourcePath) -> Result<Vec<SourcePath>, ReadFault> {
        let inside = self.files.keys().filter(|p| p.is_in(folder) && is_source(p.as_str()));
        Ok(inside.cloned().collect())
    }
}
