//! `wythe doctor`

use std::io::{self, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use wythe_project::MANIFEST_NAME;
use wythe_render::Files as _;
use wythe_render::terminal::clean;

use crate::exit::Exit;
use crate::output::out;
use crate::repository::{Opened, open};

/// The surroundings that change what the command does.
const SURROUNDINGS: [&str; 4] = ["NO_COLOR", "GITHUB_ACTIONS", "WYTHE_BACKTRACE", "RAYON_NUM_THREADS"];

/// Say what a report of a fault needs: version, machine, surroundings, and how the repository at hand is read.
///
/// Nothing of what the plans say is shown.
#[derive(clap::Args, Debug)]
#[command(after_help = "Examples:\n  wythe doctor\n  wythe doctor plans > report.txt")]
pub(crate) struct Doctor {
    /// The repository.
    #[arg(default_value = ".", value_name = "PATH")]
    pub path: PathBuf,
}

pub(crate) fn run(args: &Doctor) -> io::Result<Exit> {
    let mut out = out();
    writeln!(out, "wythe {}, {} {}", env!("CARGO_PKG_VERSION"), std::env::consts::OS, std::env::consts::ARCH)?;
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    writeln!(out, "threads: {threads}")?;
    let kind = |is: bool| if is { "a terminal" } else { "no terminal" };
    writeln!(out, "input: {}, output: {}", kind(io::stdin().is_terminal()), kind(io::stdout().is_terminal()))?;
    for name in SURROUNDINGS {
        let value = std::env::var_os(name).map_or("not set".to_owned(), |value| value.to_string_lossy().into_owned());
        writeln!(out, "{name}: {}", clean(&value))?;
    }
    writeln!(out, "git: {}", git())?;
    let (mut opened, reached_all) = open(std::slice::from_ref(&args.path), Path::new(""))?;
    for repository in &mut opened {
        tell(repository, &mut out)?;
    }
    out.flush()?;
    Ok(if reached_all { Exit::Clean } else { Exit::Unusable })
}

fn git() -> String {
    let done = Command::new("git").arg("--version").stdin(Stdio::null()).stderr(Stdio::null()).output();
    match done {
        Ok(done) if done.status.success() => clean(String::from_utf8_lossy(&done.stdout).trim()).into_owned(),
        _ => "not found; --changed and --git need it".into(),
    }
}

fn tell(repository: &mut Opened, out: &mut dyn io::Write) -> io::Result<()> {
    let root = repository.disk.root().to_path_buf();
    writeln!(out, "repository: {}", clean(&root.to_string_lossy()))?;
    let manifest = if root.join(MANIFEST_NAME).is_file() { "there" } else { "none, so all is as usual" };
    let faults = repository.project.manifest_faults().len();
    writeln!(out, "  manifest: {manifest}, {faults} faults")?;
    writeln!(out, "  edition: {}", repository.project.manifest().edition)?;
    let files: Vec<_> = repository.project.roots().collect();
    let sizes = files
        .iter()
        .filter_map(|file| repository.project.entry(*file))
        .map(|entry| std::fs::metadata(entry.path.under(&root)).map_or(0, |about| about.len()));
    let bytes: u64 = sizes.sum();
    writeln!(out, "  files: {}, {bytes} bytes", files.len())?;
    for library in &repository.project.manifest().packages {
        writeln!(out, "  library: {}", library.name)?;
    }
    repository.project.check_affected();
    let counts = wythe_render::terminal::Counts::of(&repository.project.findings());
    let (errors, warnings, remarks) = (counts.errors, counts.warnings, counts.information);
    writeln!(out, "  findings: {errors} errors, {warnings} warnings, {remarks} remarks")?;
    let broken = repository.project.findings().into_iter().filter(|f| f.name.as_str() == "internal_error");
    for fault in broken {
        let name = repository.name(fault.primary.span.file);
        writeln!(out, "  broke down on {}: {}", clean(&name), clean(&fault.primary.text))?;
    }
    Ok(())
}
