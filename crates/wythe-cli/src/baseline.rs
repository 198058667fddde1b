//! `wythe baseline`, and the baseline a check is held to.

use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use jiff::civil::Date;
use wythe_findings::Finding;
use wythe_project::{Baseline, Grant, Manifest, SourcePath, run as run_on_threads};
use wythe_render::Files;
use wythe_source::FileId;

use crate::exit::Exit;
use crate::output::{complain, out};
use crate::replace::put;
use crate::repository::{Opened, open};

/// The most bytes of a baseline that are read.
const MOST_BYTES: u64 = 16 << 20;

/// Write down the findings that stand, so that only new ones fail a check.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe baseline --write --because \"before our time\" --who \"site lead\" --until 2026-12-31\n  wythe baseline --prune\n  wythe check --baseline baseline.toml"
)]
pub(crate) struct BaselineOf {
    /// The repository.
    #[arg(default_value = ".", value_name = "PATH")]
    pub path: PathBuf,
    /// The file of the baseline.
    #[arg(long, value_name = "FILE", default_value = "baseline.toml")]
    pub file: PathBuf,
    /// Write every finding that stands; what the file says of those it holds is kept.
    #[arg(long, required_unless_present = "prune", conflicts_with = "prune")]
    pub write: bool,
    /// Take out what no longer stands, and add nothing.
    #[arg(long)]
    pub prune: bool,
    /// Why the new entries are let stand.
    #[arg(long, value_name = "TEXT", default_value = "", hide_default_value = true, requires = "write")]
    pub because: String,
    /// Who agreed to the new entries.
    #[arg(long, value_name = "NAME", default_value = "", hide_default_value = true, requires = "write")]
    pub who: String,
    /// The last day the new entries hold.
    #[arg(long, value_name = "DATE", requires = "write")]
    pub until: Option<Date>,
}

pub(crate) fn run(args: &BaselineOf) -> io::Result<Exit> {
    let (mut opened, reached_all) = run_on_threads(0, || open(std::slice::from_ref(&args.path), Path::new("")))?;
    let [repository] = opened.as_mut_slice() else {
        if reached_all {
            complain(&"a baseline belongs to one repository");
        }
        return Ok(Exit::Unusable);
    };
    let project = &mut repository.project;
    let findings = run_on_threads(0, || {
        project.check_affected();
        project.findings()
    });
    let old = match Held::read(&args.file)? {
        None => Baseline::default(),
        Some(held) => match held.baseline {
            Ok(baseline) => baseline,
            Err(fault) => {
                complain(&format_args!("{}: {}", held.name, fault.primary.text));
                return Ok(Exit::Unusable);
            }
        },
    };
    let name_of = |file| repository.project.name(file);
    let grant = Grant { because: args.because.clone(), who: args.who.clone(), until: args.until };
    let new = if args.write { old.rewritten(&findings, name_of, &grant) } else { old.pruned(&findings, name_of) };
    put(&args.file, &new.text())?;
    let count = |baseline: &Baseline| baseline.entries().map(|(_, entry)| entry.count).sum::<usize>();
    let mut out = out();
    writeln!(out, "{} findings held, {} before", count(&new), count(&old))?;
    out.flush()?;
    let grave =
        findings.iter().filter(|f| !Baseline::takes(f) && f.severity == wythe_findings::Severity::Error).count();
    if grave > 0 && args.write {
        complain(&format_args!("{grave} errors leave the meaning of a file in doubt and cannot be held"));
        return Ok(Exit::Findings);
    }
    Ok(Exit::Clean)
}

/// The baseline a check is held to.
pub(crate) struct Held {
    name: String,
    text: String,
    baseline: Result<Baseline, Box<Finding>>,
}

impl Held {
    /// Reads a baseline; `None` where there is no such file.
    pub(crate) fn read(path: &Path) -> io::Result<Option<Held>> {
        use io::Read as _;
        let name = path.display().to_string();
        let told = |error: io::Error| io::Error::new(error.kind(), format!("{}: {error}", path.display()));
        let file = match fs::File::open(path) {
            Ok(file) => file,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(told(error)),
        };
        let mut text = String::new();
        file.take(MOST_BYTES + 1).read_to_string(&mut text).map_err(told)?;
        if text.len() as u64 > MOST_BYTES {
            return Err(io::Error::other(format!("{name}: it is too large")));
        }
        let baseline = Baseline::read(&text);
        Ok(Some(Held { name, text, baseline }))
    }

    /// The findings it does not hold, and what is wrong with it.
    pub(crate) fn apply(&self, mut findings: Vec<Finding>, repository: &Opened, today: Option<Date>) -> Vec<Finding> {
        let project = &repository.project;
        match &self.baseline {
            Err(fault) => {
                findings.push((**fault).clone());
                findings
            }
            Ok(baseline) => {
                let checked = |name: &str| {
                    let path = SourcePath::resolve(&SourcePath::root(), name);
                    let asked = |path: &SourcePath| project.find(path).is_some_and(|f| project.roots().any(|r| r == f));
                    // A file that is gone has nothing left to find.
                    path.is_none_or(|path| asked(&path) || !path.under(repository.disk.root()).exists())
                };
                baseline.apply(findings, |file| project.name(file), checked, today)
            }
        }
    }
}

/// The files of a repository and the baseline it is held to.
pub(crate) struct WithBaseline<'a> {
    pub opened: &'a Opened,
    pub held: Option<&'a Held>,
}

impl Files for WithBaseline<'_> {
    fn name(&self, file: FileId) -> String {
        match self.held {
            Some(held) if file == Baseline::FILE => held.name.clone(),
            _ => self.opened.name(file),
        }
    }

    fn text(&self, file: FileId) -> &str {
        match self.held {
            Some(held) if file == Baseline::FILE => &held.text,
            _ => self.opened.text(file),
        }
    }
}

/// The day a repository is judged on.
pub(crate) fn today(given: Option<Date>, manifest: &Manifest) -> Option<Date> {
    given.or(manifest.today)
}
