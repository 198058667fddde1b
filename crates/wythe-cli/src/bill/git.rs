//! The files of an earlier revision, taken from git into a folder of their own.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use tempfile::TempDir;
use wythe_project::find_repositories;

use crate::output::complain;

/// The repository of a path as it was at a revision, and the same path in it. Only sources, manifests and tables are
/// taken.
fn checkout(target: &Path, revision: &str) -> io::Result<(TempDir, PathBuf)> {
    // A revision that looks like an option would be read as one.
    if revision.starts_with('-') {
        return Err(io::Error::other("a revision does not begin with `-`"));
    }
    let repositories = find_repositories(target)?;
    let [repository] = repositories.as_slice() else {
        return Err(io::Error::other("name a file or folder of one repository"));
    };
    let root = &repository.root;
    let target = fs::canonicalize(target)?;
    let listed = git(root, &["ls-tree", "-r", "--name-only", "-z", revision, "--", "."])?;
    let folder = tempfile::tempdir()?;
    for name in listed.split(|b| *b == 0).filter_map(|b| std::str::from_utf8(b).ok()).filter(|n| !n.is_empty()) {
        let wanted = [".wythe", ".toml", ".csv", ".lock"].iter().any(|ending| name.ends_with(ending));
        if !wanted || name.starts_with('/') || name.split('/').any(|part| part == "..") {
            continue;
        }
        let bytes = git(root, &["cat-file", "blob", &format!("{revision}:./{name}")])?;
        let place = folder.path().join(name);
        if let Some(parent) = place.parent() {
            fs::create_dir_all(parent)?;
        }
        fs::write(place, bytes)?;
    }
    let inside = target.strip_prefix(root).unwrap_or(Path::new(""));
    let old = if inside.as_os_str().is_empty() { folder.path().to_path_buf() } else { folder.path().join(inside) };
    if !old.exists() {
        return Err(io::Error::other(format!("{} was not there", inside.display())));
    }
    Ok((folder, old))
}

/// Like [`checkout`]; says why where it cannot be.
pub(crate) fn checkout_or_say(target: &Path, revision: &str) -> Option<(TempDir, PathBuf)> {
    checkout(target, revision).map_err(|why| complain(&format_args!("{revision}: {why}"))).ok()
}

/// What git writes, run in a folder.
pub(crate) fn git(folder: &Path, args: &[&str]) -> io::Result<Vec<u8>> {
    let done = Command::new("git").arg("-C").arg(folder).args(args).stdin(Stdio::null()).output()?;
    if done.status.success() {
        return Ok(done.stdout);
    }
    let said = String::from_utf8_lossy(&done.stderr);
    let first = said.lines().next().unwrap_or("git failed").to_owned();
    Err(io::Error::other(first))
}
