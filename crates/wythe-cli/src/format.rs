//! `wythe format`

use std::io::{self, Read as _, Write};
use std::path::Path;
use std::time::Duration;

use rayon::prelude::*;
use serde::Serialize;
use similar::TextDiff;
use wythe_project::{Project, SourcePath, Sources as _, guarded, run as run_on_threads};
use wythe_render::Files as _;
use wythe_render::terminal::clean;
use wythe_source::FileId;
use wythe_syntax::limits::MAX_FILE_BYTES;
use wythe_syntax::{decode, format};

use crate::args::{Format, Layout};
use crate::exit::Exit;
use crate::output::{complain, out};
use crate::replace::replace;
use crate::repository::{Opened, open};

/// How long a comparison may look for the shortest difference before it takes the next best.
const DIFF_PATIENCE: Duration = Duration::from_secs(2);

/// What came of one file.
enum Formatted {
    Same,
    Changed {
        old: String,
        new: String,
    },
    Unreadable(String),
    /// The formatter itself broke down on it.
    Broken(String),
}

/// The names of files in the JSON output.
#[derive(Serialize, Default)]
struct Written {
    form: u32,
    changed: Vec<String>,
    unreadable: Vec<String>,
}

pub(crate) fn run(args: &Layout) -> io::Result<Exit> {
    if args.paths.iter().any(|path| path.as_os_str() == "-") {
        return standard_input(args);
    }
    let (opened, reached_all) = run_on_threads(args.threads, || open(&args.paths, Path::new("")))?;
    let mut out = out();
    let mut written = Written { form: 1, ..Written::default() };
    let mut worst = if reached_all { Exit::Clean } else { Exit::Unusable };
    let keep = args.check || args.diff;
    for repository in &opened {
        for (file, path, formatted) in run_on_threads(args.threads, || all(repository)) {
            let name = repository.name(file);
            match formatted {
                Formatted::Same => {}
                Formatted::Unreadable(why) => {
                    complain(&format_args!("{name}: {why}"));
                    written.unreadable.push(name);
                    worst = worst.max(Exit::Unusable);
                }
                Formatted::Broken(why) => {
                    complain(&format_args!("{name}: {why}"));
                    written.unreadable.push(name);
                    worst = Exit::Broken;
                }
                Formatted::Changed { old, new } => {
                    if args.diff {
                        write_diff(&mut out, &name, &old, &new)?;
                    } else if args.format == Format::Text {
                        writeln!(out, "{}", clean(&name))?;
                    }
                    if keep {
                        worst = worst.max(Exit::Findings);
                    } else if let Err(error) = replace(&path.under(repository.disk.root()), &new) {
                        complain(&format_args!("{name}: not written: {error}"));
                        worst = worst.max(Exit::Unusable);
                    }
                    written.changed.push(name);
                }
            }
        }
    }
    if args.format == Format::Json {
        serde_json::to_writer_pretty(&mut out, &written).map_err(io::Error::other)?;
        writeln!(out)?;
    }
    out.flush()?;
    Ok(worst)
}

/// Formats every file asked for, side by side, in the order asked.
fn all(repository: &Opened) -> Vec<(FileId, SourcePath, Formatted)> {
    let project: &Project = &repository.project;
    let files: Vec<_> = project.roots().filter_map(|file| Some((file, project.entry(file)?.path.clone()))).collect();
    let one = |(file, path): (FileId, SourcePath)| {
        let formatted = match repository.disk.read(&path) {
            Ok(bytes) => guarded_of_bytes(file, &bytes),
            Err(fault) => Formatted::Unreadable(fault.to_string()),
        };
        (file, path, formatted)
    };
    files.into_par_iter().map(one).collect()
}

fn guarded_of_bytes(file: FileId, bytes: &[u8]) -> Formatted {
    guarded(file, || of_bytes(file, bytes))
        .unwrap_or_else(|fault| Formatted::Broken(format!("{}: {}", fault.title, fault.primary.text)))
}

fn of_bytes(file: FileId, bytes: &[u8]) -> Formatted {
    match decode(file, bytes) {
        Err(fault) => Formatted::Unreadable(format!("{}: {}", fault.title, fault.primary.text)),
        Ok(old) => {
            let new = format(old);
            if new == old { Formatted::Same } else { Formatted::Changed { old: old.to_owned(), new } }
        }
    }
}

fn write_diff(out: &mut dyn Write, name: &str, old: &str, new: &str) -> io::Result<()> {
    let diff = TextDiff::configure().timeout(DIFF_PATIENCE).diff_lines(old, new);
    let text = diff.unified_diff().header(name, &format!("{name} (formatted)")).to_string();
    out.write_all(clean(&text).as_bytes())
}

fn standard_input(args: &Layout) -> io::Result<Exit> {
    if args.paths.len() > 1 {
        complain(&"standard input is formatted by itself: name `-` alone");
        return Ok(Exit::Unusable);
    }
    let mut bytes = Vec::new();
    io::stdin().lock().take(MAX_FILE_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    let mut out = out();
    let changed = match guarded_of_bytes(FileId(0), &bytes) {
        Formatted::Broken(why) => {
            complain(&format_args!("standard input: {why}"));
            return Ok(Exit::Broken);
        }
        Formatted::Unreadable(why) => {
            complain(&format_args!("standard input: {why}"));
            return Ok(Exit::Unusable);
        }
        Formatted::Same if args.check || args.diff => false,
        Formatted::Same => {
            out.write_all(&bytes)?;
            false
        }
        Formatted::Changed { old, new } if args.diff => {
            write_diff(&mut out, "standard input", &old, &new)?;
            true
        }
        Formatted::Changed { .. } if args.check => true,
        Formatted::Changed { new, .. } => {
            out.write_all(new.as_bytes())?;
            false
        }
    };
    out.flush()?;
    Ok(if changed { Exit::Findings } else { Exit::Clean })
}
