//! A library taken from where the manifest says it is.

use std::fmt::Display;
use std::io;
use std::path::Path;
use std::process::{Command, Stdio};

use wythe_project::{Bundle, Library, LibrarySource, Locked};

/// How many letters of a commit tell it from others to a reader.
const SHORT: usize = 12;

/// A library as its source has it.
pub(crate) struct Taken {
    pub bundle: Bundle,
    /// The commit, where the source is a git repository.
    pub commit: Option<String>,
}

/// Where a library comes from, in words.
pub(crate) fn shown(library: &Library, held: Option<&Locked>) -> String {
    match &library.source {
        LibrarySource::Folder(path) => format!("the folder {path}"),
        LibrarySource::Git { url, revision } => {
            let commit = held.and_then(|held| held.commit.as_deref()).and_then(|commit| commit.get(..SHORT));
            match commit {
                Some(commit) if *revision != commit => format!("{url} at {revision} ({commit})"),
                _ => format!("{url} at {revision}"),
            }
        }
    }
}

/// Reads a library from its source: of a git repository the commit given, else the revision the manifest names.
///
/// # Errors
/// Why it cannot be had, in one line.
pub(crate) fn take(library: &Library, commit: Option<&str>, root: &Path) -> Result<Taken, String> {
    let told = |error: &dyn Display| error.to_string();
    match &library.source {
        LibrarySource::Folder(path) => {
            let folder = root.join(path);
            let bundle = Bundle::of_folder(&folder).map_err(|error| format!("{path}: {error}"))?;
            Ok(Taken { bundle, commit: None })
        }
        LibrarySource::Git { url, revision } => {
            let place = tempfile::tempdir().map_err(|error| told(&error))?;
            let clone = place.path().join("clone");
            let into = clone.to_str().ok_or("the folder for passing files has no name in text")?;
            git(root, &["clone", "--quiet", "--bare", "--", url, into]).map_err(|error| told(&error))?;
            let asked = format!("{}^{{commit}}", commit.unwrap_or(revision));
            let found = git(&clone, &["rev-parse", "--verify", "--quiet", "--end-of-options", &asked]);
            let found = found.map_err(|_| format!("{url} has no revision {}", commit.unwrap_or(revision)))?;
            let commit = String::from_utf8_lossy(&found).trim().to_owned();
            Ok(Taken { bundle: blobs(&clone, &commit)?, commit: Some(commit) })
        }
    }
}

/// The files of a commit; links and submodules are passed over.
fn blobs(clone: &Path, commit: &str) -> Result<Bundle, String> {
    let mut bundle = Bundle::default();
    let listed = git(clone, &["ls-tree", "-r", "-z", "--full-tree", commit]).map_err(|e| e.to_string())?;
    for line in listed.split(|byte| *byte == 0).filter_map(|line| std::str::from_utf8(line).ok()) {
        let Some((about, name)) = line.split_once('\t') else { continue };
        let mut about = about.split(' ');
        let (Some(mode), Some("blob"), Some(hash)) = (about.next(), about.next(), about.next()) else { continue };
        if mode.starts_with("100") && [".wythe", ".csv", ".toml"].iter().any(|end| name.ends_with(end)) {
            let bytes = git(clone, &["cat-file", "blob", hash]).map_err(|e| e.to_string())?;
            bundle.add(name, bytes).map_err(|fault| fault.to_string())?;
        }
    }
    bundle.whole().map_err(|fault| fault.to_string())
}

/// What git writes, run in a folder. It asks nobody anything and speaks no protocol that runs a program.
fn git(folder: &Path, args: &[&str]) -> io::Result<Vec<u8>> {
    let done = Command::new("git")
        .args(["-c", "core.hooksPath=", "-c", "protocol.ext.allow=never"])
        .args(args)
        .current_dir(folder)
        .env("GIT_TERMINAL_PROMPT", "0")
        .env("GIT_ALLOW_PROTOCOL", "https:ssh:file")
        .stdin(Stdio::null())
        .output()?;
    if done.status.success() {
        return Ok(done.stdout);
    }
    let said = String::from_utf8_lossy(&done.stderr);
    let last = said.lines().rev().find(|line| line.starts_with("fatal") || line.starts_with("error"));
    Err(io::Error::other(last.or(said.lines().next()).unwrap_or("git failed").to_owned()))
}
