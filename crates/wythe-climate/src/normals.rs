//! Monthly normals: twelve means, here from a small CSV; [`crate::stated`] has those given in place.
//!
//! The CSV has a header. Columns: `month` (1 to 12); `temperature_c` or `temperature_f`;
//! `relative_humidity_pct`, `dew_point_c` or `dew_point_f`; and, if wanted, `daily_range_c` or
//! `daily_range_f` (highest less lowest of a mean day; 10 K if not given) and `wind_m_s` or
//! `wind_mph` (3 m/s if not given). Lines that begin with `#` are notes.

use uom::si::f64::{TemperatureInterval, ThermodynamicTemperature, Velocity};
use uom::si::{temperature_interval, velocity};
use wythe_model::{SpeedUnit, TemperatureUnit};
use wythe_physics::air::saturation::saturation_over_water;
use wythe_physics::quantity::{RelativeHumidity, celsius, to_celsius};

use crate::hourly::{number, rows, whole};
use crate::mapped::{in_celsius, in_meters_per_second};
use crate::problem::{ProblemKind, Problems, Result};

/// Means of one month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MonthNormal {
    /// Mean temperature.
    pub temperature: ThermodynamicTemperature,
    /// Mean relative humidity, over water.
    pub humidity: RelativeHumidity,
    /// Highest less lowest temperature of a mean day.
    pub daily_range: TemperatureInterval,
    /// Mean wind speed.
    pub wind: Velocity,
}

/// A year of monthly means, from January.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MonthlyNormals {
    months: [MonthNormal; 12],
}

/// Daily range where none is given, K (assumption).
pub(crate) const DAILY_RANGE: f64 = 10.0;
/// Wind where none is given, m/s (assumption).
pub(crate) const WIND: f64 = 3.0;

/// The coldest mean of a warmest month where houses stand, °C (assumption).
const COLDEST_SUMMER: f64 = 3.0;

impl MonthlyNormals {
    /// Admits twelve months from January.
    ///
    /// # Errors
    /// Temperatures outside −60 to 45 °C, ranges outside 0 to 40 K, winds outside 0 to 40 m/s.
    pub fn new(months: [MonthNormal; 12]) -> Result<Self> {
        let mut problems = Problems::default();
        for month in &months {
            admit(month, None, &mut problems);
        }
        if problems.is_empty() { Ok(Self { months }) } else { Err(problems) }
    }

    /// The months from January.
    #[must_use]
    pub fn months(&self) -> &[MonthNormal; 12] {
        &self.months
    }

