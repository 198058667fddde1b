//! What every real client needs: the command, a copy of the plans, and a way to be run with a limit of time.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// How long an editor may take.
const LIMIT: Duration = Duration::from_secs(120);

/// The root of the workspace.
pub fn root() -> PathBuf {
    fs::canonicalize(Path::new(env!("CARGO_MANIFEST_DIR")).join("..")).unwrap()
}

/// The `wythe` command, built beside this test.
pub fn wythe() -> PathBuf {
    if let Some(told) = std::env::var_os("WYTHE_COMMAND") {
        return told.into();
    }
    let test = std::env::current_exe().unwrap();
    let folder = test.ancestors().find(|a| a.file_name().is_some_and(|n| n == "deps")).unwrap().parent().unwrap();
    let command = folder.join(if cfg!(windows) { "wythe.exe" } else { "wythe" });
    if !command.is_file() {
        let profile: &[&str] = if folder.ends_with("release") { &["--release"] } else { &[] };
        let built = Command::new(env!("CARGO")).args(["build", "-p", "wythe"]).args(profile).status().unwrap();
        assert!(built.success(), "the command can be built");
    }
    command
}

/// Whether a program is there. In continuous integration it must be.
pub fn is_there(program: &str) -> bool {
    let there = Command::new(program).arg("--version").stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok();
    assert!(there || std::env::var_os("CI").is_none(), "{program} is not installed; .ci/run installs it");
    if !there {
        println!("{program} is not installed: nothing is tested with it");
    }
    there
}

/// A copy of the plans of Cedar Row.
pub fn plans(into: &Path) -> PathBuf {
    let to = into.join("cedar_row");
    copy(&root().join("examples/cedar_row"), &to);
    to
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let (from, to) = (entry.path(), to.join(entry.file_name()));
        if from.is_dir() {
            copy(&from, &to);
        } else {
            fs::copy(from, to).unwrap();
        }
    }
}

/// A folder of its own for one test, taken away at the end.
pub struct Folder(PathBuf);

impl Folder {
    pub fn new(name: &str) -> Folder {
        let folder = std::env::temp_dir().join(format!("wythe_{name}_{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        Folder(folder)
    }

    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// Runs an editor to its end.
pub fn run(command: &mut Command) -> Output {
    let mut child = command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let begun = Instant::now();
    while child.try_wait().unwrap().is_none() {
        if begun.elapsed() > LIMIT {
            child.kill().unwrap();
            let out = child.wait_with_output().unwrap();
            panic!("the editor does not end: {}", String::from_utf8_lossy(&out.stderr));
        }
        sleep(Duration::from_millis(20));
    }
    child.wait_with_output().unwrap()
}
