//! `wythe check`

use std::io::{self, Write as _};

use wythe_findings::Finding;
use wythe_project::run as run_on_threads;
use wythe_render::json::Findings;
use wythe_render::terminal::{Counts, Sheets, summary, write_finding};

use crate::args::{Check, Format, When};
use crate::exit::Exit;
use crate::output::{out, style};
use crate::repository::{Opened, open};

pub(crate) fn run(args: &Check, color: When) -> io::Result<Exit> {
    let (mut opened, reached_all) = run_on_threads(args.threads, || open(&args.paths, &args.name))?;
    let mut found: Vec<Vec<Finding>> = Vec::new();
    for repository in &mut opened {
        if let Some(today) = args.today {
            repository.project.set_today(today);
        }
        let project = &mut repository.project;
        found.push(run_on_threads(args.threads, || {
            project.check_affected();
            project.findings()
        }));
    }
    match args.format {
        Format::Text => write_text(args, color, &opened, &found)?,
        Format::Json => write_json(&opened, &found)?,
    }
    let worst = found.iter().map(|findings| Exit::of(findings, args.warnings_as_errors)).max();
    let unreached = if reached_all { Exit::Clean } else { Exit::Unusable };
    Ok(worst.unwrap_or(Exit::Clean).max(unreached))
}

fn write_text(args: &Check, color: When, opened: &[Opened], found: &[Vec<Finding>]) -> io::Result<()> {
    let mut out = out();
    let mut left = args.limit;
    for (repository, findings) in opened.iter().zip(found) {
        let mut sheets = Sheets::new(repository);
        for finding in findings.iter().take(left) {
            write_finding(finding, &mut sheets, style(color), &mut out)?;
        }
        left = left.saturating_sub(findings.len());
    }
    let counts = Counts::of(found.iter().flatten());
    let files = opened.iter().map(|repository| repository.project.roots().count()).sum();
    if counts.total() > args.limit {
        writeln!(out, "{} more are not drawn; --limit draws more", counts.total() - args.limit)?;
    }
    let line = summary(counts, files);
    if !line.is_empty() {
        writeln!(out, "{line}")?;
    }
    out.flush()
}

fn write_json(opened: &[Opened], found: &[Vec<Finding>]) -> io::Result<()> {
    let mut document = Findings::default();
    for (repository, findings) in opened.iter().zip(found) {
        document.add(findings, repository, repository.project.roots().count());
    }
    let mut out = out();
    out.write_all(document.document(env!("CARGO_PKG_VERSION")).map_err(io::Error::other)?.as_bytes())?;
    out.flush()
}
