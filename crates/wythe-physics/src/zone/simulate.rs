//! Runs a scenario through a year of weather: spin-up until the year repeats, then the reported
//! year.

use uom::si::f64::{Energy as EnergyQuantity, Mass};
use uom::si::{energy, mass};

use super::curve::Curves;
use super::moisture::{Moved, Paths, Water, WaterDrive};
use super::result::{HeatTotals, SpinUp, WaterTotals, ZoneBandYear, ZoneHour, ZoneMonth, ZoneYear};
use super::scenario::{Beginning, House, Scenario};
use super::space::{CrawlSpace, Exposure};
use super::thermal::{Drive, Energy, Network, Temperatures};
use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::heat::ground::periodic::YEAR_SECONDS;
use crate::heat::ground::suspended::vent_flow_share;
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

/// What one hour of weather does to the zone, worked out once for all years.
struct Hour {
    outside: f64,
    outside_vapor: f64,
    house: f64,
    house_vapor: f64,
    ground_floor: f64,
    ground_walls: f64,
    atmosphere: f64,
    /// kg/s of dry air.
    air_outside: f64,
    air_house: f64,
}

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

/// Works out every hour's drive.
fn prepare(network: &Network, scenario: &Scenario, weather: &WeatherYear) -> Result<Vec<Hour>> {
    let leakage = admit::not_negative("leakage", scenario.leakage.value, "m³/s")?;
    let supply = admit::not_negative("supply air", scenario.supply.value, "m³/s")?;
    let (exhaust, from_house) = match &scenario.exhaust {
        None => (0.0, 0.0),
        Some(fan) => (
            admit::not_negative("exhaust", fan.flow.value, "m³/s")?,
            admit::within("share of exhaust from the house", fan.from_house.value, 0.0, 1.0, "")?,
        ),
    };
    // Supply air makes up for exhaust first.
    let made_up = (exhaust - supply).max(0.0);
    let vents = match &scenario.vents {
        None => 0.0,
        Some(v) => admit::not_negative("vent area", v.net_area.value, "m²")? * vent_flow_share(v.shielding).value,
    };
    let house = HouseRule::new(&scenario.house)?;
    let wave = weather.yearly_wave();
    let (mean, amplitude) = (wave.mean.value - ZERO_CELSIUS, wave.amplitude.value);
    let (floor, walls) = network.swings();
    let count = weather.hours().len() as f64;
    let curves = Curves::new();
    Ok(weather
        .hours()
        .iter()
        .enumerate()
        .map(|(index, hour)| {
            let outside = hour.temperature.value - ZERO_CELSIUS;
            let outside_vapor = hour.vapor_pa().min(curves.saturation(outside));
            let (house, house_vapor) = house.at(outside, outside_vapor, curves);
            let year = (index as f64 + 0.5) / count - wave.coldest.value;
            let ground = |swing: &crate::heat::ground::periodic::OutsideSwing| {
                let lag = swing.lag.value / YEAR_SECONDS;
                mean - swing.share.value * amplitude * (std::f64::consts::TAU * (year - lag)).cos()
            };
            let density = |t: f64| hour.pressure.value / (287.042 * (t + ZERO_CELSIUS));
            let outside_flow = leakage + vents * hour.wind.value + made_up * (1.0 - from_house);
            let house_flow = supply + made_up * from_house;
            Hour {
                outside,
                outside_vapor,
                house,
                house_vapor,
                ground_floor: ground(&floor),
                ground_walls: ground(&walls),
                atmosphere: hour.pressure.value,
                air_outside: outside_flow * density(outside),
                air_house: house_flow * density(house),
            }
        })
        .collect())
}

/// The house in plain numbers.
enum HouseRule {
    Open,
    Conditioned { heating: f64, cooling: f64, excess: f64, highest: f64 },
}

impl HouseRule {
    fn new(house: &House) -> Result<Self> {
        Ok(match house {
            House::Open => Self::Open,
            House::Conditioned { heating, cooling, moisture_excess, highest_humidity } => {
                let low = admit::within("heating temperature", heating.value - ZERO_CELSIUS, -20.0, 40.0, "°C")?;
                let high = admit::within("cooling temperature", cooling.value - ZERO_CELSIUS, -20.0, 50.0, "°C")?;
                if high < low {
                    return Err(PhysicsError::Contradiction {
                        what: "cooling temperature".into(),
                        why: "is below the heating temperature".into(),
                    });
                }
                Self::Conditioned {
                    heating: low,
                    cooling: high,
                    excess: admit::within("moisture excess of the house", moisture_excess.value, 0.0, 3_000.0, "Pa")?,
                    highest: highest_humidity.value(),
                }
            }
        })
    }

