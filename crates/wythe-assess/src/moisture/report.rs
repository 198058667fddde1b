//! What the moisture of a foundation consists of.

use std::sync::Arc;

use uom::si::f64::{Ratio, Time};
use uom::si::time::hour;
use wythe_physics::mold::class::{Decline, Sensitivity};
use wythe_physics::mold::growth::MoldIndex;
use wythe_physics::quantity::RelativeHumidity;
use wythe_physics::weather::WeatherOrigin;
use wythe_physics::zone::result::ZoneYear;
use wythe_physics::zone::spot::highest_mold_at;
use wythe_source::Symbol;

use super::{CloseInDate, SectionMoisture, Sizing, Start};
use crate::Assumptions;
use crate::envelope::Envelope;

/// What a moisture report is asked for beside the states.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MoistureOptions {
    /// The day on which the framing goes up; the first of March if none is named, and the closing is then looked for
    /// from the first day of each season.
    pub start: Option<Start>,
    /// Whether the date of safe closing is looked for, which takes most of the time.
    pub close_in: bool,
}

impl Default for MoistureOptions {
    fn default() -> Self {
        MoistureOptions { start: None, close_in: true }
    }
}

/// What a state stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StateRole {
    /// Open while the house is built.
    Construction,
    /// In service as designed.
    Service,
    /// What the design is held against: the same house vented in service.
    Compared,
}

/// A state of the space over the year.
#[derive(Clone, Debug, PartialEq)]
pub struct StateYear {
    /// What it stands for.
    pub role: StateRole,
    /// The year.
    pub year: ZoneYear,
}

/// The figures of a state that rules ask for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ServiceFigures {
    /// Highest mold index of the framing.
    pub mold: MoldIndex,
    /// Highest mold index of the sill plate, whose outer edge lies in outside air.
    pub sill_mold: MoldIndex,
    /// Highest relative humidity of the air, as the mean of a day.
    pub peak_humidity: RelativeHumidity,
    /// Time in which water condensed somewhere.
    pub condensation: Time,
    /// Highest moisture of the framing's outer layer.
    pub wood_moisture: Ratio,
}

impl ServiceFigures {
    /// The figures of a year.
    pub fn of(year: &ZoneYear) -> ServiceFigures {
        ServiceFigures {
            mold: year.highest_mold(),
            sill_mold: sill_mold(year),
            peak_humidity: most_humid_day(year),
            condensation: Time::new::<hour>(f64::from(year.condensing_hours())),
            wood_moisture: year.highest_wood_moisture(),
        }
    }
}

fn sill_mold(year: &ZoneYear) -> MoldIndex {
    let at = |factor| highest_mold_at(&year.hours, factor, Sensitivity::Sensitive, Decline::Wood);
    crate::heat::sill_factor().map_or_else(|_| year.highest_mold(), at)
}

/// The highest mean relative humidity of a day.
pub(crate) fn most_humid_day(year: &ZoneYear) -> RelativeHumidity {
    let mean = |day: &[wythe_physics::zone::result::ZoneHour]| {
        day.iter().map(|h| h.humidity.ratio().value).sum::<f64>() / day.len().max(1) as f64
    };
    let most = year.hours.chunks(24).map(mean).fold(0.0, f64::max);
    RelativeHumidity::percent((100.0 * most).min(100.0)).unwrap_or(RelativeHumidity::SATURATED)
}

/// The moisture of a foundation.
#[derive(Clone, Debug, PartialEq)]
pub struct MoistureReport {
    /// The foundation.
    pub foundation: Symbol,
    /// The weather file.
    pub weather: Arc<str>,
    /// How its hours came about.
    pub origin: WeatherOrigin,
    /// The day on which the framing goes up in the state of construction.
    pub start: Start,
    /// Its measures.
    pub envelope: Envelope,
    /// The states, construction first.
    pub states: Vec<StateYear>,
    /// Condensation inside the walls and at the piers.
    pub sections: Vec<SectionMoisture>,
    /// What it takes to keep it dry.
    pub sizing: Sizing,
    /// When it may be closed, by the day the framing goes up; empty for a vented space or where not asked for.
    pub close_in: Vec<CloseInDate>,
    /// What was assumed.
    pub assumptions: Assumptions,
    /// What the result is not.
    pub cautions: Vec<&'static str>,
}

impl MoistureReport {
    /// The state in service.
    pub fn service(&self) -> Option<&ZoneYear> {
        self.states.iter().find(|s| s.role == StateRole::Service).map(|s| &s.year)
    }
}
