//! The first day on which closing the space is safe, by the day on which its framing goes up.

use rayon::prelude::*;
use uom::si::f64::{Ratio, Time};
use wythe_model::{Foundation, Phase};
use wythe_physics::PhysicsError;
use wythe_physics::mold::growth::MoldIndex;
use wythe_physics::sizing::close_in::{CloseInCriteria, safe_to_close};
use wythe_physics::weather::WeatherYear;
use wythe_physics::zone::scenario::Scenario;
use wythe_physics::zone::space::CrawlSpace;

use super::{MoistureOptions, scenarios};
use crate::Assumptions;
use crate::assumption::{ASSUMED, COMMON};
use crate::envelope::Envelope;
use crate::figure::{days, share};

/// A day of the weather year.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Start {
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, from 1.
    pub day: u8,
}

impl Start {
    /// The first hour of the day in a year of weather; the year's first where it has no such day.
    pub(crate) fn hour(self, weather: &WeatherYear) -> usize {
        weather.hours().iter().position(|h| (h.month, h.day) == (self.month, self.day)).unwrap_or(0)
    }
}

/// When a space may be closed.
#[derive(Clone, Debug, PartialEq)]
pub struct CloseInDate {
    /// The day on which the framing goes up.
    pub start: Start,
    /// Days of work and waiting between that and the closing, by the phases.
    pub by_phases: Time,
    /// The first safe day, the days until then and the moisture of the framing's core on it; none where no day of
    /// the year is safe.
    pub close: Option<(Start, Time, Ratio)>,
}

/// The first days of the seasons, for a house whose start nobody has named.
const SEASONS: [Start; 4] =
    [Start { month: 3, day: 1 }, Start { month: 6, day: 1 }, Start { month: 9, day: 1 }, Start { month: 12, day: 1 }];
/// Days of a phase that states none.
const UNSTATED: f64 = 2.0;

/// Days from the phase that brings the floor to the one that closes the vents.
fn days_by_phases(phases: &[std::sync::Arc<Phase>], assumed: &mut Assumptions) -> f64 {
    let has = |list: &[wythe_source::Symbol], word: &str| list.iter().any(|s| s.as_str() == word);
    let floor = phases.iter().position(|p| has(&p.brings, "floor")).unwrap_or(0);
    let close = phases.iter().position(|p| has(&p.closes, "vent")).unwrap_or(phases.len());
    let between = phases.get(floor..close).unwrap_or_default();
    if between.iter().any(|p| p.days.is_none()) {
        assumed.note("working days of a phase that states none", "2, at five in a week", ASSUMED);
    }
    between.iter().map(|p| p.days.map_or(UNSTATED, f64::from) * 7.0 / 5.0 + f64::from(p.wait_days)).sum()
}

pub(super) fn dates(
    f: &Foundation,
    envelope: &Envelope,
    space: &CrawlSpace,
    closed: &Scenario,
    weather: &WeatherYear,
    options: &MoistureOptions,
    assumed: &mut Assumptions,
) -> Result<Vec<CloseInDate>, PhysicsError> {
    let least = days_by_phases(&f.phases, assumed);
    assumed.note(
        "safe to close",
        "framing at or under 19 % for three days, and after closing no condensation, no more than 19 % and a mold \
         index under 1 for 60 days",
        COMMON,
    );
    let criteria = CloseInCriteria {
        wood_moisture: share(0.19),
        held: days(3.0),
        watched: days(60.0),
        mold: MoldIndex::new(1.0)?,
        not_before: days(least.min(360.0)),
    };
    let starts: Vec<Start> = options.start.map_or_else(|| SEASONS.to_vec(), |start| vec![start]);
    let open = starts
        .iter()
        .map(|start| scenarios::construction(f, envelope, space, start.hour(weather), assumed))
        .collect::<Result<Vec<_>, _>>()?;
    starts
        .into_par_iter()
        .zip(open)
        .map(|(start, open)| {
            let close = safe_to_close(space, &open, closed, weather, &criteria)?;
            Ok(CloseInDate {
                start,
                by_phases: days(least),
                close: close.map(|c| (Start { month: c.month, day: c.day }, c.after, c.wood_moisture)),
            })
        })
        .collect::<Vec<Result<CloseInDate, PhysicsError>>>()
        .into_iter()
        .collect()
}
