//! `wythe check`

use std::io::{self, Write as _};

use wythe_findings::Finding;
use wythe_project::run as run_on_threads;
use wythe_render::Files as _;

use crate::args::{Check, When};
use crate::baseline::{Held, WithBaseline, today};
use crate::changed::touched;
use crate::exit::Exit;
use crate::output::{complain, out, style};
use crate::report::{Drawn, Part, report};
use crate::repository::{Opened, open};

pub(crate) fn run(args: &Check, color: When) -> io::Result<Exit> {
    let (mut opened, reached_all) = run_on_threads(args.threads, || open(&args.paths, &args.name))?;
    let held = match &args.baseline {
        None => None,
        Some(path) => match Held::read(path)? {
            Some(_) if opened.len() > 1 => {
                complain(&"a baseline belongs to one repository");
                return Ok(Exit::Unusable);
            }
            Some(held) => Some(held),
            None => {
                complain(&format_args!("{}: no such file", path.display()));
                return Ok(Exit::Unusable);
            }
        },
    };
    let mut found: Vec<Vec<Finding>> = Vec::new();
    for repository in &mut opened {
        if let Some(today) = args.today {
            repository.project.set_today(today);
        }
        let project = &mut repository.project;
        let mut findings = run_on_threads(args.threads, || {
            // Who asks for changed files needs the whole graph; else what nobody uses is let go in its turn.
            if args.changed.is_none() {
                return project.check_in_turn();
            }
            project.check_affected();
            project.findings()
        });
        if let Some(revision) = &args.changed {
            findings = touched(findings, repository, revision)?;
        }
        if let Some(held) = &held {
            findings = held.apply(findings, repository, today(args.today, repository.project.manifest()));
        }
        found.push(findings);
    }
    let worst = found.iter().map(|findings| Exit::of(findings, args.warnings_as_errors)).max();
    let files: Vec<WithBaseline<'_>> =
        opened.iter().map(|opened| WithBaseline { opened, held: held.as_ref() }).collect();
    let parts: Vec<Part<'_>> = found
        .into_iter()
        .zip(&files)
        .map(|(findings, files)| Part { findings, files, checked: checked(files.opened) })
        .collect();
    let mut out = out();
    let drawn = Drawn { limit: args.limit, remarks: args.remarks };
    report(&parts, args.format, drawn, style(color), &mut out)?;
    out.flush()?;
    let unreached = if reached_all { Exit::Clean } else { Exit::Unusable };
    Ok(worst.unwrap_or(Exit::Clean).max(unreached))
}

/// The names of the files asked for.
pub(crate) fn checked(opened: &Opened) -> Vec<String> {
    let mut names: Vec<String> = opened.project.roots().map(|file| opened.name(file)).collect();
    names.sort();
    names
}
