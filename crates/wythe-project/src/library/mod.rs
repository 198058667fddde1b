//! Library packages: plans of others, named in the manifest and kept as copies inside the repository.
//!
//! A check reads the copies only. Bringing them in is asked for by a command of its own, which fills the folder
//! [`LIBRARIES`] and writes down in [`LOCK_NAME`] what each file of it holds.

mod bundle;
mod declared;
mod lock;
mod verify;

pub use bundle::{Bundle, BundleFault};
pub use declared::{Library, LibrarySource};
pub(crate) use declared::{WrittenLibrary, declare};
pub use lock::{LOCK_NAME, Lock, Locked, digest};
pub(crate) use verify::verify;

use crate::SourcePath;

/// The folder of the repository that holds a folder for each library.
pub const LIBRARIES: &str = ".libraries";

/// The folder of the library that a path of the repository lies in.
pub fn library_folder(path: &SourcePath) -> Option<SourcePath> {
    let inside = path.as_str().strip_prefix(LIBRARIES)?.strip_prefix('/')?;
    let (name, _) = inside.split_once('/')?;
    folder_of(name)
}

/// The folder of a library by its name.
pub(crate) fn folder_of(name: &str) -> Option<SourcePath> {
    SourcePath::resolve(&SourcePath::root(), &format!("{LIBRARIES}/{name}"))
}
