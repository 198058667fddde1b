//! Ratios in one run: `bench FOLDER RUFF` writes 1,000 generated houses and Python of the same byte count into FOLDER,
//! and runs the core of a check, the whole check and the public linter RUFF over them, in turn.
//!
//! Build with `cargo build --profile dist -p wythe -p wythe-tests`, and run from the folder of that build.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use std::{env, fs, io};

use wythe_tests::houses;

const HOUSES: u64 = 1000;
const RUNS: usize = 9;

fn main() -> io::Result<()> {
    let mut args = env::args().skip(1);
    let (Some(folder), Some(ruff)) = (args.next(), args.next()) else {
        return Err(io::Error::other("usage: bench FOLDER RUFF"));
    };
    let own = env::current_exe()?.parent().map(Path::to_path_buf).unwrap_or_default();
    let (plans, python) = (Path::new(&folder).join("plans"), Path::new(&folder).join("python"));
    let bytes = write_plans(&plans)?;
    write_python(&python, bytes)?;
    let version = Command::new(&ruff).arg("--version").output()?;
    println!("{HOUSES} houses, {bytes} bytes; peer: {}", String::from_utf8_lossy(&version.stdout).trim());
    let stage = |name: &'static str| (name, command(own.join("core_check"), &[&plans], &[name]));
    let runs = [
        stage("bytes"),
        stage("parse"),
        stage("types"),
        stage("layers"),
        ("whole check", command(own.join("wythe"), &[Path::new("check"), &plans], &[])),
        (
            "peer",
            command(PathBuf::from(&ruff), &[Path::new("check"), &python], &["--no-cache", "--isolated", "--quiet"]),
        ),
    ];
    let mut times: Vec<Vec<Duration>> = vec![Vec::new(); runs.len()];
    for _ in 0..=RUNS {
        for ((_, (program, arguments)), times) in runs.iter().zip(&mut times) {
            let start = Instant::now();
            Command::new(program).args(arguments).stdout(Stdio::null()).stderr(Stdio::null()).status()?;
            times.push(start.elapsed());
        }
    }
    let medians: Vec<f64> = times
        .iter_mut()
        .map(|times| {
            // The first round warms up.
            times.remove(0);
            times.sort();
            times[times.len() / 2].as_secs_f64()
        })
        .collect();
    let peer = medians.last().copied().unwrap_or(f64::NAN);
    for ((name, _), median) in runs.iter().zip(&medians) {
        println!("{name:>12}: median {:>7.1} ms of {RUNS}, {:.2} of the peer", median * 1000.0, median / peer);
    }
    Ok(())
}

type Run = (PathBuf, Vec<PathBuf>);

fn command(program: PathBuf, paths: &[&Path], words: &[&str]) -> Run {
    (program, paths.iter().map(|p| p.to_path_buf()).chain(words.iter().map(PathBuf::from)).collect())
}

fn write(root: &Path, path: &str, text: &str) -> io::Result<usize> {
    let path = root.join(path);
    fs::create_dir_all(path.parent().unwrap_or(root))?;
    fs::write(path, text)?;
    Ok(text.len())
}

fn write_plans(root: &Path) -> io::Result<usize> {
    write(root, "wythe.toml", "currency = \"USD\"\nunits = \"us\"\n")?;
    let mut bytes = 0;
    for (path, text) in houses::LIBRARY {
        bytes += write(root, path, text)?;
    }
    for number in 0..HOUSES {
        bytes += write(root, &houses::house_path(number), &houses::house(number))?;
    }
    Ok(bytes)
}

/// As many files of Python, each of the same share of the bytes: plain functions with nothing to report.
fn write_python(root: &Path, bytes: usize) -> io::Result<()> {
    let share = bytes / HOUSES as usize;
    for file in 0..HOUSES {
        let mut text = "\"\"\"Generated module.\"\"\"\n".to_owned();
        for number in 0.. {
            if text.len() >= share {
                break;
            }
            text.push_str(&format!(
                "\n\ndef area_{number}(length: float, height: float, openings: list[float]) -> float:\n    \"\"\"Net area of wall {number}, openings deducted.\"\"\"\n    total = length * height\n    for opening in openings:\n        if opening > {file}:\n            total -= opening\n    return round(total, 2)\n"
            ));
        }
        write(root, &format!("module_{file}.py"), &text)?;
    }
    Ok(())
}
