//! `wythe settings`

use std::collections::BTreeMap;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use serde::Serialize;
use wythe_findings::Severity;
use wythe_project::{LibrarySource, MANIFEST_NAME, Manifest, SeverityChoice};
use wythe_render::Files as _;
use wythe_render::terminal::clean;
use wythe_units::UnitSystem;

use crate::args::Format;
use crate::exit::Exit;
use crate::output::{complain, out};
use crate::repository::{Opened, open};

/// Show what a repository is checked by: its manifest with what is not written filled in, or its files.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe settings\n  wythe settings houses/unit_4.wythe\n  wythe settings --files\n  wythe settings --format json"
)]
pub(crate) struct Settings {
    /// A file or folder; the nearest manifest above it holds.
    #[arg(default_value = ".", value_name = "PATH")]
    pub path: PathBuf,
    /// Name the files that are checked instead.
    #[arg(long)]
    pub files: bool,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// The settings of one repository.
#[derive(Serialize)]
struct Written {
    /// The manifest's path; none where the repository has none and all is as usual.
    manifest: Option<String>,
    edition: i64,
    sources: Vec<String>,
    libraries: Vec<String>,
    codes: Vec<String>,
    currency: String,
    units: &'static str,
    today: Option<String>,
    severity: BTreeMap<String, &'static str>,
    library: BTreeMap<String, BTreeMap<&'static str, String>>,
}

pub(crate) fn run(args: &Settings) -> io::Result<Exit> {
    let (opened, reached_all) = open(std::slice::from_ref(&args.path), Path::new(""))?;
    let mut out = out();
    if args.files {
        let mut names: Vec<String> = opened.iter().flat_map(crate::check::checked).collect();
        names.sort();
        match args.format {
            Format::Text => names.iter().try_for_each(|name| writeln!(out, "{}", clean(name)))?,
            Format::Json => writeln!(out, "{}", serde_json::to_string_pretty(&names).map_err(io::Error::other)?)?,
        }
    } else {
        let all: Vec<Written> = opened.iter().map(written).collect();
        match args.format {
            Format::Text => all.iter().try_for_each(|one| show(one, &mut out))?,
            Format::Json => writeln!(out, "{}", serde_json::to_string_pretty(&all).map_err(io::Error::other)?)?,
        }
    }
    out.flush()?;
    let mut exit = if reached_all { Exit::Clean } else { Exit::Unusable };
    for repository in &opened {
        let faults = repository.project.manifest_faults();
        if !faults.is_empty() {
            let name = repository.name(wythe_project::Project::MANIFEST);
            complain(&format_args!("{name}: {} errors; `wythe check` shows them", faults.len()));
            exit = exit.max(Exit::Findings);
        }
    }
    Ok(exit)
}

fn written(repository: &Opened) -> Written {
    let manifest: &Manifest = repository.project.manifest();
    let paths = |paths: &[wythe_project::SourcePath]| {
        let shown =
            |path: &wythe_project::SourcePath| if path.as_str().is_empty() { "." } else { path.as_str() }.to_owned();
        paths.iter().map(shown).collect()
    };
    let severity = |choice| match choice {
        SeverityChoice::Off => "off",
        SeverityChoice::Is(severity) => Severity::word(severity),
    };
    let library = |source: &LibrarySource| match source {
        LibrarySource::Folder(path) => BTreeMap::from([("path", path.clone())]),
        LibrarySource::Git { url, revision } => BTreeMap::from([("git", url.clone()), ("revision", revision.clone())]),
    };
    let there = repository.disk.root().join(MANIFEST_NAME).is_file();
    Written {
        manifest: there.then(|| repository.name(wythe_project::Project::MANIFEST)),
        edition: manifest.edition,
        sources: paths(&manifest.sources),
        libraries: paths(&manifest.libraries),
        codes: manifest.codes.iter().map(ToString::to_string).collect(),
        currency: manifest.currency.to_string(),
        units: if manifest.display.system == UnitSystem::Si { "si" } else { "us" },
        today: manifest.today.map(|day| day.to_string()),
        severity: manifest.severities().map(|(name, choice)| (name.to_owned(), severity(choice))).collect(),
        library: manifest.packages.iter().map(|one| (one.name.clone(), library(&one.source))).collect(),
    }
}

/// Writes the settings as a manifest would say them.
fn show(one: &Written, out: &mut dyn io::Write) -> io::Result<()> {
    let from = one.manifest.as_deref().map_or("no manifest: all is as usual".into(), clean);
    writeln!(out, "# {from}\nedition = {}", one.edition)?;
    for (key, list) in [("sources", &one.sources), ("libraries", &one.libraries), ("codes", &one.codes)] {
        let quoted: Vec<String> = list.iter().map(|text| quoted(text)).collect();
        writeln!(out, "{key} = [{}]", quoted.join(", "))?;
    }
    writeln!(out, "currency = {}\nunits = {}", quoted(&one.currency), quoted(one.units))?;
    match &one.today {
        Some(day) => writeln!(out, "today = {day}")?,
        None => writeln!(out, "# today: none, so nothing has run out")?,
    }
    for (name, library) in &one.library {
        writeln!(out, "\n[library.{}]", clean(name))?;
        for (key, value) in library {
            writeln!(out, "{key} = {}", quoted(value))?;
        }
    }
    if !one.severity.is_empty() {
        writeln!(out, "\n[severity]")?;
        for (name, severity) in &one.severity {
            writeln!(out, "{} = {}", quoted(name), quoted(severity))?;
        }
    }
    Ok(())
}

fn quoted(text: &str) -> String {
    format!("\"{}\"", clean(text).replace('\\', "\\\\").replace('"', "\\\""))
}
