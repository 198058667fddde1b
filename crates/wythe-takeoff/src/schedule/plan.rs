//! The critical-path method over a calendar: earliest dates forward, with one crew in one place at a
//! time, then latest dates backward over the same links.

use super::calendar::WorkCalendar;
use super::network::{Activity, After};
use jiff::ToSpan;
use jiff::civil::Date;
use std::collections::BTreeMap;

/// An activity with its dates. The last day is inclusive; a mere date has first and last equal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scheduled {
    /// The activity.
    pub activity: Activity,
    /// First day.
    pub first: Date,
    /// Last day.
    pub last: Date,
    /// Day of its inspection.
    pub inspected: Option<Date>,
    /// The latest first day that does not put off the end of the job.
    pub latest_first: Date,
    /// Working days it can slip.
    pub float: u32,
}

impl Scheduled {
    /// True when any slip puts off the end of the job.
    pub fn is_critical(&self) -> bool {
        self.float == 0
    }
}

/// A whole schedule, in the order of starting.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Schedule {
    /// Activities by first day, then as given.
    pub activities: Vec<Scheduled>,
    /// First day of the job.
    pub start: Date,
    /// Last day of the job, inspections included.
    pub end: Date,
}

impl Schedule {
    /// Ids on the critical path, in the order of starting.
    pub fn critical_path(&self) -> impl Iterator<Item = &str> {
        self.activities.iter().filter(|s| s.is_critical()).map(|s| s.activity.id.as_str())
    }

    /// Crew-days by phase, in alphabetical order: working days of activities that have a crew.
    pub fn crew_days(&self) -> BTreeMap<&str, u32> {
        let mut days = BTreeMap::new();
        for s in self.activities.iter().filter(|s| s.activity.crew.is_some()) {
            *days.entry(s.activity.phase.as_str()).or_insert(0) += s.activity.days;
        }
        days
    }
}

/// What makes a schedule impossible.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ScheduleError {
    /// Two activities of one id.
    #[error("two activities have the id `{0}`")]
    DuplicateId(String),
    /// A wait for something that is not there.
    #[error("`{id}` waits for `{missing}`, which is not there")]
    UnknownPredecessor {
        /// The activity that waits.
        id: String,
        /// What it waits for.
        missing: String,
    },
    /// Activities that wait for each other.
    #[error("these wait for each other: {}", .0.join(", "))]
    Cycle(Vec<String>),
    /// No day of the week is worked.
    #[error("the calendar has no working day")]
    NoWorkingDay,
    /// It does not end within twenty years, or an id's dates leave the calendar.
    #[error("`{0}` does not end within twenty years of the start")]
    TooLong(String),
}

/// Longest job looked at, in days.
const HORIZON: u32 = 7_305;

/// Schedules the activities from a first possible day.
pub fn plan(activities: &[Activity], calendar: &WorkCalendar, start: Date) -> Result<Schedule, ScheduleError> {
    if calendar.week.is_idle() {
        return Err(ScheduleError::NoWorkingDay);
    }
    let mut ids: BTreeMap<&str, usize> = BTreeMap::new();
    for (i, a) in activities.iter().enumerate() {
        if ids.insert(&a.id, i).is_some() {
            return Err(ScheduleError::DuplicateId(a.id.clone()));
        }
    }
    let mut before: Vec<Vec<(usize, &After)>> = Vec::new();
    for a in activities {
        let links = a.after.iter().map(|after| {
            ids.get(after.id.as_str())
                .map(|&i| (i, after))
                .ok_or_else(|| ScheduleError::UnknownPredecessor { id: a.id.clone(), missing: after.id.clone() })
        });
        before.push(links.collect::<Result<_, _>>()?);
    }
    let clock = Clock { calendar, start };
    let dated = forward(activities, &before, &clock)?;
    let latest = backward(activities, &before, &dated, &clock);
    let end = dated.dates.iter().map(|d| d.inspected.unwrap_or(d.last)).max().unwrap_or(start);
    let mut order: Vec<usize> = (0..activities.len()).collect();
    order.sort_by_key(|&i| (dated.dates[i].first, i));
    let scheduled = order
        .into_iter()
        .map(|i| {
            let d = dated.dates[i];
            Scheduled {
                activity: activities[i].clone(),
                first: d.first,
                last: d.last,
                inspected: d.inspected,
                latest_first: latest[i],
                float: clock.working_days(d.first, latest[i], activities[i].open_to_weather),
            }
        })
        .collect();
    Ok(Schedule { activities: scheduled, start, end })
}

#[derive(Clone, Copy)]
struct Dates {
    first: Date,
    last: Date,
    inspected: Option<Date>,
    /// The first day on which what follows may start.
    ready: Date,
}

struct Dated {
    dates: Vec<Dates>,
    /// Order of placing.
    order: Vec<usize>,
    /// For each activity the one before it of the same crew.
    crew_before: Vec<Option<usize>>,
}

struct Clock<'a> {
    calendar: &'a WorkCalendar,
    start: Date,
}

