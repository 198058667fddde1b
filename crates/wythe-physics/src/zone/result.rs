//! What a year in the crawl space gives: hours, months, bands, and the balances of heat and water.

use uom::si::f64::{Energy, Mass, Ratio, ThermodynamicTemperature};

use crate::error::{PhysicsError, Result};
use crate::mold::growth::MoldIndex;
use crate::quantity::RelativeHumidity;
use crate::weather::WeatherOrigin;

/// State at the end of one hour, and what moved in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneHour {
    /// Month of the weather hour, 1 to 12.
    pub month: u8,
    /// Day of the month.
    pub day: u8,
    /// Hour of the day, 0 to 23.
    pub hour: u8,
    /// Outside temperature.
    pub outside: ThermodynamicTemperature,
    /// Air temperature.
    pub air: ThermodynamicTemperature,
    /// Relative humidity of the air; 1 where the air is saturated.
    pub humidity: RelativeHumidity,
    /// Temperature of the framing.
    pub wood: ThermodynamicTemperature,
    /// Relative humidity in the outer layer of the framing.
    pub wood_humidity: RelativeHumidity,
    /// Moisture content of the outer layer of the framing, share of dry mass.
    pub wood_moisture: Ratio,
    /// Moisture content of the core of the framing.
    pub wood_core: Ratio,
    /// Coldest surface: of the bands and the ground cover.
    pub coldest_surface: ThermodynamicTemperature,
    /// Whether water condensed on a wall band in the hour.
    pub wall_condenses: bool,
    /// Whether water condensed on the ground cover.
    pub cover_condenses: bool,
    /// Whether the air was over saturation at the framing.
    pub wood_condenses: bool,
    /// Condensate held on walls and cover.
    pub condensate: Mass,
    /// Water removed by the dehumidifier in the hour.
    pub dehumidifier: Mass,
    /// Water that came from the ground in the hour: sheet, laps and bare soil.
    pub ground_water: Mass,
    /// Mold index of the framing, from a clean start at the first hour.
    pub mold: MoldIndex,
}

impl ZoneHour {
    /// Whether water condensed anywhere in the hour.
    #[must_use]
    pub fn condenses(&self) -> bool {
        self.wall_condenses || self.cover_condenses || self.wood_condenses
    }
}

/// One month, in the order run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneMonth {
    /// Month, 1 to 12.
    pub month: u8,
    /// Hours of the month in the run.
    pub hours: u32,
    /// Mean outside temperature.
    pub outside: ThermodynamicTemperature,
    /// Mean air temperature.
    pub air: ThermodynamicTemperature,
    /// Mean relative humidity of the air.
    pub humidity: RelativeHumidity,
    /// Highest relative humidity of the air.
    pub highest_humidity: RelativeHumidity,
    /// Mean moisture content of the framing's outer layer.
    pub wood_moisture: Ratio,
    /// Highest moisture content of the framing's outer layer.
    pub highest_wood_moisture: Ratio,
    /// Hours in which water condensed somewhere.
    pub condensing_hours: u32,
    /// Water removed by the dehumidifier, mean per day.
    pub dehumidifier_per_day: Mass,
    /// Water from the ground, mean per day.
    pub ground_water_per_day: Mass,
    /// Mold index at the end of the month.
    pub mold: MoldIndex,
}

/// One wall band over the year.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneBandYear {
    /// Name of the band.
    pub name: String,
    /// Lowest surface temperature.
    pub coldest: ThermodynamicTemperature,
    /// Highest relative humidity at the surface.
    pub highest_humidity: RelativeHumidity,
    /// Hours in which water condensed on it.
    pub condensing_hours: u32,
}

