//! `wythe test`

use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use jiff::civil::Date;
use serde::Serialize;
use wythe_eval::TestOutcome;
use wythe_findings::{Finding, FindingName, Severity};
use wythe_project::{Project, run as run_on_threads};
use wythe_render::Files as _;
use wythe_render::ci::{Case, Failure, Suite, junit};
use wythe_render::terminal::{Sheets, Style, clean, write_finding};
use wythe_source::{FileId, LineTable};

use crate::args::When;
use crate::exit::Exit;
use crate::output::{complain, out, style};
use crate::replace::put;
use crate::repository::{Opened, open};

/// Run the `test` blocks of the plans.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe test\n  wythe test houses --filter \"unit 4\"\n  wythe test --list\n  wythe test --format junit > tests.xml"
)]
pub(crate) struct Test {
    /// Whose tests to run.
    #[arg(default_value = ".", value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Run only tests with this text in their title.
    #[arg(long, value_name = "TEXT", default_value = "", hide_default_value = true)]
    pub filter: String,
    /// Name the tests, and do not say how they went.
    #[arg(long)]
    pub list: bool,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TestFormat,
    /// Write into this file, as a whole or not at all, and not on standard output.
    #[arg(long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// The day on which waivers and prices are judged, over the manifest's.
    #[arg(long, value_name = "DATE")]
    pub today: Option<Date>,
}

/// The form of the output.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum TestFormat {
    /// For people.
    #[default]
    Text,
    /// JUnit XML, for test reporters.
    Junit,
    /// For programs.
    Json,
}

/// One test and how it went.
struct Outcome<'a> {
    repository: &'a Opened,
    file: FileId,
    test: &'a TestOutcome,
}

#[derive(Serialize)]
struct Written {
    form: u32,
    version: &'static str,
    tests: Vec<WrittenTest>,
    passed: usize,
    failed: usize,
}

#[derive(Serialize)]
struct WrittenTest {
    file: String,
    line: u32,
    title: String,
    met: usize,
    failures: Vec<WrittenFailure>,
}

#[derive(Serialize)]
struct WrittenFailure {
    line: u32,
    message: String,
}

pub(crate) fn run(args: &Test, color: When) -> io::Result<Exit> {
    let (mut opened, reached_all) = run_on_threads(0, || open(&args.paths, Path::new("")))?;
    let mut worst = if reached_all { Exit::Clean } else { Exit::Unusable };
    for repository in &mut opened {
        if let Some(today) = args.today {
            repository.project.set_today(today);
        }
        let project = &mut repository.project;
        run_on_threads(0, || drop(project.check_affected()));
        worst = worst.max(unclear(repository));
    }
    let all = opened.iter().flat_map(outcomes);
    let chosen: Vec<Outcome<'_>> = all.filter(|o| o.test.title.contains(&args.filter)).collect();
    if chosen.is_empty() && !args.filter.is_empty() {
        complain(&format_args!("no test has `{}` in its title", args.filter));
        return Ok(Exit::Unusable);
    }
    let failed = chosen.iter().filter(|o| !o.test.failures.is_empty()).count();
    let style = if args.output.is_some() { Style { color: false, ..style(color) } } else { style(color) };
    let mut out = Vec::new();
    match args.format {
        _ if args.list => {
            for one in &chosen {
                writeln!(out, "{}: {}", clean(&one.repository.name(one.file)), clean(&one.test.title))?;
            }
        }
        TestFormat::Text => {
            for one in chosen.iter().filter(|o| !o.test.failures.is_empty()) {
                writeln!(out, "{}: {}", clean(&one.repository.name(one.file)), clean(&one.test.title))?;
                let mut sheets = Sheets::new(one.repository);
                for failure in &one.test.failures {
                    write_finding(failure, &mut sheets, style, &mut out)?;
                }
            }
            let tests = if chosen.len() == 1 { "test" } else { "tests" };
            match failed {
                0 => writeln!(out, "{} {tests} passed", chosen.len())?,
                _ => writeln!(out, "{failed} of {} {tests} failed", chosen.len())?,
            }
        }
        TestFormat::Junit => out.write_all(junit("wythe test", &suites(&chosen))?.as_bytes())?,
        TestFormat::Json => {
            let tests = chosen.iter().map(written).collect();
            let document =
                Written { form: 1, version: env!("CARGO_PKG_VERSION"), tests, passed: chosen.len() - failed, failed };
            serde_json::to_writer_pretty(&mut out, &document).map_err(io::Error::other)?;
            writeln!(out)?;
        }
    }
    deliver(&out, args.output.as_deref())?;
    if args.list {
        return Ok(worst);
    }
    Ok(worst.max(if failed > 0 { Exit::Findings } else { Exit::Clean }))
}

