//! The benchmarks, as ratios in one run: `bench FOLDER [--peers FOLDER] [SECTION]…` writes what is measured into FOLDER
//! and runs the sections named, or all; `--peers` says where the public programs are, if not on the search path.
//!
//! Build with `cargo build --profile dist -p wythe -p wythe-tests`, and run from the folder of that build. A section is
//! one file here and one line of `SECTIONS`.

mod check;
mod growth;
mod keystroke;
mod memory;
mod moisture;
mod nesting;
mod packs;
mod plans;
mod report;
mod section;
mod takeoff;
mod timing;
mod workplace;

use std::path::PathBuf;
use std::{env, io};

use workplace::Workplace;

/// A section of the benchmark: the word that asks for it, and what runs it.
type Section = (&'static str, fn(&Workplace) -> io::Result<()>);

const SECTIONS: &[Section] = &[
    ("check", check::run),
    ("growth", growth::run),
    ("keystroke", keystroke::run),
    ("moisture", moisture::run),
    ("nesting", nesting::run),
    ("packs", packs::run),
    ("report", report::run),
    ("section", section::run),
    ("takeoff", takeoff::run),
];

fn main() -> io::Result<()> {
    let (mut folder, mut peers, mut wanted) = (None, None, Vec::new());
    let mut arguments = env::args().skip(1);
    while let Some(argument) = arguments.next() {
        if argument == "--peers" {
            peers = arguments.next().map(PathBuf::from);
        } else if folder.is_none() {
            folder = Some(PathBuf::from(argument));
        } else {
            wanted.push(argument);
        }
    }
    let names = || SECTIONS.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(" ");
    let Some(folder) = folder else {
        return Err(io::Error::other(format!(
            "usage: bench FOLDER [--peers FOLDER] [SECTION]…; sections: {}",
            names()
        )));
    };
    if let Some(unknown) = wanted.iter().find(|word| SECTIONS.iter().all(|(name, _)| name != word)) {
        return Err(io::Error::other(format!("no section `{unknown}`; there are: {}", names())));
    }
    let at = Workplace::new(folder, peers);
    for (name, run) in SECTIONS {
        if wanted.is_empty() || wanted.iter().any(|word| word == name) {
            println!("== {name}");
            run(&at)?;
        }
    }
    Ok(())
}
