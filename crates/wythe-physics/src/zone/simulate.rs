//! Runs a scenario through a year of weather: spin-up until the year repeats, then the reported
//! year.

use super::curve::Curves;
use super::forcing::{Hour, prepare};
use super::moisture::{Moved, Paths, Water, WaterDrive};
use super::result::{SpinUp, ZoneHour, ZoneYear};
use super::scenario::{Beginning, Scenario};
use super::space::{CrawlSpace, Exposure};
use super::tally::{Tally, kilograms, months};
use super::thermal::{Drive, Energy, Network, Temperatures};
use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::mold::class::{Decline, Sensitivity};
use crate::mold::growth::MoldSurface;
use crate::quantity::{RelativeHumidity, ZERO_CELSIUS, celsius, ratio};
use crate::weather::WeatherYear;

/// Most years of spin-up.
const MOST_YEARS: u32 = 12;
/// The year repeats when no temperature moved more than this, K, and no moisture content more
/// than that, share of dry mass.
const SAME_TEMPERATURE: f64 = 0.02;
const SAME_MOISTURE: f64 = 2.0e-4;
/// Specific heat of air, J/(kg·K).
const AIR_HEAT: f64 = 1_006.0;
/// Heat of evaporation near 15 °C, J/kg.
const EVAPORATION: f64 = 2.466e6;
const HOUR: f64 = 3_600.0;

struct Run<'a> {
    network: Network,
    paths: Paths,
    curves: Curves,
    hours: Vec<Hour>,
    weather: &'a WeatherYear,
    scenario: &'a Scenario,
    sensitivity: (Sensitivity, Decline),
    /// J of heat per kg removed by the dehumidifier.
    heat_of_removal: f64,
}

#[derive(Clone)]
struct State {
    temperatures: Temperatures,
    water: Water,
    /// W left by the dehumidifier from the hour before.
    gain: f64,
    at_bands: Vec<f64>,
    in_masonry: Vec<f64>,
}

/// Runs one scenario through a year, repeating years until one ends as it began.
///
/// # Errors
/// Inadmissible inputs, named; or a balance that does not close within 0.1 %.
pub fn simulate(space: &CrawlSpace, scenario: &Scenario, weather: &WeatherYear) -> Result<ZoneYear> {
    let network = Network::new(space, scenario)?;
    let paths = Paths::new(space, scenario)?;
    let hours = prepare(&network, scenario, weather)?;
    let heat_of_removal = match &scenario.dehumidifier {
        None => 0.0,
        Some(machine) => {
            let efficiency = admit::positive("dehumidifier efficiency", machine.efficiency.value, "kg/J")?;
            EVAPORATION + 1.0 / efficiency
        }
    };
    let run = Run {
        network,
        paths,
        curves: Curves::new(),
        hours,
        weather,
        scenario,
        sensitivity: (space.wood.sensitivity, space.wood.decline),
        heat_of_removal,
    };
    let mean = weather.yearly_wave().mean.value - ZERO_CELSIUS;
    let start = run.network.uniform(mean + 2.0);
    let bands = run.network.bands.len();
    let mut state = State {
        water: run.paths.start(run.curves, start.air, 0.65),
        temperatures: start,
        gain: 0.0,
        at_bands: vec![0.0; bands],
        in_masonry: vec![0.0; bands],
    };
    let mut spin_up = SpinUp { years: 0, settled: false };
    while spin_up.years < MOST_YEARS && !spin_up.settled {
        let before = state.clone();
        for hour in &run.hours {
            run.step(&mut state, hour, 0.0);
        }
        spin_up.years += 1;
        spin_up.settled = repeats(&before, &state);
    }
    let first = run.begin(&mut state)?;
    run.report(state, first, space, spin_up)?.close()
}

fn repeats(before: &State, after: &State) -> bool {
    let (a, b) = (&before.temperatures, &after.temperatures);
    let pairs =
        a.soil.iter().zip(&b.soil).chain(a.bands.iter().zip(&b.bands)).chain([(&a.air, &b.air), (&a.wood, &b.wood)]);
    pairs.into_iter().all(|(x, y)| (x - y).abs() < SAME_TEMPERATURE)
        && (before.water.core - after.water.core).abs() < SAME_MOISTURE
        && (before.water.surface - after.water.surface).abs() < SAME_MOISTURE
}

