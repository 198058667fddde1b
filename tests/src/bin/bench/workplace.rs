//! Where a benchmark writes its files and finds the programs it times.

use std::env;
use std::path::{Path, PathBuf};

/// The folder files are written to, and the folder the measured programs of this build are in.
pub(crate) struct Workplace {
    pub(crate) folder: PathBuf,
    build: PathBuf,
    peers: Option<PathBuf>,
}

impl Workplace {
    pub(crate) fn new(folder: PathBuf, peers: Option<PathBuf>) -> Workplace {
        let build = env::current_exe().ok().and_then(|own| own.parent().map(Path::to_path_buf)).unwrap_or_default();
        Workplace { folder, build, peers }
    }

    /// A program of this build.
    pub(crate) fn own(&self, name: &str) -> PathBuf {
        self.build.join(name)
    }

    /// A public program that ours is compared with: from the folder that was named, else from the search path.
    pub(crate) fn program(&self, name: &str) -> PathBuf {
        self.peers.as_ref().map_or_else(|| PathBuf::from(name), |folder| folder.join(name))
    }
}
