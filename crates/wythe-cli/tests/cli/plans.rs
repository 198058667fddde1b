//! A scratch plans repository, and the command run in it.

use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use tempfile::TempDir;

/// A scratch folder with plans in it.
pub struct Plans {
    place: TempDir,
}

/// How the command ended.
#[derive(Debug)]
pub struct Run {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Run {
    /// All of it in one text, for a snapshot.
    pub fn shown(&self) -> String {
        format!("exit {}\n--- out\n{}--- err\n{}", self.code, self.out, self.err)
    }
}

/// The command, free of the surroundings the tests run in.
pub fn command(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_wythe"));
    command.args(arguments).env("WYTHE_CACHE", "");
    for name in ["NO_COLOR", "WYTHE_BACKTRACE", "GITHUB_ACTIONS"] {
        command.env_remove(name);
    }
    command
}

impl Plans {
    /// A repository of these files, by path and text.
    pub fn new(files: &[(&str, &str)]) -> Self {
        let plans = Plans { place: tempfile::tempdir().unwrap() };
        plans.write("wythe.toml", "edition = 2026\n");
        for (path, text) in files {
            plans.write(path, text);
        }
        plans
    }

    /// An empty folder.
    pub fn bare() -> Self {
        let plans = Plans { place: tempfile::tempdir().unwrap() };
        fs::create_dir(plans.root()).unwrap();
        plans
    }

    pub fn root(&self) -> PathBuf {
        self.place.path().join("plans")
    }

    pub fn path(&self, path: &str) -> PathBuf {
        self.root().join(path)
    }

    pub fn write(&self, path: &str, text: impl AsRef<[u8]>) {
        let path = self.path(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    pub fn read(&self, path: &str) -> String {
        fs::read_to_string(self.path(path)).unwrap()
    }

    /// Runs the command in the repository's folder.
    pub fn run(&self, arguments: &[&str]) -> Run {
        self.run_in(&self.root(), arguments, b"")
    }

    /// Runs the command in a folder, with a text on its standard input.
    pub fn run_in(&self, folder: &Path, arguments: &[&str], input: &[u8]) -> Run {
        let mut command = command(arguments);
        command.current_dir(folder).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        let mut stdin = child.stdin.take().unwrap();
        let input = input.to_vec();
        // Written beside the run, since the command may write before it has read all; it may also not read at all.
        let writer = std::thread::spawn(move || drop(stdin.write_all(&input)));
        let output = child.wait_with_output().unwrap();
        writer.join().unwrap();
        Run {
            code: output.status.code().unwrap_or(-1),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }
}
