//! `wythe schedule`

use std::collections::BTreeSet;
use std::io::{self, Write as _};

use clap::ValueEnum;
use jiff::civil::Date;
use wythe_bill::labor::labor;
use wythe_bill::timeline::{self, CalendarRules, WorkCalendar, WorkWeek, to_icalendar};
use wythe_findings::Finding;
use wythe_render::tables::schedule;

use super::plans::{Houses, plans};
use super::written::{TableFormat, shower, write};
use crate::args::When;
use crate::exit::Exit;
use crate::output::{complain, out};

/// Put the phases on a calendar: visits, crew-days, waits, inspections, the critical path, what must be on site.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe schedule unit_4 --start 2026-03-02\n  wythe schedule unit_4 --start 2026-03-02 --weather 2026-03-10 --format ics"
)]
pub(crate) struct Schedule {
    #[command(flatten)]
    pub houses: Houses,
    /// The first day anyone may work.
    #[arg(long, value_name = "DATE")]
    pub start: Date,
    /// A day off; may be given several times.
    #[arg(long, value_name = "DATE")]
    pub day_off: Vec<Date>,
    /// A day of rain, wind or frost; may be given several times.
    #[arg(long, value_name = "DATE")]
    pub weather: Vec<Date>,
    /// Days open work must dry after each of those.
    #[arg(long, value_name = "DAYS", default_value_t = 1)]
    pub drying: u8,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: ScheduleFormat,
}

/// The form of a schedule.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum ScheduleFormat {
    /// For people.
    #[default]
    Text,
    /// The activities, for a spreadsheet.
    Csv,
    /// For programs.
    Json,
    /// For a pull request.
    Markdown,
    /// For a calendar (RFC 5545).
    Ics,
}

pub(crate) fn run(args: &Schedule, color: When) -> io::Result<Exit> {
    let Some(plans) = plans(&args.houses)? else { return Ok(Exit::Unusable) };
    let Some(crew) = plans.ledgers.crew(args.houses.rates.as_deref()) else {
        complain(&"the repository declares no rates; a schedule needs a crew");
        return Ok(Exit::Unusable);
    };
    let job = plans.job(&args.houses);
    let mut findings: Vec<Finding> = job.findings.clone();
    let (worked, lacking) = labor(&job, crew);
    findings.extend(lacking);
    let (activities, unsaid) = timeline::activities(&job, crew, &worked);
    findings.extend(unsaid);
    let calendar = WorkCalendar {
        week: WorkWeek::FIVE_DAYS,
        holidays: BTreeSet::from_iter(args.day_off.iter().copied()),
        weather: BTreeSet::from_iter(args.weather.iter().copied()),
        drying_days: args.drying,
    };
    let planned = match timeline::schedule(&activities, &calendar, args.start, crew) {
        Ok(planned) => planned,
        Err(fault) => {
            complain(&fault.title);
            return Ok(Exit::Findings);
        }
    };
    let format = match args.format {
        ScheduleFormat::Text => TableFormat::Text,
        ScheduleFormat::Csv => TableFormat::Csv,
        ScheduleFormat::Json => TableFormat::Json,
        ScheduleFormat::Markdown => TableFormat::Markdown,
        ScheduleFormat::Ics => {
            let names: Vec<&str> = job.houses.iter().map(|f| f.name.as_str()).collect();
            let rules = CalendarRules {
                name: format!("Work on {}", names.join(", ")),
                domain: format!("{}.wythe.invalid", names.first().unwrap_or(&"house")),
                // No clock is read: the schedule bears the day it starts from, and is the same each time.
                stamp: args.start.to_datetime(jiff::civil::Time::midnight()),
            };
            let text = to_icalendar(&planned, &rules).map_err(io::Error::other)?;
            let mut out = out();
            out.write_all(text.as_bytes())?;
            out.flush()?;
            return Ok(Exit::of(&findings, true));
        }
    };
    let mut document = schedule(&job, &worked, &planned, &calendar, &shower(&plans.opened));
    document.remarks.splice(0..0, plans.remark());
    write(&document, &findings, &plans.opened, format, color)
}
