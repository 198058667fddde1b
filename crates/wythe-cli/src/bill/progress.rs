//! `wythe progress`

use std::io;

use wythe_bill::Job;
use wythe_bill::labor::labor;
use wythe_bill::order::left;
use wythe_bill::progress::Progress;
use wythe_render::tables::progress;

use super::plans::{Houses, plans};
use super::written::{TableFormat, shower, write};
use crate::args::When;
use crate::exit::Exit;
use crate::output::complain;

/// Read the log of a house: what is done and left, what stands open today, which inspection comes next.
#[derive(clap::Args, Debug)]
#[command(after_help = "Examples:\n  wythe progress unit_4\n  wythe progress unit_4 --today 2026-03-14 --format json")]
pub(crate) struct ProgressOf {
    #[command(flatten)]
    pub houses: Houses,
    /// The log to use, where a house has several.
    #[arg(long, value_name = "NAME")]
    pub log: Option<String>,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &ProgressOf, color: When) -> io::Result<Exit> {
    let Some(mut plans) = plans(&args.houses)? else { return Ok(Exit::Unusable) };
    let logs: Vec<_> = plans
        .ledgers
        .logs
        .iter()
        .filter(|l| args.log.as_ref().is_none_or(|name| l.name.as_str() == name))
        .filter(|l| plans.judged.iter().any(|j| j.foundation.origin == l.foundation))
        .cloned()
        .collect();
    let [log] = logs.as_slice() else {
        if logs.is_empty() {
            complain(&"no log of these houses; write one with `log NAME { of_foundation: … }`");
        } else {
            let names: Vec<&str> = logs.iter().map(|l| l.name.as_str()).collect();
            complain(&format_args!("several logs: {}; --log NAME takes one", names.join(", ")));
        }
        return Ok(Exit::Unusable);
    };
    plans.judged.retain(|j| j.foundation.origin == log.foundation);
    let job: Job = plans.job(&args.houses);
    let last = log.entries.iter().map(|e| e.date).max();
    let Some(today) = plans.opened.project.manifest().today.or(last) else {
        complain(&"the log has no entry, and no day is given; --today DATE gives one");
        return Ok(Exit::Unusable);
    };
    let Some(found) = Progress::of(&job, 0, log, today) else { return Ok(Exit::Unusable) };
    let rest = found.rest(&job);
    let crew = plans.ledgers.crew(args.houses.rates.as_deref());
    let visits = crew.map_or(Vec::new(), |crew| labor(&rest, crew).0);
    let document = progress(&job, &found, &left(&job, &rest), &visits, &shower(&plans.opened));
    write(&document, &found.findings, &plans.opened, args.format, color)
}
