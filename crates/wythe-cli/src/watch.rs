//! `wythe check --watch`: the check made again whenever a file of the plans is written.

use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::Duration;

use notify::event::{EventKind, ModifyKind};
use notify::{Event, RecursiveMode, Watcher as _};
use wythe_project::{LIBRARIES, find_repositories, plain};
use wythe_render::terminal::clean;

use crate::args::{Check, When};
use crate::check::once;
use crate::exit::Exit;
use crate::output::{complain, out};

/// How long after a write further ones are waited for, since an editor makes several at a time.
const CALM: Duration = Duration::from_millis(60);

/// Checks, and checks again after each change, until it is stopped.
pub(crate) fn run(args: &Check, color: When) -> io::Result<Exit> {
    let (send, changes) = channel();
    let mut watcher = notify::recommended_watcher(move |event| drop(send.send(event))).map_err(io::Error::other)?;
    let folders = folders(&args.paths)?;
    for folder in &folders {
        watcher.watch(folder, RecursiveMode::Recursive).map_err(io::Error::other)?;
    }
    loop {
        // A fault of one moment, such as a file half written, is over at the next.
        if let Err(error) = once(args, color) {
            if error.kind() == io::ErrorKind::BrokenPipe {
                return Err(error);
            }
            complain(&error);
        }
        let Some(file) = wait(&changes, &folders) else { return Ok(Exit::Unusable) };
        let mut out = out();
        writeln!(out, "--- {} has changed", clean(&file.to_string_lossy()))?;
        out.flush()?;
    }
}

/// The folders of the repositories that paths stand in.
fn folders(paths: &[PathBuf]) -> io::Result<Vec<PathBuf>> {
    let mut folders = Vec::new();
    for path in paths {
        let told = |error: io::Error| io::Error::new(error.kind(), format!("{}: {error}", path.display()));
        folders.extend(find_repositories(path).map_err(told)?.into_iter().map(|repository| repository.root));
        if path.is_dir() {
            folders.push(std::path::absolute(path).map(|path| plain(&path)).map_err(told)?);
        }
    }
    folders.sort();
    folders.dedup();
    Ok(folders)
}

/// Waits until a file of plans has changed and calm has come back; gives the first one.
fn wait(changes: &Receiver<notify::Result<Event>>, folders: &[PathBuf]) -> Option<PathBuf> {
    let mut first = None;
    loop {
        let event = match first {
            None => changes.recv().ok()?,
            Some(_) => match changes.recv_timeout(CALM) {
                Ok(event) => event,
                Err(RecvTimeoutError::Timeout) => return first,
                Err(RecvTimeoutError::Disconnected) => return None,
            },
        };
        let written = event.ok().filter(|event| is_write(event.kind));
        let inside = |path: PathBuf| {
            let folder = folders.iter().find(|folder| path.starts_with(folder));
            folder.and_then(|folder| Some(path.strip_prefix(folder).ok()?.to_path_buf())).or(Some(path))
        };
        let all = written.into_iter().flat_map(|event| event.paths).filter_map(inside);
        let mut paths = all.filter(|path| is_of_plans(path));
        first = first.or_else(|| paths.next());
    }
}

/// Whether an event may change what a file says; a check itself reads, and must not set off the next one.
fn is_write(kind: EventKind) -> bool {
    match kind {
        EventKind::Create(_) | EventKind::Remove(_) => true,
        EventKind::Modify(kind) => !matches!(kind, ModifyKind::Metadata(_)),
        _ => false,
    }
}

/// Whether plans are made of a file, by its path from the folder watched.
fn is_of_plans(path: &Path) -> bool {
    let known = path.extension().is_some_and(|end| ["wythe", "toml", "csv", "lock"].iter().any(|known| end == *known));
    let parts = || path.components().map(|part| part.as_os_str().to_string_lossy());
    let hidden = parts().any(|part| part.starts_with('.') && part != LIBRARIES);
    let in_passing = path.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.'));
    known && !in_passing && (!hidden || parts().any(|part| part == LIBRARIES))
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::is_of_plans;

    #[test]
    fn only_what_plans_are_made_of_sets_off_a_check() {
        for path in ["a/b.wythe", "wythe.toml", "prices/c.csv", ".libraries/stock/d.wythe", "wythe.lock"] {
            assert!(is_of_plans(Path::new(path)), "{path}");
        }
        for path in [".git/a.wythe", "a.txt", "a/.b.wythe.swp", ".tmpA1.wythe", "out.xml"] {
            assert!(!is_of_plans(Path::new(path)), "{path}");
        }
    }
}
