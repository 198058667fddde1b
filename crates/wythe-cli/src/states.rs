//! `wythe states`

use std::io;
use std::path::PathBuf;

use jiff::civil::Date;
use wythe_check::sequence;
use wythe_findings::{Finding, FindingName, Severity};
use wythe_model::ledger::{HoldResult, WorkLog};
use wythe_render::tables::{states, states_flat};
use wythe_source::Symbol;

use crate::args::When;
use crate::bill::plans::{Houses, Plans, plans};
use crate::bill::written::{TableFormat, write};
use crate::exit::Exit;

/// Show the state of houses after each phase: rain, ground, vents, and each surface with its layers and inspections.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe states houses/unit_4.wythe\n  wythe states unit_4 --format json\n\nWhere a log of the house is kept, only the inspections it shows as passed count as passed."
)]
pub(crate) struct States {
    /// The name of a foundation, or a file or folder with foundations.
    #[arg(default_value = ".", value_name = "FOUNDATION|PATH")]
    pub target: String,
    /// Where a foundation named is looked for.
    #[arg(long, value_name = "FOLDER", default_value = ".")]
    pub repository: PathBuf,
    /// Pass over the log, and take each inspection as passed when the next phase begins.
    #[arg(long)]
    pub as_planned: bool,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &States, color: When) -> io::Result<Exit> {
    let houses = Houses { repository: args.repository.clone(), ..Houses::of(&args.target) };
    let Some(plans) = plans(&houses)? else { return Ok(Exit::Unusable) };
    let mut worst = Exit::Clean;
    for judged in &plans.judged {
        let f = &judged.foundation;
        let today = plans.opened.project.manifest().today;
        let log = log_of(&plans, f.origin).filter(|_| !args.as_planned);
        let passed = log.map(|log| passed(log, today));
        let table = sequence::states(f, passed.as_deref());
        let mut document = match args.format {
            TableFormat::Text | TableFormat::Markdown => states(f.name.as_str(), &table),
            TableFormat::Csv | TableFormat::Json => states_flat(f.name.as_str(), &table),
        };
        if let Some(log) = log {
            document
                .remarks
                .push(format!("Inspections passed as `{}` shows them; --as-planned passes it over.", log.name));
        }
        let of_order = |f: &&Finding| matches!(&f.name, FindingName::Code(code) if code.page().area == "sequence");
        let graver = |f: &&Finding| f.severity > Severity::Information;
        let findings: Vec<Finding> = judged.findings.iter().filter(of_order).filter(graver).cloned().collect();
        worst = worst.max(write(&document, &findings, &plans.opened, args.format, color)?);
    }
    Ok(worst)
}

/// The log of a foundation, the first of several.
fn log_of(plans: &Plans, foundation: wythe_source::Span) -> Option<&WorkLog> {
    plans.ledgers.logs.iter().find(|log| log.foundation == foundation)
}

/// The phases whose inspection a log shows as passed, up to a day.
fn passed(log: &WorkLog, until: Option<Date>) -> Vec<Symbol> {
    let mut out: Vec<Symbol> = Vec::new();
    for entry in log.entries.iter().filter(|e| until.is_none_or(|day| e.date <= day)) {
        if entry.hold == Some(HoldResult::Passed) {
            out.extend(entry.done.iter().chain(&entry.visit));
        }
    }
    out
}
