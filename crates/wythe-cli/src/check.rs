//! `wythe check`

use std::io::{self, Write as _};

use wythe_findings::{Finding, Severity};
use wythe_project::run as run_on_threads;
use wythe_render::Files as _;
use wythe_render::terminal::Style;

use crate::args::{Check, FailOn, When};
use crate::baseline::{Held, WithBaseline, today};
use crate::cache::{Answer, Question};
use crate::changed::touched;
use crate::exit::Exit;
use crate::output::{complain, out, style};
use crate::replace::put;
use crate::report::{Drawn, Part, ReportFormat, report};
use crate::repository::{Opened, find, open_found};

pub(crate) fn run(args: &Check, color: When) -> io::Result<Exit> {
    if !args.watch {
        return once(args, color);
    }
    if args.paths.iter().any(|path| path.as_os_str() == "-") {
        complain(&"standard input cannot be watched");
        return Ok(Exit::Unusable);
    }
    crate::watch::run(args, color)
}

/// One check of everything asked for.
pub(crate) fn once(args: &Check, color: When) -> io::Result<Exit> {
    let found = find(&args.paths);
    // A file is read by other programs than the one that colors are for, and by other people than the host's.
    let (style, usual) = match args.output {
        Some(_) => (Style { color: false, ..style(color) }, ReportFormat::default()),
        None => (style(color), ReportFormat::of_surroundings()),
    };
    let form = args.format.unwrap_or(usual);
    // What a baseline and a revision say is not among the files that are read for an answer.
    let question = found.on_disk().filter(|_| !args.no_cache && args.baseline.is_none() && args.changed.is_none());
    let question = question.and_then(|asked| {
        let words = (form, args.today, args.warnings_as_errors, args.fail_on, args.remarks, args.limit, style);
        Question::new(&words, asked)
    });
    let kept = question.as_ref().and_then(|question| run_on_threads(args.threads, || question.answer()));
    let answer = match kept {
        Some(answer) => answer,
        None => {
            let reached_all = found.reached_all;
            let mut opened = run_on_threads(args.threads, || open_found(found, &args.name, question.is_some()))?;
            let Some(mut answer) = work_out(args, form, style, &mut opened)? else { return Ok(Exit::Unusable) };
            answer.exit = answer.exit.max(if reached_all { Exit::Clean } else { Exit::Unusable });
            if let Some(question) = question {
                question.keep(&answer, &opened);
            }
            answer
        }
    };
    match &args.output {
        Some(path) => put(path, &answer.out)?,
        None => {
            let mut out = out();
            out.write_all(&answer.out)?;
            out.flush()?;
        }
    }
    Ok(answer.exit)
}

/// Checks what was opened; nothing where the arguments do not go together, which has been said.
fn work_out(args: &Check, form: ReportFormat, style: Style, opened: &mut [Opened]) -> io::Result<Option<Answer>> {
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
    let least = match args.fail_on {
        FailOn::Error if !args.warnings_as_errors => Some(Severity::Error),
        FailOn::Error | FailOn::Warning => Some(Severity::Warning),
        FailOn::Information => Some(Severity::Information),
        FailOn::Never => None,
    };
    let worst = found.iter().map(|findings| Exit::from_severity(findings, least)).max();
    let files: Vec<WithBaseline<'_>> =
        opened.iter().map(|opened| WithBaseline { opened, held: held.as_ref() }).collect();
    let parts: Vec<Part<'_>> = found
        .into_iter()
        .zip(&files)
        .map(|(findings, files)| Part { findings, files, checked: checked(files.opened) })
        .collect();
    let mut out = Vec::new();
    let drawn = Drawn { limit: args.limit, remarks: args.remarks };
    report(&parts, form, drawn, style, &mut out)?;
    Ok(Some(Answer { exit: worst.unwrap_or(Exit::Clean), out }))
}

/// The names of the files asked for.
pub(crate) fn checked(opened: &Opened) -> Vec<String> {
    let mut names: Vec<String> = opened.project.roots().map(|file| opened.name(file)).collect();
    names.sort();
    names
}
