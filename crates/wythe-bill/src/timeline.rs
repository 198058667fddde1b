//! The schedule of a job: one activity a phase and house on a working calendar, with waits and inspections.

use jiff::civil::Date;
use wythe_findings::{Finding, codes};
use wythe_model::ledger::CrewRates;
use wythe_source::Symbol;

use crate::Job;
use crate::labor::HouseLabor;

pub use wythe_takeoff::schedule::{
    Activity, After, CalendarRules, Hold, Schedule, Scheduled, SiteDay, WorkCalendar, WorkWeek, site_days, to_icalendar,
};

/// The activities of a job. Phases with work of ours take the crew's days; others take the days they state.
pub fn activities(job: &Job, crew: &CrewRates, labor: &[HouseLabor]) -> (Vec<Activity>, Vec<Finding>) {
    let (mut out, mut findings) = (Vec::new(), Vec::new());
    let several = job.houses.len() > 1;
    for (house, f) in job.houses.iter().enumerate() {
        let visits = labor.iter().find(|l| l.house == house).map_or(&[][..], |l| &l.visits);
        let roof_on = f.phases.iter().position(|p| p.ends.iter().any(|e| e.as_str() == "rain"));
        let mut before: Option<(String, u32)> = None;
        for (number, phase) in f.phases.iter().enumerate() {
            let Some(name) = phase.name else { continue };
            let id = if several { format!("{}.{name}", f.name) } else { name.to_string() };
            let visit = visits.iter().find(|v| v.phase == name.as_str());
            let silent = visit.is_none() && phase.days.is_none();
            if silent && phase.wait_days == 0 && !phase.brings.is_empty() {
                findings.push(
                    Finding::new(
                        codes::DURATION_UNSAID,
                        phase.origin,
                        format!("`{name}` does not say how long it takes"),
                    )
                    .label("counts as one date"),
                );
            }
            let hold = phase.hold.as_ref().map(|what| Hold { what: what.to_string(), days: crew.inspection_days });
            // What must cure or dry is seen when it has.
            let seen_after_wait = phase.wait_days > 0 && hold.is_some();
            let after = |before: &Option<(String, u32)>| {
                before.iter().map(|(id, wait)| After { id: id.clone(), cure_days: *wait, working_days: 0 }).collect()
            };
            let title = if several { format!("{}: {}", f.name, words(name)) } else { words(name) };
            out.push(Activity {
                name: title.clone(),
                phase: name.to_string(),
                days: visit.map_or(phase.days.unwrap_or(0), |v| v.days),
                crew: visit.map(|_| crew.name.to_string()),
                open_to_weather: roof_on.is_some_and(|on| number <= on),
                after: after(&before),
                hold: hold.clone().filter(|_| !seen_after_wait),
                needs: needs(job, name),
                id: id.clone(),
            });
            if seen_after_wait {
                before = Some((id.clone(), phase.wait_days));
                let seen = format!("{id}.seen");
                out.push(Activity {
                    name: format!("{title}, seen"),
                    phase: name.to_string(),
                    days: 0,
                    crew: None,
                    open_to_weather: false,
                    after: after(&before),
                    hold,
                    needs: Vec::new(),
                    id: seen.clone(),
                });
                before = Some((seen, 0));
                continue;
            }
            before = Some((id, phase.wait_days));
        }
    }
    (out, findings)
}

/// Schedules the activities.
///
/// # Errors
/// A finding where they cannot be put on the calendar.
pub fn schedule(
    activities: &[Activity],
    calendar: &WorkCalendar,
    start: Date,
    crew: &CrewRates,
) -> Result<Schedule, Box<Finding>> {
    wythe_takeoff::schedule::plan(activities, calendar, start)
        .map_err(|error| Box::new(Finding::new(codes::SCHEDULE_IMPOSSIBLE, crew.origin, error.to_string())))
}

/// What must be on site for a phase: what is used in it, with its number where it is used in no other.
fn needs(job: &Job, phase: Symbol) -> Vec<String> {
    let used = job.order.iter().filter(|i| i.phases.contains(&phase));
    used.map(|item| {
        if item.phases.len() == 1 && job.houses.len() == 1 {
            format!("{} {} {}", item.units, item.unit, item.product.name)
        } else {
            item.product.name.to_string()
        }
    })
    .collect()
}

fn words(name: Symbol) -> String {
    name.as_str().replace('_', " ")
}
