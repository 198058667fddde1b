//! Running programs in turn and taking medians: what every section of the benchmark shares.

use std::io;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// A program to time: a name to print, where it is, and what it is given.
#[derive(Clone)]
pub(crate) struct Run {
    name: String,
    program: PathBuf,
    arguments: Vec<PathBuf>,
    surroundings: Vec<(&'static str, PathBuf)>,
}

impl Run {
    pub(crate) fn new(name: impl Into<String>, program: impl Into<PathBuf>) -> Run {
        Run { name: name.into(), program: program.into(), arguments: Vec::new(), surroundings: Vec::new() }
    }

    pub(crate) fn name(&self) -> &str {
        &self.name
    }

    pub(crate) fn arg(mut self, argument: impl AsRef<Path>) -> Run {
        self.arguments.push(argument.as_ref().to_path_buf());
        self
    }

    /// With a variable of the environment.
    pub(crate) fn set(mut self, name: &'static str, value: impl AsRef<Path>) -> Run {
        self.surroundings.push((name, value.as_ref().to_path_buf()));
        self
    }
}

/// The median of `rounds` runs of each program, in the order given. The programs take turns, so that a slow minute of
/// the machine falls on all of them, and the first round warms up.
pub(crate) fn medians(runs: &[Run], rounds: usize) -> io::Result<Vec<Duration>> {
    let mut times: Vec<Vec<Duration>> = vec![Vec::with_capacity(rounds + 1); runs.len()];
    for _ in 0..=rounds {
        for (run, times) in runs.iter().zip(&mut times) {
            let start = Instant::now();
            Command::new(&run.program)
                .args(&run.arguments)
                .envs(run.surroundings.iter().map(|(name, value)| (name, value)))
                .stdout(Stdio::null())
                .stderr(Stdio::null())
                .status()
                .map_err(|error| io::Error::other(format!("{}: {error}", run.program.display())))?;
            times.push(start.elapsed());
        }
    }
    Ok(times.into_iter().map(|times| median(times.into_iter().skip(1).collect())).collect())
}

/// The middle of the times, or nothing at all of none.
pub(crate) fn median(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times.get(times.len() / 2).copied().unwrap_or_default()
}

/// Prints each run's median beside its ratio to the last one, which is the peer.
pub(crate) fn print(runs: &[Run], medians: &[Duration], rounds: usize) {
    let peer = medians.last().copied().unwrap_or_default().as_secs_f64();
    for (run, median) in runs.iter().zip(medians) {
        let median = median.as_secs_f64();
        println!("{:>24}: median {:>8.1} ms of {rounds}, {:.2} of the peer", run.name, median * 1000.0, median / peer);
    }
}
