//! When the work is done: activities on a working calendar with weather, cures and inspections; the
//! critical path; what must be on site each day; and the whole as an iCalendar file.

mod calendar;
mod ical;
mod network;
mod plan;
mod site;

pub use calendar::{WorkCalendar, WorkWeek};
pub use ical::{CalendarRules, to_icalendar};
pub use network::{Activity, After, Hold};
pub use plan::{Schedule, ScheduleError, Scheduled, plan};
pub use site::{SiteDay, site_days};
