//! What each hour of weather does to the zone: air streams, house and ground, worked out once for
//! all years of a run.

use super::curve::Curves;
use super::scenario::{House, Scenario};
use super::thermal::Network;
use crate::admit;
use crate::air::state::GAS_CONSTANT_DRY_AIR;
use crate::error::{PhysicsError, Result};
use crate::heat::ground::periodic::{OutsideSwing, YEAR_SECONDS};
use crate::heat::ground::suspended::vent_flow_share;
use crate::quantity::ZERO_CELSIUS;
use crate::weather::WeatherYear;

/// What one hour of weather does to the zone, worked out once for all years.
pub(super) struct Hour {
    pub(super) outside: f64,
    pub(super) outside_vapor: f64,
    pub(super) house: f64,
    pub(super) house_vapor: f64,
    pub(super) ground_floor: f64,
    pub(super) ground_walls: f64,
    pub(super) atmosphere: f64,
    /// kg/s of dry air.
    pub(super) air_outside: f64,
    pub(super) air_house: f64,
}

/// Works out every hour's drive.
pub(super) fn prepare(network: &Network, scenario: &Scenario, weather: &WeatherYear) -> Result<Vec<Hour>> {
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
            let ground = |swing: &OutsideSwing| {
                let lag = swing.lag.value / YEAR_SECONDS;
                mean - swing.share.value * amplitude * (std::f64::consts::TAU * (year - lag)).cos()
            };
            let density = |t: f64| hour.pressure.value / (GAS_CONSTANT_DRY_AIR * (t + ZERO_CELSIUS));
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
