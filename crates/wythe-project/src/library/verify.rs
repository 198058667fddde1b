//! Whether the copies of libraries are what the manifest asks for and the lock file says.

use std::collections::{BTreeMap, BTreeSet};

use wythe_findings::{Finding, codes};

use super::{LOCK_NAME, Library, Lock, Locked, digest, folder_of};
use crate::{ReadFault, SourcePath, Sources};

/// What is wrong with the libraries of a manifest.
pub(crate) fn verify(libraries: &[Library], sources: &dyn Sources) -> Vec<Finding> {
    if libraries.is_empty() {
        return Vec::new();
    }
    let lock = match read_lock(sources) {
        Ok(lock) => lock,
        Err(why) => return libraries.iter().map(|library| missing(library, &why)).collect(),
    };
    libraries.iter().filter_map(|library| one(library, &lock, sources)).collect()
}

fn read_lock(sources: &dyn Sources) -> Result<Lock, String> {
    let Some(path) = SourcePath::resolve(&SourcePath::root(), LOCK_NAME) else { return Ok(Lock::default()) };
    match sources.read(&path) {
        Ok(bytes) => Lock::read(&String::from_utf8_lossy(&bytes)).map_err(|why| format!("`{LOCK_NAME}`: {why}")),
        Err(ReadFault::NotFound) => Ok(Lock::default()),
        Err(fault) => Err(format!("`{LOCK_NAME}`: {fault}")),
    }
}

fn one(library: &Library, lock: &Lock, sources: &dyn Sources) -> Option<Finding> {
    let Some(locked) = lock.get(&library.name) else {
        return Some(missing(library, &format!("`{LOCK_NAME}` does not hold it")));
    };
    if !locked.is_of(library) {
        return Some(missing(library, &format!("`{LOCK_NAME}` holds it from elsewhere")));
    }
    let folder = folder_of(&library.name)?;
    let mut differs = BTreeMap::new();
    for (name, due) in &locked.files {
        // A name that leads out of the library's folder is no file of it.
        let path = SourcePath::resolve(&folder, name).filter(|path| path.is_in(&folder));
        match path.map(|path| sources.read(&path)) {
            Some(Ok(bytes)) if digest(&bytes) == *due => {}
            Some(Ok(_)) => drop(differs.insert(name.clone(), "differs".to_owned())),
            Some(Err(ReadFault::NotFound)) => drop(differs.insert(name.clone(), "is not there".to_owned())),
            Some(Err(fault)) => drop(differs.insert(name.clone(), format!("cannot be read: {fault}"))),
            None => drop(differs.insert(name.clone(), "lies outside".to_owned())),
        }
    }
    differs
        .extend(added(locked, &folder, sources).into_iter().map(|name| (name, "is not in the lock file".to_owned())));
    if differs.len() >= locked.files.len() && differs.values().all(|why| why == "is not there") {
        return Some(missing(library, "its files are not there"));
    }
    let (name, why) = differs.first_key_value()?;
    let more = match differs.len() - 1 {
        0 => String::new(),
        count => format!(", and {count} more"),
    };
    let title = format!("the library `{}` is not as it was brought in", library.name);
    Some(
        Finding::new(codes::LIBRARY_CHANGED, library.place, title)
            .label(format!("`{name}` {why}{more}"))
            .mend("`wythe library --fetch` brings it in again as it was; `--update` takes what its source has now"),
    )
}

/// Sources that stand in the library's folder and not in the lock file.
fn added(locked: &Locked, folder: &SourcePath, sources: &dyn Sources) -> BTreeSet<String> {
    let listed = sources.list(folder).unwrap_or_default();
    let inside = listed.iter().filter_map(|path| path.as_str().strip_prefix(folder.as_str())?.strip_prefix('/'));
    inside.filter(|name| !locked.files.contains_key(*name)).map(str::to_owned).collect()
}

fn missing(library: &Library, why: &str) -> Finding {
    Finding::new(codes::LIBRARY_MISSING, library.place, format!("the library `{}` is not here", library.name))
        .label(why)
        .mend("`wythe library --fetch` brings it in; a check reads no network and nothing outside the repository")
}
