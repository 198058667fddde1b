//! `check`: the stages of a check of 1,000 houses beside the public linter over Python of the same byte count.

use std::io;
use std::process::Command;

use crate::plans;
use crate::timing::{self, Run};
use crate::workplace::Workplace;

const HOUSES: u64 = 1000;
const ROUNDS: usize = 9;

pub(crate) fn run(at: &Workplace) -> io::Result<()> {
    let (root, bytes) = plans::write_plans(&at.folder, HOUSES)?;
    let python = plans::write_python(&at.folder, HOUSES, bytes)?;
    let linter = at.program("ruff");
    let version = Command::new(&linter).arg("--version").output()?;
    println!("{HOUSES} houses, {bytes} bytes; peer: {}", String::from_utf8_lossy(&version.stdout).trim());
    let stage = |name: &str| Run::new(name, at.own("core_check")).arg(&root).arg(name);
    let runs = [
        stage("bytes"),
        stage("parse"),
        stage("types"),
        stage("layers"),
        Run::new("whole check", at.own("wythe")).arg("check").arg(&root).arg("--no-cache"),
        Run::new("linter", linter).arg("check").arg(python).arg("--no-cache").arg("--isolated").arg("--quiet"),
    ];
    timing::print(&runs, &timing::medians(&runs, ROUNDS)?, ROUNDS);
    Ok(())
}
