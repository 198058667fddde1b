//! The files of a library, on their way into a repository.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;

use walkdir::WalkDir;
use wythe_syntax::limits::MAX_FILE_BYTES;

use super::digest;
use crate::discovery::MANIFEST_NAME;
use crate::{Disk, Manifest, ReadFault, SourcePath, Sources as _};

/// The most files of a library.
const MOST_FILES: usize = 10_000;

/// The most bytes of a library.
const MOST_BYTES: usize = 256 << 20;

/// Why a library cannot be taken over.
#[derive(Debug, thiserror::Error)]
pub enum BundleFault {
    /// Its folder cannot be read.
    #[error("{0}")]
    Io(#[from] io::Error),
    /// One of its files cannot be read.
    #[error("{0}: {1}")]
    File(String, ReadFault),
    /// It is larger than a library may be.
    #[error("it holds more than {MOST_FILES} files or {MOST_BYTES} bytes")]
    TooLarge,
    /// It has nothing in it to use.
    #[error("there is no source file in it")]
    Empty,
}

/// The files of a library, by path.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Bundle {
    files: BTreeMap<SourcePath, Vec<u8>>,
    bytes: usize,
}

/// Whether a file of that path is taken over: sources, tables, and the library's manifest.
fn is_wanted(path: &SourcePath) -> bool {
    let hidden = path.as_str().split('/').any(|part| part.starts_with('.'));
    !hidden && (path.as_str() == MANIFEST_NAME || [".wythe", ".csv"].iter().any(|end| path.as_str().ends_with(end)))
}

impl Bundle {
    /// Takes in one file, if it is of a kind that libraries are made of; whatever its name, it stays inside.
    ///
    /// # Errors
    /// Where the library grows too large.
    pub fn add(&mut self, name: &str, bytes: Vec<u8>) -> Result<(), BundleFault> {
        let Some(path) = SourcePath::resolve(&SourcePath::root(), name).filter(is_wanted) else { return Ok(()) };
        self.bytes += bytes.len();
        if bytes.len() > MAX_FILE_BYTES || self.bytes > MOST_BYTES || self.files.len() >= MOST_FILES {
            return Err(BundleFault::TooLarge);
        }
        self.files.insert(path, bytes);
        Ok(())
    }

    /// The library in a folder. Links that leave it are refused.
    ///
    /// # Errors
    /// Where the folder or a file in it cannot be read.
    pub fn of_folder(folder: &Path) -> Result<Bundle, BundleFault> {
        let disk = Disk::new(folder)?;
        let mut bundle = Bundle::default();
        for entry in WalkDir::new(disk.root()).sort_by_file_name() {
            let entry = entry.map_err(io::Error::from)?;
            let path = SourcePath::below(disk.root(), entry.path()).filter(is_wanted);
            let Some(path) = path.filter(|_| !entry.file_type().is_dir()) else { continue };
            let bytes = disk.read(&path).map_err(|fault| BundleFault::File(path.to_string(), fault))?;
            bundle.add(path.as_str(), bytes)?;
        }
        bundle.whole()
    }

    /// The library, if there is something in it to use.
    ///
    /// # Errors
    /// Where there is not.
    pub fn whole(self) -> Result<Bundle, BundleFault> {
        let any = self.files.keys().any(|path| path.as_str().ends_with(".wythe"));
        if any { Ok(self) } else { Err(BundleFault::Empty) }
    }

    /// The files, by path.
    pub fn files(&self) -> impl Iterator<Item = (&SourcePath, &[u8])> {
        self.files.iter().map(|(path, bytes)| (path, bytes.as_slice()))
    }

    /// The digest of each file, by path.
    pub fn digests(&self) -> BTreeMap<String, String> {
        self.files().map(|(path, bytes)| (path.to_string(), digest(bytes))).collect()
    }

    /// The names of the libraries that its own manifest names; who uses it must name them too.
    pub fn needs(&self) -> Vec<String> {
        let manifest = self.files().find(|(path, _)| path.as_str() == MANIFEST_NAME);
        let text = manifest.map_or("".into(), |(_, bytes)| String::from_utf8_lossy(bytes));
        let (manifest, _) = Manifest::read(crate::Project::MANIFEST, &text);
        manifest.packages.into_iter().map(|library| library.name).collect()
    }

    /// Writes the files into a folder that is not there yet, and lets the disk take them in.
    ///
    /// # Errors
    /// Where the file system refuses.
    pub fn write(&self, folder: &Path) -> io::Result<()> {
        fs::create_dir(folder)?;
        for (path, bytes) in self.files() {
            let place = path.under(folder);
            if let Some(parent) = place.parent() {
                fs::create_dir_all(parent)?;
            }
            fs::write(place, bytes)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::{Bundle, BundleFault};

    #[test]
    fn only_what_can_be_used_is_taken_and_nothing_leaves() {
        let mut bundle = Bundle::default();
        for name in
            ["a.wythe", "b/c.csv", "../d.wythe", "/e.wythe", ".git/f.wythe", "g.sh", "wythe.toml", "h/wythe.toml"]
        {
            bundle.add(name, b"let a = 1 in\n".to_vec()).unwrap();
        }
        let names: Vec<&str> = bundle.files().map(|(path, _)| path.as_str()).collect();
        assert_eq!(names, ["a.wythe", "b/c.csv", "wythe.toml"]);
        assert!(matches!(Bundle::default().whole(), Err(BundleFault::Empty)));
    }

    #[test]
    fn a_file_that_is_too_large_is_refused() {
        let large = vec![b' '; super::MAX_FILE_BYTES + 1];
        assert!(matches!(Bundle::default().add("a.wythe", large), Err(BundleFault::TooLarge)));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_out_of_the_library_is_refused() {
        let place = tempfile::tempdir().unwrap();
        std::fs::write(place.path().join("secret"), "x").unwrap();
        let library = place.path().join("library");
        std::fs::create_dir(&library).unwrap();
        std::fs::write(library.join("a.wythe"), "let a = 1 in\n").unwrap();
        assert!(Bundle::of_folder(&library).is_ok());
        std::os::unix::fs::symlink("../secret", library.join("b.wythe")).unwrap();
        assert!(matches!(Bundle::of_folder(&library), Err(BundleFault::File(..))));
    }
}
