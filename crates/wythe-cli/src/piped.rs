//! Standard input as a file of a repository.

use std::io::{self, Read as _};

use wythe_project::{Disk, ReadFault, SourcePath, Sources};
use wythe_syntax::limits::MAX_FILE_BYTES;

/// A repository in which one file holds what stands on standard input.
pub(crate) struct Piped {
    disk: Disk,
    path: SourcePath,
    bytes: Vec<u8>,
}

impl Piped {
    /// Reads standard input, no further than a file may be long.
    pub(crate) fn new(disk: Disk, path: SourcePath) -> io::Result<Self> {
        let mut bytes = Vec::new();
        io::stdin().lock().take(MAX_FILE_BYTES as u64 + 1).read_to_end(&mut bytes)?;
        Ok(Piped { disk, path, bytes })
    }
}

impl Sources for Piped {
    fn read(&self, path: &SourcePath) -> Result<Vec<u8>, ReadFault> {
        if *path != self.path {
            return self.disk.read(path);
        }
        if self.bytes.len() > MAX_FILE_BYTES {
            return Err(ReadFault::TooLarge(self.bytes.len() as u64));
        }
        Ok(self.bytes.clone())
    }

    fn list(&self, folder: &SourcePath) -> Result<Vec<SourcePath>, ReadFault> {
        self.disk.list(folder)
    }
}
