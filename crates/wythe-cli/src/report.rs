//! The findings of a check in the form asked for.

use std::io::{self, Write};

use clap::ValueEnum;
use wythe_findings::{Finding, Severity};
use wythe_render::Files;
use wythe_render::ci::{self, Checked};
use wythe_render::json::Findings;
use wythe_render::terminal::{Counts, Sheets, Style, summary, write_finding};

const VERSION: &str = env!("CARGO_PKG_VERSION");

/// The form of the findings.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum ReportFormat {
    /// For people.
    #[default]
    Text,
    /// For programs.
    Json,
    /// For programs that read while it is written: a finding a line.
    JsonLines,
    /// SARIF 2.1.0, for code scanning.
    Sarif,
    /// JUnit XML, for test reporters.
    Junit,
    /// Annotations of GitHub workflows.
    Github,
    /// A code quality report of GitLab.
    Gitlab,
    /// Review comments by reviewdog.
    Rdjson,
}

impl ReportFormat {
    /// The form that fits where the command runs: a workflow of GitHub shows annotations.
    pub(crate) fn of_surroundings() -> ReportFormat {
        let in_workflow = std::env::var_os("GITHUB_ACTIONS").is_some_and(|value| value == "true");
        if in_workflow { ReportFormat::Github } else { ReportFormat::Text }
    }
}

/// What was found in one repository.
pub(crate) struct Part<'a> {
    pub findings: Vec<Finding>,
    pub files: &'a dyn Files,
    /// The names of the files checked.
    pub checked: Vec<String>,
}

/// How much of the findings people are shown; programs are given all.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Drawn {
    /// No more than this many.
    pub limit: usize,
    /// Remarks too, which else are only counted.
    pub remarks: bool,
}

/// Writes the findings.
pub(crate) fn report(
    parts: &[Part<'_>],
    format: ReportFormat,
    drawn: Drawn,
    style: Style,
    out: &mut dyn Write,
) -> io::Result<()> {
    let checked: Vec<Checked<'_>> =
        parts.iter().map(|p| Checked { findings: &p.findings, files: p.files, checked: &p.checked }).collect();
    let text = match format {
        ReportFormat::Text => return text(parts, drawn, style, out),
        ReportFormat::Github => return ci::github(&checked, out),
        ReportFormat::Json | ReportFormat::JsonLines => {
            let mut document = Findings::default();
            for part in parts {
                document.add(&part.findings, part.files, part.checked.len());
            }
            match format {
                ReportFormat::JsonLines => document.lines(),
                _ => document.document(VERSION),
            }
            .map_err(io::Error::other)?
        }
        ReportFormat::Sarif => ci::sarif(&checked, VERSION).map_err(io::Error::other)?,
        ReportFormat::Junit => ci::junit("wythe check", &ci::suites_of(&checked))?,
        ReportFormat::Gitlab => ci::gitlab(&checked).map_err(io::Error::other)?,
        ReportFormat::Rdjson => ci::rdjson(&checked).map_err(io::Error::other)?,
    };
    out.write_all(text.as_bytes())
}

fn text(parts: &[Part<'_>], drawn: Drawn, style: Style, out: &mut dyn Write) -> io::Result<()> {
    let mut left = drawn.limit;
    for part in parts {
        let mut sheets = Sheets::new(part.files);
        let shown = part.findings.iter().filter(|f| drawn.remarks || f.severity > Severity::Information);
        for finding in shown.take(left) {
            write_finding(finding, &mut sheets, style, out)?;
            left -= 1;
        }
    }
    let counts = Counts::of(parts.iter().flat_map(|part| &part.findings));
    let due = if drawn.remarks { counts.total() } else { counts.total() - counts.information };
    if due > drawn.limit {
        writeln!(out, "{} more are not drawn; --limit draws more", due - drawn.limit)?;
    }
    let line = summary(counts, parts.iter().map(|part| part.checked.len()).sum());
    if !line.is_empty() {
        let hint = if counts.information > 0 && !drawn.remarks { "; --remarks draws the remarks" } else { "" };
        writeln!(out, "{line}{hint}")?;
    }
    Ok(())
}
