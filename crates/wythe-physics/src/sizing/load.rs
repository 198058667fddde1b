//! The computed load: what a dehumidifier must remove, and the least air that keeps a limit.

use uom::si::f64::{Mass, MassRate, Ratio, ThermodynamicTemperature, VolumeRate};
use uom::si::{mass_rate, volume_rate};

use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::RelativeHumidity;
use crate::weather::WeatherYear;
use crate::zone::result::ZoneYear;
use crate::zone::scenario::{Dehumidifier, Exhaust, Scenario};
use crate::zone::simulate::simulate;
use crate::zone::space::CrawlSpace;

/// Water a dehumidifier must remove to hold its set point all year.
#[derive(Debug, Clone, PartialEq)]
pub struct DehumidifierLoad {
    /// Most water in one day.
    pub peak_day: Mass,
    /// Month of that day.
    pub peak_month: u8,
    /// Mean air temperature and humidity of that day.
    pub air: ThermodynamicTemperature,
    /// Mean relative humidity of that day.
    pub humidity: RelativeHumidity,
    /// Rating, at the machine's rating condition, that removes the peak at that day's air.
    pub rating: MassRate,
    /// Water removed over the year.
    pub year: Mass,
}

/// Removes as much as it must: ten tonnes a day at the rating, which no crawl space needs.
const UNLIMITED: f64 = 10_000.0 / 86_400.0;

/// Runs the space with an unlimited machine of the given type and reads off its busiest day.
///
/// # Errors
/// As [`simulate`]; air at the peak so dry that the machine removes nothing.
pub fn dehumidifier_load(
    space: &CrawlSpace,
    scenario: &Scenario,
    weather: &WeatherYear,
    machine: &Dehumidifier,
) -> Result<DehumidifierLoad> {
    let mut unlimited = scenario.clone();
    unlimited.dehumidifier =
        Some(Dehumidifier { rated: MassRate::new::<mass_rate::kilogram_per_second>(UNLIMITED), ..*machine });
    let year = simulate(space, &unlimited, weather)?;
    let water = |day: &[crate::zone::result::ZoneHour]| day.iter().map(|h| h.dehumidifier).sum::<Mass>();
    let Some(peak) = year.hours.chunks(24).max_by(|a, b| water(a).value.total_cmp(&water(b).value)) else {
        return Err(PhysicsError::Empty { what: "weather year".into() });
    };
    let hours = peak.len() as f64;
    let t = peak.iter().map(|h| h.air.value).sum::<f64>() / hours;
    let humidity = peak.iter().map(|h| h.humidity.value()).sum::<f64>() / hours;
    let peak_day = water(peak);
    let air = crate::quantity::kelvin(t);
    let vapor = crate::air::saturation::saturation(air)? * crate::quantity::ratio(humidity);
    // Share of its rating that the machine reaches in that air.
    let share = (machine.capacity(vapor)? / machine.rated).value;
    let rating = if peak_day.value > 0.0 {
        let share = admit::positive("capacity of the dehumidifier at the peak", share, "")?;
        peak_day.value / (hours * 3_600.0) / share
    } else {
        0.0
    };
    Ok(DehumidifierLoad {
        peak_day,
        peak_month: peak[0].month,
        air,
        humidity: RelativeHumidity::clamped(humidity),
        rating: MassRate::new::<mass_rate::kilogram_per_second>(rating),
        year: water(&year.hours),
    })
}

/// How air is moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AirMeans {
    /// House air blown in.
    Supply,
    /// Crawl air drawn out, a share of the air that follows coming from the house.
    Exhaust {
        /// That share.
        from_house: Ratio,
    },
}

/// What the air must achieve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HumidityLimit {
    /// Relative humidity of the crawl air.
    pub humidity: RelativeHumidity,
    /// Hours of the year in which it may be passed.
    pub hours: u32,
}

/// The least air that keeps the limit, found by halving.
#[derive(Debug, Clone, PartialEq)]
pub struct LeastAir {
    /// The flow, within one part in a thousand of the highest tried.
    pub flow: VolumeRate,
    /// The year at that flow.
    pub year: ZoneYear,
}

/// Finds the least flow up to `highest` that keeps the limit; none if even the highest does not.
/// It takes more air as never worse, which holds for house air drier than the limit.
///
/// # Errors
/// As [`simulate`]; a highest flow that is not positive.
pub fn least_air(
    space: &CrawlSpace,
    scenario: &Scenario,
    weather: &WeatherYear,
    means: AirMeans,
    limit: HumidityLimit,
    highest: VolumeRate,
) -> Result<Option<LeastAir>> {
    let top = admit::positive("highest flow", highest.value, "m³/s")?;
    let run = |flow: f64| {
        let mut tried = scenario.clone();
        let flow = VolumeRate::new::<volume_rate::cubic_meter_per_second>(flow);
        match means {
            AirMeans::Supply => tried.supply = flow,
            AirMeans::Exhaust { from_house } => tried.exhaust = Some(Exhaust { flow, from_house }),
        }
        simulate(space, &tried, weather)
    };
    let keeps = |year: &ZoneYear| year.hours_over(limit.humidity) <= limit.hours;
    let still = run(0.0)?;
    if keeps(&still) {
        return Ok(Some(LeastAir { flow: VolumeRate::default(), year: still }));
    }
    let mut best = run(top)?;
    if !keeps(&best) {
        return Ok(None);
    }
    let (mut low, mut high) = (0.0, top);
    while high - low > 1e-3 * top {
        let middle = 0.5 * (low + high);
        let year = run(middle)?;
        if keeps(&year) {
            high = middle;
            best = year;
        } else {
            low = middle;
        }
    }
    Ok(Some(LeastAir { flow: VolumeRate::new::<volume_rate::cubic_meter_per_second>(high), year: best }))
}
