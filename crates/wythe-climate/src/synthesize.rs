//! Hours from months: a year whose monthly means are the normals, with a daily wave on them.
//!
//! It has no spells of weather, so that it understates extremes: results from it say so.

use uom::si::f64::{Length, Pressure, Velocity};
use uom::si::pressure::pascal;
use uom::si::velocity::meter_per_second;
use wythe_physics::air::saturation::saturation_over_water;
use wythe_physics::air::state::standard_pressure;
use wythe_physics::quantity::{RelativeHumidity, celsius, to_celsius};
use wythe_physics::weather::{WeatherHour, WeatherOrigin, WeatherYear};

use crate::calendar::{DAYS, date};
use crate::normals::MonthlyNormals;
use crate::problem::{ProblemKind, Problems, Result};

/// Hour of the day at which a mean day is warmest (assumption: mid-afternoon).
const WARMEST: f64 = 15.0;

/// Pressure of the air at an altitude, as files without one take it.
///
/// # Errors
/// An altitude outside −5000 to 11 000 m.
pub fn pressure_at(altitude: Length) -> Result<Pressure> {
    standard_pressure(altitude).map_err(|error| Problems::one(None, ProblemKind::Refused(error)))
}

/// Makes a year of 8760 hours: temperature, vapor pressure and wind run in straight lines between
/// mid-months, adjusted so that each month keeps its mean, with a sine of the daily range on the
/// temperature.
///
/// # Errors
/// An altitude outside −5000 to 11 000 m, or normals beyond the range of the saturation curve.
pub fn synthesize(normals: &MonthlyNormals, altitude: Length) -> Result<WeatherYear> {
    let refused = |error| Problems::one(None, ProblemKind::Refused(error));
    let pressure = pressure_at(altitude)?;
    let months = normals.months();
    let temperature = through(months.map(|m| to_celsius(m.temperature)));
    let mut vapor = [0.0; 12];
    for (vapor, month) in vapor.iter_mut().zip(months) {
        let full = saturation_over_water(month.temperature).map_err(refused)?;
        *vapor = full.value * month.humidity.ratio().value;
    }
    let vapor = through(vapor);
    let wind = through(months.map(|m| m.wind.value));
    let range = through(months.map(|m| m.daily_range.value));
    let mut hours = Vec::with_capacity(8760);
    for n in 0..8760 {
        let (month, day, hour) = date(n, false);
        let wave = std::f64::consts::TAU * (f64::from(hour) - WARMEST) / 24.0;
        // One range a day, so that the wave adds nothing to the day's mean.
        let noon = n - usize::from(hour) + 12;
        let t = temperature[n] + 0.5 * range[noon].max(0.0) * wave.cos();
        let full = saturation_over_water(celsius(t)).map_err(refused)?.value;
        let share = (vapor[n] / full).clamp(0.0, 1.0);
        hours.push(WeatherHour {
            month,
            day,
            hour,
            temperature: celsius(t),
            humidity: RelativeHumidity::percent(100.0 * share).map_err(refused)?,
            pressure: Pressure::new::<pascal>(pressure.value),
            wind: Velocity::new::<meter_per_second>(wind[n].max(0.0)),
        });
    }
    WeatherYear::new(hours, WeatherOrigin::SynthesizedFromMonths).map_err(refused)
}

/// A line through the year, by hour, whose mean over each month is the month's value.
fn through(means: [f64; 12]) -> Vec<f64> {
    let mut starts = [0.0; 12];
    let mut at = 0.0;
    for (start, days) in starts.iter_mut().zip(DAYS) {
        *start = at;
        at += 24.0 * f64::from(days);
    }
    let middle = |m: usize| starts[m] + 12.0 * f64::from(DAYS[m]);
    let mut nodes = means;
    let mut out = vec![0.0; 8760];
    // Each pass adds to a node what its month lacks; the errors shrink to rounding.
    for _ in 0..60 {
        for (n, value) in out.iter_mut().enumerate() {
            let x = n as f64 + 0.5;
            let after = (0..12).find(|&m| middle(m) > x);
            let (a, b) = match after {
                Some(0) | None => (11, 0),
                Some(m) => (m - 1, m),
            };
            let (xa, xb) = match after {
                Some(0) => (middle(11) - 8760.0, middle(0)),
                None => (middle(11), middle(0) + 8760.0),
                Some(_) => (middle(a), middle(b)),
            };
            *value = nodes[a] + (nodes[b] - nodes[a]) * (x - xa) / (xb - xa);
        }
        for m in 0..12 {
            let (from, hours) = (starts[m] as usize, 24 * usize::from(DAYS[m]));
            let mean = out[from..from + hours].iter().sum::<f64>() / hours as f64;
            nodes[m] += means[m] - mean;
        }
    }
    out
}
