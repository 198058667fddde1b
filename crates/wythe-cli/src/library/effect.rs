//! What a change of libraries does to every house, and the change itself.

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

use similar::TextDiff;
use wythe_project::{Bundle, LIBRARIES, LOCK_NAME, Library, Lock, Locked, SourcePath, Sources as _};
use wythe_render::terminal::clean;

use super::lacks;
use super::shelf::Shelf;
use super::source::{self, Taken};
use crate::args::When;
use crate::bill::compare::{Side, side_by_side};
use crate::bill::plans::Houses;
use crate::bill::written::{TableFormat, write};
use crate::exit::Exit;
use crate::output::{complain, out};

/// The files beside sources that plans are worked out of.
const ENDINGS: [&str; 4] = [".wythe", ".csv", ".toml", ".lock"];

/// Shows what the sources of libraries have now and what that does to every house; takes it over if asked.
pub(super) fn update(
    chosen: &[&Library],
    named: &[Library],
    shelf: &Shelf,
    mut lock: Lock,
    taken_over: bool,
    color: When,
) -> io::Result<Exit> {
    let mut exit = Exit::Clean;
    let mut changed: Vec<(&Library, Taken)> = Vec::new();
    let mut out = out();
    for library in chosen {
        let taken = match source::take(library, None, shelf.root()) {
            Ok(taken) => taken,
            Err(why) => {
                complain(&format_args!("{}: {why}", library.name));
                exit = Exit::Unusable;
                continue;
            }
        };
        let new = Locked::of(library, taken.commit.clone(), taken.bundle.digests());
        let old = lock.get(&library.name);
        if old == Some(&new) && shelf.holds(&new) {
            writeln!(out, "{}: {}, nothing new", library.name, source::shown(library, Some(&new)))?;
            continue;
        }
        writeln!(out, "{}: {}", library.name, source::shown(library, Some(&new)))?;
        differences(&shelf.folder(&library.name), &taken.bundle, &mut out)?;
        exit = exit.max(lacks(library, &taken.bundle.needs(), named));
        lock.put(new);
        changed.push((library, taken));
    }
    out.flush()?;
    drop(out);
    if changed.is_empty() || exit == Exit::Unusable {
        return Ok(exit);
    }
    exit = exit.max(effect(shelf.root(), &changed, &lock, color)?);
    if !taken_over {
        complain(&"nothing is written; --write takes the update over");
        return Ok(exit.max(Exit::Findings));
    }
    for (library, taken) in &changed {
        shelf.put(&library.name, &taken.bundle)?;
    }
    shelf.write_lock(&lock)?;
    Ok(exit)
}

/// Writes how each file of a library differs.
fn differences(old: &Path, new: &Bundle, out: &mut dyn io::Write) -> io::Result<()> {
    let before = Bundle::of_folder(old).unwrap_or_default();
    let text = |bundle: &Bundle, path: &SourcePath| {
        let found = bundle.files().find(|(name, _)| *name == path);
        found.map_or(String::new(), |(_, bytes)| String::from_utf8_lossy(bytes).into_owned())
    };
    let mut paths: Vec<&SourcePath> = before.files().chain(new.files()).map(|(path, _)| path).collect();
    paths.sort();
    paths.dedup();
    for path in paths {
        let (old, new) = (text(&before, path), text(new, path));
        if old != new {
            let diff = TextDiff::from_lines(&old, &new).unified_diff().header(path.as_str(), path.as_str()).to_string();
            out.write_all(clean(&diff).as_bytes())?;
        }
    }
    Ok(())
}

/// Lays the houses as they are beside the houses with the new libraries.
fn effect(root: &Path, changed: &[(&Library, Taken)], lock: &Lock, color: When) -> io::Result<Exit> {
    let place = tempfile::tempdir()?;
    copy(root, place.path())?;
    let after = Shelf::new(place.path());
    for (library, taken) in changed {
        after.put(&library.name, &taken.bundle)?;
    }
    after.write_lock(lock)?;
    let side = |folder: &Path| Side { houses: Houses::of(&folder.to_string_lossy()), prices: None, start: None };
    let title = "Every house, before and after the update".to_owned();
    match side_by_side(&side(root), &side(place.path()), title)? {
        None => Ok(Exit::Clean),
        Some((document, after)) => write(&document, &[], &after.opened, TableFormat::Text, color),
    }
}

/// Copies what the plans of a repository are worked out of.
fn copy(from: &Path, to: &Path) -> io::Result<()> {
    let disk = wythe_project::Disk::new(from)?;
    let mut open = vec![SourcePath::root()];
    while let Some(folder) = open.pop() {
        fs::create_dir_all(folder.under(to))?;
        for entry in fs::read_dir(folder.under(disk.root()))? {
            let entry = entry?;
            let Some(path) = SourcePath::below(disk.root(), &entry.path()) else { continue };
            let name = path.as_str();
            let kind = entry.file_type()?;
            if kind.is_dir() {
                let hidden = name.rsplit('/').next().unwrap_or("").starts_with('.');
                if !hidden || name == LIBRARIES {
                    open.push(path);
                }
            } else if ENDINGS.iter().any(|end| name.ends_with(end)) || name == LOCK_NAME {
                // What cannot or must not be read there can no more be read here.
                if let Ok(bytes) = disk.read(&path) {
                    fs::write(path.under(to), bytes)?;
                }
            }
        }
    }
    Ok(())
}
