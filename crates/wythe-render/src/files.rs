//! The names and texts of files, for outputs that show places.

use wythe_source::FileId;

/// The names and texts of files.
pub trait Files {
    /// The name a file is shown by.
    fn name(&self, file: FileId) -> String;

    /// The text of a file; empty where it has none.
    fn text(&self, file: FileId) -> &str;
}
