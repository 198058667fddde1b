//! `wythe library`: the one command that reads outside the repository and reaches a network, when asked to.

mod effect;
mod shelf;
mod source;

use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use wythe_project::{Library, Lock, Locked};

use crate::args::When;
use crate::exit::Exit;
use crate::output::{complain, out};
use crate::repository::open;
use shelf::Shelf;

/// Show, bring in and renew the libraries that the manifest names.
///
/// Without a flag nothing is read but the repository. A library is kept as a copy in `.libraries`, and `wythe.lock`
/// says what each of its files holds; both belong in the history of the repository.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe library\n  wythe library --fetch\n  wythe library --update\n  wythe library --update --only stock --write"
)]
pub(crate) struct LibraryOf {
    /// The repository.
    #[arg(default_value = ".", value_name = "PATH")]
    pub path: PathBuf,
    /// Bring in what is not here as locked, and lock what is new in the manifest.
    #[arg(long)]
    pub fetch: bool,
    /// Look what the sources have now, and say what it would do to every house.
    #[arg(long, conflicts_with = "fetch")]
    pub update: bool,
    /// Take the update over.
    #[arg(long, requires = "update")]
    pub write: bool,
    /// Only the library of this name.
    #[arg(long, value_name = "NAME")]
    pub only: Option<String>,
}

pub(crate) fn run(args: &LibraryOf, color: When) -> io::Result<Exit> {
    let (opened, reached_all) = open(std::slice::from_ref(&args.path), Path::new(""))?;
    let [repository] = opened.as_slice() else {
        if reached_all {
            complain(&"libraries belong to one repository");
        }
        return Ok(Exit::Unusable);
    };
    let named = &repository.project.manifest().packages;
    let asked = |library: &&Library| args.only.as_ref().is_none_or(|only| *only == library.name);
    let chosen: Vec<&Library> = named.iter().filter(asked).collect();
    if let (Some(only), true) = (&args.only, chosen.is_empty()) {
        complain(&format_args!("the manifest names no library `{only}`"));
        return Ok(Exit::Unusable);
    }
    let shelf = Shelf::new(repository.disk.root());
    let mut lock = match shelf.lock() {
        Ok(lock) => lock,
        // A lock file that cannot be read is written anew when libraries are brought in anew.
        Err(why) if args.fetch || args.update => {
            complain(&format_args!("{why}; it is written anew"));
            Lock::default()
        }
        Err(why) => {
            complain(&why);
            return Ok(Exit::Unusable);
        }
    };
    lock.keep(named);
    if args.fetch {
        return fetch(&chosen, named, &shelf, lock);
    }
    if args.update {
        return effect::update(&chosen, named, &shelf, lock, args.write, color);
    }
    list(&chosen, &lock, &shelf)
}

/// Says of each library where it comes from and how it stands.
fn list(chosen: &[&Library], lock: &Lock, shelf: &Shelf) -> io::Result<Exit> {
    let mut out = out();
    let mut exit = Exit::Clean;
    for library in chosen {
        let held = lock.get(&library.name);
        let state = match held {
            None => "not brought in",
            Some(held) if !held.is_of(library) => "brought in from elsewhere",
            Some(held) if shelf.holds(held) => "as locked",
            Some(_) => "not as locked",
        };
        if state != "as locked" {
            exit = Exit::Findings;
        }
        let files = held.map_or(0, |held| held.files.len());
        writeln!(out, "{}: {}, {files} files, {state}", library.name, source::shown(library, held))?;
    }
    out.flush()?;
    if exit == Exit::Findings {
        complain(&"`wythe library --fetch` brings libraries in");
    }
    Ok(exit)
}

/// Brings in what is not here as locked.
fn fetch(chosen: &[&Library], named: &[Library], shelf: &Shelf, mut lock: Lock) -> io::Result<Exit> {
    let mut out = out();
    let mut exit = Exit::Clean;
    for library in chosen {
        let held = lock.get(&library.name).filter(|held| held.is_of(library)).cloned();
        if held.as_ref().is_some_and(|held| shelf.holds(held)) {
            continue;
        }
        let pinned = held.as_ref().and_then(|held| held.commit.as_deref());
        let taken = match source::take(library, pinned, shelf.root()) {
            Ok(taken) => taken,
            Err(why) => {
                complain(&format_args!("{}: {why}", library.name));
                exit = Exit::Unusable;
                continue;
            }
        };
        let new = Locked::of(library, taken.commit, taken.bundle.digests());
        if let Some(held) = &held
            && held.hash != new.hash
        {
            complain(&format_args!(
                "{}: its source no longer holds what was locked; `wythe library --update` takes what it has now",
                library.name
            ));
            exit = Exit::Unusable;
            continue;
        }
        exit = exit.max(lacks(library, &taken.bundle.needs(), named));
        shelf.put(&library.name, &taken.bundle)?;
        writeln!(out, "{}: {}, {} files", library.name, source::shown(library, Some(&new)), new.files.len())?;
        lock.put(new);
    }
    shelf.write_lock(&lock)?;
    out.flush()?;
    Ok(exit)
}

/// Says which libraries a library leans on that the manifest does not name.
fn lacks(library: &Library, needs: &[String], named: &[Library]) -> Exit {
    let mut exit = Exit::Clean;
    for need in needs.iter().filter(|need| named.iter().all(|own| own.name != **need)) {
        complain(&format_args!("{}: it uses the library `{need}`; name that in `wythe.toml` too", library.name));
        exit = Exit::Findings;
    }
    exit
}