    /// Reads the CSV described above.
    ///
    /// # Errors
    /// All problems found, each with its line.
    pub fn read_csv(bytes: &[u8]) -> Result<Self> {
        let mut problems = Problems::default();
        let all = rows(bytes, &mut problems);
        let mut rows = all.iter().filter(|(_, row)| !row.get(0).is_some_and(|field| field.starts_with('#')));
        let Some((header_line, header)) = rows.next() else {
            problems.push(None, ProblemKind::Empty);
            return Err(problems);
        };
        let find = |name: &str| header.iter().position(|field| field == name);
        let month_column = find("month");
        let temperature = either(find("temperature_c"), find("temperature_f"));
        let humidity = find("relative_humidity_pct");
        let dew_point = either(find("dew_point_c"), find("dew_point_f"));
        let range = either(find("daily_range_c"), find("daily_range_f"));
        let wind = find("wind_m_s")
            .map(|c| (c, SpeedUnit::MeterPerSecond))
            .or_else(|| find("wind_mph").map(|c| (c, SpeedUnit::MilePerHour)));
        for (found, name) in [
            (month_column.is_some(), "month"),
            (temperature.is_some(), "temperature_c or temperature_f"),
            (humidity.is_some() || dew_point.is_some(), "relative_humidity_pct, dew_point_c or dew_point_f"),
        ] {
            if !found {
                problems.push(Some(*header_line), ProblemKind::MissingColumn(name.into()));
            }
        }
        let (Some(month_column), Some((temperature, t_unit))) = (month_column, temperature) else {
            return Err(problems);
        };
        if !problems.is_empty() {
            return Err(problems);
        }
        let mut months: [Option<MonthNormal>; 12] = [None; 12];
        for (line, row) in rows {
            if row.len() < header.len() {
                problems.push(Some(*line), ProblemKind::TooFewFields { got: row.len(), want: header.len() });
                continue;
            }
            let Some(number_of_month) = whole(&row[month_column], "month", *line, &mut problems) else {
                continue;
            };
            let mut read = |column: usize, name: &str| {
                let got = number(&row[column], name, *line, &mut problems);
                if got.is_none() {
                    problems.push(Some(*line), ProblemKind::MissingValue { field: name.into() });
                }
                got
            };
            let t = read(temperature, "temperature").map(|v| in_celsius(t_unit, v));
            let share = match (humidity, dew_point, t) {
                (Some(column), _, _) => read(column, "relative humidity").map(|v| v / 100.0),
                (None, Some((column, unit)), Some(t)) => {
                    read(column, "dew point").map(|v| share_of(in_celsius(unit, v), t))
                }
                _ => None,
            };
            let range = match range {
                None => Some(DAILY_RANGE),
                Some((column, unit)) => read(column, "daily range").map(|v| match unit {
                    TemperatureUnit::Celsius => v,
                    TemperatureUnit::Fahrenheit => v / 1.8,
                }),
            };
            let wind = match wind {
                None => Some(WIND),
                Some((column, unit)) => read(column, "wind").map(|v| in_meters_per_second(unit, v)),
            };
            let (Some(t), Some(share), Some(range), Some(wind)) = (t, share, range, wind) else {
                continue;
            };
            let Ok(humidity) = RelativeHumidity::percent(100.0 * share) else {
                problems.push(Some(*line), impossible("relative humidity", 100.0 * share, "%", 0.0, 100.0, ""));
                continue;
            };
            let normal = MonthNormal {
                temperature: celsius(t),
                humidity,
                daily_range: TemperatureInterval::new::<temperature_interval::kelvin>(range),
                wind: Velocity::new::<velocity::meter_per_second>(wind),
            };
            admit(&normal, Some(*line), &mut problems);
            let slot = usize::try_from(number_of_month - 1).ok().and_then(|n| months.get_mut(n));
            match slot {
                None => problems.push(Some(*line), ProblemKind::Month { month: number_of_month, what: "is no month" }),
                Some(Some(_)) => {
                    problems.push(Some(*line), ProblemKind::Month { month: number_of_month, what: "is given twice" })
                }
                Some(empty) => *empty = Some(normal),
            }
        }
        let mut out = Vec::with_capacity(12);
        for (number, month) in (1..).zip(&months) {
            match month {
                Some(month) => out.push(*month),
                None if problems.is_empty() || out.len() + 1 == number => {
                    problems.push(None, ProblemKind::Month { month: number as i64, what: "is missing" });
                }
                None => {}
            }
        }
        // Nobody builds where the warmest month stays near freezing; a column of °C read as °F does.
        let warmest = out.iter().map(|m| to_celsius(m.temperature)).fold(f64::NEG_INFINITY, f64::max);
        if out.len() == 12 && t_unit == TemperatureUnit::Fahrenheit && warmest < COLDEST_SUMMER {
            problems.push(
                Some(*header_line),
                ProblemKind::WrongUnit {
                    field: "temperature".into(),
                    hint: "the warmest month is below 3 °C (37 °F); is the column in °C?",
                },
            );
        }
        match <[MonthNormal; 12]>::try_from(out) {
            Ok(months) if problems.is_empty() => Ok(Self { months }),
            _ => Err(problems),
        }
    }
}

fn either(celsius: Option<usize>, fahrenheit: Option<usize>) -> Option<(usize, TemperatureUnit)> {
    celsius.map(|c| (c, TemperatureUnit::Celsius)).or_else(|| fahrenheit.map(|c| (c, TemperatureUnit::Fahrenheit)))
}

/// Relative humidity as a share from dew point and temperature in °C; over one where they
/// contradict each other.
pub(crate) fn share_of(dew_point: f64, t: f64) -> f64 {
    match (saturation_over_water(celsius(dew_point)), saturation_over_water(celsius(t))) {
        (Ok(vapor), Ok(full)) => vapor.value / full.value,
        _ => f64::INFINITY,
    }
}

pub(crate) fn impossible(
    field: &str,
    value: f64,
    unit: &'static str,
    low: f64,
    high: f64,
    hint: &'static str,
) -> ProblemKind {
    ProblemKind::Impossible { field: field.into(), value, unit, low, high, hint }
}

fn admit(month: &MonthNormal, line: Option<u64>, problems: &mut Problems) {
    let t = to_celsius(month.temperature);
    let checks = [
        ("temperature", t, "°C", -60.0, 45.0, if t > 45.0 { "; is it in °F?" } else { "" }),
        ("daily range", month.daily_range.value, "K", 0.0, 40.0, ""),
        ("wind", month.wind.value, "m/s", 0.0, 40.0, ""),
    ];
    for (field, value, unit, low, high, hint) in checks {
        if !(low..=high).contains(&value) {
            problems.push(line, impossible(field, value, unit, low, high, hint));
        }
    }
}
