//! `wythe check`

use std::io::{self, Write as _};

use wythe_findings::Finding;
use wythe_project::run as run_on_threads;
use wythe_render::Files as _;
use wythe_render::terminal::Style;

use crate::args::{Check, When};
use crate::baseline::{Held, WithBaseline, today};
use crate::cache::{Answer, Question};
use crate::changed::touched;
use crate::exit::Exit;
use crate::output::{complain, out, style};
use crate::report::{Drawn, Part, report};
use crate::repository::{Opened, find, open_found};

pub(crate) fn run(args: &Check, color: When) -> io::Result<Exit> {
    let found = find(&args.paths);
    let style = style(color);
    // What a baseline and a revision say is not among the files that are read for an answer.
    let question = found.on_disk().filter(|_| !args.no_cache && args.baseline.is_none() && args.changed.is_none());
    let question = question.and_then(|asked| {
        let words = (args.format, args.today, args.warnings_as_errors, args.remarks, args.limit, style);
        Question::new(&words, asked)
    });
    let kept = question.as_ref().and_then(|question| run_on_threads(args.threads, || question.answer()));
    let answer = match kept {
        Some(answer) => answer,
        None => {
            let reached_all = found.reached_all;
            let mut opened = run_on_threads(args.threads, || open_found(found, &args.name))?;
            let Some(mut answer) = work_out(args, style, &mut opened)? else { return Ok(Exit::Unusable) };
            answer.exit = answer.exit.max(if reached_all { Exit::Clean } else { Exit::Unusable });
            if let Some(question) = question {
                question.keep(&answer, &opened);
            }
            answer
        }
    };
    let mut out = out();
    out.write_all(&answer.out)?;
    out.flush()?;
    Ok(answer.exit)
}

/// Checks what was opened; nothing where the arguments do not go together, which has been said.
fn work_out(args: &Check, style: Style, opened: &mut [Opened]) -> io::Result<Option<Answer>> {
    let held = match &args.baseline {
        None => None,
        Some(path) => match Held::read(path)? {
            Some(_) if opened.len() > 1 => {
                complain(&"a baseline belongs to one repository");
                return Ok(None);
            }
            Some(held) => Some(held),
            None => {
                complain(&format_args!("{}: no such file", path.display()));
                return Ok(None);
            }
        },
    };
    let mut found: Vec<Vec<Finding>> = Vec::new();
    for repository in &mut *opened {
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
    let mut out = Vec::new();
    let drawn = Drawn { limit: args.limit, remarks: args.remarks };
    report(&parts, args.format, drawn, style, &mut out)?;
    Ok(Some(Answer { exit: worst.unwrap_or(Exit::Clean), out }))
}

/// The names of the files asked for.
pub(crate) fn checked(opened: &Opened) -> Vec<String> {
    let mut names: Vec<String> = opened.project.roots().map(|file| opened.name(file)).collect();
    names.sort();
    names
}
