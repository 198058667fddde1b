//! `wythe site`

use std::collections::BTreeSet;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use jiff::civil::Date;
use rayon::prelude::*;
use wythe_project::Origin;
use wythe_render::Files as _;
use wythe_report::site::{Plan, Repository, Source, pages};
use wythe_report::{key_figures, report};

use super::work::{Common, Worked};
use super::{reason, written};
use crate::bill::plans::{Houses, Plans, plans};
use crate::exit::Exit;
use crate::output::{complain, out};

/// Write a site of all houses of a repository, with search and comparison, to be opened from a disk.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe site\n  wythe site plans -o site\n  wythe site plans -o site --start 2026-03-02"
)]
pub(crate) struct Site {
    /// The repository, or a folder or file of it.
    #[arg(default_value = ".", value_name = "PATH")]
    pub repository: PathBuf,
    /// The folder to write to; it is made if it is not there.
    #[arg(long, short, value_name = "FOLDER", default_value = "site")]
    pub output: PathBuf,
    /// The first day anyone may work, for the schedules; the repository's `today` if none is named.
    #[arg(long, value_name = "DATE")]
    pub start: Option<Date>,
}

pub(crate) fn run(args: &Site) -> io::Result<Exit> {
    if !args.repository.exists() {
        complain(&format_args!("{}: no such file or folder", args.repository.display()));
        return Ok(Exit::Unusable);
    }
    let houses = Houses::of(&args.repository.to_string_lossy());
    let Some(plans) = plans(&houses)? else { return Ok(Exit::Unusable) };
    let common = Common::of(&plans, &houses, None, args.start);
    let plan = |judged| {
        let worked = Worked::of(&common, judged);
        let (report, keys) = worked.told(&common, Some("../"), |house| (report(house), key_figures(house)));
        Plan { report, keys, products: worked.products(), file: worked.file(&common) }
    };
    let repository = Repository {
        name: name(&plans),
        plans: plans.judged.par_iter().map(plan).collect(),
        sources: sources(&plans),
        made_by: format!("Wythe {}", env!("CARGO_PKG_VERSION")),
    };
    let pages = pages(&repository);
    let folders: BTreeSet<PathBuf> =
        pages.iter().filter_map(|page| args.output.join(&page.path).parent().map(Path::to_path_buf)).collect();
    for folder in folders {
        if let Err(error) = std::fs::create_dir_all(&folder) {
            complain(&format_args!("{}: not made: {}", folder.display(), reason(&error)));
            return Ok(Exit::Unusable);
        }
    }
    // The first page comes last: whoever sees it sees what it leads to.
    for page in pages.iter().rev() {
        if let Err(exit) = written(&args.output.join(&page.path), page.text.as_bytes()) {
            return Ok(exit);
        }
    }
    let mut out = out();
    let count = |n: usize, one: &str, more: &str| format!("{n} {}", if n == 1 { one } else { more });
    writeln!(
        out,
        "{}: {}, {}",
        args.output.join("index.html").display(),
        count(repository.plans.len(), "house", "houses"),
        count(pages.len(), "file", "files")
    )?;
    out.flush()?;
    Ok(Exit::Clean)
}

/// What the repository is called: the name of its folder.
fn name(plans: &Plans) -> String {
    let folder = plans.opened.disk.root().file_name();
    folder.map_or_else(|| "Plans".to_owned(), |name| name.to_string_lossy().replace('_', " "))
}

/// Every source of the repository that the houses rest on, by path.
fn sources(plans: &Plans) -> Vec<Source> {
    let project = &plans.opened.project;
    let of_repository = project.program().files().into_iter().filter_map(|file| {
        let entry = project.entry(file).filter(|e| e.origin == Origin::Repository)?;
        Some(Source { path: entry.path.to_string(), text: plans.opened.text(file).to_owned() })
    });
    let mut out: Vec<Source> = of_repository.collect();
    out.sort_by(|a, b| a.path.cmp(&b.path));
    out
}