impl Clock<'_> {
    fn later(date: Date, days: u32) -> Option<Date> {
        date.checked_add(i64::from(days).days()).ok()
    }

    /// The first worked day on or after a date, within the horizon.
    fn open(&self, from: Date, exposed: bool) -> Option<Date> {
        let end = Self::later(self.start, HORIZON)?;
        let mut day = from;
        while day <= end {
            if self.calendar.works(day, exposed) {
                return Some(day);
            }
            day = day.tomorrow().ok()?;
        }
        None
    }

    /// Dates of an activity that may start on `from`.
    fn run(&self, activity: &Activity, from: Date) -> Option<Dates> {
        let exposed = activity.open_to_weather;
        let (first, last, mut ready) = if activity.days == 0 {
            (from, from, from)
        } else {
            let first = self.open(from, exposed)?;
            let mut last = first;
            for _ in 1..activity.days {
                last = self.open(last.tomorrow().ok()?, exposed)?;
            }
            (first, last, last.tomorrow().ok()?)
        };
        let mut inspected = None;
        if let Some(hold) = &activity.hold {
            let day = self.nth_working(ready, hold.days.max(1))?;
            inspected = Some(day);
            ready = day.tomorrow().ok()?;
        }
        Some(Dates { first, last, inspected, ready })
    }

    /// The n-th working day on or after a date, n from 1.
    fn nth_working(&self, from: Date, n: u32) -> Option<Date> {
        let mut day = self.open(from, false)?;
        for _ in 1..n {
            day = self.open(day.tomorrow().ok()?, false)?;
        }
        Some(day)
    }

    /// The day from which a follower may start.
    fn after(&self, ready: Date, link: &After) -> Option<Date> {
        let cured = Self::later(ready, link.cure_days)?;
        if link.working_days == 0 {
            return Some(cured);
        }
        self.nth_working(cured, link.working_days)?.tomorrow().ok()
    }

    /// Working days from one date up to, not with, another.
    fn working_days(&self, from: Date, to: Date, exposed: bool) -> u32 {
        let mut day = from;
        let mut count = 0;
        while day < to {
            count += u32::from(self.calendar.works(day, exposed));
            match day.tomorrow() {
                Ok(next) => day = next,
                Err(_) => break,
            }
        }
        count
    }
}

/// Places whichever ready activity can start first, again and again; ties go as given.
fn forward(
    activities: &[Activity],
    before: &[Vec<(usize, &After)>],
    clock: &Clock<'_>,
) -> Result<Dated, ScheduleError> {
    let count = activities.len();
    let mut dates: Vec<Option<Dates>> = vec![None; count];
    let mut order = Vec::with_capacity(count);
    let mut crew_before = vec![None; count];
    let mut crews: BTreeMap<&str, usize> = BTreeMap::new();
    while order.len() < count {
        let mut best: Option<(Date, usize, Dates)> = None;
        for (i, activity) in activities.iter().enumerate() {
            if dates[i].is_some() || before[i].iter().any(|(p, _)| dates[*p].is_none()) {
                continue;
            }
            let too_long = || ScheduleError::TooLong(activity.id.clone());
            let mut from = clock.start;
            for (p, link) in &before[i] {
                if let Some(d) = &dates[*p] {
                    from = from.max(clock.after(d.ready, link).ok_or_else(too_long)?);
                }
            }
            let busy = activity.crew.as_deref().and_then(|c| crews.get(c));
            if let Some(last) = busy.and_then(|&p| dates[p]).map(|d| d.last) {
                from = from.max(last.tomorrow().map_err(|_| too_long())?);
            }
            let run = clock.run(activity, from).ok_or_else(too_long)?;
            if best.as_ref().is_none_or(|b| run.first < b.0) {
                best = Some((run.first, i, run));
            }
        }
        let Some((_, i, run)) = best else {
            let stuck = (0..count).filter(|&i| dates[i].is_none());
            return Err(ScheduleError::Cycle(stuck.map(|i| activities[i].id.clone()).collect()));
        };
        dates[i] = Some(run);
        order.push(i);
        if let Some(crew) = activities[i].crew.as_deref().filter(|_| activities[i].days > 0) {
            crew_before[i] = crews.insert(crew, i);
        }
    }
    Ok(Dated { dates: dates.into_iter().flatten().collect(), order, crew_before })
}

/// Latest first days: each activity, last placed first, is put off day by day for as long as
/// every follower can still keep its own latest first day.
fn backward(activities: &[Activity], before: &[Vec<(usize, &After)>], dated: &Dated, clock: &Clock<'_>) -> Vec<Date> {
    let end = dated.dates.iter().map(|d| d.inspected.unwrap_or(d.last)).max();
    let mut latest: Vec<Date> = dated.dates.iter().map(|d| d.first).collect();
    for &i in dated.order.iter().rev() {
        let mut first = latest[i];
        while let Ok(next) = first.tomorrow() {
            let Some(run) = clock.run(&activities[i], next) else {
                break;
            };
            let in_time = end.is_some_and(|e| run.inspected.unwrap_or(run.last) <= e);
            if !in_time || !followers_keep(i, &run, activities, before, dated, &latest, clock) {
                break;
            }
            first = run.first.max(next);
        }
        latest[i] = first;
    }
    latest
}

fn followers_keep(
    i: usize,
    run: &Dates,
    activities: &[Activity],
    before: &[Vec<(usize, &After)>],
    dated: &Dated,
    latest: &[Date],
    clock: &Clock<'_>,
) -> bool {
    (0..activities.len()).all(|f| {
        let by_link = before[f].iter().filter(|(p, _)| *p == i).all(|(_, link)| {
            let from = clock.after(run.ready, link);
            let start = from.and_then(|d| clock.run(&activities[f], d));
            start.is_some_and(|s| s.first <= latest[f])
        });
        let by_crew = dated.crew_before[f] != Some(i) || run.last < latest[f];
        by_link && by_crew
    })
}
