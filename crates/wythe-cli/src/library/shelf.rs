//! The copies of libraries inside a repository, and the lock file beside them.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use wythe_project::{Bundle, LIBRARIES, LOCK_NAME, Lock, Locked};

use crate::replace::put;

/// The libraries of the repository in a folder.
pub(crate) struct Shelf {
    root: PathBuf,
}

impl Shelf {
    pub(crate) fn new(root: &Path) -> Shelf {
        Shelf { root: root.to_path_buf() }
    }

    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    /// The folder of a library.
    pub(crate) fn folder(&self, name: &str) -> PathBuf {
        self.root.join(LIBRARIES).join(name)
    }

    /// The lock file; an empty one where there is none.
    pub(crate) fn lock(&self) -> Result<Lock, String> {
        match fs::read_to_string(self.root.join(LOCK_NAME)) {
            Ok(text) => Lock::read(&text).map_err(|why| format!("{LOCK_NAME}: {why}")),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(Lock::default()),
            Err(error) => Err(format!("{LOCK_NAME}: {error}")),
        }
    }

    /// Writes the lock file; where there is nothing to lock and none is there, none is made.
    pub(crate) fn write_lock(&self, lock: &Lock) -> io::Result<()> {
        let path = self.root.join(LOCK_NAME);
        let old = fs::read_to_string(&path).ok();
        if old.as_deref() == Some(&lock.text()) || (old.is_none() && lock.libraries().is_empty()) {
            return Ok(());
        }
        put(&path, &lock.text())
    }

    /// Whether the copy of a library holds exactly what was locked.
    pub(crate) fn holds(&self, held: &Locked) -> bool {
        Bundle::of_folder(&self.folder(&held.name)).is_ok_and(|bundle| bundle.digests() == held.files)
    }

    /// Puts a library in the place of its copy. The files are written beside it and then change places with it, so that
    /// whoever breaks in leaves the old library, the new one, or none; a check tells of the last.
    pub(crate) fn put(&self, name: &str, bundle: &Bundle) -> io::Result<()> {
        let shelf = self.root.join(LIBRARIES);
        fs::create_dir_all(&shelf)?;
        let passing = tempfile::Builder::new().prefix(".passing-").tempdir_in(&shelf)?;
        let (new, old) = (passing.path().join("new"), passing.path().join("old"));
        bundle.write(&new)?;
        let place = self.folder(name);
        match fs::rename(&place, &old) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
            _ => {}
        }
        fs::rename(&new, &place)
    }
}
