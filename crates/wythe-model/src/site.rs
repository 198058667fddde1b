//! The site: what the place imposes.

use std::sync::Arc;

use uom::si::f64::{Length, ThermalConductivity};
use wythe_source::{Span, Symbol};

use crate::Interval;

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
    /// The weather file, relative to the declaring file, and how it is read (`monthly` or `hourly`).
    pub climate: Option<ClimateFile>,
}

/// A weather file.
#[derive(Clone, Debug, PartialEq)]
pub struct ClimateFile {
    /// The path as written.
    pub path: Arc<str>,
    /// How it is read.
    pub reading: ClimateReading,
    /// Where it is named.
    pub origin: Span,
}

/// How a weather file is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClimateReading {
    /// Twelve monthly normals.
    Monthly,
    /// A year of hours.
    Hourly,
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
