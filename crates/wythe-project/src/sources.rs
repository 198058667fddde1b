//! Where the texts of a repository come from: a disk, memory, or an editor over either.

use wythe_syntax::limits::MAX_FILE_BYTES;

use crate::SourcePath;

/// Why a file cannot be read.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
pub enum ReadFault {
    /// It is not there.
    #[error("there is no such file")]
    NotFound,
    /// It is a link, or stands behind one, that leaves the repository.
    #[error("a link on its path leaves the repository")]
    Outside,
    /// It is a folder, a device or a pipe.
    #[error("it is not a file")]
    NotAFile,
    /// It is larger than [`MAX_FILE_BYTES`]; its size in bytes.
    #[error("it holds {0} bytes; {MAX_FILE_BYTES} are the limit")]
    TooLarge(u64),
    /// The system refuses; in its own words.
    #[error("{0}")]
    Refused(String),
}

/// Reads the files of one repository.
pub trait Sources: Send + Sync {
    /// The bytes of a file, at most [`MAX_FILE_BYTES`].
    ///
    /// # Errors
    /// Where the file cannot be read or must not be.
    fn read(&self, path: &SourcePath) -> Result<Vec<u8>, ReadFault>;

    /// Every source file in a folder and below, in order of path. A file that is named stands for itself.
    ///
    /// # Errors
    /// Where the folder cannot be read or must not be.
    fn list(&self, folder: &SourcePath) -> Result<Vec<SourcePath>, ReadFault>;
}
