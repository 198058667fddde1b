//! Documents and findings of the bill, written in the form asked for.

use std::io::{self, Write as _};

use clap::ValueEnum;
use wythe_findings::Finding;
use wythe_render::tables::{Document, Shower};
use wythe_render::terminal::{Sheets, Style, write_finding};

use crate::args::When;
use crate::exit::Exit;
use crate::output::{WIDTH, out};
use crate::repository::Opened;

/// The form of a table.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum TableFormat {
    /// For people.
    #[default]
    Text,
    /// The first table, for a spreadsheet.
    Csv,
    /// For programs.
    Json,
    /// For a pull request.
    Markdown,
}

/// How measures and places are shown in a repository.
pub(crate) fn shower(opened: &Opened) -> Shower<'_> {
    Shower { display: &opened.project.manifest().display, files: opened }
}

/// Writes a document on standard output, and the findings where they do no harm: under the text, else on standard
/// error.
pub(crate) fn write(
    document: &Document,
    findings: &[Finding],
    opened: &Opened,
    format: TableFormat,
    color: When,
) -> io::Result<Exit> {
    let mut out = out();
    match format {
        TableFormat::Text => document.write_text(&mut out)?,
        TableFormat::Csv => document.write_csv(&mut out)?,
        TableFormat::Json => out.write_all(document.json().map_err(io::Error::other)?.as_bytes())?,
        TableFormat::Markdown => document.write_markdown(&mut out)?,
    }
    if findings.is_empty() {
        out.flush()?;
    } else if format == TableFormat::Text {
        writeln!(out)?;
        draw(findings, opened, crate::output::style(color), &mut out)?;
        out.flush()?;
    } else {
        out.flush()?;
        let mut err = io::stderr().lock();
        draw(findings, opened, Style { color: false, width: WIDTH }, &mut err)?;
    }
    Ok(Exit::of(findings, true))
}

fn draw(findings: &[Finding], opened: &Opened, style: Style, out: &mut dyn io::Write) -> io::Result<()> {
    let mut sheets = Sheets::new(opened);
    for finding in findings {
        write_finding(finding, &mut sheets, style, out)?;
    }
    Ok(())
}