/// Water over the year by path, positive into the air of the space.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterTotals {
    /// Through the sheet.
    pub sheet: Mass,
    /// Through open laps.
    pub laps: Mass,
    /// From bare soil.
    pub bare_soil: Mass,
    /// Through the walls.
    pub walls: Mass,
    /// With outside air.
    pub outside_air: Mass,
    /// With house air.
    pub house_air: Mass,
    /// From drying materials.
    pub release: Mass,
    /// Removed by the dehumidifier (negative).
    pub dehumidifier: Mass,
    /// Run off into bare ground (negative).
    pub drained: Mass,
    /// Gained by air, framing and films from first to last hour.
    pub stored: Mass,
    /// What does not close, over the sum of all flows hour by hour.
    pub residual: Ratio,
}

/// Heat over the year by path, positive into the space.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatTotals {
    /// Through wall bands, above and below grade.
    pub walls: Energy,
    /// Through the floor of the space to the ground.
    pub ground: Energy,
    /// From the house through the floor above.
    pub house: Energy,
    /// With air from outside and from the house.
    pub air: Energy,
    /// From equipment.
    pub equipment: Energy,
    /// Gained by all masses from first to last hour.
    pub stored: Energy,
    /// What does not close, over the sum of all flows hour by hour.
    pub residual: Ratio,
}

/// How the repeating state was reached.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SpinUp {
    /// Years run before the reported one.
    pub years: u32,
    /// Whether the state repeated within the tolerance (0.02 K, 0.02 % moisture content). It may
    /// not where condensate builds up from year to year.
    pub settled: bool,
}

/// A year in the crawl space.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneYear {
    /// Name of the scenario.
    pub scenario: String,
    /// How the weather came about.
    pub origin: WeatherOrigin,
    /// Hours in the order run.
    pub hours: Vec<ZoneHour>,
    /// Months in the order run.
    pub months: Vec<ZoneMonth>,
    /// Wall bands in the order of the crawl space.
    pub bands: Vec<ZoneBandYear>,
    /// Water by path.
    pub water: WaterTotals,
    /// Heat by path.
    pub heat: HeatTotals,
    /// How the repeating state was reached.
    pub spin_up: SpinUp,
}

/// The largest part of a balance that may stay open: one in a thousand.
pub const CLOSURE: f64 = 1.0e-3;

impl ZoneYear {
    /// Hours in which water condensed on a wall, on the ground cover or on the framing.
    #[must_use]
    pub fn condensing_hours(&self) -> u32 {
        count(self.hours.iter().filter(|h| h.condenses()).count())
    }

    /// Hours in which the relative humidity of the air was over a limit.
    #[must_use]
    pub fn hours_over(&self, limit: RelativeHumidity) -> u32 {
        count(self.hours.iter().filter(|h| h.humidity > limit).count())
    }

    /// Highest moisture content of the framing's outer layer.
    #[must_use]
    pub fn highest_wood_moisture(&self) -> Ratio {
        self.hours.iter().map(|h| h.wood_moisture).fold(crate::quantity::ratio(0.0), |a, b| if b > a { b } else { a })
    }

    /// Highest mold index of the framing.
    #[must_use]
    pub fn highest_mold(&self) -> MoldIndex {
        self.hours.iter().map(|h| h.mold).fold(MoldIndex::default(), |a, b| if b > a { b } else { a })
    }

    /// Most water the dehumidifier removed in any 24 hours that begin at the run's midnight.
    #[must_use]
    pub fn busiest_dehumidifier_day(&self) -> Mass {
        self.hours
            .chunks(24)
            .map(|day| day.iter().map(|h| h.dehumidifier).sum::<Mass>())
            .fold(Mass::default(), |a, b| if b > a { b } else { a })
    }

    /// Refuses a year whose balance of heat or water stays open by more than [`CLOSURE`].
    pub(crate) fn close(self) -> Result<Self> {
        for (what, residual) in [("heat", self.heat.residual), ("water", self.water.residual)] {
            if residual.value.is_nan() || residual.value > CLOSURE {
                return Err(PhysicsError::NoSolution {
                    what: format!("{what} balance of {}", self.scenario).into(),
                    why: format!("{:e} of the flow does not close", residual.value).into(),
                });
            }
        }
        Ok(self)
    }
}

fn count(hours: usize) -> u32 {
    u32::try_from(hours).unwrap_or(u32::MAX)
}
