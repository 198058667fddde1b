//! From the paths on the command line to projects with those files asked for.

use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};

use wythe_project::{Disk, Project, Repository, SourcePath, find_repositories, plain};
use wythe_render::Files;
use wythe_source::FileId;

use crate::output::complain;
use crate::piped::Piped;

/// A repository opened for a command.
pub(crate) struct Opened {
    pub project: Project,
    /// The files as they stand on the disk.
    pub disk: Disk,
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

/// Opens the repositories of paths, each file asked for. Gives whether every path could be reached.
pub(crate) fn open(paths: &[PathBuf], name: &Path) -> io::Result<(Vec<Opened>, bool)> {
    let here = std::env::current_dir()?;
    let mut reached_all = true;
    let mut found: BTreeMap<PathBuf, Vec<Vec<SourcePath>>> = BTreeMap::new();
    let mut opened = Vec::new();
    for path in paths {
        if path.as_os_str() == "-" {
            opened.push(open_piped(&here, name)?);
            continue;
        }
        match find_repositories(path) {
            Ok(repositories) => {
                if repositories.is_empty() {
                    complain(&format_args!("{}: no source files there", path.display()));
                    reached_all = false;
                }
                for Repository { root, files } in repositories {
                    found.entry(root).or_default().push(files);
                }
            }
            Err(error) => {
                complain(&format_args!("{}: {}", path.display(), reason(&error)));
                reached_all = false;
            }
        }
    }
    for (root, named) in found {
        let mut project = Project::open(Disk::new(&root)?);
        let folders = project.manifest().sources.clone();
        for files in named {
            let source = |file: &&SourcePath| folders.iter().any(|folder| file.is_in(folder));
            // What is named and holds nothing the manifest counts as a source is wanted all the same.
            let any = files.iter().any(|file| source(&file));
            for file in files.iter().filter(|file| !any || source(file)) {
                project.add(file.clone());
            }
        }
        opened.push(Opened { project, disk: Disk::new(&root)?, prefix: way(&here, &root) });
    }
    Ok((opened, reached_all))
}

fn open_piped(here: &Path, name: &Path) -> io::Result<Opened> {
    let full = plain(&here.join(name));
    let folder = full.parent().unwrap_or(here);
    let root = folder.ancestors().find(|f| f.join(wythe_project::MANIFEST_NAME).is_file()).unwrap_or(here);
    let outside = || io::Error::new(io::ErrorKind::InvalidInput, "--name leads out of the repository");
    let path = SourcePath::below(root, &full).ok_or_else(outside)?;
    let mut project = Project::open(Piped::new(Disk::new(root)?, path.clone())?);
    project.add(path);
    Ok(Opened { project, disk: Disk::new(root)?, prefix: way(here, root) })
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
