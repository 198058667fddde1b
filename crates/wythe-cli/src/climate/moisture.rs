//! `wythe moisture`

use std::io;
use std::path::PathBuf;

use jiff::civil::Date;
use wythe_assess::moisture::{MoistureOptions, RangePlan, Start, moisture, ranges};
use wythe_findings::Finding;
use wythe_render::climate::{moisture_document, range_tables};

use super::{add, remark, weather};
use crate::args::When;
use crate::bill::plans::{Houses, plans};
use crate::bill::written::{TableFormat, shower, write};
use crate::exit::Exit;

/// Work out the moisture of houses over a year of weather: open while built, closed in service, vented in service.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe moisture unit_4\n  wythe moisture unit_4 --start 2026-05-01\n  wythe moisture houses/unit_1.wythe --range\n  wythe moisture unit_1 --hours --format csv"
)]
pub(crate) struct Moisture {
    /// The name of a foundation, or a file or folder with foundations.
    #[arg(default_value = ".", value_name = "FOUNDATION|PATH")]
    pub target: String,
    /// Where a foundation named is looked for.
    #[arg(long, value_name = "FOLDER", default_value = ".")]
    pub repository: PathBuf,
    /// The day on which the framing goes up; without it, the first day of each season is tried.
    #[arg(long, value_name = "DATE")]
    pub start: Option<Date>,
    /// Sample what is seldom known, and name what matters most.
    #[arg(long)]
    pub range: bool,
    /// How many samples.
    #[arg(long, value_name = "COUNT", default_value_t = RangePlan::default().samples, requires = "range")]
    pub samples: usize,
    /// The seed of the samples; the same seed gives the same range.
    #[arg(long, value_name = "NUMBER", default_value_t = RangePlan::default().seed, requires = "range")]
    pub seed: u64,
    /// Give every hour too, first, for plots.
    #[arg(long)]
    pub hours: bool,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &Moisture, color: When) -> io::Result<Exit> {
    let houses = Houses { repository: args.repository.clone(), ..Houses::of(&args.target) };
    let Some(plans) = plans(&houses)? else { return Ok(Exit::Unusable) };
    // Months and days of a calendar date lie within a byte.
    let start = args.start.map(|date| Start { month: date.month().unsigned_abs(), day: date.day().unsigned_abs() });
    let options = MoistureOptions { start, close_in: true };
    let plan = RangePlan { samples: args.samples, seed: args.seed };
    let (mut reports, mut spreads) = (Vec::new(), Vec::new());
    let mut findings: Vec<Finding> = Vec::new();
    for f in plans.foundations() {
        let site = match weather(&plans, &f) {
            Ok(site) => site,
            Err(finding) => {
                add(&mut findings, [*finding]);
                continue;
            }
        };
        let got = moisture(&f, &site, &options);
        add(&mut findings, got.findings);
        reports.extend(got.report);
        if args.range {
            let got = ranges(&f, &site, plan);
            add(&mut findings, got.findings);
            spreads.extend(got.report);
        }
    }
    let mut document = moisture_document(&reports, args.hours, &shower(&plans.opened));
    document.complete &= reports.len() == plans.judged.len();
    document.remarks.splice(0..0, remark(&plans));
    if args.range {
        // Before the assumptions and cautions that end the document.
        let at = document.tables.len().saturating_sub(2);
        document.tables.splice(at..at, range_tables(&spreads));
    }
    write(&document, &findings, &plans.opened, args.format, color)
}
