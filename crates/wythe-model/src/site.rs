//! The site: what the place imposes.

use std::sync::Arc;

use uom::si::f64::{Length, Ratio, TemperatureInterval, ThermalConductivity, ThermodynamicTemperature, Velocity};
use wythe_source::{Span, Symbol};

use crate::{Interval, WeatherColumns};

/// A building site.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// Its name.
    pub name: Symbol,
    /// Where it is declared.
    pub origin: Span,
    /// Its climate zone as the energy code numbers it, such as `zone_4a`.
    pub climate_zone: Option<Symbol>,
    /// How likely termites are.
    pub termite_hazard: Hazard,
    /// How the soil conducts heat.
    pub soil_conductivity: Option<Interval<ThermalConductivity>>,
    /// Where ground water stands.
    pub water_table: Option<Symbol>,
    /// How deep frost goes.
    pub frost_depth: Option<Length>,
    /// Whether the house stands in a flood hazard area.
    pub flood_hazard: bool,
    /// Whether radon is to be expected.
    pub radon: bool,
    /// Whether asbestos, lead paint, an old fuel tank or the like is to be expected in the old work.
    pub old_materials: bool,
    /// Height above sea level.
    pub altitude: Option<Length>,
    /// The weather file, relative to the declaring file, and how it is read (`monthly` or `hourly`).
    pub climate: Option<ClimateFile>,
    /// Whether the site names weather that could not be made out, which has been told.
    pub climate_unclear: bool,
}

/// A weather file.
#[derive(Clone, Debug, PartialEq)]
pub struct ClimateFile {
    /// The path as written; empty where the site states its months.
    pub path: Arc<str>,
    /// How it is read.
    pub reading: ClimateReading,
    /// Height of the site above sea level, where it is known: the pressure of files that give none.
    pub altitude: Option<Length>,
    /// Where it is named.
    pub origin: Span,
}

/// How a weather file is read.
#[derive(Clone, Debug, PartialEq)]
pub enum ClimateReading {
    /// Twelve monthly normals in a CSV.
    Monthly,
    /// A year of hours in a known format.
    Hourly,
    /// A year of hours in a CSV whose columns the site names.
    Mapped(Arc<WeatherColumns>),
    /// Twelve monthly normals that the site itself states; there is no file.
    Stated(Arc<StatedMonths>),
}

/// Monthly normals as written at the site, each list from January; their number is as written.
#[derive(Clone, Debug, PartialEq)]
pub struct StatedMonths {
    /// Mean temperatures.
    pub temperature: Vec<ThermodynamicTemperature>,
    /// Mean relative humidities.
    pub relative_humidity: Option<Vec<Ratio>>,
    /// Mean dew points, where no humidity is given.
    pub dew_point: Option<Vec<ThermodynamicTemperature>>,
    /// Highest less lowest temperature of a mean day.
    pub daily_range: Option<Vec<TemperatureInterval>>,
    /// Mean winds.
    pub wind: Option<Vec<Velocity>>,
}

/// How likely termites are.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord, Default)]
pub enum Hazard {
    /// None known.
    #[default]
    NoneKnown,
    /// Slight.
    Slight,
    /// Moderate.
    Moderate,
    /// Heavy.
    Heavy,
    /// Very heavy.
    VeryHeavy,
}
