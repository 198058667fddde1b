//! Ranges for the crawl space: the inputs that are seldom known, and the outcomes that matter.

use uom::si::f64::{MassDensity, Ratio, ThermalConductivity, VolumeRate};

use super::sample::{Parameter, SamplePlan, even, logarithmic, sample};
use super::spread::{Outcome, Spread};
use crate::error::Result;
use crate::weather::WeatherYear;
use crate::zone::result::ZoneYear;
use crate::zone::scenario::Scenario;
use crate::zone::simulate::simulate;
use crate::zone::space::CrawlSpace;

/// What is varied.
#[derive(Debug, Clone)]
pub struct CrawlCase {
    /// The crawl space.
    pub space: CrawlSpace,
    /// How it is kept.
    pub scenario: Scenario,
}

/// Soil conductivity over a range.
#[must_use]
pub fn soil_conductivity(low: ThermalConductivity, high: ThermalConductivity) -> Parameter<CrawlCase> {
    Parameter::new("soil conductivity", move |case: &mut CrawlCase, at| {
        case.space.soil.conductivity = even(low, high, at);
    })
}

/// Lap quality: the share of the laps left open.
#[must_use]
pub fn open_laps(low: Ratio, high: Ratio) -> Parameter<CrawlCase> {
    Parameter::new("open laps", move |case: &mut CrawlCase, at| {
        case.scenario.cover.open_laps = even(low, high, at);
    })
}

/// Share of the floor left bare; over decades.
#[must_use]
pub fn unsealed_share(low: Ratio, high: Ratio) -> Parameter<CrawlCase> {
    Parameter::new("unsealed share", move |case: &mut CrawlCase, at| {
        case.scenario.cover.unsealed = logarithmic(low, high, at);
    })
}

/// Leakage of outside air; over decades.
#[must_use]
pub fn leakage(low: VolumeRate, high: VolumeRate) -> Parameter<CrawlCase> {
    Parameter::new("leakage", move |case: &mut CrawlCase, at| {
        case.scenario.leakage = logarithmic(low, high, at);
    })
}

/// Density of the framing.
#[must_use]
pub fn framing_density(low: MassDensity, high: MassDensity) -> Parameter<CrawlCase> {
    Parameter::new("framing density", move |case: &mut CrawlCase, at| {
        case.space.wood.density = even(low, high, at);
    })
}

/// The outcomes of a year that a range is given for.
#[must_use]
pub fn outcomes(year: &ZoneYear) -> Vec<Outcome> {
    let of = |name, unit, value| Outcome { name, unit, value };
    let hours = year.hours.len().max(1) as f64;
    let mean_humidity = year.hours.iter().map(|h| h.humidity.value()).sum::<f64>() / hours;
    vec![
        of("hours of condensation", "h", f64::from(year.condensing_hours())),
        of("mean relative humidity", "%", 100.0 * mean_humidity),
        of("highest wood moisture", "%", 100.0 * year.highest_wood_moisture().value),
        of("highest mold index", "", year.highest_mold().value()),
        of("dehumidifier water on the busiest day", "kg", year.busiest_dehumidifier_day().value),
        of("dehumidifier water in the year", "kg", -year.water.dehumidifier.value),
        of(
            "water from the ground in the year",
            "kg",
            (year.water.sheet + year.water.laps + year.water.bare_soil).value,
        ),
        of("heat to the ground in the year", "kWh", -year.heat.ground.value / 3.6e6),
        of("heat through the walls in the year", "kWh", -year.heat.walls.value / 3.6e6),
    ]
}

/// Samples a crawl space through a year of weather.
///
/// # Errors
/// As [`sample`] and [`simulate`].
pub fn crawl_spread(
    case: &CrawlCase,
    weather: &WeatherYear,
    ranges: &[Parameter<CrawlCase>],
    plan: SamplePlan,
) -> Result<Vec<Spread>> {
    sample(case, ranges, plan, |case| simulate(&case.space, &case.scenario, weather).map(|year| outcomes(&year)))
}
