//! The lock file: which revision of each library the repository holds, and what every file of it says.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

use super::{Library, LibrarySource};

/// The lock file, at the top of the repository.
pub const LOCK_NAME: &str = "wythe.lock";

/// The version of the form of the file.
const FORM: u32 = 1;

/// What the lock file says.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lock {
    form: u32,
    #[serde(default, rename = "library")]
    libraries: Vec<Locked>,
}

/// One library, as it was brought in.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Locked {
    /// Its name.
    pub name: String,
    /// The folder it was copied from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub path: Option<String>,
    /// The git repository it was taken from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub git: Option<String>,
    /// The revision asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub revision: Option<String>,
    /// The commit that revision was.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub commit: Option<String>,
    /// The digest of all files together.
    pub hash: String,
    /// The digest of each file, by its path in the library.
    pub files: BTreeMap<String, String>,
}

impl Default for Lock {
    fn default() -> Self {
        Lock { form: FORM, libraries: Vec::new() }
    }
}

impl Lock {
    /// Reads a lock file.
    ///
    /// # Errors
    /// What is wrong with it, in one line.
    pub fn read(text: &str) -> Result<Lock, String> {
        let lock: Lock = toml::from_str(text).map_err(|error| error.message().trim().replace('\n', " "))?;
        if lock.form == FORM { Ok(lock) } else { Err(format!("this Wythe reads form {FORM}")) }
    }

    /// The text of the file; the same for the same libraries in any order.
    pub fn text(&self) -> String {
        let body = toml::to_string(self).unwrap_or_default();
        format!("# Written by `wythe library`: what the folder of libraries holds. Not to be edited.\n{body}")
    }

    /// A library by its name.
    pub fn get(&self, name: &str) -> Option<&Locked> {
        self.libraries.iter().find(|library| library.name == name)
    }

    /// The libraries, by name.
    pub fn libraries(&self) -> &[Locked] {
        &self.libraries
    }

    /// Puts a library in the place of the one of its name.
    pub fn put(&mut self, library: Locked) {
        self.libraries.retain(|old| old.name != library.name);
        self.libraries.push(library);
        self.libraries.sort_by(|a, b| a.name.cmp(&b.name));
    }

    /// Forgets the libraries that are not named.
    pub fn keep(&mut self, named: &[Library]) {
        self.libraries.retain(|held| named.iter().any(|library| library.name == held.name));
    }
}

impl Locked {
    /// A library with the digests of its files.
    pub fn of(library: &Library, commit: Option<String>, files: BTreeMap<String, String>) -> Locked {
        let (path, git, revision) = match &library.source {
            LibrarySource::Folder(path) => (Some(path.clone()), None, None),
            LibrarySource::Git { url, revision } => (None, Some(url.clone()), Some(revision.clone())),
        };
        let all = files.iter().fold(String::new(), |mut all, (path, digest)| {
            let _ = writeln!(all, "{digest} {path}");
            all
        });
        Locked { name: library.name.clone(), path, git, revision, commit, hash: digest(all.as_bytes()), files }
    }

    /// Whether it was brought in from where the manifest says.
    pub fn is_of(&self, library: &Library) -> bool {
        match &library.source {
            LibrarySource::Folder(path) => self.path.as_ref() == Some(path) && self.git.is_none(),
            LibrarySource::Git { url, revision } => {
                self.git.as_ref() == Some(url) && self.revision.as_ref() == Some(revision)
            }
        }
    }
}

/// The digest of a file: SHA-256 (FIPS 180-4), in hexadecimal.
pub fn digest(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().fold("sha256:".to_owned(), |mut out, byte| {
        let _ = write!(out, "{byte:02x}");
        out
    })
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use wythe_source::{FileId, Span};

    use super::super::{Library, LibrarySource};
    use super::{Lock, Locked, digest};

    #[test]
    fn what_is_written_is_read_back_whatever_the_order() {
        let library = |name: &str| Library {
            name: name.into(),
            source: LibrarySource::Git { url: "https://a.example/b".into(), revision: "v1".into() },
            place: Span::new(FileId(0), 0, 0),
        };
        let files = BTreeMap::from([("a.wythe".to_owned(), digest(b"let a = 1 in\n"))]);
        let (mut one, mut two) = (Lock::default(), Lock::default());
        for name in ["b", "a"] {
            one.put(Locked::of(&library(name), Some("0123".into()), files.clone()));
        }
        for name in ["a", "b", "a"] {
            two.put(Locked::of(&library(name), Some("0123".into()), files.clone()));
        }
        assert_eq!(one.text(), two.text());
        assert_eq!(Lock::read(&one.text()), Ok(one.clone()));
        assert!(one.get("a").is_some_and(|held| held.is_of(&library("a"))));
        two.keep(&[library("b")]);
        assert_eq!((two.get("a"), two.libraries().len()), (None, 1));
    }

    #[test]
    fn digests_are_those_of_the_standard() {
        // FIPS 180-2, appendix B.1, the text "abc".
        assert_eq!(digest(b"abc"), "sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    #[test]
    fn another_form_is_refused() {
        assert!(Lock::read("form = 2\n").is_err());
        assert!(Lock::read("form = 1\nelse = 2\n").is_err());
    }
}
