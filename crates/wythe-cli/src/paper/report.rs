//! `wythe report`

use std::io::{self, Write as _};
use std::path::PathBuf;

use jiff::civil::Date;
use wythe_findings::Severity;

use super::work::{Common, Worked};
use super::written;
use crate::bill::plans::{Houses, plans};
use crate::exit::Exit;
use crate::output::{complain, out};

/// Write the foundation report of a house as one file of HTML: findings, drawings, heat, moisture, order, inspection.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe report unit_4\n  wythe report houses/unit_4.wythe -o unit_4.html\n  wythe report unit_4 -o unit_4.html --start 2026-03-02"
)]
pub(crate) struct ReportOf {
    #[command(flatten)]
    pub houses: Houses,
    /// The file to write; the house's name and `_report.html` in this folder if none is named.
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// The first day anyone may work, for the schedule; the repository's `today` if none is named.
    #[arg(long, value_name = "DATE")]
    pub start: Option<Date>,
    /// The price list to use, where the repository has several.
    #[arg(long, value_name = "NAME")]
    pub prices: Option<String>,
}

pub(crate) fn run(args: &ReportOf) -> io::Result<Exit> {
    let Some(plans) = plans(&args.houses)? else { return Ok(Exit::Unusable) };
    let [judged] = plans.judged.as_slice() else {
        let names: Vec<&str> = plans.judged.iter().map(|j| j.foundation.name.as_str()).collect();
        complain(&format_args!("a report is about one house; name one of {}, or make a `site`", names.join(", ")));
        return Ok(Exit::Unusable);
    };
    let common = Common::of(&plans, &args.houses, args.prices.as_deref(), args.start);
    let report = Worked::of(&common, judged).report(&common);
    let file = args.output.clone().unwrap_or_else(|| PathBuf::from(format!("{}_report.html", judged.foundation.name)));
    let page = wythe_report::html::page(&report);
    if let Err(exit) = written(&file, page.as_bytes()) {
        return Ok(exit);
    }
    let mut out = out();
    writeln!(out, "{}", file.display())?;
    out.flush()?;
    let errors = judged.findings.iter().any(|f| f.severity == Severity::Error);
    Ok(if errors { Exit::Findings } else { Exit::Clean })
}
