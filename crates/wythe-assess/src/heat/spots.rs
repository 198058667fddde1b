//! The cold spots in the coldest month, and a heating season.

use uom::si::energy::joule;
use uom::si::f64::{Energy, HeatTransfer, Ratio, ThermodynamicTemperature};
use wythe_model::{Foundation, OpeningKind, ThermalResistance};
use wythe_physics::PhysicsError;
use wythe_physics::heat::film::{inside_film_us, outside_film_us, sheltered_film};
use wythe_physics::heat::ground::crawl::CrawlState;
use wythe_physics::heat::series::series;
use wythe_physics::heat::surface::{MonthlyAir, surface_temperature, temperature_factor, worst_month};
use wythe_physics::quantity::{RelativeHumidity, fahrenheit, insulance_us};
use wythe_physics::weather::WeatherYear;
use wythe_physics::zone::result::ZoneYear;

use super::report::{HeatSeason, Spot, WallHeat};
use super::wall::resistance;
use super::{GroundHeat, LossPart, loss};
use crate::Assumptions;
use crate::assumption::ASSUMED;

/// The spots of a closed space; a vented one follows the outside and has none of its own.
pub(super) fn spots(
    f: &Foundation,
    walls: &[WallHeat],
    ground: &GroundHeat,
    weather: &WeatherYear,
    year: &ZoneYear,
    assumed: &mut Assumptions,
) -> Result<Vec<Spot>, PhysicsError> {
    if ground.state == CrawlState::Vented {
        return Ok(Vec::new());
    }
    let months = monthly_air(year);
    assumed.note("film at a cold spot", "0.25 m²·K/W", "ISO 13788:2012 clause 4.4.1");
    assumed.note("limit of humidity at a surface", "80 % over a month", "ISO 13788:2012 clause 5");
    let criterion = RelativeHumidity::percent(80.0)?;
    let coldest = coldest_month(weather);
    let mut out = Vec::new();
    let mut add = |name: String, u: HeatTransfer| -> Result<(), PhysicsError> {
        let factor = temperature_factor(u, sheltered_film())?;
        let worst = worst_month(factor, &months, criterion)?;
        let Some(air) = months.get(coldest) else { return Ok(()) };
        out.push(Spot {
            name,
            factor,
            coldest: surface_temperature(factor, air.inside, air.outside),
            worst_month: worst.month as u8 + 1,
            worst,
        });
        Ok(())
    };
    // A spot a kind of band is enough: of like walls the first stands for all.
    let mut known: Vec<(u64, bool)> = Vec::new();
    for wall in walls.iter().filter(|w| w.exposed) {
        for band in wall.bands.iter().filter(|b| b.above_grade) {
            // To a hundredth: anchors by the whole number differ a little from wall to wall.
            let key = ((band.transmittance.mid.value * 100.0).round() as u64, band.bare);
            if !known.contains(&key) {
                known.push(key);
                let what = if band.bare { "bare band" } else { "insulated wall" };
                add(format!("{what} of {}", wall.name), sheltered(band.transmittance.mid))?;
            }
        }
    }
    assumed.note("sill plate at a cold spot", SILL, ASSUMED);
    add("sill plate".into(), through(sill_plate())?)?;
    for (index, door) in f.openings.iter().enumerate().filter(|(_, o)| o.kind == OpeningKind::Access && !o.existing) {
        if let Some(r) = loss::plug(f, index).and_then(resistance) {
            add(format!("access door {}", door.name), through(r.mid)?)?;
        }
    }
    if !f.piers.is_empty() && ground.state == CrawlState::ClosedConditioned {
        assumed.note("foot of a pier at a cold spot", "as cold as the crawl floor beside it", ASSUMED);
        add("pier at its foot".into(), ground.chosen.floor.mid)?;
    }
    Ok(out)
}

/// How the sill plate stands between the space and the outside.
pub(crate) const SILL: &str = "2x6 softwood on the flat, R-6.9 from edge to edge";

/// The plate on the wall: softwood as deep as a 2x6, at an inch.
fn sill_plate() -> ThermalResistance {
    insulance_us(6.9)
}

/// The temperature factor of the sill plate with a sheltered film.
///
/// # Errors
/// None for the figures above; those of the series of layers in general.
pub(crate) fn sill_factor() -> Result<Ratio, PhysicsError> {
    temperature_factor(through(sill_plate())?, sheltered_film())
}

/// The transmittance with the sheltered film in the place of the inside one.
fn sheltered(u: HeatTransfer) -> HeatTransfer {
    HeatTransfer::from(1.0 / (ThermalResistance::from(1.0 / u) - inside_film_us() + sheltered_film()))
}

fn through(layer: ThermalResistance) -> Result<HeatTransfer, PhysicsError> {
    Ok(series(sheltered_film(), &[layer], outside_film_us())?.transmittance)
}

/// The space's own air and the outside, month by month from January.
pub(crate) fn monthly_air(year: &ZoneYear) -> Vec<MonthlyAir> {
    let mut months: Vec<(u8, MonthlyAir)> = year
        .months
        .iter()
        .map(|m| (m.month, MonthlyAir { inside: m.air, inside_humidity: m.humidity, outside: m.outside }))
        .collect();
    months.sort_by_key(|(month, _)| *month);
    months.into_iter().map(|(_, air)| air).collect()
}

/// The month with the lowest mean temperature, from 0.
fn coldest_month(weather: &WeatherYear) -> usize {
    let mean = |month: u8| {
        let hours = weather.hours().iter().filter(|h| h.month == month).map(|h| h.temperature.value);
        let (sum, count) = hours.fold((0.0, 0.0), |(sum, count), t| (sum + t, count + 1.0));
        if count > 0.0 { sum / count } else { f64::INFINITY }
    };
    (1..=12).min_by(|a, b| mean(*a).total_cmp(&mean(*b))).map_or(0, |m: u8| usize::from(m) - 1)
}

/// The base of degree days, at which a house needs no heat (common practice, no source).
fn base() -> ThermodynamicTemperature {
    fahrenheit(65.0)
}

/// A heating season by degree hours.
pub(super) fn season(walls: &[WallHeat], parts: &[LossPart], weather: &WeatherYear) -> HeatSeason {
    let hours: f64 = weather.hours().iter().map(|h| (base().value - h.temperature.value).max(0.0)).sum();
    let above = parts.iter().filter(|p| !p.ground);
    let above: f64 = above.map(|p| p.conductance.value).sum();
    let bare: f64 = walls.iter().filter(|w| w.exposed).filter_map(|w| w.bare.as_ref()).map(|b| b.extra.value).sum();
    let energy = |conductance: f64| Energy::new::<joule>(conductance * hours * 3_600.0);
    HeatSeason { degree_days: hours / 24.0, above_grade: energy(above), bare_bands: energy(bare) }
}
