//! A repository on a disk. Nothing outside its folder is read, also not through links.

use std::fs::{self, File};
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};
use std::sync::{PoisonError, RwLock};

use rustc_hash::FxHashMap;
use wythe_syntax::limits::MAX_FILE_BYTES;

use crate::discovery::list_sources;
use crate::{ReadFault, SourcePath, Sources};

/// The files below a folder.
#[derive(Debug)]
pub struct Disk {
    root: PathBuf,
    /// Where each folder really stands, so that each is looked up once and not for every file in it.
    folders: RwLock<FxHashMap<SourcePath, Result<PathBuf, ReadFault>>>,
}

impl Disk {
    /// The repository in a folder.
    ///
    /// # Errors
    /// Where the folder is not there or cannot be reached.
    pub fn new(root: &Path) -> io::Result<Self> {
        Ok(Disk { root: fs::canonicalize(root)?, folders: RwLock::default() })
    }

    /// The folder of the repository, links resolved.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// Where a folder really stands, if that is inside.
    fn folder(&self, folder: &SourcePath) -> Result<PathBuf, ReadFault> {
        if folder.as_str().is_empty() {
            return Ok(self.root.clone());
        }
        let known = self.folders.read().unwrap_or_else(PoisonError::into_inner).get(folder).cloned();
        if let Some(known) = known {
            return known;
        }
        let found = self.real(&folder.under(&self.root));
        // A folder that is not there may be made at any time.
        if found != Err(ReadFault::NotFound) {
            self.folders.write().unwrap_or_else(PoisonError::into_inner).insert(folder.clone(), found.clone());
        }
        found
    }

    fn real(&self, path: &Path) -> Result<PathBuf, ReadFault> {
        let real = fs::canonicalize(path).map_err(fault)?;
        if real.starts_with(&self.root) { Ok(real) } else { Err(ReadFault::Outside) }
    }

    /// Where a file really stands, if that is inside, and how large it is.
    fn file(&self, path: &SourcePath) -> Result<(PathBuf, u64), ReadFault> {
        let name = path.as_str().rsplit('/').next().unwrap_or("");
        let mut place = self.folder(&path.folder())?.join(name);
        let mut about = fs::symlink_metadata(&place).map_err(fault)?;
        if about.is_symlink() {
            place = self.real(&place)?;
            about = fs::symlink_metadata(&place).map_err(fault)?;
        }
        if about.is_file() { Ok((place, about.len())) } else { Err(ReadFault::NotAFile) }
    }
}

impl Sources for Disk {
    fn read(&self, path: &SourcePath) -> Result<Vec<u8>, ReadFault> {
        let (place, size) = self.file(path)?;
        if size > MAX_FILE_BYTES as u64 {
            return Err(ReadFault::TooLarge(size));
        }
        let mut bytes = Vec::with_capacity(size as usize + 1);
        // The file may have grown since it was measured.
        File::open(place).map_err(fault)?.take(MAX_FILE_BYTES as u64 + 1).read_to_end(&mut bytes).map_err(fault)?;
        if bytes.len() > MAX_FILE_BYTES {
            return Err(ReadFault::TooLarge(bytes.len() as u64));
        }
        Ok(bytes)
    }

    fn list(&self, folder: &SourcePath) -> Result<Vec<SourcePath>, ReadFault> {
        let place = folder.under(&self.root);
        self.real(&place)?;
        Ok(list_sources(&place).iter().filter_map(|path| SourcePath::below(&self.root, path)).collect())
    }
}

fn fault(error: io::Error) -> ReadFault {
    match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => ReadFault::NotFound,
        io::ErrorKind::IsADirectory => ReadFault::NotAFile,
        io::ErrorKind::PermissionDenied => ReadFault::Refused("reading it is not permitted".into()),
        kind => ReadFault::Refused(kind.to_string()),
    }
}

#[cfg(all(test, unix))]
mod tests {
    use std::fs;
    use std::os::unix::fs::symlink;

    use super::Disk;
    use crate::{ReadFault, SourcePath, Sources};

    fn path(text: &str) -> SourcePath {
        SourcePath::resolve(&SourcePath::root(), text).expect("a path inside the repository")
    }

    #[test]
    fn a_link_may_lead_inside_and_never_out() {
        let place = tempfile::tempdir().unwrap();
        let root = place.path().join("repo");
        fs::create_dir_all(root.join("a")).unwrap();
        fs::create_dir(place.path().join("far")).unwrap();
        fs::write(place.path().join("far/secret.wythe"), "x").unwrap();
        fs::write(root.join("a/in.wythe"), "y").unwrap();
        symlink("../far/secret.wythe", root.join("file.wythe")).unwrap();
        symlink("../far", root.join("folder")).unwrap();
        symlink("a/in.wythe", root.join("kind.wythe")).unwrap();
        symlink("loop.wythe", root.join("loop.wythe")).unwrap();

        let disk = Disk::new(&root).unwrap();
        assert_eq!(disk.read(&path("kind.wythe")), Ok(b"y".to_vec()));
        assert_eq!(disk.read(&path("file.wythe")), Err(ReadFault::Outside));
        assert_eq!(disk.read(&path("folder/secret.wythe")), Err(ReadFault::Outside));
        assert_eq!(disk.list(&path("folder")), Err(ReadFault::Outside));
        assert!(matches!(disk.read(&path("loop.wythe")), Err(ReadFault::Refused(_))));
        assert_eq!(disk.read(&path("a")), Err(ReadFault::NotAFile));
        assert_eq!(disk.read(&path("b")), Err(ReadFault::NotFound));
        let listed = disk.list(&SourcePath::root()).unwrap();
        assert_eq!(listed, ["a/in.wythe", "file.wythe", "kind.wythe", "loop.wythe"].map(path));
    }
}