    /// Temperature (°C) and vapor pressure (Pa) of the house air.
    fn at(&self, outside: f64, outside_vapor: f64, curves: Curves) -> (f64, f64) {
        match *self {
            Self::Open => (outside, outside_vapor),
            Self::Conditioned { heating, cooling, excess, highest } => {
                let t = outside.clamp(heating, cooling);
                let limit = highest * curves.saturation(t);
                (t, (outside_vapor + excess).min(limit))
            }
        }
    }
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

fn kilograms(value: f64) -> Mass {
    Mass::new::<mass::kilogram>(value)
}

fn joules(value: f64) -> EnergyQuantity {
    EnergyQuantity::new::<energy::joule>(value)
}

/// Sums over the reported year.
struct Tally {
    energy: Energy,
    energy_flow: f64,
    moved: Moved,
    water_flow: f64,
    bands: Vec<ZoneBandYear>,
}

impl Tally {
    fn new(space: &CrawlSpace) -> Self {
        Self {
            energy: Energy::default(),
            energy_flow: 0.0,
            moved: Moved::default(),
            water_flow: 0.0,
            bands: space
                .bands
                .iter()
                .map(|band| ZoneBandYear {
                    name: band.name.clone(),
                    coldest: celsius(200.0),
                    highest_humidity: RelativeHumidity::DRY,
                    condensing_hours: 0,
                })
                .collect(),
        }
    }

    fn add(&mut self, e: &Energy, m: &Moved) {
        let sum = &mut self.energy;
        sum.walls += e.walls;
        sum.ground += e.ground;
        sum.house += e.house;
        sum.air += e.air;
        sum.equipment += e.equipment;
        sum.stored += e.stored;
        self.energy_flow += e.walls.abs() + e.ground.abs() + e.house.abs() + e.air.abs() + e.equipment.abs();
        let sum = &mut self.moved;
        for (total, part) in [
            (&mut sum.sheet, m.sheet),
            (&mut sum.laps, m.laps),
            (&mut sum.bare, m.bare),
            (&mut sum.walls, m.walls),
            (&mut sum.outside, m.outside),
            (&mut sum.house, m.house),
            (&mut sum.release, m.release),
            (&mut sum.dehumidifier, m.dehumidifier),
            (&mut sum.drained, m.drained),
        ] {
            *total += part;
            self.water_flow += part.abs();
        }
        sum.stored += m.stored;
    }

    fn band(&mut self, index: usize, surface: f64, humidity: f64) {
        let band = &mut self.bands[index];
        if celsius(surface) < band.coldest {
            band.coldest = celsius(surface);
        }
        let here = RelativeHumidity::clamped(humidity);
        if here > band.highest_humidity {
            band.highest_humidity = here;
        }
        if humidity > 1.0 + 1e-9 {
            band.condensing_hours += 1;
        }
    }

    fn water(&self) -> WaterTotals {
        let m = &self.moved;
        let sum = m.sheet + m.laps + m.bare + m.walls + m.outside + m.house + m.release + m.dehumidifier + m.drained;
        WaterTotals {
            sheet: kilograms(m.sheet),
            laps: kilograms(m.laps),
            bare_soil: kilograms(m.bare),
            walls: kilograms(m.walls),
            outside_air: kilograms(m.outside),
            house_air: kilograms(m.house),
            release: kilograms(m.release),
            dehumidifier: kilograms(m.dehumidifier),
            drained: kilograms(m.drained),
            stored: kilograms(m.stored),
            residual: ratio((sum - m.stored).abs() / self.water_flow.max(1e-12)),
        }
    }

    fn heat(&self) -> HeatTotals {
        let e = &self.energy;
        let sum = e.walls + e.ground + e.house + e.air + e.equipment;
        HeatTotals {
            walls: joules(e.walls),
            ground: joules(e.ground),
            house: joules(e.house),
            air: joules(e.air),
            equipment: joules(e.equipment),
            stored: joules(e.stored),
            residual: ratio((sum - e.stored).abs() / self.energy_flow.max(1e-12)),
        }
    }
}

/// Summaries of runs of hours in one month; a year begun in mid-month gives that month twice.
fn months(hours: &[ZoneHour]) -> Vec<ZoneMonth> {
    hours
        .chunk_by(|a, b| a.month == b.month)
        .map(|part| {
            let count = part.len() as f64;
            let mean = |of: fn(&ZoneHour) -> f64| part.iter().map(of).sum::<f64>() / count;
            let most = |of: fn(&ZoneHour) -> f64| part.iter().map(of).fold(0.0, f64::max);
            let days = count / 24.0;
            ZoneMonth {
                month: part[0].month,
                hours: u32::try_from(part.len()).unwrap_or(u32::MAX),
                outside: celsius(mean(|h| h.outside.value - ZERO_CELSIUS)),
                air: celsius(mean(|h| h.air.value - ZERO_CELSIUS)),
                humidity: RelativeHumidity::clamped(mean(|h| h.humidity.value())),
                highest_humidity: RelativeHumidity::clamped(most(|h| h.humidity.value())),
                wood_moisture: ratio(mean(|h| h.wood_moisture.value)),
                highest_wood_moisture: ratio(most(|h| h.wood_moisture.value)),
                condensing_hours: u32::try_from(part.iter().filter(|h| h.condenses()).count()).unwrap_or(u32::MAX),
                dehumidifier_per_day: kilograms(mean(|h| h.dehumidifier.value) * count / days),
                ground_water_per_day: kilograms(mean(|h| h.ground_water.value) * count / days),
                mold: part[part.len() - 1].mold,
            }
        })
        .collect()
}
