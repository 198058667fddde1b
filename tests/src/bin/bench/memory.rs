//! The most memory a program held, as the system counts it.

use std::io;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The most bytes a program held at once, by GNU `time`.
pub(crate) fn peak(program: PathBuf, arguments: &[&Path]) -> io::Result<u64> {
    let timed =
        Command::new("/usr/bin/time").arg("-f").arg("%M").arg(program).args(arguments).stdout(Stdio::null()).output();
    let told = timed.map_err(|error| io::Error::other(format!("/usr/bin/time: {error}")))?.stderr;
    let told = String::from_utf8_lossy(&told);
    let kibibytes = told.lines().last().and_then(|line| line.trim().parse::<u64>().ok());
    kibibytes.map(|k| k * 1024).ok_or_else(|| io::Error::other(format!("/usr/bin/time said: {told}")))
}
