//! Which files are sources, and which repository each belongs to.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

use walkdir::WalkDir;

use crate::SourcePath;

/// The file at the top of a plans repository.
pub const MANIFEST_NAME: &str = "wythe.toml";

/// The ending of source files.
pub const SOURCE_EXTENSION: &str = "wythe";

/// Sources to check, in the repository they belong to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Repository {
    /// The folder of the repository: the nearest one upward with a manifest, else the folder that was named.
    pub root: PathBuf,
    /// The sources in it, in order of path.
    pub files: Vec<SourcePath>,
}

/// Whether a path has the ending of a source file.
pub(crate) fn is_source(path: &str) -> bool {
    path.rsplit_once('.').is_some_and(|(stem, ending)| ending == SOURCE_EXTENSION && !stem.is_empty())
}

/// The repositories of a file or a folder: the one it stands in, and any that stand in it.
///
/// Hidden folders are passed over, and links to folders are not followed. The path is taken by its words: a link in
/// a repository belongs there, wherever it leads, so that reading it can be refused.
///
/// # Errors
/// Where the path is not there or cannot be reached.
pub fn find_repositories(path: &Path) -> io::Result<Vec<Repository>> {
    let named_folder = fs::metadata(path)?.is_dir();
    let path = plain(&std::path::absolute(path)?);
    let folder = if named_folder { path.as_path() } else { path.parent().unwrap_or(&path) };
    let above = folder.ancestors().find(|f| has_manifest(f)).unwrap_or(folder).to_path_buf();
    let mut repositories: BTreeMap<PathBuf, Vec<SourcePath>> = BTreeMap::new();
    if !named_folder {
        let file = SourcePath::below(&above, &path)
            .ok_or_else(|| io::Error::new(io::ErrorKind::InvalidInput, "its name is not UTF-8 text"))?;
        return Ok(vec![Repository { root: above, files: vec![file] }]);
    }
    // Each folder belongs to the nearest manifest above it; the walk meets a folder before what is in it.
    let mut roots = vec![above];
    for entry in walk(&path) {
        let place = entry.path();
        while roots.len() > 1 && roots.last().is_some_and(|root| !place.starts_with(root)) {
            roots.pop();
        }
        if entry.file_type().is_dir() {
            if place != path && has_manifest(place) {
                roots.push(place.to_path_buf());
            }
        } else if place.to_str().is_some_and(is_source)
            && let Some(root) = roots.last()
            && let Some(file) = SourcePath::below(root, place)
        {
            repositories.entry(root.clone()).or_default().push(file);
        }
    }
    Ok(repositories
        .into_iter()
        .map(|(root, mut files)| {
            files.sort();
            Repository { root, files }
        })
        .collect())
}

/// The path with `.` and `..` taken out by its words alone.
pub fn plain(path: &Path) -> PathBuf {
    let mut out = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir => {
                out.pop();
            }
            part => out.push(part),
        }
    }
    out
}

/// The sources in a folder and below, in order of path, repositories inside it left out.
pub(crate) fn list_sources(folder: &Path) -> Vec<PathBuf> {
    let mut walker = WalkDir::new(folder).into_iter();
    let mut found = Vec::new();
    while let Some(entry) = walker.next() {
        let Ok(entry) = entry else { continue };
        let below = entry.depth() > 0;
        if below && entry.file_type().is_dir() && (is_hidden(&entry) || has_manifest(entry.path())) {
            walker.skip_current_dir();
        } else if !entry.file_type().is_dir() && entry.path().to_str().is_some_and(is_source) {
            found.push(entry.into_path());
        }
    }
    found.sort();
    found
}

fn walk(folder: &Path) -> impl Iterator<Item = walkdir::DirEntry> {
    WalkDir::new(folder).into_iter().filter_entry(|e| e.depth() == 0 || !is_hidden(e)).filter_map(Result::ok)
}

fn is_hidden(entry: &walkdir::DirEntry) -> bool {
    entry.file_name().to_str().is_some_and(|name| name.starts_with('.'))
}

fn has_manifest(folder: &Path) -> bool {
    folder.join(MANIFEST_NAME).is_file()
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::find_repositories;

    #[test]
    fn each_file_belongs_to_the_nearest_manifest_above() {
        let place = tempfile::tempdir().unwrap();
        let root = fs::canonicalize(place.path()).unwrap();
        for folder in ["row/houses", "row/.hidden", "loose/x", "row/inner/deep"] {
            fs::create_dir_all(root.join(folder)).unwrap();
        }
        for file in ["row/wythe.toml", "row/inner/wythe.toml", "row/z.wythe", "row/houses/a.wythe"] {
            fs::write(root.join(file), "").unwrap();
        }
        for file in ["row/.hidden/b.wythe", "loose/x/c.wythe", "row/inner/deep/d.wythe", "row/e.txt"] {
            fs::write(root.join(file), "").unwrap();
        }
        let shown = |from: &str| -> Vec<String> {
            let found = find_repositories(&root.join(from)).unwrap();
            let line =
                |r: &super::Repository| format!("{}: {:?}", r.root.strip_prefix(&root).unwrap().display(), r.files);
            found.iter().map(line).collect()
        };
        assert_eq!(
            shown(""),
            [r#": ["loose/x/c.wythe"]"#, r#"row: ["houses/a.wythe", "z.wythe"]"#, r#"row/inner: ["deep/d.wythe"]"#]
        );
        assert_eq!(shown("row/houses"), [r#"row: ["houses/a.wythe"]"#]);
        assert_eq!(shown("row/houses/a.wythe"), [r#"row: ["houses/a.wythe"]"#]);
        assert_eq!(shown("loose/x/c.wythe"), [r#"loose/x: ["c.wythe"]"#]);
        assert!(find_repositories(&root.join("nowhere")).is_err());
    }
}
