//! A year of hourly weather, admitted: what a reader of weather files hands to the zone.

use uom::si::f64::{Pressure, Ratio, ThermodynamicTemperature, Velocity};

use crate::admit;
use crate::air::saturation::saturation_over_water_pa;
use crate::error::{PhysicsError, Result};
use crate::quantity::{RelativeHumidity, ZERO_CELSIUS, celsius, ratio};

/// Weather of one hour. Relative humidity is over liquid water at every temperature, as weather
/// services report it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeatherHour {
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, from 1.
    pub day: u8,
    /// Hour of the day, 0 to 23.
    pub hour: u8,
    /// Air temperature.
    pub temperature: ThermodynamicTemperature,
    /// Relative humidity over water.
    pub humidity: RelativeHumidity,
    /// Pressure at the station.
    pub pressure: Pressure,
    /// Wind speed.
    pub wind: Velocity,
}

/// How a year of hours came about, to be printed with every result from it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum WeatherOrigin {
    /// Hours read from a file of hours.
    Hourly,
    /// Hours made from monthly normals by a daily swing: real years are more variable.
    SynthesizedFromMonths,
}

/// A year of consecutive hours.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherYear {
    hours: Vec<WeatherHour>,
    origin: WeatherOrigin,
}

/// The yearly wave of the outside temperature: mean and first harmonic.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct YearlyWave {
    /// Mean temperature of the year.
    pub mean: ThermodynamicTemperature,
    /// Amplitude of the first harmonic.
    pub amplitude: uom::si::f64::TemperatureInterval,
    /// Share of the year, from its first hour, at which the wave is lowest.
    pub coldest: Ratio,
}

impl WeatherYear {
    /// Admits a year of 8760 or 8784 hours.
    ///
    /// # Errors
    /// A wrong number of hours, a calendar field out of range, temperatures outside −70 to 60 °C,
    /// pressures outside 50 to 110 kPa, winds outside 0 to 75 m/s.
    pub fn new(hours: Vec<WeatherHour>, origin: WeatherOrigin) -> Result<Self> {
        if hours.is_empty() {
            return Err(PhysicsError::Empty { what: "weather year".into() });
        }
        if hours.len() != 8760 && hours.len() != 8784 {
            return Err(PhysicsError::Contradiction {
                what: "weather year".into(),
                why: format!("has {} hours, not 8760 or 8784", hours.len()).into(),
            });
        }
        for (index, hour) in hours.iter().enumerate() {
            let name = |part: &str| format!("{part} of hour {}", index + 1);
            let calendar = (1..=12).contains(&hour.month) && (1..=31).contains(&hour.day) && hour.hour <= 23;
            if !calendar {
                return Err(PhysicsError::Contradiction { what: name("date").into(), why: "is not a date".into() });
            }
            let t = hour.temperature.value - ZERO_CELSIUS;
            if !(-70.0..=60.0).contains(&t) {
                admit::within(name("temperature"), t, -70.0, 60.0, "°C")?;
            }
            let p = hour.pressure.value;
            if !(50_000.0..=110_000.0).contains(&p) {
                admit::within(name("pressure"), p, 50_000.0, 110_000.0, "Pa")?;
            }
            let v = hour.wind.value;
            if !(0.0..=75.0).contains(&v) {
                admit::within(name("wind"), v, 0.0, 75.0, "m/s")?;
            }
        }
        Ok(Self { hours, origin })
    }

    /// The hours, in order.
    #[must_use]
    pub fn hours(&self) -> &[WeatherHour] {
        &self.hours
    }

    /// How the hours came about.
    #[must_use]
    pub fn origin(&self) -> WeatherOrigin {
        self.origin
    }

    /// Mean and first harmonic of the temperature.
    #[must_use]
    pub fn yearly_wave(&self) -> YearlyWave {
        let count = self.hours.len() as f64;
        let (mut mean, mut cosine, mut sine) = (0.0, 0.0, 0.0);
        for (index, hour) in self.hours.iter().enumerate() {
            let t = hour.temperature.value - ZERO_CELSIUS;
            let angle = std::f64::consts::TAU * (index as f64 + 0.5) / count;
            mean += t;
            cosine += t * angle.cos();
            sine += t * angle.sin();
        }
        mean /= count;
        cosine *= 2.0 / count;
        sine *= 2.0 / count;
        let amplitude = cosine.hypot(sine);
        // mean − amplitude·cos(angle − lowest) has its minimum at `lowest`.
        let lowest = (-sine).atan2(-cosine).rem_euclid(std::f64::consts::TAU);
        YearlyWave {
            mean: celsius(mean),
            amplitude: uom::si::f64::TemperatureInterval::new::<uom::si::temperature_interval::kelvin>(amplitude),
            coldest: ratio(lowest / std::f64::consts::TAU),
        }
    }
}

impl WeatherHour {
    /// Vapor pressure of the outside air, Pa.
    pub(crate) fn vapor_pa(&self) -> f64 {
        self.humidity.value() * saturation_over_water_pa(self.temperature.value - ZERO_CELSIUS)
    }
}
