//! Which days are worked, for covered work and for work open to the weather.

use jiff::civil::{Date, Weekday};
use std::collections::BTreeSet;

/// Days of the week that are worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WorkWeek([bool; 7]);

impl WorkWeek {
    /// Monday to Friday.
    pub const FIVE_DAYS: Self = Self([true, true, true, true, true, false, false]);

    /// The given days.
    pub fn of(days: &[Weekday]) -> Self {
        let mut week = [false; 7];
        for day in days {
            week[day.to_monday_zero_offset() as usize] = true;
        }
        Self(week)
    }

    fn works(self, date: Date) -> bool {
        self.0[date.weekday().to_monday_zero_offset() as usize]
    }

    pub(super) fn is_idle(self) -> bool {
        !self.0.contains(&true)
    }
}

/// A calendar of working days.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkCalendar {
    /// The working week.
    pub week: WorkWeek,
    /// Days off.
    pub holidays: BTreeSet<Date>,
    /// Days of rain, wind or frost on which work open to the weather stops.
    pub weather: BTreeSet<Date>,
    /// Days after each of those on which such work must still wait for things to dry.
    pub drying_days: u8,
}

impl WorkCalendar {
    /// Whether work goes on that day.
    pub fn works(&self, date: Date, open_to_weather: bool) -> bool {
        self.week.works(date) && !self.holidays.contains(&date) && !(open_to_weather && self.is_wet(date))
    }

    fn is_wet(&self, date: Date) -> bool {
        let mut day = Some(date);
        for _ in 0..=self.drying_days {
            match day {
                Some(d) if self.weather.contains(&d) => return true,
                Some(d) => day = d.yesterday().ok(),
                None => return false,
            }
        }
        false
    }
}
