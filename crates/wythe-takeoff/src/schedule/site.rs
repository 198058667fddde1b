//! What happens and what must be on site, day by day.

use super::plan::Schedule;
use jiff::civil::Date;
use std::collections::{BTreeMap, BTreeSet};

/// One day on site.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SiteDay {
    /// Activities that go on, by id.
    pub activities: Vec<String>,
    /// Crews that come.
    pub crews: BTreeSet<String>,
    /// What must be on site.
    pub needs: BTreeSet<String>,
    /// What must have come by this morning: needs of activities that start today.
    pub delivered: BTreeSet<String>,
    /// Inspections due.
    pub inspections: Vec<String>,
}

/// Every day on which something happens, in order. An activity counts on the days it is worked,
/// from its first to its last; days its calendar skips are left out by `works`.
pub fn site_days(schedule: &Schedule, works: impl Fn(Date, bool) -> bool) -> BTreeMap<Date, SiteDay> {
    let mut days: BTreeMap<Date, SiteDay> = BTreeMap::new();
    for s in &schedule.activities {
        let a = &s.activity;
        let mut date = s.first;
        while a.days > 0 && date <= s.last {
            if works(date, a.open_to_weather) {
                let day = days.entry(date).or_default();
                day.activities.push(a.id.clone());
                day.crews.extend(a.crew.clone());
                day.needs.extend(a.needs.iter().cloned());
                if date == s.first {
                    day.delivered.extend(a.needs.iter().cloned());
                }
            }
            match date.tomorrow() {
                Ok(next) => date = next,
                Err(_) => break,
            }
        }
        if let (Some(date), Some(hold)) = (s.inspected, &a.hold) {
            days.entry(date).or_default().inspections.push(hold.what.clone());
        }
    }
    days
}
