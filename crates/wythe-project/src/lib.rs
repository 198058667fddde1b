//! A plans repository: manifest, files, and the memoised pipeline from text to results.
//!
//! The one crate beside the command line and the server that reads files, and it reads none outside the
//! repository's folder. May import every compiler crate below it; no rendering and no protocol.
//!
//! Start at [`Project`]; the stations of a text stand in `pipeline`, in the order of their names there.

mod baseline;
mod board;
mod built_in;
mod discovery;
mod disk;
mod entry;
mod guard;
mod library;
mod manifest;
mod memory;
mod mend;
mod overlay;
mod path;
mod pipeline;
mod project;
mod record;
mod severity;
mod sources;
mod threads;

pub use baseline::{Baseline, BaselineEntry, BaselineKey, Grant};
pub use built_in::built_in_packs;
pub use discovery::{MANIFEST_NAME, Repository, SOURCE_EXTENSION, find_repositories, plain};
pub use disk::Disk;
pub use entry::{FileEntry, Origin};
pub use guard::guarded;
pub use library::{
    Bundle, BundleFault, LIBRARIES, LOCK_NAME, Library, LibrarySource, Lock, Locked, digest, library_folder,
};
pub use manifest::{Manifest, SeverityChoice};
pub use memory::Memory;
pub use mend::{Mended, mend};
pub use path::SourcePath;
pub use pipeline::ParsedFile;
pub use project::{FileReport, Judged, Project, Task};
pub use record::{Digest, Record, Recording, reads_the_same};
pub use sources::{ReadFault, Sources};
pub use threads::run;