/// Writes the outcome into a file, or on standard output.
fn deliver(text: &[u8], file: Option<&Path>) -> io::Result<()> {
    if let Some(path) = file {
        return put(path, text);
    }
    let mut out = out();
    out.write_all(text)?;
    out.flush()
}

/// The tests of the files asked for, in order of name and place.
fn outcomes(repository: &Opened) -> Vec<Outcome<'_>> {
    let project = &repository.project;
    let mut files: Vec<FileId> = project.roots().collect();
    files.sort_by_cached_key(|file| repository.name(*file));
    let tests = |file| project.judgement(file).into_iter().flat_map(|judgement| &judgement.tests);
    files.into_iter().flat_map(|file| tests(file).map(move |test| Outcome { repository, file, test })).collect()
}

/// Says of which files nobody can be sure what they say, so that their tests are worth nothing.
fn unclear(repository: &Opened) -> Exit {
    let project: &Project = &repository.project;
    let mut worst = Exit::Clean;
    for file in project.roots() {
        let findings: Vec<Finding> = project.findings_in(file).into_iter().filter(in_doubt).collect();
        if !findings.is_empty() {
            let name = repository.name(file);
            complain(&format_args!("{name}: {} errors; `wythe check` shows them", findings.len()));
            worst = worst.max(Exit::of(&findings, false));
        }
    }
    worst
}

fn in_doubt(finding: &Finding) -> bool {
    let area = match &finding.name {
        FindingName::Code(code) => code.page().area,
        FindingName::Rule(_) => "",
    };
    finding.severity == Severity::Error && ["syntax", "names", "types", "project"].contains(&area)
}

fn suites(chosen: &[Outcome<'_>]) -> Vec<Suite> {
    let mut suites: Vec<Suite> = Vec::new();
    for one in chosen {
        let name = one.repository.name(one.file);
        let failures = one.test.failures.iter().map(|failure| Failure {
            kind: failure.name.as_str().to_owned(),
            message: failure.title.clone(),
            text: format!("{name}:{}: {}", line(one.repository, failure), failure.title),
        });
        let case = Case { name: one.test.title.clone(), failures: failures.collect() };
        match suites.last_mut() {
            Some(suite) if suite.name == name => suite.cases.push(case),
            _ => suites.push(Suite { name, cases: vec![case] }),
        }
    }
    suites
}

fn written(one: &Outcome<'_>) -> WrittenTest {
    let text = one.repository.text(one.file);
    let failures = one.test.failures.iter();
    WrittenTest {
        file: one.repository.name(one.file),
        line: LineTable::new(text).line_of(one.test.span.start) + 1,
        title: one.test.title.clone(),
        met: one.test.met,
        failures: failures
            .map(|f| WrittenFailure { line: line(one.repository, f), message: f.title.clone() })
            .collect(),
    }
}

fn line(repository: &Opened, finding: &Finding) -> u32 {
    let span = finding.primary.span;
    LineTable::new(repository.text(span.file)).line_of(span.start) + 1
}