impl Run<'_> {
    /// One hour: heat with the gain of the hour before, then water at the new temperatures.
    fn step(&self, state: &mut State, hour: &Hour, release: f64) -> (Energy, Moved) {
        let energy = self.network.step(
            &mut state.temperatures,
            &Drive {
                outside: hour.outside,
                house: hour.house,
                ground_floor: hour.ground_floor,
                ground_walls: hour.ground_walls,
                air_outside: hour.air_outside * AIR_HEAT,
                air_house: hour.air_house * AIR_HEAT,
                gain: state.gain,
                step: HOUR,
            },
        );
        let t = &state.temperatures;
        for (index, band) in self.network.bands.iter().enumerate() {
            let masonry = t.bands[index];
            state.at_bands[index] = self.curves.saturation(band_surface(band.film_share, t.air, masonry));
            // Masonry in the ground stands wet; above grade it follows the outside air.
            state.in_masonry[index] = match band.exposure {
                Exposure::Ground => self.curves.saturation(masonry),
                Exposure::Air => hour.outside_vapor.min(self.curves.saturation(masonry)),
            };
        }
        let soil_surface = t.air + self.network.cover_share * (t.soil[0] - t.air);
        let drive = WaterDrive {
            step: HOUR,
            atmosphere: hour.atmosphere,
            outside_vapor: hour.outside_vapor,
            house_vapor: hour.house_vapor,
            air_outside: hour.air_outside,
            air_house: hour.air_house,
            release,
            at_air: self.curves.saturation(t.air),
            at_wood: self.curves.saturation(t.wood),
            at_soil: self.curves.saturation(soil_surface),
            at_cover: self.curves.saturation(self.cover_surface(t)),
            air_kelvin: t.air + ZERO_CELSIUS,
        };
        let moved = self.paths.step(self.curves, &mut state.water, &drive, &state.at_bands, &state.in_masonry);
        state.gain = -moved.dehumidifier / HOUR * self.heat_of_removal;
        (energy, moved)
    }

    fn cover_surface(&self, t: &Temperatures) -> f64 {
        t.air + self.network.film_share * (t.soil[0] - t.air)
    }

    /// Sets the state of the first reported hour and returns its index.
    fn begin(&self, state: &mut State) -> Result<usize> {
        match self.scenario.beginning {
            Beginning::Periodic => Ok(0),
            Beginning::Built { hour, wood_moisture } => {
                if hour >= self.hours.len() {
                    return Err(PhysicsError::Contradiction {
                        what: "first hour".into(),
                        why: "is beyond the weather year".into(),
                    });
                }
                let moisture = admit::within("moisture content of the framing", wood_moisture.value, 0.0, 2.0, "")?;
                for skipped in &self.hours[..hour] {
                    self.step(state, skipped, 0.0);
                }
                state.water.surface = moisture;
                state.water.core = moisture;
                Ok(hour)
            }
        }
    }

    /// Runs and records the reported year.
    fn report(&self, mut state: State, first: usize, space: &CrawlSpace, spin_up: SpinUp) -> Result<ZoneYear> {
        let release = match &self.scenario.release {
            None => None,
            Some(r) => Some((
                admit::not_negative("built-in water", r.total.value, "kg")?,
                admit::positive("time constant of drying", r.time_constant.value, "s")?,
            )),
        };
        let mut mold = MoldSurface::clean(self.sensitivity.0, self.sensitivity.1);
        let mut tally = Tally::new(space);
        let mut hours = Vec::with_capacity(self.hours.len());
        let order = (first..self.hours.len()).chain(0..first);
        for (n, index) in order.enumerate() {
            let hour = &self.hours[index];
            let released = release.map_or(0.0, |(total, tau)| {
                // The exact amount that decays within the hour.
                let at = |k: usize| (-(k as f64) * HOUR / tau).exp();
                total * (at(n) - at(n + 1)) / HOUR
            });
            let (energy, moved) = self.step(&mut state, hour, released);
            tally.add(&energy, &moved);
            let t = &state.temperatures;
            let w = &state.water;
            let mut coldest = self.cover_surface(t);
            for (b, band) in self.network.bands.iter().enumerate() {
                let surface = band_surface(band.film_share, t.air, t.bands[b]);
                coldest = coldest.min(surface);
                tally.band(b, surface, w.pressure / state.at_bands[b]);
            }
            let wood_humidity = self.curves.humidity(w.surface).0;
            mold.hour(t.wood, 100.0 * wood_humidity);
            let weather = &self.weather.hours()[index];
            hours.push(ZoneHour {
                month: weather.month,
                day: weather.day,
                hour: weather.hour,
                outside: weather.temperature,
                air: celsius(t.air),
                humidity: RelativeHumidity::clamped(w.pressure / self.curves.saturation(t.air)),
                wood: celsius(t.wood),
                wood_humidity: RelativeHumidity::clamped(wood_humidity),
                wood_moisture: ratio(w.surface),
                wood_core: ratio(w.core),
                coldest_surface: celsius(coldest),
                wall_condenses: moved.condensed_walls > WETTING,
                cover_condenses: moved.condensed_cover > WETTING,
                wood_condenses: moved.wood_wet,
                condensate: kilograms(w.bands.iter().sum::<f64>() + w.cover),
                dehumidifier: kilograms(-moved.dehumidifier),
                ground_water: kilograms(moved.sheet + moved.laps + moved.bare),
                mold: mold.index(),
            });
        }
        Ok(ZoneYear {
            scenario: self.scenario.name.clone(),
            origin: self.weather.origin(),
            months: months(&hours),
            hours,
            water: tally.water(),
            heat: tally.heat(),
            bands: tally.bands,
            spin_up,
        })
    }
}

/// Condensation of less than this in an hour is rounding, kg.
const WETTING: f64 = 1.0e-6;

fn band_surface(film_share: f64, air: f64, masonry: f64) -> f64 {
    air + film_share * (masonry - air)
}
