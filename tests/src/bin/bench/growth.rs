//! `growth`: how the time and the memory of a check grow with the houses of a repository, and its time with the depth
//! and the length of what one file holds; formatting beside checking, and a recheck of what did not change.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::memory;
use crate::plans;
use crate::timing::{self, Run};
use crate::workplace::Workplace;

const HOUSES: [u64; 3] = [100, 1_000, 10_000];
const ROUNDS: usize = 5;

pub(crate) fn run(at: &Workplace) -> io::Result<()> {
    let cache = at.folder.join("cache");
    let mut before: Option<(f64, f64, f64)> = None;
    for houses in HOUSES {
        let (root, bytes) = plans::write_plans(&at.folder, houses)?;
        let check = |name: &str| Run::new(name, at.own("wythe")).arg("check").arg(&root);
        // The cache is filled by the round that warms up.
        let runs = [
            check("unchanged, from the cache").set("WYTHE_CACHE", &cache),
            Run::new("format --check", at.own("wythe")).arg("format").arg("--check").arg(&root),
            check("check").arg("--no-cache"),
        ];
        let peak = memory::peak(at.own("wythe"), &[Path::new("check"), &root, Path::new("--no-cache")])?;
        let medians = timing::medians(&runs, ROUNDS)?;
        println!("{houses} houses, {bytes} bytes; at most {:.0} MB of memory", peak as f64 / 1e6);
        timing::print(&runs, &medians, ROUNDS);
        let now = (bytes as f64, medians[2].as_secs_f64(), peak as f64);
        if let Some(before) = before {
            let times = |now: f64, before: f64| now / before;
            println!(
                "{:>32}: {:.1} times the bytes, {:.1} the time, {:.1} the memory",
                "than before",
                times(now.0, before.0),
                times(now.1, before.1),
                times(now.2, before.2)
            );
        }
        before = Some(now);
    }
    within_a_file(at)
}

/// One file with a value nested, or strung out, so and so often.
fn within_a_file(at: &Workplace) -> io::Result<()> {
    let folder = at.folder.join("shapes");
    fs::create_dir_all(&folder)?;
    let nested = |depth: usize| format!("let x = {}1{}\n", "(".repeat(depth), ")".repeat(depth));
    let strung = |values: usize| format!("let x = [1 ft{}]\n", ",\n    2 ft * 3".repeat(values));
    let many = |lines: usize| (0..lines).map(|line| format!("let x{line} = {line} ft * 2\n")).collect();
    shape(at, &folder, "brackets in brackets", [15, 30, 60], nested)?;
    shape(at, &folder, "values in a list", [1_000, 10_000, 100_000], strung)?;
    shape(at, &folder, "lines in a file", [1_000, 10_000, 100_000], many)
}

fn shape(
    at: &Workplace,
    folder: &Path,
    name: &str,
    counts: [usize; 3],
    text: impl Fn(usize) -> String,
) -> io::Result<()> {
    let write = |count: usize| -> io::Result<PathBuf> {
        let path = folder.join(format!("{}_{count}.wythe", name.replace(' ', "_")));
        fs::write(&path, text(count))?;
        Ok(path)
    };
    let runs = counts
        .iter()
        .map(|count| {
            let run = Run::new(format!("{count} {name}"), at.own("wythe"));
            Ok(run.arg("check").arg(write(*count)?))
        })
        .collect::<io::Result<Vec<Run>>>()?;
    timing::print(&runs, &timing::medians(&runs, ROUNDS)?, ROUNDS);
    Ok(())
}
