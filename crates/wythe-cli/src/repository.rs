//! From the paths on the command line to projects with those files asked for.

use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use wythe_project::{Disk, Project, Record, Recording, Repository, SourcePath, find_repositories, plain};
use wythe_render::Files;
use wythe_source::FileId;

use crate::output::complain;
use crate::piped::Piped;

/// A repository opened for a command.
pub(crate) struct Opened {
    pub project: Project,
    /// The files as they stand on the disk.
    pub disk: Disk,
    /// What has been read of it, where that is written down.
    pub record: Option<Arc<Record>>,
    /// From the folder the command runs in to the repository's, `/` at its end; empty for the same folder.
    prefix: String,
}

impl Files for Opened {
    fn name(&self, file: FileId) -> String {
        let name = self.project.name(file);
        if self.project.entry(file).is_some_and(|e| e.origin == wythe_project::Origin::Repository) {
            format!("{}{name}", self.prefix)
        } else {
            name
        }
    }

    fn text(&self, file: FileId) -> &str {
        self.project.text(file)
    }
}

/// Where the paths of a command lead.
#[derive(Default)]
pub(crate) struct Found {
    /// The files asked for in each repository, as each path named them.
    repositories: BTreeMap<PathBuf, Vec<Vec<SourcePath>>>,
    /// How often standard input is asked for.
    piped: usize,
    /// Whether every path could be reached.
    pub reached_all: bool,
}

impl Found {
    /// The repositories and the files asked for in them, where those are all that was asked for.
    pub(crate) fn on_disk(&self) -> Option<&BTreeMap<PathBuf, Vec<Vec<SourcePath>>>> {
        (self.reached_all && self.piped == 0).then_some(&self.repositories)
    }
}

/// Finds the repositories of paths and the files asked for in them; says which paths cannot be reached.
pub(crate) fn find(paths: &[PathBuf]) -> Found {
    let mut found = Found { reached_all: true, ..Found::default() };
    for path in paths {
        if path.as_os_str() == "-" {
            found.piped += 1;
            continue;
        }
        match find_repositories(path) {
            Ok(repositories) => {
                if repositories.is_empty() {
                    complain(&format_args!("{}: no source files there", path.display()));
                    found.reached_all = false;
                }
                for Repository { root, files } in repositories {
                    found.repositories.entry(root).or_default().push(files);
                }
            }
            Err(error) => {
                complain(&format_args!("{}: {}", path.display(), reason(&error)));
                found.reached_all = false;
            }
        }
    }
    found
}

/// Opens the repositories of paths, each file asked for. Gives whether every path could be reached.
pub(crate) fn open(paths: &[PathBuf], name: &Path) -> io::Result<(Vec<Opened>, bool)> {
    let found = find(paths);
    let reached_all = found.reached_all;
    Ok((open_found(found, name, false)?, reached_all))
}

/// Opens the repositories found, each file asked for. What is read is written down only if it is `recorded`, since that
/// takes a digest of every file.
pub(crate) fn open_found(found: Found, name: &Path, recorded: bool) -> io::Result<Vec<Opened>> {
    let here = std::env::current_dir()?;
    let mut opened = Vec::new();
    for _ in 0..found.piped {
        opened.push(open_piped(&here, name)?);
    }
    for (root, named) in found.repositories {
        let disk = Disk::new(&root)?;
        let (mut project, record) = if recorded {
            let sources = Recording::new(disk);
            let record = sources.record();
            (Project::open(sources), Some(record))
        } else {
            (Project::open(disk), None)
        };
        let folders = project.manifest().sources.clone();
        for files in named {
            let source = |file: &&SourcePath| folders.iter().any(|folder| file.is_in(folder));
            // What is named and holds nothing the manifest counts as a source is wanted all the same.
            let any = files.iter().any(|file| source(&file));
            for file in files.iter().filter(|file| !any || source(file)) {
                project.add(file.clone());
            }
        }
        opened.push(Opened { project, disk: Disk::new(&root)?, record, prefix: way(&here, &root) });
    }
    Ok(opened)
}

fn open_piped(here: &Path, name: &Path) -> io::Result<Opened> {
    let full = plain(&here.join(name));
    let folder = full.parent().unwrap_or(here);
    let root = folder.ancestors().find(|f| f.join(wythe_project::MANIFEST_NAME).is_file()).unwrap_or(here);
    let outside = || io::Error::new(io::ErrorKind::InvalidInput, "--name leads out of the repository");
    let path = SourcePath::below(root, &full).ok_or_else(outside)?;
    let mut project = Project::open(Piped::new(Disk::new(root)?, path.clone())?);
    project.add(path);
    Ok(Opened { project, disk: Disk::new(root)?, record: None, prefix: way(here, root) })
}

/// Why a path cannot be reached, in plain words.
fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "no such file or folder".into(),
        io::ErrorKind::PermissionDenied => "reading it is not permitted".into(),
        _ => error.to_string(),
    }
}

/// The way from one folder to another, `/` between its parts and at its end.
fn way(from: &Path, to: &Path) -> String {
    let shared = from.components().zip(to.components()).take_while(|(a, b)| a == b).count();
    let up = from.components().skip(shared).map(|_| "..".to_owned());
    let down = to.components().skip(shared).map(|part| part.as_os_str().to_string_lossy().into_owned());
    let parts: Vec<String> = up.chain(down).collect();
    if parts.is_empty() { String::new() } else { parts.join("/") + "/" }
}
