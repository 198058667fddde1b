//! The schedule as iCalendar text (RFC 5545): one all-day event for each activity and inspection.

use super::plan::Schedule;
use icalendar::{Calendar, Component, Event, Property};
use jiff::civil::{Date, DateTime};
use std::fmt;

/// What the file needs beside the schedule; nothing is read from a clock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CalendarRules {
    /// Shown by calendar programs.
    pub name: String,
    /// Makes the identifiers of events unique: `unit_4.example`.
    pub domain: String,
    /// When the schedule was made, in universal time (DTSTAMP, RFC 5545 section 3.8.7.2).
    pub stamp: DateTime,
}

/// Writes the schedule. Event ends are the day after the last (RFC 5545 section 3.6.1: DTEND of a
/// date is not part of the event).
pub fn to_icalendar(schedule: &Schedule, rules: &CalendarRules) -> Result<String, fmt::Error> {
    let mut calendar = Calendar::empty();
    calendar
        .append_property(Property::new("VERSION", "2.0"))
        .append_property(Property::new("PRODID", "-//Wythe//Schedule//EN"))
        .append_property(Property::new("CALSCALE", "GREGORIAN"));
    calendar.name(&rules.name);
    for s in &schedule.activities {
        let a = &s.activity;
        let mut event = event(&a.id, &a.name, s.first, s.last, rules);
        event.description(&describe(&a.phase, a.crew.as_deref(), &a.needs, s.is_critical(), s.float));
        calendar.push(event.done());
        if let (Some(date), Some(hold)) = (s.inspected, &a.hold) {
            let id = format!("{}-inspection", a.id);
            let name = format!("Inspection: {}", hold.what);
            calendar.push(self::event(&id, &name, date, date, rules).done());
        }
    }
    let mut text = String::new();
    fmt::write(&mut text, format_args!("{calendar}"))?;
    Ok(text)
}

fn event(id: &str, name: &str, first: Date, last: Date, rules: &CalendarRules) -> Event {
    let after = last.tomorrow().unwrap_or(last);
    let stamp = rules.stamp.strftime("%Y%m%dT%H%M%SZ").to_string();
    let mut event = Event::new();
    event.summary(name).uid(&format!("{id}@{}", rules.domain));
    event.add_property("DTSTAMP", stamp);
    for (key, date) in [("DTSTART", first), ("DTEND", after)] {
        let mut property = Property::new(key, date.strftime("%Y%m%d").to_string());
        property.add_parameter("VALUE", "DATE");
        event.append_property(property.done());
    }
    event
}

fn describe(phase: &str, crew: Option<&str>, needs: &[String], critical: bool, float: u32) -> String {
    let mut lines = vec![format!("Phase: {phase}")];
    lines.extend(crew.map(|c| format!("Crew: {c}")));
    if !needs.is_empty() {
        lines.push(format!("On site: {}", needs.join(", ")));
    }
    lines.push(if critical {
        "Critical: a slip puts off the end".to_owned()
    } else {
        format!("May slip {float} working days")
    });
    lines.join("\n")
}
