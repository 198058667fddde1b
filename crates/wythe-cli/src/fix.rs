//! `wythe fix`

use std::collections::BTreeMap;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::time::Duration;

use similar::TextDiff;
use wythe_project::{Mended, Sources as _, mend, run as run_on_threads};
use wythe_render::Files as _;
use wythe_render::terminal::clean;
use wythe_source::FileId;

use crate::exit::Exit;
use crate::output::{complain, out};
use crate::replace::replace;
use crate::repository::{Opened, open};

/// How long a comparison may look for the shortest difference before it takes the next best.
const DIFF_PATIENCE: Duration = Duration::from_secs(2);

/// Mend findings by the edits they offer; shown first, and written only when asked.
///
/// An edit is made only if the finding is gone after it and no other error has come.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe fix\n  wythe fix houses/unit_4.wythe --write\n  wythe fix --unsafe --diff library"
)]
pub(crate) struct Fix {
    /// What to mend.
    #[arg(default_value = ".", value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Show what would change and write nothing, and fail if anything would; so it is unless told otherwise.
    #[arg(long, conflicts_with = "write")]
    pub diff: bool,
    /// Show what changes, and write it.
    #[arg(long)]
    pub write: bool,
    /// Make also edits that change what is built and that a person should look at.
    #[arg(long = "unsafe")]
    pub not_safe: bool,
}

pub(crate) fn run(args: &Fix) -> io::Result<Exit> {
    let (mut opened, reached_all) = run_on_threads(0, || open(&args.paths, Path::new("")))?;
    let mut worst = if reached_all { Exit::Clean } else { Exit::Unusable };
    let mut out = out();
    let (mut fixes, mut files) = (0, 0);
    for repository in &mut opened {
        let project = &mut repository.project;
        let (before, mended) = run_on_threads(0, || {
            project.check_affected();
            let before: BTreeMap<FileId, String> =
                project.roots().map(|file| (file, project.text(file).to_owned())).collect();
            (before, mend(project, args.not_safe))
        });
        fixes += mended.iter().map(|m| m.count).sum::<usize>();
        for one in &mended {
            let Some(old) = before.get(&one.file) else { continue };
            files += 1;
            worst = worst.max(settle(args, repository, one, old, &mut out)?);
        }
    }
    if fixes > 0 {
        let words = |count: usize, word: &str| format!("{count} {word}{}", if count == 1 { "" } else { "es" });
        let file = if files == 1 { "file" } else { "files" };
        let end = if args.write { "made" } else { "to make; --write makes them" };
        writeln!(out, "{} in {files} {file} {end}", words(fixes, "fix"))?;
    }
    out.flush()?;
    Ok(worst)
}

/// Shows what is mended in one file and, if asked, writes it.
fn settle(args: &Fix, repository: &Opened, one: &Mended, old: &str, out: &mut dyn io::Write) -> io::Result<Exit> {
    let name = repository.name(one.file);
    let new = repository.project.text(one.file);
    let diff = TextDiff::configure().timeout(DIFF_PATIENCE).diff_lines(old, new);
    let shown = diff.unified_diff().header(&name, &format!("{name} (mended)")).to_string();
    out.write_all(clean(&shown).as_bytes())?;
    if !args.write {
        return Ok(Exit::Findings);
    }
    let Some(entry) = repository.project.entry(one.file) else { return Ok(Exit::Clean) };
    // What somebody has written meanwhile is not lost.
    let same = repository
        .disk
        .read(&entry.path)
        .is_ok_and(|bytes| wythe_syntax::decode(one.file, &bytes).is_ok_and(|text| text == old));
    let written = if same {
        replace(&entry.path.under(repository.disk.root()), new)
    } else {
        Err(io::Error::other("it has changed meanwhile"))
    };
    if let Err(error) = written {
        complain(&format_args!("{name}: not written: {error}"));
        return Ok(Exit::Unusable);
    }
    Ok(Exit::Clean)
}
