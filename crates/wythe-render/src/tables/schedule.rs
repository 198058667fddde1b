//! The schedule as tables: activities with their critical path, labor by phase, and what must be on site each day.

use wythe_bill::Job;
use wythe_bill::labor::{HouseLabor, crew_days, labor_total};
use wythe_bill::timeline::{Schedule, WorkCalendar, site_days};

use super::{Cell, Document, Shower, Table};

/// The schedule of a job.
pub fn schedule(
    job: &Job,
    labor: &[HouseLabor],
    schedule: &Schedule,
    calendar: &WorkCalendar,
    show: &Shower<'_>,
) -> Document {
    let names: Vec<&str> = job.houses.iter().map(|f| f.name.as_str()).collect();
    let mut document = Document::new("schedule", format!("Schedule of {}", names.join(", ")));
    document.complete = job.is_complete();
    document.remarks.push(format!(
        "From {} to {}; {:.1} crew-days. Inspections that fail, and days of weather not named, put it off.",
        schedule.start,
        schedule.end,
        crew_days(labor).value
    ));
    let critical: Vec<&str> = schedule.critical_path().collect();
    document.remarks.push(format!("Critical: {}.", critical.join(", ")));
    let mut table = Table::new(
        "activities",
        "",
        &[
            ("id", "activity"),
            ("first", "first day"),
            ("last", "last day"),
            ("days", ">days"),
            ("crew", "crew"),
            ("inspected", "inspection"),
            ("latest", "latest first day"),
            ("float", ">may slip"),
            ("critical", "critical"),
            ("hold", "to be seen"),
        ],
    );
    for s in &schedule.activities {
        let a = &s.activity;
        table.row(vec![
            Cell::text(&a.id),
            Cell::text(s.first.to_string()),
            Cell::text(s.last.to_string()),
            Cell::Count(u64::from(a.days)),
            Cell::text(a.crew.as_deref().unwrap_or("")),
            Cell::text(s.inspected.map_or(String::new(), |d| d.to_string())),
            Cell::text(s.latest_first.to_string()),
            Cell::Count(u64::from(s.float)),
            Cell::Mark(s.is_critical()),
            Cell::text(a.hold.as_ref().map_or("", |h| &h.what)),
        ]);
    }
    document.tables.push(table);
    document.tables.push(visits(job, labor, show));
    let mut days = Table::new(
        "days",
        "On site",
        &[
            ("day", "day"),
            ("activities", "work"),
            ("delivered", "must have come by this morning"),
            ("inspections", "inspection"),
        ],
    );
    for (date, day) in site_days(schedule, |d, open| calendar.works(d, open)) {
        let delivered: Vec<&str> = day.delivered.iter().map(String::as_str).collect();
        days.row(vec![
            Cell::text(date.to_string()),
            Cell::text(day.activities.join(", ")),
            Cell::text(delivered.join(", ")),
            Cell::text(day.inspections.join(", ")),
        ]);
    }
    document.tables.push(days);
    document
}

fn visits(job: &Job, labor: &[HouseLabor], show: &Shower<'_>) -> Table {
    let total = labor_total(labor).map_or(String::new(), |m| format!(", {m}"));
    let mut table = Table::new(
        "visits",
        format!("Labor of the whole crew{total}"),
        &[
            ("house", "house"),
            ("phase", "phase"),
            ("work", ">at work"),
            ("on_site", ">on site"),
            ("crew_days", ">crew-days"),
            ("days", ">days"),
            ("travel", ">travel"),
            ("charged", ">charged"),
        ],
    );
    for house in labor {
        for v in &house.visits {
            table.row(vec![
                Cell::text(if job.houses.len() > 1 { job.houses[house.house].name.as_str() } else { "" }),
                Cell::text(&v.phase),
                show.hours(v.work),
                show.hours(v.on_site),
                Cell::Number(v.crew_days.value, 2),
                Cell::Count(u64::from(v.days)),
                show.hours(v.travel),
                show.hours(v.charged),
            ]);
        }
    }
    table
}
