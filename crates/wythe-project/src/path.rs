//! Paths inside a repository: `/` between the parts, never absolute, never leading out.

use std::fmt;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

/// A path from the repository's folder to a file or folder in it. The folder itself is the empty path.
#[derive(Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct SourcePath(Arc<str>);

impl SourcePath {
    /// The repository's folder itself.
    pub fn root() -> Self {
        SourcePath("".into())
    }

    /// A path as written, taken from `folder`. `None` where it is absolute or leads out of the repository.
    ///
    /// Both slashes part a path, so that a file written on one system is read on another.
    pub fn resolve(folder: &SourcePath, written: &str) -> Option<Self> {
        let drive = written.as_bytes().get(1) == Some(&b':');
        if written.starts_with(['/', '\\']) || drive || written.contains('\0') {
            return None;
        }
        let mut parts: Vec<&str> = folder.parts().collect();
        for part in written.split(['/', '\\']) {
            match part {
                "" | "." => {}
                ".." => {
                    parts.pop()?;
                }
                name => parts.push(name),
            }
        }
        Some(SourcePath(parts.join("/").into()))
    }

    /// A path of the file system below `root`, if it is one and is text.
    pub fn below(root: &Path, path: &Path) -> Option<Self> {
        let mut parts = Vec::new();
        for part in path.strip_prefix(root).ok()?.components() {
            match part {
                Component::Normal(name) => parts.push(name.to_str()?),
                Component::CurDir => {}
                _ => return None,
            }
        }
        Some(SourcePath(parts.join("/").into()))
    }

    /// The folder it stands in.
    pub fn folder(&self) -> SourcePath {
        SourcePath(self.0.rsplit_once('/').map_or("", |(folder, _)| folder).into())
    }

    /// The name of the file without its ending.
    pub fn stem(&self) -> &str {
        let name = self.0.rsplit('/').next().unwrap_or("");
        name.rsplit_once('.').map_or(name, |(stem, _)| stem)
    }

    /// The path as text, `/` between its parts.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether it stands in `folder` or below it.
    pub fn is_in(&self, folder: &SourcePath) -> bool {
        folder.0.is_empty()
            || self == folder
            || self.0.strip_prefix(&*folder.0).is_some_and(|rest| rest.starts_with('/'))
    }

    /// Where it stands once `from`, the path itself or a folder it stands in, has become `to`; `None` where it stands in
    /// neither.
    pub fn moved(&self, from: &SourcePath, to: &SourcePath) -> Option<SourcePath> {
        if !self.is_in(from) {
            return None;
        }
        let rest = self.0.get(from.0.len()..)?.trim_start_matches('/');
        SourcePath::resolve(to, rest)
    }

    /// The path of the file system, with the repository at `root`.
    pub fn under(&self, root: &Path) -> PathBuf {
        let mut path = root.to_path_buf();
        path.extend(self.parts());
        path
    }

    fn parts(&self) -> impl Iterator<Item = &str> {
        self.0.split('/').filter(|part| !part.is_empty())
    }
}

impl fmt::Display for SourcePath {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

impl fmt::Debug for SourcePath {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&self.0, f)
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::SourcePath;

    fn path(text: &str) -> SourcePath {
        SourcePath::resolve(&SourcePath::root(), text).unwrap()
    }

    #[test]
    fn a_written_path_is_taken_from_its_folder() {
        let houses = path("houses");
        assert_eq!(SourcePath::resolve(&houses, "../library/./a.wythe"), Some(path("library/a.wythe")));
        assert_eq!(SourcePath::resolve(&houses, "b\\c.wythe"), Some(path("houses/b/c.wythe")));
        assert_eq!(path("houses/unit_4.wythe").folder(), houses);
        assert_eq!(path("houses/unit_4.wythe").stem(), "unit_4");
    }

    #[test]
    fn nothing_leads_out() {
        for out in ["../../a", "/etc/a", "C:/a", "\\a", "a/../../../b", "a\0b"] {
            assert_eq!(SourcePath::resolve(&path("houses"), out), None, "{out}");
        }
        assert_eq!(SourcePath::below(Path::new("r"), Path::new("s/a")), None);
    }

    #[test]
    fn a_folder_holds_what_stands_below_it_and_no_namesake() {
        assert!(path("houses/a").is_in(&path("houses")));
        assert!(!path("houses_old/a").is_in(&path("houses")));
        assert!(path("a").is_in(&SourcePath::root()));
        assert_eq!(path("houses/a").moved(&path("houses"), &path("old/b")), Some(path("old/b/a")));
        assert_eq!(path("houses/a").moved(&path("houses/a"), &path("c")), Some(path("c")));
        assert_eq!(path("houses_old/a").moved(&path("houses"), &path("b")), None);
    }
}
